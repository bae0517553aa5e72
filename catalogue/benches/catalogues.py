"""Catalogues of a size, each made once in a run, and questions to their pages."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User
from django.test import RequestFactory

from catalogue.benches.invented import NOW
from catalogue.benches.large import add_composer
from catalogue.models import Composer

FEWEST_WORKS, MOST_WORKS = 5, 10_000

_made: dict[int, str] = {}  # by the number of performances, what the composer's address is


def catalogue_of(performances: int) -> Composer:
    """Return a composer with so many performances and a tenth as many works, made once in a database."""
    made = Composer.objects.filter(slug=_made.get(performances, "")).first()
    if made is None or made.performances.count() != performances:
        works = max(FEWEST_WORKS, min(performances // 10, MOST_WORKS))
        made = add_composer(works=works, performances=performances, today=NOW.date())
        _made[performances] = made.slug
    return made


def request_of(composer: Composer, **asked: str) -> Any:
    """Return what the owner of a catalogue asks a page."""
    request: Any = RequestFactory(SERVER_NAME="127.0.0.1").get(f"/c/{composer.slug}/", asked)
    request.user = User.objects.get(memberships__composer=composer)
    return request
