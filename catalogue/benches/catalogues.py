"""Catalogues of a size, each made once in a run, and questions to their pages."""

from __future__ import annotations

from functools import cache
from typing import Any

from django.contrib.auth.models import User
from django.test import RequestFactory

from catalogue.benches.invented import NOW
from catalogue.benches.large import add_composer
from catalogue.models import Composer

FEWEST_WORKS, MOST_WORKS = 100, 10_000


@cache
def catalogue_of(performances: int) -> Composer:
    """Return a composer with so many performances, and with a tenth as many works within what is believable."""
    works = max(FEWEST_WORKS, min(performances // 10, MOST_WORKS))
    return add_composer(works=works, performances=performances, today=NOW.date())


def request_of(composer: Composer, **asked: str) -> Any:
    """Return what the owner of a catalogue asks a page."""
    request: Any = RequestFactory(SERVER_NAME="127.0.0.1").get(f"/c/{composer.slug}/", asked)
    request.user = User.objects.get(memberships__composer=composer)
    return request
