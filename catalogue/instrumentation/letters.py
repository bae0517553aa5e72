"""Reads single letters that stand for families after the figures of an orchestra: ``P., S.``, ``T+3/2H/S``.

No singer stands between the brass and the strings of such a text, nor as its last family. Common practice.
"""

from __future__ import annotations

from itertools import pairwise

from catalogue.instrumentation.drafts import Draft, Forces

FEWEST_FIGURES = 4


def letters_for_families(forces: Forces) -> None:
    """Turn the one soprano of a text of figures into the percussion or the strings that its letter stands for."""
    drafts = forces.drafts
    if not drafts or not drafts[0].figure:
        return
    figures = sum(max(1, len(str(draft.most)) if draft.packed else 1) for draft in drafts if draft.figure)
    sung = [draft for draft in drafts if draft.family == "voice"]
    if len(sung) != 1 or written(sung[0]) != "S" or figures < FEWEST_FIGURES:
        return
    for before, draft in pairwise(drafts):
        if draft is sung[0] and written(before) in ("P", "T"):
            before.slug, draft.slug = "timpani", "percussion"
            letters = forces.written(before.start, draft.end)
            message = f"“{letters}” after the brass was read as timpani and percussion."
            forces.remark("abbreviation", message, before.start, draft.end, "percussion and a soprano")
            return
    if drafts[-1] is sung[0] and not any(draft.slug == "strings" for draft in drafts):
        sung[0].slug, sung[0].name = "strings", None
        message = "“S” at the end was read as the strings."
        forces.remark("abbreviation", message, sung[0].start, sung[0].end, "a soprano")


def written(draft: Draft) -> str:
    return draft.name.written if draft.name is not None else ""
