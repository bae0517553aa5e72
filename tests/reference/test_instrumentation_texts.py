"""Published scoring lines against readings made by hand; the sources stand in the data, row by row."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pytest

from catalogue.instrumentation import Instrumentation, InstrumentationError, Line, read, shorthand

DATA = Path(__file__).parent / "instrumentation"
ROWS = [json.loads(line) for line in (DATA / "texts.jsonl").read_text(encoding="utf-8").splitlines()]
INVENTED = [json.loads(line) for line in (DATA / "invented.jsonl").read_text(encoding="utf-8").splitlines()]
BLIND = [json.loads(line) for line in (DATA / "blind.jsonl").read_text(encoding="utf-8").splitlines()]
FIRM = [row for row in ROWS if not row["ambiguous"]]
OPEN = [row for row in ROWS if row["ambiguous"]]
SECTIONS = ("violin-1", "violin-2", "violin", "viola", "cello", "double-bass")


def points(reading: Instrumentation) -> dict[str, object]:
    """Return what the rows tell of a text: players, doublings, strings, percussion, soloists, voices, electronics."""
    voices = [line for line in reading if line.family == "voice"]
    soloists = [line for line in reading if line.role == "soloist" and line.family != "voice"]
    others = [line for line in reading if line not in voices and line not in soloists]
    return {
        "players": dict(+sum((players_of(line) for line in others if is_counted_by_name(line)), Counter())),
        "doublings": dict(sum((doublings_of(line) for line in [*others, *soloists]), Counter())),
        "strings": strings_of(others),
        "percussion": percussion_of(others),
        "timpani": sum(most_of(line) or 1 for line in others if line.instrument == "timpani"),
        "soloists": dict(sum((Counter({line.instrument: most_of(line) or 1}) for line in soloists), Counter())),
        "solo_voices": sum(most_of(line) or 1 for line in voices if not line.instrument.startswith("choir")),
        "choir": any(line.instrument.startswith("choir") for line in voices),
        "electronics": reading.electronics,
    }


def most_of(line: Line) -> int | None:
    return None if line.players is None else line.players[1]


def is_counted_by_name(line: Line) -> bool:
    return line.instrument not in (*SECTIONS, "percussion", "timpani")


def players_of(line: Line) -> Counter[str]:
    chairs = Counter(chair.plays[0] for chair in line.chairs)
    rest = (most_of(line) or 0) - chairs.total()
    return chairs + Counter({line.instrument: max(rest, 0)})


def doublings_of(line: Line) -> Counter[str]:
    return Counter(slug for chair in line.chairs for slug in chair.plays[1:])


def strings_of(lines: list[Line]) -> object:
    sections = [line for line in lines if line.instrument in SECTIONS]
    counted = Counter()
    for line in sections:
        counted[line.instrument] += most_of(line) or 0
    return dict(+counted) or ("unspecified" if sections else None)


def percussion_of(lines: list[Line]) -> object:
    """Return (least, most) of the percussionists, ``None`` where they are not counted."""
    found = [line for line in lines if line.instrument == "percussion"]
    if any(line.players is None for line in found):
        return None
    return sum(line.players[0] for line in found if line.players), sum(most_of(line) or 0 for line in found)


def differences(row: dict[str, object], reading: Instrumentation) -> dict[str, tuple[object, object]]:
    """Return what the reading tells otherwise than the row, (row, reading) by point."""
    read_points = points(reading)
    found = {}
    for point, got in read_points.items():
        want = row[point]
        if not agrees(point, want, got):
            found[point] = (want, got)
    return found


def agrees(point: str, want: object, got: object) -> bool:
    if point in ("percussion", "timpani") and want is None:
        return True
    if point == "percussion" and isinstance(got, tuple):
        return want in got
    if point == "electronics" and want == "unspecified":
        return got != "none"
    if point == "strings" and isinstance(want, dict) and isinstance(got, dict):
        return undivided(want) == undivided(got)
    return want == got


def undivided(strings: dict[str, int]) -> Counter[str]:
    """Return the strings with both violins as one: not every text tells them apart."""
    return sum((Counter({slug.split("-1")[0].split("-2")[0]: number}) for slug, number in strings.items()), Counter())


def test_texts_are_there():
    assert len(FIRM) > 140
    assert len(OPEN) > 35


@pytest.mark.parametrize("row", FIRM, ids=lambda row: row["id"])
def test_text_is_read_as_by_hand(row):
    assert differences(row, read(row["text"])) == {}


@pytest.mark.parametrize("row", OPEN, ids=lambda row: row["id"])
def test_open_text_is_read_as_by_hand_or_with_a_remark_or_refused(row):
    reading = reading_of(row["text"])

    assert reading is None or differences(row, reading) == {} or reading.warnings != ()


def reading_of(text: str) -> Instrumentation | None:
    try:
        return read(text)
    except InstrumentationError:
        return None


@pytest.mark.parametrize("row", [row for row in FIRM if row["total"] is not None], ids=lambda row: row["id"])
def test_text_has_the_stated_number_of_players(row):
    players = read(row["text"]).players

    assert players is not None
    assert players[0] <= row["total"] <= players[1]


def test_few_firm_texts_come_with_a_remark():
    remarked = [row["id"] for row in FIRM if read(row["text"]).warnings]

    assert len(remarked) <= len(FIRM) // 5


@pytest.mark.parametrize("row", FIRM, ids=lambda row: row["id"])
def test_canonical_shorthand_reads_back_to_the_same_lines(row):
    reading = read(row["text"])

    assert read(shorthand(reading)).lines == reading.lines


def read_otherwise(rows: list[dict[str, object]]) -> dict[str, object]:
    """Return the rows that are read otherwise than they say, those that are open only where no remark tells so."""
    found = {}
    for row in rows:
        reading = read(str(row["text"]))
        told = differences(row, reading)
        if told and not (row["ambiguous"] and reading.warnings):
            found[str(row["id"])] = told
    return found


def test_every_eighth_invented_text_is_read_as_by_hand():
    assert read_otherwise(INVENTED[::8]) == {}


def test_blind_texts_are_read_as_by_hand():
    assert len(BLIND) >= 190
    assert read_otherwise(BLIND) == {}


@pytest.mark.slow
def test_invented_texts_are_read_as_by_hand():
    assert len(INVENTED) > 400
    assert read_otherwise(INVENTED) == {}
