"""How files of a pack are searched before they leave."""

from __future__ import annotations

import tracemalloc
from collections.abc import Iterator
from typing import Any, cast

from catalogue.exchange.pack_texts import AT_ONCE, Pack
from catalogue.exchange.zip_stream import Member
from catalogue.packing.making import HELD, MadeFile, given_away

MEGABYTE = 1_000_000


class Long:
    """A recording that is made while it is read."""

    size = 60 * MEGABYTE

    def parts(self) -> Iterator[bytes]:
        for _number in range(self.size // MEGABYTE):
            yield bytes(MEGABYTE)


def test_a_long_file_lies_on_the_disk_while_it_is_searched() -> None:
    file = MadeFile(cast(Any, None), Member("take.bin", Long()), Long.size)
    tracemalloc.start()

    found = list(given_away([file], Pack(), ()))

    _now, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert found == []
    assert peak < 2 * HELD + 4 * AT_ONCE < Long.size
