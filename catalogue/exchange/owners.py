"""Whose works the rows of a table are: one chosen composer's, or each row's own, added where they are new."""

from __future__ import annotations

from collections.abc import Iterable

from django.contrib.auth.models import User

from catalogue.actions.composers import create_composer
from catalogue.exchange.columns import Row
from catalogue.exchange.problems import Problems
from catalogue.models import Composer, Membership
from catalogue.rules.search import fold
from catalogue.terms import Role


class Owners:
    """Finds the composer of each row.

    ``chosen`` is the only one meant unless ``by`` is given, whose other catalogues the rows of others go to. Where none
    is chosen, every composer is meant.
    """

    def __init__(self, chosen: Composer | None, problems: Problems, by: User | None = None) -> None:
        self.chosen, self.by = chosen, by
        self.problems = problems
        self.known = catalogues_open_to(chosen, by) if chosen is not None else list(Composer.objects.order_by("pk"))
        self.by_name = {name: one for one in reversed(self.known) for name in names_of(one)}

    def of(self, row: Row) -> Composer | None:
        """Return whose row it is, or None with an error where that cannot be told."""
        name = row.cells.get("composer", "")
        if not name:
            return self.only_one(row)
        if fold(name) not in self.by_name:
            if self.chosen is not None and self.by is None:
                reason = f"This row is by {name}, and the catalogue is that of {self.chosen.name}."
                self.problems.fail(row, "composer", reason)
                return None
            self.problems.warn(row, "composer", f"There was no composer “{name}”; a catalogue of their own is added.")
            self.by_name[fold(name)] = create_composer(name=name, owner=self.by or only_owner(), sort_name=name)
        return self.by_name[fold(name)]

    def only_one(self, row: Row) -> Composer | None:
        if self.chosen is not None or len(self.known) == 1:
            return self.chosen or self.known[0]
        reason = "Whose work is it? Name the composer in a column, or choose one catalogue."
        self.problems.fail(row, "composer", reason)
        return None


def names_of(composer: Composer) -> set[str]:
    return {fold(name) for name in (composer.name, composer.sort_name, composer.slug) if name}


def catalogues_open_to(chosen: Composer, by: User | None) -> list[Composer]:
    """Return the chosen catalogue, and the others that ``by`` may change."""
    others = Composer.objects.editable_by(by).exclude(pk=chosen.pk).order_by("pk") if by is not None else ()
    return [chosen, *others]


def rows_of_others(rows: Iterable[Row], chosen: Composer | None) -> int:
    """Count the rows that name another composer than the chosen one."""
    mine = names_of(chosen) if chosen is not None else set()
    named = (fold(row.cells.get("composer", "")) for row in rows)
    return sum(bool(name) and name not in mine for name in named) if mine else 0


def only_owner() -> User | None:
    """Return the one person who owns every catalogue of this machine, or None where there are several or none."""
    owners = {one.user for one in Membership.objects.filter(role=Role.OWNER).select_related("user")}
    return owners.pop() if len(owners) == 1 else None
