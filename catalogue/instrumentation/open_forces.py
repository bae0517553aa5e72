"""Reads forces whose players are not named: ``any six treble instruments``, ``octet``, ``soprano and ensemble``."""

from __future__ import annotations

from dataclasses import dataclass, replace

from catalogue.instrumentation import collectives, limits
from catalogue.instrumentation.choices import names_choice
from catalogue.instrumentation.denials import denial_start
from catalogue.instrumentation.drafts import Count, Draft, Forces
from catalogue.instrumentation.lexicon import (
    AND,
    ANY,
    ARTICLES,
    BANDS,
    ENSEMBLE,
    HEADINGS,
    OF,
    ORCHESTRA,
    SOLO,
    TREBLE,
    keyed,
)
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, limited_count, phrase_end, token_at
from catalogue.instrumentation.tokens import Bracket, Node, Nodes
from catalogue.instrumentation.vocabulary import key_of

BAND_NAMES = frozenset[str]().union(*BANDS.values())
LED_BY = AND | ARTICLES
FAMILIES = HEADINGS["woodwind"] | HEADINGS["brass"]
Found = tuple[list[Draft], int, bool]
CATEGORIES = {"vocal": "voice", "instrumental": "instrument"}
CATEGORY_WORDS = {"category", "categories", "section", "work", "works", "piece", "pieces", "ensemble", "music"}
COMPRISING = {"comprising", "comprises", "consisting", "consists", "besteht", "bestehend", "compose", "composed"}
OPEN = {
    "treble": "treble-instrument",
    "melody": "treble-instrument",
    "melodic": "treble-instrument",
    "bass": "bass-instrument",
    "string": "string-instrument",
    "wind": "wind-instrument",
    "woodwind": "wind-instrument",
    "brass": "brass-instrument",
}
KINDS = {"equal", "different", "other", "solo", "like", "similar", "identical", "same", "gleiche", "gleichen"}


OF_A_KIND = TREBLE | KINDS


def itemises(bracket: Bracket) -> bool:
    """Whether the bracket after an ensemble's name lists its instruments."""
    found = 0
    at = 0
    while at < len(bracket.nodes):
        name = name_at(bracket.nodes, at)
        found += name is not None and len(name.written) > 1
        at = name.end if name is not None else at + 1
    return found >= 2


@dataclass(frozen=True, slots=True)
class Asked:
    """A number of players of a kind, or any: the kind stands from ``end`` to ``words``, the noun up to ``noun``."""

    counted: Count | None
    anyone: bool
    end: int
    words: int
    noun: int

    def kind(self, nodes: Nodes, forces: Forces) -> str:
        """Return the words between the number and the noun, ``treble`` of *six treble instruments*."""
        if self.words <= self.end:
            return ""
        return forces.written(nodes[self.end].start, nodes[self.words - 1].end)


def open_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read forces left open, ``any 3-7 players``; a number of players that a list follows only introduces it."""
    body = body_that_introduces(nodes, at)
    if body is not None:
        return [], body, True
    anyone = phrase_end(nodes, at, ANY)
    start = anyone if anyone is not None else at
    solo = phrase_end(nodes, start, SOLO)
    start = solo if solo is not None else start
    counted = count_at(nodes, start) or limited_count(nodes, start)
    if counted is None and anyone is None:
        return None
    if anyone is not None and is_key(token_at(nodes, start), {"number"}) and is_key(token_at(nodes, start + 1), {"of"}):
        start += 2
    if counted is None and forces.drafts and forces.drafts[-1].collective == "players":
        noun = phrase_end(nodes, start, ENSEMBLE)
        return None if noun is None else ([], noun, True)
    asked = asked_at(nodes, start, counted, anyone=anyone is not None)
    if asked is None:
        return None
    if asked.counted is not None and introduces(nodes, asked.noun) and len(forces.drafts) in (1, 2):
        for draft in forces.drafts:
            draft.role = "soloist"
    asked = of_players(nodes, asked)
    chosen = asked.words > asked.end and asked.noun < len(nodes) and names_choice(nodes[asked.noun])
    if not asked.anyone and not chosen and introduces(nodes, asked.noun):
        return [], asked.noun, True
    return number_of_others(nodes, at, asked, forces) or left_open(nodes, at, asked, forces)


def body_that_introduces(nodes: Nodes, at: int) -> int | None:
    """Return the end of the name of an orchestra or band that a bracket itemises."""
    whole = phrase_end(nodes, at, ORCHESTRA)
    listed = nodes[whole] if whole is not None and whole < len(nodes) else None
    if isinstance(listed, Bracket) and denial_start(listed.nodes, 0) is None:
        return whole
    band = phrase_end(nodes, at, BAND_NAMES)
    listed = nodes[band] if band is not None and band < len(nodes) else None
    return band if isinstance(listed, Bracket) and itemises(listed) else None


def asked_at(nodes: Nodes, start: int, counted: Count | None, *, anyone: bool) -> Asked | None:
    """Return the players asked for after a number or ``any``; ``None`` where a name or no noun for them follows."""
    end = counted.end if counted else start
    words = end
    while words < len(nodes) and is_key(nodes[words], OF_A_KIND):
        words += 1
    noun = phrase_end(nodes, words, ENSEMBLE)
    if noun is None and counted is not None:
        noun = family_that_introduces(nodes, words) or family_that_introduces(nodes, end)
    named = name_at(nodes, end) if counted is not None and not anyone else None
    if noun is None or (named is not None and named.end > noun):
        return None
    return Asked(counted, anyone, end, words, noun)


def of_players(nodes: Nodes, asked: Asked) -> Asked:
    """Take the number that follows the noun, ``any ensemble of 5 players``."""
    following = limits.of_players_at(nodes, asked.noun) if asked.counted is None else None
    return asked if following is None else replace(asked, counted=following[0], noun=following[1])


def number_of_others(nodes: Nodes, at: int, asked: Asked, forces: Forces) -> Found | None:
    """Give ``, two players`` to those who stand before it: one item alone, or the percussion at the end."""
    counted = asked.counted
    if counted is None:
        return None
    plain = not asked.anyone and asked.words <= asked.end
    if plain and (only := alone_in_clause(nodes, at, asked.noun, forces)):
        only.counted(counted.least, counted.most)
        return [], asked.noun, False
    closes = forces.drafts and nodes[at - 1].is_mark(",") and at + 2 >= asked.noun == len(nodes)
    last = percussion_before(forces) if closes or (plain and ends_percussion(nodes, at, asked.noun, forces)) else None
    if last is None:
        return None
    last.counted(counted.least, counted.most)
    start, end = nodes[at].start, nodes[asked.noun - 1].end
    message = f"“{forces.written(start, end)}” was read as the number of those before it."
    forces.remark("players", message, start, end, "further players, who are not named")
    return [], asked.noun, False


def ends_percussion(nodes: Nodes, at: int, end: int, forces: Forces) -> bool:
    """Whether ``Percussion: timpani and 4 players`` ends here: the others are percussionists."""
    joined = at > 0 and (nodes[at - 1].is_mark(",+&") or is_key(nodes[at - 1], AND))
    headed = [draft.slug for draft in forces.drafts[-2:]] == ["percussion", "timpani"]
    return joined and headed and (end >= len(nodes) or nodes[end].kind == "mark")


def percussion_before(forces: Forces) -> Draft | None:
    """Return the percussion at the end of what has been read; before the timpani where the section heads them."""
    drafts = forces.drafts
    last = drafts[-1]
    if last.slug == "timpani" and len(drafts) > 1 and drafts[-2].slug == "percussion":
        last = drafts[-2]
    return last if last.family == "percussion" and last.count is None else None


def left_open(nodes: Nodes, at: int, asked: Asked, forces: Forces) -> Found:
    """Make a line of players whose instruments the text leaves open."""
    counted, kind = asked.counted, asked.kind(nodes, forces)
    last = forces.drafts[-1] if forces.drafts else None
    if counted is not None and last is not None and last.collective == "any" and last.open:
        last.count, last.open = counted, False
        return [], asked.noun, True
    draft = Draft(OPEN.get(key_of(kind), "instrument"), nodes[at].start, nodes[asked.noun - 1].end, count=counted)
    draft.open = asked.anyone and not is_singular(nodes[asked.noun - 1])
    draft.collective = "any" if asked.anyone or kind else "players"
    if kind and draft.slug == "instrument":
        draft.notes.append(kind)
    return [draft], limits.on_any_end(nodes, asked.noun), False


def alone_in_clause(nodes: Nodes, at: int, end: int, forces: Forces) -> Draft | None:
    """Return the one item before ``, two players;``, where semicolons or lines part it from all others."""
    first = next((one + 1 for one in range(at - 1, -1, -1) if nodes[one].is_mark(";\n")), 0)
    commas = sum(node.is_mark(",") or is_key(node, AND) for node in nodes[first:at])
    ends = end >= len(nodes) or nodes[end].is_mark(";\n")
    last = forces.drafts[-1] if forces.drafts else None
    if last is None or commas != 1 or not ends or not nodes[at - 1].is_mark(",") or last.start != nodes[first].start:
        return None
    by_name = last.slug == "percussion" or last.family not in ("voice", "other", "percussion")
    return last if by_name and last.count is None and not last.figure else None


def is_singular(node: Node) -> bool:
    """Whether one player is meant by a word such as ``instrument``."""
    return is_key(node, {"instrument", "strumento", "instrumento", "player", "esecutore", "executant", "ejecutante"})


def family_that_introduces(nodes: Nodes, at: int) -> int | None:
    """Return the end of ``winds`` in ``8 winds: 2 oboes, …``, which only counts what the list names."""
    end = phrase_end(nodes, at, FAMILIES)
    return end if end is not None and introduces(nodes, end) else None


def category_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``vocal category``, ``instrumental works``: whoever sings or plays is left open."""
    first = token_at(nodes, at)
    slug = CATEGORIES.get(first.key) if first is not None else None
    if slug is None or not is_key(token_at(nodes, at + 1), CATEGORY_WORDS):
        return None
    return [Draft(slug, nodes[at].start, nodes[at + 1].end, open=True)], at + 2, False


ENSEMBLES = {
    "ensemble": keyed("ensemble ensembles conjunto complesso"),
    "chamber ensemble": keyed(
        "chamber_ensemble kammerensemble ensemble_de_chambre ensemble_da_camera conjunto_de_cámara"
    ),
    "large ensemble": keyed("large_ensemble großes_ensemble grand_ensemble grande_ensemble gran_conjunto"),
    "small ensemble": keyed("small_ensemble kleines_ensemble petit_ensemble piccolo_ensemble pequeño_conjunto"),
    "mixed ensemble": keyed("mixed_ensemble gemischtes_ensemble ensemble_mixte ensemble_misto conjunto_mixto"),
    "instrumental ensemble": keyed(
        "instrumental_ensemble instrumentalensemble ensemble_instrumental ensemble_strumentale conjunto_instrumental"
    ),
}
"""Ensembles of which no more is said, by the English name that is kept as the remark."""
ENSEMBLE_NAMES = frozenset[str]().union(*ENSEMBLES.values())
MIXED_SIZE = keyed("mixed gemischtes mixte misto mixto chamber")


def unnamed_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``soprano and ensemble``, ``mixed octet``: players who are not named, in a number or open."""
    sized = token_at(nodes, at + 1) if is_key(nodes[at], MIXED_SIZE) else token_at(nodes, at)
    size = collectives.size_of(sized.text) if sized is not None and sized.kind == "word" else None
    end = (at + 2 if sized is not nodes[at] else at + 1) if size else phrase_end(nodes, at, ENSEMBLE_NAMES)
    if end is not None and not size and is_key(token_at(nodes, end), OF) and lists_single(nodes, end + 1):
        return [], end + 1, True
    if end is None or not stands_alone(nodes, at, end):
        return None
    draft = Draft("instrument", nodes[at].start, nodes[end - 1].end, collective="ensemble")
    if size:
        draft.counted(size)
        written = forces.written(draft.start, draft.end)
        forces.remark("unnamed", f"“{written}” names {size} players, not what they play.", draft.start, draft.end)
        return [draft], end, False
    key = "".join(node.key for node in nodes[at:end])
    draft.open, draft.notes = True, [next(kind for kind, keys in ENSEMBLES.items() if key in keys)]
    forces.remark("unnamed", "The players of the ensemble are not named.", draft.start, draft.end)
    return [draft], end, False


def lists_single(nodes: Nodes, at: int) -> bool:
    """Whether the names of two players at least follow, ``chamber ensemble of flute, clarinet and harp``."""
    first = name_at(nodes, at)
    mark = token_at(nodes, first.end) if first is not None else None
    listed = mark is not None and (mark.is_mark(",") or is_key(mark, AND))
    return listed and first is not None and name_at(nodes, first.end + 1) is not None


def stands_alone(nodes: Nodes, start: int, end: int) -> bool:
    """Whether a word for an ensemble is an item of its own: separators, or nothing, on both sides."""
    before, after = token_at(nodes, start - 1), nodes[end] if end < len(nodes) else None
    led = start == 0 or is_key(before, LED_BY) or (before is not None and before.is_mark(",;+/&\n-.:"))
    return led and (after is None or is_key(after, AND) or after.is_mark(",;+&\n"))


def introduces(nodes: Nodes, at: int) -> bool:
    """Whether a bracket, a colon or ``comprising`` follows, so that the players are itemised."""
    while at < len(nodes) and nodes[at].is_mark(",-"):
        at += 1
    if at >= len(nodes):
        return False
    return isinstance(nodes[at], Bracket) or nodes[at].is_mark(":") or is_key(nodes[at], COMPRISING)
