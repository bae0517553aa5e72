from __future__ import annotations

from datetime import date, time
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.facts import PerformanceFacts, ProgrammedFacts, WorkFacts
from catalogue.rules.premieres import Claim, claims_by_programmed, reckon
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus
from tests.fact_makers import make_catalogue, make_event, make_work

TODAY = date(2026, 6, 1)


def claims_of(*events: PerformanceFacts, works: tuple[WorkFacts, ...] = ()) -> dict[int, Claim]:
    return claims_by_programmed(make_catalogue(*events, works=works), today=TODAY)


def reckoned(*events: PerformanceFacts, works: tuple[WorkFacts, ...] = ()) -> list[tuple[str, ...]]:
    claims = claims_of(*events, works=works)
    return [claims[number].reckoned for number in sorted(claims)]


def test_first_public_performance_is_at_once_world_national_and_city_premiere() -> None:
    claim = claims_of(make_event(1, "2020-03-12"))[1]

    assert claim == Claim(reckoned=("world", "national", "city"), wording="world premiere", proved=True)


def test_later_performances_are_first_in_their_country_and_city_in_these_records() -> None:
    claims = claims_of(
        make_event(1, "2020-03-12"),
        make_event(2, "2021-01-01", city="Graz"),
        make_event(3, "2021-05-01", city="Bergen", country="NO"),
        make_event(4, "2021-06-01", city="Bergen", country="NO"),
    )

    assert [(claims[number].wording, claims[number].proved) for number in (2, 3, 4)] == [
        ("first performance in these records (Graz)", False),
        ("first performance in these records (Norway)", False),
        ("", False),
    ]


def test_a_billing_that_agrees_proves_a_national_premiere() -> None:
    billed = ProgrammedFacts(id=2, work_id=1, billing="Norwegian premiere")

    claim = claims_of(make_event(1, "2020"), make_event(2, "2021-05-01", billed, city="Bergen", country="NO"))[2]

    assert (claim.wording, claim.proved, claim.contradicts) == ("national premiere (Norway)", True, None)


def test_a_narrower_billing_takes_the_proof_from_a_world_premiere() -> None:
    billed = ProgrammedFacts(id=1, work_id=1, billing="Austrian premiere")

    claim = claims_of(make_event(1, "2020-03-12", billed))[1]

    assert (claim.wording, claim.proved) == ("first performance in these records", False)


@pytest.mark.parametrize(
    ("fields", "why_not"),
    [
        ({"audience": Audience.PRIVATE}, "It was private."),
        ({"audience": Audience.INVITED}, "The audience was invited."),
        ({"audience": Audience.PUBLIC_REHEARSAL}, "It was a public rehearsal."),
        ({"kind": PerformanceKind.READING}, "A reading takes no title."),
        ({"kind": PerformanceKind.WORKSHOP}, "A workshop takes no title."),
        ({"kind": PerformanceKind.PREVIEW}, "A preview takes no title."),
        ({"kind": PerformanceKind.RECORDING_SESSION}, "A recording session takes no title."),
        ({"status": PerformanceStatus.CANCELLED}, "It was cancelled and did not take place."),
        ({"status": PerformanceStatus.POSTPONED}, "It was postponed and did not take place on this date."),
        ({"status": PerformanceStatus.WITHDRAWN}, "The record is withdrawn."),
        ({"status": PerformanceStatus.DUPLICATE}, "It is the same event recorded twice."),
        ({"status": PerformanceStatus.OLD_STYLE_DATE}, "It is the same event under an old-style date."),
        ({"status": PerformanceStatus.PLANNED}, "It was planned, and nothing says that it took place."),
        ({"when": None}, "It has no date, so its place in the order is unknown."),
    ],
)
def test_what_counts_for_nothing_says_why_and_takes_no_title_away(fields: dict[str, object], why_not: str) -> None:
    first = make_event(1, **{"when": "2020-03-12", **fields})

    claims = claims_of(first, make_event(2, "2021-05-01"))

    assert claims[1] == Claim(why_not=why_not)
    assert claims[2].reckoned == ("world", "national", "city")


def test_an_undated_performance_leaves_the_premiere_unproved() -> None:
    claims = claims_of(make_event(1, None), make_event(2, "2021-05-01"))

    assert (claims[2].wording, claims[2].proved) == ("first performance in these records", False)


def test_events_to_come_are_reckoned_apart() -> None:
    claims = claims_of(
        make_event(1, "2026-06-01", status=PerformanceStatus.CONFIRMED),
        make_event(2, "2026-07-01", status=PerformanceStatus.PLANNED, city="Bergen", country="NO"),
        make_event(3, "2026-08-01", status=PerformanceStatus.GIVEN),
    )

    assert [(claims[number].reckoned, claims[number].expected) for number in (1, 2, 3)] == [
        ((), ("world", "national", "city")),
        ((), ("national", "city")),
        ((), ()),
    ]
    assert claims[1].wording == "to be the world premiere"
    assert claims[2].wording == "to be the first performance in these records (Norway)"


def test_events_to_come_take_no_title_that_is_held() -> None:
    claims = claims_of(make_event(1, "2026-05-31"), make_event(2, "2026-07", status=PerformanceStatus.PLANNED))

    assert (claims[1].reckoned, claims[2].expected) == (("world", "national", "city"), ())


def test_two_cities_on_one_day_share_the_premiere() -> None:
    claims = claims_of(make_event(1, "1920-12-04"), make_event(2, "1920-12-04", city="Graz"))

    assert [claims[number].reckoned for number in (1, 2)] == [("world", "national", "city")] * 2
    assert claims[1].wording == "world premiere, shared with Graz"


def test_the_earlier_of_two_performances_on_one_evening_is_the_premiere() -> None:
    late = make_event(1, "2020-03-12", time=time(21, 0))
    early = make_event(2, "2020-03-12", time=time(18, 0))

    assert reckoned(late, early) == [(), ("world", "national", "city")]


def test_a_work_played_twice_in_one_programme_is_first_the_first_time() -> None:
    twice = make_event(1, "1931-01-10", ProgrammedFacts(id=1, work_id=1), ProgrammedFacts(id=2, work_id=1))

    assert reckoned(twice) == [("world", "national", "city"), ()]


def test_overlapping_dates_leave_the_order_unknown() -> None:
    claims = claims_of(
        make_event(1, "1936"),
        make_event(2, "1936-05", city="Graz"),
        make_event(3, "1937-01-01", city="Bergen", country="NO"),
    )

    assert [(claims[number].reckoned, claims[number].undecided) for number in (1, 2, 3)] == [
        (("city",), ("world", "national")),
        (("city",), ("world", "national")),
        (("national", "city"), ()),
    ]


def test_two_events_of_one_vague_date_leave_the_order_unknown() -> None:
    assert reckoned(make_event(1, "1936"), make_event(2, "1936")) == [(), ()]


def test_country_is_the_state_of_the_time_where_the_record_names_it() -> None:
    claims = claims_of(
        make_event(1, "1881-01-04", city="Breslau", country="PL", country_then="German Empire (Prussia)"),
        make_event(2, "1990-01-04", city="Gdynia", country="PL"),
        make_event(3, "1991-01-04", city="Gdynia", country="PL", country_then="Polen"),
        make_event(4, "1889-01-05", city="Leipzig", country="DE", country_then="German Empire"),
    )

    assert [claims[number].reckoned for number in (1, 2, 3, 4)] == [
        ("world", "national", "city"),
        ("national", "city"),
        (),
        ("national", "city"),
    ]
    assert claims[4].wording == "first performance in these records (German Empire, the state of the time)"


def test_a_version_has_a_premiere_of_its_own_beside_those_of_places() -> None:
    works = (make_work(1), make_work(2, version_of=1, version_label="for wind"))
    second = make_event(2, "2021-05-01", ProgrammedFacts(id=2, work_id=2))
    third = make_event(3, "2022-05-01", ProgrammedFacts(id=3, work_id=2), city="Bergen", country="NO")

    claims = claims_of(make_event(1, "2020"), second, third, works=works)

    assert [claims[number].reckoned for number in (2, 3)] == [("version",), ("national", "city")]
    assert claims[2].wording == "premiere of the version “for wind”"


def test_a_version_first_heard_abroad_is_said_beside_the_national_premiere() -> None:
    works = (make_work(1), make_work(2, version_of=1, version_label="chamber version"))
    second = make_event(2, "2021-05-01", ProgrammedFacts(id=2, work_id=2), city="Bergen", country="NO")

    claim = claims_of(make_event(1, "2020"), second, works=works)[2]

    assert claim.reckoned == ("national", "city", "version")
    assert claim.wording == "premiere of the chamber version; first performance in these records (Norway)"


@pytest.mark.parametrize(
    ("scoring", "expected"), [("", ()), ("2.2.2.2", ("version",)), ("1.1.1.1", ())], ids=["unknown", "other", "same"]
)
def test_an_unlabelled_original_heard_later_is_a_version_where_its_scoring_differs(
    scoring: str, expected: tuple[str, ...]
) -> None:
    works = (
        make_work(1, instrumentation_text=scoring),
        make_work(2, version_of=1, version_label="for winds", instrumentation_text="1.1.1.1"),
    )
    later = make_event(2, "2021-05-01", ProgrammedFacts(id=2, work_id=1))

    claims = claims_of(make_event(1, "2020", ProgrammedFacts(id=1, work_id=2)), later, works=works)

    assert claims[2].reckoned == expected


def partial(id_: int, part: str, extent: Extent = Extent.PARTIAL) -> ProgrammedFacts:
    return ProgrammedFacts(id=id_, work_id=1, extent=extent, part=part)


def test_parts_are_first_heard_once_and_take_nothing_from_the_whole() -> None:
    assert reckoned(
        make_event(1, "1900-12-09", partial(1, "Slack, Ebb")),
        make_event(2, "1901-01-06", partial(2, "Ebb")),
        make_event(3, "1901-02-06", partial(3, "Ebb and Flood")),
        make_event(4, "1901-10-27"),
        make_event(5, "1902-02-27", partial(5, "Bore", Extent.EXCERPT)),
    ) == [("part",), (), ("part",), ("world", "national", "city"), ()]


def test_parts_to_come_are_weighed_against_what_was_heard() -> None:
    claims = claims_of(
        make_event(1, "2025-12-09", partial(1, "Slack")),
        make_event(2, "2026-12-09", partial(2, "Slack")),
        make_event(3, "2026-12-10", partial(3, "Ebb")),
    )

    assert [claims[number].expected for number in (1, 2, 3)] == [(), (), ("part",)]


def test_a_part_without_a_name_is_first_only_where_nothing_came_before() -> None:
    assert reckoned(make_event(1, "1900", partial(1, "")), make_event(2, "1901", partial(2, ""))) == [("part",), ()]


def test_a_suite_is_a_part_of_its_own_name() -> None:
    events = make_event(1, "1900", partial(1, "1")), make_event(2, "1901", partial(2, "1", Extent.SUITE))

    assert reckoned(*events) == [("part",), ("part",)]


def test_first_concert_performance_after_the_staged_premiere_is_named() -> None:
    claims = claims_of(
        make_event(1, "1913-05-29", kind=PerformanceKind.STAGE),
        make_event(2, "1914-02-18", kind=PerformanceKind.CONCERT),
        make_event(3, "1914-04-05", kind=PerformanceKind.CONCERT),
    )

    assert [claims[number].also for number in (1, 2, 3)] == ["", "first concert performance", ""]


def test_versions_that_name_each_other_are_one_family() -> None:
    works = (make_work(1, version_of=2), make_work(2, version_of=1))
    events = make_event(1, "2020"), make_event(2, "2021", ProgrammedFacts(id=2, work_id=2), city="Graz")

    assert reckoned(*events, works=works) == [("world", "national", "city"), ("city", "version")]


def test_undated_events_are_listed_last() -> None:
    listed = reckon(make_catalogue(make_event(1, None), make_event(2, "2020")), today=TODAY)

    assert [one.playing.event.id for one in listed] == [2, 1]


whens = st.sampled_from(["1912", "1913", "c. 1913", "1913-05", "1913-05-29", "1913-05-30", "1914", "1912/1914"])
places = st.sampled_from([("Linz", "AT"), ("Graz", "AT"), ("Bergen", "NO"), ("", "NO"), ("Oslo", "")])


@st.composite
def histories(draw: st.DrawFn) -> list[PerformanceFacts]:
    drawn = draw(st.lists(st.tuples(whens, places), max_size=8))
    return [make_event(id_, when, city=city, country=land) for id_, (when, (city, land)) in enumerate(drawn, start=1)]


@given(histories(), st.randoms(use_true_random=False))
def test_order_of_the_records_does_not_matter(events: list[PerformanceFacts], random: Random) -> None:
    shuffled = random.sample(events, len(events))

    assert claims_of(*shuffled) == claims_of(*events)


@given(histories())
def test_nobody_holds_a_title_over_an_earlier_event_of_its_reach(events: list[PerformanceFacts]) -> None:
    claims = claims_of(*events)
    reach = {
        "world": lambda one: True,
        "national": lambda one: one.country,
        "city": lambda one: (one.city, one.country),
    }

    for title, key in reach.items():
        for holder in (one for one in events if title in claims[one.id].reckoned):
            rivals = [one for one in events if key(one) == key(holder) and one is not holder]
            assert {str(holder.date.compared_with(one.date)) for one in rivals} <= {"before", "same"}


@given(histories())
def test_exact_dates_leave_nothing_undecided(events: list[PerformanceFacts]) -> None:
    exact = [one for one in events if one.date.exact]

    assert all(claim.undecided == () for claim in claims_of(*exact).values())


def test_whole_life_of_a_work_is_reckoned_by_all_rules_together() -> None:
    assert reckoned(
        make_event(1, "2018-02", audience=Audience.PRIVATE),
        make_event(2, "2018-03-01", status=PerformanceStatus.POSTPONED),
        make_event(3, "2018-04-10", partial(3, "Ebb")),
        make_event(4, "2018-09-01", kind=PerformanceKind.BROADCAST),
        make_event(5, "2018-09-01", city="Bergen", country="NO"),
        make_event(6, "2019", city="Oslo", country="NO"),
        make_event(7, "2019-06", city="Lyon", country="FR"),
        make_event(8, "2019-06-20", city="Lille", country="FR"),
    ) == [
        (),
        (),
        ("part",),
        ("world", "national", "city"),
        ("world", "national", "city"),
        ("city",),
        ("city",),
        ("city",),
    ]


def test_claims_are_weighed_within_their_own_place() -> None:
    def billed(number: int, words: str) -> ProgrammedFacts:
        return ProgrammedFacts(id=number, work_id=1, billing=words)

    claims = claims_of(
        make_event(1, "2018-03-01"),
        make_event(2, "2019-03-01", billed(2, "Norwegian premiere"), city="Bergen", country="NO"),
        make_event(3, "2020-03-01", billed(3, "Norwegian premiere"), city="Oslo", country="NO"),
        make_event(4, "2021-03-01", billed(4, "premiere"), city="Lyon", country="FR"),
        make_event(5, "2022-03-01", billed(5, "world premiere"), city="Lyon", country="FR"),
    )

    assert [claims[number].contradicts for number in (2, 3, 4, 5)] == [
        None,
        "Billed as “Norwegian premiere”, but these records have an earlier public performance in the same country: "
        "1\xa0March 2019, Bergen.",
        None,
        f"Billed as “world premiere”, but these records have an earlier public performance: 1\xa0March 2018, "
        f"{make_event(1, '2018').city}.",
    ]
