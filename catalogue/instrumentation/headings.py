"""Headings and labels: ``Woodwinds:``, ``Offstage:``, ``Soloists:``, ``Orchestra 2:``, and a title before ``for``."""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.lexicon import (
    BANDS,
    BODY_NOUNS,
    BODY_OF_STRINGS,
    DESKS,
    ENSEMBLE,
    FOR,
    GENRES,
    GROUP,
    HEADINGS,
    OFFSTAGE,
    ONSTAGE,
    OPTIONAL,
    ORCHESTRA,
    SOLO,
    USUAL_FORCES,
    VERSIONS,
)
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, may_begin, phrase_end, seat_value, seats_at, token_at
from catalogue.instrumentation.qualities import qualities_at
from catalogue.instrumentation.rows import keys_of, remembered
from catalogue.instrumentation.scope import Scope
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of
from catalogue.instrumentation.voicings import is_voicing

LONGEST_TITLE = 12
PLURALS = {
    **dict.fromkeys(("orchestras", "orchester", "orchestres", "orchestre", "orquestas"), "orchestra"),
    **dict.fromkeys(("groups", "gruppen", "groupes", "gruppi", "grupos"), "group"),
    **dict.fromkeys(("choirs", "chore", "choeurs", "cori", "coros"), "choir"),
    **dict.fromkeys(("ensembles", "ensemblen"), "ensemble"),
}
"""The English noun of bodies that are told apart by numerals, by the key of their plural."""
VOICES = {"voices", "voix", "voci", "voces", "stimmen"}
"""Words that head singers only where they are named on the next line."""
KEYBOARD = {"keyboard", "keyb", "keys", "kbd", "kbds", "kb", "tasten"}
"""Labels of the keyboards that are players themselves where no colon and no keyboard follow."""
NAMED_BODIES = {"concertino", "ripieno"}
FEWEST_BODIES = 2
FAMILY_HEADINGS = (*HEADINGS.items(), ("strings", BODY_OF_STRINGS))
ALL_HEADINGS = frozenset[str]().union(*(words for _, words in FAMILY_HEADINGS))
WHOLES = ORCHESTRA | ENSEMBLE | frozenset[str]().union(*BANDS.values())


OPENING = WHOLES | ALL_HEADINGS | SOLO
PLACED = OPTIONAL | OFFSTAGE | ONSTAGE
BODIES_NAMED = ENSEMBLE | GROUP
LABELS = GROUP | ORCHESTRA | NAMED_BODIES
LABELS_NUMBERED = GROUP | ORCHESTRA


@remembered
def title_end(nodes: Nodes) -> int:
    """Return where the forces begin after a title or a label, ``Nocturne for flute and harp``; 0 without one."""
    genre = genre_end(nodes)
    if genre:
        return genre
    for at in range(min(len(nodes), LONGEST_TITLE)):
        node = nodes[at]
        if node.is_mark(":") and at and is_key(nodes[at - 1], VERSIONS):
            return at + 1
        if node.kind != "word":
            return 0
        if is_key(node, FOR) and at + 1 < len(nodes):
            return at + 1
        found = name_at(nodes, at)
        token = token_at(nodes, at)
        voicing = token is not None and is_voicing(token.text)
        counts_pieces = count_at(nodes, at) is not None and at == 0 and not begins_players(nodes, at + 1)
        if counts_pieces:
            continue
        if count_at(nodes, at) is not None or voicing or (found is not None and len(found.written) > 1):
            return 0
    return 0


def genre_end(nodes: Nodes) -> int:
    """Return the end of ``Opera in one act:``, ``Clarinet Concerto:``, a kind of work with a colon; 0 without one."""
    name = name_at(nodes, 0)
    at = name.end if name is not None else 0
    if at >= len(nodes) or not is_key(nodes[at], GENRES):
        return 0
    at += 1
    while at < min(len(nodes), LONGEST_TITLE) and nodes[at].kind in ("word", "number") and not is_key(nodes[at], FOR):
        at += 1
    return at + 1 if colon(nodes, at) else 0


def begins_players(nodes: Nodes, at: int) -> bool:
    """Whether a player, an ensemble or a mark follows a number, so that it counts players and no pieces."""
    token = token_at(nodes, at)
    if token is None or token.kind != "word":
        return True
    return name_at(nodes, at) is not None or phrase_end(nodes, at, OPENING) is not None


def heading_at(nodes: Nodes, at: int, scope: Scope, separator: str) -> tuple[Scope, int] | None:
    """Return the scope that a heading opens and its end, ``None`` where none stands."""
    for read in (place_heading, group_heading, numeral_heading, solo_heading, family_heading):
        found = read(nodes, at, scope, separator)
        if found is not None:
            return found
    return None


def colon(nodes: Nodes, at: int) -> bool:
    return at < len(nodes) and nodes[at].is_mark(":")


def place_heading(nodes: Nodes, at: int, scope: Scope, separator: str) -> tuple[Scope, int] | None:
    """Read ``offstage``, ``banda``, ``on stage`` before the players it is said of."""
    offstage = phrase_end(nodes, at, OFFSTAGE)
    onstage = phrase_end(nodes, at, ONSTAGE)
    end = offstage if offstage is not None else onstage
    longer = name_at(nodes, at)
    if end is None or (longer is not None and longer.end > end):
        return None
    optional = phrase_end(nodes, end, OPTIONAL)
    named = end = optional if optional is not None else end
    end = colon_after_body(nodes, end)
    beside = nodes[end] if end < len(nodes) else None
    said = phrase_end(beside.nodes, 0, PLACED) if isinstance(beside, Bracket) else None
    if isinstance(beside, Bracket) and said is not None and colon(nodes, end + 1):
        may_be_left = phrase_end(beside.nodes, 0, OPTIONAL) is not None
        optional = end if may_be_left else optional
        end += 1
    if not colon(nodes, end) and not opens_players(nodes, end):
        return None
    label = " ".join(node.text for node in nodes[at:named] if hasattr(node, "text") and node.kind == "word").lower()
    role = "offstage" if offstage is not None else "ensemble"
    group = None if label in ("offstage", "off stage", "backstage") else label.removesuffix(" ad lib")
    ends = (";[" if group else ";[–") if colon(nodes, end) else ";,\n[-"
    opened = replace(scope, role=role, group=group, optional=optional is not None, role_ends=ends, heading="")
    return opened, end + 1 if colon(nodes, end) else end


def colon_after_body(nodes: Nodes, at: int) -> int:
    """Return where the colon of ``offstage brass: 4 tpt, 4 tbn`` stands, or the place itself where none does."""
    for words in (ALL_HEADINGS, WHOLES):
        end = phrase_end(nodes, at, words)
        if end is not None and is_key(token_at(nodes, end), BODIES_NAMED):
            end += 1
        bracket = end is not None and end < len(nodes) and isinstance(nodes[end], Bracket)
        if end is not None and colon(nodes, end + bracket):
            return end
    return at


def opens_players(nodes: Nodes, at: int) -> bool:
    if at >= len(nodes):
        return False
    return isinstance(nodes[at], Bracket) or name_at(nodes, at) is not None or count_at(nodes, at) is not None


def group_heading(nodes: Nodes, at: int, scope: Scope, separator: str) -> tuple[Scope, int] | None:
    """Read ``Orchestra 2:``, ``Group II:`` and ``Orchestra:``."""
    token = token_at(nodes, at)
    whole = phrase_end(nodes, at, WHOLES)
    if token is None or not (is_key(token, LABELS) or whole is not None):
        return None
    end = whole if whole is not None else at + 1
    if colon(nodes, end) and phrase_end(nodes, end + 1, USUAL_FORCES) is not None:
        return None
    seat = seats_at(nodes, end)
    if seat is not None and colon(nodes, seat[1]) and is_key(token, LABELS_NUMBERED):
        label = f"{BODY_NOUNS.get(token.key, token.lower)} {seat[0][0]}"
        return replace(scope, role="ensemble", group=label, role_ends="", heading=""), seat[1] + 1
    if seat is not None and is_key(token, LABELS_NUMBERED) and itemised(nodes, seat[1]):
        label = f"{BODY_NOUNS.get(token.key, token.lower)} {seat[0][0]}"
        return replace(scope, role="ensemble", group=label, role_ends="[", heading=""), seat[1]
    if token.key in NAMED_BODIES and colon(nodes, at + 1):
        return replace(scope, role="ensemble", group=token.lower, role_ends="", heading=""), at + 2
    if token.key in NAMED_BODIES and itemised(nodes, at + 1):
        return replace(scope, role="ensemble", group=token.lower, role_ends="[", heading=""), at + 1
    letter = token_at(nodes, at + 1)
    if letter is not None and len(letter.text) == 1 and letter.text.isupper() and colon(nodes, at + 2):
        label = f"{BODY_NOUNS.get(token.key, token.lower)} {letter.text}"
        return replace(scope, role="ensemble", group=label, role_ends="", heading=""), at + 3
    if colon(nodes, end) and not is_key(token, {"choir", "coro", "chor", "choeur"}):
        return replace(scope, role="ensemble", group=None, role_ends="", heading=""), end + 1
    return None


def itemised(nodes: Nodes, at: int) -> bool:
    """Whether a bracket with the figures or the instruments of a body stands here."""
    bracket = nodes[at] if at < len(nodes) else None
    if not isinstance(bracket, Bracket) or not bracket.nodes:
        return False
    bodies = sum(phrase_end(bracket.nodes, one, BODY_OF_STRINGS) is not None for one in range(len(bracket.nodes)))
    return figures_follow(bracket.nodes, 0) or is_packed(bracket.nodes[0]) or items_in(bracket) + bodies > 1


def is_packed(node: Node) -> bool:
    """Whether the figures of a family are written together here, ``2222``."""
    return isinstance(node, Token) and node.kind == "number" and len(node.text) >= len("2222")


def numeral_heading(nodes: Nodes, at: int, scope: Scope, separator: str) -> tuple[Scope, int] | None:
    """Read the Roman numeral that stands for a body, ``Two orchestras: I: …; II: …``."""
    if not is_numeral(nodes, at):
        return None
    labels = numerals(nodes)
    if len(labels) < FEWEST_BODIES or nodes[labels[0]].key != "i":
        return None
    nouns = [PLURALS[node.key] for node in nodes[: labels[0]] if node.key in PLURALS]
    label = f"{nouns[-1] if nouns else 'group'} {seat_value(token_at(nodes, at))}"
    return replace(scope, role="ensemble", group=label, role_ends="", heading=""), at + 1 + colon(nodes, at + 1)


@remembered
def numerals(nodes: Nodes) -> list[int]:
    """Return the places of all such numerals."""
    return [at for at in range(len(nodes)) if is_numeral(nodes, at)]


def is_numeral(nodes: Nodes, at: int) -> bool:
    """Whether a Roman numeral with a colon stands here, at the beginning of a part of the text."""
    token = token_at(nodes, at)
    if token is None or token.kind != "word" or not token.text.isupper() or seat_value(token) is None:
        return False
    if at and not nodes[at - 1].is_mark(";:.\n"):
        return False
    several = not keys_of(nodes).isdisjoint(PLURALS)
    return colon(nodes, at + 1) or (several and any(node.key in PLURALS for node in nodes[:at]))


def solo_heading(nodes: Nodes, at: int, scope: Scope, separator: str) -> tuple[Scope, int] | None:
    end = phrase_end(nodes, at, SOLO)
    if end is None or not colon(nodes, end):
        return None
    return replace(scope, role="soloist", role_ends=";\n–", heading=""), end + 1


def family_heading(nodes: Nodes, at: int, scope: Scope, separator: str) -> tuple[Scope, int] | None:
    """Read the name of a family that stands over its players."""
    first = token_at(nodes, at)
    start = at + 1 + colon(nodes, at + 1)
    brass = first is not None and first.key == "br" and start < len(nodes)
    if brass and (figures_follow(nodes, start) or is_packed(nodes[start])):
        return replace(scope, heading="brass"), start
    keys = is_key(first, KEYBOARD) and colon(nodes, at + 1) and name_at(nodes, at + 2)
    if keys and family_of(keys.slugs[0]) == "keyboard":
        return replace(scope, heading="keyboard"), at + 2
    if not may_begin(nodes, at, ALL_HEADINGS):
        return None
    for family, words in FAMILY_HEADINGS:
        end = phrase_end(nodes, at, words)
        longer = name_at(nodes, at)
        if end is not None and longer is not None and longer.end > end and longer.slugs[0] != "brass-instrument":
            continue
        end = ensemble_end(nodes, end)
        if end is not None and scope.heading == family and not colon(nodes, end):
            continue
        if end is not None and is_heading(nodes, at, end, family, separator):
            unit = scope.unit
            after = end + 1 if colon(nodes, end) else end
            if family == "strings" and mentions_desks(nodes, end):
                unit, after = "desks", line_end(nodes, end)
            ends = scope.role_ends + "[" * (after < len(nodes) and isinstance(nodes[after], Bracket))
            return replace(scope, heading=family, unit=unit, role_ends=ends), after
    return None


def ensemble_end(nodes: Nodes, end: int | None) -> int | None:
    """Pass over ``ensemble`` after a family that is itemised, ``brass ensemble (4 hn, 3 tbn)``."""
    if end is None or not is_key(token_at(nodes, end), BODIES_NAMED) or end + 1 >= len(nodes):
        return end
    listed = isinstance(nodes[end + 1], Bracket) or nodes[end + 1].is_mark(":") or figures_follow(nodes, end + 1)
    return end + 1 if listed else end


def mentions_desks(nodes: Nodes, at: int) -> bool:
    """Whether the line goes on to say that desks are counted, ``with the following number of stands:``."""
    end = line_end(nodes, at)
    said = any(is_key(node, DESKS) for node in nodes[at:end])
    return said and end > at and nodes[end - 1].is_mark(":") and all(node.kind != "number" for node in nodes[at:end])


def line_end(nodes: Nodes, at: int) -> int:
    while at < len(nodes) and not nodes[at].is_mark("\n"):
        at += 1
    return at


def is_heading(nodes: Nodes, at: int, end: int, family: str, separator: str) -> bool:
    if family == "voice" and is_key(nodes[end - 1], VOICES):
        return end < len(nodes) and nodes[end].is_mark(":\n") and singer_follows(nodes, end)
    if family == "strings":
        return mentions_desks(nodes, end) or (strings_follow(nodes, end))
    if colon(nodes, end):
        return True
    if end >= len(nodes):
        return False
    starts = not separator or "\n" in separator or separator.strip() in ("", ".", ";")
    if nodes[end].is_mark("\n"):
        return starts
    following = nodes[end]
    if isinstance(following, Bracket) and family in ("woodwind", "brass"):
        packed = bool(following.nodes) and is_packed(following.nodes[0])
        return packed or items_in(following) > 1 or figures_follow(following.nodes, 0)
    if nodes[end].is_mark(",./-") or isinstance(following, Bracket) or family in ("other", "voice"):
        return False
    if family in ("woodwind", "brass") and (figures_follow(nodes, end) or is_packed(following)):
        return True
    listed = count_at(nodes, end)
    if listed is not None and listed.end < len(nodes) and name_at(nodes, listed.end) is not None:
        return True
    return listed is None and name_at(nodes, end) is not None and separator == ""


def singer_follows(nodes: Nodes, at: int) -> bool:
    """Whether a line of a singer stands under ``Voices``, which then only heads it."""
    counted = count_at(nodes, at + 1) if at < len(nodes) and nodes[at].is_mark(":\n") else None
    found = name_at(nodes, counted.end if counted is not None else at + 1) if at < len(nodes) else None
    return found is not None and found.slugs[0].startswith("voice-") and len(found.written) > 1


def figures_follow(nodes: Nodes, at: int) -> bool:
    """Whether a formula of figures follows, ``WW 2.2.2.2``."""
    first, mark, second = (token_at(nodes, at + step) for step in range(3))
    figures = first is not None and second is not None and first.kind == second.kind == "number"
    return figures and mark is not None and mark.is_mark(".,/")


def items_in(bracket: Bracket) -> int:
    """Return how many counted or named instruments a bracket lists."""
    found, at = 0, 0
    while at < len(bracket.nodes):
        counted = count_at(bracket.nodes, at)
        name = name_at(bracket.nodes, counted.end if counted else at)
        found += name is not None
        at = name.end if name is not None else at + 1
    return found


def strings_follow(nodes: Nodes, at: int) -> bool:
    """Whether ``Strings:`` or ``Strings`` on a line of its own is followed by names of string instruments."""
    if at >= len(nodes) or not nodes[at].is_mark(":\n"):
        return False
    while at < len(nodes) and nodes[at].is_mark(":\n-*•"):
        at += 1
    said, first = qualities_at(nodes, at) if at < len(nodes) else (None, at)
    found = name_at(nodes, first) if said is not None and not said.solo else None
    if found is not None and family_of(found.slugs[0]) in ("plucked", "keyboard"):
        return strings_follow(nodes, found.end)
    return found is not None and "violin" in found.slugs[0]
