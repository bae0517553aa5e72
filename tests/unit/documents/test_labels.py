"""The printed words: catalogues that are whole, values that are never markup or places."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po

from catalogue.documents.labels import FOLDER, labels
from catalogue.documents.model import Run, plain, value
from catalogue.documents.renderers.plain import render_plain
from tests.reference.documents.house import works_by

LANGUAGES = ("de", "fr", "it", "es")
CATALOGUES = tuple(sorted(path.name for path in FOLDER.iterdir()))


def catalogue(language: str) -> Catalog:
    with (FOLDER / language / "LC_MESSAGES" / "documents.po").open("rb") as source:
        return read_po(source, abort_invalid=True)


def messages(language: str) -> dict[str, tuple[str, ...]]:
    """Each message (the singular of a counted one) with its translations."""
    found = {}
    for message in catalogue(language):
        if message.id:
            key = message.id if isinstance(message.id, str) else message.id[0]
            found[key] = (message.string,) if isinstance(message.string, str) else tuple(message.string)
    return found


def words_in_code() -> set[str]:
    """Every string in the documents' code and in its tables of words."""
    root = FOLDER.parent
    constants = {
        node.value
        for path in root.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    groupings = (root / "contents" / "groupings.toml").read_text(encoding="utf-8")
    return constants | set(re.findall(r'^\["(.+)"\]$', groupings, re.MULTILINE))


def test_there_are_catalogues() -> None:
    assert CATALOGUES == ("de", "en_US", "es", "fr", "it")


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_language_has_every_word(language: str) -> None:
    everything = {key for one in LANGUAGES for key in messages(one)}

    assert everything - set(messages(language)) == set()


def words_asked_for() -> set[str]:
    """What the contents modules have said in the language of a document, where the message stands at the place."""
    return {
        word.value
        for path in (FOLDER.parent / "contents").glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
        if node.func.attr in ("word", "say", "count") and node.args
        for word in ast.walk(node.args[0])
        if isinstance(word, ast.Constant) and isinstance(word.value, str) and len(word.value) > 1
    }


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_word_that_is_asked_for_is_in_the_catalogue(language: str) -> None:
    assert len(words_asked_for()) > 100
    assert words_asked_for() - set(messages(language)) == set()


@pytest.mark.parametrize("language", CATALOGUES)
def test_no_catalogue_translates_what_no_document_says(language: str) -> None:
    assert set(messages(language)) - words_in_code() == set()


@pytest.mark.parametrize("language", CATALOGUES)
def test_translations_have_the_places_of_their_message(language: str) -> None:
    wrong = {
        key: strings
        for key, strings in messages(language).items()
        if any(set(re.findall(r"\{\w+\}", string)) != set(re.findall(r"\{\w+\}", key)) for string in strings)
    }

    assert wrong == {}


def test_french_signs_stand_behind_a_space_at_which_no_line_ends() -> None:
    loose = [string for strings in messages("fr").values() for string in strings if re.search(r" [;:!?»]|« ", string)]

    assert loose == []


def test_figures_have_the_decimal_sign_of_the_language() -> None:
    assert [labels(tag).figure("−22.5°") for tag in ("en-US", "de", "fr")] == ["−22.5°", "−22,5°", "−22,5°"]


def test_american_wording_differs_where_the_trade_does() -> None:
    assert plain(labels("en-US").say("hire set {number}", number="2")) == "rental set 2"
    assert plain(labels("en-GB").say("hire set {number}", number="2")) == "hire set 2"


def test_a_regional_tag_takes_the_words_of_its_language_and_an_unknown_one_english() -> None:
    assert labels("de-AT").word("Strings") == "Streicher"
    assert labels("eo").word("Strings") == "Strings"
    assert labels("xx-nonsense").word("Strings") == "Strings"
    assert [labels(tag).language for tag in ("de-AT", "en-AU", "eo")] == ["de", "en-GB", "en-GB"]


@pytest.mark.parametrize("language", ["de-AT", "en-AU", "pt", "zh-Hant", "nonsense"])
def test_a_document_is_printed_whatever_language_is_asked_for(language: str) -> None:
    assert "Slack Rope" in render_plain(works_by("category", language)).decode()


def test_a_value_stands_in_its_place_as_an_isolate() -> None:
    assert labels("en-GB").say("Text by {author}", author="سلمى") == (Run("Text by "), Run("سلمى", value=True))


def test_braces_in_a_value_are_no_places() -> None:
    text = labels("en-GB").say("{author}, in {language}", author="{language}", language="Greek")

    assert plain(text) == "{language}, in Greek"


def test_small_numbers_are_written_out_in_english_only() -> None:
    assert labels("en-GB").count("{n} work", "{n} works", 23, spelled=True) == "twenty-three works"
    assert labels("en-GB").count("{n} work", "{n} works", 1, spelled=True) == "one work"
    assert labels("de").count("{n} work", "{n} works", 23, spelled=True) == "23 Werke"


def test_values_with_commas_of_their_own_are_told_apart() -> None:
    says = labels("en-GB")

    assert plain(says.listed((value("A"), value("B"), value("C")))) == "A, B and C"
    assert plain(says.listed((value("A, Linz"), value("B")))) == "A, Linz, and B"
    assert (says.listed(()), plain(says.listed((value("A"),)))) == ((), "A")


def test_a_country_is_named_in_the_language_as_it_follows_in() -> None:
    assert labels("en-GB").country("GB") == "the United Kingdom"
    assert labels("en-GB").country("jp") == "Japan"
    assert labels("fr").country("JP") == "Japon"
    assert labels("en-GB").country("Yugoslavia") == "Yugoslavia"


def test_catalogues_stand_where_gettext_looks_for_them() -> None:
    assert all((FOLDER / name / "LC_MESSAGES" / "documents.po").is_file() for name in CATALOGUES)
    assert Path(FOLDER).name == "locale"


def test_french_leaves_a_space_before_a_semicolon_that_does_not_break() -> None:
    assert labels("fr").parted(("un", "", "deux")) == "un\N{NO-BREAK SPACE}; deux"
    assert (
        labels("fr").spaced("orchestre 1: 2 cors; harpe")
        == "orchestre 1\N{NO-BREAK SPACE}: 2 cors\N{NO-BREAK SPACE}; harpe"
    )
    assert labels("it").parted(("uno", "due")) == "uno; due"


def test_a_conjunction_gives_way_to_the_sound_after_it() -> None:
    names = value("Odhran"), value("Elena"), value("Inés")

    assert plain(labels("es").listed(names)) == "Odhran, Elena e Inés"
    assert plain(labels("it").listed(names[:2])) == "Odhran ed Elena"
