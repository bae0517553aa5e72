"""The first room of several catalogues: put together of pieces that are kept, each until its composer is saved to.

When each performance is, what decides whether it is shown, and its entry as it is set are kept; so are the whole room
and what stands around it, until anything is saved. Only calls that close meanwhile are left out each time.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import NamedTuple

from django.http import HttpRequest
from django.middleware.csrf import get_token
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from catalogue.drawings.ninety_days import DAYS
from catalogue.gathering.among import among
from catalogue.gathering.families import gather_claims
from catalogue.gathering.journeys import gather_around
from catalogue.gathering.of_composers import OfComposers
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, held_by_everything, state_of_everything
from catalogue.models import Composer, Performance
from catalogue.timing import PartialDate, write_date
from catalogue.web.built_once import built_once
from catalogue.web.call_list import CallRow, Closing, closing_of
from catalogue.web.coming_events import (
    Event,
    Glance,
    arranged,
    counted,
    event_of,
    glance_of,
    picture_of,
)
from catalogue.web.first_room import TOKEN
from catalogue.web.hires import DueRow, hires_due
from catalogue.web.house import HOUSE
from catalogue.web.house_days import Days, chosen_of, days_of
from catalogue.web.today_page import MOST_AFTER, MOST_READ, Telling, coming_of, day_and_month, works_on

MOST_TOGETHER = 30  # shown of the coming days, of what is due for later ones, of calls that close and sets due back
FULL, SHORT = "today/parts/coming_entry.html", "today/parts/entry.html"  # what comes, and what is told of others
MOST_ROOMS, MOST_COMPOSERS, MOST_PIECES = 16, 20_000, 4_000  # that a process remembers
CLOSING = 2 * MOST_TOGETHER  # calls that are kept, so that some may close


@dataclass(frozen=True, slots=True)
class Asked:
    """Whose room is asked for, by keys, which of them somebody may edit, and on which day, in which language."""

    keys: tuple[int, ...]
    can_edit: frozenset[int]
    today: date
    language: str
    clock: str
    composers: tuple[Composer, ...] = field(compare=False, repr=False)

    @property
    def last(self) -> date:
        return self.today + timedelta(days=DAYS)


@dataclass(frozen=True, slots=True)
class HouseRoom:
    """What comes of several composers: the words and the picture above, entries as they are set, calls and sets.

    ``later`` is how many performances come that are not shown; of sets one more is read than is shown.
    """

    since: str
    until: str
    summary: str
    picture: SafeString
    coming: SafeString
    ahead: SafeString
    over: SafeString
    is_later: bool
    later: int
    sets: tuple[DueRow, ...]
    calls: tuple[Closing, ...]

    @property
    def due_back(self) -> tuple[DueRow, ...]:
        return self.sets[:MOST_TOGETHER]

    @property
    def is_more_due_back(self) -> bool:
        return len(self.sets) > MOST_TOGETHER


@dataclass(frozen=True, slots=True)
class RoomNow:
    """A room with the calls that have not closed, and with the token of whoever asks in its forms."""

    room: HouseRoom
    coming: SafeString
    ahead: SafeString
    over: SafeString
    closing: tuple[CallRow, ...]
    is_more_closing: bool


def house_room(
    composers: Sequence[Composer], *, can_edit: Collection[Composer], today: date, language: str
) -> HouseRoom:
    """Return the first room of several catalogues.

    One query where it was reckoned from the same records, none of it on SQLite where nothing was written; at most 24.
    """
    keys, edited = tuple(one.pk for one in composers), frozenset(one.pk for one in can_edit)
    asked = Asked(keys, edited, today, language, timezone.get_current_timezone_name(), tuple(composers))
    state = state_of_everything()
    if not state.is_settled:
        return house_room_at(state, asked)
    return built_once((house_room_at, state, asked), lambda: house_room_at(state, asked))


def room_now(
    room: HouseRoom, composers: Sequence[Composer], request: HttpRequest, *, now: datetime, language: str
) -> RoomNow:
    """Return a room as somebody sees it at a moment; one more query where so many calls have closed that some lack."""
    token = get_token(request)
    calls = [one.row for one in room.calls if one.moment is None or one.moment > now]
    if len(calls) <= MOST_TOGETHER and len(room.calls) > CLOSING:
        calls = [one.row for one in closing_of(composers, now=now, language=language, most=MOST_TOGETHER + 1)]
    coming, ahead, over = (SafeString(part.replace(TOKEN, token)) for part in (room.coming, room.ahead, room.over))
    return RoomNow(room, coming, ahead, over, tuple(calls[:MOST_TOGETHER]), len(calls) > MOST_TOGETHER)


@once_for_each_state(MOST_ROOMS)
def house_room_at(state: State, asked: Asked) -> HouseRoom:
    today, last, language, read = asked.today, asked.last, asked.language, Read(asked.today)
    days = _days.to(state, {key: key for key in asked.keys}, today, lambda keys: days_of(keys, today, last))
    chosen = chosen_of(days.values())
    glances = _glances.to(state, chosen.owners, (today, language), lambda keys: read.glances(keys, language))
    coming, over = (
        [glances[one.key] for one in places if one.key in glances]
        for places in ((*chosen.coming, *chosen.named), chosen.over)
    )
    found = arranged(coming, over, last, most=MOST_TOGETHER)
    all_read = chosen.number <= MOST_READ
    shown, ahead, after = found.shown, found.ahead[:MOST_TOGETHER], found.over[:MOST_AFTER]
    entries = entries_of(state, asked, read, {FULL: shown, SHORT: (*ahead, *after)})
    return HouseRoom(
        since=day_and_month(today, last, language),
        until=write_date(PartialDate.of(last), language),
        summary=counted(len(found.near) if all_read else chosen.near, found.due, is_part=chosen.is_part),
        picture=picture_of(found.near, today, language),
        coming=listed(entries, shown),
        ahead=listed(entries, ahead),
        over=listed(entries, after),
        is_later=found.is_later,
        later=(found.number if all_read else chosen.number) - len(shown),
        sets=hires_due(asked.composers, today=today, language=language, most=MOST_TOGETHER + 1),
        calls=closing_of(asked.composers, now=timezone.now(), language=language, most=CLOSING + 1),
    )


# ---- pieces


class Piece(NamedTuple):
    """An entry: of which performance, set by which template, for somebody who may edit it or not."""

    key: int
    template: str
    can_edit: bool


class Read:
    """The performances that were read to answer one request."""

    def __init__(self, today: date) -> None:
        self.today = today
        self.found: dict[int, Event] = {}

    def events(self, keys: Collection[int]) -> list[Event]:
        """Return performances by their keys, those that are still there; eleven queries where some are not read yet."""
        missing = [key for key in keys if key not in self.found]
        if missing:
            records = list(Performance.objects.filter(among("id", missing)).with_everything_printed())
            around = gather_around(records)
            self.found |= {one.pk: event_of(one, around[one.pk], self.today) for one in records}
        return [self.found[key] for key in keys if key in self.found]

    def glances(self, keys: Collection[int], language: str) -> dict[int, Glance]:
        return {one.record.pk: glance_of(one, self.today, language) for one in self.events(keys)}


def entries_of(state: State, asked: Asked, read: Read, wanted: Mapping[str, Sequence[Glance]]) -> dict[int, SafeString]:
    """Return entries as they are set, by the performance; ``wanted`` says which template sets which."""
    owners = {
        Piece(one.key, template, one.composer in asked.can_edit): one.composer
        for template, glances in wanted.items()
        for one in glances
    }
    told = (asked.today, asked.language)
    found = _entries.to(state, owners, told, lambda pieces: set_entries(pieces, asked, read))
    return {piece.key: entry for piece, entry in found.items()}


def set_entries(pieces: Sequence[Piece], asked: Asked, read: Read) -> dict[Piece, SafeString]:
    """Set entries; three queries for those that say what each is the first of."""
    whose, events = {one.pk: one for one in asked.composers}, read.events([piece.key for piece in pieces])
    by_key = {one.record.pk: one for one in events}
    full = [by_key[piece.key] for piece in pieces if piece.template == FULL and piece.key in by_key]
    theirs = [whose[key] for key in sorted({one.record.composer_id for one in full})]
    claims = gather_claims(theirs, works_on(full), today=asked.today, shown=[one.record.pk for one in full])
    editable = frozenset(one for one in asked.composers if one.pk in asked.can_edit)
    telling = Telling(whose, editable, asked.today, asked.last, asked.language)
    shown = {"whose": True, "then": HOUSE, "csrf_token": TOKEN}
    return {
        piece: render_to_string(piece.template, {**shown, "entry": coming_of(by_key[piece.key], claims, telling)})
        for piece in pieces
        if piece.key in by_key
    }


def listed(entries: Mapping[int, SafeString], shown: Sequence[Glance]) -> SafeString:
    """Return the entries of some performances as a list, nothing where there is none."""
    parts = [entries[one.key] for one in shown if one.key in entries]
    return format_html('<ol class="entries">{}</ol>', SafeString("".join(parts))) if parts else SafeString()


_days: OfComposers[int, Days] = OfComposers(held_by_everything(), most_askings=2, most=MOST_COMPOSERS)
_glances: OfComposers[int, Glance] = OfComposers(held_by_everything(), most_askings=8, most=MOST_PIECES)
_entries: OfComposers[Piece, SafeString] = OfComposers(held_by_everything(), most_askings=8, most=MOST_PIECES)
