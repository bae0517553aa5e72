"""Names in the plural: which spellings are one, and what a plural leaves open where no number stands with it.

``trumpets`` alone says that there are several and not how many. Strings have rules of their own (see ``strings``);
percussion is named by its instruments, of which one player has many.
"""

from __future__ import annotations

import functools
from itertools import takewhile

from catalogue.instrumentation.drafts import Count, Draft, Forces
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.lexicon import EACH, HEADINGS, IN_PAIRS, OF, PAIRS_OF
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, token_at
from catalogue.instrumentation.tokens import Nodes
from catalogue.instrumentation.vocabulary import family_of, instrument, key_of

COUNTED_BY_NAME = ("woodwind", "brass", "plucked", "keyboard", "other")
SHORTEST = 3
FEWEST_SHARED = 2
SHORTEST_WORD = 6
BODIES = ("orchestra", "wind-band", "brass-band", "big-band", "basso-continuo", "conductor", "dancer")


EARLY_STRINGS = ("viola-da-gamba", "viola-damore")
WHOLE_FAMILIES = ("brass-instrument", "wind-instrument")
FAMILY_WORDS = HEADINGS["woodwind"] | HEADINGS["brass"]


def is_plural(name: Name) -> bool:
    """Whether the name is a plural that differs from its singular."""
    return any(is_plural_of(slug, name.written) for slug in name.slugs)


def is_plural_of(slug: str, written: str) -> bool:
    """Whether a word is a plural of the instrument: by its key, or by an accent that the key leaves out, ``Tenöre``."""
    return key_of(written) in plurals(slug) or (not written.isascii() and written.lower() in accented_plurals(slug))


@functools.lru_cache(maxsize=1 << 10)
def accented_plurals(slug: str) -> frozenset[str]:
    """Return an instrument's plurals in small letters that are no singular of it as they are spelled."""
    names = instrument(slug).names.values()
    return frozenset(one.plural.lower() for one in names) - {one.singular.lower() for one in names}


@functools.lru_cache(maxsize=1 << 12)
def plurals(slug: str) -> frozenset[str]:
    """Return the keys of an instrument's plurals that are no singular in any language.

    An abbreviation with an s is one too, ``hns``; of bowed strings it is not, since ``cbs`` is *contrabasso*.
    """
    row = instrument(slug)
    spelled = {key_of(spelling) for _, spelling in row.spellings}
    listed = {key_of(names.plural) for names in row.names.values()}
    single = {key_of(one) for names in row.names.values() for one in (names.singular, names.abbreviation)}
    single |= {key for key in spelled if f"{key}s" in spelled}
    short = {f"{key}s" for key in spelled - listed if len(key) + 1 >= SHORTEST and key[-1] != "s"}
    return frozenset((listed | (short if row.family in COUNTED_BY_NAME or slug in EARLY_STRINGS else set())) - single)


def open_plurals(forces: Forces) -> None:
    """Leave the number open of what stands in the plural without one: ``trumpets`` are two or more, ``brass`` too."""
    for start, number in forces.pairs:
        listed = [one for one in forces.drafts if one.start >= start]
        single = bool(listed) and not listed[0].plural
        closed = False
        for draft in takewhile(is_bare_wind if single else is_uncounted_wind, listed):
            if closed and "&" not in draft.separator:
                break
            draft.counted(number)
            closed = "&" in draft.separator
    for draft in forces.drafts:
        leave_open(draft)


def leave_open(draft: Draft) -> None:
    """Leave the number of one draft open where it stands in the plural without one."""
    if draft.open or draft.count is not None:
        return
    written = draft.name.written if draft.name is not None else ""
    whole = draft.name is not None and draft.slug in WHOLE_FAMILIES
    named = draft.family in COUNTED_BY_NAME or draft.slug in EARLY_STRINGS or draft.slug.startswith("voice-")
    plural = says_no_number(draft) and named and draft.slug not in BODIES
    draft.open = (whole and key_of(written) in FAMILY_WORDS) or (plural and is_plural_of(draft.slug, written))


def count_pairs(nodes: Nodes, at: int, forces: Forces, separator: str) -> int | None:
    """Count two of each of the winds before ``in pairs`` or after ``pairs of``; return the end of these words."""
    before = pairs_of(nodes, at)
    if before is not None:
        forces.pairs.append((nodes[at].start, before[0]))
        return before[1]
    end = phrase_end(nodes, at, IN_PAIRS) if not separator.strip(" ,") else None
    drafts = reversed(forces.drafts)
    listed = list(takewhile(lambda one: one.family in WINDS and one.count is None, drafts)) if end else []
    for draft in listed:
        draft.counted(2)
    return end if listed else None


def pairs_of(nodes: Nodes, at: int) -> tuple[int, int] | None:
    """Return the number and the end of ``pairs of``, ``je 3`` before the names of winds in the plural."""
    each = count_at(nodes, at + 1) if is_key(token_at(nodes, at), EACH) else number_each(nodes, at)
    number, end = (each.most, each.end) if each is not None else (2, phrase_end(nodes, at, PAIRS_OF))
    name = name_at(nodes, end) if end is not None else None
    if end is None or name is None or family_of(name.slugs[0]) not in WINDS or not (each or is_plural(name)):
        return None
    return number, end


def number_each(nodes: Nodes, at: int) -> Count | None:
    """Return the number of ``3 each of`` before the names of winds."""
    counted = count_at(nodes, at)
    each = phrase_end(nodes, counted.end, EACH) if counted is not None else None
    if counted is None or each is None or counted.least != counted.most:
        return None
    return counted._replace(end=each + is_key(token_at(nodes, each), OF))


def is_uncounted_wind(draft: Draft) -> bool:
    """Whether a wind instrument stands in the plural, or in a short form that has none, and without a number."""
    short = draft.name is not None and len(draft.name.written) < SHORTEST_WORD
    return is_bare_wind(draft) and (draft.plural or short)


def is_bare_wind(draft: Draft) -> bool:
    """Whether a wind instrument stands without a number of any kind."""
    alone = draft.count is None and not (draft.seats or draft.number_after or draft.collective)
    return draft.family in WINDS and alone


def shared_numbers(forces: Forces) -> None:
    """Say of ``three flutes, oboes and bassoons`` that only the first have a number: the others may share it."""
    for at, draft in enumerate(forces.drafts):
        if draft.count is None or draft.most < FEWEST_SHARED or draft.family != "woodwind":
            continue
        listed = list(takewhile(is_uncounted_plural, forces.drafts[at + 1 :]))
        if len(listed) < FEWEST_SHARED:
            continue
        message = "Only the first of these has a number; the others were left open."
        forces.remark("number-shared", message, draft.start, listed[-1].end, f"{draft.most} of each")


def is_uncounted_plural(draft: Draft) -> bool:
    return draft.plural and draft.family == "woodwind" and is_bare_wind(draft)


def says_no_number(draft: Draft) -> bool:
    return draft.plural and draft.count is None and not (draft.seats or draft.number_after or draft.collective)
