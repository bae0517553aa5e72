"""What librarians expect of the front matter of a score, and which of it the records do not say.

The list is that of MOLA (Major Orchestra Librarians' Association), *Guidelines for Music Preparation*, as the Yale
School of Music reproduces it: the cover, the page of instruments, staging, departures from usual notation. What is said
of scores in C, of sung words and of electronics follows the score guidelines of the Society for the Promotion of New
Music (London) and the course on the documentation of mixed music of the Manhattan School of Music; that each
percussionist's instruments are listed is in both. What a record cannot show (that a second person has read the proofs)
is left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from enum import StrEnum

from catalogue.facts import WorkFacts
from catalogue.instrumentation import Instrumentation, Line
from catalogue.record_facts import EditionFacts, WorkRecords
from catalogue.rules.clearances import words_may_be_printed
from catalogue.rules.technical.terms import Setup
from catalogue.terms import Category, EditionKind

TRANSPOSING = frozenset(
    ("horn", "trumpet", "cornet", "flugelhorn", "wagner-tuba", "cor-anglais", "alto-flute", "oboe-damore",
     "basset-horn", "tenor-horn", "bass-trumpet", "piccolo-trumpet")
)  # fmt: skip
TRANSPOSING_KINDS = ("clarinet", "saxophone")
KEYED = ("clarinet", "horn", "trumpet")
"""Instruments whose keys the guideline wants named."""
SCORES = (
    EditionKind.FULL_SCORE, EditionKind.PLAYING_SCORE, EditionKind.STUDY_SCORE, EditionKind.SCORE_AND_PARTS,
    EditionKind.VOCAL_SCORE,
)  # fmt: skip


class Expected(StrEnum):
    """What is expected, in the order of the pages."""

    PUBLISHER = "publisher"
    ADDRESS = "address"
    COPYRIGHT = "copyright"
    DURATION = "duration"
    MOVEMENTS = "durations of movements"
    SUM = "sum of durations"
    KEYS = "keys"
    PITCH = "pitch"
    PERCUSSION = "percussion"
    STRENGTHS = "string strengths"
    ELECTRONICS = "technical requirements"
    DOCUMENTED = "date of documentation"
    PLACES = "stage plan"
    ACCIDENTALS = "accidentals"
    EXPLAINED = "signs without an explanation"
    WORDS = "sung words"
    FIRST = "first performance"


def score_of(editions: tuple[EditionFacts, ...]) -> EditionFacts | None:
    """Return the edition that is the score: a full one before others, the latest recorded first."""
    scores = [one for one in reversed(editions) if one.kind in SCORES]
    return min(scores, key=lambda one: SCORES.index(one.kind), default=None)


def transposes(forces: Instrumentation | None) -> bool:
    """Say whether an instrument is among the forces that is written at another pitch than it sounds, octaves aside."""
    return forces is not None and any(is_transposing(slug) for slug in slugs_of(forces))


def slugs_of(forces: Instrumentation) -> Iterator[str]:
    for line in forces.lines:
        yield line.instrument
        yield from (slug for chair in line.chairs for slug in chair.plays)


def is_transposing(slug: str) -> bool:
    return slug in TRANSPOSING or slug.endswith(TRANSPOSING_KINDS)


def lacking(
    work: WorkFacts, records: WorkRecords, setup: Setup | None, today: date, *, is_performed: bool, has_premiere: bool
) -> tuple[Expected, ...]:
    """Return what is expected and not known; ``is_performed``: there are performances, of which one was the first."""
    found = {
        **of_edition(work, records),
        **of_forces(work, records, today),
        **of_players(work.instrumentation, records, setup),
        Expected.FIRST: is_performed and not has_premiere,
    }
    return tuple(one for one in Expected if found.get(one))


def of_edition(work: WorkFacts, records: WorkRecords) -> dict[Expected, bool]:
    score = score_of(records.editions)
    publisher = (score.published_by if score else "") or work.publisher
    return {
        Expected.PUBLISHER: not publisher,
        Expected.ADDRESS: bool(publisher) and not (score and (score.publisher_address or score.publisher_website)),
        Expected.COPYRIGHT: not (score and score.copyright_line),
        Expected.PITCH: transposes(work.instrumentation) and not (score and score.pitch),
        Expected.ACCIDENTALS: bool(records.signs) and not (score and score.accidentals),
    }


def of_forces(work: WorkFacts, records: WorkRecords, today: date) -> dict[Expected, bool]:
    lasting = [one.duration for one in work.movements]
    known = [one.seconds for one in lasting if one]
    is_whole = bool(lasting) and len(known) == len(lasting)
    return {
        Expected.DURATION: work.duration is None,
        Expected.MOVEMENTS: len(lasting) > 1 and not is_whole,
        Expected.SUM: is_whole and work.duration is not None and apart(sum(known), work.duration.seconds),
        Expected.EXPLAINED: any(not one.meaning and one.cents is None for one in records.signs),
        Expected.WORDS: is_sung(work) and not any(words_may_be_printed(one, today) for one in records.text_sources),
    }


def apart(one: int, other: int) -> bool:
    """Say whether two durations differ by more than rounding to half a minute explains."""
    return abs(one - other) > 30


def is_sung(work: WorkFacts) -> bool:
    forces = work.instrumentation
    sung = forces is not None and any(line.family == "voice" for line in forces.lines)
    return work.category is not Category.STAGE and (sung or bool(work.text_author))


def of_players(forces: Instrumentation | None, records: WorkRecords, setup: Setup | None) -> dict[Expected, bool]:
    if forces is None:
        return {}
    drummed = [line for line in forces.lines if line.instrument == "percussion"]
    players = {one.player for one in records.percussion}
    wanted = sum(line.players[1] for line in drummed if line.players)
    listed = any(len(chair.plays) > 1 or chair.note for line in drummed for chair in line.chairs)
    return {
        Expected.KEYS: any(lacks_key(line) for line in forces.lines),
        Expected.PERCUSSION: bool(drummed) and not listed and len(players) < max(wanted, 1),
        Expected.STRENGTHS: any(line.family == "strings" and line.players is None for line in forces.lines),
        Expected.ELECTRONICS: forces.electronics != "none" and setup is None,
        Expected.DOCUMENTED: setup is not None and setup.documented is None,
        Expected.PLACES: setup is not None and not setup.places,
    }


def lacks_key(line: Line) -> bool:
    """Say whether a clarinet, horn or trumpet stands there without the key it is written in."""
    return line.instrument in KEYED and not line.note and not any(chair.note for chair in line.chairs)
