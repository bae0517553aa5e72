"""/c/<composer>/import/ and the pages of one import: sent, looked over, kept, undone."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadhandler import SkipFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, ImportBatch, ImportState, Work
from catalogue.timing import Duration
from catalogue.web import following, uploads
from tests.makers import make_work
from tests.unit.exchange.spreadsheets import make_ods, make_xlsx
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/import/"
LIST = "Title,Year,Length,Mood\nSlack Rope,1998,12,calm\nBore,2001,9,\n"


def sent(browser: Client, content: bytes | str, name: str = "works.csv", **fields: str) -> Any:
    file = BytesIO(content.encode() if isinstance(content, str) else content)
    file.name = name
    return browser.post(ADDRESS, {"file": file, **fields})


def page_of_import(browser: Client, asked: str = "") -> Page:
    return Page(browser.get(f"{ADDRESS}{ImportBatch.objects.get().pk}/{asked}"))


def do(browser: Client, what: str, **fields: str) -> Any:
    return browser.post(f"{ADDRESS}{ImportBatch.objects.get().pk}/{what}/", fields)


def rows(page: Page) -> list[str]:
    return page.texts("//section[@id='rows']//tbody/tr")


def test_list_is_looked_over_kept_and_undone(browser: Client, composer: Composer) -> None:
    response = sent(browser, LIST)
    page = Page(browser.get(response.headers["Location"]))

    assert page.text("//h1") == "works.csv"
    assert "2 rows of a works list: 2 new, 0 changed, 0 as they are. Nothing is stored yet." in page.text()
    assert "CSV, letters as utf-8, “,” between the cells; row 1 names the columns" in page.text()
    assert "2 durations are numbers without a unit." in page.text()
    assert Work.objects.count() == 0

    assert do(browser, "read", bare="minutes").headers["Location"] == response.headers["Location"]
    assert rows(page_of_import(browser)) == ["2 Slack Rope new", "3 Bore new"]
    do(browser, "keep")
    assert [work.duration for work in Work.objects.order_by("title")] == [Duration(540), Duration(720)]
    assert Work.objects.get(title="Slack Rope").notes == "Mood: calm"
    kept = page_of_import(browser)
    assert "Stored on 9 Mar 2026, 10:00 UTC." in kept.text()
    assert kept.texts("//section[@id='made']//li") == ["Slack Ropenew", "Borenew"]

    do(browser, "undo")
    assert Work.objects.count() == 0
    assert "Undone on 9 Mar 2026, 10:00 UTC." in page_of_import(browser).text()
    assert page_of_import(browser).texts("//section[@id='made']//li") == [
        "Slack Ropetaken out again",
        "Boretaken out again",
    ]


def test_history_names_who_imported(browser: Client, composer: Composer, editor: User) -> None:
    sent(browser, LIST)
    do(browser, "keep")

    assert {work.history.get().history_user for work in Work.objects.all()} == {editor}


@pytest.mark.parametrize(
    "content",
    [
        make_xlsx({"Works": [("Title", "Year"), ("Slack Rope", 1998), ("Bore", 2001)]}),
        make_ods([("Title", "Year"), ("Slack Rope", "1998"), ("Bore", "2001")]),
    ],
    ids=["xlsx", "ods"],
)
def test_other_kinds_of_spreadsheet_are_read(browser: Client, composer: Composer, content: bytes) -> None:
    sent(browser, content, "works.xlsx")

    assert "2 rows of a works list: 2 new" in page_of_import(browser).text()


def test_rows_with_errors_stand_in_the_way(browser: Client, composer: Composer) -> None:
    sent(browser, "title,year\nSlack Rope,1998-13\nBore,2001\n")
    page = page_of_import(browser)

    assert page.wrong == ["year: There is no month 13."]
    assert "Store all of it" not in page.text()
    do(browser, "keep")
    assert Work.objects.count() == 0


def test_changes_stand_beside_what_is_there(browser: Client, composer: Composer) -> None:
    make_work("Bore", composer=composer, completed="2000")
    sent(browser, LIST)

    assert rows(page_of_import(browser, "?show=changed")) == ["3 Bore changed year: 2000 → 2001 duration: – → 9"]
    assert [tab.split()[0] for tab in page_of_import(browser).texts("//nav[contains(@class,'asked')]/a")] == [
        "All", "New", "Changed", "With",
    ]  # fmt: skip


MIXED = "Composer,Title\nIlka Marovand,Slack Rope\nAda Quill,Bore\nPell Tarrowick,Ebb\n,Flood\n"


def test_rows_of_other_composers_go_to_catalogues_of_their_own_where_that_is_said(
    browser: Client, composer: Composer, other_composer: Composer, editor: User
) -> None:
    sent(browser, MIXED)
    assert "2 rows name other composers than Ilka Marovand." in page_of_import(browser).text()
    assert "Store all of it" not in page_of_import(browser).text()

    do(browser, "read", others="own")
    assert [row[2:] for row in rows(page_of_import(browser))][:1] == ["Slack Rope new"]
    assert (Work.objects.count(), Composer.objects.count()) == (0, 2)
    do(browser, "keep")

    kept = page_of_import(browser)
    assert "It added 2 catalogues: " in kept.text()
    whose = {work.title: work.composer for work in Work.objects.select_related("composer")}
    assert {title: one.name for title, one in whose.items()} == {
        "Slack Rope": "Ilka Marovand", "Bore": "Ada Quill", "Ebb": "Pell Tarrowick", "Flood": "Ilka Marovand",
    }  # fmt: skip
    # A catalogue of that name that is somebody else's is left alone.
    assert whose["Ebb"] != other_composer
    for address in kept.values("//section[@id='made']//a/@href"):
        assert browser.get(address).status_code == 200

    do(browser, "undo")
    assert Work.objects.count() == 0
    assert "A catalogue stays, without what is undone." in page_of_import(browser).text()


def test_import_into_several_catalogues_is_its_makers_alone(
    browser: Client, composer: Composer, owner: User, signed_in: Callable[[User], Client]
) -> None:
    sent(browser, MIXED)
    do(browser, "read", others="own")

    colleague = signed_in(owner)
    assert colleague.get(f"{ADDRESS}{ImportBatch.objects.get().pk}/").status_code == 404
    assert "works.csv" not in Page(colleague.get(ADDRESS)).text()
    assert "works.csv" in Page(browser.get(ADDRESS)).text()


def test_what_lies_in_a_catalogue_that_is_closed_by_now_is_not_undone(
    browser: Client, composer: Composer, editor: User
) -> None:
    sent(browser, MIXED)
    do(browser, "read", others="own")
    do(browser, "keep")
    editor.memberships.filter(composer__name="Ada Quill").delete()

    do(browser, "undo")

    assert [work.title for work in Work.objects.all()] == ["Bore"]
    assert "Not undone: You may no longer change its catalogue." in page_of_import(browser).text()


def test_columns_are_corrected_by_hand(browser: Client, composer: Composer) -> None:
    sent(browser, "Title,Hue,Mood\nSlack Rope,blue,calm\n")
    fields = {"column-0": "title", "column-1": "subtitle", "column-2": "-"}

    do(browser, "read", kind="works", dates="en-GB", encoding="", delimiter="", **fields)
    page = page_of_import(browser)
    do(browser, "keep")

    assert [page.field(name) for name in fields] == ["title", "subtitle", "-"]
    assert (Work.objects.get().subtitle, Work.objects.get().notes) == ("blue", "")


def test_reading_it_so_that_no_title_is_left_says_so_and_changes_nothing(browser: Client, composer: Composer) -> None:
    sent(browser, LIST)

    page = Page(do(browser, "read", delimiter="|"))

    assert "No column is called “title” or “work”" in page.text(with_class("summary"))
    assert page_of_import(browser).text("//h1") == "works.csv"


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        ("", "This file is empty."),
        ("Ebb\n", "No column is called “title” or “work”; the first row has to name the columns."),
        (b"PK\x03\x04 no zip", "This file is damaged and cannot be unpacked."),
        (b"\xd0\xcf\x11\xe0", "This is a spreadsheet of an old kind or with a password; save it as XLSX, ODS or CSV."),
        ("title," + "x," * 300, "Row 1 has more than 200 columns."),
        ("title\n" + "Ebb\n" * 20_001, "This table has more than 20,000 rows; divide it."),
    ],
)
def test_what_is_no_table_is_refused_at_the_field(
    browser: Client, composer: Composer, content: bytes | str, reason: str
) -> None:
    page = Page(sent(browser, content))

    assert page.wrong == [reason]
    assert not ImportBatch.objects.exists()


def test_file_that_is_too_large_is_dropped_while_it_comes_in(
    browser: Client, composer: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(uploads, "MOST_BYTES", 100_000)

    page = Page(sent(browser, "title\n" + "Ebb\n" * 40_000))

    assert page.wrong == ["This file is larger than 20 MB."]


def test_twenty_megabytes_are_taken_and_not_one_byte_more() -> None:
    handler = uploads.BoundedUploads()
    handler.new_file("file", "rows.csv", "text/csv", None)
    for number in range(20):
        assert len(handler.receive_data_chunk(bytes(10**6), number * 10**6)) == 10**6

    with pytest.raises(SkipFile):
        handler.receive_data_chunk(b"x", 20 * 10**6)


def test_no_file_is_asked_for(browser: Client, composer: Composer) -> None:
    assert Page(browser.post(ADDRESS, {})).wrong == ["This field is required."]


def test_long_list_is_followed_while_it_is_done(
    browser: Client, composer: Composer, editor: User, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(following, "AT_ONCE", 1)

    answer = sent(browser, LIST)
    told = b"".join(answer.streaming_content).decode()
    assert (answer.streaming, "1 of 2" in told, "2 of 2" in told, told.rstrip().endswith("</html>")) == (True,) * 4
    assert "3 rows" not in told
    b"".join(do(browser, "keep").streaming_content)
    assert ImportBatch.objects.get().state == ImportState.KEPT
    assert {work.history.get().history_user for work in Work.objects.all()} == {editor}


@pytest.mark.django_db(transaction=True)  # an answer that is left shuts the database
def test_list_that_is_left_midway_stores_nothing_and_says_so(
    browser: Client, composer: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(following, "AT_ONCE", 1)

    leave(sent(browser, LIST), after="1 of 2")
    assert "This table was not read to its end" in page_of_import(browser).text()
    do(browser, "drop")

    b"".join(sent(browser, LIST).streaming_content)
    leave(do(browser, "keep"), after="1 of 2")
    assert (Work.objects.count(), ImportBatch.objects.get().state) == (0, ImportState.READ)
    assert "Nothing is stored yet." in page_of_import(browser).text()


def leave(answer: Any, *, after: str) -> None:
    """Close the connection once the answer has said so much."""
    assert any(after in piece.decode() for piece in answer.streaming_content)
    answer.close()


def test_import_is_kept_once_however_often_it_is_sent(browser: Client, composer: Composer) -> None:
    sent(browser, LIST)
    do(browser, "keep")
    do(browser, "keep")
    do(browser, "read", bare="minutes")
    do(browser, "drop")

    assert (Work.objects.count(), ImportBatch.objects.count()) == (2, 1)


def test_thrown_away_nothing_is_left(browser: Client, composer: Composer) -> None:
    sent(browser, LIST)
    do(browser, "drop")

    assert not ImportBatch.objects.exists()


def test_pages_ask_the_database_as_often_for_many_rows(browser: Client, composer: Composer) -> None:
    def asked(address: str) -> int:
        with CaptureQueriesContext(connection) as queries:
            browser.get(address)
        return len(queries)

    sent(browser, "title\nEbb\n")
    do(browser, "keep")
    address = f"{ADDRESS}{ImportBatch.objects.get().pk}/"
    few = asked(address)
    ImportBatch.objects.all().delete()
    sent(browser, "title\n" + "".join(f"Piece {number}\n" for number in range(60)))
    address = f"{ADDRESS}{ImportBatch.objects.get().pk}/"
    waiting = asked(address)
    do(browser, "keep")

    assert (waiting, few, asked(address)) == (4, 8, 8)
