"""What a bracket after a figure or a name means; the convention of the whole text decides where the bracket cannot.

======================================  ============================================================
``3(II=picc)``, ``(2nd dbl picc)``      those chairs double
``1(picc)``, ``2(picc)``                somebody doubles; the one player where there is one
``3(1.2.picc)``, ``3[1.2/pic.pic]``     a list of chairs: a name alone is a chair that plays only that
``4(2tp, 2crt)``, ``3 sax (a, t, bar)`` the make-up of the number before it
``3(3pic)``                             the third player, or three players: by the convention of the text
``2(+ott.)``                            an extra player
``4(2)``, ``2 (optional 4)``            fewer or more players will do
``cl (A/Bb)``, ``(opt)``, ``(div)``     a key, a quality, a remark
======================================  ============================================================
"""

from __future__ import annotations

import re

from catalogue.instrumentation.channels import channels_at
from catalogue.instrumentation.doublings import Doubling, Section, doublings_in
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import (
    AMPLIFIED,
    AND,
    DESKS,
    ELECTRIC,
    LEAST,
    OFFSTAGE,
    OPTIONAL,
    OR,
    PLAYERS,
    PREFERRED,
    SOLO,
)
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import ALL, roman
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, pitch_end, token_at
from catalogue.instrumentation.senses import USUAL_OF_PLACE, Surroundings, in_section
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token, flatten
from catalogue.instrumentation.vocabulary import instrument, key_of

MARKS = ",.;/+&-"
WORDS_OF_CONTAINING = {
    "including",
    "davon",
    "dont",
    "incluyendo",
    "darunter",
    "compresi",
    "comprising",
    "with",
    "incl",
    "inkl",
}
PLUS = {"plus", "and"}
MOST_CHAIRS = 60


def interpret(draft: Draft, forces: Forces) -> list[Draft]:
    """Settle a draft's brackets and clauses; returns the extra players they add."""
    extras: list[Draft] = []
    for bracket in draft.brackets:
        if not bracket.closed:
            forces.remark("bracket", "A bracket is not closed; it was taken to end here.", bracket.start, bracket.end)
        extras += meaning(draft, bracket, forces)
    section = Section(draft.section or own_section(draft), draft.slug, draft.most)
    for clause in draft.clauses:
        found = doublings_in(clause, section, forces)
        if found is not None and not draft.doubles:
            apply(draft, found, forces, clause[0].start, clause[-1].end)
    read_d(draft, section, forces)
    slashed(draft, forces)
    return extras


def own_section(draft: Draft) -> str:
    return instrument(draft.slug).section if draft.slug else ""


def read_d(draft: Draft, section: Section, forces: Forces) -> None:
    """Settle ``2d1``: so many players double the usual auxiliary of the place or the one that is named."""
    if not draft.doubles:
        return
    named = [one for clause in draft.clauses for one in (doublings_in(clause, section, forces) or [])]
    plays = named[0].plays if named else tuple(filter(None, (USUAL_OF_PLACE.get(section.place),)))
    forces.dresses.add("d and plus")
    apply(draft, [Doubling(plays, count=draft.doubles)], forces, draft.start, draft.end)


def slashed(draft: Draft, forces: Forces) -> None:
    """Settle ``flute/piccolo``: sizes of one family are one player's, unrelated instruments a choice."""
    for slug in draft.slashed:
        if draft.collective == "book" or related(draft.slug, slug):
            seats = range(1, draft.most + 1) if draft.most <= MOST_CHAIRS else range(0)
            for seat in seats:
                double(draft, seat, (slug,), "")
            remark_on_strings(draft, (slug,), forces, draft.start, draft.end)
        else:
            draft.alternatives.append(slug)


def related(one: str, other: str) -> bool:
    """Whether one player is expected to play both."""
    first, second = instrument(one), instrument(other)
    if first.section and first.section == second.section:
        return True
    families = ("keyboard", "percussion", "strings")
    return first.family == second.family and (
        first.family in families or {one, other} <= {"guitar", "banjo", "mandolin"}
    )


def meaning(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft]:
    """Find what the bracket says and settle it."""
    nodes = bracket.nodes
    if not nodes:
        return []
    for rule in (
        amplification,
        strengths,
        channels,
        qualities,
        number_of_players,
        pitches,
        chair_list,
        make_up,
        doubled,
        extra_players,
        smaller_number,
    ):
        found = rule(draft, bracket, forces)
        if found is not None:
            return found
    note = forces.written(nodes[0].start, nodes[-1].end)
    draft.notes.append(note)
    return []


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


def amplification(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(all amplified)`` and ``(strings and clarinet need amplification)``, said of more than one line."""
    words = flatten(bracket.nodes)
    if len(words) < 2 or not any(phrase_end(words, at, AMPLIFIED) is not None for at in range(len(words))):
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
    if len(words) != 1:
        return None
    for keys, strength, unit in ((PREFERRED, "preferred", None), (LEAST, "least", None), (DESKS, "stated", "desks")):
        if is_key(words[0], keys):
            draft.strength, draft.unit = strength, unit or draft.unit
            draft.count = counted or draft.count
            return []
    return None


def qualities(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(optional)``, ``(amplified)``, ``(solo)``, ``(off-stage)``, ``(or piano)``."""
    nodes = bracket.nodes
    if is_key(nodes[0], OR):
        return alternatives(draft, nodes)
    if all(node.kind == "mark" for node in nodes):
        return []
    return [] if quality(draft, bracket, forces) else None


def quality(draft: Draft, bracket: Bracket, forces: Forces) -> bool:
    """Set the one quality that the bracket says of the draft; false where it says something else."""
    rest = [node for node in bracket.nodes if not node.is_mark(".,")]
    if not rest:
        return False
    for words, name, value in QUALITIES:
        if phrase_end(rest, 0, words) == len(rest):
            setattr(draft, name, value)
            return True
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
    ({"open", "offen"}, "open", True),
)
PARTS = {"part", "parts", "stimmen", "voix", "voci", "voces", "voices"}


def channels(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(8 channels)``, ``(stereo)`` after electronics."""
    if draft.family != "electronics":
        return None
    found = channels_at(bracket.nodes, 0, forces)
    return [] if found is not None and found[1] == len(bracket.nodes) else None


def alternatives(draft: Draft, nodes: Nodes) -> list[Draft]:
    at = 1
    while at < len(nodes):
        name = name_at(nodes, at)
        if name is not None:
            draft.alternatives.append(name.slugs[0])
        at = name.end if name is not None else at + 1
    number = next((node.number for node in nodes if isinstance(node, Token) and node.kind == "number"), None)
    if number is not None and not draft.alternatives and number < 1000:
        draft.counted(min(draft.least, number), max(draft.most, number))
    return []


def number_of_players(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(2 players)``."""
    counted = count_at(bracket.nodes, 0)
    if counted is None:
        return None
    rest = [node for node in bracket.nodes[counted.end :] if not node.is_mark(".")]
    if len(rest) != 1 or not is_key(rest[0], PLAYERS):
        return None
    draft.count = counted
    return []


def pitches(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(A/Bb)``, ``(in C)``: keys are no players and no doublings."""
    nodes = bracket.nodes
    at = 1 if is_key(nodes[0], {"in", "en"}) else 0
    if draft.family not in ("woodwind", "brass") or (at == 0 and draft.figure):
        return None
    while at < len(nodes):
        end = pitch_end(nodes, at)
        if end is None:
            return None
        at = end + 1 if end < len(nodes) and (nodes[end].is_mark("/,") or is_key(nodes[end], AND)) else end
        if at == end and end < len(nodes):
            return None
    if draft.figure or (draft.most > 1 and len(nodes) > 2):
        return None
    draft.notes.append("in " + forces.written(nodes[0].start, nodes[-1].end).removeprefix("in "))
    return []


def entries(nodes: Nodes, marks: str) -> list[tuple[Node, ...]]:
    """Return the nodes cut at the marks and at joining words, empty pieces left out."""
    found: list[list[Node]] = [[]]
    for node in nodes:
        if node.is_mark(marks) or is_key(node, AND):
            found.append([])
        else:
            found[-1].append(node)
    return [tuple(piece) for piece in found if piece]


def chair_list(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle a list of chairs: figures in order from 1, ``/`` before what a chair also plays, names for the rest."""
    pieces = entries(bracket.nodes, ".,;")
    first = bracket.nodes[0]
    if not isinstance(first, Token) or first.text != "1" or (len(pieces) < 2 and not has_slash(bracket.nodes)):
        return None
    section = draft.section or own_section(draft)
    chairs: list[Chair] = []
    for seat, piece in enumerate(pieces, 1):
        chair = listed_chair(piece, seat, section, draft.slug, forces)
        if chair is None:
            return None
        chairs.append(chair)
    if len(chairs) != draft.most and draft.count is not None:
        message = f"The list names {len(chairs)} chairs, the figure before it {draft.most}."
        forces.remark("chairs-differ", message, draft.start, bracket.end, f"{draft.most} players")
        if len(chairs) > draft.most:
            draft.counted(len(chairs))
    draft.chairs = chairs
    forces.dresses.add("chair list")
    return []


def has_slash(nodes: Nodes) -> bool:
    return any(node.is_mark("/") for node in nodes)


def listed_chair(piece: tuple[Node, ...], seat: int, section: str, slug: str, forces: Forces) -> Chair | None:
    """Return one entry of a list of chairs, ``2``, ``3/pic`` or ``pic``."""
    plays: list[str] = []
    first = piece[0]
    at = 0
    if isinstance(first, Token) and first.kind == "number":
        if int(first.text[:3]) != seat:
            return None
        plays, at = [slug], 1
    while at < len(piece):
        if piece[at].is_mark("/"):
            at += 1
            continue
        name = name_at(piece, at, section)
        if name is None:
            return None
        plays.append(name.means(Surroundings(forces.language, section)))
        at = name.end
        number = token_at(piece, at)
        if number is not None and number.kind == "number":
            at += 1
    return Chair(seat, tuple(plays)) if plays else None


def make_up(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle the make-up of a number: counted names that add up to it, or as many sizes as there are players."""
    nodes = bracket.nodes
    section = draft.section or own_section(draft)
    if lettered(draft, nodes, section):
        return []
    containing = is_key(nodes[0], WORDS_OF_CONTAINING)
    pieces = entries(nodes[1:] if containing else nodes, ",;+/.")
    members: list[tuple[int, str]] = []
    counted = False
    for piece in pieces:
        member = member_of(piece, section, forces)
        if member is None:
            return None
        counted = counted or member[0] > 0
        members.append(member)
    total = sum(number or 1 for number, _ in members)
    if containing:
        return contained(draft, members, total, forces, bracket)
    if total != draft.most or draft.most < 2 or not fills(draft, members, bracket, counted=counted):
        return None
    slugs = [slug for number, slug in members for _ in range(number or 1)]
    draft.chairs = [Chair(seat, (slug,)) for seat, slug in enumerate(slugs, 1)]
    return []


def lettered(draft: Draft, nodes: Nodes, section: str) -> bool:
    """Settle ``5 sax (AATTB)``, ``recorders (SAT)``: one letter a player."""
    token = nodes[0]
    if len(nodes) != 1 or not isinstance(token, Token) or section not in ("saxophone", "recorder"):
        return False
    slugs = [in_section(letter.lower(), section) for letter in token.text]
    if len(slugs) != draft.most or not token.text.isupper() or not all(slugs):
        return False
    draft.chairs = [Chair(seat, (slug,)) for seat, slug in enumerate(slugs, 1) if slug]
    return True


def fills(draft: Draft, members: list[tuple[int, str]], bracket: Bracket, *, counted: bool) -> bool:
    """Whether members that add up to the number are its make-up and not what somebody doubles."""
    if len(members) == 1:
        return counted and bracket.opening == "["
    if counted and all(number for number, _ in members):
        return not rising(members, draft)
    sizes = draft.slug in ("saxophone", "recorder", "trombone", "clarinet", "wind-instrument", "viola-da-gamba")
    return not draft.figure and sizes and not counted


def rising(members: list[tuple[int, str]], draft: Draft) -> bool:
    """Whether the numbers are chairs, 2 and 3 of three, and none of the names is the section's own."""
    numbers = [number for number, _ in members]
    own = any(slug == draft.slug for _, slug in members)
    return not own and numbers == sorted(set(numbers)) and max(numbers) <= draft.most and sum(numbers) != draft.most


def contained(
    draft: Draft, members: list[tuple[int, str]], total: int, forces: Forces, bracket: Bracket
) -> list[Draft] | None:
    """Settle ``3 oboes (including English horn)``: so many of the players play only that."""
    if total >= draft.most or any(slug == draft.slug for _, slug in members):
        return None
    slugs = [draft.slug] * (draft.most - total) + [slug for number, slug in members for _ in range(number or 1)]
    draft.chairs = [Chair(seat, (slug,)) for seat, slug in enumerate(slugs, 1)]
    message = "The auxiliary was read as played by one of the counted players, who plays nothing else."
    forces.remark("included", message, bracket.start, bracket.end, "one of the players doubles it")
    return []


def member_of(piece: tuple[Node, ...], section: str, forces: Forces) -> tuple[int, str] | None:
    """Return one piece of a make-up, ``2 altos``, ``crt``, ``B-flat``."""
    counted = count_at(piece, 0)
    at = counted.end if counted else 0
    if at >= len(piece):
        return None
    if section == "clarinet" and (end := pitch_end(piece, at)) == len(piece):
        key = "".join(key_of(node.text) for node in piece[at:end] if isinstance(node, Token))
        return (counted.least if counted else 0), "e-flat-clarinet" if key in ("eb", "eflat", "es") else "clarinet"
    name = name_at(piece, at, section)
    if name is None or name.end != len(piece):
        plural = name_at((stripped(piece[at]),), 0, section) if len(piece) == at + 1 else None
        if plural is None:
            return None
        name = plural
    return (counted.least if counted else 0), name.means(Surroundings(forces.language, section))


def stripped(node: Node) -> Node:
    """Return a word without its plural s."""
    if not isinstance(node, Token) or not node.text.endswith("s"):
        return node
    return Token(node.kind, node.text[:-1], node.start, node.end - 1, node.spaced, node.lower[:-1])


def doubled(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle doublings, by chair or not."""
    nodes = bracket.nodes
    if nodes[0].is_mark("+") or (any(node.is_mark("+") for node in nodes[:2]) and nodes[0].kind == "number"):
        return None
    if is_key(nodes[0], PLUS):
        return None
    section = Section(draft.section or own_section(draft), draft.slug, draft.most)
    found = doublings_in(nodes, section, forces)
    if found is None:
        return None
    if draft.extra and draft.most == 1 and any(one.chairs or one.figure for one in found):
        base = base_of(draft, forces)
        if base is not None:
            draft = base
    apply(draft, found, forces, bracket.start, bracket.end)
    return []


def base_of(draft: Draft, forces: Forces) -> Draft | None:
    """Return the section to whose figure an extra player was added: a numbered chair after the extra is one of its."""
    at = next(index for index, one in enumerate(forces.drafts) if one is draft)
    before = [one for one in forces.drafts[:at] if not one.extra]
    return before[-1] if before and before[-1].most > 1 else None


def apply(draft: Draft, found: list[Doubling], forces: Forces, start: int, end: int) -> None:
    """Give the doublings to the draft's chairs."""
    figures = [one for one in found if one.figure]
    as_chairs = by_chair(figures, draft, forces) if figures else False
    if figures:
        remark_on_figures(figures, draft, forces, start, end, as_chairs=as_chairs)
    for one in found:
        plays = tuple(slug for slug in one.plays if slug != draft.slug)
        if not plays and not one.note:
            continue
        remark_on_strings(draft, plays, forces, start, end)
        if one.figure and as_chairs:
            double(draft, one.count, plays, one.note)
        elif one.chairs:
            forces.dresses.add("chairs")
            for seat in one.chairs[:MOST_CHAIRS]:
                double(draft, seat, plays, one.note, only=one.only)
        elif draft.most == 1:
            double(draft, 1, plays, one.note)
        else:
            draft.chairs += [Chair(None, (draft.slug, *plays), one.note)] * min(
                max(one.count, 1), draft.most, MOST_CHAIRS
            )


def remark_on_strings(draft: Draft, plays: tuple[str, ...], forces: Forces, start: int, end: int) -> None:
    """Say that a string player who changes instrument stays one player."""
    if draft.family == "strings" and plays:
        other = plays[0].replace("-", " ")
        message = f"One string player was read as changing to {other}."
        forces.remark("string-doubling", message, start, end, f"a further player for the {other}")


def by_chair(figures: list[Doubling], draft: Draft, forces: Forces) -> bool:
    """Whether ``3pic`` is the third player here: figures that rise beyond the number must be chairs."""
    numbers = [one.count for one in figures]
    if len(numbers) > 1 and sum(numbers) > draft.most:
        return True
    if max(numbers) > draft.most:
        return False
    return forces.brackets != "counted doublings"


def remark_on_figures(
    figures: list[Doubling], draft: Draft, forces: Forces, start: int, end: int, *, as_chairs: bool
) -> None:
    if len(figures) > 1 or draft.most == 1 or figures[0].count == 1 == draft.most:
        return
    number = figures[0].count
    one, other = f"player {number} doubles", f"{number} players double" if number > 1 else "one player doubles"
    one, other = (one, other) if as_chairs else (other, one)
    forces.remark("figure-in-bracket", f"The figure in the bracket was read as: {one}.", start, end, other)


def double(draft: Draft, seat: int, plays: tuple[str, ...], note: str, *, only: bool = False) -> None:
    """Let the player in a seat also play something, or play only that."""
    for at, chair in enumerate(draft.chairs):
        if chair.chair == seat:
            further = tuple(slug for slug in plays if slug not in chair.plays)
            draft.chairs[at] = Chair(seat, (*chair.plays, *further), " ".join(filter(None, (chair.note, note))))
            return
    draft.chairs.append(Chair(seat, plays if only else (draft.slug, *plays), note))


def extra_players(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(+ott.)``, ``(plus piccolo)``, ``(+2)``; ``2(2+picc)`` repeats the number and doubles."""
    nodes = bracket.nodes
    own = isinstance(nodes[0], Token) and nodes[0].kind == "number"
    at = 1 if own else 0
    if at >= len(nodes) or not (nodes[at].is_mark("+") or is_key(nodes[at], PLUS)):
        return None
    section = draft.section or own_section(draft)
    found = (
        doublings_in(nodes[at + 1 :], Section(section, draft.slug, draft.most), forces) if at + 1 < len(nodes) else None
    )
    counted = count_at(nodes, at + 1)
    rest = counted.end if counted is not None else 0
    if counted is not None and (rest == len(nodes) or phrase_end(nodes, rest, OPTIONAL) == len(nodes)):
        draft.counted(draft.least, draft.most + counted.most)
        message = "The figure after the plus was read as players who may be added."
        forces.remark("extra-players", message, bracket.start, bracket.end)
        return []
    if found is None:
        return None
    if own or draft.seats:
        apply(draft, [Doubling(one.plays, (draft.most,)) for one in found], forces, bracket.start, bracket.end)
        if own:
            message = f"The bracket was read as: player {draft.most} doubles."
            forces.remark("plus-in-bracket", message, bracket.start, bracket.end, "one more player")
        return []
    message = "The plus in the bracket was read as one more player."
    optional = phrase_end(nodes, at + 1, OPTIONAL) is not None
    if not optional:
        forces.remark("plus-in-bracket", message, bracket.start, bracket.end, "one of the players doubles")
    number = counted.least if counted else 1
    return [extra(draft, slug, number, bracket, section, optional=optional) for one in found for slug in one.plays]


def extra(draft: Draft, slug: str, number: int, bracket: Bracket, section: str, *, optional: bool = False) -> Draft:
    made = Draft(slug, bracket.start, bracket.end, section=section, extra=True, group=draft.group, role=draft.role)
    made.counted(number)
    made.optional = optional
    return made


def smaller_number(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``4 (2)`` and ``2 (optional 4)``: the other number will do; after a name without one it is the number."""
    nodes = [node for node in bracket.nodes if not node.is_mark(".")]
    optional = phrase_end(nodes, 0, OPTIONAL)
    at = optional if optional is not None else 0
    word = token_at(nodes, at)
    if word is not None and word.is_word("min", "minimum", "max", "maximum", "or", "at", "least"):
        at += 1
    counted = count_at(nodes, at)
    if counted is None:
        numeral = token_at(nodes, at)
        match = re.fullmatch(r"I{1,3}|IV|V", numeral.text) if numeral is not None else None
        if match is None or numeral is None or len(nodes) != 1:
            return None
        return None
    if counted.end != len(nodes):
        return None
    if draft.count is None:
        draft.count = counted
        return []
    low, high = min(draft.least, counted.least), max(draft.most, counted.most)
    forces.remark("two-numbers", f"Both numbers were kept: {low} to {high} players.", draft.start, bracket.end)
    draft.counted(low, high)
    return []
