"""The published early performances of ``premieres/performances.csv``, taken in as a spreadsheet in its own words.

The cells of the file go through the import ("cancelled (influenza)", "semi-private (bookshop, invited)", "suite No.
1"); what comes out of the records has to be what the rules make of the coded columns. Sources: the file's last column.
"""

from __future__ import annotations

from collections import Counter
from datetime import UTC, date, datetime

import pytest

from catalogue.exchange.importing import Wish, import_table
from catalogue.exchange.outcomes import Outcome, Report
from catalogue.exchange.tables import read_table
from catalogue.gathering import gather_catalogue
from catalogue.models import Composer
from catalogue.rules.premieres import Reckoned, reckon
from tests.reference.test_historical_premieres import FOLDER, ROWS, SAME_VERSION

pytestmark = pytest.mark.django_db


def take_in() -> Report:
    content = (FOLDER / "performances.csv").read_bytes()
    return import_table(read_table(content), Wish(None, datetime(2026, 1, 1, tzinfo=UTC)))


def test_what_the_file_says_is_reckoned_from_the_records() -> None:
    report = take_in()

    told = [
        (composer.name, title_date_city(one), *one.claim.reckoned)
        for composer in Composer.objects.all()
        for one in reckon(gather_catalogue(composer), today=date(2026, 1, 1))
    ]
    expected = [
        (row["composer"], (row["work"], row["date"], row["city"]), *filter(None, row["reckoned"].split(";")))
        for row in ROWS
    ]
    assert (report.errors, report.count(Outcome.NEW)) == ((), 131)
    assert Counter(told) == Counter(expected)
    # The columns that hold verdicts are kept as notes and never read.
    verdicts = {"happened", "public", "complete", "reckoned", "librarian", "from_memory", "source"}
    assert set(report.unknown_columns) == verdicts


def title_date_city(one: Reckoned) -> tuple[str, str, str]:
    event = one.playing.event
    return one.playing.work.title.title, str(event.date), event.city


def test_taking_the_file_in_again_changes_nothing_and_short_labels_mean_the_long_ones() -> None:
    take_in()

    assert take_in().count(Outcome.SAME) == 131
    labels = Composer.objects.get(name="Edward Elgar").works.values_list("version_label", flat=True)
    assert set(SAME_VERSION.values()) <= set(labels)
    assert set(SAME_VERSION).isdisjoint(labels)
