from __future__ import annotations

import logging

from config.log_masks import MaskSecrets

TOKEN = "Zk3_9fQ-aaaaBBBBccccDDDDeeeeFFFF00001111222"


def test_masked_record_names_the_room_but_not_the_secret() -> None:
    record = logging.LogRecord("server", logging.INFO, "", 0, "GET %s 200", (f"/feeds/{TOKEN}/calendar.ics",), None)

    assert MaskSecrets().filter(record)
    assert record.getMessage() == "GET /feeds/…/calendar.ics 200"
