"""Two hundred hostile texts as titles, names and notes: every format prints them as text and nothing more.

The dresses (script elements, event attributes, formulas, entities, markup of typesetters, directions, control
characters) are common knowledge of web and office security; OWASP's cheat sheets list the like.
"""

from __future__ import annotations

import csv
import io
import zipfile
from dataclasses import replace
from datetime import UTC, date, datetime
from itertools import product

import pytest
from docx import Document as open_docx
from icalendar import Calendar
from lxml import html

from catalogue.documents.model import Paper
from catalogue.documents.registry import EVERY, builder, render
from catalogue.facts import CatalogueFacts, PerformerFacts, TitleFacts
from catalogue.feeds.calendar import calendar_bytes
from catalogue.terms import PerformerRole
from tests.fact_makers import COMPOSER, make_event, make_venue, make_work

HEADS = (
    "", "\"", "'", "-->", "]]>", "</title>", "</script>", "\u202e", "\ufeff", "\x07", "\x00", "\ud800", "\r\n",
    "\u2028",
)  # fmt: skip
CORES = (
    "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "<svg/onload=alert(1)>", "<iframe src=javascript:1>",
    "[x](javascript:alert(1))", "![x](https://elsewhere.example/x.png)", "=HYPERLINK(\"https://elsewhere.example\")",
    "@SUM(1+1)*cmd|' /C calc'!A0", "+1+1", "<para><img src='/etc/passwd'/></para>", "<b>", "&lt;script&gt;", "&#x3c;b>",
    "END:VEVENT\r\nBEGIN:VEVENT\r\nSUMMARY:x", "ATTACH:https://elsewhere.example", "{{ 7*7 }}{% load x %}",
)  # fmt: skip
HOSTILE = [head + core for head, core in product(HEADS, CORES)]
MARK = "Q7"
SAFE_SCHEMES = ("", "#", "mailto:", "https://", "http://")


def catalogue() -> CatalogueFacts:
    """Return a catalogue in which each work, hall and performer bears one of the texts."""
    works = [
        replace(
            make_work(number, title=f"{MARK}{text}"),
            title=TitleFacts(f"{MARK}{text}", subtitle=text, translated=text),
            dedication=text, notes=text, instrumentation_typed=text, duration_typed=text, publisher=text,
        )
        for number, text in enumerate(HOSTILE, 1)
    ]  # fmt: skip
    events = [
        replace(
            make_event(number, "2026-05-16", event_title=text, presenter=text, series=text, notes=text, city=text),
            programme=(replace(make_event(number, "2026-05-16").programme[0], work_id=number, billing=text),),
            venue=make_venue(text), performers=(PerformerFacts(text, PerformerRole.PERFORMER, plays=text),),
        )
        for number, text in enumerate(HOSTILE, 1)
    ]  # fmt: skip
    return CatalogueFacts(composer=COMPOSER, works=tuple(works), performances=tuple(events))


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    today = date(2026, 3, 9)
    document = builder("works-list-by-category")(
        catalogue(), by="category", claims={}, language="en-GB", paper=Paper.A4, printed_on=today
    )
    return {format: render(document, format) for format in EVERY}


def test_there_are_two_hundred() -> None:
    assert len(set(HOSTILE)) >= 200


def test_a_web_page_holds_no_element_attribute_or_address_of_theirs(files: dict[str, bytes]) -> None:
    page = html.fromstring(files["html"].decode())

    elements = {element.tag for element in page.iter() if isinstance(element.tag, str)}
    attributes = {name for element in page.iter() for name in element.attrib}
    addresses = page.xpath("//@href | //@src")

    assert elements & {"script", "iframe", "img", "object", "form", "para", "embed", "link", "meta"} <= {"meta"}
    assert [name for name in attributes if name.startswith(("on", "hx-", "data-hx"))] == []
    assert [one for one in addresses if not one.startswith(SAFE_SCHEMES[1:])] == []
    assert page.text_content().count(MARK) >= len(HOSTILE)


def test_a_word_file_opens_and_has_each_title(files: dict[str, bytes]) -> None:
    opened = open_docx(io.BytesIO(files["docx"]))

    text = "".join(opened.element.body.itertext())

    assert text.count(MARK) >= len(HOSTILE)
    with zipfile.ZipFile(io.BytesIO(files["docx"])) as parts:
        assert b"elsewhere.example" not in b"".join(parts.read(name) for name in parts.namelist() if "_rels" in name)


def test_a_spreadsheet_has_no_formula_and_no_link(files: dict[str, bytes]) -> None:
    with zipfile.ZipFile(io.BytesIO(files["xlsx"])) as parts:
        sheets = b"".join(parts.read(name) for name in parts.namelist() if "worksheets" in name)

    assert b"<f>" not in sheets
    assert b"hyperlink" not in sheets


def test_a_table_has_no_cell_that_is_taken_for_a_formula(files: dict[str, bytes]) -> None:
    rows = list(csv.reader(io.StringIO(files["csv"].decode("utf-8-sig"))))

    risky = [cell for row in rows for cell in row if cell.startswith(("=", "+", "@", "\t", "\r", "\0"))]

    assert len(rows) > 100
    assert risky == []


def test_a_page_to_print_has_no_address_and_no_picture(files: dict[str, bytes]) -> None:
    assert files["pdf"].startswith(b"%PDF")
    for word in (b"/URI", b"/JavaScript", b"/Launch", b"/EmbeddedFile", b"/Subtype /Image"):
        assert word not in files["pdf"]


@pytest.mark.parametrize("format", ["md", "txt"])
def test_plain_files_hold_no_control_character(files: dict[str, bytes], format: str) -> None:
    text = files[format].decode()

    assert [sign for sign in text if ord(sign) < 32 and sign not in "\n\t"] == []


def test_a_calendar_has_its_own_events_and_properties_and_no_others() -> None:
    file = calendar_bytes(catalogue(), name="x\r\nBEGIN:VEVENT", now=datetime(2026, 3, 9, tzinfo=UTC))

    events = Calendar.from_ical(file).walk("VEVENT")
    names = {name for event in events for name in event}

    assert len(events) == len(HOSTILE)
    assert names <= {
        "UID", "DTSTAMP", "LAST-MODIFIED", "SEQUENCE", "DTSTART", "DTEND", "SUMMARY", "STATUS", "TRANSP", "CATEGORIES",
        "LOCATION", "DESCRIPTION", "URL", "GEO",
    }  # fmt: skip
    assert max(len(line) for line in file.split(b"\r\n")) <= 75
    assert file.count(b"\r") == file.count(b"\n") == file.count(b"\r\n")
    assert [byte for byte in file if byte < 32 and byte not in b"\r\n\t"] == []
