from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.core.exceptions import ValidationError
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.actions.saving import Overtaken
from catalogue.actions.works import (
    delete_work,
    restore_work,
    save_work,
    set_commissions,
    set_cues,
    set_movements,
)
from catalogue.models import Commission, Cue, InstrumentationLine, Movement, Performance, Work
from catalogue.timing import Duration
from tests.makers import NOW, make_composer, make_organisation, make_performance, make_user, make_work

pytestmark = pytest.mark.django_db

LATER = NOW + timedelta(hours=1)


def test_saving_counts_dates_and_indexes() -> None:
    work = save_work(work=Work(composer=make_composer(), title="Tides", instrumentation="pf"), now=NOW)

    assert (work.saves, work.changed_at, work.least_players, work.most_players) == (1, NOW, 1, 1)
    assert list(work.instrumentation_lines.values_list("instrument", "least_players", "is_doubling")) == [
        ("piano", 1, False)
    ]


def test_saving_again_replaces_the_index() -> None:
    work = make_work(instrumentation="pf")
    work.instrumentation = "2(II=picc).2.2.2 – 2.2.0.0 – timp – str"

    save_work(work=work, now=LATER)

    assert list(Work.objects.calling_for("piano")) == []
    assert list(Work.objects.calling_for("piccolo")) == [work]
    assert list(Work.objects.calling_for("flute")) == [work]


def test_unreadable_instrumentation_blocks_nothing() -> None:
    work = make_work(instrumentation="", instrumentation_typed="qwx 7 (?)")

    assert (work.least_players, work.electronics) == (None, "")
    assert InstrumentationLine.objects.count() == 0
    assert list(Work.objects.matching("qwx")) == [work]


def test_for_at_most_leaves_open_numbers_out() -> None:
    solo = make_work("Solo", instrumentation="pf")
    make_work("Open", instrumentation="2(II=picc).2.2.2 – 2.2.0.0 – timp – str")
    make_work("Unknown")

    assert list(Work.objects.for_at_most(3)) == [solo]


def test_work_that_must_not_be_stored_is_refused_before_anything_is_written() -> None:
    work = make_work("Tides", instrumentation="pf")
    work.title, work.instrumentation = "", ""

    with pytest.raises(ValidationError) as caught:
        save_work(work=work, now=LATER)

    assert list(caught.value.message_dict) == ["title"]
    stored = Work.objects.get()
    assert (stored.title, stored.saves, stored.instrumentation_lines.count()) == ("Tides", 1, 1)


def test_second_of_two_who_edit_at_once_is_told_and_overwrites_nothing() -> None:
    make_work("Tides")
    mine, yours = Work.objects.get(), Work.objects.get()
    mine.title, yours.title = "Ebb", "Flood"
    save_work(work=mine, now=NOW)

    with pytest.raises(Overtaken) as caught:
        save_work(work=yours, now=LATER)

    assert caught.value.latest.title == "Ebb"
    assert caught.value.reason == ("Somebody has saved “Ebb” since you opened it; nothing of yours has been saved yet.")
    assert Work.objects.get().title == "Ebb"


def test_new_title_gives_the_calendar_entries_a_new_revision() -> None:
    work = make_work("Tides")
    on_programme, other = make_performance(work), make_performance(make_work("Ash"))
    before = on_programme.sequence
    work.title = "Ebb"

    save_work(work=work, now=LATER)

    on_programme.refresh_from_db()
    other.refresh_from_db()
    assert (on_programme.sequence, on_programme.changed_at) == (before + 1, LATER)
    assert other.changed_at == NOW


def test_new_title_is_written_into_many_calendar_entries_at_once() -> None:
    def asked(number: int) -> int:
        work = make_work(f"Tides {number}")
        for _time in range(number):
            make_performance(work, date="2026-06-01")
        work.title = f"Ebb {number}"
        with CaptureQueriesContext(connection) as asked:
            save_work(work=work, now=LATER)
        found = Performance.objects.of_work(work)
        assert set(found.values_list("sequence", "saves", "changed_at")) == {(1, 2, LATER)}
        lines = Performance.history.filter(id__in=found).order_by("history_id")
        assert list(lines.filter(history_type="~").values_list("id", "sequence", "saves", "history_change_reason")) == [
            (performance.pk, 1, 2, None) for performance in found.order_by("pk")
        ]
        return len(asked)

    assert asked(1) == asked(3)


def test_calendar_entries_that_were_reckoned_wrongly_are_put_right_with_a_new_title() -> None:
    work = make_work("Tides")
    performances = [make_performance(work, date="2026-06-01", city=city) for city in ("Oslo", "Åre")]
    Performance.objects.filter(pk=performances[1].pk).update(first_day=None, last_day=None, search_text="")
    work.title = "Ebb"

    save_work(work=work, now=LATER)

    told = Performance.objects.order_by("pk").values_list("first_day", "last_day", "search_text", "sequence")
    day = date(2026, 6, 1)
    assert list(told) == [(day, day, performances[0].search_text, 1), (day, day, performances[1].search_text, 1)]


def test_saving_without_a_new_title_leaves_calendars_alone() -> None:
    work = make_work("Tides")
    performance = make_performance(work)
    work.notes = "box 3"

    save_work(work=work, now=LATER)

    assert Performance.objects.get().changed_at == performance.changed_at


def test_movements_change_places() -> None:
    work = make_work(movements=("Slow", "Fast", "Slow again"))
    slow, fast, again = work.movements.order_by("number")

    changed = set_movements(work=work, movements=[again, Movement(title="New"), slow])

    assert changed
    assert list(work.movements.order_by("number").values_list("number", "title")) == [
        (1, "Slow again"),
        (2, "New"),
        (3, "Slow"),
    ]
    assert not Movement.objects.filter(pk=fast.pk).exists()


def test_rows_that_stay_the_same_get_no_history() -> None:
    work = make_work(movements=("Slow", "Fast"))
    slow, fast = work.movements.order_by("number")
    fast.duration = Duration(100)

    assert set_movements(work=work, movements=[slow, fast])
    assert not set_movements(work=work, movements=list(work.movements.order_by("number")))

    assert (slow.history.count(), fast.history.count()) == (1, 2)


def test_rows_with_a_mistake_change_nothing() -> None:
    work = make_work(movements=("Slow", "Fast"))
    slow, fast = work.movements.order_by("number")
    slow.title = "bad \0"

    with pytest.raises(ValidationError):
        set_movements(work=work, movements=[fast, slow])

    assert list(work.movements.order_by("number").values_list("title", flat=True)) == ["Slow", "Fast"]


def test_commissions_are_set() -> None:
    work = make_work(commissioned_by=("A hall",))

    assert set_commissions(work=work, commissions=[Commission(organisation=make_organisation("Harbour Fund"))])

    assert [commission.body for commission in work.commissions.all()] == ["Harbour Fund"]


def test_a_tempo_map_is_dated_when_it_is_another_and_loses_its_date_with_its_text() -> None:
    work = make_work(tempo_map="1 4/4 q=60")
    first = work.tempo_map_dated
    save_work(work=work, now=NOW + timedelta(days=3))
    same = work.tempo_map_dated
    work.tempo_map = "1 4/4 q=62"
    save_work(work=work, now=NOW + timedelta(days=5))
    other = work.tempo_map_dated
    work.tempo_map = ""
    save_work(work=work, now=NOW + timedelta(days=7))

    assert (first, same, other) == (NOW.date(), NOW.date(), NOW.date() + timedelta(days=5))
    assert Work.objects.get().tempo_map_dated is None


def test_cues_change_places_and_those_that_stay_the_same_get_no_history() -> None:
    work = make_work(cues=(("1", "1", "Drone"), ("2", "5", "Bell"), ("3", "9", "Off")))
    drone, bell, off = work.cues.order_by("order")

    assert set_cues(work=work, cues=[drone, off, Cue(number="4", place="12", action="Wind")])
    assert not set_cues(work=work, cues=list(work.cues.order_by("order")))

    assert list(work.cues.order_by("order").values_list("order", "number")) == [(1, "1"), (2, "3"), (3, "4")]
    assert not Cue.objects.filter(pk=bell.pk).exists()
    assert drone.history.count() == 1


def test_a_cue_with_a_mistake_leaves_work_and_cues_as_they_were() -> None:
    work = make_work(tempo_map="1 4/4 q=60", cues=(("1", "1", "Drone"),))
    work.tempo_map = "1 4/4 q=72"

    with pytest.raises(ValidationError):
        save_work(work=work, now=LATER, cues=[Cue(number="1", place="1", action="")])

    assert Work.objects.get().tempo_map == "1 4/4 q=60"
    assert list(Cue.objects.values_list("action", flat=True)) == ["Drone"]


def test_deleted_work_leaves_the_list_and_comes_back_whole() -> None:
    user = make_user()
    work = make_work("Tides", instrumentation="pf", movements=("Slow",))

    delete_work(work=work, by=user, now=LATER)

    assert list(Work.objects.all()) == []
    deleted = Work.with_deleted.get()
    assert (deleted.deleted_at, deleted.deleted_by, deleted.saves) == (LATER, user, 2)
    restore_work(work=deleted, now=LATER)
    found = Work.objects.get()
    assert (found.deleted_at, found.deleted_by, found.movements.count()) == (None, None, 1)


def test_deleting_twice_keeps_the_first_date() -> None:
    work = make_work()
    delete_work(work=work, by=None, now=NOW)

    delete_work(work=work, by=None, now=LATER)

    assert Work.with_deleted.get().deleted_at == NOW


def test_work_whose_number_was_given_away_cannot_come_back_with_it() -> None:
    work = make_work("Tides", catalogue_number="12")
    delete_work(work=work, by=None, now=NOW)
    make_work("Ash", catalogue_number="12")

    with pytest.raises(ValidationError) as caught:
        restore_work(work=work, now=LATER)

    assert caught.value.message_dict == {"catalogue_number": ["“Ash” has this catalogue number."]}
    assert [work.title for work in Work.objects.all()] == ["Ash"]


def test_first_version_stays_as_long_as_it_has_versions() -> None:
    first = make_work("Tides")
    version = make_work("Tides for strings", version_of=first)

    with pytest.raises(ValidationError) as caught:
        delete_work(work=first, by=None, now=NOW)
    delete_work(work=version, by=None, now=NOW)
    delete_work(work=first, by=None, now=NOW)
    version = Work.with_deleted.get(pk=version.pk)
    with pytest.raises(ValidationError) as too_early:
        restore_work(work=version, now=LATER)

    assert caught.value.messages == ["“Tides for strings” is a version of this work; delete that one first."]
    assert too_early.value.messages == ["This is a version of “Tides”; restore that one first."]
