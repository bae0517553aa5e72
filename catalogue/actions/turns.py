"""Taking turns where no row is there yet that could be locked: a name that is given for the first time."""

from __future__ import annotations

from hashlib import sha256

from django.db import connection


def wait_turn(what: str) -> None:
    """Let nobody else get past the same words until the transaction ends that this is called in.

    What others have stored by then is seen by the next question. SQLite lets one write at a time anyway.
    """
    if connection.vendor == "postgresql":
        number = int.from_bytes(sha256(what.encode()).digest()[:8], "big", signed=True)
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [number])
