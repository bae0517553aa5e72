"""Twice the text takes about twice the steps to read, whatever is repeated in it; steps are counted, nothing timed."""

from __future__ import annotations

import sys
from types import FrameType
from typing import Any

import pytest

from catalogue.instrumentation import InstrumentationError, read
from catalogue.instrumentation.line_ups import MOST
from catalogue.instrumentation.reading import read_all

SHORT, LONG = 1_000, 2_000
MORE = 2.5
"""Steps for twice the text: more than this is growth by the square, which would be four."""
REPEATED = (
    "2/", "2-", "2.", "2 - ", "2fl", "1. ", "S.", "(2)", "[2]", "(a", "SATB ", "SATB, ", "I: vib; ", "fl;or ",
    "fl\nor ", "fl, ", "2 flutes, the second doubling piccolo, ", "3[1.2.pic] ", "2.2.2.2 - ", "Violin 1\n",
    "unknownword ", " ",
)  # fmt: skip


def steps(text: str) -> int:
    """Return how many lines of code are gone through to read a text, each turn of a loop one."""
    taken = 0

    def count(_frame: FrameType, event: str, _told: object) -> Any:
        nonlocal taken
        taken += event == "line"
        return count

    before = sys.gettrace()
    sys.settrace(count)
    try:
        read_all(text)
    except InstrumentationError:
        pass
    finally:
        sys.settrace(before)
    return taken


def of_length(piece: str, length: int) -> str:
    return (piece * (length // len(piece) + 1))[:length]


@pytest.mark.parametrize("piece", REPEATED)
def test_twice_the_text_takes_twice_the_steps(piece: str) -> None:
    read("2 fl, ob")
    assert steps(of_length(piece, LONG)) < MORE * steps(of_length(piece, SHORT))


def test_a_text_with_many_choices_names_one_line_up() -> None:
    assert read("fl, va, hp" + "; or 2 vn, pf" * (MOST - 1)).line_ups[MOST - 1].lines != ()
    assert len(read("fl, va, hp" + "; or 2 vn, pf" * MOST).line_ups) == 1
