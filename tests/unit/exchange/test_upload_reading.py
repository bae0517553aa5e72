"""Files that are to be kept: what is read in them, and that none of those that mean harm takes long or gets in."""

from __future__ import annotations

import time
from collections.abc import Callable
from io import BytesIO

import pytest

from catalogue.exchange.archives import MEGABYTE
from catalogue.exchange.file_formats import HEAD, FormatError, refuse_other
from catalogue.exchange.pictures import PictureError, probe_picture
from catalogue.exchange.tables import TableError, read_table
from catalogue.exchange.upload_reading import Found, read_upload
from tests.picture_files import png_that_claims
from tests.unit.exchange.hostile_uploads import BOMB, HARM, HARMLESS, compressed_score, zip_with
from tests.unit.exchange.spreadsheets import make_xlsx, make_zip, with_cell

SMALL = b'<score-partwise><part-list><score-part id="P1"/></part-list><part id="P1"/></score-partwise>'
SECONDS = 1.0
"""Of this program's own time."""


def taken(name: str, content: bytes) -> Found:
    return read_upload(BytesIO(content), refuse_other(content[:HEAD], name))


def in_time(read: Callable[[], object]) -> object:
    begun = time.process_time()
    try:
        return read()
    finally:
        assert time.process_time() - begun < SECONDS


@pytest.mark.parametrize("name", HARM)
def test_file_that_means_harm_is_refused_with_a_sentence(name: str) -> None:
    called, make = HARM[name]
    content = make()

    with pytest.raises(FormatError) as refused:
        in_time(lambda: taken(called, content))

    assert len(content) < 2 * MEGABYTE
    assert refused.value.reason.endswith(".")
    assert "passwd" not in refused.value.reason


@pytest.mark.parametrize("name", HARMLESS)
def test_file_that_means_harm_and_does_none_is_kept(name: str) -> None:
    called, make = HARMLESS[name]
    content = make()

    in_time(lambda: taken(called, content))

    assert len(content) < 2 * MEGABYTE


@pytest.mark.parametrize(
    "read",
    [
        lambda: probe_picture(png_that_claims(30_000, 30_000)),
        lambda: probe_picture(b"GIF89a/*" + b"\0" * 100 + b"*/=alert(1)"),
        lambda: read_table(with_cell(make_xlsx({"S": [["a"]]}), "XFD1048576")),
        lambda: read_table(make_zip({"[Content_Types].xml": b"<a/>", "xl/worksheets/sheet1.xml": BOMB})),
    ],
    ids=["a flood of pixels", "a picture that is a program", "a cell in the last corner", "a bomb as a table"],
)
def test_pictures_and_tables_that_mean_harm_are_refused(read: Callable[[], object]) -> None:
    with pytest.raises((PictureError, TableError)):
        in_time(read)


def test_scores_and_archives_that_mean_no_harm_are_kept() -> None:
    assert taken("a.musicxml", SMALL) is None
    assert taken("a.mxl", compressed_score(score_xml=SMALL)) is None
    assert taken("a.zip", zip_with("patch/main.txt", b"on")) is None
