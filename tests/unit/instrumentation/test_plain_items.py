"""Items found at once: what the quick look finds is what the readers find without it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from catalogue.instrumentation import Instrumentation, InstrumentationError, plain_items, read, scanning
from catalogue.instrumentation.tokens import nodes_of

TEXTS = Path(__file__).parents[2] / "reference" / "instrumentation" / "texts.jsonl"
HARD = [
    "ten trb, 2 tbn", "15 2nd violins, 3 va", "2 3 2 2 - 4 2 3 1", "piano, 4 hands", "3(II=picc).2(1).2.2 - 4(or 2)",
    "two flutes (one doubling piccolo), two oboes", "cl(Eb), 2 cl (A)", "fl(), 2ob() + hp", "bass drum, bass clarinet",
]  # fmt: skip


def told(text: str) -> object:
    try:
        return read(text), read(text).warnings
    except InstrumentationError as error:
        return error.reason, error.start, error.end


def nothing(*_: object) -> None:
    return None


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("flute, harp", ("flute", None, 1)),
        ("2 flutes (II=picc); harp", ("flute", 2, 3)),
        ("two horns", ("horn", 2, 2)),
        ("piano, 4 hands", None),
        ("flute or oboe", None),
        ("ten trb, harp", None),
        ("violin, cello", None),
        ("soprano, flute", None),
    ],
)
def test_only_what_can_be_read_in_one_way_is_found(text: str, found: tuple[str, int | None, int] | None) -> None:
    plain = plain_items.plain_item(nodes_of(text), 0)
    assert (plain and (plain[0].slug, plain[0].count and plain[0].count.most, plain[1])) == found


def test_the_quick_look_changes_no_reading(monkeypatch: pytest.MonkeyPatch) -> None:
    published = [json.loads(line)["text"] for line in TEXTS.read_text(encoding="utf-8").splitlines()]
    texts = [*published[::2], *HARD]
    quick = [told(text) for text in texts]
    for name in ("plain_item", "bracketed_figure"):
        monkeypatch.setattr(scanning, name, nothing)

    assert [told(text) for text in texts] == quick
    assert any(isinstance(one[0], Instrumentation) for one in quick)
