"""Brackets that list chairs or tell what a number is made of: ``3[1.2/pic.pic]``, ``4(2tp, 2crt)``."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import AND, DOUBLING, OF
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, is_small, pitch_end, token_at
from catalogue.instrumentation.players_meant import OF_SOME, linked, of_them_end
from catalogue.instrumentation.seating import double, own_section
from catalogue.instrumentation.senses import Surroundings, in_section
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token, stretch_of
from catalogue.instrumentation.vocabulary import key_of

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


WHICH = {"which", "whom", "them", "cui", "denen", "ellas", "ellos"}
WHICH_ARE = WORDS_OF_CONTAINING | OF | OF_SOME
"""One of these words stands wherever some of the counted players are named."""
BY_LETTER = ("saxophone", "recorder")
"""Sections whose players are told by their sizes, a letter each."""

FEWEST_APART = 2
OF_SEVERAL_SIZES = ("saxophone", "recorder", "trombone", "clarinet", "wind-instrument", "viola-da-gamba")
"""Sections in whose bracket names without a figure may be a player each, not what one player doubles."""


def entries(nodes: Nodes, marks: str, *, words: bool = True) -> list[tuple[Node, ...]]:
    """Return the nodes cut at the marks and, if asked, at joining words, empty pieces left out."""
    found: list[list[Node]] = [[]]
    for node in nodes:
        if node.is_mark(marks) or (words and is_small(node, AND)):
            found.append([])
        else:
            found[-1].append(node)
    return [tuple(piece) for piece in found if piece]


def chair_list(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle a list of chairs: figures in order from 1, ``/`` before what a chair also plays, names for the rest."""
    pieces = entries(bracket.nodes, ".,;")
    if not begins_list(pieces, bracket) or (len(pieces) < 2 and not has_slash(bracket.nodes)):
        return None
    if any(is_key(node, DOUBLING) for node in bracket.nodes):
        return None
    section = draft.section or own_section(draft)
    chairs: list[Chair] = []
    for seat, piece in enumerate(pieces, 1):
        own = 1 + sum(chair.plays[0] == draft.slug for chair in chairs)
        chair = listed_chair(piece, (seat, own), section, draft.slug, forces)
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


def pointed_chairs_apart(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``3(1.pic 2.pic 3.afl)``: blanks part chairs, a point stands between each and what it doubles.

    One alone doubles too where the list of chairs would be too short, ``3(1.pic)``.
    """
    section = draft.section or own_section(draft)
    found: list[tuple[int, str]] = []
    at, nodes = 0, bracket.nodes
    while at + 2 < len(nodes):
        seat, point = token_at(nodes, at), token_at(nodes, at + 1)
        name = name_at(nodes, at + 2, section)
        apart = seat is not None and seat.kind == "number" and (seat.spaced or at == 0)
        if not apart or seat is None or point is None or not point.is_mark(".") or name is None:
            return None
        if not 0 < seat.number <= draft.most or (found and seat.number <= found[-1][0]):
            return None
        found.append((seat.number, name.surely(section) or name.slugs[0]))
        at = name.end
    one_doubles = len(found) == 1 and bracket.opening == "(" and draft.most > FEWEST_APART
    if not (one_doubles or len(found) >= FEWEST_APART) or at < len(nodes):
        return None
    for number, slug in found:
        double(draft, number, (slug,), "")
    forces.dresses.add("chairs")
    return []


def has_slash(nodes: Nodes) -> bool:
    return any(node.is_mark("/") for node in nodes)


def begins_list(pieces: list[tuple[Node, ...]], bracket: Bracket) -> bool:
    """Whether the first entry is chair 1, or a square bracket names an auxiliary before it, ``2[pic.1]``."""
    heads = [piece[0].text for piece in pieces if isinstance(piece[0], Token)]
    own = any(head == str(seat) for seat, head in enumerate(heads, 1))
    return bool(heads) and (heads[0] == "1" or (bracket.opening == "[" and ("1" in heads or own)))


def listed_chair(
    piece: tuple[Node, ...], seats: tuple[int, int], section: str, slug: str, forces: Forces
) -> Chair | None:
    """Return one entry of a list of chairs, ``2``, ``3/pic`` or ``pic``.

    A figure is the chair, or the part among those of the main instrument, ``4[1.Ebcl.2.bcl]``; both in ``seats``.
    """
    plays: list[str] = []
    first = piece[0]
    at = 0
    if isinstance(first, Token) and first.kind == "number":
        if int(first.text[:3]) not in seats:
            return None
        plays, at = [slug], 1
    while at < len(piece):
        if piece[at].is_mark("/"):
            at += 1
            continue
        name = name_at(piece, at, section)
        if name is None:
            return None
        plays.append(name.surely(section) or name.means(Surroundings(forces.language, section)))
        at = noun_end(piece, name.end, slug, plays[-1])
        number = token_at(piece, at)
        if number is not None and number.kind == "number":
            at += 1
    return Chair(seats[0], tuple(plays)) if plays else None


def noun_end(piece: tuple[Node, ...], at: int, slug: str, size: str) -> int:
    """Pass over the noun of a size, the ``tp`` of ``3/picc tp``: only a slash leads to a further instrument."""
    noun = name_at(piece, at) if size != slug else None
    return noun.end if noun is not None and slug in noun.slugs else at


def make_up(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle the make-up of a number: counted names that add up to it, or as many sizes as there are players."""
    nodes = bracket.nodes
    section = draft.section or own_section(draft)
    if lettered(draft, nodes, section):
        return []
    containing, inside = contents(nodes)
    told = [contents(piece) for piece in entries(inside, ",;+/.")]
    pieces = [tuple(piece) for _, piece in told]
    containing = containing or (bool(told) and all(one for one, _ in told))
    members: list[tuple[int, str]] = []
    counted = False
    if not all(pieces) or any(is_key(piece[-1], DOUBLING) for piece in pieces):
        return None
    for piece in pieces:
        member = member_of(piece, section, forces)
        if member is None:
            return None
        counted = counted or member[0] > 0
        members.append(member)
    general = draft.slug == section in BY_LETTER
    if general and len(members) == 1 and not (counted or containing) and draft.most == 1:
        draft.slug = members[0][1]
        return []
    total = sum(number or 1 for number, _ in members)
    if draft.open and draft.count is None and section in BY_LETTER and len(members) > 1:
        draft.open = False
        draft.counted(total)
    if containing:
        return contained(draft, members, total, forces, bracket)
    if total != draft.most or draft.most < 2 or not fills(draft, members, bracket, counted=counted):
        return None
    slugs = [slug for number, slug in members for _ in range(number or 1)]
    draft.chairs = [Chair(seat, (slug,)) for seat, slug in enumerate(slugs, 1)]
    return []


def contents(nodes: Nodes) -> tuple[bool, Nodes]:
    """Tell whether the nodes name some of the counted players, and return them without the words that say so.

    ``including piccolo`` says it, and so does ``one of them piccolo``, whose number is kept: ``one piccolo``.
    """
    if is_key(nodes[0], WORDS_OF_CONTAINING):
        return True, nodes[1:]
    if is_key(nodes[0], OF) and is_key(token_at(nodes, 1), WHICH) and count_at(nodes, 2) is not None:
        return linked(nodes, 3)[0] is None, nodes[2:]
    counted = count_at(nodes, 0)
    end = of_them_end(nodes, counted.end) if counted is not None else 0
    if counted is None or end == counted.end or end >= len(nodes) or linked(nodes, end)[0] is not None:
        return False, nodes
    return True, (*nodes[: counted.end], *nodes[end:])


def one_each(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``2 saxophones (soprano/alto & tenor/baritone)``: as many entries as players, a slash within one."""
    section = draft.section or own_section(draft)
    pieces = entries(bracket.nodes, ",;+")
    if section not in BY_LETTER or len(pieces) != draft.most or draft.most < 2 or not has_slash(bracket.nodes):
        return None
    chairs = [listed_chair(piece, (seat, seat), section, draft.slug, forces) for seat, piece in enumerate(pieces, 1)]
    if any(chair is None or draft.slug in chair.plays for chair in chairs):
        return None
    draft.chairs = [chair for chair in chairs if chair is not None]
    return []


def lettered(draft: Draft, nodes: Nodes, section: str) -> bool:
    """Settle ``5 sax (AATTB)``, ``recorders (SAT)``: one letter a player."""
    if section not in (*BY_LETTER, "trombone"):
        return False
    letters = letters_in(nodes) if len(nodes) == 1 or draft.plural or draft.open else ""
    slugs = [in_section(letter.lower(), section) for letter in letters]
    if not letters or not all(slugs):
        return False
    if draft.count is None and len(slugs) == 1:
        draft.slug = slugs[0] or draft.slug
        return True
    if draft.count is None:
        draft.open = False
        draft.counted(len(slugs))
    if len(slugs) != draft.most:
        return False
    draft.chairs = [Chair(seat, (slug,)) for seat, slug in enumerate(slugs, 1) if slug]
    return True


def letters_in(nodes: Nodes) -> str:
    """Return the capitals of ``AATTB``, ``A, A, T, T, B``, ``2A, 2T, B``; nothing where the nodes say more."""
    found = ""
    for piece in entries(nodes, ",+/.", words=False):
        counted = count_at(piece, 0)
        token = piece[-1]
        several = counted.most if counted is not None and counted.end == len(piece) - 1 else 1
        alone = len(piece) == 1 or (counted is not None and counted.end == len(piece) - 1)
        if not alone or not isinstance(token, Token) or not token.text.isupper() or not token.text.isalpha():
            return ""
        found += token.text * several if len(token.text) == 1 or several == 1 else ""
    return found


def fills(draft: Draft, members: list[tuple[int, str]], bracket: Bracket, *, counted: bool) -> bool:
    """Whether members that add up to the number are its make-up and not what somebody doubles."""
    if len(members) == 1:
        return counted and bracket.opening == "["
    dotted = bracket.opening == "[" and draft.figure and any(node.is_mark(".") for node in bracket.nodes)
    if dotted and not counted and len(members) == draft.most:
        return True
    if bracket.opening == "[" and len({slug for _, slug in members}) == 1 and draft.figure and not counted:
        return len(members) == draft.most
    own = any(slug == draft.slug and number for number, slug in members)
    if counted and (own or all(number for number, _ in members)):
        return not rising(members, draft)
    return not draft.figure and draft.slug in OF_SEVERAL_SIZES and not rising(members, draft)


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
    return (counted.least if counted else 0), name.surely(section) or name.means(Surroundings(forces.language, section))


def stripped(node: Node) -> Node:
    """Return a word without its plural s."""
    if not isinstance(node, Token) or not node.text.endswith("s"):
        return node
    return stretch_of(node, 0, len(node.text) - 1)
