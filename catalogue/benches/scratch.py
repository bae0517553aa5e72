"""A database that lives as long as the run, so that nothing measured ever touches a person's catalogue."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from django.db import connection
from django.test.utils import override_settings


@contextmanager
def scratch_database() -> Iterator[None]:
    """Put the connection on a new database with every table, and take it away afterwards.

    With SQLite that is a file in a temporary folder, with PostgreSQL a database beside the one in the settings;
    calendars that are built are kept in a temporary folder.
    """
    own = connection.settings_dict["NAME"]
    with TemporaryDirectory(prefix="ledgerline-bench-") as folder:
        if connection.vendor == "sqlite":
            connection.settings_dict["TEST"]["NAME"] = str(Path(folder) / "bench.sqlite3")
        calendars = override_settings(KEPT_CALENDARS=Path(folder) / "calendars")
        connection.creation.create_test_db(verbosity=0, autoclobber=True, serialize=False)
        try:
            with calendars:
                yield
        finally:
            connection.creation.destroy_test_db(own, verbosity=0)
