"""What a kind of record is called, which fields it has, and how its lists and forms are laid out.

One description drives the list, the page, the form and the history of a kind; the words are those of the trade.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db import models
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.models import Composer, Work
from catalogue.models.journeys import KeptOfPerformance
from catalogue.models.kept import KeptOfWork
from catalogue.models.ordering import Folded
from catalogue.web.forms.works import Group

Words = str | Promise

BESIDES = frozenset({"file", "performances"})
"""What forms ask and no column of the record holds."""


@dataclass(frozen=True, slots=True)
class Said:
    """A field's label and the hint below it."""

    label: Words
    hint: Words = ""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of record. ``slug`` stands in addresses; ``says`` is what belongs here.

    ``main`` are the groups of at most eight fields in the order in which one thinks, ``more`` those behind them.
    ``columns`` are those of the list, the first naming the row; ``order`` is that of lists. ``along`` is fetched with
    each record, ``again`` carried over where another is added at once. ``begins_at`` names the page on which a new one
    is begun, where that is not its form; ``look_up`` finds out for all rows at once what stands in no column. ``tells``
    are the words around a column's value where it stands in a line without its heading.
    """

    slug: str
    model: type[models.Model]
    one: Words
    many: Words
    add: Words
    says: Words
    main: tuple[Group, ...]
    fields: Mapping[str, Said]
    columns: tuple[str, ...]
    more: tuple[Group, ...] = ()
    order: tuple[Any, ...] = ("pk",)
    along: tuple[str, ...] = ()
    again: tuple[str, ...] = ()
    looks: Mapping[str, str] = field(default_factory=dict)
    tells: Mapping[str, Words] = field(default_factory=dict)
    begins_at: str = ""
    look_up: Callable[[Sequence[Any]], Any] | None = None

    @property
    def word(self) -> str:
        """What the history calls the kind in addresses."""
        return str(self.model._meta.model_name)

    @property
    def is_of_work(self) -> bool:
        """Whether each record hangs on one work."""
        return issubclass(self.model, KeptOfWork)

    @property
    def is_of_performance(self) -> bool:
        """Whether each record hangs on one performance."""
        return issubclass(self.model, KeptOfPerformance)

    @property
    def names_performance(self) -> bool:
        return any(column.name == "performance" for column in self.model._meta.concrete_fields)

    @property
    def names_work(self) -> bool:
        return any(column.name == "work" for column in self.model._meta.concrete_fields)

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(name for group in (*self.main, *self.more) for name in group.names)

    def of(self, composer: Composer) -> Any:
        """Return the records in a composer's catalogue in their order."""
        model: Any = self.model
        path = "work__composer" if self.is_of_work else "composer"
        rows = model.objects.filter(**{path: composer}).order_by(*map(as_sorted, self.order))
        along = self.fetched
        return rows.select_related(*along) if along else rows

    @property
    def fetched(self) -> tuple[str, ...]:
        return (*self.along, "work") if self.names_work else self.along

    def around(self, work: Work) -> Any:
        """Return the records of this kind that hang on a work or name it."""
        rows = self.of(work.composer).filter(work=work)
        return rows.select_related(*self.along) if self.along else rows.select_related(None)

    def new(self, composer: Composer, work: Work | None) -> Any:
        """Return an empty record of the catalogue, and of the work where one is given."""
        record: Any = self.model() if self.is_of_work else self.model(composer=composer)
        if work is not None:
            record.work = work
        return record

    def label(self, name: str) -> Words:
        if name in self.fields:
            return self.fields[name].label
        if name == "uid":
            return _("Lasting identifier")
        return name.replace("_", " ").capitalize()


@dataclass(frozen=True, slots=True)
class Shelf:
    """Kinds that one looks for in one place."""

    heading: Words
    kinds: tuple[Kind, ...]

    def __iter__(self) -> Iterator[Kind]:
        return iter(self.kinds)


NAMES = {"name", "sort_name", "city", "society", "organisation__name", "original_name", "number"}


def as_sorted(column: Any) -> Any:
    """Return a column of an order with names folded, so that marks and case make no difference."""
    return Folded(column) if column in NAMES else column
