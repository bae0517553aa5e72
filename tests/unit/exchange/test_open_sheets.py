"""Sheets in the OpenDocument format, as another reader sees them."""

from __future__ import annotations

from io import BytesIO
from zipfile import ZIP_STORED, ZipFile

import pytest
from lxml import etree
from python_calamine import CalamineWorkbook

from catalogue.exchange.open_sheets import KIND, ods_of


@pytest.mark.parametrize(
    "text",
    [
        "Ebb", 'a & <b> "c"', "two\nlines", "tab\there", " three   spaces ", "=1+1", "0012", "2020-03-12", "שלום",
        "\U0001d11e",
    ],
)  # fmt: skip
def test_a_cell_comes_back_as_its_text(text: str) -> None:
    book = CalamineWorkbook.from_filelike(BytesIO(ods_of([["title", "notes"], ["x", text]], "Works")))

    assert book.sheet_names == ["Works"]
    assert book.get_sheet_by_index(0).to_python() == [["title", "notes"], ["x", text]]


def test_what_xml_cannot_hold_is_left_out() -> None:
    book = CalamineWorkbook.from_filelike(BytesIO(ods_of([["a\x00b\x0bc\ufffe"]], 'a "&" b')))

    assert book.get_sheet_by_index(0).to_python() == [["abc"]]


def test_the_package_tells_its_kind_from_its_first_bytes() -> None:
    """ISO/IEC 26300-3, section 3.3: the first entry is the media type, neither packed nor with an extra field."""
    made = ods_of([["title"]], "Works")

    with ZipFile(BytesIO(made)) as package:
        first = package.infolist()[0]
        assert (first.filename, first.compress_type, first.extra) == ("mimetype", ZIP_STORED, b"")
        assert made[38 : 38 + len(KIND)] == KIND.encode()
        manifest = etree.fromstring(package.read("META-INF/manifest.xml"))
        listed = {one.get(f"{{{manifest.nsmap['manifest']}}}full-path") for one in manifest}
        assert listed == {"/", "content.xml"}
