"""The dress of a whole text: how it parts figures, and how it writes who doubles.

What a bracket means often hangs on the house that wrote it. The dress of the whole text is found first, by the marks
that it uses throughout, and can be chosen instead. Source: keys to abbreviations of publishers and orchestras.
"""

from __future__ import annotations

import re

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.headings import figures_follow, is_packed, title_end
from catalogue.instrumentation.lexicon import BODY_OF_STRINGS, ENSEMBLE, ORCHESTRA
from catalogue.instrumentation.model import InstrumentationError
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.number_places import numbers_after_names, numbers_part
from catalogue.instrumentation.phrases import is_key, phrase_end, seat_value, token_at
from catalogue.instrumentation.rows import has_bracket, kinds_of, marks_of
from catalogue.instrumentation.tokens import Bracket, Node, Nodes
from catalogue.instrumentation.vocabulary import family_of, instrument

FIGURES = ("dotted", "spaced", "comma", "slashed", "hyphenated", "run together", "names", "words")
BRACKETS = ("Roman chairs", "numbered chairs", "counted doublings", "chair list", "d and plus", "plain brackets")
DECIDED = (
    "alto", "brass-band", "drum-kit", "drums", "ensemble", "figure-in-bracket", "five-figures", "four-figures",
    "four-strings", "plus-in-bracket", "single-strings", "slash", "slashes", "soloist", "star", "voices",
)  # fmt: skip
"""Codes of remarks on a text that two readings fit; ``other drums`` asks for the one that is not usual."""
OTHERS = tuple(f"other {code}" for code in DECIDED)
NAMES = (*FIGURES, *BRACKETS, *OTHERS)
MARKS = {".": "dotted", ",": "comma", "·": "dotted", "/": "slashed", "-": "hyphenated"}
ROMAN = re.compile(r"[\[(](?:[^()\[\]]*[,.;+ ])?[IVX]{1,4}\s*=")
MELODIC = {"woodwind", "brass", "strings", "voice"}
ACCOMPANYING = {"keyboard", "plucked"}
LIST = re.compile(r"[\[(]1\s*[.,/]\s*(?:\d|[A-Za-z])")
NUMBERED = re.compile(r"[\[(]\d{1,2}[A-Za-z]{2,}")
D = re.compile(r"\dd\d")
SPELLED_OUT = re.compile(r"\b(?:two|three|zwei|drei|deux|trois|due|tre|dos|tres)\b|\w{9}")
STRENGTHS = 5
WHOLES = ORCHESTRA | ENSEMBLE
PACKED_FAMILY = 4
"""Figures of a family that are written together are no number of players, whatever follows them."""
PACKED = re.compile(r"(?<![\d.,])\d{3,5}(?![\d])")


def prepare(forces: Forces, nodes: Nodes, convention: str | None) -> None:
    """Find the dress of a text before it is walked along."""
    chosen = [part.strip() for part in convention.split(",")] if convention else []
    for part in chosen:
        if part not in NAMES:
            reason = f"“{part}” is not a convention; there are {', '.join(NAMES)}."
            raise InstrumentationError(reason, forces.text, 0, len(forces.text), NAMES)
    forces.others = frozenset(part.removeprefix("other ") for part in chosen if part in OTHERS)
    forces.formula = has_formula(nodes)
    forces.slash_parts = slash_parts(nodes, forces)
    forces.figures = next((part for part in chosen if part in FIGURES), figures_of(forces))
    forces.brackets = next((part for part in chosen if part in BRACKETS), brackets_of(forces))


def has_formula(nodes: Nodes) -> bool:
    """Whether figures without names stand in the text."""
    bare = 0
    if kinds_of(nodes).isdisjoint(("number", "bracket")):
        return False
    for at, node in enumerate(nodes):
        if node.kind not in ("number", "bracket"):
            continue
        if isinstance(node, Bracket):
            if of_orchestra(nodes, at) and has_formula(node.nodes):
                return True
            continue
        following = nodes[at + 1] if at + 1 < len(nodes) else None
        named = following is not None and following.kind == "word" and not following.is_word("d")
        digits = len(node.text)
        if digits < 3 and (named or (at > 0 and nodes[at - 1].kind == "word" and is_of_name(nodes, at))):
            continue
        bare += 3 if digits == PACKED_FAMILY else 0 if named else 1 if digits < 3 else 3
    return bare >= 3 and not numbers_after_names(nodes)


def is_of_name(nodes: Nodes, at: int) -> bool:
    """Whether a number is written to the word before it, or is that of a part."""
    return not nodes[at].spaced or numbers_part(nodes, at)


def of_orchestra(nodes: Nodes, at: int) -> bool:
    """Whether a bracket stands after the word for an orchestra, or after it and its number."""
    numbered = at > 1 and seat_value(token_at(nodes, at - 1)) is not None
    return at > 0 and is_key(nodes[at - 2 if numbered else at - 1], WHOLES)


def lists_by_slash(nodes: Nodes) -> bool:
    """Whether four or more single names stand in a row that only slashes part, each with or without a bracket.

    The point of an abbreviation may stand behind each, ``fl./ob./cl./pf.``
    """
    marks = [node for at, node in enumerate(nodes) if node.kind == "mark" and not abbreviates(nodes, at)]
    named = {at for at, node in enumerate(nodes) if node.is_mark("/") and at + 1 < len(nodes)}
    spaced = {node.spaced for node in nodes if node.is_mark("/")}
    slashes = (
        len(marks) >= 3
        and len(spaced) == 1
        and all(node.is_mark("/") for node in marks)
        and not any(n.kind == "number" for n in nodes)
    )
    return slashes and all(name_at(nodes, at + 1) is not None for at in named) and name_at(nodes, 0) is not None


def few_by_slash(nodes: Nodes) -> str:
    """Return how two or three single names read that only slashes part: ``parts``, ``choice``, nothing for doublings.

    A flute and a piano, or violin, viola and cello, are players; a flute, an oboe and a violin may be a choice of one.
    """
    pieces: list[list[Node]] = [[]]
    for at, node in enumerate(nodes):
        if node.is_mark("/"):
            pieces.append([])
        elif not abbreviates(nodes, at):
            pieces[-1].append(node)
    names = [name_at(piece, 0) if piece else None for piece in pieces]
    if len(pieces) not in (2, 3) or any(one is None or one.end < len(p) for one, p in zip(names, pieces, strict=True)):
        return ""
    slugs = [name.surely() or name.slugs[0] for name in names if name is not None]
    families = [family_of(slug) for slug in slugs]
    places = {slug if family_of(slug) == "strings" else instrument(slug).section or family_of(slug) for slug in slugs}
    if len(places) < len(slugs) or not {*families[families[0] == "electronics" :]} <= MELODIC | ACCOMPANYING:
        return ""
    trio = len(slugs) == 3 and set(families) == {"strings"}
    accompanied = bool(ACCOMPANYING & {*families} and MELODIC & {*families})
    if trio or accompanied or families[0] == "electronics":
        return "parts"
    return "choice" if len(slugs) == 3 and "saxophone" not in places else ""


def abbreviates(nodes: Nodes, at: int) -> bool:
    """Whether a mark is a point before a slash, or the last of all."""
    return nodes[at].is_mark(".") and (at + 1 == len(nodes) or nodes[at + 1].is_mark("/"))


def families_by_slash(nodes: Nodes) -> bool:
    """Whether slashes part families whose names points join, ``fl.cl/hn.tpt/perc/pf``: two or more, none within one."""
    marks = [node for node in nodes if node.kind == "mark"]
    if sum(node.is_mark("/") for node in marks) < 2 or not all(node.is_mark("./") for node in marks):
        return False
    before: str | None = None
    joined = False
    for at, node in enumerate(nodes):
        if node.kind == "word" and (found := name_at(nodes, at)) is not None:
            before = family_of(found.slugs[0])
        elif node.kind == "mark":
            after = family_after(nodes, at)
            if node.is_mark("/") and (after is None or before is None or after == before):
                return False
            joined = joined or (node.is_mark(".") and after is not None)
    return joined


def family_after(nodes: Nodes, at: int) -> str | None:
    """Return the family of the name after a mark, behind its number where it has one."""
    counted = at + 1 < len(nodes) and nodes[at + 1].kind == "number"
    first = at + 2 if counted else at + 1
    found = name_at(nodes, first) if first < len(nodes) else None
    return family_of(found.slugs[0]) if found is not None else None


def slash_parts(nodes: Nodes, forces: Forces) -> bool:
    """Whether a slash parts families in this text: it stands between figures, with blanks, or before the strings.

    It also parts players where nothing else does and four or more are named, ``fl(picc)/cl/vn/vc``, and families whose
    names points join.
    """
    if "/" not in marks_of(nodes):
        return has_bracket(nodes) and any(
            isinstance(node, Bracket) and of_orchestra(nodes, at) and slash_parts(node.nodes, forces)
            for at, node in enumerate(nodes)
        )
    told = nodes[title_end(nodes) :]
    within = forces.text[nodes[-1].end :].strip(" .") or forces.text[: nodes[0].start].strip()
    few = "" if within else few_by_slash(told)
    if few == "choice":
        choice = ("a choice of instruments", "parting players")
        return not forces.decide("slashes", "The slashes were read as", choice, nodes[0].start, nodes[-1].end)
    if few or lists_by_slash(told) or families_by_slash(told):
        readings = ("parting players", "a choice of instruments")
        return forces.decide("slashes", "The slashes were read as", readings, nodes[0].start, nodes[-1].end)
    for at, node in enumerate(nodes):
        if isinstance(node, Bracket) and of_orchestra(nodes, at) and slash_parts(node.nodes, forces):
            return True
        if not node.is_mark("/") or at == 0 or at + 1 >= len(nodes):
            continue
        before, after = nodes[at - 1], nodes[at + 1]
        if node.spaced and after.spaced:
            if not one_section(nodes):
                return True
            continue
        if phrase_end(nodes, at + 1, BODY_OF_STRINGS) is not None:
            return True
        if in_strengths(nodes, at):
            continue
        family = figures_follow(nodes, at + 1) or is_packed(after)
        if after.kind == "number" and (family or before.kind in ("number", "bracket")) and forces.formula:
            return True
    return False


def in_strengths(nodes: Nodes, at: int) -> bool:
    """Whether a slash stands within five figures of the strings, ``str 14/12/10/8/6``."""
    first, figures = at - 1, 0
    farthest = at - 2 * STRENGTHS - 1
    while first > max(1, farthest) and nodes[first - 1].is_mark("/") and is_strength(nodes, first - 2):
        first -= 2
    while is_strength(nodes, first) and figures <= STRENGTHS:
        figures += 1
        if first + 1 >= len(nodes) or not nodes[first + 1].is_mark("/"):
            break
        first += 2
    return figures == STRENGTHS


def is_strength(nodes: Nodes, at: int) -> bool:
    token = token_at(nodes, at)
    return token is not None and token.kind == "number" and len(token.text) <= len("16")


def one_section(nodes: Nodes) -> bool:
    """Whether every slash with blanks parts sizes of one instrument on its line, ``Flute 2 / Piccolo``."""
    sections: set[str] = set()
    for at, node in enumerate(nodes):
        if node.is_mark(",;\n"):
            sections = set()
        found = name_at(nodes, at)
        if node.is_mark("/") and node.spaced:
            beyond = name_at(nodes, at + 1)
            if beyond is None or kind_of_player(beyond.slugs[0]) not in sections:
                return False
        elif found is not None and kind_of_player(found.slugs[0]):
            sections.add(kind_of_player(found.slugs[0]))
    return True


def kind_of_player(slug: str) -> str:
    """Return the section of an instrument; keyboards are one, of whose players one may have several."""
    row = instrument(slug)
    return row.section or (row.family if row.family == "keyboard" else "")


def figures_of(forces: Forces) -> str:
    text = forces.text
    if not forces.formula:
        return dress_of_names(text)
    if PACKED.search(text):
        return "run together"
    return ""


def dress_of_names(text: str) -> str:
    """Return whether a text without a formula names its players in short or in words."""
    return "words" if SPELLED_OUT.search(text) else "names"


def brackets_of(forces: Forces) -> str:
    packed = forces.slash_parts or PACKED.search(forces.text) is not None
    return bracket_dress(forces.text, figures=forces.formula, packed=packed)


def bracket_dress(text: str, *, figures: bool = True, packed: bool = False) -> str:
    """Return what the brackets of a text mean by the marks in them.

    ``figures`` tells that figures stand without names, ``packed`` that they are run together or parted by slashes.
    """
    if "(" not in text and "[" not in text:
        return "d and plus" if D.search(text) else ""
    if "=" in text and ROMAN.search(text):
        return "Roman chairs"
    if LIST.search(text):
        return "chair list"
    if D.search(text):
        return "d and plus"
    if NUMBERED.search(text):
        return "counted doublings" if packed else "numbered chairs"
    return "plain brackets" if figures and "(" in text else ""


def name_of(forces: Forces) -> str:
    """Return the name of the dress as it is shown, ``dotted, Roman chairs``."""
    marks = [mark for mark in forces.place_marks if mark]
    most = max(marks, key=marks.count, default="")
    figures = forces.figures or MARKS.get(most[:1], most or "dotted")
    others = (name for name in OTHERS if name.removeprefix("other ") in forces.others)
    return ", ".join(part for part in (figures, forces.brackets, *others) if part)
