"""MARC 21 fields 382 and 048 against the format documents' own examples.

Source: MARC 21 Format for Bibliographic Data, fields 382 (December 2017) and 048, Library of Congress. The format's
examples with a chamber orchestra stand here with an orchestra: a scoring does not say which of the two a body is.
"""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from catalogue.instrumentation.marc import field_048, field_382, write_marc
from catalogue.instrumentation.model import Chair, Instrumentation, Line
from catalogue.instrumentation.vocabulary import family_of


def line(slug: str, players: int | None = 1, *chairs: Chair, **more: object) -> Line:
    numbers = None if players is None else (players, players)
    return Line(slug, family_of(slug), numbers, chairs=chairs, **more)  # type: ignore[arg-type]


def strings(group: str | None = None) -> tuple[Line, ...]:
    slugs = ("violin-1", "violin-2", "viola", "cello", "double-bass")
    return tuple(line(slug, None, unit="players", strength="stated", group=group) for slug in slugs)


def orchestra(group: str | None = None) -> tuple[Line, ...]:
    return (*(line(slug, 2, group=group) for slug in ("flute", "oboe", "clarinet", "bassoon", "horn")), *strings(group))


CHOIR = tuple(line(f"choir-{part}", None) for part in ("soprano", "alto", "tenor", "bass"))
SOLOISTS = (line("harpsichord", role="soloist"), line("piano", role="soloist"))
FLUTE = line("flute", 1, Chair(1, ("flute", "piccolo", "alto-flute", "bass-flute")))


@pytest.mark.parametrize(
    ("lines", "field"),
    [
        ((line("piano"),), "382 01 $a piano $n 1 $s 1 $2 lcmpt"),
        ((line("clarinet"), line("piano")), "382 01 $a clarinet $n 1 $a piano $n 1 $s 2 $2 lcmpt"),
        ((line("flute", role="soloist"), *orchestra()), "382 01 $b flute $n 1 $a orchestra $e 1 $r 1 $t 1 $2 lcmpt"),
        ((FLUTE,), "382 01 $a flute $n 1 $d piccolo $n 1 $d alto flute $n 1 $d bass flute $n 1 $s 1 $2 lcmpt"),
        (
            (*SOLOISTS, *orchestra("orchestra 1"), *orchestra("orchestra 2")),
            "382 01 $b harpsichord $n 1 $b piano $n 1 $a orchestra $e 2 $r 2 $t 2 $2 lcmpt",
        ),
        ((*CHOIR, *orchestra()), "382 01 $a mixed chorus $e 1 $a orchestra $e 1 $t 2 $2 lcmpt"),
    ],
    ids=["piano", "clarinet and piano", "flute with orchestra", "doublings", "two orchestras", "chorus and orchestra"],
)  # fmt: skip
def test_the_examples_of_the_format_come_out(lines: tuple[Line, ...], field: str) -> None:
    assert str(field_382(Instrumentation(lines), access="1")) == field


def test_a_partial_statement_has_the_first_indicator_set() -> None:
    field = field_382(Instrumentation((line("didgeridoo"),)), partial=True, access="1")
    assert str(field) == "382 11 $a didjeridu $n 1"


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("viola or clarinet, piano", "382 0# $a viola $n 1 $p clarinet $n 1 $a piano $n 1 $s 2 $2 lcmpt"),
        ("2 pianos, 2 percussion", "382 0# $a piano $n 2 $a percussion $n 2 $s 4 $2 lcmpt"),
        ("2 vibraphones, 2 marimbas", "382 0# $a vibraphone $n 2 $a marimba $n 2 $s 4 $2 lcmpt"),
        ("3 synthesizers, organ", "382 0# $a synthesizer $n 3 $a organ $n 1 $s 4 $2 lcmpt"),
        (
            "clarinet, alto saxophone, horn, violin, viola, cello",
            "382 0# $a clarinet $n 1 $a alto saxophone $n 1 $a horn $n 1 $a violin $n 1 $a viola $n 1 $a cello $n 1"
            " $s 6 $2 lcmpt",
        ),
        (
            "flute, oboe, cor anglais, clarinet, 2 horns, bass clarinet, bassoon",
            "382 0# $a flute $n 1 $a oboe $n 1 $a English horn $n 1 $a clarinet $n 1 $a horn $n 2 $a bass clarinet"
            " $n 1 $a bassoon $n 1 $s 8 $2 lcmpt",
        ),
    ],
)
def test_examples_of_cataloguers_come_out_of_the_words(text: str, field: str) -> None:
    """Sources: Code4Lib Journal on medium of performance data (the first); Music Cataloging at Yale, MARC 382."""
    assert str(field_382(read(text))) == field


def test_each_line_up_has_fields_of_its_own() -> None:
    assert write_marc(read("flute, piano; or violin, piano")).splitlines() == [
        "382 0# $a flute $n 1 $a piano $n 1 $s 2 $2 lcmpt",
        "048 ## $a wa01 $a ka01",
        "382 0# $a violin $n 1 $a piano $n 1 $s 2 $2 lcmpt",
        "048 ## $a sa01 $a ka01",
    ]


def test_a_player_of_an_auxiliary_alone_is_a_medium_of_his_own() -> None:
    flutes = line("flute", 3, Chair(2, ("flute", "alto-flute")), Chair(3, ("piccolo",)))
    field = field_382(Instrumentation((flutes,)))
    assert str(field) == "382 0# $a flute $n 2 $d alto flute $n 1 $a piccolo $n 1 $s 3 $2 lcmpt"


def test_alternatives_stand_behind_and_optional_players_are_not_totalled() -> None:
    either = line("piano", 1, alternatives=("organ",))
    optional = Line("percussion", "percussion", (0, 1), optional=True)
    assert str(field_382(Instrumentation((either,)))) == "382 0# $a piano $n 1 $p organ $n 1 $s 1 $2 lcmpt"
    assert str(field_382(Instrumentation((either, optional)))) == (
        "382 0# $a piano $n 1 $p organ $n 1 $a percussion $n 1 $v optional $2 lcmpt"
    )


def test_a_word_outside_the_thesaurus_names_no_source() -> None:
    field = field_382(Instrumentation((line("taonga-puoro"),)))
    assert str(field) == "382 0# $a taonga puoro $n 1 $s 1"


def test_a_quartet_is_two_violins_viola_and_cello() -> None:
    quartet = tuple(line(slug) for slug in ("violin-1", "violin-2", "viola", "cello"))
    assert str(field_382(Instrumentation(quartet))) == "382 0# $a violin $n 2 $a viola $n 1 $a cello $n 1 $s 4 $2 lcmpt"
    assert str(field_048(Instrumentation(quartet))) == "048 ## $a sa02 $a sb01 $a sc01"


def test_codes_give_soloists_first_and_an_orchestra_without_a_number() -> None:
    """Codes of the list marcmusperf: sc violoncello, ca mixed chorus, oa full orchestra, oc string orchestra."""
    concerto = Instrumentation((*CHOIR, *orchestra(), line("cello", role="soloist")))
    assert str(field_048(concerto)) == "048 ## $b sc01 $a ca $a oa"
    assert str(field_048(Instrumentation(strings()))) == "048 ## $a oc"


def test_kinds_that_share_a_code_are_counted_together() -> None:
    """No code of their own: E-flat and contrabass clarinets are clarinets or other woodwind."""
    ensemble = Instrumentation((line("e-flat-clarinet"), line("clarinet", 2), line("percussion", None)))
    assert str(field_048(ensemble)) == "048 ## $a wc03 $a pn"
