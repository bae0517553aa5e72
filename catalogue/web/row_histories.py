"""What became of the lists of rows inside a record, in words: which rows came, which went, and what can come back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from difflib import SequenceMatcher
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.gathering.row_lists import RowList, RowsChange, lists_of, rows_changes
from catalogue.web.changes import name_of_user
from catalogue.web.sayer import Sayer

LABELS: dict[str, str | Promise] = {
    "movements": _("Movements"),
    "commissions": _("Commissions"),
    "cues": _("Cues"),
    "programme": _("Programme"),
    "credits": _("Performers"),
}


@dataclass(frozen=True, slots=True)
class RowLine:
    """A row that came, went or stayed; ``entry`` names one that went, where it is not in the list any more."""

    text: str
    came: bool
    entry: int | None = None


@dataclass(frozen=True, slots=True)
class RowsTold:
    """What one saving made of a list; ``can_return`` where the list now is another than before."""

    word: str
    label: str | Promise
    entry: int
    moment: datetime
    who: str
    lines: tuple[RowLine, ...]
    can_return: bool


def told_rows(record: Any, language: str) -> tuple[RowsTold, ...]:
    """Return what became of each list inside a record, the latest first; one query a list, and one a kind it names."""
    found = [one for rows in lists_of(record) for one in told_list(rows, record, language)]
    return tuple(sorted(found, key=lambda one: one.moment, reverse=True))


def told_list(rows: RowList, record: Any, language: str) -> list[RowsTold]:
    """Return what became of a list; what it began with, with the record, is no change to take back."""
    changes = rows_changes(rows, record)
    if not changes:
        return []
    entries = [one for change in changes for one in (*change.before, *change.after)]
    said = Sayer(rows.model, rows.columns, entries, language)
    words = {one.history_id: said.row(one) for one in entries}
    present = [words[one.history_id] for one in changes[-1].after]
    told = (told_change(rows, change, words, present) for change in changes)
    return [one for one in told if one.lines]


def told_change(rows: RowList, change: RowsChange, words: dict[int, str], present: list[str]) -> RowsTold:
    before, after = ([words[one.history_id] for one in listed] for listed in (change.before, change.after))
    return RowsTold(
        word=rows.word,
        label=LABELS[rows.word],
        entry=change.entry,
        moment=change.moment,
        who=name_of_user(change.user),
        lines=tuple(lines_between(before, after, change.before, present)),
        can_return=before != present,
    )


def lines_between(
    before: Sequence[str], after: Sequence[str], states: Sequence[Any], present: Sequence[str]
) -> list[RowLine]:
    """Return the rows that went and those that came, each with its place in the list.

    >>> [one.text for one in lines_between(["Lento", "Vivo"], ["Lento", "Vivace"], (None, None), ["Vivo"])]
    ['2. Vivo', '2. Vivace']
    """
    found: list[RowLine] = []
    for kind, first, last, start, end in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if kind == "equal":
            continue
        for place in range(first, last):
            entry = None if before[place] in present else states[place].history_id
            found.append(RowLine(f"{place + 1}. {before[place]}", came=False, entry=entry))
        found += [RowLine(f"{place + 1}. {after[place]}", came=True) for place in range(start, end)]
    return found
