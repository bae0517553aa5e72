"""Keeps secrets that stand in addresses (feeds, shared pages, entry links, ways back in) out of the logs."""

from __future__ import annotations

import logging
import re

SECRET_IN_PATH = re.compile(r"/(feeds|shared|riders|enter|start|join|account/recover/\w+)/[A-Za-z0-9_-]{16,}")


def mask(text: str) -> str:
    """
    >>> mask("GET /feeds/0123456789abcdefXYZ/calendar.ics")
    'GET /feeds/…/calendar.ics'
    """
    return SECRET_IN_PATH.sub(r"/\1/…", text)


class MaskSecrets(logging.Filter):
    def filter(self, record: logging.LogRecord) -> bool:
        record.msg, record.args = mask(record.getMessage()), ()
        return True
