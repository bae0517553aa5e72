"""/c/<composer>/performances/<performance>/, and deleting it"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, time
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.actions.performances import save_performance
from catalogue.models import Composer, Hire, LeadTimes, Performance, PerformanceCredit, Return, Session, Step
from catalogue.rules.journey import Lead
from tests.makers import NOW, make_organisation, make_performance, make_venue, make_work
from tests.record_makers import make_record
from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("viewer")


def address(performance: Performance) -> str:
    return f"/c/ilka-marovand/performances/{performance.pk}/"


def page_of(browser: Client, performance: Performance) -> Page:
    return Page(browser.get(address(performance)))


def section(name: str) -> str:
    return f"//section[@id='{name}']"


def plain(texts: list[str]) -> list[str]:
    return [text.replace("\xa0", " ") for text in texts]


def test_head_says_the_date_both_ways_the_place_and_what_it_is_the_first_of(
    browser: Client, composer: Composer
) -> None:
    work = make_work("Állo fos", composer=composer, title_language="el-Latn")
    hall = make_venue("Lager Elf", composer=composer, city="Hamburg", country="DE", zone="Europe/Berlin")
    performance = make_performance(work, date="2026-03-28", venue=hall, status="confirmed")

    page = page_of(browser, performance)

    assert page.text("//h1") == "Állo fos in Hamburg"
    assert page.values("//h1/i/bdi/@lang") == ["el-Latn"]
    assert plain(page.texts(f"{with_class('head')}//p")) == [
        "Saturday 28 March 2026, 19:30 (Europe/Berlin), in 19 days. Lager Elf, Hamburg. To be the world premiere."
    ]
    assert page.values("//h1/following::time[1]/@datetime") == ["2026-03-28"]


@pytest.mark.parametrize(
    ("columns", "sentence"),
    [
        ({"status": "planned"}, "Planned, not confirmed yet."),
        ({"status": "cancelled"}, "Cancelled."),
        ({"status": "confirmed", "date": "2026-03-01"}, "It was confirmed; nobody has said yet that it took place."),
    ],
)
def test_head_says_what_has_become_of_it(
    browser: Client, composer: Composer, columns: dict[str, Any], sentence: str
) -> None:
    performance = make_performance(composer=composer, **columns)

    assert page_of(browser, performance).text(f"{with_class('head')}//b") == sentence


@pytest.mark.parametrize(
    ("titles", "heading"),
    [
        (("Tides", "Weirs", "Weirs"), "Tides and Weirs in Lyon"),
        (("A", "B", "C"), "A, B and C in Lyon"),
        (("A", "B", "C", "D"), "A, B and 2 other works in Lyon"),
        ((), "Performance in Lyon"),
    ],
)
def test_heading_names_few_works_and_counts_more(
    browser: Client, composer: Composer, titles: tuple[str, ...], heading: str
) -> None:
    works = {title: make_work(title, composer=composer) for title in titles}
    performance = make_performance(*(works[title] for title in titles), composer=composer, city="Lyon")

    assert page_of(browser, performance).text("//h1") == heading


def test_programme_says_how_much_was_played_as_billed_and_what_contradicts_it(
    browser: Client, composer: Composer
) -> None:
    tides, weirs = make_work("Tides", composer=composer), make_work("Weirs", composer=composer)
    make_performance(tides, date="2024-05-16", city="Lyon", country="FR")
    performance = make_performance(tides, weirs, date="2025-05-16", city="Nantes", country="FR")
    performance.programme.filter(order=1).update(billing="French premiere")
    performance.programme.filter(order=2).update(extent="excerpt", part="II. Lock", note="encore")

    items = plain(page_of(browser, performance).texts(f"{section('programme')}//li"))

    assert items == [
        "Tides First performance in these records (Nantes)Second performance in these records"
        "Billed as “French premiere” Billed as “French premiere”, but these records have an earlier public performance "
        "in the same country: 16 May 2024, Lyon.",
        "Weirs (excerpt: II. Lock) First performance of II. Lockencore",
    ]


def test_what_was_set_by_hand_is_shown_as_such_beside_what_the_records_say(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer)
    performance = make_performance(work, date="2025-05-16", city="Nantes", audience="invited")
    performance.programme.update(claim_override="world premiere", claim_reason="the guests had paid")

    page = page_of(browser, performance)

    assert page.texts(f"{section('programme')}//li//*[@class='fine']") == [
        "Set by hand: world premiere, because the guests had paid",
        "By these records: The audience was invited.",
    ]
    assert page.text(f"{with_class('head')}//p").endswith("World premiere.")


def test_playing_that_counts_for_nothing_says_why(browser: Client, composer: Composer) -> None:
    performance = make_performance(make_work("Tides", composer=composer), date="2025-05-16", audience="private")

    assert "It was private." in page_of(browser, performance).text(section("programme"))


def test_people_are_told_by_what_they_did(browser: Client, composer: Composer) -> None:
    performance = make_performance(composer=composer, presenter_name="Nordlyd", string_strengths=(8, 6, 4, 4, 2))
    told = (("ensemble", "", "Kestrel Ensemble"), ("soloist", "clarinet", "Ragna Tolv"), ("conductor", "", "Joren"))
    credits = [PerformanceCredit(role=role, plays=plays, name=name) for role, plays, name in told]
    save_performance(performance=performance, credits=credits, now=NOW)

    page = page_of(browser, performance)

    assert page.texts(f"{section('people')}//dl/div") == [
        "EnsembleKestrel Ensemble, strings 8.6.4.4.2", "Solo clarinetRagna Tolv", "ConductorJoren",
        "Presented byNordlyd",
    ]  # fmt: skip


def test_page_teaches_what_is_missing_to_those_who_may_add_it(
    signed_in: Callable[[User], Client], editor: User, viewer: User, composer: Composer
) -> None:
    performance = make_performance(composer=composer, date="", at=None)

    seen = [page_of(signed_in(one), performance).texts("//main//section//a") for one in (editor, viewer)]

    way_back = "All, with the way back"
    assert seen == [
        [
            "Name the works", "Say who performs", "Add a rehearsal or session", "recording", "review",
            "return to a society", "how long each work lasted", way_back,
        ],
        [way_back],
    ]  # fmt: skip


def test_changes_say_when_who_and_what(
    signed_in: Callable[[User], Client], owner: User, composer: Composer, clock: Any
) -> None:
    browser = signed_in(owner)
    performance = make_performance(make_work("Tides", composer=composer), composer=composer)
    clock.goes_on(minutes=1)
    performance.time = time(20)
    save_performance(performance=performance, now=clock.moment, credits=[PerformanceCredit(name="Pia Lorenzat")])

    page = page_of(browser, performance)

    assert [line.partition("9 Mar")[0] for line in page.texts(f"{section('changes')}//li")] == [
        "Performers, Time",
        "Added",
    ]


def test_what_was_typed_is_shown_as_text(browser: Client, composer: Composer) -> None:
    work = make_work("</title><script>x()</script>", composer=composer)
    performance = make_performance(work, city="<b>Lyon</b>", notes="<img src=x onerror=y()>")

    page = page_of(browser, performance)

    assert page.values("//script[not(@src)] | //img | //@onerror | //h1//b") == []
    assert page.text("//h1") == "</title><script>x()</script> in <b>Lyon</b>"


def test_number_of_queries_does_not_grow_with_the_programme(browser: Client, composer: Composer) -> None:
    one = make_performance(make_work("One", composer=composer), performers=("Kestrel Ensemble",))
    with CaptureQueriesContext(connection) as with_one:
        browser.get(address(one))
    works = [make_work(f"Work {number}", composer=composer) for number in range(3)]
    three = make_performance(*works, performers=("A", "B", "C"))
    make_performance(*works, date="2025-01-01")

    with CaptureQueriesContext(connection) as with_three:
        browser.get(address(three))

    assert (len(with_one), len(with_three)) == (27, 27)


# ---- deleting and bringing back


def test_deleted_performance_is_gone_and_comes_back_by_undo(
    signed_in: Callable[[User], Client], editor: User, composer: Composer
) -> None:
    browser = signed_in(editor)
    performance = make_performance(make_work("Tides & Co", composer=composer), city="Lyon")

    page = Page(browser.post(f"{address(performance)}delete/", follow=True))

    assert page.texts(f"{with_class('notice')}/p") == ["Tides & Co in Lyon is deleted."]
    assert browser.get(address(performance)).status_code == 404
    (undo,) = page.values(f"{with_class('notice')}/form/@action")

    page = Page(browser.post(undo, follow=True))

    assert page.texts(f"{with_class('notice')}/p") == ["Tides & Co in Lyon is back."]
    assert page.text("//h1") == "Tides & Co in Lyon"


# ---- the steps around it


def test_coming_performance_says_what_is_due_by_when(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer, instrumentation="fl, vc")
    performance = make_performance(work, date="2026-04-20", status="confirmed")
    make_record(Step, work=work, performance=performance, kind="contract", label="", state="done", due=None)

    page = page_of(browser, performance)

    assert page.text(f"{section('journey')}//p") == "1 late, 9 to do, 1 done."
    assert plain(page.texts(f"{section('journey')}//details[@open]//li")) == [
        "Contract signed done",
        "Parts delivered 23 February 2026 late by 14 days",
        "Programme note and biography sent 9 March 2026 today",
        "Permission to stream settled 9 March 2026 today",
        "Recording asked for 23 March 2026 in 14 days",
        "Travel booked 23 March 2026 in 14 days",
        "Technical rider sent not needed",
        "Electronics tested not needed",
    ]


def test_sets_that_go_out_for_it_stand_on_the_page_and_say_that_parts_are_delivered(
    signed_in: Callable[[User], Client], editor: User, composer: Composer
) -> None:
    browser, work = signed_in(editor), make_work("Tides", composer=composer, instrumentation="fl, vc")
    performance = make_performance(work, date="2026-04-20", status="confirmed")
    offered = page_of(browser, performance).values(f"{section('material')}//a/@href")
    form = Page(browser.get(offered[-1]))
    columns = {"number": "H 7", "name": "Two Bells Orchestra", "out_on": date(2026, 3, 1), "due_on": date(2026, 5, 1)}
    hire = make_record(Hire, work=work, **columns)
    hire.hired_for.create(performance=performance)

    page = page_of(browser, performance)

    assert form.values("//input[@name='performances'][@checked]/@value") == [str(performance.pk)]
    assert plain(page.texts(f"{section('material')}//li")) == ["Two Bells Orchestra Tides Out, due back on 1 May 2026."]
    steps = plain(page.texts(f"{section('journey')}//li/span | {section('journey')}//li/div/span"))
    assert steps[steps.index("Parts delivered") + 1] == "done: a set has gone out"
    assert "Set of parts back 1 May 2026" in steps


def test_lead_times_of_presenter_and_composer_are_compared(browser: Client, composer: Composer) -> None:
    work, presenter = make_work("Tides", composer=composer), make_organisation("Quay Concerts", composer=composer)
    performance = make_performance(work, date="2026-04-20", status="confirmed", presenter=presenter)
    LeadTimes.objects.create(composer=composer, parts=Lead(70), travel=Lead(21))
    LeadTimes.objects.create(composer=composer, organisation=presenter, parts=Lead(84), thanks=Lead(None))
    alone = make_performance(work, date="2026-04-21", status="confirmed")

    rows, ours = (
        plain(page_of(browser, one).texts("//details[@id='lead-times']//tbody/tr")) for one in (performance, alone)
    )

    assert rows == [
        "Parts delivered 12 weeks 10 weeks 8 weeks 12 weeks",
        "Travel booked – 3 weeks 4 weeks 3 weeks",
        "Thanks sent not needed – 1 week not needed",
    ]
    assert ours == ["Parts delivered 10 weeks 8 weeks 10 weeks", "Travel booked 3 weeks 4 weeks 3 weeks"]


def test_step_is_done_with_one_button_and_open_again_by_undo(
    signed_in: Callable[[User], Client], editor: User, composer: Composer
) -> None:
    browser, performance = signed_in(editor), make_performance(composer=composer, date="2026-04-20", status="confirmed")
    page = page_of(browser, performance)
    (done,) = page.values(f"{section('journey')}//li[contains(., 'Travel')]//form/@action")

    page = Page(browser.post(done, follow=True))

    assert page.texts(f"{with_class('notice')}/p") == ["Travel booked: done."]
    assert plain(page.texts("//li[contains(., 'Travel')]")) == ["Travel booked done on 9 March 2026"]
    (undo,) = page.values(f"{with_class('notice')}/form/@action")
    browser.post(undo)
    step = Step.objects.get(performance=performance)
    assert (step.state, step.done_on, step.saves) == ("open", None, 2)


@pytest.mark.parametrize("way", ["waltz/done", "travel/perhaps", "other/done"])
def test_step_that_is_none_is_not_found(
    signed_in: Callable[[User], Client], editor: User, composer: Composer, way: str
) -> None:
    performance = make_performance(composer=composer)

    assert signed_in(editor).post(f"{address(performance)}steps/{way}/").status_code == 404


def test_sessions_and_what_came_of_it_stand_on_the_page(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer)
    performance = make_performance(work, date="2026-02-20")
    for kind, hour in (("talk", time(18, 30)), ("get-in", time(9))):
        make_record(
            Session, work=work, performance=performance, kind=kind, date="2026-02-20", time=hour, until=time(22)
        )
    make_record(Return, work=work, performance=performance)

    page = page_of(browser, performance)

    assert plain(page.texts(f"{section('sessions')}//li")) == [
        "Get-in Friday 20 February 2026, 09:00 to 22:00",
        "Talk Friday 20 February 2026, 18:30 to 22:00",
    ]
    assert page.texts(f"{section('afterwards')}//li/span[1]") == ["Quay Society, Q 12"]
