"""/c/<composer>/works/<work>/recordings/"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.actions.works import save_work
from catalogue.models import Composer, Recording, Work
from catalogue.timing import Duration
from tests.makers import NOW, make_recording, make_work
from tests.web.pages import Page, with_class


@pytest.fixture
def browser(signed_in: Callable[[User], Client], editor: User) -> Client:
    return signed_in(editor)


@pytest.fixture
def work(composer: Composer) -> Work:
    work = make_work("Weirs", composer=composer, duration="10′")
    make_recording(work, duration=Duration(612))
    return work


def address(work: Work) -> str:
    return f"/c/ilka-marovand/works/{work.pk}/recordings/"


def opened(browser: Client, work: Work) -> dict[str, str]:
    (form,) = Page(browser.get(address(work))).tree.xpath("//form[@data-keep]")
    return dict(form.form_values())


def sent(browser: Client, work: Work, **typed: str) -> Page:
    return Page(browser.post(address(work), {**opened(browser, work), **typed}, follow=True))


def recordings() -> list[tuple[str, str, int | None]]:
    found = Recording.objects.order_by("pk")
    return [(one.performers, one.label, one.duration.seconds if one.duration else None) for one in found]


def test_form_sent_back_unchanged_changes_nothing(browser: Client, work: Work) -> None:
    rows = list(Recording.objects.values())

    sent(browser, work)

    assert list(Recording.objects.values()) == rows


def test_recordings_are_added_changed_and_taken_off_and_the_published_duration_stays(
    browser: Client, work: Work
) -> None:
    new = {"recordings-1-performers": "Ada Quill", "recordings-1-released": "2021", "recordings-1-duration": "9:58"}
    sent(browser, work, **{"recordings-0-duration": "10′20″", **new})

    assert recordings() == [("Kestrel Ensemble", "Slate Records", 620), ("Ada Quill", "", 598)]

    sent(browser, work, **{f"recordings-0-{name}": "" for name in ("performers", "label", "number", "duration")})

    assert recordings() == [("Ada Quill", "", 598)]
    work.refresh_from_db()
    assert work.duration == Duration(600)


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ({"recordings-0-performers": ""}, "Name who plays."),
        (
            {"recordings-0-duration": "0:00"},
            "A duration is longer than nothing; leave it empty where it is not known.",
        ),
        ({"recordings-0-duration": "12"}, "Say whether 12 is minutes or seconds: write 12′, 12 min or 12 s."),
    ],
)
def test_a_recording_that_cannot_be_so_is_refused_beside_its_field(
    browser: Client, work: Work, typed: dict[str, str], reason: str
) -> None:
    page = sent(browser, work, **typed)

    assert page.wrong == [reason]
    assert recordings() == [("Kestrel Ensemble", "Slate Records", 612)]
    assert {name: page.field(name) for name in typed} == typed


def test_without_a_script_a_row_is_added(browser: Client, work: Work) -> None:
    page = sent(browser, work, another="1", **{"recordings-1-performers": "Ada Quill"})

    assert (page.field("recordings-1-performers"), page.field("recordings-2-performers")) == ("Ada Quill", "")
    assert recordings() == [("Kestrel Ensemble", "Slate Records", 612)]


def test_the_second_of_two_who_save_is_told_and_keeps_what_was_typed(browser: Client, work: Work) -> None:
    typed = opened(browser, work)
    work.refresh_from_db()
    save_work(work=work, now=NOW)

    page = Page(browser.post(address(work), {**typed, "recordings-0-label": "Loft Hatch Records"}))

    assert page.field("recordings-0-label") == "Loft Hatch Records"
    assert len(page.texts(f"{with_class('summary')}//li")) == 1
    assert recordings() == [("Kestrel Ensemble", "Slate Records", 612)]


def test_number_of_queries_does_not_grow_with_the_recordings(browser: Client, work: Work) -> None:
    found = []
    for _time in range(2):
        with CaptureQueriesContext(connection) as queries:
            browser.get(address(work))
        found.append(len(queries))
        for number in range(4):
            make_recording(work, number=str(number))

    assert found[0] == found[1]
