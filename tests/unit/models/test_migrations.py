"""What every migration has to keep to, beyond what Django holds."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import catalogue.migrations

FILES = sorted(Path(next(iter(catalogue.migrations.__path__))).glob("[0-9]*.py"))
ROWS = re.compile(r"\w+\.(?:objects|_base_manager)\b(\.using\(database\))?")
MOVES_ROWS = [path for path in FILES if ROWS.search(path.read_text(encoding="utf-8"))]


def test_there_are_migrations_that_move_rows() -> None:
    assert MOVES_ROWS


@pytest.mark.parametrize("path", MOVES_ROWS, ids=lambda path: path.stem)
def test_rows_are_moved_in_the_database_that_is_brought_up_to_date(path: Path) -> None:
    """A backup is brought up to date in a database beside the catalogue, whose rows stay as they are."""
    text = path.read_text(encoding="utf-8")

    assert re.findall(r"\bdatabase = (.+)", text) == ["schema_editor.connection.alias"]
    assert all(ROWS.findall(text))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_other_connection_is_asked(path: Path) -> None:
    assert "import connection" not in path.read_text(encoding="utf-8")
