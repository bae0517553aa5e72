from __future__ import annotations

import logging

import pytest

from config.log_masks import MaskSecrets, mask

TOKEN = "Zk3_9fQ-aaaaBBBBccccDDDDeeeeFFFF00001111222"


def test_masked_record_names_the_room_but_not_the_secret() -> None:
    record = logging.LogRecord("server", logging.INFO, "", 0, "GET %s 200", (f"/feeds/{TOKEN}/calendar.ics",), None)

    assert MaskSecrets().filter(record)
    assert record.getMessage() == "GET /feeds/…/calendar.ics 200"


@pytest.mark.parametrize("room", ["shared", "riders", "start", "join", "enter", "account/recover/MQ"])
def test_every_room_that_is_opened_by_an_address_is_masked(room: str) -> None:
    assert mask(f"Not Found: /{room}/{TOKEN}/") == f"Not Found: /{room}/…/"
