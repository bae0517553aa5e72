"""What a member with the role of a librarian sees: the material, and of the rest not a word."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from catalogue.actions.calendars import make_address
from catalogue.actions.file_links import open_link
from catalogue.gathering.once import forget_all
from catalogue.models import Composer, Edition, Hire, HiredPerformance, MaterialSet, Membership, StoredFile
from catalogue.terms import Role
from catalogue.terms.hires import LinkPurpose
from tests.conftest import CLOCK
from tests.makers import make_performance, make_work
from tests.unit.exchange.hostile_uploads import pdf_with
from tests.web.every_page import addresses_of
from tests.web.pages import Page, closed_quietly
from tests.web.test_every_address_by_role import LET_IN, TABLE
from tests.web.test_private_texts_stay_private import Words, text_of
from tests.whole_catalogue import fill_texts, make_whole_catalogue

pytestmark = pytest.mark.signed_in_as("librarian")

HOME = "/c/ilka-marovand/"
LIBRARY_PAPERS = {
    "parts-checklist", "hire-checklist", "delivery-note", "arrival-check", "return-check", "missing-parts-letter",
    "hire-statement",
}  # fmt: skip
TOLD = {
    "Composer.address", "Composer.email", "Composer.name", "Composer.sort_name", "Composer.telephone",
    "Composer.website", "Edition.binding", "Edition.copyright_line", "Edition.errata", "Edition.ismn",
    "Edition.notes", "Edition.number", "Edition.paper", "Edition.printing", "Edition.publisher_name",
    "Edition.version", "HireTerms.address", "HireTerms.copying", "HireTerms.email", "HireTerms.lender",
    "HireTerms.marking", "HireTerms.name", "HireTerms.notes", "HireTerms.returning", "HireTerms.telephone",
    "MaterialRequirements.binding", "MaterialRequirements.file_names", "MaterialRequirements.name",
    "MaterialRequirements.notes", "MaterialRequirements.papers", "MaterialSet.condition", "MaterialSet.kept_at",
    "MaterialSet.notes", "MaterialSet.number", "Movement.title", "Organisation.name",
    "PercussionInstrument.instrument", "Performance.city", "Performance.event_title", "Person.name",
    "StoredFile.label", "StoredFile.name", "StoredFile.notes", "StoredFile.original_name", "StoredFile.version",
    "Venue.city", "Venue.name", "Venue.region", "Work.catalogue_number", "Work.duration_typed",
    "Work.instrumentation_typed", "Work.original_title", "Work.publisher", "Work.subtitle", "Work.title",
    "Work.translated_title", "Work.transliteration", "Work.version_label",
}  # fmt: skip
"""What stands on pages of the material; a hire's own texts besides."""


def pages_of(composer: Composer) -> list[str]:
    open_to = [name for name, row in TABLE.items() if row["who"].startswith("material") and row["get"] == 200]
    return [address for name in open_to for address in addresses_of(name, composer)]


@pytest.mark.slow
def test_no_text_but_those_of_the_material_is_told(
    composer: Composer, browser: Client, owner: User, signed_in: Callable[[User], Client]
) -> None:
    words = Words()
    make_whole_catalogue(composer)
    fill_texts(words.word_for)

    told = {address: words.told_in(text_of(browser.get(address))) for address in pages_of(composer)}

    found = {word for words_there in told.values() for word in words_there}
    strange = {word for word in found if not word.startswith("Hire") and word not in TOLD}
    assert {address: sorted(there & strange) for address, there in told.items() if there & strange} == {}
    assert {"Hire.attention", "Edition.errata", "MaterialSet.kept_at", "Work.title", "Venue.name"} <= found
    seen_by_owner = words.told_in(text_of(signed_in(owner).get(f"{HOME}works/{composer.works.get().pk}/")))
    assert {"Work.notes", "Commission.name"} & seen_by_owner != set()


def test_every_link_on_the_pages_of_a_librarian_leads_on(composer: Composer, browser: Client) -> None:
    make_library(composer)
    seen: dict[str, int] = {}
    waiting = [HOME]
    while waiting:
        address = waiting.pop()
        response = browser.get(address)
        closed_quietly(response)
        seen[address] = response.status_code
        if response.status_code == 200 and "text/html" in response.headers["Content-Type"]:
            links = Page(browser.get(address)).values("//body//a/@href")
            inside = {one.partition("#")[0].partition("?")[0] for one in links if one.startswith("/c/")}
            inside -= {one for one in inside if one.endswith("/file/")}  # nothing is stored here
            waiting += [one for one in sorted(inside) if one not in seen and one not in waiting]

    assert {address: status for address, status in seen.items() if status not in {200, 302}} == {}
    assert len(seen) > 20


def make_library(composer: Composer) -> Hire:
    work = make_work("Tides", composer=composer, instrumentation="fl, vc", notes="Pay first.")
    concert = make_performance(work, date="2026-03-28", city="Lyon", country="FR", status="confirmed")
    edition = Edition.objects.create(work=work, kind="parts")
    lent = MaterialSet.objects.create(work=work, number="2", edition=edition)
    hire = Hire.objects.create(composer=composer, work=work, name="Two Bells Orchestra", material_set=lent)
    HiredPerformance.objects.create(hire=hire, performance=concert)
    columns = {"original_name": "Tides.pdf", "suffix": "pdf", "byte_count": 8, "edition": edition, "work": work}
    StoredFile.objects.create(composer=composer, sha256="0" * 64, kind="score", **columns)
    columns |= {"original_name": "Tides.wav", "suffix": "wav"}
    StoredFile.objects.create(composer=composer, sha256="1" * 64, kind="recording", **columns)
    return hire


def test_rooms_are_those_that_may_be_opened(browser: Client) -> None:
    page = Page(browser.get(HOME))

    assert page.texts("//nav[@aria-label='Rooms']//a") == [
        "Today", "Works", "Performances", "Scores and parts", "Documents",
    ]  # fmt: skip


def test_performance_says_when_where_what_is_played_and_what_is_on_hire(composer: Composer, browser: Client) -> None:
    hire = make_library(composer)
    performance = hire.hired_for.get().performance

    home = Page(browser.get(HOME))
    page = Page(browser.get(f"{HOME}performances/{performance.pk}/"))

    assert home.texts("//section[@id='waiting']//h3") == ["Two Bells Orchestra"]
    assert "one hire for it" in home.text("//section[@id='coming']")
    assert page.text("//h1") == "Tides in Lyon"
    assert {"fl, vc", "Two Bells Orchestra"} <= set(page.texts("//section//p | //section//li//a"))


def test_papers_are_those_of_the_material(composer: Composer, browser: Client) -> None:
    hire = make_library(composer)

    answers = {word: browser.get(reverse("document", args=[composer.slug, word])).status_code for word in all_papers()}
    note = browser.get(reverse("document-file", args=[composer.slug, "parts-checklist"]), {"work": hire.work_id})

    assert {word for word, status in answers.items() if status == 200} == LIBRARY_PAPERS
    assert set(answers.values()) == {200, 403}
    assert note.content.startswith(b"%PDF")


def all_papers() -> tuple[str, ...]:
    return (*sorted(LIBRARY_PAPERS), "works-list", "cv-section", "press-sheet", "programme-entry", "front-matter")


def test_hire_is_added_changed_deleted_and_brought_back(composer: Composer, browser: Client) -> None:
    work = make_library(composer).work
    form = {"work": work.pk, "purpose": "hire", "name": "Small Bells Band", "uid": ""}

    saved = browser.post(f"{HOME}records/hires/new/", form)
    hire = Hire.objects.get(name="Small Bells Band")
    gone = browser.post(f"{HOME}records/hires/{hire.pk}/delete/")
    undo = Page(browser.get(gone.headers["Location"])).values("//form[contains(@action, 'restore')]/@action")
    browser.post(undo[0])

    assert saved.headers["Location"] == f"{HOME}records/hires/{hire.pk}/"
    assert Hire.objects.filter(name="Small Bells Band").exists()


def test_other_records_are_refused(composer: Composer, browser: Client) -> None:
    make_library(composer)
    sorts = ("commissions", "programme-notes", "biographies", "people", "organisations", "contacts", "recordings")

    assert {sort: browser.get(f"{HOME}records/{sort}/").status_code for sort in sorts} == dict.fromkeys(sorts, 403)
    assert browser.post(f"{HOME}deleted/work/1/restore/").status_code == 403
    files = {one.original_name: one.pk for one in StoredFile.objects.all()}
    assert browser.get(f"{HOME}records/files/{files['Tides.pdf']}/").status_code == 200
    assert browser.get(f"{HOME}records/files/{files['Tides.wav']}/").status_code == 404


def test_calendar_that_was_given_to_somebody_opens_no_more_once_they_are_librarian(
    composer: Composer, viewer: User
) -> None:
    token = make_address(composer=composer, keeper=viewer, label="Telephone", now=CLOCK.moment)
    address = reverse("feed", args=[token, composer.slug])
    before = Client().get(address).status_code
    Membership.objects.filter(user=viewer).update(role=Role.LIBRARIAN)

    assert (before, Client().get(address).status_code) == (200, 404)


def test_house_pages_tell_a_librarian_of_hires_alone(composer: Composer, browser: Client) -> None:
    make_library(composer)
    pages = {name: Page(browser.get(reverse(name))) for name in ("house-today", "house-works", "house-performances")}

    assert {name: "Tides" in page.text() for name, page in pages.items()} == dict.fromkeys(pages, False)
    assert "Two Bells Orchestra" in Page(browser.get("/house/hires/")).text()
    assert LET_IN["material"] == {"viewer", "editor", "owner", "librarian"}


def test_librarian_keeps_and_sends_scores_and_parts_alone(composer: Composer, browser: Client) -> None:
    hire = make_library(composer)
    score, sound = (StoredFile.objects.get(original_name=name) for name in ("Tides.pdf", "Tides.wav"))
    new = f"{HOME}records/files/new/"
    typed = {"recipient": "Petra Wynmoor", "purpose": "perusal", "days": "14"}

    form = Page(browser.get(f"{new}?work={hire.work_id}"))
    refused = browser.post(new, {"kind": "recording", "file": part_file(), "uid": ""})
    kept = browser.post(new, {"kind": "parts", "file": part_file(), "work": hire.work_id, "uid": ""})
    sent = browser.post(f"{HOME}links/new/?hire={hire.pk}", {**typed, "chosen": [score.pk]})
    not_sent = browser.post(f"{HOME}links/new/?hire={hire.pk}", {**typed, "chosen": [sound.pk]})

    assert form.values("//select[@name='kind']/option/@value") == ["score", "parts"]
    assert form.values("//*[@name='recording' or @name='setup']/@name") == []
    assert (refused.status_code, kept.status_code) == (200, 302)
    assert "/shared/" in Page(sent).values("//input[@id='address']/@value")[0]
    assert "Petra" not in Page(not_sent).text("//h1")
    assert StoredFile.objects.filter(kind="parts", work=hire.work_id, original_name="flute.pdf").exists()


def part_file() -> SimpleUploadedFile:
    return SimpleUploadedFile("flute.pdf", pdf_with(lambda _pdf: None))


def test_librarian_sees_and_shuts_the_links_that_open_material_alone(composer: Composer, browser: Client) -> None:
    make_library(composer)
    score, sound = (StoredFile.objects.get(original_name=name) for name in ("Tides.pdf", "Tides.wav"))
    given = {"composer": composer, "purpose": LinkPurpose.PERUSAL, "days": 14, "now": timezone.now()}
    to_see, _token = open_link(recipient="Petra Wynmoor", files=[score], **given)
    to_hear, _token = open_link(recipient="Ewan Brackel", files=[score, sound], **given)

    listed = Page(browser.get(f"{HOME}links/")).text("//main")
    shut = {one.recipient: browser.post(f"{HOME}links/{one.pk}/shut/").status_code for one in (to_see, to_hear)}

    assert ("Petra Wynmoor" in listed, "Ewan Brackel" in listed) == (True, False)
    assert shut == {"Petra Wynmoor": 302, "Ewan Brackel": 404}


def test_deleted_recording_is_not_for_a_librarian_to_bring_back(composer: Composer, browser: Client) -> None:
    make_library(composer)
    StoredFile.objects.update(deleted_at=CLOCK.moment)
    files = {one.original_name: one.pk for one in StoredFile.with_deleted.all()}

    answers = {
        name: browser.post(f"{HOME}deleted/storedfile/{key}/restore/").status_code for name, key in files.items()
    }

    assert answers == {"Tides.pdf": 302, "Tides.wav": 404}


def queries(browser: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as asked:
        browser.get(address)
    return len(asked)


def test_number_of_queries_does_not_grow(composer: Composer, browser: Client) -> None:
    make_library(composer)
    addresses = (HOME, f"{HOME}works/", f"{HOME}performances/", f"{HOME}records/")
    with_one = [queries(browser, address) for address in addresses]
    make_library(composer)
    forget_all()

    assert [queries(browser, address) for address in addresses] == with_one
