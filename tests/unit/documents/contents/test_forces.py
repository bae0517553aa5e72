"""What a work is for, in words; the shorthand where words do not say it all."""

from __future__ import annotations

import pytest

from catalogue.documents.contents.forces import described, forces_line, reading_key, strip_of
from catalogue.documents.labels import labels
from catalogue.documents.model import Legend, Section, plain
from catalogue.facts import TitleFacts, WorkFacts
from catalogue.instrumentation import Chair, Instrumentation, Line, read, write_shorthand
from catalogue.instrumentation.wording import write_sentence
from catalogue.terms import Category
from tests.reference.documents.house import (
    CONCERTO,
    FERROUS,
    QUARTET,
    SLACK_WATER,
    STONE_AND_WATER,
    STUDY,
    TWO_BANKS,
    UNREAD,
    work,
)

ENGLISH = labels("en-GB")


@pytest.mark.parametrize(
    ("told", "words"),
    [
        (SLACK_WATER, "for orchestra"),
        (CONCERTO, "for viola and string orchestra"),
        (STONE_AND_WATER, "for eleven players"),
        (TWO_BANKS, "for mixed choir (SSAATB) and organ"),
        (FERROUS, "for bass clarinet and live electronics"),
        (STUDY, "for violin"),
        (UNREAD, ""),
        (QUARTET, ""),
    ],
)
def test_the_forces_are_told_in_words(told: WorkFacts, words: str) -> None:
    assert plain(described(told, ENGLISH)) == words


def chamber(*lines: Line, title: str = "Lock", **fields: object) -> WorkFacts:
    return work(20, title, category=Category.CHAMBER, instrumentation=Instrumentation(lines), **fields)


def test_a_group_with_a_name_is_told_by_it() -> None:
    trio = chamber(Line("piano", "keyboard"), Line("violin", "strings"), Line("cello", "strings"))

    assert plain(described(trio, ENGLISH)) == "for piano trio"


def test_players_of_one_instrument_are_counted() -> None:
    clarinets = chamber(Line("clarinet", "woodwind", (3, 3)), Line("piano", "keyboard"))

    assert plain(described(clarinets, ENGLISH)) == "for three clarinets and piano"
    assert plain(described(clarinets, labels("fr"))) == "pour 3 clarinettes et piano"


def test_an_open_number_is_an_ensemble() -> None:
    assert plain(described(chamber(Line("flute", "woodwind", (2, 4))), ENGLISH)) == "for ensemble"


def test_the_composers_own_words_come_first() -> None:
    opera = work(20, TitleFacts("Lock", subtitle="chamber opera"), instrumentation=SLACK_WATER.instrumentation)

    assert plain(described(opera, ENGLISH)) == "chamber opera"


def test_shorthand_is_left_out_where_words_have_said_it() -> None:
    assert forces_line(QUARTET, ENGLISH) == ()
    assert forces_line(STUDY, ENGLISH) == ()
    assert plain(forces_line(SLACK_WATER, ENGLISH)).startswith("3(III=picc)")


def test_a_doubling_brings_the_shorthand_back() -> None:
    doubling = chamber(
        Line("flute", "woodwind", chairs=(Chair(1, ("flute", "piccolo")),)), instrumentation_text="1(=picc)"
    )

    assert plain(described(doubling, ENGLISH)) == "for flute"
    assert plain(forces_line(doubling, ENGLISH)) == "1(=picc)"


def test_a_text_that_cannot_be_read_stands_as_it_was_typed() -> None:
    assert plain(forces_line(UNREAD, ENGLISH)) == "2 foghorns (tuned?), and whoever is on the quay"


def test_a_single_player_and_unknown_forces_have_no_strip() -> None:
    assert strip_of(STUDY, ENGLISH) is None
    assert strip_of(UNREAD, ENGLISH) is None
    assert strip_of(FERROUS, ENGLISH) is not None


def test_a_strip_says_the_forces_to_those_who_cannot_see_it() -> None:
    strip = strip_of(QUARTET, ENGLISH)

    assert strip is not None
    assert strip.title == write_sentence(QUARTET.instrumentation, "en-GB")  # type: ignore[arg-type]
    assert "viola" in strip.title


def test_the_key_explains_only_the_signs_that_occur() -> None:
    works = (STUDY, FERROUS)
    strips = tuple(strip for work in works if (strip := strip_of(work, ENGLISH)))
    (section,) = reading_key(
        works, ENGLISH, shorthand=tuple(plain(forces_line(one, ENGLISH)) for one in works), strips=strips
    )
    assert isinstance(section, Section)
    (legend,) = [block for block in section.blocks if isinstance(block, Legend)]

    assert [plain(sign.meaning) for sign in legend.signs] == ["a player", "electronics"]


@pytest.mark.parametrize(
    ("subtitle", "words"),
    [
        ("for three clarinets and piano", "pour 3 clarinettes et piano"),
        ("für 3 Klarinetten und Klavier", "pour 3 clarinettes et piano"),
        ("pour trois clarinettes et un piano", "pour trois clarinettes et un piano"),
        ("for three clarinets and prepared piano", "pour 3 clarinettes et piano préparé"),
        ("for three clarinets and an old piano", "for three clarinets and an old piano"),
        ("a study in rust", "a study in rust"),
    ],
)
def test_a_subtitle_that_tells_the_forces_and_no_more_is_told_in_the_language_of_the_document(
    subtitle: str, words: str
) -> None:
    forces = Instrumentation((Line("clarinet", "woodwind", (3, 3)), Line("piano", "keyboard")))
    told = work(20, TitleFacts("Lock", subtitle=subtitle), category=Category.CHAMBER, instrumentation=forces)

    assert plain(described(told, labels("fr"))) == words


def test_a_list_leaves_out_in_which_key_horns_and_clarinets_are_written() -> None:
    keyed = read("3(III=picc).3.3cl(III=bcl) “in B flat”.3 – 4hn “in F”.3tpt “in C”.3tbn.tba – timp – str")
    written = work(21, "Weir", instrumentation=keyed, instrumentation_text=write_shorthand(keyed))

    assert plain(forces_line(written, ENGLISH)) == "3(III=picc).3.3(III=bcl).3 – 4.3.3.1 – timp – str"
