"""What is said of a whole body after it: notes, a quality in a bracket, how far a choir divides and how many sing."""

from __future__ import annotations

from catalogue.instrumentation import bracket_words, choirs
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.tokens import Bracket, Nodes


def qualified(nodes: Nodes, at: int, drafts: list[Draft], forces: Forces) -> int:
    """Give the notes and the brackets of one quality that follow a body to all its parts."""
    while at < len(nodes):
        node = nodes[at]
        if isinstance(node, Bracket):
            if choirs.is_divisi(node) and drafts:
                choirs.say_of_choir(drafts[-1], forces.written(node.start + 1, node.nodes[-1].end), forces)
            elif not choirs.strength_told(drafts, node, forces) and sum(
                bracket_words.quality(draft, node, forces) for draft in drafts
            ) < len(drafts):
                break
        elif node.kind == "note":
            for draft in drafts:
                draft.notes.append(forces.text[node.start + 1 : node.end - 1])
        else:
            break
        at += 1
    return at
