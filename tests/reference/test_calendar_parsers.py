"""The calendar read back by four parsers that are not the library it is written with; two of them in JavaScript.

They are general-purpose open-source libraries: vobject 0.9 and ics 0.7 of the Python registry, ical.js 2.2 and
node-ical 0.27 of the npm registry, in a folder that the environment names as ICS_PARSERS. RFC 5545 is what all read.
"""

from __future__ import annotations

import importlib.util
import json
import os
import shutil
import subprocess
from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from random import Random
from typing import Any
from uuid import UUID

import pytest

from catalogue.facts import DeadlineFacts, PerformanceFacts
from catalogue.feeds.calendar import calendar_bytes
from catalogue.terms import PerformanceStatus
from catalogue.timing import PartialDate, moment_at
from tests.fact_makers import make_catalogue, make_event, make_venue

pytestmark = pytest.mark.slow

NOW = datetime(2026, 6, 1, 12, 0, tzinfo=UTC)
PACKAGES = os.environ.get("ICS_PARSERS", "")
READER = Path(__file__).with_name("read_calendar.mjs")
Row = dict[str, str | None]


def timed(id_: int, day: date, clock: time, zone: str, **fields: Any) -> PerformanceFacts:
    return make_event(id_, PartialDate.of(day), time=clock, zone=zone, starts_at=moment_at(day, clock, zone), **fields)


EVENTS = (
    timed(1, date(2026, 7, 1), time(19, 30), "Europe/Vienna"),
    timed(2, date(2026, 10, 25), time(18), "Europe/London", event_title="Autumn; a night, with \\ backslash"),
    timed(3, date(2027, 3, 28), time(11), "Asia/Tokyo", event_title="能の夜", venue=make_venue("Ωδείο, αίθουσα 2")),
    timed(4, date(2027, 4, 4), time(20), "Australia/Adelaide", status=PerformanceStatus.CANCELLED),
    timed(5, date(2026, 12, 31), time(23, 30), "Pacific/Kiritimati", status=PerformanceStatus.PLANNED),
    make_event(6, PartialDate(2026, 8, 15), event_title="A title of more than seventy-five octets, " * 4),
    make_event(7, PartialDate(2028, 2, 29), event_title="ليلة الموسيقى"),
)
DEADLINE = DeadlineFacts(
    id=1,
    uid=UUID(int=77),
    title="call for wind quintets",
    organiser="Tollgate Winds",
    day=date(2026, 9, 1),
    closes_at=datetime(2026, 9, 1, 22, 59, tzinfo=UTC),
    local="2026-09-01 23:59 Europe/London",
    changed_at=NOW,
    sequence=0,
)


@pytest.fixture(scope="module")
def content() -> bytes:
    return calendar_bytes(make_catalogue(*EVENTS), name="Ada Quill", now=NOW, deadlines=(DEADLINE,))


@pytest.fixture(scope="module")
def expected() -> list[Row]:
    deadline: Row = {"uid": f"{DEADLINE.uid}@ledgerline.invalid", "start": moment(DEADLINE.closes_at)}
    return in_order([*rows_of(EVENTS), {**deadline, "status": "CONFIRMED"}])


def rows_of(events: Iterable[PerformanceFacts]) -> list[Row]:
    statuses = {PerformanceStatus.CANCELLED: "CANCELLED", PerformanceStatus.PLANNED: "TENTATIVE"}
    return [
        {
            "uid": f"{one.uid}@ledgerline.invalid",
            "start": moment(one.starts_at) if one.starts_at else one.date.first.isoformat(),
            "end": moment(one.starts_at + timedelta(hours=2))
            if one.starts_at
            else (one.date.first + timedelta(days=1)).isoformat(),
            "status": statuses.get(one.status, "CONFIRMED"),
        }
        for one in events
    ]


ZONES = (
    "Europe/Vienna",
    "Europe/London",
    "Asia/Tokyo",
    "Asia/Kathmandu",
    "Australia/Adelaide",
    "America/St_Johns",
    "UTC",
)
TITLES = (
    "Night",
    "a, b; c \\ d",
    "能の夜",
    "ليلة الموسيقى",
    "Ωδή " * 30,
    "\U0001d11e",
    "BEGIN:VEVENT",
    "x:y",
    '"q"',
    "a\nb",
)


def drawn(number: int) -> tuple[PerformanceFacts, ...]:
    """Return the events of one of many calendars: up to six, with what comes by chance and the same each time."""
    chance = Random(number)  # noqa: S311
    return tuple(event_by_chance(place, chance) for place in range(1, 1 + chance.randrange(7)))


def event_by_chance(number: int, chance: Random) -> PerformanceFacts:
    day = date(2025, 7, 1) + timedelta(days=chance.randrange(4500))
    statuses = (PerformanceStatus.PLANNED, PerformanceStatus.CONFIRMED, PerformanceStatus.CANCELLED)
    told: dict[str, Any] = {"status": chance.choice(statuses), "event_title": chance.choice(TITLES)}
    if day < NOW.date():
        told["status"] = PerformanceStatus.CONFIRMED
    if chance.random() < 0.3:
        return make_event(number, PartialDate.of(day), **told)
    return timed(number, day, time(chance.randrange(24), chance.choice((0, 15, 30))), chance.choice(ZONES), **told)


def moment(at: datetime) -> str:
    return f"{at.astimezone(UTC):%Y-%m-%dT%H:%M:%S}Z"


def in_order(rows: list[Row]) -> list[Row]:
    return sorted(rows, key=lambda row: str(row["uid"]))


def bare(rows: list[Row]) -> list[Row]:
    """Leave the words out, and the end of what has none of its own: parsers fill it in each in its way."""
    wanted = ("uid", "start", "end", "status")
    return in_order(
        [{key: row[key] for key in wanted if key != "end" or row["uid"][:36] != str(DEADLINE.uid)} for row in rows]
    )


def summaries(content: bytes) -> list[str]:
    lines = content.replace(b"\r\n ", b"").decode().split("\r\n")
    escaped = [line.partition(":")[2] for line in lines if line.startswith("SUMMARY")]
    return sorted(text.replace("\\,", ",").replace("\\;", ";").replace("\\\\", "\\") for text in escaped)


def by_vobject(content: bytes) -> list[Row]:
    vobject = pytest.importorskip("vobject")
    events = vobject.readOne(content.decode()).vevent_list
    return [
        {
            "uid": event.uid.value,
            "start": day_or_moment(event.dtstart.value),
            "end": day_or_moment(event.dtend.value) if hasattr(event, "dtend") else None,
            "summary": event.summary.value,
            "status": event.status.value,
        }
        for event in events
    ]


def day_or_moment(value: date | datetime) -> str:
    return moment(value) if isinstance(value, datetime) else value.isoformat()


def by_ics(content: bytes) -> list[Row]:
    ics = pytest.importorskip("ics")
    return [
        {
            "uid": event.uid,
            "start": event.begin.date().isoformat() if event.all_day else moment(event.begin.datetime),
            "end": event.end.date().isoformat() if event.all_day else moment(event.end.datetime),
            "summary": event.name,
            "status": event.status,
        }
        for event in ics.Calendar(content.decode()).events
    ]


@pytest.mark.parametrize("reader", [by_vobject, by_ics])
@pytest.mark.filterwarnings("ignore")  # what other people's libraries warn of is not ours
def test_python_parsers_read_what_was_written(content: bytes, expected: list[Row], reader: Any) -> None:
    rows = reader(content)

    assert bare(rows) == expected
    assert sorted(str(row["summary"]) for row in rows) == summaries(content)


NO_NODE = not PACKAGES or not shutil.which("node")
NOT_THERE = "No JavaScript parsers are there (ICS_PARSERS)."


@pytest.fixture(scope="module")
def many() -> list[tuple[bytes, list[Row]]]:
    """Three hundred calendars, each with what is to be read in it."""
    made = [drawn(number) for number in range(300)]
    return [
        (calendar_bytes(make_catalogue(*events), name="Ada Quill", now=NOW), in_order(rows_of(events)))
        for events in made
    ]


@pytest.mark.parametrize("reader", [by_vobject, by_ics])
@pytest.mark.filterwarnings("ignore")
def test_python_parsers_read_three_hundred_calendars(many: list[tuple[bytes, list[Row]]], reader: Any) -> None:
    for content, rows in many:
        if rows:
            found = reader(content)
            assert (bare(found), sorted(str(row["summary"]) for row in found)) == (rows, summaries(content))


@pytest.mark.skipif(NO_NODE, reason=NOT_THERE)
def test_javascript_parsers_read_three_hundred_calendars(many: list[tuple[bytes, list[Row]]], tmp_path: Path) -> None:
    files = [tmp_path / f"{number}.ics" for number in range(len(many))]
    for file, (content, _rows) in zip(files, many, strict=True):
        file.write_bytes(content)

    for found, (content, rows) in zip(by_javascript(*files), many, strict=True):
        assert {name: bare(read) for name, read in found.items()} == {"ical.js": rows, "node-ical": rows}
        assert sorted(row["summary"] for row in found["ical.js"]) == summaries(content)


def by_javascript(*files: Path) -> list[dict[str, list[Row]]]:
    zone = {**os.environ, "TZ": "America/St_Johns"}  # a reader elsewhere sees the same moments
    told = subprocess.run(["node", READER, PACKAGES, *files], check=True, capture_output=True, env=zone, timeout=60)
    found: list[dict[str, list[Row]]] = json.loads(told.stdout)
    return found


@pytest.mark.skipif(NO_NODE, reason=NOT_THERE)
def test_javascript_parsers_read_what_was_written(content: bytes, expected: list[Row], tmp_path: Path) -> None:
    file = tmp_path / "calendar.ics"
    file.write_bytes(content)

    (found,) = by_javascript(file)

    assert sorted(found) == ["ical.js", "node-ical"]
    for rows in found.values():
        assert bare(rows) == expected
        assert sorted(row["summary"] for row in rows) == summaries(content)


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("package", ["vobject", "ics"])
def test_empty_calendar_is_read(package: str) -> None:
    if importlib.util.find_spec(package) is None:
        pytest.skip(f"{package} is not installed (requirements-full.lock).")
    empty = calendar_bytes(make_catalogue(), name="Ada Quill", now=NOW).decode()
    module = importlib.import_module(package)

    read = module.readOne(empty) if package == "vobject" else module.Calendar(empty)

    assert not getattr(read, "events", None)
    assert not getattr(read, "vevent_list", None)
