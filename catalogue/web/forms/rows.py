"""Rows of a form that are added and moved without saving: what was typed comes back rearranged."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.forms import BaseFormSet


def in_words(rows: BaseFormSet, names: Iterable[str], *, first: str) -> str:
    """Return rows as one reads them, a line each; those in which the field ``first`` is empty are none."""
    columns = tuple(names)
    filled = (form for form in rows.forms if form[first].value())
    return "\n".join(" · ".join(str(form[name].value()) for name in columns if form[name].value()) for form in filled)


def with_another_row(typed: Any, prefix: str, most: int) -> Any:
    """Return what was typed with an empty row more."""
    return changed(typed, {f"{prefix}-TOTAL_FORMS": str(rows_in(typed, prefix, most) + 1)})


def with_row_earlier(typed: Any, prefix: str, names: Iterable[str], most: int, place: int) -> Any:
    """Return what was typed with the row at this place, counted from 0, before the one above it."""
    if not 0 < place < rows_in(typed, prefix, most):
        return typed
    both = [f"{prefix}-{one}-" for one in (place - 1, place)]
    columns = tuple(names)
    moved = {
        f"{into}{name}": typed.get(f"{out_of}{name}", "") for into, out_of in (both, both[::-1]) for name in columns
    }
    return changed(typed, moved)


def rows_in(typed: Any, prefix: str, most: int) -> int:
    number = typed.get(f"{prefix}-TOTAL_FORMS", "")
    return min(int(number), most) if number.isdecimal() and len(number) < 6 else 0


def changed(typed: Any, columns: dict[str, str]) -> Any:
    copy = typed.copy()
    for name, text in columns.items():
        copy[name] = text
    return copy
