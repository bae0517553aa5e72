"""The public pages as they are set: what each tells machines, and its content, once for each state of the catalogue.

Around the content stands what is for one person (whose name is in the masthead, what they are told), so that a member
who looks at the page of a composer is given the same content as everybody, and nothing is gathered for them.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State
from catalogue.models import Composer, Performance, Work
from catalogue.web.public_pages import ComposerPage, Head, PublicEvent, PublicWork, composer_page, event_page, work_page

MOST = 32  # pages of each kind that a process remembers


@dataclass(frozen=True, slots=True)
class SetPage:
    """A public page but for what stands around its content."""

    head: Head
    body: SafeString


@once_for_each_state(MOST)
def set_composer(_state: State, composer: Composer, today: date, language: str) -> SetPage:
    return set_in("public/parts/composer.html", composer, composer_page(composer, today=today, language=language))


@once_for_each_state(MOST)
def set_work(_state: State, composer: Composer, today: date, language: str, work: Work) -> SetPage:
    """Set the page of a work that is public."""
    return set_in("public/parts/work.html", composer, work_page(composer, work, today=today, language=language))


@once_for_each_state(MOST)
def set_performance(
    _state: State, composer: Composer, _today: date, language: str, performance: Performance
) -> SetPage:
    """Set the page of a performance that is public."""
    return set_in("public/parts/performance.html", composer, event_page(composer, performance, language=language))


def set_in(template: str, composer: Composer, page: ComposerPage | PublicWork | PublicEvent) -> SetPage:
    return SetPage(page.head, render_to_string(template, {"page": page, "whose": composer}))
