"""A house of its own for each test, like one that is furnished once."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.durability.house import House


@pytest.fixture(scope="session")
def furnished(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    found = House(tmp_path_factory.mktemp("furnished") / "data")
    try:
        yield found.furnished()
    finally:
        found.gone()


@pytest.fixture
def house(tmp_path_factory: pytest.TempPathFactory, furnished: House) -> Iterator[House]:
    found = House(tmp_path_factory.mktemp("house") / "data", furnished)
    try:
        yield found
    finally:
        found.gone()
