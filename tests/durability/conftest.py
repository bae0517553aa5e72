"""A house of its own for each test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.durability.house import House


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    found = House(tmp_path / "data")
    yield found
    found.kill()
