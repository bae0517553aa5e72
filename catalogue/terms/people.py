"""People, bodies, and who keeps a catalogue."""

from __future__ import annotations

from enum import StrEnum


class OrganisationKind(StrEnum):
    """What an organisation is to the composer; one may be several."""

    ENSEMBLE = "ensemble"
    ORCHESTRA = "orchestra"
    CHOIR = "choir"
    PRESENTER = "presenter"
    FESTIVAL = "festival"
    PUBLISHER = "publisher"
    FUNDER = "funder"
    BROADCASTER = "broadcaster"
    UNIVERSITY = "university"
    OTHER = "other"


class Role(StrEnum):
    """What a member may do with a composer's catalogue; a librarian sees and keeps the material alone."""

    OWNER = "owner"
    EDITOR = "editor"
    VIEWER = "viewer"
    LIBRARIAN = "librarian"


class HandOverWay(StrEnum):
    """Whether a catalogue was given away or taken over."""

    GIVEN = "given"
    TAKEN = "taken"


class ContactRole(StrEnum):
    """What somebody at an organisation is asked about."""

    PRODUCTION = "production"
    LIBRARIAN = "librarian"
    TECHNICIAN = "technician"
    PRESS = "press"
    ARTISTIC = "artistic direction"
    RIGHTS = "rights"
    OTHER = "other"
