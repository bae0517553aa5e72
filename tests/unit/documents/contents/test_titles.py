"""Titles: the order of scripts, the slant, the generic ones."""

from __future__ import annotations

import pytest

from catalogue.documents.contents.titles import full_title, generic, short_title, work_title
from catalogue.documents.model import Run, Style, plain
from catalogue.facts import TitleFacts
from tests.fact_makers import make_work

ARABIC = TitleFacts("Bustān aṣ-ṣadā", original="بستان الصدى", original_language="ar", translated="The Garden of Echo")


def test_a_title_stands_in_its_own_script_then_in_latin_then_translated() -> None:
    assert full_title(ARABIC) == (
        Run("بستان الصدى", Style.TITLE, "ar", value=True, instead=""),
        Run(" "),
        Run("Bustān aṣ-ṣadā", Style.TITLE, "ar-Latn", value=True),
        Run(" ("),
        Run("The Garden of Echo", value=True),
        Run(")"),
    )


@pytest.mark.parametrize(
    ("title", "printed"),
    [
        (TitleFacts("Weir"), "Weir"),
        (TitleFacts("Η θάλασσα μέσα", translated="The Sea Within"), "Η θάλασσα μέσα (The Sea Within)"),
        (TitleFacts("Два берега", transliteration="Dva berega"), "Два берега Dva berega"),
        (TitleFacts("The Garden", original="بستان"), "بستان (The Garden)"),
        (TitleFacts("Bustān", original="بستان", transliteration="Bustān"), "بستان Bustān"),
        (TitleFacts("The Garden", original="بستان", transliteration="Bustān"), "بستان Bustān (The Garden)"),
        (TitleFacts("Weir", translated="Weir"), "Weir"),
    ],
)
def test_no_title_is_told_twice(title: TitleFacts, printed: str) -> None:
    assert plain(full_title(title)) == printed


def test_a_sentence_carries_the_title_in_its_own_script() -> None:
    assert short_title(ARABIC) == (Run("بستان الصدى", Style.TITLE, "ar", value=True, instead="Bustān aṣ-ṣadā"),)


@pytest.mark.parametrize(
    "title", ["String Quartet No. 2", "Symphony", "Piano Trio", "Sonata no. 12", "Streichquartett Nr. 3", "Sextet II"]
)
def test_a_title_that_only_names_a_kind_is_generic(title: str) -> None:
    assert generic(title)


@pytest.mark.parametrize("title", ["Quartet of Stones", "Weir", "Symphony of Locks", "No. 2", "", "Trio Sonata Street"])
def test_a_title_that_says_more_is_not_generic(title: str) -> None:
    assert not generic(title)


def test_a_generic_title_is_upright_in_a_sentence_and_slanted_on_its_own_line() -> None:
    quartet = TitleFacts("String Quartet No. 2")

    assert short_title(quartet)[0].style is Style.PLAIN
    assert full_title(quartet)[0].style is Style.TITLE
    assert short_title(TitleFacts("Weir"))[0].style is Style.TITLE


def test_a_version_bears_its_name_upright() -> None:
    version = make_work(2, "Weir", version_of=1, version_label="chamber version")

    assert work_title(version)[1:] == (Run(" ("), Run("chamber version", value=True), Run(")"))
