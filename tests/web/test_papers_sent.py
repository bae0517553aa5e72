"""/c/<composer>/documents/<kind>/send/ and what becomes of the papers that were sent."""

from __future__ import annotations

from collections.abc import Callable
from hashlib import sha256
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.storage import default_storage
from django.test import Client
from django.urls import reverse

from catalogue.exchange.handover.leaving import files_of
from catalogue.exchange.pictures import stored_name
from catalogue.gathering.checks import parted_files
from catalogue.gathering.journeys import shown_by_records
from catalogue.models import Composer, Hire, Organisation, Sending, Work
from catalogue.terms import StepKind
from catalogue.web import sent_papers
from catalogue.web.sent_papers import Held, Since, hold_all
from tests.makers import make_organisation, make_performance, make_person, make_venue, make_work
from tests.web.pages import Page

ROOT = "/c/ilka-marovand/"
SENT = f"{ROOT}records/papers-sent/"


@pytest.fixture
def reader(signed_in: Callable[[User], Client], viewer: User) -> Client:
    return signed_in(viewer)


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Tides", composer=composer, category="orchestra", instrumentation="fl, vc", completed="2024")


def sending_form(browser: Client, kind: str, **asked: Any) -> tuple[str, dict[str, str]]:
    address = f"{ROOT}documents/{kind}/send/?" + "&".join(f"{name}={value}" for name, value in asked.items())
    page = Page(browser.get(address))
    (uid,) = page.values("//input[@name='uid']/@value")
    return address, {"uid": uid, "sent_on": page.field("sent_on"), "format": page.field("format")}


def send(browser: Client, kind: str, *, typed: dict[str, str], **asked: Any) -> Sending:
    address, form = sending_form(browser, kind, **asked)
    answer = browser.post(address, {**form, **typed})
    assert answer.status_code == 302, Page(answer).wrong
    return Sending.objects.latest("pk")


def said_now(browser: Client, sending: Sending) -> str:
    return Page(browser.get(f"{SENT}{sending.pk}/")).text("//section[@id='since']")


def listed(browser: Client) -> list[str]:
    return Page(browser.get(SENT)).texts("//table//td[@data-label='The record now']")


# ---- sending


def test_paper_is_recorded_from_its_page_and_kept_byte_for_byte(browser: Client, work: Work) -> None:
    make_organisation("Kestrel Festival", composer=work.composer)
    options = {"order": "year", "language": "de", "paper": "letter"}
    made = browser.get(f"{ROOT}documents/works-list/file/", {**options, "format": "pdf"})

    sending = send(browser, "works-list", typed={"name": "kestrel festival", "notes": "For the jury"}, **options)
    taken = browser.get(f"{SENT}{sending.pk}/file/")
    page = Page(browser.get(f"{SENT}{sending.pk}/"))

    assert taken.content == made.content
    assert sha256(taken.content).hexdigest() == sending.sha256
    assert taken.headers["Content-Disposition"].startswith("attachment")
    assert str(sending) == "Works list: kestrel festival"
    assert sending.organisation == Organisation.objects.get(name="Kestrel Festival")
    assert {"By year, in short", "Deutsch", "US Letter"} <= set(page.texts("//section[@id='paper']//dd"))


def test_button_stands_beside_the_others_for_those_who_may_change_the_catalogue(browser: Client, work: Work) -> None:
    page = Page(browser.get(f"{ROOT}documents/press-sheet/"))

    assert page.values("//button[.='Record as sent']/@formaction") == [f"{ROOT}documents/press-sheet/send/"]


def test_viewer_sees_what_was_sent_and_records_nothing(browser: Client, reader: Client, work: Work) -> None:
    sending = send(browser, "works-list", typed={"name": "A hall"})

    assert Page(reader.get(f"{ROOT}documents/works-list/")).texts("//button[.='Record as sent']") == []
    assert reader.get(f"{ROOT}documents/works-list/send/").status_code == 403
    assert reader.get(f"{SENT}{sending.pk}/file/").status_code == 200
    assert reader.post(f"{SENT}{sending.pk}/delete/").status_code == 403


def test_word_processor_file_is_kept_where_it_is_chosen(browser: Client, work: Work) -> None:
    sending = send(browser, "cv-section", typed={"name": "A hall", "format": "docx"})

    assert sending.file_name == "ilka-marovand-cv-section.docx"
    assert browser.get(f"{SENT}{sending.pk}/file/").content.startswith(b"PK")


def test_body_that_is_new_is_made_on_the_spot(browser: Client, work: Work) -> None:
    sending = send(browser, "works-list", typed={"organisation": "New Quay Trust"})

    assert (sending.recipient, Organisation.objects.get().name) == ("New Quay Trust", "New Quay Trust")


def test_somebody_has_to_be_named_and_nothing_typed_is_lost(browser: Client, work: Work) -> None:
    address, form = sending_form(browser, "works-list")

    page = Page(browser.post(address, {**form, "notes": "For the jury", "sent_on": "next week"}))

    assert page.field("notes") == "For the jury"
    assert len(page.wrong) >= 2
    assert not Sending.objects.exists()


def test_form_that_is_sent_twice_makes_one(browser: Client, work: Work) -> None:
    address, form = sending_form(browser, "works-list")

    answers = [browser.post(address, {**form, "name": "A hall"}) for _each in range(2)]

    assert answers[0].headers["Location"] == answers[1].headers["Location"]
    assert Sending.objects.count() == 1


def test_paper_that_cannot_be_made_is_told_on_its_own_page(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer, instrumentation="")

    page = Page(browser.get(f"{ROOT}documents/parts-checklist/send/?work={work.pk}"))

    assert page.text("//h1") == "Documents"
    assert page.texts("//*[@id='preview']//p") != []


def test_new_one_begins_with_the_documents(browser: Client, composer: Composer) -> None:
    page = Page(browser.get(SENT))

    assert page.values("//a[.='Send a paper']/@href") == [f"{ROOT}documents/"]
    assert browser.post(f"{SENT}new/", {"name": "A hall"}).headers["Location"] == f"{ROOT}documents/"
    assert not Sending.objects.exists()


# ---- whether the record has changed since


def test_list_and_page_say_whether_the_record_has_changed_since(browser: Client, work: Work) -> None:
    sending = send(browser, "works-list", typed={"name": "A hall"})
    before = said_now(browser, sending), listed(browser)

    browser.post(f"{ROOT}works/{work.pk}/edit/", edited(browser, work, title="Spring Tides"))
    after = said_now(browser, sending), listed(browser)

    assert "it would say the same" in before[0]
    assert before[1] == ["says the same"]
    assert after[1] == ["says something else"]
    assert {"Tides", "Spring Tides"} <= set(Page(browser.get(f"{SENT}{sending.pk}/")).texts("//*[@id='since']//li"))
    assert browser.get(f"{SENT}{sending.pk}/file/").status_code == 200


def test_page_of_a_work_holds_its_papers_against_the_record_each_time(
    browser: Client, work: Work, monkeypatch: pytest.MonkeyPatch
) -> None:
    send(browser, "parts-checklist", work=work.pk, typed={"name": "A hall"})
    asked: list[int] = []
    monkeypatch.setattr(sent_papers, "held_of", lambda *told: asked.append(1) or Held(Since.SAME))

    for _time in range(2):
        assert browser.get(f"{ROOT}works/{work.pk}/").status_code == 200

    assert len(asked) == 2


def edited(browser: Client, work: Work, **columns: str) -> dict[str, Any]:
    page = Page(browser.get(f"{ROOT}works/{work.pk}/edit/"))
    names = set(page.values("//form[@method='post']//*[@name]/@name"))
    values = {name: page.field(name) for name in names if name not in {"csrfmiddlewaretoken", "mend", "build"}}
    return {**{name: value for name, value in values.items() if value is not None}, **columns}


def test_later_day_alone_changes_nothing(browser: Client, work: Work, monkeypatch: pytest.MonkeyPatch) -> None:
    performance = make_performance(work, date="2026-03-28", city="Lyon", country="FR", status="confirmed")
    sending = send(browser, "performance-history", typed={"name": "A hall"}, last="2030")
    Sending.objects.filter(pk=sending.pk).update(sent_on="2020-01-01")

    assert performance.pk
    assert "it would say the same" in said_now(browser, sending)


def test_work_that_is_deleted_lets_its_papers_stand(browser: Client, work: Work) -> None:
    sending = send(browser, "programme-entry", typed={"name": "A hall"}, work=work.pk)
    assert sending.title == "Programme entry, Tides"

    browser.post(f"{ROOT}works/{work.pk}/delete/")
    page = Page(browser.get(f"{SENT}{sending.pk}/"))

    assert "cannot be made again" in page.text("//section[@id='since']")
    assert browser.get(f"{SENT}{sending.pk}/file/").status_code == 200


def test_file_that_was_tampered_with_is_not_handed_out(browser: Client, work: Work) -> None:
    sending = send(browser, "works-list", typed={"name": "A hall"})
    default_storage.delete(stored_name(sending.sha256, "pdf"))

    page = Page(browser.get(f"{SENT}{sending.pk}/"))

    assert browser.get(f"{SENT}{sending.pk}/file/").status_code == 404
    assert any("The file is gone" in one for one in page.texts("//p[contains(@class, 'wrong')]"))


def test_both_files_go_along_and_neither_is_called_an_orphan(browser: Client, work: Work) -> None:
    sending = send(browser, "works-list", typed={"name": "A hall"})

    names = set(files_of(sending))

    assert names == {stored_name(sending.sha256, "pdf"), stored_name(sending.facts_sha256, "txt")}
    assert {name for name in names if default_storage.exists(name)} == names
    assert {one.title for one in parted_files()} & names == set()


def test_days_are_kept_so_that_every_reader_reads_the_same(browser: Client, work: Work) -> None:
    sending = send(browser, "cv-section", typed={"name": "A hall"}, first="3.4.2020", last="5.6.2026")

    assert (sending.asked["first"], sending.asked["last"]) == ("2020-04-03", "2026-06-05")


def test_many_of_the_same_cost_no_more_than_one(
    browser: Client, work: Work, django_assert_max_num_queries: Any
) -> None:
    send(browser, "works-list", typed={"name": "A hall"})
    with django_assert_max_num_queries(20) as first:
        browser.get(SENT)
    asked = len(first)
    send(browser, "works-list", typed={"name": "Another"})
    send(browser, "works-list", typed={"name": "A third"})

    with django_assert_max_num_queries(asked):
        assert listed(browser) == ["says the same"] * 3


def test_list_that_would_take_long_leaves_papers_for_when_they_are_opened(browser: Client, work: Work) -> None:
    kinds = ("works-list", "cv-section", "press-sheet")
    sent = [send(browser, kind, typed={"name": "A hall"}) for kind in kinds]

    assert [one.since for one in hold_all(sent, seconds=-1)] == [Since.SAME, Since.WAITING, Since.WAITING]
    assert [one.since for one in hold_all(sent)] == [Since.SAME] * 3


# ---- where it is seen


def test_it_stands_on_the_pages_of_whoever_got_it_and_of_what_it_is_of(browser: Client, work: Work) -> None:
    person = make_person("Petra Wynmoor", composer=work.composer)
    venue = make_venue("Dock Hall", composer=work.composer)
    concert = make_performance(work, venue=venue, date="2026-03-28", status="confirmed")

    sending = send(browser, "programme-entry", typed={"name": "Petra Wynmoor"}, work=work.pk, performance=concert.pk)
    address = f"{SENT}{sending.pk}/"
    pages = [f"{ROOT}records/people/{person.pk}/", f"{ROOT}performances/{concert.pk}/", f"{ROOT}works/{work.pk}/"]

    assert [address in Page(browser.get(one)).values("//main//a/@href") for one in pages] == [True, True, True]
    assert sending.performance == concert
    assert Page(browser.get(f"{address}edit/")).values("//select[@name='performance']") == []


def test_rider_that_is_sent_as_a_paper_does_its_step(browser: Client, work: Work) -> None:
    concert = make_performance(work, date="2026-03-28", city="Lyon", status="confirmed")
    Sending.objects.create(
        composer=work.composer, name="A hall", document="rider", title="Technical rider", sha256="2" * 64,
        performance=concert, suffix="pdf", file_name="rider.pdf", byte_count=9, sent_on="2026-01-05",
        made_on="2026-01-05",
    )  # fmt: skip

    assert shown_by_records([concert.pk])[StepKind.RIDER] == {concert.pk}


def test_it_is_changed_deleted_and_brought_back(browser: Client, work: Work) -> None:
    sending = send(browser, "works-list", typed={"name": "A hall"})
    kept = sending.sha256

    browser.post(f"{SENT}{sending.pk}/edit/", {"name": "Another hall", "sent_on": "5 May 2026", "saves": sending.saves})
    gone = Page(browser.post(f"{SENT}{sending.pk}/delete/", follow=True))
    (back,) = [one for one in gone.values("//form/@action") if "/restore/" in one]
    browser.post(back)
    sending.refresh_from_db()

    assert (sending.name, str(sending.sent_on), sending.sha256) == ("Another hall", "2026-05-05", kept)
    assert sending.deleted_at is None
    assert sending.history.count() == 4


def test_librarian_sends_and_sees_the_papers_of_the_material_alone(
    browser: Client, signed_in: Callable[[User], Client], librarian: User, work: Work
) -> None:
    other = send(browser, "works-list", typed={"name": "A hall"})
    hire = Hire.objects.create(composer=work.composer, work=work, name="Two Bells Orchestra")
    keeper = signed_in(librarian)

    ours = send(keeper, "parts-checklist", typed={"name": "Two Bells Orchestra"}, work=work.pk)
    page = Page(keeper.get(SENT))

    assert hire.pk
    assert page.values("//table//th[@scope='row']//a/@href") == [f"{SENT}{ours.pk}/"]
    assert keeper.get(f"{SENT}{other.pk}/").status_code == 404
    assert keeper.get(f"{SENT}{other.pk}/file/").status_code == 404
    assert keeper.get(f"{ROOT}documents/works-list/send/").status_code == 403


def test_paper_of_another_catalogue_is_not_there(browser: Client, other_composer: Composer) -> None:
    theirs = Sending.objects.create(
        composer=other_composer, name="A hall", document="works-list", title="Works list", sha256="2" * 64,
        suffix="pdf", file_name="list.pdf", byte_count=9, sent_on="2026-01-05", made_on="2026-01-05",
    )  # fmt: skip

    assert browser.get(reverse("sent-paper", args=["ilka-marovand", theirs.pk])).status_code == 404
