"""Cells that choose from a list, performers, places: what people write in them."""

from __future__ import annotations

import tomllib
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.exchange.cell_words import LISTS, Chosen, choose
from catalogue.exchange.notes import noted
from catalogue.exchange.performance_rows import divided_place
from catalogue.exchange.performer_lists import (
    Performer,
    PerformersError,
    check_performers,
    read_performers,
    write_performers,
)
from catalogue.rules.search import fold
from catalogue.terms import PerformerRole

Role = PerformerRole


@pytest.mark.parametrize(
    ("name", "text", "chosen"),
    [
        ("performance_status", "given", Chosen("given")),
        ("performance_status", "Cancelled (banned)", Chosen("cancelled", "banned")),
        ("performance_status", "old-style date", Chosen("old-style date")),
        ("performance_status", "date disputed", Chosen("duplicate")),
        ("performance_status", "unsupported claim", Chosen("withdrawn")),
        ("performance_status", "who knows", Chosen("")),
        ("audience", "public", Chosen("public")),
        ("audience", "public rehearsal", Chosen("public rehearsal")),
        ("audience", "private (committee)", Chosen("private", "committee")),
        ("audience", "semi-private (bookshop, invited)", Chosen("private", "bookshop, invited")),
        ("audience", "publicity event", Chosen("")),
        ("extent", "complete", Chosen("complete")),
        ("extent", "partial: Ebb, Flood", Chosen("partial", "Ebb, Flood")),
        ("extent", "excerpts", Chosen("excerpt")),
        ("extent", "Suite No. 1", Chosen("suite", "No. 1")),
        ("extent", "shortened", Chosen("")),
        ("category", "Kammermusik", Chosen("chamber")),
        ("category", "chamber opera", Chosen("")),
        ("kind", "radio", Chosen("broadcast")),
        ("work_status", "Unfinished", Chosen("in progress")),
    ],
)
def test_word_of_a_list_is_chosen(name: str, text: str, chosen: Chosen) -> None:
    assert choose(name, text) == chosen


@pytest.mark.parametrize("name", list(LISTS))
def test_table_of_words_is_whole(name: str) -> None:
    table = tomllib.loads((files("catalogue.exchange") / "cell_words.toml").read_text(encoding="utf-8"))[name]
    words = [word for listed in table.values() for word in listed]

    assert set(table) == {term.value for term in LISTS[name]}
    assert [word for word in words if word != fold(word) or words.count(word) > 1] == []
    assert {choose(name, term.value).word for term in LISTS[name]} == set(table)


@pytest.mark.parametrize(
    ("text", "performers"),
    [
        ("Tidewater Players", (Performer("Tidewater Players", Role.ENSEMBLE),)),
        (
            "Iva Dorn (viola), Per Lund (piano) and Ada Holm (conductor)",
            (
                Performer("Iva Dorn", Role.SOLOIST, "viola"),
                Performer("Per Lund", Role.SOLOIST, "piano"),
                Performer("Ada Holm", Role.CONDUCTOR),
            ),
        ),
        (
            "viola: Iva Dorn, conductor: Ada Holm",
            (Performer("Iva Dorn", Role.SOLOIST, "viola"), Performer("Ada Holm", Role.CONDUCTOR)),
        ),
        ("Dorn, Lund and Holm", (Performer("Dorn, Lund and Holm", Role.PERFORMER),)),
        ("Iva Dorn", (Performer("Iva Dorn", Role.PERFORMER),)),
        (
            "conductor: Iva Dorn; viola: Per Lund; Tidewater Players",
            (
                Performer("Iva Dorn", Role.CONDUCTOR),
                Performer("Per Lund", Role.SOLOIST, "viola"),
                Performer("Tidewater Players", Role.ENSEMBLE),
            ),
        ),
        (
            "Iva Dorn (viola); Per Lund (conductor)",
            (Performer("Iva Dorn", Role.SOLOIST, "viola"), Performer("Per Lund", Role.CONDUCTOR)),
        ),
        ("Iva Dorn (Bergen)", (Performer("Iva Dorn (Bergen)", Role.PERFORMER),)),
        ("narrator, soprano: Iva Dorn", (Performer("Iva Dorn", Role.NARRATOR, "soprano"),)),
        ("solo viola: Iva Dorn", (Performer("Iva Dorn", Role.SOLOIST, "viola"),)),
        ("lights: Iva Dorn", (Performer("Iva Dorn", Role.PERFORMER, "lights"),)),
        ('"Ebb; Flood"', (Performer("Ebb; Flood", Role.PERFORMER),)),
        ("Iva Dorn; Iva Dorn", (Performer("Iva Dorn", Role.PERFORMER),)),
        (" ; ", ()),
        ("", ()),
    ],
)
def test_performers_are_read(text: str, performers: tuple[Performer, ...]) -> None:
    assert read_performers(text) == performers


def test_body_that_is_known_needs_no_word_for_it() -> None:
    read = read_performers("Nordlyd; performer: Nordlyd", bodies={"nordlyd"})

    assert read == (Performer("Nordlyd", Role.ENSEMBLE), Performer("Nordlyd", Role.PERFORMER))


@pytest.mark.parametrize(
    ("text", "reason", "at"),
    [
        ("Iva Dorn\n conductor: ", "Name who was “conductor”.", (10, 20)),
        ("x" * 201, "A name has at most 200 characters.", (0, 201)),
    ],
)
def test_performer_that_cannot_be_kept_is_told_with_the_place(text: str, reason: str, at: tuple[int, int]) -> None:
    with pytest.raises(PerformersError) as caught:
        check_performers(text)

    assert (caught.value.reason, (caught.value.start, caught.value.end)) == (reason, at)


names = st.from_regex(r"[A-Z][a-z;:\"()é’-]{0,8}( [A-Z][a-z;:\"()]{0,8}){0,2}", fullmatch=True)
plays = st.sampled_from(["", "viola", "flute", "piano", "lights", "solo viola", "conductor"])


@given(st.lists(st.builds(Performer, names, st.sampled_from(PerformerRole), plays), max_size=4, unique=True))
def test_performers_are_written_as_they_read(performers: list[Performer]) -> None:
    assert read_performers(write_performers(performers)) == tuple(performers)


@pytest.mark.parametrize("role", list(Role))
@pytest.mark.parametrize("plays", ["", "viola"])
def test_a_name_that_looks_like_a_list_comes_back_as_one(role: PerformerRole, plays: str) -> None:
    """The same columns go out and come in again without a change."""
    performers = (Performer("A (viola) and B (cello)", role, plays), Performer("piano: A, viola: B", role, plays))

    assert read_performers(write_performers(performers)) == performers


@pytest.mark.parametrize(
    ("text", "has_city", "place"),
    [
        ("Kornspeicher, Linz, Austria", False, ("Kornspeicher", "Linz", "Austria")),
        ("Kornspeicher, Linz", False, ("Kornspeicher", "Linz", "")),
        ("Linz", False, ("", "Linz", "")),
        ("Linz, Austria", False, ("", "Linz", "Austria")),
        ("Kornspeicher, great hall", True, ("Kornspeicher, great hall", "", "")),
        ("Austria", False, ("", "Austria", "")),
    ],
)
def test_one_cell_may_hold_hall_city_and_country(text: str, has_city: bool, place: tuple[str, str, str]) -> None:
    assert divided_place(text, has_city=has_city) == place


def test_remarks_are_added_to_notes_once() -> None:
    first = noted("", "", ["source: letter"])

    assert first == "source: letter"
    assert noted(first, "", ["source: letter", "box: 4"]) == "source: letter\nbox: 4"
    assert noted("old", "new", []) == "new"
