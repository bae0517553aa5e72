"""/c/<composer>/ and /c/<composer>/missing/<lack>/"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Commission, Composer, LeadTimes, Performance, Return, SocietyDeadline, Step, Venue
from catalogue.models.journeys import COLUMN_OF
from catalogue.rules.journey import Lead
from catalogue.timing import read_date
from catalogue.web.first_room import TOKEN
from catalogue.web.tables.lists import PER_PAGE
from catalogue.web.today_page import MOST_READ
from tests.makers import make_performance, make_venue, make_work
from tests.record_makers import make_record
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/"
DAYS = (("2026-03-28", date(2026, 3, 28)), ("2026-10-28", date(2026, 10, 28)))


@pytest.fixture(autouse=True)
def lead_times(composer: Composer) -> LeadTimes:
    """Lead times by which no step is needed, so that only what the records lack is due."""
    return LeadTimes.objects.create(composer=composer, **dict.fromkeys(COLUMN_OF.values(), Lead(None)))


def whole(title: str, composer: Composer, **columns: Any) -> Any:
    return make_work(title, composer=composer, **{"duration": "12′", "instrumentation": "fl, vc", **columns})


def coming(composer: Composer, *works: Any, **columns: Any) -> Any:
    """A performance of which all is known."""
    options = {"date": "2026-03-28", "status": "confirmed", "performers": ("Kestrel Ensemble",), **columns}
    return make_performance(*works, composer=composer, **options)


def plain(texts: list[str]) -> list[str]:
    return [text.replace("\xa0", " ") for text in texts]


def test_head_counts_what_comes_and_what_is_due(browser: Client, composer: Composer) -> None:
    hall, work = make_venue(composer=composer), whole("Tides", composer)
    coming(composer, work, venue=hall)
    coming(composer, work, venue=hall, date="2026-05-16", status="planned", at=None)
    coming(composer, work, venue=hall, date="2026-06-08")

    page = Page(browser.get(ADDRESS))

    assert plain(page.texts(f"{with_class('head')}//p")) == ["9 March to 7 June 2026: 2 performances, 2 things due."]
    assert page.texts("//section[@id='coming']//p[@class='sans']") == ["One more comes later."]


def test_entry_says_when_who_where_and_what_it_will_be_the_first_of(browser: Client, composer: Composer) -> None:
    coming(composer, whole("Tides", composer, title_language="en"), venue=make_venue(composer=composer))

    page = Page(browser.get(ADDRESS))

    assert plain(page.texts(f"{with_class('day')}/*")) == ["28 Mar", "Saturday, 19:30", "in 19 days"]
    assert page.texts(f"{with_class('entry')}//h3") == ["Tides"]
    assert page.texts(f"{with_class('entry-head')}//p") == [
        "Kestrel Ensemble · Old Granary, Zurich · to be the world premiere"
    ]
    assert page.texts(f"{with_class('known')}") == ["Nothing is missing."]
    assert page.texts(f"{with_class('entry')}//*[local-name()='svg']/*[local-name()='title']") == ["2 players"]


def test_entry_tells_what_is_due_with_the_way_to_mend_it(browser: Client, composer: Composer) -> None:
    performance = coming(
        composer, whole("Tides", composer, instrumentation="fl, str"), date="2026-04-25", status="planned", at=None,
        performers=(),
    )  # fmt: skip

    page = Page(browser.get(ADDRESS))

    edit = f"/c/ilka-marovand/performances/{performance.pk}/edit/"
    assert list(
        zip(page.values(f"{with_class('needs')}//a/@href"), page.texts(f"{with_class('needs')}/li"), strict=True)
    ) == [
        (f"{edit}#id_status", "To be confirmed late by 37 days"),
        (f"{edit}#id_venue", "Name the hall and the city late by 23 days"),
        (f"{edit}#id_performers", "Say who performs late by 9 days"),
        (f"{edit}#id_time", "Say when it begins in 5 days"),
        (f"{edit}#id_string_strengths", "State how many strings play in 5 days"),
    ]
    assert page.values(f"{with_class('needs')}//div/span/@class") == ["due late"] * 3 + ["due soon"] * 2


def test_field_that_mends_it_is_there(browser: Client, composer: Composer) -> None:
    performance = coming(composer, status="planned", at=None, performers=())

    addresses = Page(browser.get(ADDRESS)).values(f"{with_class('needs')}//a/@href")

    page = Page(browser.get(f"/c/ilka-marovand/performances/{performance.pk}/edit/"))
    assert [page.values(f"//*[@id='{one.partition('#')[2]}']/@id") for one in addresses] == [
        [one.partition("#")[2]] for one in addresses
    ]


def test_strengths_that_the_work_states_are_not_asked_again(browser: Client, composer: Composer) -> None:
    work = whole("Tides", composer, instrumentation="fl, str", string_strengths=(8, 6, 4, 4, 2))
    coming(composer, work, venue=make_venue(composer=composer))

    assert Page(browser.get(ADDRESS)).texts(with_class("needs")) == []


@pytest.mark.parametrize(
    "columns",
    [
        {"status": "cancelled"}, {"status": "postponed"}, {"status": "duplicate"}, {"date": "2026-03-08"},
        {"date": "2026", "status": "given"}, {"date": ""},
    ],
)  # fmt: skip
def test_what_does_not_come_is_left_out(browser: Client, composer: Composer, columns: dict[str, str]) -> None:
    coming(composer, whole("Tides", composer), **columns)

    assert Page(browser.get(ADDRESS)).texts(with_class("entry")) == []


def test_line_is_drawn_with_a_sentence_for_those_who_cannot_see_it(browser: Client, composer: Composer) -> None:
    hall = make_venue(composer=composer)
    coming(composer, whole("Tides", composer), venue=hall)
    coming(composer, whole("Weirs", composer), venue=hall, date="2026-04", status="planned")

    page = Page(browser.get(ADDRESS))

    pictures = "//figure/*[local-name()='svg'][@role='img']"
    sentence = "2 performances, 2 things due: 28 Mar in Zurich; Apr in Zurich."
    assert plain(page.texts(f"{pictures}/*[local-name()='title']")) == [sentence] * 2
    assert page.values(f"{pictures}/@class") == ["roomy", "tight"]
    assert page.texts(f"{pictures}/*[local-name()='text'][@class='name']") == ["Tides", "Weirs"]


def test_what_comes_after_the_days_is_shown_where_they_are_empty(browser: Client, composer: Composer) -> None:
    for year in range(2027, 2031):
        coming(composer, whole(f"Work {year}", composer), date=f"{year}-01-01")

    page = Page(browser.get(ADDRESS))

    assert page.texts("//section[@id='coming']//h3") == ["Work 2027", "Work 2028", "Work 2029"]
    assert "Nothing in these days. After them:" in page.text("//section[@id='coming']")


def test_steps_that_are_due_stand_beside_what_is_lacking_and_the_far_ones_are_folded(
    browser: Client, composer: Composer, lead_times: LeadTimes
) -> None:
    lead_times.contract, lead_times.travel, lead_times.thanks = Lead(120), Lead(7), Lead(7)
    lead_times.save()
    hall = make_venue(composer=composer)
    performance = coming(composer, whole("Tides", composer), venue=hall, date="2026-05-01", at=None)

    page = Page(browser.get(ADDRESS))

    assert page.texts(f"{with_class('entry')}//li//a") == ["Contract signed", "Say when it begins", "Travel booked"]
    assert page.texts(f"{with_class('entry')}//details//li//a") == ["Travel booked"]
    assert page.values(f"{with_class('entry')}//li//form/@action") == [
        f"{ADDRESS}performances/{performance.pk}/steps/{step}/done/" for step in ("contract", "travel")
    ]


def test_step_is_done_from_here_and_is_told_no_more(browser: Client, composer: Composer, lead_times: LeadTimes) -> None:
    lead_times.contract = Lead(120)
    lead_times.save()
    coming(composer, whole("Tides", composer), venue=make_venue(composer=composer))
    (done,) = Page(browser.get(ADDRESS)).values(f"{with_class('entry')}//form/@action")

    page = Page(browser.post(done, {"then": "today"}, follow=True))

    assert page.texts(f"{with_class('entry')}//li") == []
    assert page.texts(f"{with_class('notice')}/p") == ["Contract signed: done."]


def test_later_and_past_performances_are_told_where_something_is_due_for_them(
    browser: Client, composer: Composer, lead_times: LeadTimes
) -> None:
    lead_times.contract, lead_times.filing = Lead(120), Lead(30)
    lead_times.save()
    work, hall = whole("Tides", composer), make_venue(composer=composer)
    for day in ("2026-04-01", "2026-08-01", "2026-12-01"):
        coming(composer, work, venue=hall, date=day)
    make_performance(work, date="2026-02-20", venue=hall)
    filed = make_performance(work, date="2026-02-21", venue=hall)
    make_record(Step, work=work, performance=filed, kind="return", label="", state="done", due=None)

    page = Page(browser.get(ADDRESS))

    assert page.texts("//section[@id='ahead']//li//a") == ["Tides", "Contract signed"]
    assert plain(page.texts("//section[@id='ahead']//p[@class='day']/b")) == ["1 Aug"]
    assert page.texts("//section[@id='over']//li//a") == ["Tides", "Return filed with the society"]
    assert plain(page.texts("//section[@id='over']//p[@class='day']/b")) == ["20 Feb"]


def test_return_is_due_by_the_deadline_of_its_society_however_far_back(
    browser: Client, composer: Composer, lead_times: LeadTimes
) -> None:
    work, hall = whole("Tides", composer), make_venue(composer=composer)
    make_record(SocietyDeadline, work=work, rule="2 years")
    played, told = (make_performance(work, date=day, venue=hall) for day in ("2024-03-29", "2024-03-30"))
    make_record(Return, work=work, performance=told)

    page = Page(browser.get(ADDRESS))

    assert page.texts("//section[@id='over']//li//a") == ["Tides", "Return filed with Quay Society"]
    of_performance = Page(browser.get(f"{ADDRESS}performances/{played.pk}/"))
    assert plain(of_performance.texts("//section[@id='journey']//li/span[1]")) == [
        "Return filed with Quay Society 29 March 2026 Quay Society takes it until 29 March 2026 "
        "(2 years: handbook, read on 5 January 2026)."
    ]


def test_what_records_lack_is_told_with_one_link_each(browser: Client, composer: Composer) -> None:
    silent = whole("Silent", composer, duration="")
    whole("Quiet", composer, duration="")
    odd = whole("Odd", composer, instrumentation="", instrumentation_typed="any seven blorps")
    performance = make_performance(silent, date="2026-01-01", status="confirmed", city="Lyon", country="FR")

    page = Page(browser.get(ADDRESS))

    assert list(
        zip(page.texts("//section[@id='missing']//li"), page.values("//section[@id='missing']//a/@href"), strict=True)
    ) == [
        (
            "2works have no duration Quiet and one more; a call that states a limit cannot be screenedAdd durations",
            f"{ADDRESS}missing/duration/",
        ),
        (
            "1instrumentation cannot be read Odd; it prints as typed, and no players are countedLook at it",
            f"{ADDRESS}works/{odd.pk}/edit/#id_instrumentation_typed",
        ),
        (
            "1performance was expected and is over Silent in Lyon; nobody has said whether it took place"
            "Say what became of it",
            f"{ADDRESS}performances/{performance.pk}/edit/#id_status",
        ),
    ]


def test_whole_catalogue_lacks_nothing(browser: Client, composer: Composer) -> None:
    whole("Tides", composer)

    assert "Nothing: each work has its players" in Page(browser.get(ADDRESS)).text("//section[@id='missing']")


@pytest.mark.parametrize("lack", ["duration", "instrumentation", "reading"])
def test_every_work_that_lacks_something_is_listed_with_its_field(
    browser: Client, composer: Composer, lack: str
) -> None:
    typed = "any blorps" if lack == "reading" else ""
    works = [make_work(title, composer=composer, instrumentation_typed=typed) for title in ("Quiet", "Silent")]

    page = Page(browser.get(f"{ADDRESS}missing/{lack}/"))

    field = "id_duration_typed" if lack == "duration" else "id_instrumentation_typed"
    assert page.values("//main//li/a/@href") == [f"{ADDRESS}works/{work.pk}/edit/#{field}" for work in works]
    assert page.text("//h1").startswith("2 ")


def test_numbers_with_a_wrong_check_digit_are_listed_with_their_field(browser: Client, composer: Composer) -> None:
    wrong = [whole("Ebb", composer, ismn="M-060-11561-6"), whole("Flood", composer, iswc="T-034.524.680-2")]
    whole("Tides", composer, ismn="M-060-11561-5", iswc="t0345246801")
    Composer.objects.filter(pk=composer.pk).update(isni="1234")

    first, listed, own = (Page(browser.get(ADDRESS + path)) for path in ("", "missing/number/", "missing/own-number/"))

    assert [text.partition(";")[0] for text in first.texts("//section[@id='missing']//li")] == [
        "2works have numbers with a wrong check digit or form Ebb and one more",
        "1profile has a number with a wrong check digit or form Ilka Marovand",
    ]
    assert listed.values("//main//li/a/@href") == [
        f"{ADDRESS}works/{wrong[0].pk}/edit/#id_ismn",
        f"{ADDRESS}works/{wrong[1].pk}/edit/#id_iswc",
    ]
    assert listed.texts("//main//li/span/span") == ["ISMN M-060-11561-6", "ISWC T-034.524.680-2"]
    assert own.values("//main//li/a/@href") == [f"{ADDRESS}profile/edit/#id_isni"]


def test_commission_that_is_overdue_is_asked_about(browser: Client, composer: Composer) -> None:
    work = whole("Tides", composer)
    days = {"early": "2025-12-01", "late": "2026-04-01"}
    late, _coming = (Commission.objects.create(work=work, name=name, due=read_date(day)) for name, day in days.items())
    Commission.objects.create(work=work, name="done", due=read_date("2025"), delivered=read_date("2025"))

    page = Page(browser.get(ADDRESS))

    assert page.texts("//section[@id='missing']//li") == [
        "1commission was to be delivered by now Tides; nobody has said that it wasSay when it was delivered"
    ]
    assert page.values("//section[@id='missing']//a/@href") == [
        f"{ADDRESS}records/commissions/{late.pk}/edit/#id_delivered"
    ]


@pytest.mark.parametrize("lack", ["country", "date", "programme", "outcome", "billing"])
def test_every_performance_that_lacks_something_is_listed(browser: Client, composer: Composer, lack: str) -> None:
    work, hall = whole("Tides", composer), make_venue(composer=composer)
    make_performance(work, date="2001-05-16", venue=hall)
    columns = {
        "country": {"date": "2020"},
        "date": {"date": "", "venue": hall},
        "programme": {"date": "2020", "venue": hall},
        "outcome": {"date": "2020", "venue": hall, "status": "planned"},
        "billing": {"date": "2020", "venue": hall},
    }[lack]
    for _each in range(2):
        works = () if lack == "programme" else (work,)
        performance = make_performance(*works, composer=composer, **columns)  # type: ignore[arg-type]
        performance.programme.update(billing="Swiss premiere" if lack == "billing" else "")

    page = Page(browser.get(f"{ADDRESS}missing/{lack}/"))

    assert len(page.texts("//main//li")) == 2
    assert all(address.startswith(f"{ADDRESS}performances/") for address in page.values("//main//li/a/@href"))


def make_many(composer: Composer, number: int, **columns: Any) -> None:
    """Write evenings as an import does, many at once."""
    Performance.objects.bulk_create(Performance(composer=composer, **columns) for _each in range(number))


def test_what_lacks_is_listed_in_pages(browser: Client, composer: Composer) -> None:
    make_many(composer, PER_PAGE + 1, country="NO")

    head = Page(browser.get(f"{ADDRESS}missing/date/"))
    rest = Page(browser.get(f"{ADDRESS}missing/date/", {"page": "2"}))

    assert head.text("//h1") == "51 performances have no date"
    assert [len(page.texts("//main//ul[@class='ruled']/li")) for page in (head, rest)] == [50, 1]


def test_of_a_full_calendar_the_next_ones_are_told_and_all_are_counted(browser: Client, composer: Composer) -> None:
    near, far = (
        {"date": read_date(text), "first_day": day, "last_day": day, "status": "planned"} for text, day in DAYS
    )
    make_many(composer, MOST_READ + 5, **near)
    make_many(composer, 3, **far)
    hall = make_venue(composer=composer)
    work = whole("Tides", composer)
    awaited = coming(composer, work, venue=hall, date="2026-11-01")
    make_record(Step, work=work, performance=awaited, kind="contract", label="", due="2026-03-10")

    page = Page(browser.get(ADDRESS))

    told = plain(page.texts(f"{with_class('head')}//p"))[0]
    assert told.startswith(f"9 March to 7 June 2026: {MOST_READ + 5} performances, at least ")
    assert len(page.texts("//section[@id='coming']//li[@class='entry']")) == MOST_READ + 1
    assert page.texts("//section[@id='ahead']//h3") == ["Tides"]
    assert page.texts("//section[@id='coming']//p[@class='sans']") == ["8 more come later."]


def test_lack_that_is_none_is_not_found(browser: Client, composer: Composer) -> None:
    assert browser.get(f"{ADDRESS}missing/money/").status_code == 404


def test_empty_catalogue_teaches_how_to_begin(browser: Client, composer: Composer) -> None:
    page = Page(browser.get(ADDRESS))

    assert page.text("//h1") == "The catalogue of Ilka Marovand is empty"
    assert page.values("//main//a/@href") == [f"{ADDRESS}works/new/", f"{ADDRESS}import/"]


def test_reader_is_not_offered_to_change_anything(
    signed_in: Callable[[User], Client], viewer: User, composer: Composer
) -> None:
    coming(composer, status="planned")

    page = Page(signed_in(viewer).get(ADDRESS))

    assert page.values(f"{with_class('head')}//a/@href | {with_class('needs')}//a/@href") == []


def test_today_is_the_first_room(browser: Client, composer: Composer) -> None:
    page = Page(browser.get("/", follow=True))

    assert page.texts("//nav//a[@aria-current]") == ["Today"]


def test_other_catalogues_are_left_out(browser: Client, composer: Composer, other_composer: Composer) -> None:
    coming(other_composer, make_work("Serenade", composer=other_composer))
    whole("Tides", composer)

    assert "Serenade" not in Page(browser.get(ADDRESS)).text()


def test_number_of_queries_does_not_grow_with_what_comes(browser: Client, composer: Composer) -> None:
    coming(composer, make_work("Tides", composer=composer))
    with CaptureQueriesContext(connection) as with_one:
        browser.get(ADDRESS)
    for day in ("2026-04-01", "2026-04-02"):
        coming(composer, make_work(f"Other {day}", composer=composer), date=day)

    with CaptureQueriesContext(connection) as with_three:
        browser.get(ADDRESS)

    assert len(with_one) == len(with_three) == 34


def test_who_comes_back_while_nothing_was_saved_costs_no_reckoning(browser: Client, composer: Composer) -> None:
    coming(composer, whole("Tides", composer), venue=make_venue(composer=composer))
    first = browser.get(ADDRESS)

    with CaptureQueriesContext(connection) as again:
        second = browser.get(ADDRESS)

    assert Page(second).text() == Page(first).text()
    assert len(again) == 4  # the session, who it is, their membership, the state of the records


def test_forms_of_a_room_that_is_kept_hold_the_token_of_whoever_asks(
    browser: Client, editor: User, composer: Composer, lead_times: LeadTimes
) -> None:
    ask_for_a_contract_early(composer)
    coming(composer, whole("Tides", composer), venue=make_venue(composer=composer))
    browser.get(ADDRESS)
    other = Client(enforce_csrf_checks=True)
    other.force_login(editor)

    page = Page(other.get(ADDRESS))
    ((done, token),) = zip(
        page.values(f"{with_class('entry')}//form/@action"),
        page.values(f"{with_class('entry')}//form/input[@name='csrfmiddlewaretoken']/@value"),
        strict=True,
    )

    assert TOKEN not in page.text()
    assert token != TOKEN
    assert other.post(done, {"then": "today"}).status_code == 403
    assert other.post(done, {"then": "today", "csrfmiddlewaretoken": token}).status_code == 302


def rename_work(composer: Composer) -> None:
    (work,) = composer.works.all()
    work.title = "Ebb"
    work.save()


def rename_hall(composer: Composer) -> None:
    (hall,) = Venue.objects.filter(composer=composer)
    hall.name = "New Granary"
    hall.save()


def ask_for_a_contract_early(composer: Composer) -> None:
    (lead,) = LeadTimes.objects.filter(composer=composer)
    lead.contract = Lead(120)
    lead.save()


def order_work(composer: Composer) -> None:
    Commission.objects.create(work=composer.works.get(), name="A festival", due=read_date("2026-01-31"))


def mistype_own_number(composer: Composer) -> None:
    composer.isni = "0000 0001 2345 6780"
    composer.save()


@pytest.mark.parametrize("change", [rename_work, rename_hall, ask_for_a_contract_early, order_work, mistype_own_number])
def test_what_was_saved_shows_at_the_next_look(
    browser: Client, composer: Composer, change: Callable[[Composer], None]
) -> None:
    coming(composer, whole("Tides", composer), venue=make_venue(composer=composer))
    before = Page(browser.get(ADDRESS)).text()

    change(composer)

    assert Page(browser.get(ADDRESS)).text() != before


def test_reader_and_editor_are_not_shown_the_same_room(
    browser: Client, signed_in: Callable[[User], Client], viewer: User, composer: Composer
) -> None:
    coming(composer, make_work("Tides", composer=composer))
    links = "//ul[@class='needs']//a"

    assert Page(browser.get(ADDRESS)).texts(links)
    assert Page(signed_in(viewer).get(ADDRESS)).texts(links) == []
    assert Page(browser.get(ADDRESS)).texts(links)
