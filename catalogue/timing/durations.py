"""How long a piece of music lasts: whole seconds, exact or about.

Read is what people write: primes of every kind (``12′30″``), clock figures (``12:30`` is minutes and seconds,
``1:02:30`` has hours), units in five languages (``1h 5m``, ``12½ min``, ``750 s``), plain words (``half an hour``), and
ISO 8601 (``PT12M30S``). A bare number is a question, not a guess, and of a range one has to be chosen. Forms of the
trade: common practice.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import floor
from typing import Literal

from catalogue.timing.mistakes import Mistake
from catalogue.timing.patterns import Pattern
from catalogue.timing.spoken import SECONDS_OF, spoken_range, spoken_seconds
from catalogue.timing.words import NO_BREAK_SPACE, TYPED, Language, folded, one_of, words_in

Style = Literal["primes", "clock", "words", "iso"]
Bare = Literal["minutes", "seconds"]

LONGEST = 2**31 - 1  # seconds, some 68 years: what a database's whole number holds
BELOW = {"hour": "minute", "minute": "second"}


class DurationError(Mistake):
    """A duration that cannot be read."""


@dataclass(frozen=True, slots=True, order=True)
class Duration:
    """How long a piece lasts.

    Sums are exact, and a sum with an approximate part is approximate; of two equal lengths the exact one comes first.

    >>> read_duration("12′30″") + read_duration("c. 4′")
    Duration(seconds=990, approximate=True)
    """

    seconds: int
    approximate: bool = False

    def __post_init__(self) -> None:
        if not 0 <= self.seconds <= LONGEST:
            raise ValueError(f"A duration has between 0 and {LONGEST} seconds, not {self.seconds}.")

    def __add__(self, other: Duration) -> Duration:
        return Duration(self.seconds + other.seconds, self.approximate or other.approximate)

    def rounded(self, to: int = 60) -> Duration:
        """Return the nearest multiple of ``to`` seconds (halves upwards), approximate where that changes it.

        Movements are added first and rounded once: 3′29″ + 4′29″ + 2′29″ is 10′, not 9′.
        """
        nearest = (2 * self.seconds + to) // (2 * to) * to
        return Duration(nearest, self.approximate or nearest != self.seconds)

    def __str__(self) -> str:
        return write_duration(self)


# ---- reading

VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
SINGLE = "['’‘′`´ʹʼ＇‵]"
BROKEN = rf"(?:[0-9]{{1,9}}\s?)?[{VULGAR}]|(?:[0-9]{{1,9}}\s)?[0-9]{{1,2}}/[0-9]{{1,2}}"
NUMBER = rf"(?:{BROKEN}|[0-9]{{1,9}}(?:[.,][0-9]{{1,6}})?)"
PRIMES = {"second": rf"{SINGLE}{{2}}|[\"”“″ʺ＂„‟]", "minute": SINGLE}
UNIT = rf"(?P<second>{PRIMES['second']})|(?P<minute>{PRIMES['minute']})|(?P<word>[^\W\d_]+)\.?"
FIGURE = Pattern(rf"(?P<number>{NUMBER})\s*-?\s*(?:{UNIT})?")
JOIN = Pattern(rf"\s*{one_of(TYPED.joins)}?\s*", re.IGNORECASE)
LABEL = (
    rf"(?:{one_of(TYPED.before_labels)}\s+)*(?:(?P<roughly>{one_of(TYPED.roughly)})\s+)?{one_of(TYPED.labels)}"
    rf"(?:\s*{one_of(TYPED.after_labels)})?\s*:?"
)
HEAD = Pattern(rf"\s*(?:{LABEL})?\s*(?P<about>{one_of(TYPED.about)})?\s*", re.IGNORECASE)
ABOUT_BEHIND = rf"[(\[]?(?P<about>{one_of(TYPED.about)})?[)\]]?"
TAIL = Pattern(rf"(?<![^\W\d_])\s*(?:{one_of(TYPED.as_labels)}\s*)?{ABOUT_BEHIND}\s*$", re.IGNORECASE)
CLOCK = Pattern(r"([0-9]{1,5}):([0-9]{1,3})(?::([0-9]{1,3}))?(?:\s*(?P<word>[^\W\d_]+)\.?)?")
ISO_FIGURE = r"(\d{1,9}(?:[.,]\d{1,6}(?=[HMS]\Z))?)"
ISO = Pattern(
    rf"P(?:(\d{{1,6}})D)?(?:T(?=[0-9])(?:{ISO_FIGURE}H)?(?:{ISO_FIGURE}M)?(?:{ISO_FIGURE}S)?)?",
    re.IGNORECASE | re.ASCII,
)
LOW, HIGH = rf"(?P<low>{NUMBER})(?P<unit>[^-–—]{{0,12}}?)", rf"(?P<high>{NUMBER})"
RANGES = tuple(
    Pattern(form, re.IGNORECASE)
    for form in (
        rf"(?:(?:from|von|de|da|dai|desde)\s+)?{LOW}\s*(?:[-–—]|\b(?:to|bis|à|a|ai|hasta|or|oder|ou|o)\b)\s*{HIGH}",
        rf"(?:between|zwischen|entre|tra|fra)\s+{LOW}\s*\b(?:and|und|et|e|y)\b\s*{HIGH}",
    )
)


def read_duration(text: str, *, bare: Bare | None = None) -> Duration:
    """Return the duration that a person wrote, parts of a second rounded to the nearest.

    ``bare`` says what a number without a unit means; without it, such a number raises. Raises DurationError.

    >>> read_duration("ca. 12′30″")
    Duration(seconds=750, approximate=True)
    """
    if len(text) > 200:
        raise DurationError("This is too long for a duration.", text, 0, len(text))
    text = _without_brackets(text)
    start, end, approximate = _without_about(text)
    if start == end:
        raise DurationError("No duration is given.", text, 0, len(text))
    seconds = _seconds(text, start, end, bare)
    whole = floor(seconds + Fraction(1, 2))
    if whole > LONGEST:
        raise DurationError("This is longer than any duration that can be kept.", text, start, end)
    return Duration(whole, approximate)


def _without_brackets(text: str) -> str:
    """Return the text with blanks for the brackets around all of it, as in “Title (12′)”, so that places stay."""
    around = re.fullmatch(r"(\s*)(?:\(([^()]*)\)|\[([^\[\]]*)\])(\s*)", text)
    return f"{around[1]} {around[2] or around[3] or ''} {around[4]}" if around else text


def _without_about(text: str) -> tuple[int, int, bool]:
    """Return where the figures stand, and whether a word for "about" stands before or after them."""
    head, tail = HEAD.match(text), TAIL.search(text)
    start = head.end() if head else 0
    end = max(start, tail.start() if tail else len(text))
    return start, end, bool((head and (head["about"] or head["roughly"])) or (tail and tail["about"]))


def _seconds(text: str, start: int, end: int, bare: Bare | None) -> Fraction:
    readers: tuple[tuple[Pattern, Callable[[str, re.Match[str]], Fraction]], ...] = (
        (ISO, _iso_seconds),
        (CLOCK, _clock_seconds),
    )
    for pattern, reader in readers:
        match = pattern.fullmatch(text, start, end)
        if match and match[0].upper() != "P":
            return reader(text, match)
    ends = _range(text, start, end)
    if ends is not None:
        raise DurationError(_one_of_a_range(*ends), text, start, end)
    spoken = spoken_seconds(text[start:end])
    return _sum_of_figures(text, start, end, bare) if spoken is None else spoken


def _range(text: str, start: int, end: int) -> tuple[str, str] | None:
    """Return both ends of a range as they are written, None where the text is none."""
    found = next((match for pattern in RANGES if (match := pattern.match(text, start, end))), None)
    if found is None:
        return spoken_range(text[start:end])
    return found["low"] + found["unit"], text[found.start("high") : end]


def _one_of_a_range(low: str, high: str) -> str:
    """Say which duration to choose of a range: the usual one, and where nothing is known of it the middle."""
    reason = "This is a range; give one duration, the one it usually takes"
    unit = re.search(r"[^0-9]*$", high)
    for first in (low, f"{low} {high.split()[-1]}", f"{low}{unit[0] if unit else ''}"):
        try:
            middle = (read_duration(first).seconds + read_duration(high).seconds) // 2
        except DurationError:
            continue
        return f"{reason}, or the middle where that is not known: ca. {write_duration(Duration(middle))}."
    return f"{reason}."


def _iso_seconds(text: str, match: re.Match[str]) -> Fraction:
    """Add days, hours, minutes and seconds; the smallest that is given may have a decimal part (ISO 8601-1)."""
    figures = (Fraction((group or "0").replace(",", ".")) for group in match.groups())
    return sum((figure * worth for figure, worth in zip(figures, (86400, 3600, 60, 1), strict=True)), Fraction(0))


def _clock_seconds(text: str, match: re.Match[str]) -> Fraction:
    """Read 12:30 as minutes and seconds, 1:02:30 with hours, 1:20 hours as hours and minutes."""
    parts = [group for group in match.groups()[:3] if group is not None]
    for place, part in enumerate(parts[1:], start=2):
        if len(part) != 2 or int(part) > 59:
            reason = f"“{part}” after a colon has to be two figures from 00 to 59."
            raise DurationError(reason, text, match.start(place), match.end(place))
    unit = _unit_of(text, match.start("word"), match["word"]) if match["word"] else ""
    first = "hour" if len(parts) == 3 or unit == "hour" else "minute"
    total = Fraction(0)
    for part in parts:
        total = total * 60 + int(part)
    return total * 60 if first == "hour" and len(parts) == 2 else total


def _unit_of(text: str, start: int, word: str) -> str:
    unit = TYPED.units.get(folded(word))
    if unit is None:
        raise DurationError(f"“{word}” is no unit of time; write h, min or s.", text, start, start + len(word))
    return unit


def _sum_of_figures(text: str, start: int, end: int, bare: Bare | None) -> Fraction:
    """Add figures with units that grow smaller: 1h 5m, 12 minutes and 30 seconds, 12′30″; a last one may go without."""
    total, above, position = Fraction(0), "", start
    while position < end:
        match = FIGURE.match(text, position, end)
        if match is None:
            raise DurationError(_stray(text[position:end]), text, position, end)
        unit = _unit(text, match, end, above, bare)
        total += _worth(text, match, unit, above)
        above = unit
        joined = JOIN.match(text, match.end(), end)
        position = joined.end() if joined else match.end()
        if position >= end and joined and joined[0].strip():
            raise DurationError(f"Something is missing after “{joined[0].strip()}”.", text, match.end(), end)
    return total


def _stray(rest: str) -> str:
    return f"“{rest}” is no duration; write 12′30″, 12:30 or 12 min."


def _unit(text: str, match: re.Match[str], end: int, above: str, bare: Bare | None) -> str:
    if match["second"] or match["minute"]:
        return "second" if match["second"] else "minute"
    if match["word"]:
        return _unit_of(text, match.start("word"), match["word"])
    if above in BELOW and match.end() == end:
        return BELOW[above]
    if above == "" and match.end() == end and bare is not None:
        return {"minutes": "minute", "seconds": "second"}[bare]
    number = match["number"]
    if re.match("[0-9:]", text[match.end() : end]):
        whole = text[match.start("number") : end]
        raise DurationError(_stray(whole), text, match.start("number"), end)
    reason = f"Say whether {number} is minutes or seconds: write {number}′, {number} min or {number} s."
    raise DurationError(reason, text, match.start("number"), match.end("number"))


def _worth(text: str, match: re.Match[str], unit: str, above: str) -> Fraction:
    number, start, end = match["number"], match.start("number"), match.end("number")
    if above and SECONDS_OF[unit] >= SECONDS_OF[above]:
        raise DurationError(f"After {above}s come smaller units only.", text, start, end)
    if re.fullmatch(r"[0-9]+[.,][0-5][0-9]", number) and unit in BELOW:
        whole, part = re.split("[.,]", number)
        reason = (
            f"“{number}” may mean {whole} {unit}s {part} {BELOW[unit]}s or a part of {_article(unit)}; write which."
        )
        raise DurationError(reason, text, start, end)
    value = _value(text, match)
    if above and value >= 60:
        raise DurationError(f"After {above}s there are at most 59 {unit}s.", text, start, end)
    if unit in BELOW and value.denominator != 1 and match.end() != len(text) and _another_follows(text, match.end()):
        raise DurationError("Only the last figure can have a fraction.", text, start, end)
    return value * SECONDS_OF[unit]


def _article(unit: str) -> str:
    return "an hour" if unit == "hour" else f"a {unit}"


def _another_follows(text: str, position: int) -> bool:
    return re.search(rf"[0-9{VULGAR}]", text[position:]) is not None


def _value(text: str, match: re.Match[str]) -> Fraction:
    """Return 12, 12.5, 12,5, 12½ or 12 1/2 as a fraction."""
    total = Fraction(0)
    for part in re.findall(rf"[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?|[{VULGAR}]", match["number"]):
        if part in VULGAR:
            total += Fraction(unicodedata.numeric(part)).limit_denominator(8)
        elif part.endswith(("/0", "/00")):
            raise DurationError("A fraction cannot be divided by nought.", text, match.start(), match.end("number"))
        else:
            total += Fraction(part.replace(",", "."))
    return total


# ---- writing


def write_duration(duration: Duration, style: Style = "primes", language: str = "en-GB") -> str:
    """Write a duration: ``primes`` 12′30″, ``clock`` 12:30, ``words`` 12 minutes 30 seconds, ``iso`` PT12M30S.

    ``iso`` (ISO 8601, for machines) has no word for "about"; the other three keep it, in the language's own form, and
    read back as they were. Minutes go on past 60 in primes, as in works lists (common practice).

    >>> write_duration(Duration(750), "clock"), write_duration(Duration(3750), "primes")
    ('12:30', '62′30″')
    """
    words = words_in(language)
    written = {"primes": _primes, "clock": _clock, "words": _words, "iso": _iso}[style](duration.seconds, words)
    if not duration.approximate or style == "iso":
        return written
    return f"{words.about if style == 'words' else words.about_short}{NO_BREAK_SPACE}{written}"


def _primes(seconds: int, _words: Language) -> str:
    minutes, rest = divmod(seconds, 60)
    return (f"{minutes}′" if minutes else "") + (f"{rest:02}″" if minutes and rest else "" if minutes else f"{rest}″")


def _clock(seconds: int, _words: Language) -> str:
    hours, minutes, rest = _parts(seconds)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"


def _iso(seconds: int, _words: Language) -> str:
    parts = zip(_parts(seconds), "HMS", strict=True)
    return "PT" + ("".join(f"{count}{unit}" for count, unit in parts if count) or "0S")


def _words(seconds: int, words: Language) -> str:
    forms = (words.hour, words.minute, words.second)
    counted = [(count, form) for count, form in zip(_parts(seconds), forms, strict=True) if count]
    return " ".join(f"{count}{NO_BREAK_SPACE}{form[count != 1]}" for count, form in counted or [(0, words.second)])


def _parts(seconds: int) -> tuple[int, int, int]:
    return seconds // 3600, seconds // 60 % 60, seconds % 60
