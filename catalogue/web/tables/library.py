"""The lists of works and performances with the columns that a librarian needs."""

from __future__ import annotations

from django.utils.html import format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.models import Performance
from catalogue.web.programmes import works_of
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

    def render_forces(self, record: Performance) -> SafeString:
        forces = ((work.instrumentation_typed or work.instrumentation,) for work in works_of(record))
        return format_html_join("; ", "{}", (one for one in forces if one[0]))
