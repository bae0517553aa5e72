"""Calls for works as composers find them: what is read from the text, and what each work is against it.

The texts, the catalogue and the verdicts are invented. ``calls/verdicts.jsonl`` holds what a careful person enters for
each text and concludes for each of 24 works; ``calls/own.json`` further texts in other wordings and layouts, with the
works that are not refused; ``calls/further.json`` what is read from more of them. A no lists every condition that
fails, a cannot tell those that are unknown.
"""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from catalogue.exchange.columns import Kind
from catalogue.exchange.importing import Wish, import_table
from catalogue.exchange.tables import read_table
from catalogue.exchange.work_rows import Reading
from catalogue.facts import CatalogueFacts
from catalogue.gathering import gather_catalogue
from catalogue.models import Composer
from catalogue.rules.calls.plain_values import call_of, call_values
from catalogue.rules.calls.reading import read_call
from catalogue.rules.calls.screening import screen
from catalogue.rules.calls.terms import Call
from catalogue.rules.calls.verdicts import Verdict
from catalogue.timing import read_date

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
HERE = Path(__file__).parent / "calls"
VERDICTS = [json.loads(line) for line in (HERE / "verdicts.jsonl").read_text(encoding="utf-8").splitlines()]
OWN = json.loads((HERE / "own.json").read_text(encoding="utf-8"))
FURTHER = json.loads((HERE / "further.json").read_text(encoding="utf-8"))


@cache
def call_in(name: str) -> Call:
    return read_call((HERE / "texts" / name).read_text(encoding="utf-8")).call


@pytest.fixture
def catalogue(db: None) -> CatalogueFacts:
    """The 24 works of an invented composer, born 1991-03-07 in Leeds and living in Ghent."""
    return imported()


@cache
def imported() -> CatalogueFacts:
    for kind in (Kind.WORKS, Kind.PERFORMANCES):
        table = read_table((HERE / f"{kind}.csv").read_bytes(), sheet_called=[kind])
        import_table(table, Wish(None, NOW, Reading(), kind=kind))
    found = gather_catalogue(Composer.objects.get())
    person = replace(found.composer, born=read_date("1991-03-07"), birthplace="Leeds", country="BE")
    return replace(found, composer=person)


def read_fields(call: Call) -> dict[str, Any]:
    """Return a call's fields by the names of the file."""
    age = call.age
    moment = call.deadline.isoformat() if call.deadline else str(call.deadline_day)
    return {
        "kind": str(call.kind),
        "deadline": moment,
        "forces_rule": str(call.forces.rule),
        "players_min": call.forces.players_min,
        "players_max": call.forces.players_max,
        "duration_min_s": call.duration_min,
        "duration_max_s": call.duration_max,
        "duration_strict": call.duration_strict,
        "duration_tolerance_s": call.duration_tolerance,
        "works_min": call.works_min,
        "works_max": call.works_max,
        "total_duration_min_s": call.total_min,
        "total_duration_max_s": call.total_max,
        "composed_after": call.composed_from and str(call.composed_from),
        "unperformed_required": call.unperformed,
        "unpublished_required": call.unpublished,
        "age_limit": age and age.limit,
        "age_on": age and age.on and str(age.on),
        "born_after": (age and age.after and str(age.born)) or None,
        "electronics": call.electronics and str(call.electronics),
        "channels_max": call.channels_max,
        "anonymous": call.anonymous,
        "recording": call.recording and str(call.recording),
        "note_words_max": call.note_words,
    }


# What the texts say of the number of players only by their list of forces is not entered twice.
BY_THE_LIST = {
    ("03.txt", "players_min"),
    ("03.txt", "players_max"),
    ("10.txt", "players_min"),
    ("10.txt", "players_max"),
}


@pytest.mark.parametrize("row", VERDICTS, ids=lambda row: row["text"])
def test_the_fields_of_a_call_are_read_from_its_text(row: dict[str, Any]) -> None:
    found = read_fields(call_in(row["text"]))

    wrong = {name: (found[name], wanted) for name, wanted in row["fields"].items() if found[name] != wanted}

    assert {name: one for name, one in wrong.items() if (row["text"], name) not in BY_THE_LIST} == {}


@pytest.mark.parametrize("row", VERDICTS, ids=lambda row: row["text"])
def test_each_work_gets_the_verdict_of_a_careful_person(row: dict[str, Any], catalogue: CatalogueFacts) -> None:
    found = screen(call_in(row["text"]), catalogue)

    verdicts = {
        one.work.title.title: [str(one.verdict), sorted(judged.condition for judged in one.deciding)]
        for one in found.works
    }
    assert verdicts == row["works"]


@pytest.mark.parametrize("name", list(OWN))
def test_texts_in_other_wordings_are_read_too(name: str, catalogue: CatalogueFacts) -> None:
    values = call_values(call_in(name))
    found = screen(call_in(name), catalogue)

    assert among(values, OWN[name]["fields"]) == OWN[name]["fields"]
    for verdict in (Verdict.YES, Verdict.CANNOT_TELL):
        assert [one.work.title.title for one in found.of(verdict)] == OWN[name][str(verdict)]


@pytest.mark.parametrize("name", list(FURTHER))
def test_what_a_careful_person_reads_in_further_texts_is_read(name: str) -> None:
    assert among(call_values(call_in(name)), FURTHER[name]) == FURTHER[name]


def among(values: Any, wanted: Any) -> Any:
    """Return of the values what stands in those that are wanted, in their shape."""
    if isinstance(values, dict) and isinstance(wanted, dict):
        return {key: among(values[key], one) for key, one in wanted.items()}
    if isinstance(values, list) and isinstance(wanted, list) and len(values) == len(wanted):
        return [among(*pair) for pair in zip(values, wanted, strict=True)]
    return values


@pytest.mark.parametrize("name", [row["text"] for row in VERDICTS] + list(OWN) + list(FURTHER))
def test_a_call_comes_back_from_plain_values(name: str) -> None:
    call = call_in(name)

    assert call_of(json.loads(json.dumps(call_values(call)))) == call
