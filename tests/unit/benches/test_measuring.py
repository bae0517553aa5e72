"""Measuring by turns, and everything that is measured does what it says at a small size."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager

import pytest

from catalogue.benches import measuring
from catalogue.benches.invented import catalogue, forces
from catalogue.benches.measuring import Bench, Pair, Unit, Unmeasurable, benches, measure
from catalogue.benches.subjects.documents import draw_bare, lines_of, works_list
from catalogue.benches.subjects.feeds import again, cold

ALL = benches()
LONG = ("all papers of the demo, from its records", "manage.py check")
"""What loads the whole demo, or starts four programs, is tried in the full lane."""
IN_ONE_THREAD = tuple(
    pytest.param(bench, id=bench.name, marks=[pytest.mark.slow] if bench.name in LONG else [])
    for bench in ALL
    if not bench.on_disk
)
"""The others ask a file from several threads or processes, which a database of a test in memory is nothing for."""


def test_names_are_said_once() -> None:
    names = [bench.name for bench in ALL]

    assert sorted(set(names)) == sorted(names)


def test_ours_and_the_bound_take_turns_and_what_is_left_behind_is_put_back_before_each() -> None:
    done: list[str] = []

    @contextmanager
    def prepare(size: int) -> Iterator[Pair]:
        yield Pair(lambda: done.append("ours"), lambda: done.append("bare"), lambda: done.append("before"))

    figure = measure(Bench("naming", "a word", (1,), prepare), 7, seconds=0)

    turns = [word for word in done if word != "before"]
    assert turns == ["ours", "bare", "bare", "ours", "ours", "bare", "bare", "ours"]
    assert done[::2] == ["before"] * 8
    assert (figure.name, figure.size, figure.bound) == ("naming", 7, "a word")


def test_what_is_not_timed_says_itself_how_much_it_took() -> None:
    @contextmanager
    def prepare(size: int) -> Iterator[Pair]:
        yield Pair(lambda: size * 2, lambda: size)

    @contextmanager
    def saying_nothing(size: int) -> Iterator[Pair]:
        yield Pair(lambda: None, lambda: size)

    figure = measure(Bench("holding", "a word", (1,), prepare, unit=Unit.MEGABYTES, counted=True), 7, seconds=0)

    assert (figure.amount, figure.bound_amount, figure.ratio) == (14, 7, 2)
    with pytest.raises(TypeError, match="says how much"):
        measure(Bench("holding", "a word", (1,), saying_nothing, counted=True), 7, seconds=0)


@pytest.mark.django_db
@pytest.mark.parametrize("bench", IN_ONE_THREAD)
def test_each_bench_does_both_things_at_a_small_size(bench: Bench) -> None:
    try:
        with bench.prepare(20) as pair:
            pair.before()

            assert pair.ours()
            assert pair.bare()
    except Unmeasurable as fault:
        pytest.skip(fault.reason)


@pytest.mark.parametrize("prepare", [cold, again])
def test_the_bound_of_the_calendar_writes_as_many_events(
    prepare: Callable[[int], AbstractContextManager[Pair]],
) -> None:
    with prepare(30) as pair:
        assert pair.ours().count(b"BEGIN:VEVENT") == pair.bare().count(b"BEGIN:VEVENT") == 30


def test_the_bound_of_the_works_list_draws_lines_on_every_page() -> None:
    lines = lines_of(works_list(catalogue(works=40, performances=40)))

    pages = {line.page for line in lines}

    assert len(lines) > 100
    assert draw_bare(lines).count(b"/Type /Page\n") == len(pages) == max(pages) + 1


def test_invented_forces_differ() -> None:
    given = {forces(number) for number in range(100_000)}

    assert len(given) == 100_000


def test_what_only_reckons_is_timed_by_the_clock_of_the_processor(monkeypatch: pytest.MonkeyPatch) -> None:
    ticks = itertools.count(step=3)
    monkeypatch.setattr(measuring, "process_time", lambda: next(ticks))

    @contextmanager
    def prepare(size: int) -> Iterator[Pair]:
        yield Pair(lambda: None, lambda: None)

    figure = measure(Bench("reckoning", "the same", (1,), prepare, reckons=True), 1, seconds=0)

    assert (figure.amount, figure.bound_amount) == (3, 3)
