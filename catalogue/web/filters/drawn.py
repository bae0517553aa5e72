"""The questions of a list as they stand in its page, drawn once while nothing changes and nothing else is typed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from django.http import QueryDict
from django.utils.safestring import SafeString
from django.utils.translation import get_language

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State
from catalogue.web.filters.sets import ListFilter

Typed = tuple[tuple[str, tuple[str, ...]], ...]

MOST_KEPT = 64
WIDE = ("q", "forces")


def typed_in(kind: type[ListFilter], given: QueryDict) -> Typed:
    """Return what an address answers to the questions of a list: those with nothing but empty answers are left out."""
    answers = ((name, tuple(given.getlist(name))) for name in kind.base_filters if name in given)
    return tuple((name, values) for name, values in answers if any(values))


def drawn_questions(
    kind: type[ListFilter], typed: Typed, form: Callable[[], Iterable[Any]], *, slug: str, state: State
) -> SafeString:
    """Return the fields of the form of a list, which is made only where they were not drawn before.

    ``form`` makes it: the same for the same ``kind`` of questions, for what is ``typed``, and for the catalogue of
    that ``slug`` in this ``state``.
    """
    kept = drawings_at(state, kind, slug, get_language())
    if typed not in kept:
        if len(kept) >= MOST_KEPT:
            kept.clear()
        kept[typed] = drawn(form())
    return kept[typed]


@once_for_each_state(256)
def drawings_at(_state: State, _kind: type[ListFilter], _slug: str, _language: str | None) -> dict[Typed, SafeString]:
    """Return what was drawn by what was typed: nothing yet."""
    return {}


def drawn(form: Iterable[Any]) -> SafeString:
    looks = ((' class="search"' if field.name in WIDE else "", field) for field in form)
    return SafeString("".join(f"<div{look}>{field.as_field_group()}</div>" for look, field in looks))
