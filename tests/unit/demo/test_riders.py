"""The riders that the demo has sent: answered as its file says, once, at an address that nobody was told."""

from __future__ import annotations

import tomllib

import pytest

from catalogue.demo import riders as demo_riders
from catalogue.demo.riders import FOLDER, send_demo_riders, sendings
from catalogue.demo.rows import identity
from catalogue.models import Rider, RiderSending, TechnicalSetup
from tests.makers import NOW, make_work
from tests.record_makers import make_record

pytestmark = pytest.mark.django_db


def test_riders_that_are_sent_are_riders_of_the_demo() -> None:
    riders = tomllib.loads((FOLDER / "records.toml").read_text(encoding="utf-8"))["rider"]

    assert {row["rider"] for row in sendings()} <= {row["slug"] for row in riders}


def test_rider_is_sent_once_and_answered(monkeypatch: pytest.MonkeyPatch) -> None:
    work = make_work("Ash Ferry", instrumentation="pf")
    setup = make_record(TechnicalSetup, work=work, equipment="4 loudspeakers; presenter", inputs="", layout="none")
    make_record(Rider, work=work, setup=setup, uid=identity("records", "ash-ferry"))
    row = {
        "rider": "ash-ferry", "to": "Kit Arran", "days": -9, "answered_days": -6, "by": "Kit Arran", "message": "Cold.",
        "answers": {"4 loudspeakers": ["no", "Two."]},
    }  # fmt: skip
    monkeypatch.setattr(demo_riders, "sendings", lambda: [row])

    assert [send_demo_riders(NOW), send_demo_riders(NOW)] == [1, 0]
    (made,) = RiderSending.objects.all()
    assert (made.revision, made.sent_to, made.answered_by, made.message) == (1, "Kit Arran", "Kit Arran", "Cold.")
    assert list(made.answers.values_list("answer", "remark")) == [("no", "Two.")]
