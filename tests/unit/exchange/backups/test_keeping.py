"""Which daily backups stay, and when one is due."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from catalogue.exchange.backups.checking import check_backup
from catalogue.exchange.backups.keeping import DAILY, Kept, going, is_due, kept_in, make_daily, name_of

NEEDS_MIGRATIONS = pytest.mark.usefixtures("with_migrations")
NOW = datetime(2026, 3, 9, 10, 0, tzinfo=UTC)


def kept(moment: datetime, why: str = DAILY) -> Kept:
    return Kept(Path(name_of(why, moment)), why, moment)


def test_of_two_years_of_days_those_of_seven_days_four_weeks_and_twelve_months_stay() -> None:
    daily = [kept(NOW - timedelta(days=days)) for days in range(730)]

    staying = [one.moment.date().isoformat() for one in daily if one not in going(daily)]

    assert staying == [
        "2026-03-09", "2026-03-08", "2026-03-07", "2026-03-06", "2026-03-05", "2026-03-04", "2026-03-03", "2026-03-01",
        "2026-02-28", "2026-02-22", "2026-01-31", "2025-12-31", "2025-11-30", "2025-10-31", "2025-09-30", "2025-08-31",
        "2025-07-31", "2025-06-30", "2025-05-31", "2025-04-30",
    ]  # fmt: skip


def test_backups_made_for_another_reason_always_stay() -> None:
    others = [kept(NOW - timedelta(days=9 * days), "before-upgrade") for days in range(100)]

    assert going(others) == []


def test_names_are_read_back_and_other_files_are_none_of_ours(tmp_path: Path) -> None:
    for name in (
        name_of(DAILY, NOW),
        name_of("asked-for", NOW + timedelta(hours=1)),
        "holiday.zip",
        "daily-x.zip",
        "daily-20260300T100000Z.zip",
    ):
        (tmp_path / name).touch()

    assert [(one.why, one.moment) for one in kept_in(tmp_path)] == [
        ("asked-for", NOW + timedelta(hours=1)),
        (DAILY, NOW),
    ]


@pytest.mark.parametrize(
    ("hours_ago", "due"), [((), True), ((25,), True), ((23,), False), ((-48,), True), ((-48, 3), False)]
)
def test_a_backup_is_due_a_day_after_the_last_whatever_the_clock_once_was(
    tmp_path: Path, hours_ago: tuple[int, ...], due: bool
) -> None:
    for hours in hours_ago:
        (tmp_path / name_of(DAILY, NOW - timedelta(hours=hours))).touch()

    assert is_due(tmp_path, NOW) is due


@NEEDS_MIGRATIONS
@pytest.mark.django_db(transaction=True)
def test_the_days_backup_is_made_once(tmp_path: Path) -> None:
    made = make_daily(tmp_path, now=NOW)

    assert made is not None
    assert check_backup(made).moment == NOW
    assert make_daily(tmp_path, now=NOW + timedelta(hours=3)) is None
    assert [path.name for path in tmp_path.iterdir()] == ["daily-20260309T100000Z.zip"]
