"""A catalogue as a spreadsheet with the columns that an import reads; importing it again changes nothing.

Programmes, not events, make the rows of a performance history: a work at an event each, in date order.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from io import BytesIO, StringIO

import xlsxwriter

from catalogue.exchange.columns import WHERE_NEEDED, Kind, exported_columns
from catalogue.exchange.event_places import city_of, country_of
from catalogue.exchange.movement_lists import write_line
from catalogue.exchange.open_sheets import ods_of
from catalogue.exchange.performance_import import as_performer
from catalogue.exchange.performer_lists import write_performers
from catalogue.exchange.work_import import as_facts
from catalogue.models import Composer, Performance, ProgrammedWork, Work
from catalogue.rules.formula_guard import guarded
from catalogue.rules.refused import Refused
from catalogue.terms import Extent

LONGEST_CELL = 32_767  # characters that a cell of XLSX takes
MADE = datetime(2000, 1, 1)
COPIED_OF_WORK = (
    "title", "original_title", "translated_title", "subtitle", "catalogue_number", "category", "text_author",
    "text_language", "dedication", "publisher", "status", "notes",
)  # fmt: skip
COPIED_OF_EVENT = ("kind", "country_then", "series", "audience", "status", "notes")

Rows = list[list[str]]


class ExportError(Refused):
    """A catalogue that a kind of file cannot hold; ``reason`` is one sentence."""


def export_csv(composers: Iterable[Composer], kind: Kind) -> bytes:
    """Return the catalogues as CSV: UTF-8 with its mark, commas, no cell that a program would take for a formula."""
    return csv_of(grid(composers, kind))


def csv_of(rows: Rows) -> bytes:
    """Write rows as CSV in UTF-8 with a byte-order mark; no cell is taken for a formula by a spreadsheet."""
    written = StringIO(newline="")
    csv.writer(written).writerows([guarded(cell) for cell in row] for row in rows)
    return b"\xef\xbb\xbf" + written.getvalue().encode()


def export_xlsx(composers: Iterable[Composer], kind: Kind) -> bytes:
    """Return the catalogues as a sheet of text cells. Raises ExportError for a text longer than a cell may be."""
    return xlsx_of(grid(composers, kind), kind.value)


def export_ods(composers: Iterable[Composer], kind: Kind) -> bytes:
    """Return the catalogues as an OpenDocument sheet of text cells."""
    return ods_of(grid(composers, kind), kind.value.capitalize())


def xlsx_of(rows: Rows, name: str) -> bytes:
    """Return a sheet of text cells of that name. Raises ExportError for a text longer than a cell may be."""
    target = BytesIO()
    with xlsxwriter.Workbook(target, {"in_memory": True}) as workbook:
        workbook.set_properties({"created": MADE})
        sheet = workbook.add_worksheet(name.capitalize())
        heading = workbook.add_format({"bold": True})
        sheet.freeze_panes(1, 0)
        sheet.set_column(0, len(rows[0]) - 1, 18)
        for number, row in enumerate(rows):
            for place, cell in enumerate(row):
                refuse_too_long(cell, number + 1, rows[0][place])
                sheet.write_string(number, place, cell, heading if number == 0 else None)
    return target.getvalue()


def refuse_too_long(cell: str, row: int, column: str) -> None:
    if len(cell) > LONGEST_CELL:
        reason = f"Row {row}, {column}: this text is longer than a cell of XLSX takes; export as CSV instead."
        raise ExportError(reason)


def grid(composers: Iterable[Composer], kind: Kind) -> Rows:
    """Return header and rows of the catalogues, one after the other."""
    return with_header([row for composer in composers for row in rows_of(composer, kind)], kind)


def grid_of_works(composer: Composer, works: Iterable[Work]) -> Rows:
    """Return header and rows of some works, fetched with everything printed."""
    return with_header([work_cells(composer, work) for work in works], Kind.WORKS)


def grid_of_performances(composer: Composer, performances: Iterable[Performance]) -> Rows:
    """Return header and rows of some performances, fetched with everything printed."""
    return with_header(list(programme_rows(composer, performances)), Kind.PERFORMANCES)


def grid_of_house_works(works: Iterable[Work]) -> Rows:
    """Return header and rows of works of several composers, fetched with them and everything printed."""
    return with_header([work_cells(work.composer, work) for work in works], Kind.WORKS)


def grid_of_house_performances(performances: Iterable[Performance]) -> Rows:
    """Return header and rows of performances of several composers, fetched with them and everything printed."""
    told = [row for one in performances for row in programme_rows(one.composer, [one])]
    return with_header(told, Kind.PERFORMANCES)


def with_header(told: Sequence[Mapping[str, str]], kind: Kind) -> Rows:
    columns = exported_columns(kind, all_of_them=any(row[WHERE_NEEDED[kind]] for row in told))
    return [list(columns), *([row[column] for column in columns] for row in told)]


def rows_of(composer: Composer, kind: Kind) -> Iterator[dict[str, str]]:
    if kind is Kind.WORKS:
        works = Work.objects.filter(composer=composer).with_everything_printed().in_title_order()
        return (work_cells(composer, work) for work in works)
    performances = Performance.objects.filter(composer=composer).with_everything_printed().in_date_order()
    return programme_rows(composer, performances)


def programme_rows(composer: Composer, performances: Iterable[Performance]) -> Iterator[dict[str, str]]:
    """Give a row for each work at each performance."""
    for performance in performances:
        event = event_cells(composer, performance)
        for item in sorted(performance.programme.all(), key=lambda one: one.order):
            yield {**event, **item_cells(item)}


def work_cells(composer: Composer, work: Work) -> dict[str, str]:
    return {
        "composer": composer.name,
        **{column: getattr(work, column) for column in COPIED_OF_WORK},
        "version": work.version_label,
        "year": str(work.completed or ""),
        "revised": str(work.revised or ""),
        "instrumentation": work.instrumentation or work.instrumentation_typed,
        "duration": str(work.duration or "") or work.duration_typed,
        "movements": several_cell([write_line(as_facts(one)) for one in work.movements.all()]),
        "commissioned_by": several_cell([one.body for one in work.commissions.all()]),
        "iswc": work.iswc,
        "ismn": work.ismn,
    }


def several_cell(lines: Sequence[str]) -> str:
    """Return movements or bodies with semicolons between them, or as lines where one holds a semicolon itself."""
    return "\n".join([*lines, ""]) if any(";" in line for line in lines) else "; ".join(lines)


def event_cells(composer: Composer, performance: Performance) -> dict[str, str]:
    return {
        "composer": composer.name,
        **{column: getattr(performance, column) for column in COPIED_OF_EVENT},
        "date": str(performance.date or ""),
        "time": performance.time.isoformat("minutes") if performance.time else "",
        "timezone": performance.local_zone,
        "venue": performance.venue.name if performance.venue else "",
        "city": city_of(performance),
        "country": country_of(performance),
        "performers": write_performers(as_performer(one) for one in performance.credits.all()),
        "presenter": performance.presented_by,
    }


def item_cells(item: ProgrammedWork) -> dict[str, str]:
    part = f": {item.part}" if item.part and item.extent != Extent.COMPLETE else ""
    return {
        "work": item.work.title,
        "version": item.work.version_label,
        "extent": f"{item.extent}{part}",
        "billing": item.billing,
    }
