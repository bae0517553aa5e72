from __future__ import annotations

import pytest

from catalogue.instrumentation.numbers import cardinal, ordinal, roman
from catalogue.instrumentation.phrases import count_at, keys_end, ordinal_at, seats_at
from catalogue.instrumentation.tokens import nodes_of


@pytest.mark.parametrize(("word", "value"), [("I", 1), ("IV", 4), ("VIII", 8), ("XII", 12), ("iii", 3)])
def test_roman_numerals_are_read(word, value):
    assert roman(word) == value


@pytest.mark.parametrize("word", ["", "C", "D", "M", "x", "IIII", "Vx", "mix"])
def test_other_letters_are_no_roman_numerals(word):
    assert roman(word) is None


@pytest.mark.parametrize(
    ("word", "value"), [("two", 2), ("drei", 3), ("quatre", 4), ("sei", 6), ("ocho", 8), ("Elf", 11)]
)
def test_number_words_of_the_languages_are_read(word, value):
    assert cardinal(word) == value


@pytest.mark.parametrize(
    ("word", "value"), [("second", 2), ("zweite", 2), ("troisième", 3), ("terzo", 3), ("primera", 1)]
)
def test_ordinals_of_the_languages_are_read(word, value):
    assert ordinal(word) == value


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [
        ("2 fl", 2, 2), ("2-4 perc", 2, 4), ("6 or 8 harps", 6, 8), ("3 o 4 tromboni", 3, 4), ("two flutes", 2, 2),
        ("3[or 4]", 3, 4), ("two or three horns", 2, 3),
    ],
)  # fmt: skip
def test_counts_and_ranges_are_read(text, least, most):
    counted = count_at(nodes_of(text), 0)

    assert counted is not None
    assert (counted.least, counted.most) == (least, most)


@pytest.mark.parametrize(
    ("text", "seats"),
    [("1", (1,)), ("1,2", (1, 2)), ("I-III", (1, 2, 3)), ("I+II", (1, 2)), ("1 & 2", (1, 2)), ("3-6", (3, 4, 5, 6))],
)
def test_part_numbers_are_read(text, seats):
    read = seats_at(nodes_of(text), 0)

    assert read is not None
    assert read[0] == seats


@pytest.mark.parametrize(
    "text", ["in A", "in A and B-flat", "in Si b e La", "in A/Bb", "in both A and B-flat", "en ut"]
)
def test_statements_of_keys_are_passed_over_whole(text):
    nodes = nodes_of(text)

    assert keys_end(nodes, 0) == len(nodes)


def test_ordinal_in_figures_is_no_plain_number():
    assert ordinal_at(nodes_of("2nd"), 0) == (2, 2)
    assert ordinal_at(nodes_of("2 fl"), 0) is None
