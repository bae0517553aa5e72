"""The addresses of the rows of a list: those of one composer differ in their number alone."""

from __future__ import annotations

from collections.abc import Iterable

from django.urls import reverse

from catalogue.models import Composer
from catalogue.web.markup import escaped

PLACE = "/0/"


class RowAddresses:
    """The addresses of a view that is told a composer and, in a step of its own, the number of a row."""

    def __init__(self, view: str, composers: Iterable[Composer]) -> None:
        self.view, self.whose = view, {one.pk: one for one in composers}
        self.around: dict[int, tuple[str, str, str]] = {}

    def of(self, composer: int, row: int) -> str:
        """Return an address as it stands in markup."""
        if composer not in self.around:
            address = reverse(self.view, args=[self.whose[composer].slug, 0])
            self.around[composer] = escaped(address).rpartition(PLACE)
        before, _place, after = self.around[composer]
        return f"{before}/{row}/{after}"
