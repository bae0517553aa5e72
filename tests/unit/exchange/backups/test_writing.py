"""Why a backup could not be made, in a sentence."""

from __future__ import annotations

import errno
import sqlite3
from pathlib import Path

import pytest

from catalogue.exchange.backups.writing import why_not_written

NO_ROOM = "There is no room left on the disk; no backup was made."


@pytest.mark.parametrize(
    ("fault", "told"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), NO_ROOM),
        (sqlite3.OperationalError("database or disk is full"), NO_ROOM),
        (PermissionError(errno.EACCES, "Permission denied"), "“a.zip” cannot be written: Permission denied."),
        (OSError("odd"), "The catalogue cannot be read: odd."),
        (sqlite3.OperationalError("disk I/O error"), "The catalogue cannot be read: disk I/O error."),
    ],
)
def test_the_reason_is_told(fault: Exception, told: str) -> None:
    assert why_not_written(Path("a.zip"), fault) == told
