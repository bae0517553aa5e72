"""What a house's log tells: one line of JSON for each event (JSON Lines), and nothing of anybody.

Of a request: its id, method, route by name, status, milliseconds, the role of whoever asked and the number of the
composer. Of a fault: its class and the lines it went through. Texts that are made up when something happens (addresses,
names, values in a database's complaint) are never told: of our own loggers the fixed words of the message, of all
others only where it came from.
"""

from __future__ import annotations

import json
import logging
import traceback
from contextvars import ContextVar
from datetime import UTC, datetime
from types import TracebackType
from typing import Any

OURS, SERVER = "catalogue.", "gunicorn.error"
TOLD_OF_REQUESTS = ("method", "route", "status", "milliseconds", "role", "composer")
request_id: ContextVar[str] = ContextVar("request_id", default="")


class JsonLines(logging.Formatter):
    """Writes a record as one line of JSON."""

    def format(self, record: logging.LogRecord) -> str:
        told: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "event": event_of(record),
        }
        if identity := request_id.get():
            told["request"] = identity
        told |= {name: getattr(record, name) for name in TOLD_OF_REQUESTS if ours(record) and hasattr(record, name)}
        if record.exc_info and record.exc_info[0]:
            told["fault"], told["through"] = record.exc_info[0].__qualname__, lines_of(record.exc_info[2])
        return json.dumps(told, ensure_ascii=True)


def ours(record: logging.LogRecord) -> bool:
    return record.name.startswith(OURS)


def event_of(record: logging.LogRecord) -> str:
    """Return the words of a message before anything is set into them where they are fixed, else the place that told it.

    Those are our own, and what the server of the processes tells in the course of things.
    """
    has_fixed_words = ours(record) or (record.name == SERVER and record.levelno <= logging.INFO)
    return str(record.msg) if has_fixed_words else f"{record.module}.{record.funcName}:{record.lineno}"


def lines_of(trace: TracebackType | None) -> list[str]:
    """Return the way a fault took, as file, line and function; no line's text and no value."""
    return [f"{frame.filename}:{frame.lineno} {frame.name}" for frame in traceback.extract_tb(trace)]
