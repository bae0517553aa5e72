"""Reads what only the code lists of libraries have: a heading that is repeated, the capital ``V`` of a voice.

    codes = [ HEADING , blank ] , code , { "," , code } ;    code = [ number ] , letters ;

Source: the national rules of Italian libraries for scoring (ICCU, *Organico*), from memory.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.vocabulary import family_of

VIOLINS = {"violin", "violin-1", "violin-2"}


def drop_repeated_heading(forces: Forces) -> None:
    """Leave out the capitals of a subject heading that the code after it includes, ``PF 2pf``, ``VLC vlc``."""
    if len(forces.drafts) < 2:
        return
    first, second = forces.drafts[:2]
    if first.name is None or second.name is None or first.count is not None or first.brackets:
        return
    heading = first.name.written.isupper() and (len(first.name.written) > 1 or second.count is not None)
    code = second.count is not None or len(second.name.written) == 1 or not second.name.written.isupper()
    alike = bool(set(first.name.slugs) & set(second.name.slugs))
    if heading and code and alike and not second.separator:
        del forces.drafts[0]


def capital_voices(forces: Forces) -> None:
    """Read a capital ``V`` as a voice where violins are named by another code, or all other codes are small letters.

    Numbered ones are violins where one of them is, ``I. V., II. V.``.
    """
    sung = [draft for draft in forces.drafts if is_capital_v(draft)]
    if not sung:
        return
    others = [draft for draft in forces.drafts if draft.name is not None and not is_capital_v(draft)]
    if any(draft.slug.startswith("violin") for draft in sung) and any(draft.seats for draft in sung):
        for draft in sung:
            draft.slug = draft.slug if draft.slug.startswith("violin") else "violin"
        return
    spelled = any(set(draft.name.slugs) & VIOLINS for draft in others if draft.name is not None)
    small = bool(others) and all(draft.name.written.islower() for draft in others if draft.name is not None)
    if not spelled and not (small and " " not in forces.text.strip()):
        return
    for draft in sung:
        draft.slug, draft.open = "voice", False


def is_capital_v(draft: Draft) -> bool:
    """Whether a draft is named by a lone ``V``, in the singular and without the number of a section."""
    name = draft.name
    return name is not None and name.written == "V" and any(family_of(slug) == "voice" for slug in name.slugs)
