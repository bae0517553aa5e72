"""Parts the names of lists that are written without marks, ``2 Flutes Piccolo 2 Oboes``, ``Flute 1 Flute 2 Oboe 1``.

A plural ends a name, since nothing after it in the same name could say what it is in English; and figures that rise
after a repeated name number its parts. A comma is put where a name ends, so that all else reads a list with commas;
and a plus before an auxiliary among the four figures of a family, ``3 2 2 bcl 2``, which is one more player.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.families import MAIN, WINDS
from catalogue.instrumentation.languages import language_of
from catalogue.instrumentation.lexicon import SOLO
from catalogue.instrumentation.names import Name, known, name_at
from catalogue.instrumentation.phrases import FAMILY, is_key, keys_end, pitch_end, seat_value, token_at
from catalogue.instrumentation.plurals import is_plural
from catalogue.instrumentation.rows import marks_of
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row, Token, spelled
from catalogue.instrumentation.vocabulary import family_of, instrument, key_of, languages_of

ENGLISH = {"en-GB", "en-US"}
MOST_PARTS = 9
LONG = 2
"""Nodes of a name that is more than a word."""


def part_run_on(nodes: tuple[Node, ...], forces: Forces) -> tuple[Node, ...]:
    """Return the nodes with a comma where a name ends that another follows without a mark."""
    nodes = without_points(nodes)
    inner = between_words(nodes)
    ends = (*plural_ends(nodes, forces), *part_ends(nodes, inner), *counts_next(nodes, inner))
    marks = dict.fromkeys(ends, ",") | dict(extras(nodes))
    if not marks:
        return nodes
    found: list[Node] = []
    for at, node in enumerate(nodes):
        if at in marks:
            found.append(Token("mark", marks[at], node.start, node.start, False, *spelled("mark", marks[at])))
        found.append(node)
    return Row(found)


def between_words(nodes: Nodes) -> list[int]:
    """Return the places between two words."""
    kinds = [node.kind for node in nodes]
    return [at for at, (one, two) in enumerate(zip(kinds, kinds[2:], strict=False), 1) if one == two == "word"]


def without_points(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes without the points of abbreviations before colons, ``Str.: Vl., Va.``."""
    if not {":", "."} <= marks_of(nodes):
        return nodes
    points = {at - 1 for at, node in enumerate(nodes) if node.is_mark(":") and at > 1 and is_point(nodes, at - 1)}
    return Row(node for at, node in enumerate(nodes) if at not in points) if points else nodes


def is_point(nodes: Nodes, at: int) -> bool:
    """Whether the point of an abbreviation stands here."""
    return nodes[at].is_mark(".") and nodes[at - 1].kind == "word"


def plural_ends(nodes: Nodes, forces: Forces) -> Iterator[int]:
    """Return the places after plurals that would be joined to the next name, ``2 Flutes Piccolo``."""
    for at, (word, following) in enumerate(pairwise(nodes)):
        if word.kind != "word" or following.kind != "word" or not word.key.endswith("s") or type(word) is not Token:
            continue
        if following.spaced and ends_name(nodes, at, word, forces):
            yield at + 1


def ends_name(nodes: Nodes, at: int, word: Token, forces: Forces) -> bool:
    """Whether the plural at a place is a name by itself and what follows it another."""
    further = name_at(nodes, at + 1)
    key = pitch_end(nodes, at + 1) if further is None or further.end < at + LONG else None
    if further is None and key is None:
        return False
    slugs = known(word.text)
    if not slugs or not is_plural(Name(slugs, word.text, at, at + 1, word.start, word.end)):
        return False
    if key is not None and key > at + LONG:
        return name_at(nodes, key) is not None
    joined = name_at(nodes, at)
    end = end_before_solo(nodes, further)
    if joined is None or further is None or end > max(joined.end, at + 2):
        return further is not None and end > at + 2
    if joined.end == at + 1 or end < joined.end:
        return False
    return stands_alone(further) and not is_english(joined) and in_english(nodes, at, joined, forces)


def end_before_solo(nodes: Nodes, name: Name | None) -> int:
    """Return where a name ends without a word for soloists, which the name before it may have too, ``ténor solos``."""
    if name is None:
        return 0
    return name.end - (name.end > name.first + 1 and is_key(token_at(nodes, name.end - 1), SOLO))


def stands_alone(name: Name) -> bool:
    """Whether a name is no mere size, ``alto``, ``bass``."""
    return all(family_of(slug) != "voice" for slug in name.slugs)


def is_english(name: Name) -> bool:
    """Whether a name is spelled so in English."""
    key = key_of(name.written)
    return any(ENGLISH & languages_of().get((key, slug), frozenset()) for slug in name.slugs)


def in_english(nodes: Nodes, at: int, joined: Name, forces: Forces) -> bool:
    """Whether a plural is written as in English, and the text without it and what follows is of no other language."""
    word = nodes[at]
    slugs = known(word.text) if isinstance(word, Token) else ()
    plurals = {instrument(slug).names["en-GB"].plural.lower() for slug in slugs}
    if not isinstance(word, Token) or word.lower not in plurals:
        return False
    rest = (*nodes[:at], *nodes[joined.end :])
    if not language_of(rest).startswith("en"):
        return False
    if not any(node.kind == "word" for node in rest):
        message = f"“{forces.written(joined.start, joined.stop)}” was read as two instruments."
        forces.remark("run-on", message, joined.start, joined.stop, "one instrument")
    return True


def counts_next(nodes: Nodes, inner: list[int]) -> Iterator[int]:
    """Return the places of numbers before plurals that no part of the name before them, ``Solo Violin 2 Oboes``."""
    for at in inner:
        number, before, word = nodes[at], nodes[at - 1], nodes[at + 1]
        if number.kind != "number" or not (number.spaced and word.spaced):
            continue
        further, joined = name_at(nodes, at + 1), name_at(nodes, at - 1)
        if further is None or joined is None or joined.end != at + 1 or not is_plural(further):
            continue
        if not any(one.key == before.key and two.kind != "mark" for one, two in pairwise(nodes[: at - 1])):
            yield at


class Part(NamedTuple):
    """A name with a figure after it: what it means, where it stands, and the places after it and after the figure."""

    slugs: tuple[str, ...]
    figure: int
    start: int
    stop: int
    end: int

    def follows(self, other: Part) -> bool:
        """Whether this is the next part of the other's instrument."""
        return self.slugs == other.slugs and self.figure == other.figure + 1


def part_ends(nodes: Nodes, inner: list[int]) -> Iterator[int]:
    """Return the places after the figures of repeated names that rise from one, ``Flute 1 Flute 2 Oboe``."""
    parts = [*numbered(nodes)] if run_on_figures(nodes, inner) else []
    for at, part in enumerate(parts):
        after = parts[at + 1] if at + 1 < len(parts) else None
        hidden = name_at(nodes, part.stop - 1) if part.figure == 1 and begins_with_player(nodes, part) else None
        if hidden is not None and hidden.slugs != part.slugs and after is not None and after[:2] == (hidden.slugs, 2):
            yield part.stop - 1
            parts[at] = part._replace(slugs=hidden.slugs)
        rises = after is not None and part.figure == 1 and after.follows(parts[at])
        risen = at > 0 and part.follows(parts[at - 1])
        keyed = keys_end(nodes, part.end) is not None
        if (risen or rises) and not keyed and part.end < len(nodes) and nodes[part.end].kind == "word":
            yield part.end


def begins_with_player(nodes: Nodes, part: Part) -> bool:
    """Whether a name of two words begins with one that names a player by itself, ``Piccolo Flute 1``, no size."""
    first = nodes[part.start]
    slugs = known(first.text) if isinstance(first, Token) and part.stop > part.start + 1 else ()
    return bool(slugs) and all(family_of(slug) not in ("voice", "strings") for slug in slugs)


def run_on_figures(nodes: Nodes, inner: list[int]) -> bool:
    """Whether two figures or more stand between words with blanks only."""
    return sum(nodes[at].spaced and nodes[at + 1].spaced and is_figure(nodes, at) for at in inner) > 1


def is_figure(nodes: Nodes, at: int) -> bool:
    """Whether a part number stands here, ``2`` or ``II``."""
    value = seat_value(token_at(nodes, at))
    return value is not None and 0 < value < MOST_PARTS


def numbered(nodes: Nodes) -> Iterator[Part]:
    """Return the names with a figure after them in order, a key between them passed over, ``Clarinet in A 1``."""
    at = 0
    while at < len(nodes):
        name = name_at(nodes, at) if nodes[at].kind == "word" else None
        if name is None:
            at += 1
            continue
        end = keys_end(nodes, name.end) or pitch_end(nodes, name.end) or name.end
        figure = seat_value(token_at(nodes, end)) if is_figure(nodes, end) and nodes[end].spaced else None
        if figure is not None:
            yield Part(name.slugs, figure, name.first, name.end, end + 1)
            end += 1
        at = end


def extras(nodes: Nodes) -> Iterator[tuple[int, str]]:
    """Return where marks part auxiliaries from figures that blanks part, four to a family, ``3 2 2 bcl 2 cbn``."""
    at = 0 if [node.kind for node in nodes].count("number") >= FAMILY else len(nodes)
    while at < len(nodes):
        if not begins_row(nodes, at):
            at += 1
            continue
        row = places_from(nodes, at)
        figures = [one for one in row if nodes[one].kind == "number"]
        bare = any(one in figures and two in figures for one, two in pairwise(row))
        if bare and len(figures) in (FAMILY, 2 * FAMILY):
            yield from ((two, "+") for one, two in pairwise(row) if one in figures and two not in figures)
            yield from ((two, ".") for two in row[1:2] if row[0] not in figures and two in figures)
        at = row[-1] + 1 if row else at + 1


def begins_row(nodes: Nodes, at: int) -> bool:
    """Whether a figure or a word stands here at the beginning of the text or after a mark."""
    return nodes[at].kind in ("number", "word") and (at == 0 or nodes[at - 1].kind == "mark")


def places_from(nodes: Nodes, at: int) -> list[int]:
    """Return where the figures of one digit and the auxiliaries stand that follow here with only blanks between."""
    row: list[int] = []
    while at < len(nodes) and (not row or nodes[at].spaced or isinstance(nodes[at], Bracket)):
        name = name_at(nodes, at) if nodes[at].kind == "word" else None
        auxiliary = name is not None and is_auxiliary_name(name)
        if row and isinstance(nodes[at], Bracket):
            at += 1
            continue
        if not (auxiliary or is_place(nodes, at)):
            break
        row.append(at)
        at = name.end if name is not None else at + 1
        at += name is not None and at + 1 < len(nodes) and nodes[at].is_mark(".") and nodes[at + 1].spaced
    return row


def is_place(nodes: Nodes, at: int) -> bool:
    """Whether a figure of one digit stands here."""
    return nodes[at].kind == "number" and len(getattr(nodes[at], "text", "")) == 1


def is_auxiliary_name(name: Name) -> bool:
    """Whether a name means winds without a place of their own."""
    return name.slugs[0] not in MAIN and family_of(name.slugs[0]) in WINDS
