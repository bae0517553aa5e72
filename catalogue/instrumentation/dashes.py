"""Says of the one dash of a list, ``flute – piccolo, oboe``, that it was read as parting two players of a section.

Between families a dash is the usual mark; within one it may join what one player takes. Common practice.
"""

from __future__ import annotations

from itertools import pairwise

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.vocabulary import instrument

DASH = " - "


def say_of_dashes(forces: Forces) -> None:
    """Say so where no other dash stands between names and both are one player of one section."""
    dashed = [(one, two) for one, two in pairwise(forces.drafts) if DASH in two.separator]
    if len(dashed) != 1:
        return
    first, second = dashed[0]
    if alike(first, second):
        message = f"“{forces.written(first.start, second.end)}” was read as two players."
        forces.remark("dash", message, first.start, second.end, "one player of both")


def alike(first: Draft, second: Draft) -> bool:
    """Whether two names without numbers and brackets are a section's instrument and an auxiliary of it."""
    bare = all(one.name is not None and not one.figure and one.most == 1 for one in (first, second))
    bare = bare and first.count is second.count is None and not (first.brackets or second.brackets)
    section = instrument(first.slug).section if bare and first.slug and second.slug else ""
    of_one = bool(section) and section == instrument(second.slug).section
    return of_one and first.slug != second.slug and section in (first.slug, second.slug)
