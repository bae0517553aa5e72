"""The first room of a catalogue: reckoned once for each state of its records.

Whoever comes back while nothing was saved is shown what was reckoned, and many who come at once wait for one of them.
What depends on the minute, the calls that close, is asked each time. The entries are kept as they are set; each holds
forms, whose token is that of whoever asks.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from secrets import token_urlsafe

from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State
from catalogue.models import Composer, Performance, Work
from catalogue.web.built_once import built_once
from catalogue.web.hires import DueRow, hires_due
from catalogue.web.lacks import Lacking, lacking
from catalogue.web.today_page import TodayPage, today_page

MOST = 64  # rooms that a process remembers
TOKEN = token_urlsafe(32)  # what nobody can have typed, since every process makes its own


@dataclass(frozen=True, slots=True)
class Entries:
    """The entries of a room as they are set: what comes, what is due for later ones, what is over."""

    coming: SafeString
    ahead: SafeString
    over: SafeString

    def with_token(self, token: str) -> Entries:
        """Return them with the token of whoever asks in their forms."""
        parts = (self.coming, self.ahead, self.over)
        return Entries(*(SafeString(part.replace(TOKEN, token)) for part in parts))


@dataclass(frozen=True, slots=True)
class FirstRoom:
    """What comes of one composer, which sets are due back, what the records lack, and whether there are any."""

    page: TodayPage
    entries: Entries
    due_back: tuple[DueRow, ...]
    lacking: tuple[Lacking, ...]
    has_works: bool
    has_performances: bool


def first_room(state: State, composer: Composer, *, can_edit: bool, today: date, language: str) -> FirstRoom:
    """Return the first room of a catalogue in a state of all of it; what was reckoned of it that day is not again."""
    asked = (state, composer, can_edit, today, language)
    if not state.is_settled:
        return first_room_at(*asked)
    return built_once((first_room_at, *asked), lambda: first_room_at(*asked))


@once_for_each_state(MOST)
def first_room_at(_state: State, composer: Composer, can_edit: bool, today: date, language: str) -> FirstRoom:
    page = today_page(composer, can_edit=can_edit, today=today, language=language)
    return FirstRoom(
        page=page,
        entries=entries_of(page),
        due_back=hires_due([composer], today=today, language=language),
        lacking=lacking(composer, today=today),
        has_works=Work.objects.filter(composer=composer).exists(),
        has_performances=Performance.objects.filter(composer=composer).exists(),
    )


def entries_of(page: TodayPage) -> Entries:
    """Set the entries with a mark in their forms where the token of whoever asks stands."""

    def set_in(template: str, **shown: object) -> SafeString:
        return render_to_string(f"today/parts/{template}", {"csrf_token": TOKEN, **shown})

    return Entries(
        coming=set_in("coming.html", page=page),
        ahead=set_in("entries.html", entries=page.ahead),
        over=set_in("entries.html", entries=page.over),
    )
