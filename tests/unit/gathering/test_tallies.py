"""How often works were performed: brought forward it is what counting anew gives, whatever was done in between."""

from __future__ import annotations

from random import Random
from typing import Any

import pytest

from catalogue.gathering import once, tallies
from catalogue.gathering.once import forget_all
from catalogue.gathering.tallies import NEVER, Tally, count_all, tallies_among, tallies_of
from catalogue.gathering.versions import state_of_lists
from catalogue.models import Composer, Performance, ProgrammedWork
from catalogue.terms import PerformanceStatus
from tests.makers import NOW, make_composer, make_performance, make_work

pytestmark = pytest.mark.django_db


@pytest.fixture
def composer() -> Composer:
    forget_all()
    return make_composer()


def now(composer: Composer) -> Any:
    return tallies_of(state_of_lists([composer.pk]), composer.pk)


def do_something(composer: Composer, works: list[Any], chance: Random) -> None:
    """Add, move, delete, bring back or put off a playing or an evening, by chance."""
    evening = chance.choice(list(Performance.with_deleted.filter(composer=composer).order_by("pk")))
    row = chance.choice([*ProgrammedWork.objects.filter(work__composer=composer).order_by("pk"), None])
    match chance.randrange(6):
        case 0:
            make_performance(*chance.sample(works, 2), date=f"2024-0{chance.randrange(1, 9)}-11")
        case 1:
            evening.status = chance.choice(list(PerformanceStatus)).value
            evening.save()
        case 2:
            evening.deleted_at = None if evening.deleted_at else NOW
            evening.save()
        case 3 if row:
            row.work = chance.choice(works)
            row.save()
        case 4 if row:
            row.delete()
        case _:
            evening.delete()
            make_performance(chance.choice(works), date="2023-05-05")


@pytest.fixture
def kept_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tallies, "FEWEST_KEPT", 0)
    monkeypatch.setattr(once, "MOST_BEHIND", 2)


@pytest.mark.usefixtures("kept_at_once")
@pytest.mark.parametrize("seed", range(8))
def test_of_some_works_and_after_starts_they_are_what_counting_anew_gives(
    seed: int, composer: Composer, clock: Any
) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    works = [make_work(f"Work {number}", composer=composer) for number in range(4)]
    foreign = make_work("Serenade", composer=make_composer("Noor Halvorsen"))
    for work in works:
        make_performance(work)
    for _step in range(30):
        clock.goes_on(seconds=1)
        do_something(composer, works, chance)
        if chance.random() < 0.2:
            make_performance(foreign)
        if chance.random() < 0.3:
            forget_all()
        asked = chance.sample([work.pk for work in works], 2)
        if chance.random() < 0.7:
            found = tallies_among(state_of_lists([composer.pk]), composer.pk, asked)
            assert {work: found.get(work, NEVER) for work in asked} == {
                work: count_all(composer.pk).get(work, NEVER) for work in asked
            }
        if chance.random() < 0.1:
            assert now(composer) == count_all(composer.pk)
    assert now(composer) == count_all(composer.pk)


@pytest.mark.parametrize("seed", range(5))
def test_brought_forward_they_are_what_counting_anew_gives(seed: int, composer: Composer) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    works = [make_work(f"Work {number}", composer=composer) for number in range(4)]
    for work in works:
        make_performance(work)
    for _step in range(25):
        do_something(composer, works, chance)
        assert now(composer) == count_all(composer.pk)


def test_only_works_with_new_lines_are_counted_again(composer: Composer, monkeypatch: pytest.MonkeyPatch) -> None:
    weirs, tides = (make_work(title, composer=composer) for title in ("Weirs", "Tides"))
    make_performance(weirs, date="2024-02-01")
    first = now(composer)
    monkeypatch.setattr(tallies, "count_all", lambda _composer: pytest.fail("counted all again"))
    make_performance(tides, date="2025-03-02")

    assert now(composer)[tides.pk].times == 1
    assert now(composer)[weirs.pk] == first[weirs.pk]


def test_playing_of_unknown_beginning_has_all_counted_again(composer: Composer) -> None:
    weirs, tides = (make_work(title, composer=composer) for title in ("Weirs", "Tides"))
    row = make_performance(weirs, date="2024-02-01").programme.get()
    ProgrammedWork.history.filter(id=row.pk).delete()
    assert now(composer)[weirs.pk].times == 1

    row.work = tides
    row.save()

    assert weirs.pk not in now(composer)
    assert now(composer)[tides.pk] == Tally(1, row.performance.last_day)
