"""The lists of works and performances with the columns that a librarian needs."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.gathering.listed import ListedPerformance
from catalogue.web.tables.lists import ListColumn
from catalogue.web.tables.performances import PerformanceTable
from catalogue.web.tables.works import WorkTable


class LibraryWorkTable(WorkTable):
    """One row a work."""

    on_request = ()

    class Meta(WorkTable.Meta):
        exclude = ("category", "status", "publisher")


class LibraryPerformanceTable(PerformanceTable):
    """One row a performance, with the forces of its works."""

    on_request = ()
    forces = ListColumn(_("Instrumentation"), ordered=False)

    class Meta(PerformanceTable.Meta):
        exclude = ("performers", "first", "kind", "presenter")
        sequence = ("date", "works", "forces", "place", "status")

    def look_up(self, records: object) -> None:
        """Nothing beside the records is needed."""

    def render_forces(self, record: ListedPerformance) -> str:
        forces = (work.instrumentation_typed or work.instrumentation for work in record.works)
        return "; ".join(one for one in forces if one)
