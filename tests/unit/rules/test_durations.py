"""The durations of a work, each for itself."""

from __future__ import annotations

from dataclasses import replace

from catalogue.facts import MovementFacts, ProgrammedFacts, RecordingFacts
from catalogue.rules.durations import Lasted, durations_of
from catalogue.terms import Extent, PerformanceStatus
from catalogue.timing import Duration
from tests.fact_makers import make_event, make_work


def minutes(number: float) -> Duration:
    return Duration(int(60 * number))


def test_published_reckoned_performed_and_recorded_are_kept_apart() -> None:
    work = make_work(duration=minutes(12), least_duration=minutes(8), most_duration=minutes(20))
    performances = [
        make_event(1, "2024-05-01", ProgrammedFacts(1, 1, duration=minutes(13))),
        make_event(2, "2025-05-01", ProgrammedFacts(2, 1, duration=minutes(12.5))),
    ]

    recordings = [RecordingFacts(1, "Trio", duration=minutes(14))]

    found = durations_of(work, reckoned=minutes(11), performances=performances, recordings=recordings)

    assert (found.published, found.least, found.most, found.reckoned) == tuple(map(minutes, (12, 8, 20, 11)))
    assert found.performed == Lasted(minutes(12.5), minutes(13), 2)
    assert found.recorded == Lasted(minutes(14), minutes(14), 1)
    assert found.warnings == ()


def test_only_complete_playings_that_took_place_say_how_long_a_work_lasts() -> None:
    whole = ProgrammedFacts(1, 1, duration=minutes(13))
    performances = [
        make_event(1, "2024-05-01", replace(whole, extent=Extent.EXCERPT)),
        make_event(2, "2024-05-02", whole, status=PerformanceStatus.CANCELLED),
        make_event(3, "2024-05-03", replace(whole, work_id=2)),
        make_event(4, "2024-05-04", ProgrammedFacts(4, 1)),
    ]

    assert durations_of(make_work(), performances=performances).performed is None


def test_recordings_of_other_works_are_left_out() -> None:
    assert durations_of(make_work(), recordings=[RecordingFacts(2, "Trio", duration=minutes(14))]).recorded is None


def test_movements_are_added_in_seconds_and_only_where_all_are_known() -> None:
    # Adding first and rounding once: 3'29" + 4'29" + 2'29" = 10'27", not 3 + 4 + 2 (arithmetic).
    parts = tuple(
        MovementFacts(number, "", Duration(seconds)) for number, seconds in enumerate((209, 269, 149), start=1)
    )

    assert durations_of(make_work(movements=parts)).movements == Duration(627)
    assert durations_of(make_work(movements=(*parts, MovementFacts(4, "")))).movements is None


def test_movements_that_differ_by_more_than_a_twentieth_are_told() -> None:
    def warnings(seconds: int) -> tuple[str, ...]:
        return durations_of(
            make_work(duration=minutes(10), movements=(MovementFacts(1, "", Duration(seconds)),))
        ).warnings

    assert warnings(630) == ()
    assert warnings(631) == ("The duration from the movements is 10′31″, 5 % longer than the stated 10′.",)


def test_a_map_that_differs_by_more_than_a_tenth_is_told() -> None:
    def warnings(seconds: int) -> tuple[str, ...]:
        return durations_of(make_work(duration=minutes(10)), reckoned=Duration(seconds)).warnings

    assert warnings(540) == ()
    assert warnings(530) == ("The duration from the tempo map is 8′50″, 12 % shorter than the stated 10′.",)


def test_an_open_form_is_not_doubted_between_its_bounds() -> None:
    work = make_work(duration=minutes(10), least_duration=minutes(5), most_duration=minutes(30))

    assert durations_of(work, reckoned=minutes(25)).warnings == ()
    assert durations_of(work, reckoned=minutes(4)).warnings == (
        "The duration from the tempo map is 4′, 60 % shorter than the stated 10′.",
    )
