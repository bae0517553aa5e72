"""/c/<composer>/works/<work>/timing/"""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, ProgrammedWork, Work
from catalogue.timing import Duration
from tests.makers import make_performance, make_recording, make_work
from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("viewer")

TWO_MOVEMENTS = '1-15 4/4 q=60\nmovement "Slack"\n1-4 4/4 q=120\n5 free 30\n'
CUES = (("1", "1:1.1", "Drone in"), ("2", "2:5", "All alone"), ("3", "1:99", "Everything off"), ("T", "", "Check"))


def address(work: Work) -> str:
    return f"/c/ilka-marovand/works/{work.pk}/timing/"


def page_of(browser: Client, work: Work) -> Page:
    return Page(browser.get(address(work)))


def durations(page: Page) -> dict[str, str]:
    names, values = page.texts("//section[@id='durations']//dt"), page.texts("//section[@id='durations']//dd")
    return dict(zip(names, values, strict=True))


def test_each_duration_stands_apart_under_its_name(browser: Client, composer: Composer) -> None:
    work = make_work(
        "Weirs", composer=composer, duration="ca. 2′", least_duration=Duration(60), most_duration=Duration(180),
        tempo_map=TWO_MOVEMENTS,
    )  # fmt: skip
    make_performance(work)
    ProgrammedWork.objects.update(duration=Duration(110))
    make_recording(work, duration=Duration(100))
    make_recording(work, duration=Duration(130))

    assert durations(page_of(browser, work)) == {
        "Published": "c. 2′ usually",
        "At least": "1′",
        "At most": "3′",
        "Reckoned from the tempo map": "1′38″ without breaks between movements",
        "Performed": "1′50″ one performance",
        "Recorded": "1′40″ to 2′10″ 2 recordings",
    }


@pytest.mark.parametrize(
    ("published", "warnings"),
    [
        # 98 seconds are reckoned: 8.9 % more than 90, 11.4 % more than 88
        ("1′30″", []),
        ("1′28″", ["The duration from the tempo map is 1′38″, 11 % longer than the stated 1′28″."]),
        ("2′", ["The duration from the tempo map is 1′38″, 18 % shorter than the stated 2′."]),
    ],
)
def test_a_map_more_than_ten_in_a_hundred_from_the_published_duration_is_pointed_out(
    browser: Client, composer: Composer, published: str, warnings: list[str]
) -> None:
    work = make_work("Weirs", composer=composer, duration=published, tempo_map=TWO_MOVEMENTS)

    assert page_of(browser, work).wrong == warnings


def test_the_timeline_says_itself_in_words_and_each_movement_has_its_duration(
    browser: Client, composer: Composer
) -> None:
    page = page_of(browser, make_work("Weirs", composer=composer, tempo_map=TWO_MOVEMENTS, cues=CUES))

    assert set(page.texts("//*[local-name()='svg'][@role='img']/*[local-name()='title']")) == {
        "Timeline of 1 minute 38 seconds with 2 cues"
    }
    assert page.texts(f"{with_class('programme')}/li/span") == ["1.", "1′", "Slack", "38″"]


def test_cues_come_in_playing_order_with_bar_and_time_and_why_one_has_none(browser: Client, composer: Composer) -> None:
    page = page_of(browser, make_work("Weirs", composer=composer, tempo_map=TWO_MOVEMENTS, cues=CUES))

    rows = [
        [" ".join(cell.text_content().split()) for cell in row.xpath("*")][:4]
        for row in page.tree.xpath("//section[@id='cues']//tbody/tr")
    ]
    assert rows == [
        ["1", "1", "0:00", "Drone in"],
        ["2", "2:5", "1:08 free, 0:30", "All alone"],
        ["3", "1:99", "", "Everything off Bar 99 is not in the map, or is cut."],
        ["T", "", "before", "Check"],
    ]


def test_a_map_that_cannot_be_read_is_shown_with_its_mistake_and_gives_no_times(
    browser: Client, composer: Composer
) -> None:
    page = page_of(browser, make_work("Weirs", composer=composer, tempo_map="1-4 4/4 q=60\n5 4/4 q=0\n", cues=CUES))

    assert page.wrong == ["Line 2: a tempo lies above 0 and at most at 10000 notes a minute."]
    assert page.texts("//mark") == ["q=0"]
    assert page.texts("//section[@id='files']//li/span[1]") == [
        "Cue sheet",
        "Cue sheet for the pocket, to lie on a stand",
    ]


def test_a_work_of_which_nothing_is_known_says_what_could_be_written(browser: Client, composer: Composer) -> None:
    page = page_of(browser, make_work("Weirs", composer=composer))

    assert "There is no tempo map yet." in page.text("//section[@id='map']")
    assert "None is noted yet" in page.text("//section[@id='cues']")
    assert page.values("//main//a[contains(@href, '/edit/')]/@href") == []


def test_number_of_queries_does_not_grow_with_cues_performances_and_recordings(
    browser: Client, composer: Composer
) -> None:
    work = make_work("Weirs", composer=composer, tempo_map=TWO_MOVEMENTS, cues=CUES[:1])
    more = make_work("More", composer=composer, tempo_map=TWO_MOVEMENTS, cues=CUES)
    for one, days in ((work, ("2025-05-16",)), (more, ("2025-05-17", "2025-05-18", "2025-05-19"))):
        for day in days:
            make_performance(one, date=day, performers=("Kestrel Ensemble",))
            make_recording(one)
    found = []
    for one in (work, more):
        with CaptureQueriesContext(connection) as queries:
            browser.get(address(one))
        found.append(len(queries))

    assert found == [11, 11]


# ---- what a map reads as while one types


def reading(browser: Client, work: Work, **typed: str) -> Page:
    return Page(browser.post(f"{address(work)}reading/", {"tempo_map": "", **typed}))


def test_reading_tells_how_long_it_lasts_and_when_the_typed_cues_come(browser: Client, composer: Composer) -> None:
    rows = {"cues-TOTAL_FORMS": "2", "cues-INITIAL_FORMS": "0"}
    one = {"cues-0-number": "7", "cues-0-place": "9.3", "cues-0-action": "Bell"}
    other = {"cues-1-number": "8", "cues-1-place": "99", "cues-1-action": "Gong"}

    page = reading(browser, make_work("Weirs", composer=composer), tempo_map="1-15 4/4 q=60", **rows, **one, **other)

    assert page.texts(with_class("reads")) == ["1′, 15 bars played"]
    assert page.texts(f"{with_class('timed')}/li") == ["cue 7, bar 9.3: 0:34"]
    assert page.wrong == ["Cue 8: Bar 99 is not in the map, or is cut."]


def test_reading_points_at_line_and_column_of_a_mistake(browser: Client, composer: Composer) -> None:
    page = reading(browser, make_work("Weirs", composer=composer), tempo_map="1-4 4/4 q=60\r\n  5-8 4/5 q=60")

    assert page.texts(with_class("lead")) == ["Cannot be read: line 2, column 7"]
    assert page.wrong == ["Line 2: the lower figure of a metre is 1, 2, 4, 8, 16, 32 or 64."]
    assert page.texts("//mark") == ["4/5"]


def test_nothing_typed_reads_as_nothing(browser: Client, composer: Composer) -> None:
    work = make_work("Weirs", composer=composer)

    assert browser.post(f"{address(work)}reading/", {"tempo_map": " \n"}).content.strip() == b""
