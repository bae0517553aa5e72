from __future__ import annotations

from datetime import date, datetime

import pytest

from catalogue.actions.index import Reindexed, reindex
from catalogue.actions.works import delete_work
from catalogue.models import InstrumentationLine, Performance, Work
from tests.makers import NOW, make_performance, make_venue, make_work

pytestmark = pytest.mark.django_db


def test_reindex_finds_nothing_to_mend_in_a_catalogue_saved_by_actions() -> None:
    make_performance(make_work("Tides", instrumentation="pf"), venue=make_venue(), performers=("Kestrel Ensemble",))

    assert reindex() == Reindexed(records=4, mended=0)


def test_reindex_rebuilds_what_is_derived_and_nothing_else() -> None:
    work = make_work("Étude", instrumentation="pf")
    performance = make_performance(work, venue=make_venue())
    starts_at = performance.starts_at
    InstrumentationLine.objects.all().delete()
    Work.objects.update(search_text="", least_players=None)
    Performance.objects.update(first_day=None, last_day=None, starts_at=None)

    assert reindex() == Reindexed(records=3, mended=2)

    assert list(Work.objects.calling_for("piano").for_at_most(1).matching("etude")) == [work]
    found = Performance.objects.get()
    assert (found.first_day, found.starts_at) == (date(2026, 5, 16), starts_at)
    assert isinstance(starts_at, datetime)
    assert (found.sequence, found.changed_at, found.history.count()) == (
        performance.sequence,
        NOW,
        performance.history.count(),
    )


def test_reindex_sees_deleted_works_too() -> None:
    work = make_work("Tides")
    delete_work(work=work, by=None, now=NOW)
    Work.with_deleted.update(search_text="")

    assert reindex().mended == 1
    assert Work.with_deleted.get().search_text == "tides"
