"""The calls of the demo: their conditions as they are read, what is sent to them, what became of it."""

from __future__ import annotations

import tomllib
from datetime import date

import pytest

from catalogue.demo.calls import load_calls
from catalogue.demo.loading import FOLDER
from catalogue.demo.records import uid_of
from catalogue.demo.rows import read_table
from catalogue.models import Call, Referee, Reference, Submission
from catalogue.terms import SubmissionStatus
from tests.makers import NOW, make_composer, make_work

pytestmark = pytest.mark.django_db
TODAY = date(2026, 3, 9)


def test_calls_are_loaded_with_their_submissions_and_only_once() -> None:
    rows = read_table(FOLDER / "calls.toml")
    records = tomllib.loads((FOLDER / "records.toml").read_text(encoding="utf-8"))
    composer = make_composer("Nevena Haldoreva", slug="nevena-haldoreva")
    works = {slug: make_work(slug, composer=composer) for row in rows.values() for slug in row.get("chosen", ())}
    for row in records["referee"]:
        Referee.objects.create(uid=uid_of(row), composer=composer, name=row["name"])

    for _again in range(2):
        load_calls(rows, composer=composer, works=works, today=TODAY, now=NOW)

    statuses = {one.call.title.partition(" ")[0]: one.status for one in Submission.objects.select_related("call")}
    assert Call.objects.count() == len(rows)
    assert statuses == {
        "Sandhaven": SubmissionStatus.DRAFT,
        "University": SubmissionStatus.DRAFT,
        "Saltmarsh": SubmissionStatus.DRAFT,
        "Copperfield": SubmissionStatus.NOT_CHOSEN,
        "Gravelpit": SubmissionStatus.CHOSEN,
    }
    assert Reference.objects.filter(received_on=date(2026, 3, 5)).count() == 1
