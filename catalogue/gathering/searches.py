"""Which performances of a composer hold the words that somebody searches for."""

from __future__ import annotations

from collections.abc import Set
from itertools import chain

from django.db import connection

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State
from catalogue.models import Composer, Performance
from catalogue.models.performances import evenings_holding
from catalogue.rules.search import fold


def words_of(text: str) -> tuple[str, ...]:
    """Return the words of a text as they are looked for, each once, the longest first: fewer hold it."""
    return tuple(sorted(set(fold(text).split()), key=lambda word: (-len(word), word)))


@once_for_each_state(4)
def evenings_with(_state: State, composer: Composer, words: tuple[str, ...]) -> Set[int]:
    """Return the keys of the performances that hold each of these folded words, of which there is one at least.

    It takes one question a word, and one for what was deleted. Of a million performances that is some MB: few answers
    are remembered.
    """
    found = holding(words[0], composer)
    for word in words[1:]:
        found &= holding(word, composer) if found else found
    gone = Performance.with_deleted.filter(composer=composer, deleted_at__isnull=False).order_by()
    found.difference_update(gone.values_list("pk", flat=True))
    return found


def holding(word: str, composer: Composer) -> set[int]:
    """Ask past the framework, which takes longer with each key than the database does."""
    with connection.cursor() as cursor:
        cursor.execute(*evenings_holding(word, composer).query.sql_with_params())
        return set(chain.from_iterable(cursor.fetchall()))
