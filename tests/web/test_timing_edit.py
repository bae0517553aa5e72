"""/c/<composer>/works/<work>/timing/edit/"""

from __future__ import annotations

from datetime import date

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.actions.works import save_work
from catalogue.models import Composer, Cue, Work
from tests.conftest import Clock
from tests.makers import NOW, make_work
from tests.web.pages import Page, with_class

MAP = "1-16 4/4 q=60   # slow\n"
CUES = (("1", "1", "Drone in"), ("2", "9.3", "Bell"))


def address(work: Work) -> str:
    return f"/c/ilka-marovand/works/{work.pk}/timing/edit/"


def opened(browser: Client, work: Work) -> dict[str, str]:
    """Return what the browser would send back if nothing were changed."""
    (form,) = Page(browser.get(address(work))).tree.xpath("//form[@data-keep]")
    return {name: value.lstrip("\n") for name, value in form.form_values()}


def sent(browser: Client, work: Work, **typed: str) -> Page:
    return Page(browser.post(address(work), {**opened(browser, work), **typed}, follow=True))


def cues_of(work: Work) -> list[tuple[str, str, str]]:
    return list(Cue.objects.filter(work=work).order_by("order").values_list("number", "place", "action"))


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Weirs", composer=composer, tempo_map=MAP, cue_letters="E electronics", cues=CUES)


def test_form_sent_back_unchanged_changes_nothing(browser: Client, work: Work) -> None:
    rows = list(Cue.objects.order_by("pk").values())

    page = sent(browser, work)

    work.refresh_from_db()
    assert (work.tempo_map, work.cue_letters, list(Cue.objects.order_by("pk").values())) == (MAP, "E electronics", rows)
    assert "The timing of “Weirs” is saved." in page.text("//body")
    assert Cue.objects.first().history.count() == 1


def test_a_map_is_kept_as_typed_and_dated_when_it_changes(browser: Client, work: Work, clock: Clock) -> None:
    Work.objects.update(tempo_map_dated=date(2020, 1, 1))
    same = sent(browser, work, cue_letters="C conductor")
    work.refresh_from_db()
    before = work.tempo_map_dated

    sent(browser, work, tempo_map="  1-16 4/4 q=60\r\n\r\n17 free 5 # end\r\n")

    work.refresh_from_db()
    assert (same.status, before) == (200, date(2020, 1, 1))
    assert work.tempo_map == "  1-16 4/4 q=60\n\n17 free 5 # end\n"
    assert work.tempo_map_dated == clock.moment.date()


def test_a_map_that_cannot_be_read_comes_back_with_its_mistake_and_nothing_is_lost(browser: Client, work: Work) -> None:
    page = sent(browser, work, tempo_map="1-16 4/4 q=O", **{"cues-1-action": "Bell, struck"})

    assert page.wrong == ["Line 1: a tempo such as q=72 is wanted where “q=O” stands."]
    assert (page.field("tempo_map"), page.field("cues-1-action")) == ("1-16 4/4 q=O", "Bell, struck")
    assert page.texts("//mark") == ["q=O"]
    work.refresh_from_db()
    assert (work.tempo_map, cues_of(work)) == (MAP, list(CUES))


def test_a_map_that_cannot_be_read_is_kept_where_that_is_asked_for(browser: Client, work: Work) -> None:
    sent(browser, work, tempo_map="1-16 4/4 q=O", keep_tempo_map="on")

    work.refresh_from_db()
    assert (work.tempo_map, cues_of(work)) == ("1-16 4/4 q=O", list(CUES))


def test_cues_are_added_changed_and_taken_off_and_stand_in_the_order_of_the_map(browser: Client, work: Work) -> None:
    new = {"cues-2-number": "", "cues-2-place": "5", "cues-2-action": "Wind", "cues-2-medium": "wind.wav"}

    sent(browser, work, **{"cues-0-place": "16", "cues-2-length": "1:30", **new})

    assert cues_of(work) == [("3", "5", "Wind"), ("2", "9.3", "Bell"), ("1", "16", "Drone in")]
    assert Cue.objects.get(number="3").length.seconds == 90

    empty = {f"cues-1-{name}": "" for name in ("number", "place", "action", "who", "medium", "length", "notes")}
    sent(browser, work, **empty)

    assert cues_of(work) == [("3", "5", "Wind"), ("1", "16", "Drone in")]


def test_a_cue_that_the_map_does_not_hold_is_kept(browser: Client, work: Work) -> None:
    page = sent(browser, work, **{"cues-1-place": "99"})

    assert cues_of(work) == [("1", "1", "Drone in"), ("2", "99", "Bell")]
    assert page.wrong == ["Bar 99 is not in the map, or is cut."]


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        (
            {"cues-1-place": "bar nine"},
            "“bar nine” is no place; write 37, 37.3, 37.3.5, 7.1@2, 2:7.1 or a time such as 12:30.",
        ),
        ({"cues-1-place": "9.0"}, "The beat is counted from 1."),
        ({"cues-1-action": ""}, "Say what happens at this cue."),
        ({"cues-1-length": "0:00"}, "A length is more than nothing; leave it empty where it is not known."),
        ({"cues-1-length": "7"}, "Say whether 7 is minutes or seconds: write 7′, 7 min or 7 s."),
        ({"cues-1-number": "1"}, "There are two cues 1."),
    ],
)
def test_a_cue_that_cannot_be_so_is_refused_beside_its_field(
    browser: Client, work: Work, typed: dict[str, str], reason: str
) -> None:
    page = sent(browser, work, **typed)

    assert page.wrong == [reason]
    assert cues_of(work) == list(CUES)
    assert {name: page.field(name) for name in typed} == typed


def test_without_a_script_a_row_is_added_moved_and_the_map_read(browser: Client, work: Work) -> None:
    another = sent(browser, work, another="1", **{"cues-2-action": "Wind"})
    moved = sent(browser, work, earlier="1")
    read = sent(browser, work, read="1", tempo_map="1-16 4/4 q=120")

    assert (another.field("cues-2-action"), another.field("cues-3-action")) == ("Wind", "")
    assert (moved.field("cues-0-action"), moved.field("cues-1-action")) == ("Bell", "Drone in")
    assert read.texts(with_class("reads")) == ["32″, 16 bars played"]
    assert read.texts(f"{with_class('timed')}/li")[1] == "cue 2, bar 9.3: 0:17"
    assert cues_of(work) == list(CUES)


def test_the_second_of_two_who_change_a_map_sees_both(browser: Client, work: Work) -> None:
    typed = opened(browser, work)
    work.refresh_from_db()
    work.tempo_map = "1-8 4/4 q=60\n"
    save_work(work=work, now=NOW)

    page = Page(browser.post(address(work), {**typed, "tempo_map": "1-9 4/4 q=60"}))

    assert page.field("tempo_map") == "1-9 4/4 q=60"
    assert "1-8 4/4 q=60" in page.text()
    work.refresh_from_db()
    assert work.tempo_map == "1-8 4/4 q=60\n"


def test_number_of_queries_does_not_grow_with_the_cues(browser: Client, composer: Composer) -> None:
    found = []
    for number in (1, 12):
        cues = tuple((str(one), str(one), "Bell") for one in range(1, number + 1))
        work = make_work(f"Weirs {number}", composer=composer, tempo_map=MAP, cues=cues)
        with CaptureQueriesContext(connection) as queries:
            browser.get(address(work))
        found.append(len(queries))

    assert found == [7, 7]


def test_later_change_of_the_cues_is_shown_beside_ones_own(browser: Client, work: Work) -> None:
    mine = {**opened(browser, work), "cues-1-action": "Bell, twice"}
    stored = list(work.cues.order_by("order"))
    save_work(work=work, now=NOW, cues=[*stored, Cue(number="3", place="12", action="Fade")])

    page = Page(browser.post(address(work), mine))

    assert page.texts(f"{with_class('summary')}//dt") == ["Cues"]
    assert page.texts(f"{with_class('versions')}/div") == [
        "Saved 1 · 1 · Drone in 2 · 9.3 · Bell 3 · 12 · Fade", "Yours 1 · 1 · Drone in 2 · 9.3 · Bell, twice",
    ]  # fmt: skip
    assert len(cues_of(work)) == 3
