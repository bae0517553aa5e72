"""Whose works the rows of a table are: one chosen composer's, or each row's own, added where they are new."""

from __future__ import annotations

from django.contrib.auth.models import User

from catalogue.actions.composers import create_composer
from catalogue.exchange.columns import Row
from catalogue.exchange.problems import Problems
from catalogue.models import Composer, Membership
from catalogue.rules.search import fold
from catalogue.terms import Role


class Owners:
    """Finds the composer of each row; ``chosen`` is the only one meant, or None."""

    def __init__(self, chosen: Composer | None, problems: Problems) -> None:
        self.chosen = chosen
        self.problems = problems
        self.known = [chosen] if chosen is not None else list(Composer.objects.order_by("pk"))
        names = ((name, one) for one in reversed(self.known) for name in (one.name, one.sort_name, one.slug))
        self.by_name = {fold(name): one for name, one in names if name}

    def of(self, row: Row) -> Composer | None:
        """Return whose row it is, or None with an error where that cannot be told."""
        name = row.cells.get("composer", "")
        if not name:
            return self.only_one(row)
        if fold(name) not in self.by_name:
            if self.chosen is not None:
                reason = f"This row is by {name}, and the catalogue is that of {self.chosen.name}."
                self.problems.fail(row, "composer", reason)
                return None
            self.problems.warn(row, "composer", f"There was no composer “{name}”; a catalogue of their own is added.")
            self.by_name[fold(name)] = create_composer(name=name, owner=only_owner(), sort_name=name)
        return self.by_name[fold(name)]

    def only_one(self, row: Row) -> Composer | None:
        if len(self.known) == 1:
            return self.known[0]
        reason = "Whose work is it? Name the composer in a column, or choose one catalogue."
        self.problems.fail(row, "composer", reason)
        return None


def only_owner() -> User | None:
    """Return the one person who owns every catalogue of this machine, or None where there are several or none."""
    owners = {one.user for one in Membership.objects.filter(role=Role.OWNER).select_related("user")}
    return owners.pop() if len(owners) == 1 else None
