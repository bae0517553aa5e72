"""Sentences and words that say who is not there, in the five languages (common practice of programme notes)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import InstrumentationError, read, shorthand
from catalogue.instrumentation.absences import shortened

LOW_STRINGS = "va(open).vc(open).db(open)"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2.2.2.2 – 2.2.0.0 – timp – str; there are no violins", f"2.2.2.2 – 2.2.0.0 – timp – {LOW_STRINGS}"),
        ("There are no violins; violas, cellos and basses", LOW_STRINGS),
        ("2.2.2.2 – 2.2.0.0 – str. Es gibt keine Violinen.", f"2.2.2.2 – 2.2.0.0 – {LOW_STRINGS}"),
        ("cordes; il n'y a pas de violons", LOW_STRINGS),
        ("archi (non ci sono violini)", LOW_STRINGS),
        ("cuerda; no hay violines", LOW_STRINGS),
        ("strings; there are no second violins", "vnI(open).va(open).vc(open).db(open)"),
        ("pas d'altos, cordes", "vnI(open).vnII(open).vc(open).db(open)"),
        ("il n'y a ni violons ni altos; cordes", "vc(open).db(open)"),
        ("weder Trompeten noch Pauken; 2 Flöten, Streicher", "2fl – str"),
        ("the work has no clarinets: 2 flutes, 2 oboes, 2 bassoons", "2.2.0.2"),
        ("fl, ob, cl, ohne Dirigent", "fl.ob.cl"),
        ("Violine, ohne Elektronik", "vn"),
        ("2 oboes, without cor anglais, 2 clarinets", "0.2.2.0"),
        ("fl, no oboe and a clarinet", "fl.cl"),
        ("orchestre sans cordes", "orch “sans cordes”"),
        ("solo piano, orchestra, no strings", "solo pf – orch “no strings”"),
        ("there are two violins", "2vn"),
        ("il y a deux flûtes et une harpe", "2fl – hp"),
        ("C'è un flauto e un'arpa", "fl – hp"),
    ],
)
def test_who_is_not_there_is_no_player(text: str, written: str) -> None:
    reading = read(text)

    assert reading.lines == read(written).lines
    assert {remark.code for remark in reading.warnings} <= {"remark"}


@pytest.mark.parametrize("text", ["there are no violins", "without violins", "es gibt keine Flöten", "sans percussion"])
def test_forces_of_which_only_an_absence_is_told_are_refused(text: str) -> None:
    with pytest.raises(InstrumentationError):
        read(text)


def test_who_is_joined_to_an_absence_is_told_in_a_remark() -> None:
    reading = read("strings, no violins and violas")

    assert shorthand(reading) == "vc(open).db(open)"
    assert [(one.code, one.start, one.end) for one in reading.warnings] == [("denied", 24, 30)]


def test_what_is_no_player_is_not_shortened() -> None:
    assert shortened("flute, senza vibrato") == "flute, senza vibrato"
    assert shortened("horn (without valves)") == "horn (without valves)"
    assert len(shortened("Il n'y a pas de hautbois")) == len("Il n'y a pas de hautbois")


@pytest.mark.parametrize("text", ["flute, piano, not amplified", "flute, piano, no amplification"])
def test_who_is_not_amplified_is_not(text: str) -> None:
    assert not any(line.amplified for line in read(text).lines)


@pytest.mark.parametrize(
    "text", ["fl, vc, pf; all amplified", "Fl, Vc, Klav – alle verstärkt", "fl, vc, pf – tous amplifiés"]
)
def test_all_are_amplified_where_all_are_named(text: str) -> None:
    assert all(line.amplified for line in read(text).lines)


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("opt. picc.suona(opt)", "picc(opt).suona(opt)"),
        ("fl, opt. picc, cl", "fl.picc(opt).cl"),
        ("ad lib. Picc, 2 Fl", "picc(opt).2fl"),
        ("2.2.2.2 – 2.2.0.0 – opt. timp – str", "2.2.2.2 – 2.2.0.0 – timp(opt) – str"),
        ("facult. picc., fl", "picc(opt).fl"),
        ("opt. 2 hn, 2 tpt", "2hn(opt).2tpt"),
        ("fl, amp. gtr", "fl – gtr(amp)"),
        ("fl, ob, opt., cl", "fl.ob(opt).cl"),
    ],
)
def test_a_qualifier_that_is_cut_short_belongs_to_the_item_it_opens(text: str, written: str) -> None:
    reading = read(text)

    assert reading.lines == read(written).lines
    assert reading.warnings == ()


def test_a_qualifier_between_two_points_is_told() -> None:
    assert [remark.code for remark in read("fl. ob. opt. cl. bn").warnings] == ["said-after"]


@pytest.mark.parametrize(
    "device", ["ordinateur", "Computer", "laptop", "ordenador portátil", "elaboratore elettronico", "Rechner"]
)
def test_a_device_is_no_player(device: str) -> None:
    reading = read(f"violin, {device}")

    assert (reading.players, reading.electronics, reading.warnings) == ((1, 1), "live", ())


def test_the_number_of_devices_is_kept() -> None:
    assert [line.note for line in read("flute, 2 laptops").lines] == ["", "2 laptops"]
    assert [line.note for line in read("flute, two tape recorders").lines] == ["", "2 tape recorders"]
    assert [line.note for line in read("laptop quartet").lines] == ["laptop quartet"]
