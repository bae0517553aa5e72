"""The instrumentation page of a score."""

from __future__ import annotations

from dataclasses import replace

import pytest

from catalogue.instrumentation import read
from catalogue.instrumentation.model import Chair, Instrumentation, Line
from catalogue.instrumentation.page import PageLine, page_lines, write_page
from catalogue.instrumentation.vocabulary import LANGUAGES, family_of


def line(slug: str, players: int | tuple[int, int] | None = 1, *chairs: Chair, **more: object) -> Line:
    numbers = (players, players) if isinstance(players, int) else players
    return Line(slug, family_of(slug), numbers, chairs=chairs, **more)  # type: ignore[arg-type]


FORCES = Instrumentation(
    (
        line("flute", 3, Chair(2, ("flute", "alto-flute")), Chair(3, ("piccolo",))),
        line("horn", 2, Chair(None, ("horn", "wagner-tuba")), note="in F"),
        line("trumpet", 1, role="offstage"),
        line("percussion", (2, 3), Chair(1, ("percussion", "glockenspiel", "tam-tam"))),
        line("choir-soprano", None),
        line("choir-alto", None, parts=2),
        line("violin-1", 8, unit="players", strength="preferred"),
        line("double-bass", 2, unit="players", strength="preferred"),
    ),
    electronics="fixed",
    channels="4",
)


PAGE = """\
Woodwind:
  Flute 1
  Flute 2, doubling alto flute
  Piccolo (flute 3; sounds an octave higher)

Brass:
  Horn 1 (in F)
  Horn 2 (in F)
  One doubling Wagner tuba (in F)
  Trumpet (offstage)

Percussion:
  Percussion 1: glockenspiel, tam-tam (glockenspiel sounds two octaves higher)
  Percussion 2
  Percussion 3 (optional)

Voices:
  Choir (SAA)

Strings:
  8 violins I (preferred)
  2 double basses (preferred; sound an octave lower)

Electronics:
  Fixed media (4 channels)

Total:
  18–19 players"""


def test_the_page_has_a_line_for_each_chair_under_its_family() -> None:
    assert write_page(FORCES) == PAGE


def test_the_page_speaks_other_languages() -> None:
    flutes = line("flute", 2, Chair(2, ("flute", "piccolo")))
    assert page_lines(Instrumentation((flutes, line("oboe", None))), "it") == (
        PageLine("Legni", "Flauto 1"),
        PageLine("Legni", "Flauto 2, anche ottavino", "ottavino suona un’ottava sopra"),
        PageLine("Legni", "Oboi"),
        PageLine("Totale", "2 strumentisti, esclusi gli organici aperti"),
    )


def test_a_body_of_its_own_is_named_before_the_family() -> None:
    (found, total) = page_lines(Instrumentation((line("tuba", group="orchestra 2"),)))
    assert (found, total.text) == (PageLine("Orchestra 2: Brass", "Tuba"), "1 player")


def test_a_crowd_is_one_line() -> None:
    assert page_lines(Instrumentation((line("flute", 900),)))[0] == PageLine("Woodwind", "900 flutes")


def test_the_seat_of_a_player_who_doubles_stands_beside_the_name() -> None:
    flutes = Instrumentation((line("flute", 2, Chair(1, ("flute",)), Chair(2, ("piccolo", "alto-flute"))),))

    assert page_lines(flutes)[1].text == "Piccolo (flute 2), doubling alto flute"
    assert read(write_page(flutes)) == flutes


def test_german_writes_names_of_other_languages_with_a_capital() -> None:
    assert [one.text for one in page_lines(Instrumentation((line("tin-whistle"),)), "de")][:1] == ["Tin Whistle"]


def test_several_of_an_unknown_instrument_are_one_line_as_no_number_after_it_is_known_for_a_part() -> None:
    forces = Instrumentation((line("harp"), Line("glass-vases", "other", (2, 2))))

    assert [one.text for one in page_lines(forces)][:2] == ["Harp", "2 glass vases"]
    assert read(write_page(forces)) == forces


@pytest.mark.parametrize("language", LANGUAGES)
def test_an_open_number_of_percussionists_is_told_where_nothing_else_tells_it(language: str) -> None:
    forces = Instrumentation((line("flute"), line("percussion", None, note="2 parts / xylophone")))

    assert read(write_page(forces, language), language=language) == forces


def test_numbered_parts_with_remarks_are_no_figures_of_a_formula() -> None:
    forces = Instrumentation((line("trumpet", 4, note="in Sib"), Line("glass-vases", "other", (2, 2)), line("harp")))

    assert read(write_page(forces)) == forces


def test_unknown_instruments_on_lines_of_their_own_are_one_each() -> None:
    vases = Line("glass-vases", "other")
    forces = Instrumentation((line("harp"), vases, replace(vases, instrument="tin-sheets"), line("piano")))

    assert read(write_page(forces)) == forces
    assert [one.note for one in read("Strings:\n  Violin\n  glass vases\n")] == ["glass vases"]
