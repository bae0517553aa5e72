"""The list of a hire as it is counted: its rows by their section, each section folded on a phone until it is opened."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext

from catalogue.instrumentation.parts import Kind
from catalogue.rules.hires.terms import Item
from catalogue.web.building import FAMILIES
from catalogue.web.forms.hires import CountedRow
from catalogue.web.hires import ListRow

KINDS: dict[Kind, Promise] = {
    Kind.SCORE: _("Score"),
    Kind.CUE_SCORE: _("Score"),
    Kind.SOLOIST: _("Soloists"),
    Kind.CHOIR: _("Voices"),
    Kind.MEDIA: _("Electronics"),
}
NO_PART = _("What is no part")
Line = tuple[ListRow, CountedRow]


@dataclass(frozen=True, slots=True)
class Group:
    """Rows of one section; ``is_told`` where one of them has more than its number, or was refused."""

    name: str
    rows: tuple[Line, ...]

    @property
    def count(self) -> str:
        number = len(self.rows)
        return ngettext("%d row", "%d rows", number) % number

    @property
    def is_told(self) -> bool:
        return any(counted.is_told for _row, counted in self.rows)


def count_groups(rows: Sequence[Line]) -> tuple[Group, ...]:
    """Return the rows in their order, those of one section that stand together under its name."""
    return tuple(Group(name, tuple(found)) for name, found in groupby(rows, key=lambda row: section_of(row[0].item)))


def section_of(item: Item) -> str:
    if item.part is None:
        return str(NO_PART)
    return str(KINDS.get(item.part.kind) or FAMILIES.get(item.part.family) or FAMILIES["other"])
