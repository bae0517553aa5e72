"""International numbers of works, editions, recordings and people: form, check digit, and what is wrong with one.

``ISWC``  the work (ISO 15707): T, nine digits, a check digit from the sum 1 + Σ i·dᵢ
``ISMN``  the edition (ISO 10957): 979-0 and nine digits, the last the check digit of EAN-13; formerly M and nine digits
``ISNI``  the person or body (ISO 27729): fifteen digits and a check digit or X (ISO 7064 MOD 11-2)
``ISRC``  the recording (ISO 3901): two letters, three letters or digits, seven digits; no check digit
``IPI``   the person at a collecting society: a name number of eleven digits, the last two from a sum modulo 101, or a
          base number, I, nine digits, and a check digit from the sum 2 + Σ i·dᵢ (both as public examples confirm)

A number that passes may still belong to nobody. One that does not is told with the check digit that would be right; it
is neither refused nor corrected, since only whoever gave it out knows which digit is wrong.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from stdnum import ismn, isni
from stdnum.exceptions import ValidationError

from catalogue.timing import Mistake


class IdentifierError(Mistake):
    """A number that cannot be one of its kind; ``reason`` says why."""


class Identifier(StrEnum):
    """The numbers of the trade that are checked here, by their usual abbreviations."""

    ISWC = "ISWC"
    ISMN = "ISMN"
    ISNI = "ISNI"
    ISRC = "ISRC"
    IPI = "IPI"


@dataclass(frozen=True, slots=True)
class Marks:
    """The letters and digits of a typed number in capitals, and where each stands in the text."""

    kind: Identifier
    text: str
    written: str
    places: tuple[int, ...]

    def fault(self, reason: str, first: int = 0, last: int | None = None) -> IdentifierError:
        """Return an error that points at the marks ``first`` to ``last`` (included), or at the whole number."""
        if not self.places:
            return IdentifierError(reason, self.text, 0, len(self.text))
        end = self.places[-1 if last is None else last] + 1
        return IdentifierError(reason, self.text, self.places[first], end)


SEPARATORS = frozenset(" .-‐‑‒–—−/\t\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}")
LABEL = re.compile(
    r"\s*(?:(?:https?://)?(?:www\.)?isni\.org/(?:isni/)?"
    r"|(?:ISWC|ISMN|ISNI|ISRC|IPI(?:[ -]?(?:name|base)?(?: number)?))\s*[:.]?\s*)",
    re.IGNORECASE,
)


def read_identifier(kind: Identifier, text: str) -> str:
    """Return the number in the one form that is stored. Raises IdentifierError.

    >>> read_identifier(Identifier.ISWC, "ISWC T0345246801")
    'T-034.524.680-1'
    >>> read_identifier(Identifier.ISMN, "M-060-11561-5")
    '9790060115615'
    """
    return READERS[kind](marks_of(kind, text))


def write_identifier(kind: Identifier, stored: str) -> str:
    """Return the number as it is printed; what is stored otherwise is returned unchanged.

    >>> write_identifier(Identifier.ISMN, "9790060115615")
    '979-0-060-11561-5'
    >>> write_identifier(Identifier.ISNI, "0000000121032683")
    '0000 0001 2103 2683'
    """
    try:
        number = read_identifier(kind, stored)
    except IdentifierError:
        return stored
    if kind is Identifier.ISMN:
        return str(ismn.format(number))
    return str(isni.format(number)) if kind is Identifier.ISNI else number


def as_typed(text: str) -> str:
    """Return what was typed without the name of the number before it.

    >>> as_typed(" ISMN: M-060-11561-6")
    'M-060-11561-6'
    """
    label = LABEL.match(text)
    return (text[label.end() :] if label else text).strip()


@lru_cache(maxsize=8192)
def doubt_about(kind: Identifier, text: str) -> str:
    """Return in a sentence what is wrong with a number, nothing where it may be right.

    >>> doubt_about(Identifier.ISMN, "M-060-11561-6")
    'The check digit of this ISMN would be 5, not 6: a digit was mistyped.'
    """
    try:
        read_identifier(kind, text)
    except IdentifierError as mistake:
        return mistake.reason
    return ""


def is_same_number(kind: Identifier, one: str, other: str) -> bool:
    """Say whether two texts are one number in two dresses."""
    return one == other or (
        not doubt_about(kind, one)
        and not doubt_about(kind, other)
        and read_identifier(kind, one) == read_identifier(kind, other)
    )


def marks_of(kind: Identifier, text: str) -> Marks:
    label = LABEL.match(text)
    start = label.end() if label else 0
    places = [place for place in range(start, len(text)) if text[place] not in SEPARATORS and not text[place].isspace()]
    marks = Marks(kind, text, "".join(in_capitals(text[place]) for place in places), tuple(places))
    if not places:
        raise marks.fault(f"No {kind} is given.")
    for number, mark in enumerate(marks.written):
        if not (mark.isascii() and mark.isalnum()):
            raise marks.fault(f"“{text[marks.places[number]]}” cannot stand in an {kind}.", number, number)
    return marks


def in_capitals(mark: str) -> str:
    """Return a letter or digit of any width as a plain capital or digit; what becomes several is left as it is."""
    plain = unicodedata.normalize("NFKC", mark).upper()
    return plain if len(plain) == 1 else mark


def read_iswc(marks: Marks) -> str:
    written = marks.written
    if not written.startswith("T"):
        raise marks.fault("An ISWC begins with the letter T.", 0, 0)
    digits(marks, first=1, count=10, shape="An ISWC has ten digits after its T")
    check(marks, sum_check(written[1:10], start=1))
    return f"T-{written[1:4]}.{written[4:7]}.{written[7:10]}-{written[10]}"


def read_ismn(marks: Marks) -> str:
    old = marks.written.startswith("M")
    if not old and not marks.written.startswith("9790"):
        raise marks.fault("An ISMN begins with 979-0, or with M in its old form.", 0, min(3, len(marks.written) - 1))
    if old:
        digits(marks, first=1, count=9, shape="An ISMN in its old form has nine digits after its M")
    else:
        digits(marks, first=0, count=13, shape="An ISMN has thirteen digits")
    number = "9790" + marks.written[1 if old else 4 :]
    check(marks, ean_check(number[:-1]))
    return validated(marks, ismn.validate, number)


def read_isni(marks: Marks) -> str:
    digits(marks, first=0, count=16, shape="An ISNI has sixteen digits, the last of which may be an X", x_may_end=True)
    check(marks, mod_11_2_check(marks.written[:15]))
    return validated(marks, isni.validate, marks.written)


def read_isrc(marks: Marks) -> str:
    written = marks.written
    if len(written) != 12:
        raise marks.fault(f"An ISRC has twelve letters and digits; this has {len(written)}.")
    for number, mark in enumerate(written):
        if number < 2 and not mark.isalpha():
            raise marks.fault("An ISRC begins with two letters.", number, number)
        if number > 4 and not mark.isdigit():
            raise marks.fault("The last seven places of an ISRC are digits.", number, number)
    # ISO 3166 leaves XA to XZ to private use; only XK, used for Kosovo, is given out as a prefix.
    if written[0] == "X" and written[:2] != "XK":
        raise marks.fault(f"{written[:2]} is not given out as the beginning of an ISRC.", 0, 1)
    return f"{written[:2]}-{written[2:5]}-{written[5:7]}-{written[7:]}"


def read_ipi(marks: Marks) -> str:
    """Return a base number, or a name number with the zeros that people leave out at its beginning."""
    if marks.written.startswith("I"):
        digits(marks, first=1, count=10, shape="An IPI base number has ten digits after its I")
        check(marks, sum_check(marks.written[1:10], start=2))
        return f"I-{marks.written[1:10]}-{marks.written[10]}"
    padded = marks.written.zfill(11) if len(marks.written) >= 8 else marks.written
    shape = "An IPI name number has eleven digits"
    digits(marks, first=0, count=len(marks.written) if len(padded) == 11 else 11, shape=shape)
    check(marks, name_number_check(padded[:9]))
    return padded


READERS: dict[Identifier, Callable[[Marks], str]] = {
    Identifier.ISWC: read_iswc,
    Identifier.ISMN: read_ismn,
    Identifier.ISNI: read_isni,
    Identifier.ISRC: read_isrc,
    Identifier.IPI: read_ipi,
}


def digits(marks: Marks, *, first: int, count: int, shape: str, x_may_end: bool = False) -> None:
    """Refuse a number that has not so many digits from the mark ``first`` on."""
    found = len(marks.written) - first
    for number in range(first, len(marks.written)):
        is_end = number == first + count - 1
        if not marks.written[number].isdigit() and not (x_may_end and is_end and marks.written[number] == "X"):
            raise marks.fault(f"{shape}; “{marks.written[number]}” is no digit.", number, number)
    if found != count:
        raise marks.fault(f"{shape}; this has {found}.")


def check(marks: Marks, expected: str) -> None:
    """Refuse a number that does not end with the check digits ``expected``."""
    found = marks.written[-len(expected) :]
    if found != expected:
        what = "digits" if len(expected) > 1 else "digit"
        first = len(marks.written) - len(expected)
        reason = f"The check {what} of this {marks.kind} would be {expected}, not {found}: a digit was mistyped."
        raise marks.fault(reason, first, len(marks.written) - 1)


def validated(marks: Marks, validate: Callable[[str], str], number: str) -> str:
    try:
        return str(validate(number))
    except ValidationError as error:
        raise marks.fault(f"This is no {marks.kind}: {error}") from error


def sum_check(nine: str, *, start: int) -> str:
    """Return the check digit of ISO 15707, and with ``start`` 2 the one of an IPI base number.

    >>> sum_check("034524680", start=1)
    '1'
    """
    total = start + sum(place * int(digit) for place, digit in enumerate(nine, start=1))
    return str(-total % 10)


def ean_check(twelve: str) -> str:
    total = sum(int(digit) * (3 if place % 2 else 1) for place, digit in enumerate(twelve))
    return str(-total % 10)


def mod_11_2_check(fifteen: str) -> str:
    total = 0
    for digit in fifteen:
        total = (total + int(digit)) * 2
    result = (12 - total % 11) % 11
    return "X" if result == 10 else str(result)


def name_number_check(nine: str) -> str:
    """Return the two check digits of an IPI name number: weights 10 to 2, modulo 101."""
    remainder = sum(int(digit) * weight for digit, weight in zip(nine, range(10, 1, -1), strict=True)) % 101
    return f"{(101 - remainder) % 101 % 100:02}"
