"""What the program has understood of a typed text: shown under the field, live and when a form comes back."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.exchange.movement_lists import MovementListError, read_movements
from catalogue.instrumentation import Instrumentation, InstrumentationError, read, write_shorthand, write_words
from catalogue.timing import Duration, DurationError, read_duration, write_duration
from catalogue.web.suggestions import Suggestion, suggestions_for, unknown_in


@dataclass(frozen=True, slots=True)
class Marked:
    """A typed text cut in three, so that the mistake in it can be marked."""

    before: str
    mistaken: str
    after: str

    @classmethod
    def at(cls, text: str, start: int, end: int) -> Marked:
        return cls(text[:start], text[start:end], text[end:])


@dataclass(frozen=True, slots=True)
class Said:
    """Something that was decided in reading, what it could also mean, and the words of the text that it is about."""

    message: str
    other: str
    words: str


@dataclass(frozen=True, slots=True)
class Reading:
    """What a text reads as, or why it cannot be read and where; ``remarks`` say what was decided on the way."""

    words: str = ""
    reason: str = ""
    marked: Marked | None = None
    instrumentation: Instrumentation | None = None
    suggestions: tuple[Suggestion, ...] = ()
    remarks: tuple[Said, ...] = ()


def canonical_text(text: str) -> str:
    """Return the canonical shorthand of a typed instrumentation, nothing for nothing. Raises InstrumentationError."""
    return write_shorthand(read(text)) if text.strip() else ""


def instrumentation_reading(text: str, language: str) -> Reading | None:
    """Read an instrumentation; None where nothing is typed. A word that is kept unknown is marked as a mistake is."""
    if not text.strip():
        return None
    try:
        found = read(text)
    except InstrumentationError as mistake:
        return Reading(
            reason=mistake.reason,
            marked=Marked.at(mistake.text, mistake.start, mistake.end),
            suggestions=suggestions_for(text, mistake.start, mistake.end, language),
        )
    unknown = unknown_in(found)
    return Reading(
        words=write_words(found, language),
        marked=Marked.at(text, unknown[0].start, unknown[0].end) if unknown else None,
        instrumentation=found,
        suggestions=suggestions_for(text, unknown[0].start, unknown[0].end, language) if unknown else (),
        remarks=remarks_on(text, found),
    )


def remarks_on(text: str, found: Instrumentation) -> tuple[Said, ...]:
    """Return what was decided on the way, each sentence once, beside the words of the text that it is about."""
    places: dict[tuple[str, str], list[str]] = {}
    for remark in found.warnings:
        places.setdefault((remark.message, remark.other), []).append(text[remark.start : remark.end].strip())
    return tuple(
        Said(message, other, ", ".join(dict.fromkeys(word for word in words if word)))
        for (message, other), words in places.items()
    )


def duration_reading(text: str, language: str) -> Reading | None:
    if not text.strip():
        return None
    try:
        return Reading(words=write_duration(read_duration(text), "words", language))
    except DurationError as mistake:
        return Reading(reason=mistake.reason, marked=Marked.at(mistake.text, mistake.start, mistake.end))


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


def mended(text: str, key: str, language: str) -> str:
    """Return the text with a word that was suggested for it written in its place."""
    reading = instrumentation_reading(text, language)
    chosen = [one for one in reading.suggestions if one.key == key] if reading else []
    return chosen[0].written_into(text) if chosen else text
