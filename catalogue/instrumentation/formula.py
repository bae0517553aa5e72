"""Gives bare figures their instrument by place: ``2.2.2.2 – 4.2.3.1`` and its many dresses.

    formula = block , { family mark , block } ;
    block   = place , { [ place mark ] , place | extra } ;
    place   = figure | named main instrument with a number ;

The first block is woodwind (flute, oboe, clarinet, bassoon), the second brass (horn, trumpet, trombone, tuba), a
block of five figures strings. Points, commas and blanks part places; dashes, slashes and semicolons part families,
unless they run through single figures (``9-8-7-6-5``, ``14/12/10/8/6``). Figures written together are one digit each.
Order and marks: common practice.
"""

from __future__ import annotations

import re
from itertools import combinations, pairwise

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.families import (
    BRASS,
    BRASS_FIVE,
    MAIN,
    WINDS,
    WOODWIND,
    WOODWIND_FIVE,
    Block,
    blocks_of,
    is_wind,
    places_in,
    stretches_of,
)
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.senses import USUAL_OF_PLACE
from catalogue.instrumentation.tokens import Nodes
from catalogue.instrumentation.vocabulary import instrument

MOST_OF_THEM = 3
DIGITS = re.compile(r"\d+")


def place(forces: Forces) -> None:
    """Give every bare figure of the text its instrument."""
    if not any(draft.figure for draft in forces.drafts):
        return
    unpack(forces)
    stretches = stretches_of(forces.drafts)
    refuse_lone_number(forces)
    order, group = 0, stretches[0][0].group if stretches else None
    for stretch in stretches:
        if stretch[0].group != group:
            order, group = 0, stretch[0].group
        order = order or int(woodwind_told(stretch[0], forces))
        blocks = blocks_of(stretch, forces)
        for block, following in zip(blocks, [*blocks[1:], []], strict=True):
            brass_follows = len(places_in(following)) == len(BRASS)
            named = not brass_follows and woodwind_named(block[0], forces)
            order = order or int(named or (not brass_follows and hints_brass(block)))
            order = place_block(block, order, forces, last=len(blocks) == 1)


def woodwind_named(first: Draft, forces: Forces) -> bool:
    """Whether most of the woodwind is named before a draft, ``2 fl, 2 ob, 2 cl, 2 bn; 4-3-3-1``."""
    at = next(index for index, one in enumerate(forces.drafts) if one is first)
    before = [one for one in forces.drafts[:at] if one.group == first.group and one.role == "ensemble"]
    return len({one.slug for one in before if one.slug in WOODWIND and not one.figure}) >= MOST_OF_THEM


def woodwind_told(first: Draft, forces: Forces) -> bool:
    """Whether ``double woodwind`` stands before a draft, so that its figures are the brass."""
    at = next(index for index, one in enumerate(forces.drafts) if one is first)
    return any(one.collective == "fold" and one.group == first.group for one in forces.drafts[:at])


def refuse_lone_number(forces: Forces) -> None:
    """Refuse a text that is nothing but one number."""
    draft = forces.drafts[0] if len(forces.drafts) == 1 else None
    if draft is not None and draft.figure and not (draft.brackets or draft.clauses or draft.doubles or draft.starred):
        reason = "A number stands here without an instrument."
        raise forces.fail(reason, draft.start, draft.end, ("the name of an instrument",))


def unpack(forces: Forces) -> None:
    """Split figures that are written together into one draft a digit."""
    drafts: list[Draft] = []
    for index, draft in enumerate(forces.drafts):
        digits = digits_of(draft, forces)
        if draft.figure and len(digits) >= 2 and (len(digits) > 2 or packed_pair(forces.drafts, index, digits, forces)):
            drafts += split(draft, digits)
            forces.dresses.add("run together")
        else:
            drafts.append(draft)
    forces.drafts = drafts


def digits_of(draft: Draft, forces: Forces) -> str:
    found = DIGITS.match(forces.text, draft.start)
    return found[0] if found else ""


def packed_pair(drafts: list[Draft], index: int, digits: str, forces: Forces) -> bool:
    """Whether two digits are two places: written to another figure's bracket, or the two of ``01``."""
    draft = drafts[index]
    before = drafts[index - 1] if index else None
    after = drafts[index + 1] if index + 1 < len(drafts) else None
    glued_before = before is not None and before.figure and before.end == draft.start
    glued_after = after is not None and after.figure and after.start == draft.end and not after.separator
    plus_after = after is not None and after.figure and after.separator == "+" and after.start == draft.end + 1
    glued_after = glued_after or (plus_after and after is not None and len(digits_of(after, forces)) > 2)
    after_packed = before is not None and before.figure and before.packed and not draft.brackets
    return glued_before or glued_after or digits[0] == "0" or (after_packed and draft.separator.strip() in ("-", "/"))


def split(draft: Draft, digits: str) -> list[Draft]:
    parts = []
    for offset, digit in enumerate(digits):
        part = Draft("", draft.start + offset, draft.start + offset + 1, figure=True, packed=True)
        part.counted(int(digit))
        part.heading, part.group, part.role, part.optional = draft.heading, draft.group, draft.role, draft.optional
        parts.append(part)
    parts[0].separator, parts[0].extra = draft.separator, draft.extra
    last = parts[-1]
    last.brackets, last.clauses, last.starred, last.doubles = (
        draft.brackets,
        draft.clauses,
        draft.starred,
        draft.doubles,
    )
    last.end = draft.end
    return parts


def place_block(block: Block, order: int, forces: Forces, *, last: bool) -> int:
    """Give the figures of one block their instruments and return which family comes next."""
    places = places_in(block)
    if not places:
        return order
    if order == len(("woodwind", "brass")) and is_timpanist_and(block):
        percussion_block(block, forces)
        return order
    forces.place_marks += [
        draft.separator.strip() or ("run together" if draft.packed else "spaced") for draft in places[1:]
    ]
    strings = any(draft.slug == "strings" for draft in forces.drafts)
    order = order or (len(places) == len(WOODWIND_FIVE) and 2 * named_before(block, forces))
    kind = kind_of(block, places, order, strings=strings, alone=last and len(forces.drafts) == len(block))
    if kind == "strings" and not order and last and not falling([draft.most for draft in places]):
        readings = ("strings", "woodwind with saxophones")
        about = "Five figures that stand alone were read as"
        usual = forces.decide("five-figures", about, readings, places[0].start, places[-1].end)
        kind = kind if usual else "woodwind"
    if kind == "strings":
        refuse_four_beside_strings(places, forces, strings=strings)
        strings_block(block, forces)
        return order
    if kind == "percussion":
        percussion_block(places, forces)
        return 2
    if len(forces.drafts) == len(block) and kind == "woodwind":
        kind = brass_or_not(places, forces)
    sections = sections_of(kind, block, places, forces)
    say_of_second_figures(places, sections, forces)
    for draft, section in zip(places, sections, strict=True):
        if draft.figure:
            draft.slug = section
        draft.section = section
    name_extras(block, places, kind)
    return 1 if kind == "woodwind" else 2


def refuse_four_beside_strings(places: list[Draft], forces: Forces, *, strings: bool) -> None:
    """Refuse four figures after the winds where the strings are named beside them: they are a family too many."""
    if strings and len(places) == len(WOODWIND):
        reason = "These figures stand after those of woodwind and brass, and the strings are named apart."
        raise forces.fail(reason, places[0].start, places[-1].end, ("the figures of two families of winds",))


def say_of_second_figures(places: list[Draft], sections: tuple[str, ...], forces: Forces) -> None:
    """Say of figures for places that have had theirs that they were added to them: they may count something else."""
    first = places[0]
    taken = {draft.section for draft in forces.drafts if draft.figure and draft.section and draft.group == first.group}
    if taken.intersection(sections) and all(draft.figure for draft in places):
        message = f"These figures were added to those of {sections[0]} before them."
        forces.remark("second-figures", message, first.start, places[-1].end, "the players of something else")


def named_before(block: Block, forces: Forces) -> bool:
    """Whether the winds are named before the block, so that its five figures are the strings."""
    at = next(index for index, draft in enumerate(forces.drafts) if draft is block[0])
    winds = [draft for draft in forces.drafts[:at] if is_wind(draft) and not draft.figure]
    return len(winds) > 1


def brass_or_not(places: list[Draft], forces: Forces) -> str:
    """Return the family of four figures that stand alone: woodwind, with a remark where they look like brass."""
    counts = [draft.most for draft in places]
    if len(counts) == 4 and counts[0] >= 4 and counts[3] <= 1 < counts[2]:
        readings = ("woodwind", "horns, trumpets, trombones and tuba")
        about = "Four figures that stand alone were read as"
        if not forces.decide("four-figures", about, readings, places[0].start, places[-1].end):
            return "brass"
    return "woodwind"


def kind_of(block: Block, places: list[Draft], order: int, *, strings: bool, alone: bool) -> str:
    """Return the family of a block; ``strings`` tells that the text names a body of strings elsewhere."""
    heading = next((draft.heading for draft in block if draft.heading in ("woodwind", "brass", "strings")), "")
    if heading and not (heading == "woodwind" and order == 1):
        return heading
    counts = [draft.most for draft in places]
    plain = len(block) == len(places) and not any(draft.starred or draft.doubles for draft in places)
    packed = all(draft.packed for draft in places) and max(counts) <= 6 and counts[-1] <= 2
    band = order == 1 and (strings or packed or (counts[-1] <= 1 < max(counts)))
    if plain and len(places) == 5 and (order or alone or falling(counts)) and not band:
        return "strings"
    if order == 2:
        return "strings" if len(places) >= 4 else "percussion"
    if order == 1:
        return "percussion" if len(places) == 2 and all(draft.packed for draft in places) else "brass"
    return "woodwind"


def hints_brass(block: Block) -> bool:
    """Whether the names written in and beside the figures of a block are of brass alone."""
    evidence = [instrument(slug).family for draft in block for slug in hinted(draft)]
    return bool(evidence) and all(family == "brass" for family in evidence)


def falling(counts: list[int]) -> bool:
    """Whether figures look like section strings: never rising by more than two, five or more at the top."""
    return max(counts) >= 5 and all(later <= sooner + 2 for sooner, later in pairwise(counts))


def strings_block(block: Block, forces: Forces) -> None:
    """Turn a block of figures into one body of strings."""
    body = Draft("strings", block[0].start, block[-1].end)
    body.numbers = [(draft.least, draft.most) for draft in block]
    body.brackets = [bracket for draft in block for bracket in draft.brackets]
    body.group, body.role, body.optional = block[0].group, block[0].role, block[0].optional
    at = next(index for index, draft in enumerate(forces.drafts) if draft is block[0])
    ids = {id(draft) for draft in block}
    forces.drafts[:] = [draft for draft in forces.drafts if id(draft) not in ids]
    forces.drafts.insert(at, body)


def is_timpanist_and(block: Block) -> bool:
    """Whether a block after the brass is ``1+4``, a timpanist and percussionists."""
    return len(block) == 2 and all(one.figure for one in block) and block[1].extra and block[0].most < 2


def percussion_block(places: list[Draft], forces: Forces) -> None:
    for draft, slug in zip(places[-2:], ("timpani", "percussion")[-len(places) :], strict=True):
        draft.slug = slug
        draft.figure = False
    message = "Figures after the brass were read as timpanist and percussionists."
    forces.remark("percussion-figures", message, places[0].start, places[-1].end)


def sections_of(kind: str, block: Block, places: list[Draft], forces: Forces) -> tuple[str, ...]:
    """Return the section of each place; a block with fewer figures than places is fitted to the names in it."""
    four, five = (WOODWIND, WOODWIND_FIVE) if kind == "woodwind" else (BRASS, BRASS_FIVE)
    start, end = places[0].start, places[-1].end
    if len(places) == 4:
        return band_order(block, places, four, forces)
    if len(places) == 5:
        message = f"The {'fourth'} of five {kind} figures was read as {five[3]}."
        forces.remark("five-figures", message, start, end)
        return five
    if len(places) > 5:
        reason = f"There are {len(places)} {kind} figures; four were expected."
        raise forces.fail(reason, places[4].start, end, ("a mark between families, such as a dash",))
    chosen = max(
        combinations(range(4), len(places)), key=lambda row: (fit_of(row, block, places, four), [-one for one in row])
    )
    joined = any(set(draft.separator) & set(".+") for draft in block[1:])
    if len(places) == 1 and not (forces.formula or joined or places[0].brackets or places[0].starred):
        raise forces.fail("A number stands here without an instrument.", start, end, ("the name of an instrument",))
    left = {four[one] for one in range(len(four)) if one not in chosen}
    if len(places) in (2, 3) and not left <= {draft.slug for draft in block}:
        message = f"Of the {kind} figures only {len(places)} stand here; the others were taken as none."
        forces.remark("missing-figures", message, start, end)
    return tuple(four[one] for one in chosen)


BAND = ("flute", "oboe", "bassoon", "clarinet")


def band_order(block: Block, places: list[Draft], four: tuple[str, ...], forces: Forces) -> tuple[str, ...]:
    """Return the order of four woodwind figures: in bands the bassoons may stand before the clarinets."""
    if four != WOODWIND:
        return four
    fits = {order: sum(beside(block, places, order)) for order in (WOODWIND, BAND)}
    clarinets, bassoons = places[2:]
    if fits[BAND] <= fits[WOODWIND] or (
        clarinets.most == bassoons.most and not (clarinets.brackets or bassoons.brackets)
    ):
        return four
    message = "By the names beside them the bassoons were read before the clarinets."
    forces.remark("band-order", message, places[0].start, places[-1].end, "clarinets before bassoons")
    return BAND


def beside(block: Block, places: list[Draft], order: tuple[str, ...]) -> list[bool]:
    """Tell for each extra of a block, and each name in a figure's bracket, whether it fits the figure it follows."""
    found: list[bool] = []
    place = -1
    for draft in block:
        if place + 1 < len(places) and draft is places[place + 1]:
            place += 1
            found += [instrument(slug).section == order[place] for slug in hinted(draft)]
        elif place >= 0 and draft.name is not None and draft.name.slugs:
            found.append(instrument(draft.name.slugs[0]).section == order[place])
    return found


def fit_of(row: tuple[int, ...], block: Block, places: list[Draft], four: tuple[str, ...]) -> int:
    """Return how well the places fit the names written in and beside them."""
    named = sum(4 for index, draft in zip(row, places, strict=True) if draft.slug == four[index])
    return named + sum(1 if fits else -1 for fits in beside(block, places, tuple(four[index] for index in row)))


def hinted(draft: Draft) -> list[str]:
    """Return the instruments that a figure's brackets and suffixes name."""
    slugs = [slug for bracket in draft.brackets for slug in named_in(bracket.nodes)]
    slugs += [slug for clause in draft.clauses for slug in named_in(clause)]
    families = {instrument(slug).family for slug in draft.name.slugs} if draft.name is not None else set()
    if draft.name and len(families) == 1 and not draft.figure:
        slugs.append(draft.name.slugs[0])
    return slugs


def named_in(nodes: Nodes) -> list[str]:
    found = []
    at = 0
    while at < len(nodes):
        name = name_at(nodes, at)
        if name is not None and instrument(name.slugs[0]).family in WINDS:
            found.append(name.slugs[0])
        at = name.end if name is not None else at + 1
    return found


def name_extras(block: Block, places: list[Draft], kind: str) -> None:
    """Give extra players the section of the figure before them; a bare ``+1`` is the usual auxiliary."""
    section = ""
    for draft in block:
        if any(draft is one for one in places):
            section = draft.section
        elif draft.figure:
            draft.slug = USUAL_OF_PLACE.get(section, section)
            draft.section, draft.figure = section, False
        else:
            draft.section = section
            own = instrument(draft.slug).section if draft.slug else ""
            if own and own in MAIN and own != section and draft.slug not in MAIN:
                draft.section = own
