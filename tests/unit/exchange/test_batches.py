from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User

from catalogue.actions.undoing import undo_import
from catalogue.exchange.batches import MOST_WAITING, Told, bring_in, keep, look_over, table_of
from catalogue.models import Composer, ImportBatch, ImportState, Movement, Performance, Venue, Work
from catalogue.timing import Duration
from tests.conftest import NOW
from tests.makers import make_performance, make_user, make_venue, make_work

pytestmark = pytest.mark.django_db

WORKS = "title,year,duration,movements,mood\nSlack Rope,1998,12',Ebb 4'; Flood,calm\nBore,2001,,,\n"
EVENTS = (
    "work,date,venue,city,country,performers\n"
    "Slack Rope,2019-05-12,Old Granary,Zurich,CH,Kestrel Ensemble\n"
    "Bore,2019-05-12,Old Granary,Zurich,CH,Kestrel Ensemble\n"
)


def brought_in(composer: Composer, text: str, **told: Any) -> ImportBatch:
    reading = Told(**told)
    batch = bring_in(
        composer=composer, by=User.objects.first() or make_user(), now=NOW, name="list.csv",
        content=text.encode(), reading=reading.as_json(),
    )  # fmt: skip
    for _number in look_over(batch=batch, table=table_of(batch.content, reading), now=NOW):
        pass
    return batch


def kept(batch: ImportBatch) -> ImportBatch:
    for _number in keep(batch=batch, table=table_of(bytes(batch.content), Told.of(batch)), now=NOW):
        pass
    return batch


def undone(batch: ImportBatch) -> ImportBatch:
    for _number in undo_import(batch=batch, by=None, now=NOW):
        pass
    return batch


def hindrances(batch: ImportBatch) -> list[tuple[str, str]]:
    return list(batch.records.exclude(hindrance="").order_by("pk").values_list("label", "hindrance"))


def test_looking_over_stores_nothing_but_the_report(composer: Composer) -> None:
    batch = brought_in(composer, WORKS)

    assert (Work.objects.count(), batch.state) == (0, ImportState.READ)
    assert batch.report["counts"] == {"new": 2, "changed": 0, "same": 0}
    assert (batch.report["encoding"], batch.report["delimiter"], batch.report["header_row"]) == ("utf-8", ",", 1)
    assert [(one["letter"], one["written"], one["column"], one["example"]) for one in batch.report["columns"]] == [
        ("A", "title", "title", "Slack Rope"),
        ("B", "year", "year", "1998"),
        ("C", "duration", "duration", "12'"),
        ("D", "movements", "movements", "Ebb 4'; Flood"),
        ("E", "mood", "", "calm"),
    ]


def test_changes_are_told_column_by_column(composer: Composer) -> None:
    make_work("Slack Rope", composer=composer, duration="11'", completed="1998", movements=("Ebb",))

    batch = brought_in(composer, "title,year,duration,movements,notes\nSlack Rope,1999,12',Ebb; Flood,calm\n")

    assert batch.report["done"] == [
        [
            2, "Slack Rope", "changed",
            [
                ["year", "1998", "1999"], ["duration", "", "12'"], ["notes", "", "calm"],
                ["movements", "Ebb", "Ebb; Flood"],
            ],
        ]
    ]  # fmt: skip


def test_keeping_stores_what_was_shown_and_the_second_time_changes_nothing(composer: Composer) -> None:
    first = kept(brought_in(composer, WORKS))
    second = kept(brought_in(composer, WORKS))

    assert (first.state, bytes(first.content), first.kept_at) == (ImportState.KEPT, b"", NOW)
    assert sorted(first.records.values_list("label", "row", "before")) == [("Bore", 3, None), ("Slack Rope", 2, None)]
    assert second.report["counts"] == {"new": 0, "changed": 0, "same": 2}
    assert not second.records.exists()


def test_nothing_is_stored_where_the_catalogue_has_changed_since_it_was_shown(composer: Composer) -> None:
    batch = brought_in(composer, WORKS)
    make_work("Bore", composer=composer, completed="2001")

    kept(batch)

    assert (batch.state, Work.objects.count()) == (ImportState.READ, 1)
    assert batch.report["counts"] == {"new": 1, "changed": 0, "same": 1}


def test_nothing_is_stored_where_a_row_has_an_error(composer: Composer) -> None:
    batch = kept(brought_in(composer, "title,year\nSlack Rope,1998\nBore,1998-13\n"))

    assert (batch.state, Work.objects.count()) == (ImportState.READ, 0)
    assert [row[:2] for row in batch.report["errors"]] == [[3, "year"]]


def test_left_unfinished_nothing_is_stored(composer: Composer) -> None:
    batch = brought_in(composer, WORKS)
    steps = keep(batch=batch, table=table_of(bytes(batch.content), Told.of(batch)), now=NOW)

    next(steps)
    steps.close()

    assert (Work.objects.count(), ImportBatch.objects.get().state) == (0, ImportState.READ)


def test_columns_and_delimiter_and_encoding_can_be_told(composer: Composer) -> None:
    text = "Name|Mood|Hue\nÉbbe|calm|blue"
    batch = bring_in(composer=composer, by=make_user(), now=NOW, name="x", content=text.encode("cp1250"))
    told = Told("works", "cp1250", "|", columns={1: "subtitle", 2: "-"})
    batch.reading = told.as_json()

    for _number in look_over(batch=batch, table=table_of(batch.content, told), now=NOW):
        pass
    kept(batch)

    work = Work.objects.get()
    assert (work.title, work.subtitle, work.notes) == ("Ébbe", "calm", "")


def test_bare_durations_and_order_of_dates_can_be_told(composer: Composer) -> None:
    kept(brought_in(composer, "title,year,duration\nEbb,3/4/2021,90\n", bare="seconds", dates="en-US"))

    work = Work.objects.get()
    assert (work.duration, str(work.completed)) == (Duration(90), "2021-03-04")


def test_what_waits_too_long_or_is_too_much_is_dropped(composer: Composer) -> None:
    for _number in range(MOST_WAITING + 2):
        brought_in(composer, WORKS)

    assert ImportBatch.objects.count() == MOST_WAITING


# ---- undoing


def test_undoing_takes_out_what_was_made(composer: Composer) -> None:
    works = kept(brought_in(composer, WORKS))
    events = kept(brought_in(composer, EVENTS))
    assert (Work.objects.count(), Performance.objects.count(), Venue.objects.count()) == (2, 1, 1)

    undone(events)
    undone(works)

    assert (Work.objects.count(), Performance.objects.count(), Venue.objects.count()) == (0, 0, 0)
    assert (works.state, works.undone_at, hindrances(works), hindrances(events)) == (ImportState.UNDONE, NOW, [], [])


def test_undoing_changes_back_what_was_changed(composer: Composer) -> None:
    work = make_work("Slack Rope", composer=composer, completed="1997", movements=("Ebb", "Slack"), notes="old")
    movements = list(Movement.objects.filter(work=work).order_by("number").values_list("pk", "title", "duration"))

    undone(kept(brought_in(composer, WORKS)))

    work = Work.objects.get()
    assert (str(work.completed), work.duration, work.duration_typed, work.notes) == ("1997", None, "", "old")
    found = Movement.objects.filter(work=work).order_by("number").values_list("pk", "title", "duration")
    assert list(found) == movements


def test_undoing_changes_back_an_event(composer: Composer) -> None:
    work, other = make_work("Slack Rope", composer=composer), make_work("Bore", composer=composer)
    hall = make_venue("Old Granary", composer=composer)
    event = make_performance(work, date="2019-05-12", at=None, venue=hall, performers=("Iva Dorn",))

    batch = kept(brought_in(composer, EVENTS))
    assert [one.work_id for one in event.programme.order_by("order")] == [work.pk, other.pk]
    undone(batch)

    assert [one.work_id for one in event.programme.order_by("order")] == [work.pk]
    assert [one.name for one in event.credits.all()] == ["Iva Dorn"]


def test_undoing_reads_what_was_kept_before_the_program_had_a_column(composer: Composer) -> None:
    event = make_performance(make_work("Slack Rope", composer=composer), date="2019-05-12", at=None)
    event.programme.update(claim_override="world premiere", claim_reason="I was there.")
    batch = kept(brought_in(composer, EVENTS))
    record = batch.records.get(sort="performance")
    for item in (*record.before["programme"], *record.after["programme"]):
        del item["claim_override"], item["claim_reason"]
    record.save()

    undone(batch)

    assert hindrances(batch) == []
    assert [(one.work.title, one.claim_override) for one in event.programme.all()] == [("Slack Rope", "world premiere")]


def test_undoing_leaves_what_was_edited_or_is_used_since_and_says_so(composer: Composer) -> None:
    batch = kept(brought_in(composer, WORKS))
    edited, played = Work.objects.get(title="Slack Rope"), Work.objects.get(title="Bore")
    edited.subtitle = "for wind"
    edited.save()
    performance = make_performance(played)

    undone(batch)

    assert sorted(hindrances(batch)) == [
        ("Bore", "It stands on the programme of a performance."),
        ("Slack Rope", "It has been edited since."),
    ]
    assert Work.objects.count() == 2
    performance.deleted_at = NOW
    performance.save()
    undone(batch)
    assert [work.title for work in Work.objects.all()] == ["Slack Rope"]


def test_undoing_says_what_of_the_changed_has_been_deleted(composer: Composer) -> None:
    work = make_work("Slack Rope", composer=composer)
    batch = kept(brought_in(composer, WORKS))
    Work.objects.filter(pk=work.pk).update(deleted_at=NOW)

    undone(batch)

    assert hindrances(batch) == [("Slack Rope", "It has been deleted since.")]


def test_undoing_takes_no_notice_of_columns_that_have_come_since(composer: Composer) -> None:
    work = make_work("Slack Rope", composer=composer, completed="1997", movements=("Ebb",))
    batch = kept(brought_in(composer, WORKS))
    record = batch.records.get(record=work.pk)
    for state in (record.before, record.after):
        del state["dedication"]
        for movement in state["movements"]:
            del movement["attacca"]
    record.save()

    undone(batch)

    assert (hindrances(batch), str(Work.objects.get().completed)) == ([], "1997")
