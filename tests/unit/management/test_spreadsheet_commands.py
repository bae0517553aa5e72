from __future__ import annotations

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command
from icalendar import Calendar

from catalogue.management.base import UnusableInput
from catalogue.models import Composer, Performance, ProgrammedWork, Work
from tests.unit.exchange.spreadsheets import make_csv, make_xlsx

pytestmark = pytest.mark.django_db

WORKS = make_csv(("title", "Composed", "colour"), ("Slack Rope", "1998", "blue"), ("Bore", "2001", ""))


def run(*arguments: str) -> str:
    out = StringIO()
    call_command(*arguments, stdout=out)
    return out.getvalue()


@pytest.fixture
def works_file(tmp_path: Path) -> Path:
    path = tmp_path / "works.csv"
    path.write_bytes(WORKS)
    return path


def test_import_reports_rows_and_unknown_columns(composer: Composer, works_file: Path) -> None:
    report = json.loads(run("import", str(works_file), "--json"))

    assert report == {
        "rows": 2, "new": 2, "changed": 0, "same": 0, "errors": [], "warnings": [], "unknown_columns": ["colour"],
    }  # fmt: skip
    assert json.loads(run("import", str(works_file), "--json"))["same"] == 2


def test_import_says_in_words_what_it_did(composer: Composer, works_file: Path) -> None:
    assert run("import", str(works_file)).splitlines() == [
        "CSV, letters as utf-8, “,” between the cells.",
        "Kept as notes: colour.",
        "2 works read: 2 new, 0 changed, 0 same.",
    ]


def test_trial_run_stores_nothing(composer: Composer, works_file: Path) -> None:
    assert run("import", str(works_file), "--dry-run").endswith("Nothing has been stored.\n")
    assert not Work.objects.exists()


def test_import_with_an_error_stores_nothing_and_exits_with_2(composer: Composer, tmp_path: Path) -> None:
    path = tmp_path / "works.csv"
    path.write_bytes(make_csv(("title", "Composed"), ("Ebb", "1998"), ("Flood", "one day")))
    out = StringIO()

    with pytest.raises(UnusableInput) as caught:
        call_command("import", str(path), "--json", stdout=out)

    [error] = json.loads(out.getvalue())["errors"]
    assert (error["row"], error["column"], caught.value.returncode) == (3, "Composed", 2)
    assert str(caught.value) == f"Row 3, Composed: {error['message']}"
    assert not Work.objects.exists()


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"\0\0", "This is no spreadsheet; CSV, XLSX and ODS are read."),
        (b"a,b\n1,2", "No column is called “title” or “work”"),
    ],
)
def test_file_that_is_no_table_is_refused(composer: Composer, tmp_path: Path, content: bytes, reason: str) -> None:
    path = tmp_path / "works.csv"
    path.write_bytes(content)
    out = StringIO()

    with pytest.raises(UnusableInput, match=reason):
        call_command("import", str(path), "--json", stdout=out)

    assert json.loads(out.getvalue())["errors"][0]["message"].startswith(reason)


def test_missing_file_is_refused(composer: Composer, tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match="cannot be opened: No such file or directory"):
        run("import", str(tmp_path / "none.csv"))


def test_bare_durations_are_minutes_where_the_caller_says_so(composer: Composer, tmp_path: Path) -> None:
    path = tmp_path / "works.xlsx"
    path.write_bytes(make_xlsx({"Works": [["title", "length"], ["Ebb", 12]]}))

    assert "import again with --bare-durations" in run("import", str(path))
    run("import", str(path), "--bare-durations", "minutes")

    assert str(Work.objects.get().duration) == "12′"


@pytest.mark.parametrize("suffix", [".csv", ".xlsx"])
def test_export_writes_what_import_reads(composer: Composer, works_file: Path, suffix: str) -> None:
    run("import", str(works_file))
    path = works_file.with_name(f"out{suffix}")

    said = run("export", str(path))

    assert said == f"{path} written.\n"
    assert json.loads(run("import", str(path), "--json"))["same"] == 2


def test_export_refuses_a_name_it_cannot_write(composer: Composer, tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match=r"has to end with \.csv, \.xlsx or \.ods"):
        run("export", str(tmp_path / "works.txt"))
    with pytest.raises(UnusableInput, match="cannot be written"):
        run("export", str(tmp_path / "none" / "works.csv"))


PERFORMANCES = make_csv(
    ("work", "date", "city", "country", "billing", "status"),
    ("Slack Rope", "1990-05-01", "Linz", "AT", "", "given"),
    ("Slack Rope", "1991-05-01", "Graz", "AT", "World premiere", "given"),
    ("Bore", "1992", "Bergen", "NO", "", "cancelled"),
)


@pytest.fixture
def history(composer: Composer, tmp_path: Path) -> None:
    path = tmp_path / "performances.csv"
    path.write_bytes(PERFORMANCES)
    run("import", str(path))


def test_premieres_are_told_in_date_order(history: None) -> None:
    rows = json.loads(run("premieres", "--json"))

    assert rows[0] == {
        "composer": "Ilka Marovand",
        "work": "Slack Rope",
        "version": "",
        "date": "1990-05-01",
        "city": "Linz",
        "country": "AT",
        "reckoned": ["world", "national", "city"],
        "wording": "world premiere",
        "contradicts": None,
    }
    assert [(row["date"], row["reckoned"]) for row in rows[1:]] == [("1991-05-01", ["city"]), ("1992", [])]
    assert rows[1]["contradicts"].startswith("Billed as “World premiere”, but these records have an earlier")


def test_premieres_are_told_in_words(history: None) -> None:
    lines = run("premieres").splitlines()

    assert lines[0] == "1990-05-01  Linz, AT  Slack Rope  world premiere"
    assert (
        lines[1] == "1991-05-01  Graz, AT  Slack Rope  first performance in these records (Graz)  "
        "second performance in these records"
    )
    assert lines[2].startswith("    ! Billed as “World premiere”, but")
    assert lines[3] == "1992  Bergen, NO  Bore  It was cancelled and did not take place."


def test_premieres_set_by_hand_are_told_with_their_reason(history: None) -> None:
    by_hand = {"claim_override": "world premiere", "claim_reason": "Linz was a run-through"}
    ProgrammedWork.objects.filter(performance__city="Graz").update(**by_hand)

    rows, lines = json.loads(run("premieres", "--json")), run("premieres").splitlines()

    assert (rows[1]["reckoned"], rows[1]["wording"]) == (["city"], "first performance in these records (Graz)")
    assert lines[3] == "    set by hand: world premiere, because Linz was a run-through"


def test_column_named_override_sets_nothing(composer: Composer, tmp_path: Path) -> None:
    path = tmp_path / "performances.csv"
    path.write_bytes(make_csv(("work", "date", "override"), ("Slack Rope", "1990-05-01", "world premiere")))
    run("import", str(path))

    (item,) = ProgrammedWork.objects.all()
    assert (item.claim_override, "world premiere" in item.performance.notes) == ("", True)


def test_performances_imported_again_leave_what_was_set_by_hand(history: None, tmp_path: Path) -> None:
    by_hand = {"claim_override": "world premiere", "claim_reason": "Linz was a run-through"}
    ProgrammedWork.objects.filter(performance__city="Graz").update(**by_hand)
    path = tmp_path / "again.csv"
    path.write_bytes(PERFORMANCES.replace(b"World premiere", b"Styrian premiere"))
    run("import", str(path))

    stored = ProgrammedWork.objects.values("billing", *by_hand).get(performance__city="Graz")
    assert stored == {"billing": "Styrian premiere", **by_hand}


def test_premieres_of_an_unknown_composer_are_refused(composer: Composer) -> None:
    with pytest.raises(UnusableInput, match="There is no composer “nobody”"):
        run("premieres", "--composer", "nobody")


def test_calendar_is_printed_as_it_is_served(history: None) -> None:
    Performance.objects.filter(city="Graz").update(date="2026-05-01/2026-05-01")

    content = run("calendar")

    calendar = Calendar.from_ical(content)
    [event] = calendar.walk("VEVENT")
    assert str(event["SUMMARY"]) == "Slack Rope"
    assert content.endswith("END:VCALENDAR\r\n")


def test_public_calendar_leaves_out_what_is_not_announced(history: None) -> None:
    Performance.objects.filter(city="Graz").update(date="2026-05-01/2026-05-01", status="planned")

    assert len(Calendar.from_ical(run("calendar")).walk("VEVENT")) == 1
    assert len(Calendar.from_ical(run("calendar", "--public")).walk("VEVENT")) == 0
