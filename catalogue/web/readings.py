"""What the program has understood of a typed text: shown under the field, live and when a form comes back."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.exchange.movement_lists import MovementListError, read_movements
from catalogue.instrumentation import Instrumentation, InstrumentationError, read, write_shorthand, write_words
from catalogue.timing import Duration, DurationError, Mistake, read_duration, write_duration


@dataclass(frozen=True, slots=True)
class Marked:
    """A typed text cut in three, so that the mistake in it can be marked."""

    before: str
    mistaken: str
    after: str

    @classmethod
    def of(cls, mistake: Mistake | InstrumentationError) -> Marked:
        start, end = mistake.start, max(mistake.end, mistake.start)
        return cls(mistake.text[:start], mistake.text[start:end], mistake.text[end:])


@dataclass(frozen=True, slots=True)
class Reading:
    """What a text reads as, or why it cannot be read and where."""

    words: str = ""
    reason: str = ""
    marked: Marked | None = None
    instrumentation: Instrumentation | None = None
    suggestions: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()


def canonical_text(text: str) -> str:
    """Return the canonical shorthand of a typed instrumentation, nothing for nothing. Raises InstrumentationError."""
    return write_shorthand(read(text)) if text.strip() else ""


def instrumentation_reading(text: str, language: str) -> Reading | None:
    """Read an instrumentation; None where nothing is typed."""
    if not text.strip():
        return None
    try:
        found = read(text)
    except InstrumentationError as mistake:
        words = tuple(word for word in mistake.expected if helps(mistake, word))
        return Reading(reason=mistake.reason, marked=Marked.of(mistake), suggestions=words[:3])
    remarks = tuple(remark.message for remark in found.warnings)
    return Reading(words=write_words(found, language), instrumentation=found, remarks=remarks)


def helps(mistake: InstrumentationError, word: str) -> bool:
    """Say whether the text reads further with this word in the place of the mistake."""
    marked = Marked.of(mistake)
    try:
        read(f"{marked.before}{word}{marked.after}")
    except InstrumentationError as next_mistake:
        return next_mistake.start > mistake.start
    return True


def duration_reading(text: str, language: str) -> Reading | None:
    if not text.strip():
        return None
    try:
        return Reading(words=write_duration(read_duration(text), "words", language))
    except DurationError as mistake:
        return Reading(reason=mistake.reason, marked=Marked.of(mistake))


@dataclass(frozen=True, slots=True)
class MovementsReading:
    """How many movements a list holds, and how long they last together where each says so."""

    number: int = 0
    together: str = ""
    untimed: int = 0
    reason: str = ""


def movements_reading(text: str, language: str) -> MovementsReading | None:
    try:
        movements = read_movements(text)
    except MovementListError as mistake:
        return MovementsReading(reason=mistake.reason)
    durations = [movement.duration for movement in movements if movement.duration]
    together = write_duration(sum(durations, Duration(0)), language=language) if durations else ""
    return MovementsReading(len(movements), together, len(movements) - len(durations)) if movements else None


def mended(text: str, reading: Reading | None, word: str) -> str:
    """Return the text with a suggested word in the place of the mistake."""
    if reading is None or reading.marked is None or word not in reading.suggestions:
        return text
    return f"{reading.marked.before}{word}{reading.marked.after}"
