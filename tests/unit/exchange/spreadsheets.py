"""Makes spreadsheets for tests, hostile ones included; none is kept in the repository."""

from __future__ import annotations

import stat
import zipfile
from collections.abc import Sequence
from datetime import datetime
from io import BytesIO
from xml.sax.saxutils import escape

import xlsxwriter


def make_csv(*rows: Sequence[str]) -> bytes:
    return "\n".join(",".join('"' + cell.replace('"', '""') + '"' for cell in row) for row in rows).encode()


def make_xlsx(sheets: dict[str, Sequence[Sequence[object]]]) -> bytes:
    target = BytesIO()
    with xlsxwriter.Workbook(target, {"in_memory": True, "default_date_format": "yyyy-mm-dd"}) as workbook:
        for name, rows in sheets.items():
            sheet = workbook.add_worksheet(name)
            for number, row in enumerate(rows):
                for place, cell in enumerate(row):
                    if isinstance(cell, datetime):
                        sheet.write_datetime(number, place, cell)
                    else:
                        sheet.write(number, place, cell)
    return target.getvalue()


ODS_HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?><office:document-content office:version="1.3"'
    ' xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"'
    ' xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"'
    ' xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body><office:spreadsheet>'
)
MANIFEST = b'<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"/>'
ODS_TAIL = "</office:spreadsheet></office:body></office:document-content>"


def ods_cell(text: str, more: str = "") -> str:
    return f'<table:table-cell office:value-type="string"{more}><text:p>{escape(text)}</text:p></table:table-cell>'


def make_ods(rows: Sequence[Sequence[str]], more_rows: str = "") -> bytes:
    told = "".join(f"<table:table-row>{''.join(map(ods_cell, row))}</table:table-row>" for row in rows)
    return make_zip(
        {
            "mimetype": b"application/vnd.oasis.opendocument.spreadsheet",
            "META-INF/manifest.xml": MANIFEST,
            "content.xml": f'{ODS_HEAD}<table:table table:name="S">{told}{more_rows}</table:table>{ODS_TAIL}'.encode(),
        }
    )


def make_zip(members: dict[str, bytes]) -> bytes:
    target = BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(name, content)
    return target.getvalue()


def make_zip_with_link() -> bytes:
    target = BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        link = zipfile.ZipInfo("xl/workbook.xml")
        link.external_attr = (stat.S_IFLNK | 0o777) << 16
        archive.writestr(link, "/etc/hostname")
    return target.getvalue()


def with_members(content: bytes, members: dict[str, bytes]) -> bytes:
    """Return the archive with some members replaced."""
    with zipfile.ZipFile(BytesIO(content)) as archive:
        kept = {name: archive.read(name) for name in archive.namelist()}
    return make_zip(kept | members)


def with_cell(content: bytes, cell: str) -> bytes:
    """Return an XLSX whose first sheet has one more row, with one cell at the place of that name."""
    with zipfile.ZipFile(BytesIO(content)) as archive:
        sheet = archive.read("xl/worksheets/sheet1.xml")
    row = "".join(letter for letter in cell if letter.isdigit())
    added = f'<row r="{row}"><c r="{cell}"><v>1</v></c></row></sheetData>'.encode()
    return with_members(content, {"xl/worksheets/sheet1.xml": sheet.replace(b"</sheetData>", added)})
