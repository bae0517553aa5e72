"""Reads the sizes that a colon lists after an instrument, ``3 saxophones: alto, tenor, baritone``, as in a bracket."""

from __future__ import annotations

from catalogue.instrumentation.chair_lists import entries
from catalogue.instrumentation.names import known
from catalogue.instrumentation.phrases import count_at
from catalogue.instrumentation.rows import marks_of
from catalogue.instrumentation.senses import in_section
from catalogue.instrumentation.tokens import Bracket, Node, Row, Token
from catalogue.instrumentation.vocabulary import instrument

FEWEST = 2
ENDS = ";\n"


def listed_sizes(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes with such a list in a bracket: up to a semicolon or a line's end it holds nothing else."""
    if ":" not in marks_of(nodes):
        return nodes
    for at in [at for at, node in enumerate(nodes) if node.is_mark(":")]:
        node, section = nodes[at], section_before(nodes, at)
        if not section:
            continue
        end = next((one for one in range(at + 1, len(nodes)) if nodes[one].is_mark(ENDS)), len(nodes))
        if are_sizes(nodes[at + 1 : end], section):
            bracket = Bracket("(", Row(nodes[at + 1 : end]), node.start, nodes[end - 1].end, True)
            return Row((*nodes[:at], bracket, *listed_sizes(nodes[end:])))
    return nodes


def section_before(nodes: tuple[Node, ...], at: int) -> str:
    """Return the section of an instrument that is named in one word before a place, empty for none."""
    word = nodes[at - 1] if at else None
    slugs = known(word.text) if isinstance(word, Token) and word.kind == "word" else ()
    section = instrument(slugs[0]).section if slugs else ""
    return section if section and slugs[0] == section else ""


def are_sizes(nodes: tuple[Node, ...], section: str) -> bool:
    """Whether the nodes are a list of sizes of a section's instrument, each with or without a number."""
    pieces = entries(nodes, ",/+")
    return len(pieces) >= FEWEST and all(is_size(piece, section) for piece in pieces)


def is_size(piece: tuple[Node, ...], section: str) -> bool:
    counted = count_at(piece, 0)
    rest = piece[counted.end if counted is not None else 0 :]
    return len(rest) == 1 and rest[0].kind == "word" and in_section(rest[0].key, section) is not None
