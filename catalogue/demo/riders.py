"""The riders that the demo has sent: made as they stand, and answered as ``fixtures/demo/riders.toml`` says."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

from catalogue.actions.riders import Said, send_rider, take_answers
from catalogue.demo.loading import FOLDER
from catalogue.demo.rows import identity
from catalogue.models import Rider, RiderSending
from catalogue.terms import Answer
from catalogue.web.sent_riders import package_of


def send_demo_riders(now: datetime) -> int:
    """Send the riders that have not been sent yet; return how many. Their secret addresses are known to nobody."""
    return sum(sent(row, now) for row in sendings())


def sendings() -> Iterator[dict[str, Any]]:
    yield from tomllib.loads((FOLDER / "riders.toml").read_text(encoding="utf-8"))["sending"]


def sent(row: dict[str, Any], now: datetime) -> bool:
    rider = Rider.objects.filter(uid=identity("records", row["rider"])).first()
    if rider is None or rider.sendings.exists():
        return False
    left = now + timedelta(days=row["days"])
    package = package_of(rider, language=rider.composer.language, now=left)
    sending, _token = send_rider(rider=rider, to=row["to"], package=package, now=left)
    answered = now + timedelta(days=row["answered_days"])
    answers = dict(answers_to(sending, row["answers"]))
    take_answers(sending=sending, answers=answers, by=row["by"], message=row["message"], now=answered)
    RiderSending.objects.filter(pk=sending.pk).update(first_read_at=answered, last_read_at=answered, times_read=2)
    return True


def answers_to(sending: RiderSending, told: dict[str, list[str]]) -> Iterator[tuple[str, Said]]:
    """Give the answers by the keys of the items. Raises KeyError where no item is titled so."""
    keys = {item["title"]: item["key"] for item in sending.items}
    for title, (answer, *remarks) in told.items():
        yield keys[title], Said(Answer(answer), " ".join(remarks))
