"""The first room of a catalogue, and of several together: reckoned once for each state of their records.

Whoever comes back while nothing was saved is shown what was reckoned, and many who come at once wait for one of them.
What depends on the minute, the calls that close, is asked each time. The entries are kept as they are set; each holds
forms, whose token is that of whoever asks.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date
from secrets import token_urlsafe
from typing import TypeVar

from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, state_of_all_of
from catalogue.models import Composer, Performance, Work
from catalogue.web.built_once import built_once
from catalogue.web.hires import DueRow, hires_due
from catalogue.web.house import HOUSE
from catalogue.web.lacks import Lacking, lacking
from catalogue.web.today_page import TodayPage, today_page

Room = TypeVar("Room")
MOST = 64  # rooms that a process remembers
TOKEN = token_urlsafe(32)  # what nobody can have typed, since every process makes its own
Editors = frozenset[Composer]


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
class HouseRoom:
    """What comes of several composers, and which of their sets are due back."""

    page: TodayPage
    entries: Entries
    due_back: tuple[DueRow, ...]


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
    return once(state, first_room_at, (composer,), frozenset([composer] if can_edit else []), today, language)


def house_room(
    composers: Sequence[Composer], *, can_edit: Collection[Composer], today: date, language: str
) -> HouseRoom:
    """Return the first room of several catalogues; one query where it was reckoned from the same records."""
    state = state_of_all_of([one.pk for one in composers])
    return once(state, house_room_at, tuple(composers), frozenset(can_edit), today, language)


Reckoning = Callable[[State, tuple[Composer, ...], Editors, date, str], Room]


def once(
    state: State,
    reckon: Reckoning[Room],
    composers: tuple[Composer, ...],
    can_edit: Editors,
    today: date,
    language: str,
) -> Room:
    asked = (state, composers, can_edit, today, language)
    return built_once((reckon, *asked), lambda: reckon(*asked)) if state.is_settled else reckon(*asked)


@once_for_each_state(MOST)
def house_room_at(
    _state: State, composers: tuple[Composer, ...], can_edit: Editors, today: date, language: str
) -> HouseRoom:
    page = today_page(composers, can_edit=can_edit, today=today, language=language)
    entries = entries_of(page, whose=True, then=HOUSE)
    return HouseRoom(page, entries, hires_due(composers, today=today, language=language))


@once_for_each_state(MOST)
def first_room_at(
    _state: State, composers: tuple[Composer, ...], can_edit: Editors, today: date, language: str
) -> FirstRoom:
    (composer,) = composers
    page = today_page(composers, can_edit=can_edit, today=today, language=language)
    return FirstRoom(
        page=page,
        entries=entries_of(page),
        due_back=hires_due(composers, today=today, language=language),
        lacking=lacking(composer, today=today),
        has_works=Work.objects.filter(composer=composer).exists(),
        has_performances=Performance.objects.filter(composer=composer).exists(),
    )


def entries_of(page: TodayPage, **told: object) -> Entries:
    """Set the entries with a mark in their forms where the token of whoever asks stands."""

    def set_in(template: str, **shown: object) -> SafeString:
        return render_to_string(f"today/parts/{template}", {"csrf_token": TOKEN, **told, **shown})

    return Entries(
        coming=set_in("coming.html", page=page),
        ahead=set_in("entries.html", entries=page.ahead),
        over=set_in("entries.html", entries=page.over),
    )
