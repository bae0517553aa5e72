"""Why nothing could be stored: told from the fault that the database or the file system raised.

SQLite says it in words (those of its result codes SQLITE_FULL, SQLITE_READONLY, SQLITE_CANTOPEN, SQLITE_BUSY and
SQLITE_LOCKED), PostgreSQL by SQLSTATE (53100 disk full, 25006 read only, 55P03 lock not available), files by ``errno``.
"""

from __future__ import annotations

import errno
from enum import StrEnum

from django.db import DatabaseError


class Why(StrEnum):
    """Why the database stored nothing."""

    FULL = "full"
    READ_ONLY = "read only"
    BUSY = "busy"


SENTENCES = {
    Why.FULL: "The disk that holds the catalogue is full, so nothing was stored; what was there before is safe.",
    Why.READ_ONLY: "The folder that holds the catalogue may not be written to, so nothing was stored.",
    Why.BUSY: "Somebody else was storing something that took long, so nothing was stored; try again.",
}
TOLD_BY_SQLITE = {
    "database or disk is full": Why.FULL,
    "attempt to write a readonly database": Why.READ_ONLY,
    "unable to open database file": Why.READ_ONLY,
    "database is locked": Why.BUSY,
    "database table is locked": Why.BUSY,
}
TOLD_BY_POSTGRESQL = {"53100": Why.FULL, "25006": Why.READ_ONLY, "55P03": Why.BUSY}
TOLD_BY_FILES = {
    errno.ENOSPC: Why.FULL,
    errno.EDQUOT: Why.FULL,
    errno.EROFS: Why.READ_ONLY,
    errno.EACCES: Why.READ_ONLY,
    errno.EPERM: Why.READ_ONLY,
}


def why_not_stored(fault: BaseException | None) -> Why | None:
    """Return why nothing could be stored; None where the fault is another.

    >>> why_not_stored(OSError(errno.ENOSPC, "No space left on device"))
    <Why.FULL: 'full'>
    """
    while fault is not None:
        found = told_by(fault)
        if found:
            return found
        fault = fault.__cause__ or fault.__context__
    return None


NO_DATABASE = ("file is not a database", "database disk image is malformed")


def why_not_opened(fault: BaseException) -> str:
    """Return one sentence on a database that cannot be read or reached, nothing where the fault is another.

    >>> why_not_opened(DatabaseError("file is not a database"))
    'The file of the catalogue is damaged or no database; put a backup in its place with “restore”.'
    """
    if not isinstance(fault, DatabaseError):
        return ""
    if str(fault) in NO_DATABASE:
        return "The file of the catalogue is damaged or no database; put a backup in its place with “restore”."
    first = str(fault).partition("\n")[0]
    return f"The database cannot be reached: {first}." if first.startswith("connection ") else ""


def told_by(fault: BaseException) -> Why | None:
    if isinstance(fault, OSError):
        return TOLD_BY_FILES.get(fault.errno or 0)
    if isinstance(fault, DatabaseError):
        return TOLD_BY_SQLITE.get(str(fault)) or TOLD_BY_POSTGRESQL.get(
            getattr(fault.__cause__, "sqlstate", None) or ""
        )
    return None
