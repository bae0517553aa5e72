"""What is set by hand stands as it was typed, and changes nothing in what is reckoned."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from catalogue.facts import ProgrammedFacts
from catalogue.rules.overrides import Override
from catalogue.rules.premieres import Claim, claims_by_programmed
from catalogue.terms import Extent
from tests.fact_makers import make_catalogue, make_event

TODAY = date(2026, 6, 1)


def played(id_: int, override: str = "", reason: str = "", **fields: Any) -> ProgrammedFacts:
    return ProgrammedFacts(id=id_, work_id=1, claim_override=override, claim_reason=reason, **fields)


def claims(*events: Any) -> dict[int, Claim]:
    return claims_by_programmed(make_catalogue(*events), today=TODAY)


def test_override_stands_beside_what_is_reckoned() -> None:
    by_hand = played(2, "world premiere", "The evening before was a run-through.")

    found = claims(make_event(1, "2020-03-12"), make_event(2, "2020-03-13", by_hand))

    assert found[1] == Claim(reckoned=("world", "national", "city"), wording="world premiere", proved=True)
    assert found[2] == Claim(
        overridden=Override(
            "world premiere", "The evening before was a run-through.", ("world", "national", "city"), True
        )
    )
    assert (found[2].called, found[2].titles) == ("world premiere", ("world", "national", "city"))


def test_override_changes_neither_titles_nor_contradictions_of_the_records() -> None:
    event = make_event(2, "2021-03-13", played(2, "no first performance", "It was a try-out.", billing="UA"))
    plain = make_event(2, "2021-03-13", played(2, billing="UA"))

    with_it, without = (claims(make_event(1, "2020-03-12"), one)[2] for one in (event, plain))

    assert (with_it.reckoned, with_it.wording, with_it.contradicts) == (
        without.reckoned,
        without.wording,
        without.contradicts,
    )
    assert without.contradicts is not None
    assert (with_it.called, with_it.titles) == ("", ())


@pytest.mark.parametrize(
    ("words", "titles"),
    [
        ("World premiere", ("world", "national", "city")),
        ("first performance", ("world", "national", "city")),
        ("UK premiere", ("national", "city")),
        ("national premiere (Norway)", ("national", "city")),
        ("city premiere", ("city",)),
        ("first performance in Linz", ("city",)),
        ("premiere of the version “for wind”", ("version",)),
        ("first performance by this orchestra", ()),
        ("European premiere", ()),
        ("second performance", ()),
        ("no first performance", ()),
        ("Keine Uraufführung", ()),
    ],
)
def test_titles_of_an_override_are_read_from_its_words(words: str, titles: tuple[str, ...]) -> None:
    assert claims(make_event(1, "2020-03-12", played(1, words, "Known otherwise.")))[1].titles == titles


def test_override_of_a_playing_in_part_is_of_that_part() -> None:
    event = make_event(1, "2020", played(1, "world premiere", "A part of its own.", extent=Extent.PARTIAL))

    assert claims(event)[1].titles == ("part",)


@pytest.mark.parametrize("words", ["no first performance", "not a premiere", "none", "–", "Keine Erstaufführung"])
def test_words_that_only_say_that_it_was_no_first_are_not_printed(words: str) -> None:
    overridden = claims(make_event(1, "2020-03-12", played(1, words, "It was a try-out.")))[1].overridden

    assert overridden == Override(words, "It was a try-out.")
    assert overridden.printed == ""


def test_words_that_begin_like_a_denial_are_printed() -> None:
    overridden = claims(make_event(1, "2020-03-12", played(1, "Norwegian premiere", "Known.")))[1].overridden

    assert overridden is not None
    assert overridden.printed == "Norwegian premiere"
