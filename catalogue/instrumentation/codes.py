"""Reads what only the code lists of libraries have: a heading that is repeated, the capital ``V`` of a voice.

    codes = [ HEADING , blank ] , code , { "," , code } ;    code = [ number ] , letters ;

Source: the national rules of Italian libraries for scoring (ICCU, *Organico*), from memory.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.names import known
from catalogue.instrumentation.tokens import Node, Row, Token
from catalogue.instrumentation.vocabulary import family_of

PAIR = 2
VOICES = "VSATB"
VIOLINS = {"violin", "violin-1", "violin-2"}


def without_heading(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes without the capitals of a subject heading that the code after it includes, ``PF 2pf``.

    The code is in small letters, counted or the one letter of a voice: ``VLC vlc``, ``V 3V``, ``SOP S``.
    """
    start = int(len(nodes) > 1 and nodes[0].kind == "number")
    heading = nodes[start] if start < len(nodes) else None
    counted = start + 1 < len(nodes) and nodes[start + 1].kind == "number"
    at = start + 1 + counted
    code = nodes[at] if at < len(nodes) else None
    if not (isinstance(heading, Token) and isinstance(code, Token) and heading.kind == code.kind == "word"):
        return nodes
    if start and not (counted and written(nodes[0]) == written(nodes[start + 1])):
        return nodes
    letter = len(code.text) == 1 and code.text in VOICES
    ends = at + 1 == len(nodes) or nodes[at + 1].is_mark(",;")
    repeated = code.text.islower() or counted or (letter and ends)
    if not (heading.text.isupper() and nodes[start + 1].spaced and repeated):
        return nodes
    return Row(nodes[start + 1 :]) if set(known(heading.text)) & set(known(code.text)) else nodes


def written(node: Node) -> str:
    """Return what a token spells, nothing for a bracket."""
    return getattr(node, "text", "")


def capital_voices(forces: Forces) -> None:
    """Read a capital ``V`` as a voice where violins are named by another code, or all other codes are small letters.

    Numbered ones are violins where one of them is, ``I. V., II. V.``; a small ``v`` beside ``vl`` is a voice too.
    """
    small_voices(forces)
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


def small_voices(forces: Forces) -> None:
    """Read the small ``v`` of ``4v,2vl,vla,bc`` as voices: one list has one code for the violins."""
    named = [draft for draft in forces.drafts if draft.name is not None and len(draft.name.written) > 1]
    if not any(set(draft.name.slugs) & VIOLINS for draft in named if draft.name is not None):
        return
    for draft in forces.drafts:
        if draft.name is not None and draft.name.written == "v" and not (draft.seats or draft.number_after):
            draft.slug, draft.open = "voice", False


def say_of_pointed_v(forces: Forces) -> None:
    """Say of the one ``v.`` of a list without violins and other singers that it was read as a voice."""
    sung = [draft for draft in forces.drafts if draft.family == "voice"]
    name = sung[0].name if len(sung) == 1 else None
    if name is None or name.written not in ("v", "V") or len(forces.drafts) == 1:
        return
    after = forces.text[name.stop : name.stop + PAIR]
    if after[:1] == "." and not after[1:].isalnum() and not any(draft.slug in VIOLINS for draft in forces.drafts):
        message = f"“{name.written}.” was read as a voice."
        forces.remark("abbreviation", message, name.start, name.stop, "a violin")


def is_capital_v(draft: Draft) -> bool:
    """Whether a draft is named by a lone ``V``, in the singular and without the number of a section."""
    name = draft.name
    return name is not None and name.written == "V" and any(family_of(slug) == "voice" for slug in name.slugs)
