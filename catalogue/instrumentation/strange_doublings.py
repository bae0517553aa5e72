"""Says of a wind player who changes to another section's instrument that few do: a clarinettist takes no piccolo.

Saxophonists, the players of theatre books and those of three kinds of instruments change between the woodwinds; brass
players between the brass. Common practice.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.vocabulary import family_of, instrument

WINDS = ("flute", "oboe", "clarinet", "bassoon", "horn", "trumpet", "trombone", "tuba")
NEAR = ({"horn", "trumpet"}, {"trumpet", "trombone"}, {"trombone", "tuba"}, {"horn", "tuba"})
"""Sections whose players share instruments: Wagner tubas, cornets, the euphonium."""
MOST_SECTIONS = 2
NEAR_FAMILIES = {"woodwind": ("brass",), "brass": ("woodwind",)}
"""Families whose sections tell more than they do."""


def say_of_strange_doublings(forces: Forces) -> None:
    """Remark on each chair whose player would have to play an instrument of another section."""
    for draft in [one for one in forces.drafts if one.chairs and one.collective != "book"]:
        strange = next(filter(None, map(stranger, draft.chairs)), "")
        if strange:
            own, other = (slug.replace("-", " ") for slug in (draft.slug, strange))
            message = f"A player of the {own} was read as changing to the {other}, which few do."
            start, end = place_of(draft)
            forces.remark("strange-doubling", message, start, end, f"a further player for the {other}")


def place_of(draft: Draft) -> tuple[int, int]:
    """Return where what the players change to is written."""
    if draft.brackets:
        return draft.brackets[0].start, draft.brackets[-1].end
    return (draft.clauses[0][0].start, draft.clauses[-1][-1].end) if draft.clauses else (draft.start, draft.end)


FAMILIES = ("woodwind", "brass", "keyboard", "plucked", "strings")
PLAYED_BY_OTHERS = frozenset({
    "melodica", "harmonica", "ocarina", "recorder", "bass-guitar", "electric-guitar", "ukulele", "accordion",
})  # fmt: skip
"""Instruments that players of another family take beside their own."""


def of_other_family(chair: Chair) -> str:
    """Return the instrument of another family than the chair's own, which hardly anybody plays too; empty for none."""
    first = family_of(chair.plays[0])
    others = (slug for slug in chair.plays[1:] if family_of(slug) not in (first, *NEAR_FAMILIES.get(first, ())))
    strange = (slug for slug in others if first in FAMILIES and family_of(slug) in FAMILIES)
    return next((slug for slug in strange if not {slug, chair.plays[0]} & PLAYED_BY_OTHERS), "")


def stranger(chair: Chair) -> str:
    """Return the instrument that a player of the chair's other instruments does not usually play; empty for none."""
    far = of_other_family(chair)
    if far:
        return far
    sections = [instrument(slug).section for slug in chair.plays]
    if len({*sections}) > MOST_SECTIONS or not sections or sections[0] not in WINDS:
        return ""
    for slug, section in zip(chair.plays[1:], sections[1:], strict=True):
        if section in WINDS and section != sections[0] and {section, sections[0]} not in NEAR:
            return slug
    return ""
