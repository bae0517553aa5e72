"""Takes the words before forces that make a limit or a set of them, ``up to 2.2.2.2``, ``Maximum: …``, ``Set: …``.

They say what the list is for and name nobody. That it is a limit is told in a remark, since what follows is the most
that may be written for.
"""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.headings import WHOLES, figures_follow, is_packed
from catalogue.instrumentation.lexicon import FOR, OF, UP_TO, keyed
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, token_at
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row

SETS = keyed("set parts stimmen matériel materiale material orchestermaterial")
SCORES = keyed("score scores partitur partituren partition partitions partitura partiture partituras full_score")
LIMITS = UP_TO | keyed(
    "maximum_forces maximum_instrumentation maximum_scoring "
    "no_larger_than not_larger_than not_exceeding not_to_exceed maximalbesetzung "
    "effectif_maximum effectif_maximal organico_massimo plantilla_máxima"
)


LED = OF | {"with", "mit", "avec", "con"}


def without_limit(nodes: tuple[Node, ...], forces: Forces) -> tuple[Node, ...]:
    """Return the nodes that follow a limit or the label of a set at the beginning of the text."""
    if len(nodes) > 1 and is_key(nodes[0], FOR) and (kept := without_limit(Row(nodes[1:]), forces)) != nodes[1:]:
        return kept
    body = phrase_end(nodes, 0, WHOLES)
    inside = nodes[body] if body is not None and body + 1 == len(nodes) else None
    if isinstance(inside, Bracket) and (kept := without_limit(inside.nodes, forces)) is not inside.nodes:
        return Row((*nodes[:body], replace(inside, nodes=kept)))
    led = body + is_key(token_at(nodes, body), LED) if body is not None else 0
    limit = phrase_end(nodes, led, LIMITS)
    if limit is not None and lists_after(nodes, limit):
        start = past_mark(nodes, limit)
        written = forces.written(nodes[led].start, nodes[limit - 1].end)
        message = f"“{written}” was read as a limit: those named are the most."
        forces.remark("limit", message, nodes[led].start, nodes[limit - 1].end, "the players of one work")
        return Row(nodes[start:])
    label = phrase_end(nodes, 0, SETS)
    labelled = label is not None and label < len(nodes) and nodes[label].is_mark(":")
    start = score_end(nodes, past_mark(nodes, label)) if labelled and label is not None else 0
    if start and any(node.kind == "number" for node in nodes[start:]) and not numbers_parts(nodes, start):
        message = "The numbers of a set were read as players."
        forces.remark("printed-set", message, nodes[0].start, nodes[start - 1].end, "copies of printed parts")
    return Row(nodes[start:]) if start else nodes


def numbers_parts(nodes: Nodes, start: int) -> bool:
    """Whether the numbers follow names that are repeated, ``Fl 1, Fl 2``: those of parts, which nobody could copy."""
    places = [at for at in range(start, len(nodes)) if nodes[at].kind == "number"]
    names = [nodes[at - 2 if nodes[at - 1].is_mark(".") else at - 1] for at in places]
    words = [name.key for name in names if name.kind == "word"]
    return len(words) == len(names) and len(set(words)) < len(words)


def lists_after(nodes: Nodes, at: int) -> bool:
    """Whether a colon, or figures of an orchestra, follow the words for a limit, which is that of the whole list."""
    if at >= len(nodes):
        return False
    figures = nodes[at].kind == "number" and (figures_follow(nodes, at) or is_packed(nodes[at]) or spaced(nodes, at))
    return nodes[at].is_mark(":") or figures


def spaced(nodes: Nodes, at: int) -> bool:
    """Whether three figures stand here that blanks part, ``2 2 2 2``."""
    return at + 2 < len(nodes) and all(node.kind == "number" for node in nodes[at : at + 3])


def past_mark(nodes: Nodes, at: int) -> int:
    return at + (at < len(nodes) and nodes[at].is_mark(":."))


def score_end(nodes: Nodes, at: int) -> int:
    """Pass over ``1 score,`` at the head of a set."""
    counted = count_at(nodes, at)
    end = phrase_end(nodes, counted.end if counted is not None else at, SCORES)
    if end is None:
        return at
    return end + (
        end < len(nodes) and (nodes[end].is_mark(",;+") or is_key(nodes[end], {"and", "und", "et", "e", "y"}))
    )
