"""What a call asks to be sent, piece by piece, how its files are called, and what of a pack breaks which rule.

The pieces are those that calls and portals name (common practice); what no program can make, such as a transcript or a
fee, is ticked by the composer.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import ceil

from catalogue.rules.calls.materials import DOCUMENTS
from catalogue.rules.calls.terms import Call, Portal, RecordingRule
from catalogue.rules.calls.words import has, plain
from catalogue.rules.phrases import listed
from catalogue.rules.search import fold

MEGABYTE = 1_000_000


class Piece(StrEnum):
    """What a pack may hold, in the order in which it is put together where the call names none."""

    COVER = "cover sheet"
    SCORE = "score"
    RECORDING = "recording"
    NOTE = "note"
    PARTS = "parts"
    WORKS_LIST = "list of works"
    PERFORMANCES = "list of past performances"
    CV = "curriculum vitae"
    BIOGRAPHY = "biography"
    STATEMENT = "statement"
    RIDER = "technical rider"
    PHOTOGRAPH = "photograph"
    SAMPLE = "writing sample"
    REFEREES = "referees"
    CERTIFICATES = "certificates"
    ENVELOPE = "sealed envelope"
    FORM = "form"
    FEE = "fee"
    OTHER = "other"


OF_EACH_WORK = (Piece.SCORE, Piece.RECORDING, Piece.NOTE, Piece.PARTS, Piece.RIDER)
BY_HAND = (Piece.SAMPLE, Piece.CERTIFICATES, Piece.ENVELOPE, Piece.FORM, Piece.FEE, Piece.OTHER)
NAMING = (Piece.WORKS_LIST, Piece.PERFORMANCES, Piece.CV, Piece.BIOGRAPHY, Piece.PHOTOGRAPH)
PATTERNS: tuple[tuple[Piece, str], ...] = (
    (Piece.ENVELOPE, DOCUMENTS["sealed envelope"]),
    (Piece.CV, DOCUMENTS["curriculum vitae"]),
    (Piece.WORKS_LIST, DOCUMENTS["list of works"]),
    (Piece.PERFORMANCES, DOCUMENTS["list of past performances"]),
    (Piece.RIDER, DOCUMENTS["technical rider"]),
    (Piece.REFEREES, DOCUMENTS["referees"]),
    (Piece.SAMPLE, rf"{DOCUMENTS['writing sample']}|essay|term paper|hausarbeit"),
    (Piece.FORM, r"\bform\b|formular|formulaire|questionnaire|passport|identity card"),
    (Piece.FEE, r"\bfee\b|proof of payment|receipt"),
    (Piece.STATEMENT, DOCUMENTS["statement"]),
    (Piece.BIOGRAPHY, DOCUMENTS["biography"]),
    (Piece.PHOTOGRAPH, DOCUMENTS["photograph"]),
    (Piece.COVER, r"cover (?:sheet|page|letter)|title page|deckblatt"),
    (Piece.PARTS, DOCUMENTS["parts"]),
    (Piece.NOTE, DOCUMENTS["note"]),
    (Piece.RECORDING, DOCUMENTS["recording"]),
    (Piece.SCORE, DOCUMENTS["score"]),
    (Piece.CERTIFICATES, DOCUMENTS["certificates"]),
)


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing that a call asks for, in its own words."""

    piece: Piece
    words: str

    @property
    def key(self) -> str:
        """What a tick of the composer is kept by."""
        return plain(self.words)


def piece_of(words: str) -> Piece:
    """Return what a line of the things to send is.

    >>> piece_of("two bound copies of the score"), piece_of("transcripts of all degrees")
    (<Piece.SCORE: 'score'>, <Piece.CERTIFICATES: 'certificates'>)
    """
    said = plain(words)
    return next((piece for piece, pattern in PATTERNS if has(pattern, said)), Piece.OTHER)


def asked_of(call: Call) -> tuple[Asked, ...]:
    """Return what is to be sent, in the order of the call, each piece once but for what is ticked by hand."""
    found = [Asked(piece_of(words), words) for words in call.documents if words.strip()]
    found += [Asked(piece, str(piece)) for piece in further(call) if piece not in {one.piece for one in found}]
    kept: dict[object, Asked] = {}
    for one in found:
        kept.setdefault(one.key if one.piece in BY_HAND else one.piece, one)
    return tuple(kept.values())


def further(call: Call) -> Iterator[Piece]:
    """Yield what a call asks for beside what it lists: by its rules on recordings, notes, referees and a fee."""
    if not call.documents or call.portal.pairs:
        yield Piece.SCORE
    if call.recording is RecordingRule.REQUIRED or call.portal.pairs:
        yield Piece.RECORDING
    if call.note_words:
        yield Piece.NOTE
    if call.portal.statement_words:
        yield Piece.STATEMENT
    if call.portal.referees:
        yield Piece.REFEREES
    if call.fee and plain(call.fee) not in ("none", "no fee", "0"):
        yield Piece.FEE


# ---- names of files

PLACE = re.compile(r"\{(\w+)\}")
PLACES = ("number", "piece", "title", "surname", "name", "motto")
USUAL = "{number}-{piece}-{title}"


@dataclass(frozen=True, slots=True)
class Naming:
    """Whose files they are: the name and the family name, or the motto under which they go."""

    pattern: str = USUAL
    name: str = ""
    surname: str = ""
    motto: str = ""
    anonymous: bool = False

    def file(self, number: int, piece: Piece, title: str, suffix: str) -> str:
        """Return a file's name in plain letters.

        >>> Naming("{surname}_{title}_{piece}", surname="Marovand").file(1, Piece.SCORE, "Slack Rope", "pdf")
        'Marovand_Slack-Rope_score.pdf'
        """
        values = {"number": f"{number:02}", "piece": str(piece), "title": title, "motto": self.motto}
        values |= {"surname": self.surname, "name": self.name}
        if self.anonymous:
            values |= {"surname": self.motto, "name": self.motto}
        named = PLACE.sub(lambda match: one_word(values.get(match[1], "")), self.pattern or USUAL)
        return f"{tidied(named) or str(piece)}.{suffix}"


def one_word(text: str) -> str:
    """Return a text in plain letters with hyphens between its words."""
    return "-".join(re.findall(r"[A-Za-z0-9]+", without_marks(text)))[:60].strip("-")


def without_marks(text: str) -> str:
    """Return a text in Latin letters without marks, in the case it has; other scripts as they fold."""
    kept = [fold(sign).upper() if sign.isupper() else fold(sign) for sign in text]
    return "".join(one if one.strip() else " " for one in kept)


def tidied(name: str) -> str:
    return re.sub(r"([-_ .])(?:[-_ .])+", r"\1", name).strip("-_ .")


def told_apart(names: Iterable[str]) -> list[str]:
    """Return the names, those that are the same as one before with a number.

    >>> told_apart(["score.pdf", "score.pdf"])
    ['score.pdf', 'score-2.pdf']
    """
    found: list[str] = []
    for name in names:
        stem, _dot, suffix = name.rpartition(".")
        other, number = name, 1
        while other.casefold() in {one.casefold() for one in found}:
            number += 1
            other = f"{stem}-{number}.{suffix}"
        found.append(other)
    return found


# ---- the pack against the rules


@dataclass(frozen=True, slots=True)
class Part:
    """A file of the pack: what it is, of which work, its words, bytes and suffix where they are known."""

    piece: Piece
    work: str = ""
    words: int | None = None
    size: int | None = None
    suffix: str = ""


@dataclass(frozen=True, slots=True)
class Breach:
    """A rule of the call that is broken, and what would mend it."""

    reason: str
    mend: str = ""


def breaches(call: Call, parts: Iterable[Part]) -> Iterator[Breach]:
    """Yield what of the files breaks which rule."""
    parts, portal = tuple(parts), call.portal
    for part in parts:
        yield from too_many_words(part, call)
        yield from not_taken(part, portal)
        if portal.file_bytes and part.size and part.size > portal.file_bytes:
            yield Breach(
                f"The {named(part)} has {in_megabytes(part.size)}; a file may have {in_megabytes(portal.file_bytes)}."
            )
    yield from too_much(portal, parts)


KINDS_OF_FILES = (
    frozenset({"mp3", "wav", "aiff", "flac", "m4a", "ogg"}),
    frozenset({"pdf", "docx"}),
    frozenset({"jpg", "png"}),
    frozenset({"mp4", "mov"}),
)


def not_taken(part: Part, portal: Portal) -> Iterator[Breach]:
    """Yield a file whose kind the call does not take: it names others of the same use."""
    of_use = next((kinds for kinds in KINDS_OF_FILES if part.suffix in kinds), frozenset[str]())
    taken = [one for one in portal.formats if one in of_use]
    if taken and part.suffix not in taken:
        named_kinds = listed([one.upper() for one in taken], "or")
        yield Breach(
            f"The {named(part)} is a file of the kind {part.suffix.upper()}; the call takes {named_kinds}.",
            "Keep one of that kind beside it.",
        )


def too_much(portal: Portal, parts: tuple[Part, ...]) -> Iterator[Breach]:
    total = sum(part.size or 0 for part in parts)
    if portal.pack_bytes and total > portal.pack_bytes:
        reason = f"All files have {in_megabytes(total)} together; {in_megabytes(portal.pack_bytes)} are the most."
        yield Breach(reason, "Send shorter excerpts, or recordings with fewer bits.")


def too_many_words(part: Part, call: Call) -> Iterator[Breach]:
    portal = call.portal
    most = {
        Piece.NOTE: call.note_words,
        Piece.BIOGRAPHY: portal.life_words,
        Piece.STATEMENT: portal.statement_words,
    }.get(part.piece)
    if most and part.words and part.words > most:
        yield Breach(f"The {named(part)} has {part.words} words; {most} are the most.", "Write a shorter one.")
    least = portal.statement_least if part.piece is Piece.STATEMENT else None
    if least and part.words is not None and part.words < least:
        yield Breach(f"The statement has {part.words} words; {least} are the least.")


def named(part: Part) -> str:
    return f"{part.piece} of “{part.work}”" if part.work else str(part.piece)


def in_megabytes(size: int) -> str:
    """Return a size as portals name it, in millions of bytes, rounded up.

    >>> in_megabytes(20_000_000), in_megabytes(420_000)
    ('20 MB', '0.5 MB')
    """
    return f"{ceil(size * 10 / MEGABYTE) / 10:.1f}".removesuffix(".0") + " MB"
