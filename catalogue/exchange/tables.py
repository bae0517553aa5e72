"""A spreadsheet as rows of text: CSV in any usual encoding, XLSX and ODS, within limits.

Of several sheets the one is read that is named after what is imported, else the first that is not empty. Row numbers
are those that the spreadsheet program shows.
"""

from __future__ import annotations

import codecs
import csv
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from io import BytesIO
from itertools import islice
from xml.sax import SAXException

from defusedxml.common import DefusedXmlException
from python_calamine import CalamineSheet, CalamineWorkbook

from catalogue.exchange.archives import MEGABYTE, ArchiveError, Limits, pieces
from catalogue.exchange.sheet_sizes import SizeScan
from catalogue.rules.formula_guard import unguarded

MOST_BYTES = 20 * MEGABYTE
MOST_ROWS, MOST_COLUMNS = 20_000, 200
MOST_ROWS_WITH_HEADER = MOST_ROWS + 20  # titles may stand above the header
DELIMITERS = (",", ";", "\t", "|")
BYTE_ORDER_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
WITH_MARKS = frozenset("ÄÖÜäöüßÀÂÇÈÉÊËÎÏÔÙÛàâçèéêëîïôùûæœÁÍÑÓÚáíñóúÌÒìòÅÆØåøÃÕãõ")
SAID = re.compile(r"\s*sep=(\S)[^\S\n]*(?:\n|$)", re.IGNORECASE)
LINE = re.compile(r"[^\r\n]*(?:\r\n?|\n)|[^\r\n]+")
OLD_EXCEL = b"\xd0\xcf\x11\xe0"


class TableError(ValueError):
    """A file that cannot be read as a table; ``row`` is 0 where the whole file is meant."""

    def __init__(self, reason: str, row: int = 0) -> None:
        super().__init__(reason)
        self.reason = reason
        self.row = row


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of one sheet, the first of them row 1.

    ``encoding`` and ``delimiter`` are those of CSV, empty where none had to be found.
    """

    rows: tuple[tuple[str, ...], ...]
    sheet: str = ""
    encoding: str = ""
    delimiter: str = ""


@dataclass(frozen=True, slots=True)
class Dress:
    """How CSV is to be read where somebody has said so; what is empty is found."""

    encoding: str = ""
    delimiter: str = ""


def read_table(content: bytes, *, sheet_called: Iterable[str] = (), dress: Dress = Dress()) -> Table:
    """Return the table in a file. ``sheet_called`` are names of the sheet that is wanted. Raises TableError."""
    if len(content) > MOST_BYTES:
        raise TableError(f"This file is larger than {MOST_BYTES // MEGABYTE} MB.")
    if not content.strip():
        raise TableError("This file is empty.")
    if content.startswith(b"PK\x03\x04"):
        return read_workbook(content, sheet_called)
    if content.startswith(OLD_EXCEL):
        raise TableError("This is a spreadsheet of an old kind or with a password; save it as XLSX, ODS or CSV.")
    return read_csv(content, dress)


# ---- CSV


def read_csv(content: bytes, dress: Dress = Dress()) -> Table:
    """Return the rows of CSV; encoding and delimiter are found where none is given."""
    text, encoding = decoded(content, dress.encoding)
    delimiter = dress.delimiter
    if "\0" in text:
        raise TableError("This is no spreadsheet; CSV, XLSX and ODS are read.")
    if not delimiter:
        delimiter, text = delimiter_of(text)
    refuse_open_quote(text, delimiter)
    reader = csv.reader(lines_of(text), delimiter=delimiter)
    try:
        rows = tuple(within_limits(tuple(unguarded(cell) for cell in row) for row in reader))
    except csv.Error as fault:
        raise TableError(why_unread(reader.line_num, str(fault)), reader.line_num) from fault
    return Table(rows, encoding=encoding, delimiter=delimiter)


def lines_of(text: str) -> Iterator[str]:
    """Give the lines of a text with their ends, one by one; a buffer of the text would take four times its room.

    >>> list(lines_of("a\\r\\nb\\rc\\n\\nd\u2028e"))
    ['a\\r\\n', 'b\\r', 'c\\n', '\\n', 'd\\u2028e']
    """
    return (found[0] for found in LINE.finditer(text))


def why_unread(line: int, fault: str) -> str:
    if "field limit" in fault:
        return f"Line {line} has a cell of more than {csv.field_size_limit():,} characters."
    return f"Line {line} cannot be read: a quotation mark is missing."


def refuse_open_quote(text: str, delimiter: str) -> None:
    """Raise TableError where a cell that begins with a quotation mark never ends: it would swallow the rows below."""
    reader = csv.reader(lines_of(text), delimiter=delimiter, strict=True)
    begun = 1
    try:
        for _row in reader:
            begun = reader.line_num + 1
    except csv.Error as fault:
        if "unexpected end of data" in str(fault):
            raise TableError(f"Line {begun} opens a quotation mark that is never closed.", begun) from fault


def decoded(content: bytes, wanted: str = "") -> tuple[str, str]:
    """Return the text and its encoding: by its mark, else UTF-8, else that of Windows or the Mac in Western Europe.

    ``wanted`` is an encoding that somebody has chosen. Raises TableError where the text is not in it.
    """
    if wanted:
        return decoded_as_wanted(content, wanted)
    marked = next((name for mark, name in BYTE_ORDER_MARKS if content.startswith(mark)), "")
    for encoding in [marked] if marked else ["utf-8", *western(content), "latin-1"]:
        try:
            return content.decode(encoding), encoding
        except UnicodeDecodeError:
            continue
    said = marked.removesuffix("-sig").upper()
    raise TableError(f"This file says that it is {said} but is not; save it again as UTF-8.")


def western(content: bytes) -> tuple[str, ...]:
    """Return the encoding of Windows, after that of the Mac where its reading has more letters of the usual kind."""
    as_mac, as_windows = (letters_with_marks(content, encoding) for encoding in ("mac-roman", "cp1252"))
    return ("mac-roman", "cp1252") if as_mac > as_windows else ("cp1252",)


def letters_with_marks(content: bytes, encoding: str) -> int:
    return sum(letter in WITH_MARKS for letter in content.decode(encoding, "replace"))


def decoded_as_wanted(content: bytes, encoding: str) -> tuple[str, str]:
    try:
        return content.decode(encoding), encoding
    except (UnicodeDecodeError, LookupError) as fault:
        raise TableError(f"This file cannot be read as {encoding}.") from fault


def delimiter_of(text: str) -> tuple[str, str]:
    """Return what stands between the cells, and the text without a first line that says so (``sep=;``)."""
    if said := SAID.match(text):
        return said[1], text[said.end() :]
    return max(DELIMITERS, key=lambda one: fitness(text, one)), text


def fitness(text: str, delimiter: str) -> tuple[float, int]:
    """Return how evenly the first rows are cut by a delimiter, and into how many cells."""
    sample = csv.reader(lines_of(text[:200_000]), delimiter=delimiter)
    try:
        widths = [len(row) for row in islice(sample, 30) if row]
    except csv.Error:
        return 0, 0
    usual, times = Counter(widths).most_common(1)[0] if widths else (0, 0)
    return (times / len(widths), usual) if usual > 1 else (0, 0)


def within_limits(rows: Iterable[tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
    for number, row in enumerate(rows, start=1):
        refuse_beyond(number, len(row))
        yield row


def refuse_beyond(row: int, column: int) -> None:
    if row > MOST_ROWS_WITH_HEADER:
        raise TableError(f"This table has more than {MOST_ROWS:,} rows; divide it.")
    if column > MOST_COLUMNS:
        raise TableError(f"Row {row} has more than {MOST_COLUMNS} columns.", row)


# ---- XLSX and ODS


def read_workbook(content: bytes, sheet_called: Iterable[str]) -> Table:
    check_workbook(content)
    try:
        with CalamineWorkbook.from_filelike(BytesIO(content)) as workbook:
            sheet = chosen_sheet(workbook, {name.casefold() for name in sheet_called})
            rows = tuple(tuple(written(value) for value in row) for row in sheet.to_python(skip_empty_area=False))
            return Table(rows, sheet=sheet.name)
    except TableError:
        raise
    except Exception as fault:
        raise TableError("This spreadsheet is damaged and cannot be read.") from fault


def check_workbook(content: bytes) -> None:
    """Refuse what is no XLSX or ODS, and what would grow beyond all measure."""
    scan = SizeScan(refuse_beyond)
    names = set()
    try:
        for name, piece in pieces(content, Limits()):
            names.add(name)
            scan.feed(name, piece)
    except ArchiveError as fault:
        raise TableError(fault.reason) from fault
    except (SAXException, DefusedXmlException) as fault:
        raise TableError("This spreadsheet is damaged and cannot be read.") from fault
    if not names & {"xl/workbook.xml", "content.xml"}:
        raise TableError("This is no spreadsheet; CSV, XLSX and ODS are read.")


def chosen_sheet(workbook: CalamineWorkbook, wanted: set[str]) -> CalamineSheet:
    sheets = [workbook.get_sheet_by_name(name) for name in workbook.sheet_names]
    filled = [sheet for sheet in sheets if sheet.height]
    if not filled:
        raise TableError("This spreadsheet is empty.")
    return next((sheet for sheet in filled if sheet.name.casefold() in wanted), filled[0])


def written(value: object) -> str:
    """Return a cell's value as a person types it: whole numbers without a point, dates and times as in ISO 8601."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time() else value.isoformat(" ", "minutes")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, time):
        return value.isoformat("seconds" if value.second else "minutes")
    return clock_figures(value) if isinstance(value, timedelta) else str(value)


def clock_figures(length: timedelta) -> str:
    minutes, seconds = divmod(int(length.total_seconds()), 60)
    return f"{minutes // 60}:{minutes % 60:02}:{seconds:02}"


def filled_rows(table: Table) -> Iterator[tuple[int, Sequence[str]]]:
    """Give the number and the cells of each row that is not empty."""
    for number, row in enumerate(table.rows, start=1):
        if any(cell.strip() for cell in row):
            yield number, row
