"""Brackets that say one thing of a line: optional, amplified, a key, a number of players, a strength, a note."""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.chair_lists import WORDS_OF_CONTAINING, entries
from catalogue.instrumentation.drafts import Count, Draft, Forces, Told
from catalogue.instrumentation.elsewhere import OF_WHICH
from catalogue.instrumentation.lexicon import (
    AMPLIFIED,
    AND,
    DESKS,
    ELECTRIC,
    LEAST,
    OFFSTAGE,
    ONE_TO_A_PART,
    OPEN_NUMBER,
    OPTIONAL,
    PLAYERS,
    PREFERRED,
    SOLO,
)
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import ALL, roman
from catalogue.instrumentation.ordinals import ending, is_pointed
from catalogue.instrumentation.page_labels import says_octave
from catalogue.instrumentation.phrases import (
    MORE,
    count_at,
    is_key,
    limited_count,
    ordinal_at,
    phrase_end,
    pitch_end,
    seats_at,
    token_at,
)
from catalogue.instrumentation.seating import double, own_section
from catalogue.instrumentation.senses import KEYED, NOTED, in_section, stand_in
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row, Token, flatten
from catalogue.instrumentation.vocabulary import instrument

ALONE = SOLO | ONE_TO_A_PART
TOLD = PLAYERS | WORDS_OF_CONTAINING


def parted(draft: Draft, forces: Forces) -> list[Bracket]:
    """Return the draft's brackets, one for each of the remarks that semicolons part, ``(optional; in F)``."""
    return [part for bracket in draft.brackets for part in remarks_in(draft, bracket, forces)]


def remarks_in(draft: Draft, bracket: Bracket, forces: Forces) -> tuple[Bracket, ...]:
    """Return a bracket cut at its semicolons where a piece says a thing of its own, else as it is."""
    pieces = entries(bracket.nodes, ";", words=False)
    if len(pieces) < 2:
        return (bracket,)
    said = tuple(Bracket(bracket.opening, Row(piece), piece[0].start, piece[-1].end) for piece in pieces)
    return said if any(says_one_thing(draft, one, forces) for one in said) else (bracket,)


def says_one_thing(draft: Draft, bracket: Bracket, forces: Forces) -> bool:
    """Whether a bracket is an octave, a chair of another section, a note in quotation marks or one quality."""
    nodes = bracket.nodes
    apart = says_octave(nodes) or is_note(nodes) or seat_at(draft, nodes) is not None
    return apart or quality(Draft(draft.slug, 0, 0), bracket, forces)


def is_note(nodes: Nodes) -> bool:
    return len(nodes) == 1 and nodes[0].kind == "note"


def as_remark(nodes: Nodes, forces: Forces) -> str:
    """Return what stands in a bracket as it is written, without the quotation marks around the whole of it."""
    if not nodes:
        return ""
    return forces.written(nodes[0].start, nodes[-1].end)[is_note(nodes) : -1 if is_note(nodes) else None]


def seat_at(draft: Draft, nodes: Nodes) -> tuple[str, int] | None:
    """Return the section and the chair that fill the nodes, where the instrument is an auxiliary of the section."""
    name = name_at(nodes, 0)
    number = token_at(nodes, name.end) if name is not None else None
    if name is None or number is None or number.kind != "number" or name.end + 1 != len(nodes):
        return None
    fitting = [slug for slug in name.slugs if slug != draft.slug and own_section(draft) == instrument(slug).section]
    return (fitting[0], number.number) if fitting and own_section(draft) and len(number.text) < 3 else None


def chairs_told(draft: Draft, bracket: Bracket, forces: Forces) -> bool:
    """Read notes on single players, ``(I “xylophone”, II “marimba”)``; false where the bracket holds something else."""
    chairs: list[Chair] = []
    at = 0
    nodes = bracket.nodes
    while at < len(nodes):
        token, note = token_at(nodes, at), token_at(nodes, at + 1)
        value = roman(token.text) if token is not None and token.kind == "word" else None
        if value is None and token is not None and token.kind == "number" and len(token.text) < 4:
            value = token.number
        if value is None or note is None or note.kind != "note":
            return False
        chairs.append(Chair(value, (draft.slug,), forces.text[note.start + 1 : note.end - 1]))
        at += 2
        if at < len(nodes) and nodes[at].is_mark(",;"):
            at += 1
    draft.chairs += chairs
    return bool(chairs)


def same_player(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``Piccolo (= 2nd Flute)``: the line is one of the players of another line and is not counted again."""
    nodes = bracket.nodes
    if not nodes[0].is_mark("="):
        return None
    seat = ordinal_at(nodes, 1)
    name = name_at(nodes, seat[1] if seat is not None else 1)
    if seat is None and name is not None and (number := seats_at(nodes, name.end)) is not None:
        seat = (number[0][0], number[1]) if len(number[0]) == 1 else None
        name = name._replace(end=number[1])
    if seat is None or name is None or name.end != len(nodes):
        return None
    other = next((one for one in forces.drafts if one.slug in name.slugs and one is not draft), None)
    if other is None or own_section(other) != own_section(draft):
        return None
    double(other, seat[0], (draft.slug,), "")
    message = f"The line was read as player {seat[0]} of another line, who is counted there."
    forces.remark("same-player", message, draft.start, draft.end, "a player of its own")
    draft.counted(0)
    return []


def amplification(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(all amplified)`` and ``(strings and clarinet need amplification)``, said of more than one line."""
    words = flatten(bracket.nodes)
    if (
        len(words) < 2
        or any(word.is_mark("=") for word in words)
        or not any(phrase_end(words, at, AMPLIFIED) is not None for at in range(len(words)))
    ):
        return None
    named = {slug for at in range(len(words)) if (name := name_at(words, at)) is not None for slug in name.slugs}
    families = {instrument(slug).family for slug in named if slug == "string-instrument"}
    if not named and not is_key(words[0], ALL):
        return None
    for one in forces.drafts:
        family = one.family or ""
        if one.slug in named or family in families or (one.slug == "strings" and families) or not named:
            one.amplified = one.amplified or family != "electronics"
    return []


def strengths(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(7 recommended)``, ``(min)``, ``(desks)`` after string instruments."""
    if draft.family != "strings":
        return None
    counted = count_at(bracket.nodes, 0)
    words = list(bracket.nodes[counted.end if counted else 0 :])
    if counted is None and len(words) > 1 and (counted := count_at(words, 1)) is not None and counted.end == len(words):
        words = words[:1]
    for keys, strength, unit in ((PREFERRED, "preferred", None), (LEAST, "least", None), (DESKS, "stated", "desks")):
        if words and phrase_end(words, 0, keys) == len(words):
            draft.strength, draft.unit = strength, unit or draft.unit
            draft.count = counted or draft.count
            return []
    return None


def quality(draft: Draft, bracket: Bracket, forces: Forces) -> bool:
    """Set the one quality that the bracket says of the draft; false where it says something else."""
    rest = [node for node in bracket.nodes if not node.is_mark(".,")]
    if not rest or (draft.slug == "strings" and phrase_end(rest, 0, ALONE) == len(rest)):
        return False
    for words, name, value in QUALITIES:
        if phrase_end(rest, 0, words) == len(rest):
            setattr(draft, name, value)
            return True
    rest = [node for node in rest if not node.is_mark("-")]
    counted = count_at(rest, 0)
    if counted is not None and draft.family == "voice" and counted.end + 1 == len(rest) and is_key(rest[-1], PARTS):
        draft.parts = min(max(counted.most, 1), 24)
        return True
    return False


QUALITIES = (
    (OPTIONAL, "optional", True),
    (AMPLIFIED | ELECTRIC, "amplified", True),
    (SOLO, "role", "soloist"),
    (OFFSTAGE, "role", "offstage"),
    (OPEN_NUMBER, "open", True),
)
PAIR = 2
PARTS = {"part", "parts", "stimmen", "stimmig", "voix", "voci", "voces", "voices"}


def alternatives(draft: Draft, nodes: Nodes, forces: Forces) -> list[Draft]:
    """Settle ``(or viola)``; several others together, ``(or flute and piccolo)``, are kept as they are written."""
    if is_key(token_at(nodes, 1), MORE):
        draft.notes.append("or more")
        return []
    if sum(name_at(nodes, at) is not None for at in range(1, len(nodes))) > 1 and any(
        is_key(one, AND) for one in nodes
    ):
        written = forces.written(nodes[0].start, nodes[-1].end)
        draft.notes.append(written)
        message = f"“{written}” was kept as an alternative to what stands before it."
        forces.remark("alternative", message, nodes[0].start, nodes[-1].end)
        return []
    at = 1
    while at < len(nodes):
        name = name_at(nodes, at)
        if name is not None:
            draft.alternatives.append(stand_in(name.slugs[0], name.written, own_section(draft), draft.family))
        at = name.end if name is not None else at + 1
    number = next((node.number for node in nodes if isinstance(node, Token) and node.kind == "number"), None)
    if number is not None and not draft.alternatives and number < 1000:
        draft.counted(min(draft.least, number), max(draft.most, number))
    return []


def optional_players(nodes: Nodes) -> int | None:
    """Return how many of the players a bracket says may be left out, ``2 optional``, ``3rd and 4th ad lib.``."""
    seats: set[int] = set()
    nodes = nodes[phrase_end(nodes, 0, OF_WHICH) or 0 :]
    at, counted = 0, count_at(nodes, 0)
    while (seat := ordinal_at(nodes, at)) is not None:
        seats.add(seat[0])
        at = seat[1]
        at += at < len(nodes) and (nodes[at].is_mark(",&+") or is_key(nodes[at], AND))
    numerals = seats_at(nodes, 0) if not seats and nodes and nodes[0].kind == "word" else None
    if numerals is not None:
        seats, at = set(numerals[0]), numerals[1]
    number = len(seats) or (counted.most if counted is not None else 0)
    end = phrase_end(nodes, at if seats or counted is None else counted.end, OPTIONAL) if number else None
    return number if end is not None and all(node.is_mark(".") for node in nodes[end:]) else None


def partly_optional(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``4 horns (2 optional)``: two will do."""
    spare = optional_players(bracket.nodes)
    if spare is None or not 0 < spare < draft.most:
        return None
    draft.counted(draft.least - min(spare, draft.least), draft.most)
    return []


def number_of_players(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(2 players)``."""
    counted = count_at(bracket.nodes, 0)
    if counted is None:
        return None
    rest = [node for node in bracket.nodes[counted.end :] if not node.is_mark(".")]
    more = bool(rest) and rest[0].is_mark("+")
    rest = rest[more:]
    if len(rest) != 1 or not is_key(rest[0], PLAYERS):
        return None
    if draft.count is not None and draft.family != "strings" and counted.least == counted.most > draft.most > 1:
        forces.told.append(Told(counted.most, bracket.start, bracket.end))
        return []
    draft.notes += ["or more"] * more
    before = forces.drafts[max(forces.drafts.index(draft) - 1, 0)] if draft in forces.drafts else draft
    if counted.most == draft.most == 1 and before is not draft and alike(before, draft):
        message = "This was read as said of the last instrument alone."
        forces.remark("one-player", message, bracket.start, bracket.end, "one player of all those before it")
    draft.count = counted
    return []


def pitches(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(A/Bb)``, ``(in C)``: keys are no players and no doublings."""
    nodes = bracket.nodes
    at = 1 if is_key(nodes[0], {"in", "en"}) else 0
    if draft.family not in ("woodwind", "brass") or (at == 0 and draft.figure):
        return None
    keyed: list[str] = []
    while at < len(nodes):
        end = pitch_end(nodes, at)
        if end is None:
            return None
        keyed.append(KEYED.get((draft.slug, "".join(node.key for node in nodes[at:end])), draft.slug))
        at = end + 1 if end < len(nodes) and (nodes[end].is_mark("/,") or is_key(nodes[end], AND)) else end
        if at == end and end < len(nodes):
            return None
    if draft.figure or (draft.most > 1 and len(nodes) > 2):
        return None
    apart = [slug for slug in keyed if slug.startswith("e-flat")]
    if apart and len(keyed) > len(apart):
        double(draft, 1, tuple(apart), "")
        message = "The keys were read as two instruments of one player."
        forces.remark("keys", message, bracket.start, bracket.end, "one instrument in either key")
        return []
    if len(keyed) == 1 and keyed[0] not in (*NOTED, draft.slug):
        draft.slug = keyed[0]
        return []
    draft.notes.append("in " + forces.written(nodes[0].start, nodes[-1].end).removeprefix("in "))
    return []


def alike(one: Draft, other: Draft) -> bool:
    """Whether two instruments may be one player's: of one section, or keyboards or percussion both."""
    section = own_section(one)
    shared = one.family == other.family and one.family in ("keyboard", "percussion")
    return shared or (section != "" and section == own_section(other))


KEYED_SECTIONS = ("flute", "oboe", "clarinet", "horn", "trumpet", "tuba")
"""Sections whose instruments stand in keys; the letters of recorders and saxophones are their sizes."""
JOINING = AND - {"en"}


def comma_for(node: Node) -> Node:
    """Return a comma in the place of a joining word, and any other node as it is."""
    return node._replace(kind="mark", text=",") if isinstance(node, Token) and is_key(node, JOINING) else node


def keys_and_sizes(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``clarinet (A, bass)``: the keys of one player's instrument and the further sizes that he plays."""
    section = own_section(draft)
    if draft.figure or draft.most > 1 or draft.open or section not in KEYED_SECTIONS:
        return None
    pieces = entries([comma_for(node) for node in bracket.nodes], ",/;+", words=False)
    keys = [piece for piece in pieces if pitch_end(piece, 0) == len(piece)]
    keyed = [KEYED.get((draft.slug, "".join(node.key for node in piece)), draft.slug) for piece in keys]
    names = [name_at(piece, 0, section) for piece in pieces if piece not in keys]
    sizes = [in_section("".join(node.key for node in piece), section) for piece in pieces if piece not in keys]
    slugs = [size or (name.slugs[0] if name is not None else "") for size, name in zip(sizes, names, strict=True)]
    if not keys or not slugs or any(instrument(slug).section != section for slug in slugs):
        return None
    apart = [slug for slug in keyed if slug.startswith("e-flat")] if len(keys) > 1 else []
    double(draft, 1, (*apart, *slugs), "")
    told = [piece for piece, slug in zip(keys, keyed, strict=True) if slug not in apart]
    draft.notes.append("in " + "/".join(forces.written(piece[0].start, piece[-1].end) for piece in told))
    return []


def players_in(bracket: Bracket) -> int | None:
    """Return the number of players that a bracket tells, ``(4 Spieler)``, ``(3)``, ``(III)``."""
    found = players_range(bracket)
    return found[1] if found else None


def players_range(bracket: Bracket) -> tuple[int, int] | None:
    nodes = bracket.nodes
    if not nodes:
        return None
    counted = count_at(nodes, 0) or limited_count(nodes, 0)
    if counted is not None:
        rest = nodes[counted.end :]
        if not rest or is_key(rest[0], TOLD) or rest[0].is_mark(".,-:;"):
            return counted.least, counted.most
        return None
    last = counted_last(nodes)
    if last is not None:
        return last.least, last.most
    words = [node for node in nodes if isinstance(node, Token) and node.kind == "word"]
    value = roman(words[0].text) if len(words) == 1 and len(nodes) == 1 else None
    return (value, value) if value is not None else None


def counted_last(nodes: Nodes) -> Count | None:
    """Return the number of players at the end of a list, ``bass drum, cymbals: 2 players``."""
    if len(nodes) < 3 or not is_key(nodes[-1], PLAYERS) or count_at(nodes, 0) is not None:
        return None
    counted = count_at(nodes, len(nodes) - 2)
    return counted if counted is not None and nodes[-3].is_mark(".,-:;") else None


def is_odd(draft: Draft, nodes: Nodes) -> bool:
    """Whether a bracket at a figure says what is neither keys nor any other thing that such brackets say."""
    return draft.figure and not all(pitch_end(piece, 0) == len(piece) for piece in entries(nodes, ",/;&", words=False))


def ordinals_parted(bracket: Bracket) -> Bracket:
    """Return ``(1. Es, 3. Bkl.)`` with its points as the endings of ordinals: each of two entries begins with one."""
    pieces = entries(bracket.nodes, ",;", words=False)
    if len(pieces) < PAIR or not all(len(piece) > PAIR and is_pointed(piece, 0) for piece in pieces):
        return bracket
    starts = {piece[1].start for piece in pieces}
    return replace(bracket, nodes=Row(ending(node) if node.start in starts else node for node in bracket.nodes))
