"""How many performances there are: brought forward it is what counting anew gives, whatever was done in between."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from datetime import date
from random import Random
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import connection, transaction
from django.test.utils import CaptureQueriesContext

from catalogue.actions.additions import add_performances, prepared
from catalogue.actions.index import reindex
from catalogue.actions.merging import NotMerged, merge
from catalogue.actions.performances import delete_performance, restore_performance, save_performance
from catalogue.exchange.calendar_files import let_go_of_all
from catalogue.gathering import numbers, once
from catalogue.gathering.likenesses import Alike
from catalogue.gathering.new_lines import MOST_NEW
from catalogue.gathering.numbers import count_all, numbers_at
from catalogue.gathering.once import forget_all
from catalogue.gathering.versions import state_of_lists
from catalogue.models import Composer, Performance, ProgrammedWork, Venue, Work
from catalogue.terms import PerformanceKind, PerformanceStatus
from catalogue.timing import read_date
from tests.makers import NOW, make_composer, make_performance, make_venue, make_work

pytestmark = pytest.mark.django_db

DATES = ("2024-05-16", "2025-03", "2025", "", "2026-05-16", "2027-01-02", "2026/27")


@pytest.fixture
def composer() -> Composer:
    return make_composer()


@pytest.fixture
def kept_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have every count kept in a file, however few performances there are, and each third line after."""
    monkeypatch.setattr(numbers, "FEWEST_KEPT", 0)
    monkeypatch.setattr(once, "MOST_BEHIND", 2)


def now(composer: Composer) -> Any:
    return numbers_at(state_of_lists([composer.pk]), composer.pk)


def columns_by(chance: Random, composer: Composer) -> dict[str, Any]:
    halls = [None, *Venue.objects.filter(composer=composer).order_by("pk")]
    return {
        "kind": chance.choice(list(PerformanceKind)).value,
        "status": chance.choice(list(PerformanceStatus)).value,
        "venue": chance.choice(halls),
        "city": chance.choice(("", "Zagreb", "Linz")),
        "country": chance.choice(("", "HR", "AT")),
    }


def an_evening(chance: Random, composer: Composer) -> Any:
    return chance.choice(list(Performance.with_deleted.filter(composer=composer).order_by("pk")))


def add_one(chance: Random, composer: Composer, work: Work) -> None:
    make_performance(work, composer=composer, date=chance.choice(DATES), at=None, **columns_by(chance, composer))


def add_many(chance: Random, composer: Composer, work: Work) -> None:
    made = [
        prepared(
            performance=Performance(
                composer=composer, date=read_date(chance.choice(DATES[:3])), **columns_by(chance, composer)
            ),
            programme=[ProgrammedWork(work=work)],
            credits=[],
            now=NOW,
        )
        for _ in range(3)
    ]
    add_performances(made, NOW)


def change_one(chance: Random, composer: Composer, _work: Work) -> None:
    evening = an_evening(chance, composer)
    evening.date = read_date(chance.choice(DATES[:3]))
    for name, value in columns_by(chance, composer).items():
        setattr(evening, name, value)
    save_performance(performance=evening, now=NOW)


def delete_or_restore(chance: Random, composer: Composer, _work: Work) -> None:
    evening = an_evening(chance, composer)
    if evening.deleted_at:
        restore_performance(performance=evening, now=NOW)
    else:
        delete_performance(performance=evening, by=None, now=NOW)


def take_away(chance: Random, composer: Composer, work: Work) -> None:
    an_evening(chance, composer).delete()
    add_one(chance, composer, work)


def merge_halls(chance: Random, composer: Composer, _work: Work) -> None:
    halls = list(Venue.objects.filter(composer=composer).order_by("pk"))
    one, other = chance.sample(halls, 2)
    with suppress(NotMerged, ValidationError):
        merge(composer=composer, sort=Alike.VENUE, kept=str(one.pk), gone=str(other.pk), by=None, now=NOW)
    make_venue(f"Hall {chance.random()}", composer=composer)


def take_back(chance: Random, composer: Composer, work: Work) -> None:
    """Save within a transaction that is taken back, with the numbers asked for in it."""
    with suppress(ZeroDivisionError), transaction.atomic():
        add_one(chance, composer, work)
        assert now(composer) == count_all(composer.pk)
        raise ZeroDivisionError


def clear_histories(chance: Random, composer: Composer, _work: Work) -> None:
    """Clear the histories up to a line; now and then that is all there is."""
    lines: Any = Performance.history.filter(composer=composer)
    numbers = [0, *lines.order_by("history_id").values_list("history_id", flat=True)]
    lines.filter(history_id__lte=chance.choice(numbers)).delete()


def start(chance: Random, _composer: Composer, _work: Work) -> None:
    """Forget what is in memory, as a process that starts; sometimes the files are gone too."""
    forget_all()
    if chance.random() < 0.3:
        let_go_of_all()


def put_right(chance: Random, composer: Composer, _work: Work) -> None:
    """Spoil what is reckoned, past the history, and have it reckoned anew."""
    Performance.with_deleted.filter(pk=an_evening(chance, composer).pk).update(first_day=None, last_day=None)
    with transaction.atomic():
        reindex()


DEEDS: tuple[Callable[[Random, Composer, Work], None], ...] = (
    add_one, add_many, change_one, change_one, delete_or_restore, take_away, merge_halls, take_back, clear_histories,
    start, start,
)  # fmt: skip


@pytest.mark.usefixtures("kept_at_once")
@pytest.mark.parametrize("seed", range(12))
def test_brought_forward_they_are_what_counting_anew_gives(seed: int, composer: Composer, clock: Any) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    work = make_work("Weirs", composer=composer)
    other = make_composer("Noor Halvorsen")
    for _hall in range(3):
        make_venue(f"Hall {chance.random()}", composer=composer)
    add_many(chance, composer, work)
    for _step in range(30):
        clock.goes_on(seconds=1)
        chance.choice(DEEDS)(chance, composer, work)
        if chance.random() < 0.2:
            make_performance(make_work("Tides", composer=other), date="2024-02-01")
        if chance.random() < 0.8:
            assert now(composer) == count_all(composer.pk)
    assert now(composer) == count_all(composer.pk)


@pytest.mark.usefixtures("kept_at_once")
def test_what_is_put_right_past_the_history_is_counted_anew_everywhere(
    composer: Composer, django_capture_on_commit_callbacks: Any
) -> None:
    chance = Random(1)  # noqa: S311 - no secret hangs on it
    add_many(chance, composer, make_work("Weirs", composer=composer))
    Performance.objects.update(first_day=None, last_day=None)
    assert now(composer).years == {(None, None): 3}

    with django_capture_on_commit_callbacks(execute=True):
        reindex()

    assert now(composer) == count_all(composer.pk)
    change_one(chance, composer, Work())
    assert now(composer) == count_all(composer.pk)


@pytest.mark.usefixtures("kept_at_once")
def test_after_a_start_nothing_is_counted_but_what_is_new(composer: Composer, monkeypatch: pytest.MonkeyPatch) -> None:
    work = make_work("Weirs", composer=composer)
    make_performance(work, date="2024-02-01")
    before = now(composer)
    following = replace(numbers._brought.following, reckon=lambda _composer: pytest.fail("counted all again"))
    monkeypatch.setattr(numbers._brought, "following", following)

    forget_all()
    assert now(composer) == before
    forget_all()
    make_performance(work, date="2025-02-01")
    assert now(composer).all == 2


def test_few_performances_are_kept_in_no_file(composer: Composer) -> None:
    make_performance(make_work("Weirs", composer=composer))
    now(composer)

    assert numbers._brought.keeper.found(composer.pk) is None


@pytest.mark.usefixtures("kept_at_once")
def test_damaged_file_is_counted_anew(composer: Composer) -> None:
    make_performance(make_work("Weirs", composer=composer))
    before = now(composer)
    place = numbers._brought.keeper.place_of(composer.pk)
    whole = place.read_bytes()
    for damaged in (
        whole[:-3],
        whole.replace(b"concert", b"concept"),
        b"",
        b"\xff\n",
        whole.replace(b"version", b"Version"),
    ):
        place.write_bytes(damaged)
        forget_all()
        assert now(composer) == before


@pytest.mark.usefixtures("kept_at_once")
def test_folder_that_cannot_be_written_is_no_hindrance(composer: Composer, settings: Any, tmp_path: Any) -> None:
    (tmp_path / "file").write_text("no folder")
    settings.KEPT_CALENDARS = tmp_path / "file"
    make_performance(make_work("Weirs", composer=composer))

    assert now(composer).all == 1
    assert now(composer).all == 1


def test_more_new_lines_than_can_be_followed_are_counted_anew(
    composer: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert MOST_NEW > 1
    monkeypatch.setattr("catalogue.gathering.new_lines.MOST_NEW", 1)
    work = make_work("Weirs", composer=composer)
    make_performance(work)
    assert now(composer).all == 1
    add_many(Random(1), composer, work)  # noqa: S311 - no secret hangs on it
    assert now(composer).all == 4


def test_save_costs_two_questions_however_many_performances_there_are(composer: Composer) -> None:
    work = make_work("Weirs", composer=composer)
    evening = make_performance(work)
    now(composer)
    save_performance(performance=evening, now=NOW)
    state = state_of_lists([composer.pk])

    with CaptureQueriesContext(connection) as asked:
        numbers_at(state, composer.pk)
    assert len(asked) == 2


def test_to_come_is_what_is_planned_and_not_over(composer: Composer) -> None:
    work = make_work("Weirs", composer=composer)
    for status, day in (
        ("planned", "2026-02-01"),
        ("confirmed", "2026-02-03"),
        ("given", "2026-02-03"),
        ("planned", ""),
    ):
        make_performance(work, date=day, at=None, status=status)

    assert [now(composer).to_come(date(2026, 2, day)) for day in (1, 2, 4)] == [2, 1, 0]
