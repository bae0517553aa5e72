"""What every page shows around its own content: the rooms of the house, and whose catalogue it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.models.records import READING_ROLES
from catalogue.web.seats import Seat

# name as printed, name of the address
ROOMS: tuple[tuple[Promise, str], ...] = (
    (_("Today"), "today"),
    (_("Works"), "work-list"),
    (_("Performances"), "performance-list"),
    (_("Records"), "record-index"),
    (_("Calls"), "call-list"),
    (_("Documents"), "document-list"),
    (_("Profile"), "profile"),
)
MATERIAL_ROOMS: tuple[tuple[Promise, str], ...] = (
    (_("Today"), "today"),
    (_("Works"), "work-list"),
    (_("Performances"), "performance-list"),
    (_("Scores and parts"), "record-index"),
    (_("Documents"), "document-list"),
)
MATERIAL_OF_HOUSE: tuple[tuple[Promise, str], ...] = (
    (_("Hires"), "house-hires"),
    (_("Deadlines"), "house-deadlines"),
)
ROOMS_OF_HOUSE: tuple[tuple[Promise, str], ...] = (
    (_("Today"), "house-today"),
    (_("Works"), "house-works"),
    (_("Performances"), "house-performances"),
    (_("Deadlines"), "house-deadlines"),
    (_("Hires"), "house-hires"),
    (_("Calls"), "house-calls"),
)


@dataclass(frozen=True, slots=True)
class Room:
    """A door in the masthead."""

    name: Promise
    address: str
    is_current: bool


def shell(request: HttpRequest) -> dict[str, Any]:
    """Tell templates the composer whose catalogue is open, if any, and its rooms."""
    composer = getattr(request, "composer", None)
    if composer is None:
        seats = getattr(request, "seats", None)
        return {} if seats is None else {"rooms": rooms_of_house(seats, request.path)}
    is_librarian = getattr(request, "is_librarian", False)
    return {
        "composer": composer,
        "has_several": getattr(request, "has_several", False),
        "can_edit": getattr(request, "can_edit", False),
        "is_librarian": is_librarian,
        "rooms": rooms_of(composer.slug, request.path, MATERIAL_ROOMS if is_librarian else ROOMS),
    }


def rooms_of(slug: str, path: str, rooms: tuple[tuple[Promise, str], ...]) -> tuple[Room, ...]:
    """Return the rooms of a catalogue; one is the current one where the path lies in it.

    The first room's address begins those of all, so that room is current only where the path is its own or leads to
    what its page lists.
    """
    return current_among([(name, reverse(view, args=[slug])) for name, view in rooms], path)


def rooms_of_house(seats: Sequence[Seat], path: str) -> tuple[Room, ...]:
    """Return the rooms of all composers together; whoever keeps material alone has those of the material."""
    sees_all = any(seat.role in READING_ROLES for seat in seats)
    rooms = ROOMS_OF_HOUSE if sees_all else MATERIAL_OF_HOUSE
    return current_among([(name, reverse(view)) for name, view in rooms], path)


def current_among(addresses: Sequence[tuple[Promise, str]], path: str) -> tuple[Room, ...]:
    first = addresses[0][1]
    return tuple(
        Room(
            name,
            address,
            path == first or path.startswith(f"{first}missing/") if address == first else path.startswith(address),
        )
        for name, address in addresses
    )


def first_room(slug: str) -> str:
    return reverse(ROOMS[0][1], args=[slug])
