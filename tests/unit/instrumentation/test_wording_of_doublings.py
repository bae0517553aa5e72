"""Doublings in words where a short name would mean another instrument, or where one of several is chosen."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import Chair, Instrumentation, Line, read, shorthand, write_words
from catalogue.instrumentation.chairs_dress import write_chairs
from catalogue.instrumentation.vocabulary import LANGUAGES

PICCOLO = Instrumentation((Line("clarinet", "woodwind", chairs=(Chair(1, ("clarinet", "piccolo", "flute")),)),))
CHOICE = ("flute", "piccolo", "alto-flute")
CHAIRS = (Chair(1, ("flute",)), Chair(2, CHOICE, "or"), Chair(3, CHOICE, "or"))
EITHER = Instrumentation((Line("flute", "woodwind", (3, 3), chairs=CHAIRS),))
DIVIDED = read("S(div)A(div)TB choir, organ")


@pytest.mark.parametrize("told", [PICCOLO, EITHER, DIVIDED], ids=["piccolo", "either", "divided"])
@pytest.mark.parametrize("language", LANGUAGES)
def test_words_of_it_read_back(told: Instrumentation, language: str) -> None:
    assert read(write_words(told, language), language=language) == told


@pytest.mark.parametrize("told", [PICCOLO, EITHER, DIVIDED], ids=["piccolo", "either", "divided"])
def test_both_dresses_of_it_read_back(told: Instrumentation) -> None:
    assert read(shorthand(told)) == told
    assert read(write_chairs(told)) == told


def test_a_choice_is_joined_by_or() -> None:
    assert write_words(EITHER) == "3 flutes, the second and third doubling piccolo or alto flute"
    assert shorthand(EITHER) == "3fl(II,III=picc or afl)"
