"""Whatever is typed, a page, a paper, a spreadsheet or a calendar says it and does nothing with it.

Every text of a catalogue is filled, past what the forms refuse, with texts that try to break out
(``tests/hostile_texts.py``), and every page and file is made and read back by a parser of its format. One round of
them belongs to the fast lane; in the full lane each of the texts comes to stand in each column of 200 characters and
more (``ROUNDS=80`` for the shorter ones as well).
"""

from __future__ import annotations

import csv
import io
import json
import os
import re
import zipfile
from collections.abc import Callable, Iterator
from typing import Any

import pikepdf
import pytest
from defusedxml.ElementTree import fromstring
from django.contrib.auth.models import User
from django.db import models
from django.test import Client
from django.urls import reverse
from icalendar import Calendar
from lxml import html
from markdown_it import MarkdownIt

from catalogue.documents.registry import FORMATS
from catalogue.models import Composer, Performance
from catalogue.web.forms.documents import FORMS
from tests.conftest import NOW
from tests.hostile_texts import HOSTILE, joined
from tests.web.every_page import addresses_of, page_names
from tests.whole_catalogue import fill_texts, give_away, make_whole_catalogue

pytestmark = pytest.mark.django_db

ROUNDS = int(os.environ.get("ROUNDS", "20"))
STEP = 10
FORMULA = re.compile(r"\s*[=+@\uff1d\uff0b\uff20-]|[\t\r]")
FETCHED_OR_RUN = re.compile(
    rb'Target="(?!https?://|mailto:|[\w/.-]+")[^"]*"|<w:instrText[^>]*>(?!PAGE<|NUMPAGES<)[^<]*<'
)
NUMBER = re.compile(r"[-+]?[\d.,:'’″′\s]+")
SAFE = re.compile(r"(?:https?://|mailto:|tel:|webcal:|/|\?|#|\.|[\w-]+/?$)", re.ASCII)
PICTURE = re.compile(r"data:image/png;base64,iVBORw0KGgo[A-Za-z0-9+/]*={0,2}\Z")  # begins with the signature of a PNG
QUICK = ("work-detail", "performance-detail", "profile", "document")


class Hostile:
    """Gives each column the texts that are its turn; an address or a mailbox begins as one."""

    def __init__(self, turn: int) -> None:
        self.place = turn * STEP

    def __call__(self, model: type[models.Model], column: Any) -> str:
        self.place += 1
        before = {models.URLField: "https://x.example/", models.EmailField: "x@example.org"}.get(type(column), "")
        return before + joined(self.place, (column.max_length or 5_000) - len(before))


@pytest.fixture
def browser(composer: Composer, owner: User, signed_in: Callable[[User], Client]) -> Client:
    make_whole_catalogue(composer)
    give_away(composer, owner, now=NOW)
    return signed_in(owner)


def faults_of_page(text: str) -> list[str]:
    """What a page holds that its texts have made: an element, an attribute, an address that is followed."""
    if not text.strip():  # a part of a page that has nothing to suggest
        return []
    tree = html.fromstring(text)
    made = [html.tostring(one, encoding="unicode")[:80] for one in tree.iter() if is_planted(one)]
    drawn = tree.xpath("//img/@src")
    followed = tree.xpath("//@href | //*[not(self::img)]/@src | //@action | //@formaction | //@data | //@srcdoc")
    unsafe = [str(address) for address in (*drawn, *followed) if not is_safe(str(address))]
    return made + [address for address in unsafe if not (address in drawn and PICTURE.match(address))]


def is_planted(element: Any) -> bool:
    if not isinstance(element.tag, str):
        return True
    names = [name.lower() for name in element.attrib]
    scripted = element.tag == "script" and not is_own_script(element)
    return (
        scripted
        or element.tag.lower().startswith("planted")
        or any(name.startswith(("on", "planted")) for name in names)
    )


def is_own_script(element: Any) -> bool:
    """Whether a script is a file of the site, or linked data, which no browser runs."""
    if element.get("type") == "application/ld+json":
        return "@graph" in json.loads(element.text)
    return str(element.get("src", "")).startswith("/static/")


def is_safe(address: str) -> bool:
    return SAFE.match(address) is not None and not address.startswith("//")


def faults_of_pdf(content: bytes) -> list[str]:
    """What a PDF does beyond showing text: scripts, files, addresses that nobody gave as one."""
    with pikepdf.open(io.BytesIO(content)) as pdf:
        told = [str(one.get("/S")) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/S" in one]
        names = [key for key in ("/OpenAction", "/AA", "/AcroForm") if key in pdf.Root]
    return names + [action for action in told if action in {"/JavaScript", "/Launch", "/GoToR", "/SubmitForm"}]


def faults_of_word(content: bytes) -> list[str]:
    """What a word processor would fetch or run; each part is well-formed."""
    found = []
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        for name in archive.namelist():
            part = archive.read(name)
            if name.endswith((".xml", ".rels")):
                fromstring(part)
            found += FETCHED_OR_RUN.findall(part)
    return [one.decode() for one in found]


def faults_of_csv(content: bytes) -> list[str]:
    rows = csv.reader(io.StringIO(content.decode("utf-8-sig"), newline=""))
    return [cell for row in rows for cell in row if FORMULA.match(cell) and not NUMBER.fullmatch(cell)]


def faults_of_xlsx(content: bytes) -> list[str]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        sheets = [archive.read(name) for name in archive.namelist() if name.endswith(".xml")]
    for sheet in sheets:
        fromstring(sheet)
    return [found.decode() for sheet in sheets for found in re.findall(rb"<f[ >].{0,60}|<hyperlink .{0,60}", sheet)]


def faults_of_markdown(content: bytes) -> list[str]:
    """Markdown as a reader renders it that takes HTML as it comes."""
    return faults_of_page(f"<div>{MarkdownIt('commonmark').render(content.decode())}</div>")


FAULTS: dict[str, Callable[[bytes], list[str]]] = {
    "html": lambda content: faults_of_page(content.decode()),
    "pdf": faults_of_pdf,
    "docx": faults_of_word,
    "csv": faults_of_csv,
    "xlsx": faults_of_xlsx,
    "md": faults_of_markdown,
    "txt": lambda content: re.findall(r"[\x00-\x08\x0b\x0e-\x1f]", content.decode()),
}


def test_planted_fault_is_found() -> None:
    plain = "<html><body><p title='planted'>planted()</p><a href='/c/'>x</a></body></html>"
    assert faults_of_page(plain) == []
    assert len(faults_of_page("<p><planted></planted><a href='javascript:x'>x</a><img src=x onerror=y></p>")) == 3
    assert faults_of_page("<p><img src='data:image/png;base64,iVBORw0KGgoAAA=='></p>") == []
    assert len(faults_of_page("<p><img src='data:image/svg+xml,x'><a href='data:text/html,x'>x</a></p>")) == 2
    assert faults_of_csv(b'"a","=1+1"\r\n') == ["=1+1"]
    assert faults_of_markdown(b"[x](javascript:x)\n\n<planted>") == ["<planted></planted>"]


def pages_of(names: Iterator[str] | tuple[str, ...], composer: Composer) -> list[str]:
    return [address for name in names for address in addresses_of(name, composer, 1)]


def files_of(composer: Composer, formats: tuple[str, ...]) -> list[tuple[str, str]]:
    return [
        (f"{reverse('document-file', args=[composer.slug, kind])}?format={format}", format)
        for kind in FORMS
        for format in formats
    ]


def assert_harmless(browser: Client, composer: Composer, names: tuple[str, ...], formats: tuple[str, ...]) -> None:
    found: dict[str, list[str]] = {}
    for address in pages_of(names, composer):
        response = browser.get(address)
        assert (address, response.status_code) == (address, 200)
        found[address] = faults_of_page(response.content.decode())
    for address, format in files_of(composer, formats):
        response = browser.get(address)
        made = "Content-Disposition" in response.headers
        assert (address, response.status_code, "planted\r" in str(response.headers)) == (address, 200, False)
        found[address] = FAULTS[format if made else "html"](response.content)
    assert {address: faults for address, faults in found.items() if faults} == {}
    assert_exports_and_calendars_are_harmless(browser, composer)


def assert_exports_and_calendars_are_harmless(browser: Client, composer: Composer) -> None:
    for name in ("work-export", "performance-export"):
        for suffix in ("csv", "xlsx"):
            response = browser.get(reverse(name, args=[composer.slug, suffix]))
            assert (name, suffix, FAULTS[suffix](response.content)) == (name, suffix, [])
    performance = Performance.objects.earliest("pk")
    event = browser.get(reverse("performance-event", args=[composer.slug, performance.pk])).content
    (calendar,) = Calendar.from_ical(event, multiple=True)
    assert [len(calendar.walk(kind)) for kind in ("VEVENT", "VALARM", "VTODO")] == [1, 0, 0]
    assert [name for name in calendar.walk("VEVENT")[0] if "PLANTED" in name or name == "ATTACH"] == []
    assert max(len(line) for line in event.split(b"\r\n")) <= 75


def test_every_text_comes_in_its_turn() -> None:
    assert len(HOSTILE) == len(set(HOSTILE)) >= 200
    assert len(set(HOSTILE) - set(joined(0, 10_000).split(" "))) < len(HOSTILE)


def test_main_pages_and_papers_say_what_was_typed_and_do_nothing_with_it(browser: Client, composer: Composer) -> None:
    fill_texts(Hostile(0))

    assert_harmless(browser, composer, QUICK, ("csv",))


@pytest.mark.slow
@pytest.mark.parametrize("turn", range(ROUNDS))
@pytest.mark.usefixtures("with_migrations")
def test_every_page_and_file_says_what_was_typed_and_does_nothing_with_it(
    browser: Client, composer: Composer, turn: int
) -> None:
    fill_texts(Hostile(turn))

    names = tuple(name for name in page_names() if name not in {"sign-in", "start", "join"})
    assert_harmless(browser, composer, names, tuple(FORMATS))
