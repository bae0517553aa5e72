from __future__ import annotations

import tomllib
from importlib.resources import files

import pytest

from catalogue.timing.words import LANGUAGES, TYPED, folded, words_in


def test_every_language_names_twelve_months_twice() -> None:
    lengths = {code: (len(words.months), len(words.months_short)) for code, words in LANGUAGES.items()}

    assert lengths == dict.fromkeys(["en-GB", "en-US", "de", "fr", "it", "es"], (12, 12))


def test_every_printed_word_can_be_read_back() -> None:
    unread = [
        word
        for words in LANGUAGES.values()
        for number, both in enumerate(zip(words.months, words.months_short, strict=True), start=1)
        for word in both
        if TYPED.months.get(folded(word)) != number
    ]
    units = {
        word: TYPED.units.get(folded(word))
        for words in LANGUAGES.values()
        for word in (*words.hour, *words.minute, *words.second)
    }
    abouts = {
        folded(word) for words in LANGUAGES.values() for word in (words.about, words.about_short, words.about_date)
    }

    assert unread == []
    assert None not in units.values()
    assert abouts - set(TYPED.about) == set()


def test_no_typed_word_means_two_things() -> None:
    table = tomllib.loads(files("catalogue.timing").joinpath("words.toml").read_text(encoding="utf-8"))["reading"]
    months = [word for names in table["months"] for word in names]
    units = [*table["hour"], *table["minute"], *table["second"]]

    assert sorted(months) == sorted(set(months))
    assert sorted(units) == sorted(set(units))
    assert [word for word in (*months, *units, *table["about"]) if word != folded(word)] == []


def test_a_regional_language_takes_the_words_of_its_own() -> None:
    assert words_in("de-AT") is LANGUAGES["de"]
    assert words_in("en-AU") is LANGUAGES["en-GB"]
    with pytest.raises(KeyError):
        words_in("xx")
