"""Remembers the pieces of plain lists, ``fl, cl, 2 vn, pf, 3 gongs``: what commas part and can be read in one way only.

The lists of a catalogue differ, but name the same few players over and over. A piece is read once, by itself, and
kept; a list all of whose pieces are kept is put together from them. What could bear on its neighbours is no such piece
(timpani, a plural of strings, a name of two meanings, voices after instruments), and neither is a list in which some of
them together say more: one player named twice, five pairs of winds, strings beside a quartet of them. The numbers of
what a percussionist plays make no lines; they are kept as they are written, by the rule in ``percussion``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from catalogue.instrumentation.company import OF_BRASS_BAND, TENOR_TUBAS
from catalogue.instrumentation.conventions import dress_of_names
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.ensembles import collective_phrase
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.finishing import line_of
from catalogue.instrumentation.hands import may_tell_hands
from catalogue.instrumentation.languages import Speech
from catalogue.instrumentation.lexicon import AND
from catalogue.instrumentation.model import Instrumentation, InstrumentationError, Line, Remark
from catalogue.instrumentation.names import from_figures, name_at
from catalogue.instrumentation.percussion import (
    ALREADY_COUNTED,
    ONE_MORE,
    ONE_SECTION,
    OWN_CHAIR,
    PLAYERS_CODE,
    is_sure_section,
)
from catalogue.instrumentation.plain_items import FAMILIES, is_more_alone, plain_item
from catalogue.instrumentation.players_meant import linked
from catalogue.instrumentation.plurals import leave_open
from catalogue.instrumentation.settling import remark_on_names
from catalogue.instrumentation.tokens import Nodes, Token, nodes_of
from catalogue.instrumentation.vocabulary import instrument, keys

PARTING = ", "
PIECE = re.compile(r"(?:[1-9][0-9]? )?[^\W\d_]{2,}(?:[ -][^\W\d_]{2,}){0,5}")
NUMBERED = re.compile(r"[1-9][0-9]? ")
JOINED = re.compile(rf"(.+?) (?:{'|'.join(sorted(word for word in AND if len(word) > 1 and word.isalpha()))}) (.+)")
ALONE = "solo "
FIRST_VOICES = ("voice-soprano", "voice-mezzo-soprano")
PERCUSSION = ("perc", "percussion")
MOST_SINGLE_STRINGS = 3
PAIRS_OF_BAND = 5
QUARTET = 4
MOST_KEPT = 4096
LONGEST_OF_ANY = 6
"""Letters of a word that is never read as two, see ``reading.parted``."""
LONGEST = 60
UNSURE = frozenset({"timpani", "violin-1", "violin-2", "basso-continuo", *OF_BRASS_BAND[2], "cornet"})
UNSURE_KEYS = frozenset({"kl", "acl", "viol", "suona", *TENOR_TUBAS})
"""What means another thing beside some others, see ``company`` and ``settling``."""
Read = Callable[[str], Instrumentation]


@dataclass(frozen=True, slots=True)
class Piece:
    """What one piece of a list says.

    ``noted`` is what a percussionist plays among other things: a note and no line. ``names`` tell who may not stand
    twice in a list, ``pairs`` how many winds are two or more, ``convention`` which dress a text has for its sake.
    """

    lines: tuple[Line, ...] = ()
    noted: bool = False
    counted: bool = False
    struck: int = 0
    names: tuple[tuple[str, str], ...] = ()
    pairs: int = 0
    section: bool = False
    first: bool = False
    strings: int = 0
    quartet: bool = False
    convention: str = "names"


UNREAD = Piece()
kept: dict[str, Piece | None] = {}
"""What has been read, by its text; ``None`` for a piece that is none of a plain list."""


def recalled(text: str, read: Read) -> Instrumentation | None:
    """Return the forces of a plain list, ``None`` for any other text. ``read`` reads a piece that is met first."""
    written = text.split(PARTING)
    if len(written) < 2:
        return None
    pieces: list[Piece] = []
    for one in written:
        piece = remembered(one, read)
        if piece is None:
            return None
        pieces.append(piece)
    return together(text, written, pieces) if stand_apart(pieces) else None


def stand_apart(pieces: Sequence[Piece]) -> bool:
    """Whether no piece bears on what another says."""
    names: list[tuple[str, str]] = []
    pairs = strings = 0
    quartet = noted = False
    for piece in pieces:
        names += piece.names
        pairs += piece.pairs
        strings += piece.strings
        quartet = quartet or piece.quartet
        if (piece.first and piece is not pieces[0]) or (piece.section and noted):
            return False
        noted = noted or piece.noted
    return len(set(names)) == len(names) and pairs < PAIRS_OF_BAND and not (quartet and strings > 1)


def together(text: str, written: Sequence[str], pieces: Sequence[Piece]) -> Instrumentation:
    """Return the forces of a list from its pieces."""
    lines: list[Line] = []
    played: list[tuple[str, int, bool]] = []
    section, at = -1, 0
    convention = "names"
    for one, piece in zip(written, pieces, strict=True):
        if piece.noted:
            section = len(lines) if section < 0 else section
            played.append((one, at, piece.counted))
        else:
            section = len(lines) if piece.section else section
            lines += piece.lines
        if piece.convention != "names":
            convention = piece.convention
        at += len(one) + 2
    remarks = with_played(lines, section, played, pieces) if played else ()
    return Instrumentation(lines=tuple(lines), text=text, convention=convention, warnings=remarks)


def with_played(
    lines: list[Line], section: int, played: list[tuple[str, int, bool]], pieces: Sequence[Piece]
) -> tuple[Remark, ...]:
    """Note what percussionists play at their line, which is made where it has not been named; return the remarks."""
    note = "; ".join(dict.fromkeys(one for one, _, _ in played))
    own = next((piece for piece in pieces if piece.section), None)
    remarks: list[Remark] = []
    if own is not None:
        lines[section] = replace(own.lines[0], note=note)
    else:
        lines.insert(section, Line("percussion", "percussion", (1, 1), note=note))
        loose, strings = sum(piece.struck for piece in pieces), any(piece.strings for piece in pieces)
        if not is_sure_section(loose, beside=strings):
            one, at, _ = played[0]
            remarks.append(Remark(at, at + len(one), PLAYERS_CODE, ONE_SECTION))
    if own is None or own.counted:
        remarks += [
            Remark(at, at + len(one), PLAYERS_CODE, ALREADY_COUNTED, ONE_MORE) for one, at, counted in played if counted
        ]
    return tuple(remarks)


def remembered(written: str, read: Read) -> Piece | None:
    """Return what a piece says, which is read when it is met first; ``None`` for none of a plain list."""
    known = kept.get(written, UNREAD)
    if known is not UNREAD:
        return known
    if len(written) > LONGEST or PIECE.fullmatch(written) is None:
        return None
    try:
        found = piece_of(written, read)
    except InstrumentationError:
        found = None
    if len(kept) >= MOST_KEPT:
        kept.clear()
    kept[written] = found
    return found


def piece_of(written: str, read: Read) -> Piece | None:
    """Return what a piece says whatever stands around it, ``None`` where that decides."""
    joined = JOINED.fullmatch(written)
    if joined is not None:
        return both(piece_of(joined[1], read), piece_of(joined[2], read), written, read)
    if written.startswith(ALONE):
        return soloist(piece_of(written.removeprefix(ALONE), read), read(written))
    nodes = nodes_of(written)
    return quartet(written, nodes) if is_quartet(nodes) else player(written, nodes, read)


def player(written: str, nodes: Nodes, read: Read) -> Piece | None:
    """Return the piece that names one instrument, or so many of it."""
    number = NUMBERED.match(written)
    slug = only_name(nodes, 1 if number else 0)
    row = instrument(slug) if slug else None
    if row is None or slug in UNSURE or not (row.family in FAMILIES or (slug in FIRST_VOICES and not number)):
        return None
    struck = row.family == "percussion" and slug not in ("percussion", *OWN_CHAIR)
    if struck and row.kit:
        return noted(written, number, read)
    if slug == "percussion":
        players = int(number[0]) if number is not None else 1
        line: Line | None = Line(slug, slug, (players, players))
    else:
        line = plain_line(written, nodes) or only_line(read(written), slug)
    if line is None or (row.family == "strings" and not is_single(line)):
        return None
    return Piece(
        lines=(line,),
        counted=number is not None,
        struck=int(struck),
        names=((slug, line.role),),
        pairs=int(row.family in WINDS and line.players != (1, 1)),
        section=slug == "percussion",
        first=row.family == "voice",
        strings=int(row.family == "strings"),
        convention=dress_of_names(written),
    )


def plain_name(nodes: Nodes) -> Draft | None:
    """Return the item that all nodes are where it can be read in one way only, each of its words a name's.

    A word in ``s`` before others may be a plural that ends a name.
    """
    found = plain_item(nodes, 0)
    if found is None or found[1] < len(nodes) or any(node.key.endswith("s") for node in nodes[:-1]):
        return None
    return found[0] if all(len(node.key) <= LONGEST_OF_ANY or node.key in keys() for node in nodes) else None


def plain_line(written: str, nodes: Nodes) -> Line | None:
    """Return the line of such an item without reading all of it, ``None`` where there is more to say of it.

    A plural of strings may be a section, and is left to the readers.
    """
    draft = plain_name(nodes)
    if draft is None or (draft.family == "strings" and draft.plural and draft.count is None):
        return None
    forces = Forces(written, Speech((*nodes,)), drafts=[draft])
    leave_open(draft)
    remark_on_names(forces)
    return None if forces.remarks or draft.notes else line_of(draft, section=False)


def noted(written: str, number: re.Match[str] | None, read: Read) -> Piece | None:
    """Return the piece of what a percussionist plays among other things; its name is read once for all numbers."""
    if number is not None:
        named = remembered(written[number.end() :], read)
        return replace(named, counted=True) if named is not None and named.noted else None
    made = plain_name(nodes_of(written)) is not None
    made = made or read(written).lines == (Line("percussion", "percussion", (1, 1), note=written),)
    return Piece(noted=True, struck=1, convention=dress_of_names(written)) if made else None


def is_single(line: Line) -> bool:
    """Whether a line of strings is of single players: three at most, whose number is told."""
    return line.players is not None and line.players[1] <= MOST_SINGLE_STRINGS


def only_name(nodes: Nodes, at: int) -> str:
    """Return the instrument whose name all nodes from a place spell, nothing where it could be more or another."""
    name, word = name_at(nodes, at), nodes[at] if at < len(nodes) else None
    if name is None or name.end < len(nodes) or len(name.slugs) != 1 or type(word) is not Token:
        return ""
    if may_tell_hands(nodes) or any(linked(nodes, place)[0] is not None for place in range(len(nodes))):
        return ""
    slug = name.slugs[0]
    key = "".join(node.key for node in nodes[at:])
    if key in UNSURE_KEYS or (slug == "percussion" and key not in PERCUSSION):
        return ""
    figured = at > 0 and type(nodes[0]) is Token and nodes[0].text + word.key in from_figures()
    alone = name.end == at + 1 and slug not in FIRST_VOICES
    return "" if figured or (alone and is_more_alone(word.text, word.key)) else slug


def only_line(reading: Instrumentation, slug: str) -> Line | None:
    """Return the one line of a piece of which nothing but the number of players is told."""
    line = reading.lines[0]
    plain = Line(slug, line.family, line.players, line.role, unit=line.unit, strength=line.strength)
    alone = len(reading.lines) == 1 and not reading.warnings and not reading.alternatives
    return line if alone and line == plain and reading.electronics == "none" else None


def both(one: Piece | None, other: Piece | None, written: str, read: Read) -> Piece | None:
    """Return the piece of two players whom *and* joins, who are not noted with the percussion."""
    if one is None or other is None or one.struck or other.struck or one.section or other.section or other.first:
        return None
    reading = read(written)
    if reading.lines != one.lines + other.lines or reading.warnings or one.quartet or other.quartet:
        return None
    return replace(
        one,
        lines=reading.lines,
        names=one.names + other.names,
        pairs=one.pairs + other.pairs,
        strings=one.strings + other.strings,
        convention=dress_of_names(written),
    )


def soloist(piece: Piece | None, reading: Instrumentation) -> Piece | None:
    """Return the piece of one player who is named as the soloist, before all others."""
    line = piece.lines[0] if piece is not None and len(piece.lines) == 1 else None
    if piece is None or line is None or line.family in ("voice", "percussion") or line.players != (1, 1):
        return None
    if reading.warnings or len(reading.lines) > 1:
        return None
    alone = replace(line, role="soloist")
    return replace(piece, lines=(alone,), names=((alone.instrument, alone.role),), first=True)


def is_quartet(nodes: Nodes) -> bool:
    """Whether a piece is four string players by one name."""
    found = collective_phrase(nodes, 0)
    return found is not None and found[1] == len(nodes) and found[0][:2] == ("strings", QUARTET)


def quartet(written: str, nodes: Nodes) -> Piece | None:
    """Return the piece of four string players, a line each."""
    found = collective_phrase(nodes, 0)
    lines = tuple(Line(slug, "strings") for slug in found[0][2]) if found is not None else ()
    names = tuple((line.instrument, line.role) for line in lines)
    return Piece(lines=lines, names=names, strings=1, quartet=True, convention=dress_of_names(written))
