"""Exposure to noise against published figures, each criterion by itself."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from catalogue.rules.exposure import (
    CRITERIA,
    EU_UPPER,
    HOUR,
    LISTENERS,
    NIOSH,
    OSHA,
    Criterion,
    Session,
    day_level,
    dose,
    given_seconds,
    read_sessions,
    reckon_exposure,
)
from catalogue.rules.technical.lists import ListError

MINUTE = 60

# NIOSH, "Noise and hearing loss" (web page on the recommended exposure limit) and Publication 98-126, table 1-1.
NIOSH_TIMES = ((82, 16 * 60), (85, 8 * 60), (88, 4 * 60), (91, 2 * 60), (94, 60), (97, 30), (100, 15), (115, 0.5))
NIOSH_ROUNDED = ((90, 151), (95, 47.6))
# OSHA, 29 CFR 1910.95, Table G-16: hours per day at dB(A), slow response.
OSHA_HOURS = ((90, 8), (92, 6), (95, 4), (97, 3), (100, 2), (102, 1.5), (105, 1), (110, 0.5), (115, 0.25))
# SCENIHR, "Potential health risks of exposure to noise from personal music players", 2008: equal energy to 85 dB(A).
EU_MINUTES = ((85, 480), (88, 240), (91, 120), (94, 60), (97, 30), (100, 15))
# ITU-T H.870 (08/2018), mode 1: 80 dB(A) for 40 hours a week; other levels by equal energy (reckoned).
LISTENER_HOURS = ((80, 40), (83, 20), (86, 10), (89, 5), (92, 2.5), (95, 1.25))


def minutes(level: float, criterion: Criterion) -> float:
    given = given_seconds(level, criterion)
    assert given is not None
    return given / MINUTE


@pytest.mark.parametrize(
    ("criterion", "level", "expected"),
    [
        *((NIOSH, level, expected) for level, expected in NIOSH_TIMES),
        *((OSHA, level, 60 * hours) for level, hours in OSHA_HOURS),
        *((EU_UPPER, level, expected) for level, expected in EU_MINUTES),
        *((LISTENERS, level, 60 * hours) for level, hours in LISTENER_HOURS),
    ],
)
def test_a_criterion_gives_the_time_that_is_published(criterion: Criterion, level: float, expected: float) -> None:
    assert round(minutes(level, criterion), 1) == expected


@pytest.mark.parametrize(("level", "expected"), NIOSH_ROUNDED)
def test_niosh_between_the_steps_of_three_decibels(level: float, expected: float) -> None:
    assert round(minutes(level, NIOSH), 1 if expected < 100 else None) == expected


def test_the_table_of_osha_is_rounded_and_its_formula_gives_the_example_of_its_manual() -> None:
    """OSHA Technical Manual, section III, chapter 5: 8 hours at 92 dB(A) are 131 per cent (by the formula, cut off)."""
    by_formula = replace(OSHA, table=MappingProxyType({}))

    assert int(dose([Session("shift", 92, 8 * HOUR)], by_formula)) == 131
    assert round((given_seconds(92, by_formula) or 0) / HOUR, 2) == 6.06
    assert round((given_seconds(102, by_formula) or 0) / HOUR, 3) == 1.516


def test_below_its_table_osha_counts_nothing_and_niosh_does() -> None:
    quiet = [Session("strings alone", 88, 4 * HOUR)]

    assert (dose(quiet, OSHA), given_seconds(88, OSHA)) == (0, None)
    assert dose(quiet, NIOSH) == 100


def test_sessions_of_a_day_add_up_within_a_criterion() -> None:
    """29 CFR 1910.95, note to Table G-16: C1/T1 + C2/T2 + … ; the same sum is in NIOSH Publication 98-126."""
    day = (Session("tutti", 91, HOUR), Session("brass alone", 97, 15 * MINUTE), Session("performance", 94, 30 * MINUTE))

    assert dose(day, NIOSH) == 50 + 50 + 50
    assert round(dose(day, OSHA), 1) == round(100 * (1 / (8 / 2 ** (1 / 5)) + 0.25 / 3 + 0.5 / (8 / 2 ** (4 / 5))), 1)


def test_the_same_energy_over_eight_hours_is_one_level() -> None:
    """Directive 2003/10/EC and ISO 1999: 3 dB more in half the time (10 · log 2 = 3.01 dB)."""
    assert round(day_level([Session("all day", 85, 8 * HOUR)]), 2) == 85.00
    assert round(day_level([Session("half", 88.01, 4 * HOUR)]), 2) == 85.00
    assert round(day_level([Session("a", 85, 4 * HOUR), Session("b", 85, 4 * HOUR)]), 2) == 85.00


def test_every_criterion_names_its_source_and_none_is_carried_into_another() -> None:
    found = reckon_exposure((Session("tutti", 95, HOUR),))

    assert [one.criterion for one in found.counted] == list(CRITERIA)
    assert all(one.criterion.source for one in found.counted)
    assert {one.criterion.exchange for one in found.counted} == {3, 5}
    assert [round(one.dose, 1) for one in found.counted][:2] == [126.0, 25.0]


@pytest.mark.parametrize(
    ("text", "wrong", "reason"),
    [
        (
            "tutti; 91",
            "tutti; 91",
            "Write what it was, its level and how long it lasted, as in: tutti; 91 dB(A); 1h 30m.",
        ),
        ("tutti; loud; 1h", "loud", "“loud” is no level; write decibels weighted A, such as 91 dB(A)."),
        ("a; 80; 1h\ntutti; 191; 1h", "191", "A level lies between 30 and 150 dB(A), not at 191."),
        ("tutti; 91; 0 s", "0 s", "A session lasts longer than no time."),
        (
            "a; 80; 20h\nb; 80; 5h",
            "a; 80; 20h\nb; 80; 5h",
            "These sessions last longer than a day together; count one day at a time.",
        ),
    ],
)
def test_a_mistake_stands_at_its_place(text: str, wrong: str, reason: str) -> None:
    with pytest.raises(ListError) as raised:
        read_sessions(text)

    assert (raised.value.reason, text[raised.value.start : raised.value.end]) == (reason, wrong)


def test_levels_are_read_as_people_write_them() -> None:
    assert [one.level for one in read_sessions("a; 91 dB(A); 1h\nb; 92,5 dBA; 1h\nc; 93.5; 1h\nd; 94 db a; 1h")] == [
        91.0,
        92.5,
        93.5,
        94.0,
    ]


def test_no_time_is_given_above_the_most_that_a_criterion_names() -> None:
    # 29 CFR 1910.95: Table G-16 ends at 115 dB(A); Table G-16a of Appendix A counts 120 dB(A) by 0.125 hours
    assert (given_seconds(115, OSHA), given_seconds(120, OSHA), given_seconds(141, NIOSH)) == (900, 0, 0)
    assert dose([Session("brass", 120, 450)], OSHA) == pytest.approx(100)
