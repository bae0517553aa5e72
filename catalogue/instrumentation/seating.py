"""Gives doublings to the chairs of a section.

A figure written to a name, ``3pic``, is a chair in some houses and a number of players in others: the convention of
the whole text decides, unless the figures themselves do. Source: keys to abbreviations of publishers and orchestras.
"""

from __future__ import annotations

from catalogue.instrumentation.doublings import Doubling, doublings_in
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.players_meant import Section
from catalogue.instrumentation.plurals import plurals
from catalogue.instrumentation.senses import USUAL_OF_PLACE
from catalogue.instrumentation.vocabulary import instrument, key_of

MOST_CHAIRS = 60


def own_section(draft: Draft) -> str:
    return instrument(draft.slug).section if draft.slug else ""


def read_d(draft: Draft, section: Section, forces: Forces) -> None:
    """Settle ``2d1``: so many players double the usual auxiliary of the place or the one that is named."""
    if not draft.doubles:
        return
    named = [one for clause in draft.clauses for one in (doublings_in(clause, section, forces) or [])]
    plays = named[0].plays if named else tuple(filter(None, (USUAL_OF_PLACE.get(section.place),)))
    forces.dresses.add("d and plus")
    apply(draft, [Doubling(plays, count=draft.doubles)], forces, draft.start, draft.end)


def slashed(draft: Draft, forces: Forces) -> list[Draft]:
    """Settle ``flute/piccolo``: sizes of one family are one player's, unrelated instruments a choice.

    ``piccolo/flute 3`` is the third flute, who plays both.
    Electronics after a slash stand beside the player; they are returned as a draft of their own.
    """
    extras: list[Draft] = []
    main = own_section(draft)
    if len(draft.number_after) == 1 and main != draft.slug and main in draft.slashed:
        seat = draft.number_after[0]
        others = (slug for slug in draft.slashed if slug != main)
        draft.seated, draft.chairs = (main, seat), [Chair(1, (main, draft.slug, *others))]
        message = f"“{forces.written(draft.start, draft.end)}” was read as player {seat} of the section, who doubles."
        forces.remark("same-player", message, draft.start, draft.end, "a further player of the auxiliary")
        return extras
    for slug in draft.slashed:
        if slug == draft.slug:
            continue
        if instrument(slug).family == "electronics":
            extras.append(Draft(slug, draft.start, draft.end, group=draft.group, role=draft.role))
        elif draft.collective == "book" or related(draft.slug, slug):
            say_of_all(draft, slug, forces)
            for seat in seats_slashed(draft):
                double(draft, seat, (slug,), "")
            remark_on_strings(draft, (slug,), forces, draft.start, draft.end)
        elif reeds(draft, slug) and forces.decide("slash", ABOUT_SLASH, READINGS, draft.start, draft.end):
            double(draft, 1, (slug,), "")
        else:
            draft.alternatives.append(slug)
    return extras


def say_of_all(draft: Draft, slug: str, forces: Forces) -> None:
    """Say of ``2 flutes/piccolo``, several and one, that all of them were read as changing."""
    several = draft.most > 1 and draft.plural and not draft.number_after and not draft.seats
    written = forces.written(draft.start, draft.end).rpartition("/")[2]
    if several and key_of(written) not in plurals(slug) and instrument(slug).section:
        message = f"All players of “{forces.written(draft.start, draft.end)}” were read as changing to it."
        forces.remark("slash-players", message, draft.start, draft.end, "one of them changes")


ABOUT_SLASH = "The slash between two instruments was read as"
LOW_BRASS = (("trombone", "euphonium"), ("euphonium", "trombone"), ("tuba", "euphonium"), ("euphonium", "tuba"))
READINGS = ("one player of both", "a choice of either")


def reeds(draft: Draft, other: str) -> bool:
    """Whether one player may change from a saxophone to another woodwind, or between the low brass, as bands do."""
    slugs = (draft.slug, other)
    if draft.most == 1 and slugs in LOW_BRASS:
        return True
    woodwind = all(instrument(slug).family == "woodwind" for slug in slugs)
    return draft.most == 1 and woodwind and any(instrument(slug).section == "saxophone" for slug in slugs)


def seats_slashed(draft: Draft) -> tuple[int, ...]:
    """Return the chairs that a slash after a name is said of: the last of several numbers, ``flute 1, 2/piccolo``."""
    if len(draft.number_after) > 1:
        return (len(draft.number_after),)
    return tuple(range(1, draft.most + 1)) if draft.most <= MOST_CHAIRS else ()


def related(one: str, other: str) -> bool:
    """Whether one player is expected to play both."""
    first, second = instrument(one), instrument(other)
    if first.section and first.section == second.section:
        return True
    families = ("keyboard", "percussion", "strings")
    return first.family == second.family and (
        first.family in families or {one, other} <= {"guitar", "banjo", "mandolin"}
    )


def base_of(draft: Draft, forces: Forces) -> Draft | None:
    """Return the section to whose figure an extra player was added: a numbered chair after the extra is one of its."""
    at = next(index for index, one in enumerate(forces.drafts) if one is draft)
    before = [one for one in forces.drafts[:at] if not one.extra]
    return before[-1] if before and before[-1].most > 1 else None


def apply(draft: Draft, found: list[Doubling], forces: Forces, start: int, end: int) -> None:
    """Give the doublings to the draft's chairs."""
    figures = [one for one in found if one.figure]
    as_chairs = figures_are_chairs(figures, draft, forces, start, end) if figures else False
    for one in found:
        plays = tuple(slug for slug in one.plays if slug != draft.slug)
        if not plays and not one.note:
            continue
        remark_on_strings(draft, plays, forces, start, end)
        if one.figure and as_chairs:
            double(draft, one.count, plays, one.note)
        elif is_low_chair(one, draft):
            for seat in one.chairs or range(draft.most, draft.most - one.count, -1):
                double(draft, seat, plays, one.note, only=True)
        elif one.chairs:
            forces.dresses.add("chairs")
            for seat in one.chairs[:MOST_CHAIRS]:
                double(draft, seat, plays, one.note, only=one.only)
        elif draft.most == 1 and not draft.open:
            double(draft, 1, plays, one.note)
        elif one.count >= draft.size > 0 and draft.most <= MOST_CHAIRS:
            for seat in range(1, draft.most + 1):
                double(draft, seat, plays, one.note)
        else:
            draft.chairs += [Chair(None, (draft.slug, *plays), one.note)] * min(
                max(one.count, 1), draft.most, MOST_CHAIRS
            )


def is_low_chair(one: Doubling, draft: Draft) -> bool:
    """Whether a chair of the trombones plays the bass trombone all along, as in ``3 trombones (1 bass)``."""
    low = draft.slug == "trombone" and set(one.plays) <= {"bass-trombone", "contrabass-trombone"}
    named = bool(one.chairs) or one.counted
    return low and named and not one.linked and draft.most > one.count > 0 and draft.name is not None


def remark_on_strings(draft: Draft, plays: tuple[str, ...], forces: Forces, start: int, end: int) -> None:
    """Say that a string player who changes instrument stays one player."""
    if draft.family == "strings" and plays:
        other = plays[0].replace("-", " ")
        message = f"One string player was read as changing to {other}."
        forces.remark("string-doubling", message, start, end, f"a further player for the {other}")


def by_chair(figures: list[Doubling], draft: Draft, forces: Forces) -> bool:
    """Whether ``3pic`` is the third player here: figures that rise beyond the number must be chairs."""
    numbers = [one.count for one in figures]
    if len(numbers) > 1 and sum(numbers) > draft.most:
        return True
    if max(numbers) > draft.most:
        return False
    return forces.brackets != "counted doublings"


def figures_are_chairs(figures: list[Doubling], draft: Draft, forces: Forces, start: int, end: int) -> bool:
    """Tell chairs from numbers of players, and say so where only the convention decides."""
    as_chairs = by_chair(figures, draft, forces)
    if len(figures) > 1 or draft.most == 1:
        return as_chairs
    number = figures[0].count
    one, other = f"player {number} doubles", f"{number} players double" if number > 1 else "one player doubles"
    readings = (one, other) if as_chairs else (other, one)
    usual = forces.decide("figure-in-bracket", "The figure in the bracket was read as:", readings, start, end)
    return as_chairs == usual


def double(draft: Draft, seat: int, plays: tuple[str, ...], note: str, *, only: bool = False) -> None:
    """Let the player in a seat also play something, or play only that."""
    for at, chair in enumerate(draft.chairs):
        if chair.chair == seat:
            further = tuple(slug for slug in plays if slug not in chair.plays)
            draft.chairs[at] = Chair(seat, (*chair.plays, *further), " ".join(filter(None, (chair.note, note))))
            return
    draft.chairs.append(Chair(seat, plays if only else (draft.slug, *plays), note))
