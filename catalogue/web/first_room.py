"""The first room of a catalogue, and of several together: reckoned once for each state of their records.

Whoever comes back while nothing was saved is shown what was reckoned, and many who come at once wait for one of them.
What depends on the minute, the calls that close, is asked each time.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, state_of_all_of
from catalogue.models import Composer, Performance, Work
from catalogue.web.built_once import built_once
from catalogue.web.hires import DueRow, hires_due
from catalogue.web.lacks import Lacking, lacking
from catalogue.web.today_page import TodayPage, today_page

Room = TypeVar("Room")
MOST = 64  # rooms that a process remembers
Editors = frozenset[Composer]


@dataclass(frozen=True, slots=True)
class HouseRoom:
    """What comes of several composers, and which of their sets are due back."""

    page: TodayPage
    due_back: tuple[DueRow, ...]


@dataclass(frozen=True, slots=True)
class FirstRoom:
    """What comes of one composer, which sets are due back, what the records lack, and whether there are any."""

    page: TodayPage
    due_back: tuple[DueRow, ...]
    lacking: tuple[Lacking, ...]
    has_works: bool
    has_performances: bool


def first_room(composer: Composer, *, can_edit: bool, today: date, language: str) -> FirstRoom:
    """Return the first room of a catalogue; one query where it was reckoned from the same records on the same day."""
    return once(first_room_at, (composer,), frozenset([composer] if can_edit else []), today, language)


def house_room(
    composers: Sequence[Composer], *, can_edit: Collection[Composer], today: date, language: str
) -> HouseRoom:
    """Return the first room of several catalogues; one query where it was reckoned from the same records."""
    return once(house_room_at, tuple(composers), frozenset(can_edit), today, language)


Reckoning = Callable[[State, tuple[Composer, ...], Editors, date, str], Room]


def once(
    reckon: Reckoning[Room], composers: tuple[Composer, ...], can_edit: Editors, today: date, language: str
) -> Room:
    state = state_of_all_of([one.pk for one in composers])
    asked = (state, composers, can_edit, today, language)
    return built_once((reckon, *asked), lambda: reckon(*asked)) if state.is_settled else reckon(*asked)


@once_for_each_state(MOST)
def house_room_at(
    _state: State, composers: tuple[Composer, ...], can_edit: Editors, today: date, language: str
) -> HouseRoom:
    page = today_page(composers, can_edit=can_edit, today=today, language=language)
    return HouseRoom(page, hires_due(composers, today=today, language=language))


@once_for_each_state(MOST)
def first_room_at(
    _state: State, composers: tuple[Composer, ...], can_edit: Editors, today: date, language: str
) -> FirstRoom:
    (composer,) = composers
    return FirstRoom(
        page=today_page(composers, can_edit=can_edit, today=today, language=language),
        due_back=hires_due(composers, today=today, language=language),
        lacking=lacking(composer, today=today),
        has_works=Work.objects.filter(composer=composer).exists(),
        has_performances=Performance.objects.filter(composer=composer).exists(),
    )
