"""What nobody but the members of a catalogue may read appears on no page that is open to others.

Every text of a catalogue with one record of each kind is a word of its own; the pages without an account are asked for,
and what they show is held against the list of what is meant for them.
"""

from __future__ import annotations

import io
import re
import shutil
import subprocess
import zipfile
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import models
from django.test import Client
from django.urls import reverse

from catalogue.actions.calendars import open_to_all
from catalogue.actions.publishing import publish
from catalogue.models import Composer, Performance, Recording, Rider, RiderSending, Work
from tests.conftest import NOW
from tests.web.every_page import addresses_of
from tests.web.pages import Page
from tests.web.test_every_address_by_role import TABLE, values
from tests.whole_catalogue import fill_texts, give_away, make_whole_catalogue, text_columns

pytestmark = pytest.mark.django_db

IN_THE_CALENDAR = {
    "Composer.name", "Organisation.name", "Performance.event_title", "Performance.presenter_name",
    "Performance.series", "PerformanceCredit.name", "PerformanceCredit.plays", "Person.name", "Venue.city",
    "Venue.name", "Work.title",
}  # fmt: skip
"""What everybody is told of a public performance: what, where, by whom."""
IN_A_RIDER = {
    "Composer.name", "Cue.action", "Cue.notes", "Cue.who", "Organisation.name", "PercussionInstrument.beaters",
    "PercussionInstrument.compass", "PercussionInstrument.instrument", "PercussionInstrument.notes",
    "PercussionInstrument.pitches", "PercussionInstrument.provided_by", "PercussionInstrument.shared_with",
    "PercussionInstrument.size", "Performance.event_title", "Performance.presenter_name", "PerformanceCredit.name",
    "Retuning.instrument", "Retuning.preparation", "Retuning.tuned_to", "Retuning.written",
    "Rider.contact_email", "Rider.contact_hours", "Rider.contact_name", "Rider.contact_telephone", "Rider.summary",
    "Rider.travel", "RiderSending.answered_by", "RiderSending.sent_to", "TechnicalSetup.description",
    "TechnicalSetup.differs",
    "TechnicalSetup.flashing", "TechnicalSetup.loudest", "TechnicalSetup.name", "TechnicalSetup.network",
    "TechnicalSetup.power", "TechnicalSetup.rehearsal", "TechnicalSetup.setting_up",
    "TechnicalSetup.synchronisation_note", "TechnicalSetup.when_it_fails", "Venue.city", "Venue.name",
    "Work.original_title",
    "Work.subtitle", "Work.title", "Work.translated_title", "Work.transliteration",
}  # fmt: skip
"""What the presenter is told who was sent the rider."""
WITH_A_FILE = {"Composer.name", "FileLink.message", "FileLink.recipient", "StoredFile.name"}
"""What whoever was sent a file is told beside it."""
ON_PUBLIC_PAGES = IN_THE_CALENDAR | {
    "Commission.funder", "Commission.name", "Composer.isni", "Composer.original_name", "Composer.short_biography",
    "Composer.website", "Movement.title", "Work.catalogue_number", "Work.iswc", "Work.original_title",
    "Work.programme_note", "Work.publisher", "Work.subtitle", "Work.text_author", "Work.translated_title",
    "Work.transliteration", "Work.version_label",
}  # fmt: skip
"""What everybody is told of works that are made public, and of their performances."""
NOT_OF_A_CATALOGUE = {"AskedMail", "House", "RecoveryCode", "SecondFactor"}
"""Records of those who sign in, where what stands in them is hashed or sealed, and of houses of several catalogues."""
MEANT_FOR: dict[str, set[str] | None] = {
    "public-feed": IN_THE_CALENDAR,
    "feed": None,
    "join": {"Composer.name"},
    "rider-answer": IN_A_RIDER,
    "rider-file": IN_A_RIDER,
    "shared-files": WITH_A_FILE,
    "shared-file": {"StoredFile.name"},
    "public-composer": ON_PUBLIC_PAGES,
    "public-work": ON_PUBLIC_PAGES,
    "public-performance": ON_PUBLIC_PAGES,
    "public-news": ON_PUBLIC_PAGES,
}
"""What may stand at an address; None: it is a member's own, for whom nothing is hidden. Elsewhere nothing may."""
MARK = "5 of 5"
"""How a composer's own mark of a work or a recording is told."""


class Words:
    """A word of its own for each text column, and what a text holds of them."""

    def __init__(self) -> None:
        self.columns: list[str] = []
        self.shared = ""

    def word_for(self, model: type[models.Model], column: Any) -> str:
        self.columns.append(f"{model.__name__}.{column.name}")
        word = f"qv{len(self.columns):03}w"
        if isinstance(column, models.EmailField):
            return f"{word}@example.org"
        return f"https://{word}.example/" if isinstance(column, models.URLField) else word

    def told_in(self, text: str) -> set[str]:
        return {self.columns[int(number) - 1] for number in re.findall(r"qv(\d{3})w", text)}


@pytest.fixture
def words(composer: Composer, owner: User) -> Words:
    found = Words()
    work = make_whole_catalogue(composer)
    found.shared = give_away(composer, owner, now=NOW)
    publish(composer=composer, is_open=True, works=[work.pk], now=NOW)
    fill_texts(found.word_for)
    Work.objects.update(strength=5)
    Recording.objects.update(quality=5)
    open_to_all(composer=composer, is_open=True)
    return found


@pytest.fixture
def token(words: Words, signed_in: Callable[[User], Client], owner: User) -> str:
    """The secret address at which the rider of the catalogue was sent."""
    rider = Rider.objects.get()
    address = reverse("rider-send", args=[rider.composer.slug, rider.pk])
    page = Page(signed_in(owner).post(address, {"to": "A hall", "language": "en-GB"}))
    return re.split("/", page.values("//*[@id='address']/@value")[0])[-2]


def text_of(response: Any) -> str:
    """Everything that can be read in an answer, with its headers."""
    content = b"".join(response) if response.streaming else response.content
    told = [str(response.headers)]
    if content.startswith(b"%PDF"):
        told.append(told_by_pdf(content))
    elif content.startswith(b"PK"):
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            told += [archive.read(name).decode("utf-8", "replace") for name in archive.namelist()]
    else:
        told.append(content.decode("utf-8", "replace").replace("\r\n ", ""))
    return "\n".join(told)


def told_by_pdf(content: bytes) -> str:
    """The text of the pages and what stands in the file's information; without poppler's tools nothing is read."""
    programs = {"pdftotext": ("-enc", "UTF-8", "-", "-"), "pdfinfo": ("-enc", "UTF-8", "-")}
    runs = [[name, *words] for name, words in programs.items() if shutil.which(name)]
    return "\n".join(
        subprocess.run(run, input=content, capture_output=True, check=False).stdout.decode() for run in runs
    )


def open_names() -> list[str]:
    return [name for name, row in TABLE.items() if row["who"] == "everybody"]


def parts_of(name: str, composer: Composer, token: str) -> list[dict[str, Any]]:
    """What stands in the addresses of that name, so that they lead to the catalogue's own records."""
    slug = {"name": composer.slug}
    known: dict[str, list[dict[str, Any]]] = {
        "rider-answer": [{"token": token}],
        "rider-file": [{"token": token, "format": format} for format in ("pdf", "docx")],
        "public-work": [{**slug, "work": Work.objects.earliest("pk").pk}],
        "public-performance": [{**slug, "performance": Performance.objects.earliest("pk").pk}],
        "public-news": [
            {**slug, "group": group, "format": format}
            for group in ("works", "performances")
            for format in ("atom", "json")
        ],
    }
    return known.get(name) or [values(name, composer)]


def shared_parts(name: str, words: Words) -> list[dict[str, Any]]:
    """What stands in the addresses at which a file was shared."""
    number = {"number": 1} if name == "shared-file" else {}
    return [{"token": words.shared, **number}] if name.startswith("shared-file") else []


def test_every_text_has_a_record_to_stand_in(words: Words, token: str) -> None:
    without = {model.__name__ for model, _column in text_columns() if not model._base_manager.exists()}

    assert without == NOT_OF_A_CATALOGUE | {"RiderAnswer"}


def test_pages_without_an_account_tell_what_is_meant_for_them_alone(
    composer: Composer, owner: User, words: Words, token: str
) -> None:
    fill_sending = RiderSending.objects.filter(rider__composer=composer)
    fill_sending.update(answered_by=words.word_for(RiderSending, RiderSending._meta.get_field("answered_by")))
    told: dict[str, set[str]] = {}
    for name in open_names():
        for parts in (*parts_of(name, composer, token), *shared_parts(name, words)):
            text = text_of(Client().get(reverse(name, kwargs=parts)))
            told[name] = told.get(name, set()) | words.told_in(text)
            assert MARK not in text

    meant = {name: MEANT_FOR.get(name, set()) for name in told}
    assert {name: sorted(told[name] - allowed) for name, allowed in meant.items() if allowed is not None} == {
        name: [] for name, allowed in meant.items() if allowed is not None
    }
    assert told["shared-files"] == WITH_A_FILE
    assert "Work.programme_note" in told["public-work"]
    assert "Work.title" in told["public-composer"] & told["public-performance"] & told["public-news"]
    assert "Work.title" in told["public-feed"] & told["rider-answer"] & told["rider-file"]


@pytest.mark.slow
def test_no_member_of_another_catalogue_is_told_a_word(
    composer: Composer, words: Words, signed_in: Callable[[User], Client], stranger: User, owner: User
) -> None:
    browser = signed_in(stranger)
    shut = [
        name for name, row in TABLE.items() if row["who"] not in {"everybody", "signed-in"} and name != "backup-file"
    ]
    pages = [address for name in shut for address in addresses_of(name, composer, 1)]

    told = {address: words.told_in(text_of(browser.get(address))) for address in pages}

    assert len(pages) > 80
    assert {address: found for address, found in told.items() if found} == {}


def test_a_member_is_told_nearly_every_word(
    composer: Composer, words: Words, signed_in: Callable[[User], Client], owner: User
) -> None:
    """The words that the other tests look for are there to be found."""
    browser, told = signed_in(owner), set[str]()
    for name in ("work-detail", "work-edit", "performance-detail", "profile", "profile-edit", "record-detail"):
        for address in addresses_of(name, composer, 1):
            told |= words.told_in(text_of(browser.get(address)))

    assert len(told) > 0.8 * len(words.columns)
