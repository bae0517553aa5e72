"""Reads adjectives of size in the plural after the noun that they agree with, ``2 trombones tenores``.

Such a word is never a singer: singers in the plural would have a number or a comma. Common practice.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import token_at
from catalogue.instrumentation.senses import in_section
from catalogue.instrumentation.tokens import Nodes
from catalogue.instrumentation.vocabulary import instrument

SIZES = {
    **dict.fromkeys(("sopranos", "soprani"), "soprano"),
    **dict.fromkeys(("altos", "alti", "altas", "alte"), "alto"),
    **dict.fromkeys(("contraltos", "contralti"), "contralto"),
    **dict.fromkeys(("tenores", "tenori", "tenors"), "tenor"),
    **dict.fromkeys(("baritonos", "baritoni", "barytons"), "baritone"),
    **dict.fromkeys(("bajos", "bajas", "bassi", "basses"), "bass"),
}
"""The English of sizes by the key of their plurals in Spanish, Italian and French."""
PLAYED = ("woodwind", "brass", "strings", "plucked")


def agreeing_size(nodes: Nodes, at: int, draft: Draft, forces: Forces) -> int | None:
    """Take a plural of size after a plural: the instrument of that size, or a remark where none is known."""
    word = token_at(nodes, at)
    several = draft.plural or draft.most > 1
    if word is None or word.key not in SIZES or not (several and word.spaced) or draft.family not in PLAYED:
        return None
    longer = name_at(nodes, at)
    if longer is not None and longer.end > at + 1:
        return None
    slug = in_section(SIZES[word.key], instrument(draft.slug).section)
    if slug is None:
        draft.notes.append(word.text)
        message = f"“{word.text}” was kept as a remark on what stands before it."
        forces.remark("remark", message, word.start, word.end)
    draft.slug = slug or draft.slug
    return at + 1
