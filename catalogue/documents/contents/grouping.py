"""How a works list is parted: by category, by how many play, by how long it lasts; and which works are performable."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import Literal

from catalogue.documents.contents.forces import only_media
from catalogue.documents.contents.selection import latest_first
from catalogue.documents.contents.titles import short_title
from catalogue.documents.labels import Labels
from catalogue.documents.model import plain
from catalogue.facts import WorkFacts
from catalogue.instrumentation import Instrumentation
from catalogue.instrumentation.fit import fit
from catalogue.terms import Category

Order = Literal["category", "year", "forces", "duration"]
Group = tuple[str, tuple[WorkFacts, ...]]

CATEGORY_HEADS = {
    Category.STAGE: "Opera and dance",
    Category.ORCHESTRA: "Orchestra",
    Category.SOLOIST_AND_ORCHESTRA: "Soloist and orchestra",
    Category.LARGE_ENSEMBLE: "Large ensemble",
    Category.CHAMBER: "Chamber music",
    Category.SOLO: "Solo instrument",
    Category.CHOIR: "Choir",
    Category.VOICE: "Voice with instruments",
    Category.ELECTRONICS: "With electronics",
    Category.INSTALLATION: "Installation",
    Category.OTHER: "Other works",
}
BODIES = {
    Category.STAGE: "Opera and dance",
    Category.ORCHESTRA: "Orchestra",
    Category.SOLOIST_AND_ORCHESTRA: "Soloist and orchestra",
    Category.CHOIR: "Choir",
    Category.INSTALLATION: "Installation",
}
"""Works of these are found by their body, not by the number of their players."""
LOOKED_FOR = (Category.SOLO, Category.CHOIR, Category.VOICE, Category.ELECTRONICS)
"""Heads under which works of others are looked for too."""
MANY = 10
"""From this many players on a number tells less than a word."""
LIMITS = (5, 10, 15, 20, 30, 60)
"""Minutes at which a list by duration is parted (common practice of programme planners)."""


def by_category(works: tuple[WorkFacts, ...], says: Labels) -> Iterator[Group]:
    """The categories in their usual order, in each the latest first."""
    found = defaultdict[Category, list[WorkFacts]](list)
    for one in sorted(works, key=latest_first):
        found[one.category].append(one)
    for category, head in CATEGORY_HEADS.items():
        yield says.word(head), tuple(found[category])


def looked_for(works: tuple[WorkFacts, ...], category: Category) -> tuple[WorkFacts, ...]:
    """Works that stand under another category and are looked for under this one too (common practice).

    A concerto among works for its instrument, what has a choir, a voice or electronics among those for them.
    """
    if category not in LOOKED_FOR:
        return ()
    return tuple(
        sorted((one for one in works if one.category is not category and belongs(one, category)), key=latest_first)
    )


def belongs(work: WorkFacts, category: Category) -> bool:
    if category is Category.SOLO:
        return work.category is Category.SOLOIST_AND_ORCHESTRA
    forces = work.instrumentation
    if forces is None or work.category in (Category.STAGE, Category.INSTALLATION):
        return False
    if category is Category.ELECTRONICS:
        return forces.electronics != "none"
    if category is Category.CHOIR:
        return any(line.instrument.startswith("choir-") for line in forces.lines)
    if category is not Category.VOICE or work.category is Category.CHOIR:
        return False
    return any(line.family == "voice" and not line.instrument.startswith("choir-") for line in forces.lines)


def by_forces(works: tuple[WorkFacts, ...], says: Labels) -> Iterator[Group]:
    """From one player to many, then the great bodies; what nobody has said stands last."""
    heads = [head_of_forces(work, says) for work in works]
    for head in sorted(set(heads)):
        group = (work for work, one in zip(works, heads, strict=True) if one == head)
        yield head[1], tuple(sorted(group, key=latest_first))


def head_of_forces(work: WorkFacts, says: Labels) -> tuple[int, str]:
    """The place of a work among the forces, and the head it stands under."""
    if work.category in BODIES:
        return (200 + list(BODIES).index(work.category), says.word(BODIES[work.category]))
    forces = work.instrumentation
    if forces is None:
        return (900, says.word("Forces not known"))
    if only_media(forces):
        return (300, says.word("Media alone"))
    number = people(forces)
    if number is None:
        return (800, says.word("Open forces"))
    if number >= MANY:
        return (MANY, says.count("{n} player and more", "{n} players and more", MANY, spelled=True).capitalize())
    return (number, says.count("{n} player", "{n} players", number, spelled=True).capitalize())


def people(forces: Instrumentation) -> int | None:
    """How many play and sing, where it is one number."""
    found = [forces.players, forces.singers]
    if any(one is None or one[0] != one[1] for one in found):
        return None
    return sum(one[1] for one in found if one)


def by_duration(works: tuple[WorkFacts, ...], says: Labels) -> Iterator[Group]:
    """From short to long; what is open or unknown stands last."""
    known = [work for work in works if work.duration]
    least = 0
    for most in (*LIMITS, None):
        group = (work for work in known if lasts_between(work, least, most))
        yield head_of_minutes(least, most, says), tuple(sorted(group, key=shortest_first))
        least = most or least
    open_ones = (work for work in works if not work.duration)
    yield says.word("Duration open or not known"), tuple(sorted(open_ones, key=latest_first))


def lasts_between(work: WorkFacts, least: int, most: int | None) -> bool:
    minutes = work.duration.seconds / 60 if work.duration else 0
    return least < minutes and (most is None or minutes <= most)


def head_of_minutes(least: int, most: int | None, says: Labels) -> str:
    if most is None:
        return plain(says.say("Over {n} minutes", n=str(least)))
    if not least:
        return plain(says.say("Up to {n} minutes", n=str(most)))
    return plain(says.say("Over {a} and up to {b} minutes", a=str(least), b=str(most)))


def shortest_first(work: WorkFacts) -> tuple[int, str, int]:
    return (work.duration.seconds if work.duration else 0, plain(short_title(work.title)).casefold(), work.id)


GROUPINGS = {"category": by_category, "forces": by_forces, "duration": by_duration}


def performable(works: tuple[WorkFacts, ...], available: Instrumentation) -> tuple[tuple[WorkFacts, ...], int]:
    """The works that these players can play, with the usual doublings, and of how many more it cannot be told."""
    answers = {
        work.id: fit(work.instrumentation, available, usual_doublings=True).fits if work.instrumentation else None
        for work in works
    }
    unsure = sum(answer is None for answer in answers.values())
    return tuple(work for work in works if answers[work.id]), unsure
