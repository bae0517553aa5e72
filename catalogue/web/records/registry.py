"""Every kind of record, by where one looks for it."""

from __future__ import annotations

from functools import cache

from django.db import models
from django.utils.translation import gettext_lazy as _

from catalogue.terms import FileKind
from catalogue.web.records.kinds import Kind, Shelf
from catalogue.web.records.of_catalogue import (
    AWARDS,
    BILLED_NAMES,
    BIOGRAPHIES,
    CONTACTS,
    HALLS,
    ORGANISATIONS,
    PEOPLE,
    PICTURES,
    REFEREES,
    REVIEWS,
)
from catalogue.web.records.of_files import FILES
from catalogue.web.records.of_materials import HIRES, REQUIREMENTS, SETS, TERMS
from catalogue.web.records.of_performances import DEADLINES, LEAD_TIMES, RETURNS, SESSIONS, STEPS
from catalogue.web.records.of_players import PERCUSSION, RETUNINGS, SIGNS, TUNINGS
from catalogue.web.records.of_sendings import SENDINGS
from catalogue.web.records.of_technical import RIDERS, SETUPS
from catalogue.web.records.of_works import (
    COMMISSIONS,
    CONTRIBUTORS,
    EDITIONS,
    PERFORMANCE_NOTES,
    PROGRAMME_NOTES,
    RECORDINGS,
    TEXT_SOURCES,
)

SHELVES = (
    Shelf(_("People, organisations and halls"), (PEOPLE, ORGANISATIONS, HALLS, CONTACTS, REFEREES, BILLED_NAMES)),
    Shelf(_("Words"), (PROGRAMME_NOTES, BIOGRAPHIES, PERFORMANCE_NOTES)),
    Shelf(_("For the players"), (PERCUSSION, SIGNS, TUNINGS, RETUNINGS)),
    Shelf(_("Sound, stage and light"), (SETUPS, RIDERS)),
    Shelf(_("Scores and parts"), (EDITIONS, SETS, HIRES, TERMS, REQUIREMENTS)),
    Shelf(_("Who has a part in it"), (CONTRIBUTORS, COMMISSIONS, TEXT_SOURCES)),
    Shelf(_("Heard and seen"), (RECORDINGS, REVIEWS, AWARDS, PICTURES, FILES)),
    Shelf(_("Around performances"), (SESSIONS, STEPS, RETURNS, DEADLINES, LEAD_TIMES)),
    Shelf(_("What went out"), (SENDINGS,)),
)
KINDS: dict[str, Kind] = {kind.slug: kind for shelf in SHELVES for kind in shelf}
AROUND_A_WORK: tuple[Kind, ...] = (
    COMMISSIONS, CONTRIBUTORS, TEXT_SOURCES, PROGRAMME_NOTES, PERFORMANCE_NOTES, PERCUSSION, SIGNS, TUNINGS, RETUNINGS,
    SETUPS, RIDERS, EDITIONS, SETS, HIRES, RECORDINGS, AWARDS, REVIEWS, PICTURES, FILES,
    SENDINGS,
)  # fmt: skip
MATERIAL: tuple[Kind, ...] = (EDITIONS, SETS, HIRES, TERMS, REQUIREMENTS, FILES, SENDINGS)
"""What a librarian sees and keeps; of the files, those of scores and parts, of what was sent, the papers of these."""
FILES_OF_MATERIAL = (FileKind.SCORE.value, FileKind.PARTS.value)


@cache
def of_models() -> dict[type[models.Model], Kind]:
    """Return the kinds of record by their models."""
    return {kind.model: kind for kind in KINDS.values()}
