"""Which performances of a composer hold the words that somebody searches for.

They are found once, and brought forward afterwards by what was saved: only performances of which something was saved
are looked at again. Where a text was changed that many may bear, of a work, a hall or a performer, all are.
"""

from __future__ import annotations

import json
from array import array
from collections.abc import Collection, Mapping, Set
from itertools import chain
from typing import Any

from django.db import connection

from catalogue.gathering.kept_counts import Keeper
from catalogue.gathering.new_lines import Change, changes
from catalogue.gathering.once import Brought, Following, Step
from catalogue.gathering.versions import State, Version
from catalogue.models import (
    Composer,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    ProgrammedWork,
    Venue,
    Work,
)
from catalogue.models import performances as of_performances
from catalogue.models.performances import evenings_holding
from catalogue.rules import search as of_words
from catalogue.rules.search import fold

MOST_WORDS, MOST_KEYS = 8, 200_000
"""Of so many questions of a catalogue the answers are known, if they come to no more keys; of the last one always."""
FEWEST_KEPT = 2_000
"""Of fewer keys no file is written: they are found in no time."""
MOST_TOUCHED = 500
"""If more performances than these were touched, it is quicker to look at all of them."""
OF_EVENING = ("search_text", "venue_id", "presenter_id", "deleted_at")
OF_ROW = ("performance_id", "work_id")
OF_CREDIT = ("performance_id", "person_id", "organisation_id", "search_text")
OF_BEARERS: Mapping[Any, tuple[str, ...]] = {
    Work: ("search_text", "deleted_at"),
    **dict.fromkeys((Organisation, Person, Venue), ("search_text",)),
}
"""What many performances may bear the words of, and the columns by which they do."""

Words = tuple[str, ...]
Held = Mapping[Words, Set[int]]
"""The keys of the performances that hold words, by the words; what was asked for last stands last."""


def words_of(text: str) -> Words:
    """Return the words of a text as they are looked for, each once, the longest first: fewer hold it."""
    return tuple(sorted(set(fold(text).split()), key=lambda word: (-len(word), word)))


def evenings_with(state: State, composer: Composer, words: Words) -> Set[int]:
    """Return the keys of the performances that hold each of these folded words, of which there is one at least."""
    known = _brought.to(state, composer.pk)
    found = known.get(words)
    if found is None:
        found = look_for(words, composer.pk)
        is_costly = len(found) >= FEWEST_KEPT
        _brought.learned(state, composer.pk, with_found(known, words, found), is_costly=is_costly)
    return found


def look_for(words: Words, composer: int, among: Collection[int] | None = None) -> Set[int]:
    """Look for words in all performances of a composer, or in some: a question a word, and one for what was deleted."""
    found = holding(words[0], composer, among)
    for word in words[1:]:
        found &= holding(word, composer, among) if found else found
    gone = Performance.with_deleted.filter(composer=composer, deleted_at__isnull=False).order_by()
    gone = gone if among is None else gone.filter(pk__in=among)
    found.difference_update(gone.values_list("pk", flat=True))
    return found


def holding(word: str, composer: int, among: Collection[int] | None) -> set[int]:
    """Ask past the framework, which takes longer with each key than the database does."""
    with connection.cursor() as cursor:
        cursor.execute(*evenings_holding(word, composer, among).query.sql_with_params())
        return set(chain.from_iterable(cursor.fetchall()))


def with_found(known: Held, words: Words, found: Set[int]) -> Held:
    """Take an answer along, and let those go that were asked for longest ago, where all come to too many."""
    kept, left = {words: found}, MOST_KEYS - len(found)
    for asked, held in reversed(list(known.items())):
        left -= len(held)
        if left < 0 or len(kept) == MOST_WORDS:
            break
        kept[asked] = held
    return dict(reversed(kept.items()))


# ---- from one version to another


def bring_forward(known: Held, since: Version, until: Version, composer: int) -> Step[Held] | None:
    evenings = changes(Performance, since, until, OF_EVENING, composer=composer)
    rows = changes(ProgrammedWork, since, until, OF_ROW)
    credits = changes(PerformanceCredit, since, until, OF_CREDIT)
    bearers = [changes(model, since, until, columns, composer=composer) for model, columns in OF_BEARERS.items()]
    if evenings is None or rows is None or credits is None:
        return None
    if any(found is None or any(map(is_of_old, found)) for found in bearers):
        return None
    touched = {change.key for change in evenings if change.before != change.now}
    for change in (*rows, *credits):
        if change.before != change.now:
            touched |= {values[0] for values in (change.before, change.now) if values}
    lines = sum(len(found or ()) for found in (evenings, rows, credits, *bearers))
    if not known or not touched:
        return Step(known, lines)
    if len(touched) > MOST_TOUCHED:
        return None
    after = {words: looked_at_again(found, words, composer, touched) for words, found in known.items()}
    return Step(after, lines, is_exact=False)


def is_of_old(change: Change) -> bool:
    """Whether something that performances may have borne was changed; what is new is borne by those saved since."""
    return change.before is not None and change.before != change.now


def looked_at_again(found: Set[int], words: Words, composer: int, touched: Set[int]) -> Set[int]:
    now = look_for(words, composer, touched)
    return found if now == touched & found else (found - touched) | now


# ---- as bytes


def written(known: Held) -> bytes | None:
    """Return the words with how many performances hold them, in a line, then the keys of all of these."""
    if sum(map(len, known.values())) < FEWEST_KEPT:
        return None
    told = json.dumps([[words, len(found)] for words, found in known.items()])
    return told.encode() + b"\n" + array("q", chain.from_iterable(known.values())).tobytes()


def read(content: bytes) -> Held:
    told, _end, rest = content.partition(b"\n")
    keys, known, start = array("q"), {}, 0
    keys.frombytes(rest)
    for words, number in json.loads(told):
        known[tuple(words)] = set(keys[start : start + number])
        start += number
    return known


_brought: Brought[Held] = Brought(
    Following(lambda _composer: {}, bring_forward, written, read, begins_empty=True),
    Keeper("words", __file__, (of_performances.__file__, of_words.__file__)),
    most=4,
)
