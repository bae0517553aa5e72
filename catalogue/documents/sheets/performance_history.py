"""The performance history on the page: a list under its years."""

from __future__ import annotations

from catalogue.documents.sheets.geometry import ColumnSheet, ListTableSheet, Margins, Sheet

PERFORMANCE_HISTORY = Sheet(
    margins=Margins(first=82),
    list_table=ListTableSheet(
        columns={
            "title": ColumnSheet(44, 222, turn=57.5),
            "place": ColumnSheet(230, 338),
            "first": ColumnSheet(346, 467.7),
        }
    ),
)
