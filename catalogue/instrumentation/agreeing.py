"""Reads adjectives of size in the plural after the noun that they agree with, ``2 trombones tenores``.

Such a word is never a singer: singers in the plural would have a number or a comma. Common practice.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import token_at
from catalogue.instrumentation.senses import PLURAL_SIZES, in_section
from catalogue.instrumentation.tokens import Nodes
from catalogue.instrumentation.vocabulary import family_of, instrument

UNCHANGED = {"alto", "tenor", "soprano", "contralto"}
PLAYED = ("woodwind", "brass", "strings", "plucked")


def agreeing_size(nodes: Nodes, at: int, draft: Draft, forces: Forces) -> int | None:
    """Take a size after a plural: the instrument of that size, or a remark where none of it is known.

    The word is a plural too, or one that stays as it is at the end of an item, ``2 trombones alto``.
    """
    word, name = token_at(nodes, at), draft.name
    several = draft.plural or draft.most > 1
    if word is None or name is None or word.kind != "word" or not (several and word.spaced):
        return None
    slug = draft.slug or name.slugs[0]
    plural = word.key in PLURAL_SIZES
    ends = at + 1 == len(nodes) or nodes[at + 1].is_mark(",;\n")
    if not (plural or (ends and word.key in UNCHANGED)) or family_of(slug) not in PLAYED:
        return None
    longer = name_at(nodes, at)
    if longer is not None and longer.end > at + 1:
        return None
    sized = in_section(word.key, instrument(slug).section)
    basses = PLURAL_SIZES.get(word.key) == "bass" and family_of(slug) == "strings"
    if sized is None and (not plural or basses):
        return None
    if sized is None:
        draft.notes.append(word.text)
        message = f"“{word.text}” was kept as a remark on what stands before it."
        forces.remark("remark", message, word.start, word.end)
    draft.slug = sized or draft.slug
    return at + 1
