from __future__ import annotations

from datetime import timedelta

import pytest
from django.core.files.storage import default_storage
from django.test import Client

from catalogue.exchange.sent_files import keep_sent
from catalogue.gathering.files import kept_values
from catalogue.models import Composer, FileLink, Hire, LinkedFile, MaterialRequirements, StoredFile, Work
from catalogue.rules.technical.files import PageSize, PdfFacts
from tests.makers import make_work
from tests.record_makers import make_record
from tests.stored import everything_stored
from tests.web.pages import Page

pytestmark = pytest.mark.django_db

LINKS = "/c/ilka-marovand/links/"
CONTENT = b"%PDF-1.7 a score"


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Slack Rope", composer=composer)


@pytest.fixture
def score(work: Work) -> StoredFile:
    digest = keep_sent(CONTENT, "pdf", default_storage)
    found: StoredFile = make_record(StoredFile, work=work, sha256=digest, byte_count=len(CONTENT))
    StoredFile.objects.filter(pk=found.pk).update(work=work)
    return found


@pytest.fixture
def address(browser: Client, work: Work, score: StoredFile) -> str:
    """The address of a link to the score, as it is shown once."""
    typed = {"recipient": "Petra Wynmoor", "purpose": "perusal", "chosen": [score.pk], "days": 14, "message": "Enjoy."}
    page = Page(browser.post(f"{LINKS}new/?work={work.pk}", typed))
    return "/shared/" + page.values("//input[@id='address']/@value")[0].partition("/shared/")[2]


def test_files_are_read_and_taken_without_an_account(address: str, browser: Client, score: StoredFile) -> None:
    stranger = Client()

    page = Page(stranger.get(address))
    taken = stranger.get(f"{address}1/")

    assert (page.text("//h1"), page.texts("//main//li/span")) == ("Slack Rope", ["Ash Ferry.pdf Score, 16 bytes"])
    assert b"".join(taken) == CONTENT
    assert taken.headers["X-Robots-Tag"] == "noindex, nofollow, noarchive"
    assert "Petra Wynmoor, Slack Rope" in Page(browser.get(LINKS)).text("//main//li")
    assert "(taken once). Opened once" in Page(browser.get(LINKS)).text("//main//li")
    assert stranger.get(f"{address}2/").status_code == 404


def test_shut_or_old_addresses_and_deleted_files_open_nothing(address: str, browser: Client, score: StoredFile) -> None:
    link = FileLink.objects.get()
    StoredFile.objects.filter(pk=score.pk).update(deleted_at=link.sent_at)
    assert Client().get(f"{address}1/").status_code == 404
    StoredFile.objects.filter(pk=score.pk).update(deleted_at=None)

    FileLink.objects.update(expires_at=link.sent_at - timedelta(days=1))
    assert Client().get(address).status_code == 404
    assert "Ran out on 8 March 2026." in Page(browser.get(LINKS)).text("//main//li")
    FileLink.objects.update(expires_at=link.expires_at)

    browser.post(f"{LINKS}{link.pk}/shut/")
    assert Client().get(address).status_code == 404
    assert "Shut on 9 March 2026." in Page(browser.get(LINKS)).text("//main//li")


def test_only_what_is_really_read_and_taken_is_counted(address: str) -> None:
    assert Client().head(address).status_code == 200
    assert Client().head(f"{address}1/").status_code == 200
    assert Client().get(f"{address}1/", headers={"range": "bytes=0-3"}).status_code == 206
    assert (FileLink.objects.get().times_read, LinkedFile.objects.get().times_taken) == (0, 0)

    Client().get(address)
    b"".join(Client().get(f"{address}1/"))

    assert (FileLink.objects.get().times_read, LinkedFile.objects.get().times_taken) == (1, 1)


def test_token_is_kept_nowhere(address: str) -> None:
    Client().get(address)

    assert FileLink.objects.get().token_sha256 in everything_stored()
    assert address.split("/")[2] not in everything_stored()


def test_parts_of_a_hire_go_to_whoever_has_it(browser: Client, work: Work, score: StoredFile) -> None:
    hire = make_record(Hire, work=work)

    page = Page(browser.get(f"{LINKS}new/?hire={hire.pk}"))

    assert (page.field("recipient"), page.field("purpose")) == ("Two Bells Orchestra", "delivery of parts")


def test_file_from_whose_page_a_link_is_sent_is_chosen(browser: Client, work: Work, score: StoredFile) -> None:
    other = make_record(StoredFile, work=work)
    StoredFile.objects.filter(pk=other.pk).update(work=work)

    page = Page(browser.get(f"{LINKS}new/?file={score.pk}&work={work.pk}"))

    assert page.values("//input[@name='chosen'][@checked]/@value") == [str(score.pk)]
    assert set(page.values("//input[@name='chosen']/@value")) == {str(score.pk), str(other.pk)}


def test_link_without_a_file_is_refused(browser: Client, work: Work, score: StoredFile) -> None:
    page = Page(browser.post(f"{LINKS}new/?work={work.pk}", {"recipient": "Petra", "purpose": "perusal", "days": 14}))

    assert page.wrong == ["Choose at least one file."]
    assert FileLink.objects.count() == 0


def test_score_is_held_against_what_presenters_ask(browser: Client, work: Work, score: StoredFile) -> None:
    make_record(MaterialRequirements, work=work)
    make_record(MaterialRequirements, work=work, name="Any library", papers="", file_names="")
    make_record(
        MaterialRequirements, work=work, name="Binder", material="score", papers="", file_names="", binding="wire"
    )
    make_record(MaterialRequirements, work=work, name="Copyist", material="parts", papers="B4", file_names="")
    found = kept_values(PdfFacts(3, (PageSize(297, 420, 2), PageSize(210, 297, 1))))
    StoredFile.objects.filter(pk=score.pk).update(found=found)

    page = Page(browser.get(f"/c/ilka-marovand/records/files/{score.pk}/"))

    assert page.texts("//section[@id='requirements']//li") == [
        "Quay Library 1 page is 210 × 297 mm; A3 or B4 is asked for. "
        "The name of the file does not follow [0-9][0-9] - *.pdf. not yet",
        "Any library meets it",
        "Binder, scores How it is bound is not said with an edition; wire is asked for. cannot tell",
    ]


def test_paper_that_cannot_be_read_is_said_at_its_field(browser: Client, work: Work) -> None:
    page = Page(browser.post("/c/ilka-marovand/records/requirements/new/", {"name": "Quay", "papers": "A3, foolscap"}))

    assert page.wrong == ["“foolscap” is no size of paper; write such as A3, 10 × 13 in or 254 × 330 mm."]
