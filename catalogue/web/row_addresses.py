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
        patterns = ((one.pk, reverse(view, args=[one.slug, 0])) for one in composers)
        self.around = {composer: escaped(address).rpartition(PLACE) for composer, address in patterns}

    def of(self, composer: int, row: int) -> str:
        """Return an address as it stands in markup."""
        before, _place, after = self.around[composer]
        return f"{before}/{row}/{after}"
