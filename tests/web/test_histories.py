"""/c/<composer>/changes/… and /c/<composer>/deleted/"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from catalogue.actions.deletion import delete_record
from catalogue.actions.performances import save_performance
from catalogue.actions.works import delete_work, save_work
from catalogue.models import Commission, Composer, Cue, Movement, PerformanceCredit, Person, Work
from catalogue.models.records import Deletable, Record
from catalogue.timing import Duration
from catalogue.web.record_kinds import record_kinds
from tests.makers import make_performance, make_person, make_venue, make_work
from tests.web.pages import Page

ROOT = "/c/ilka-marovand"


def changed(work: Work, **columns: Any) -> Work:
    for name, value in columns.items():
        setattr(work, name, value)
    return save_work(work=work, now=timezone.now())


def history(browser: Client, kind: str, record: int) -> Page:
    return Page(browser.get(f"{ROOT}/changes/{kind}/{record}/"))


def entries(page: Page) -> list[str]:
    return page.texts("//section[@class='sec']//div[@class='sec-body']//dd/p")


def bring_back(browser: Client, record: int, entry: int, column: str = "", kind: str = "work") -> Page:
    address = f"{ROOT}/changes/{kind}/{record}/back/"
    return Page(browser.post(address, {"entry": entry, "column": column}, follow=True))


def test_every_kind_of_record_that_can_be_deleted_has_a_history_page() -> None:
    models = {kind.model for kind in record_kinds().values()}

    assert {Work, Person, Composer} <= models
    assert all(issubclass(model, Record) for model in models)
    assert [model for model in models if not issubclass(model, Deletable)] == [Composer]


def test_history_shows_each_field_before_and_after(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer, duration="12′")
    changed(work, title="Rope Table", duration=Duration(800), duration_typed="13'20", parts_on_hire=True)

    page = history(browser, "work", work.pk)

    assert entries(page) == [
        "Rope Tables → became Rope Table",
        "12′ → became 13′20″",
        "empty → became 13'20",
        "no → became yes",
    ]
    assert page.texts("//dt") == ["Title", "Duration", "Duration", "The parts are on hire"]


def test_a_field_comes_back_and_that_can_be_taken_back(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer)
    first = work.history.latest().pk
    changed(work, title="Rope Table", subtitle="for two")

    page = bring_back(browser, work.pk, first, "title")

    work.refresh_from_db()
    assert (work.title, work.subtitle) == ("Rope Tables", "for two")
    assert "Title is back as it was." in page.text()
    assert entries(page)[0] == "Rope Table → became Rope Tables"


def test_what_was_read_from_a_text_comes_back_with_it(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer, instrumentation="2fl – hp")
    first = work.history.latest().pk
    changed(work, instrumentation="pf", instrumentation_typed="piano")

    bring_back(browser, work.pk, first, "instrumentation_typed")

    work.refresh_from_db()
    assert (work.instrumentation, work.least_players) == ("2fl – hp", 3)
    assert sorted(work.instrumentation_lines.values_list("instrument", flat=True)) == ["flute", "harp"]


def test_all_fields_come_back_at_once(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer)
    first = work.history.latest().pk
    changed(work, title="Rope Table", subtitle="for two")

    bring_back(browser, work.pk, first)

    work.refresh_from_db()
    assert (work.title, work.subtitle) == ("Rope Tables", "")


def test_what_must_not_be_stored_is_refused_in_words(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer, catalogue_number="RO 1")
    first = work.history.latest().pk
    changed(work, catalogue_number="")
    make_work("Salt", composer=composer, catalogue_number="RO 1")

    page = bring_back(browser, work.pk, first, "catalogue_number")

    assert "“Salt” has this catalogue number." in page.text()
    work.refresh_from_db()
    assert work.catalogue_number == ""


@pytest.mark.parametrize(
    ("entry", "column"), [("0", "title"), ("x", ""), ("", ""), ("same", "composer_id"), ("same", "id")]
)
def test_what_is_not_offered_is_not_done(browser: Client, composer: Composer, entry: str, column: str) -> None:
    work = make_work("Rope Tables", composer=composer)
    state = str(work.history.latest().pk) if entry == "same" else entry

    response = browser.post(f"{ROOT}/changes/work/{work.pk}/back/", {"entry": state, "column": column}, follow=True)

    assert "There is nothing to bring back there." in Page(response).text()
    assert work.history.count() == 1


def test_entry_of_another_record_is_not_taken(browser: Client, composer: Composer) -> None:
    work, other = make_work("Rope Tables", composer=composer), make_work("Salt", composer=composer)

    bring_back(browser, work.pk, other.history.latest().pk)

    work.refresh_from_db()
    assert work.title == "Rope Tables"


def test_viewer_sees_the_history_and_no_button(
    signed_in: Callable[[User], Client], viewer: User, composer: Composer
) -> None:
    work = make_work("Rope Tables", composer=composer)
    changed(work, title="Rope Table")

    page = history(signed_in(viewer), "work", work.pk)

    assert entries(page) == ["Rope Tables → became Rope Table"]
    assert page.texts("//main//button") == []


def test_names_of_other_records_are_said(browser: Client, composer: Composer) -> None:
    hall, other = make_venue("Old Granary", composer=composer), make_venue("Salt House", composer=composer)
    performance = make_performance(composer=composer, venue=hall)
    performance.venue = other
    performance.save()

    page = history(browser, "performance", performance.pk)

    assert entries(page) == ["Old Granary, Zurich → became Salt House, Zurich"]


def test_history_asks_the_same_number_of_questions(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer)
    changed(work, title="1")
    with CaptureQueriesContext(connection) as few:
        history(browser, "work", work.pk)
    for number in range(40):
        changed(work, title=str(number))
    with CaptureQueriesContext(connection) as many:
        page = history(browser, "work", work.pk)

    assert len(few) == len(many)
    assert page.texts("//nav[@class='pages']/a") == ["Older"]
    assert entries(Page(browser.get(f"{ROOT}/changes/work/{work.pk}/?page=2")))[-1] == "Rope Tables → became 1"


# ---- rows inside a record


def put_back(browser: Client, kind: str, record: int, **asked: Any) -> Page:
    return Page(browser.post(f"{ROOT}/changes/{kind}/{record}/rows/", asked, follow=True))


def buttons(page: Page) -> list[dict[str, str]]:
    """The fields that each button of the rows sends."""
    forms = page.tree.xpath("//form[contains(@action, '/rows/')]")
    return [{one.get("name"): one.get("value") for one in form.xpath(".//input | .//button[@name]")} for form in forms]


def with_movements(work: Work, clock: Any, *titles: str) -> None:
    """Save a work with these movements, minutes after what was saved before."""
    clock.goes_on(minutes=5)
    stored = list(work.movements.order_by("number"))
    rows = [stored[place] if place < len(stored) else Movement() for place in range(len(titles))]
    for row, title in zip(rows, titles, strict=True):
        row.title = title
    save_work(work=work, now=clock.moment, movements=rows)


def titles_of(work: Work) -> list[str]:
    return list(work.movements.order_by("number").values_list("title", flat=True))


def test_rows_that_went_are_shown_and_the_list_comes_back(browser: Client, composer: Composer, clock: Any) -> None:
    work = make_work("Rope Tables", composer=composer)
    with_movements(work, clock, "Lento", "Vivo", "Canto")
    with_movements(work, clock, "Lento", "Canto")

    page = history(browser, "work", work.pk)
    assert page.texts("//section[@class='sec'][1]//li")[:1] == ["went: 2. Vivo Bring this row back: 2. Vivo"]
    put_back(browser, "work", work.pk, **next(one for one in buttons(page) if "row" not in one))

    assert titles_of(work) == ["Lento", "Vivo", "Canto"]
    assert "Make the list as it was before" not in history(browser, "work", work.pk).texts("//section[1]//button")


def test_one_row_comes_back_at_its_place_and_the_others_stay(browser: Client, composer: Composer, clock: Any) -> None:
    work = make_work("Rope Tables", composer=composer)
    with_movements(work, clock, "Lento", "Vivo", "Canto")
    with_movements(work, clock, "Lento", "Canto")
    with_movements(work, clock, "Lento", "Canto", "Coda")

    page = put_back(
        browser, "work", work.pk, **next(one for one in buttons(history(browser, "work", work.pk)) if "row" in one)
    )

    assert "The row is back as it was." in page.text()
    assert titles_of(work) == ["Lento", "Vivo", "Canto", "Coda"]


def test_cues_commissions_programme_and_performers_come_back(browser: Client, composer: Composer, clock: Any) -> None:
    work, other = make_work("Rope Tables", composer=composer), make_work("Salt", composer=composer)
    performance, player = make_performance(work, other, composer=composer), make_person("Noor Holm", composer=composer)
    commission = Commission(work=work, name="Tidewater Festival")
    cues = [Cue(number="1", action="start the fixed media"), Cue(number="2", action="fade", place="37.3")]
    clock.goes_on(minutes=5)
    save_work(work=work, now=clock.moment, cues=cues, commissions=[commission])
    save_performance(performance=performance, now=clock.moment, credits=[PerformanceCredit(person=player)])
    clock.goes_on(minutes=5)
    save_work(work=work, now=clock.moment, cues=cues[:1], commissions=[])
    save_performance(performance=performance, now=clock.moment, programme=[], credits=[])

    for kind, record in (("work", work), ("performance", performance)):
        for asked in buttons(history(browser, kind, record.pk)):
            if "row" in asked:
                put_back(browser, kind, record.pk, **asked)

    assert list(work.cues.order_by("order").values_list("number", "place")) == [("1", ""), ("2", "37.3")]
    assert [one.body for one in work.commissions.all()] == ["Tidewater Festival"]
    assert list(performance.programme.order_by("order").values_list("work__title", flat=True)) == [
        "Rope Tables",
        "Salt",
    ]
    assert [one.billed_name for one in performance.credits.all()] == ["Noor Holm"]


def test_somebody_who_is_gone_is_told_of_when_a_row_comes_back(browser: Client, composer: Composer, clock: Any) -> None:
    performance, player = make_performance(composer=composer), make_person("Noor Holm", composer=composer)
    clock.goes_on(minutes=5)
    save_performance(performance=performance, now=clock.moment, credits=[PerformanceCredit(person=player)])
    clock.goes_on(minutes=5)
    save_performance(performance=performance, now=clock.moment, credits=[])
    player.delete()

    page = put_back(
        browser, "performance", performance.pk, **buttons(history(browser, "performance", performance.pk))[0]
    )

    assert "Name who performed." in page.text()
    assert not performance.credits.exists()


@pytest.mark.parametrize("asked", [{}, {"list": "titles", "entry": "1"}, {"list": "movements", "entry": "x"}])
def test_rows_that_are_not_offered_are_not_brought_back(
    browser: Client, composer: Composer, asked: dict[str, str]
) -> None:
    work = make_work("Rope Tables", composer=composer)

    assert "There is nothing to bring back there." in put_back(browser, "work", work.pk, **asked).text()


# ---- what was deleted


def test_deleted_records_of_all_kinds_are_listed_for_ninety_days(
    browser: Client, composer: Composer, editor: User, clock: Any, signed_in: Callable[[User], Client]
) -> None:
    work, person = make_work("Rope Tables", composer=composer), make_person("Noor Halvorsen", composer=composer)
    delete_work(work=work, by=editor, now=clock.moment)
    delete_record(record=person, by=None, now=clock.moment)

    listed = Page(browser.get(f"{ROOT}/deleted/")).texts("//ul[contains(@class, 'deleted')]//b")
    assert sorted(listed) == ["Noor Halvorsen", "Rope Tables"]
    clock.goes_on(days=91)  # the session has run out by then
    assert "Nothing is deleted" in Page(signed_in(editor).get(f"{ROOT}/deleted/")).text()


def test_deleted_record_comes_back_with_what_hung_on_it(browser: Client, composer: Composer, editor: User) -> None:
    work = make_work("Rope Tables", composer=composer, instrumentation="hp")
    performance = make_performance(work, composer=composer)
    delete_work(work=work, by=editor, now=timezone.now())

    page = Page(browser.post(f"{ROOT}/deleted/work/{work.pk}/restore/", follow=True))

    assert "“Rope Tables” is back." in page.text()
    assert [row.performance_id for row in Work.objects.get(pk=work.pk).programmed.all()] == [performance.pk]


def test_number_of_questions_does_not_grow_with_what_is_deleted(
    browser: Client, composer: Composer, editor: User
) -> None:
    def delete_some() -> int:
        for number in range(3):
            work = make_work(f"Salt {number}", composer=composer)
            delete_work(work=work, by=editor, now=timezone.now())
        with CaptureQueriesContext(connection) as asked:
            browser.get(f"{ROOT}/deleted/")
        return len(asked)

    assert delete_some() == delete_some()


def test_unknown_kind_and_foreign_record_are_not_there(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    foreign = make_work("Serenade", composer=other_composer)

    assert browser.get(f"{ROOT}/changes/nothing/1/").status_code == 404
    assert browser.get(f"{ROOT}/changes/membership/1/").status_code == 404
    assert browser.get(f"{ROOT}/changes/work/{foreign.pk}/").status_code == 404
    assert browser.post(f"{ROOT}/changes/work/{foreign.pk}/back/").status_code == 404
    assert browser.post(f"{ROOT}/deleted/work/{foreign.pk}/restore/").status_code == 404
    assert browser.post(f"{ROOT}/deleted/composer/{composer.pk}/restore/").status_code == 404
