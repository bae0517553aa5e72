"""Sizes that stand alone in the list of an ensemble of one instrument, and compounds that name such an ensemble."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("flute choir (picc, 4 C, alto, bass)", "picc.4fl.afl.bfl"),
        ("flute choir: piccolo, 6 flutes, alto, bass, contrabass", "picc.6fl.afl.bfl.cbfl"),
        ("Klarinettenchor (Es, 3 B, Alt, Bass)", "Ebcl.3cl.acl.bcl"),
        ("recorders (2A, 2T, B)", "5rec(I,II=arec only, III,IV=trec only, V=brec only)"),
        ("Klarinettenquartett", "4cl"),
        ("Streichquartett und Hornquartett", "vnI.vnII.va.vc – 4hn"),
        ("orchestre de flûtes", "fl(open) “orchestre”"),
        ("orchestra di chitarre", "gtr(open) “orchestra”"),
        ("SATB choir, brass choir, timpani", "SATB choir – brass instrument(open) – timp"),
        ("Jazzorchester", "big band"),
    ],
)
def test_a_size_is_read_by_the_instrument_of_the_ensemble(text: str, written: str) -> None:
    assert shorthand(read(text)) == written


def test_an_orchestra_beside_an_instrument_stays_an_orchestra() -> None:
    assert shorthand(read("Flöte und Orchester")) == "solo fl – orch – str"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("sax quartet (AATB)", "2asax.tsax.barsax"),
        ("quatuor de saxophones (soprano, alto, ténor, baryton)", "ssax.asax.tsax.barsax"),
        ("clarinet trio (2 B flat, bass)", "3cl(III=bcl only)"),
        ("trombone quartet (3 tbn, btbn)", "3tbn.btbn"),
        ("clarinet (A, bass), piano", "cl(=bcl) “in A” – pf"),
        ("recorder (S, A, T)", "rec(=srec+arec+trec)"),
        ("Percussion ensemble: 6 players", "perc(6)"),
        ("flute ensemble: 8 players", "8fl"),
    ],
)
def test_the_players_of_an_ensemble_are_those_that_are_told(text: str, written: str) -> None:
    assert shorthand(read(text)) == written


@pytest.mark.parametrize(
    ("text", "written", "codes"),
    [
        ("alto sax, tenor and baritone, piano", "asax.tsax.barsax – pf", ["size", "size"]),
        ("flauta de pico contralto, clave", "arec – hpd", []),
        ("alto sax/clarinet, trumpet/flugelhorn", "asax(=cl) – tpt(=flhn)", ["slash"]),
        ("saxophone (alto), Fl. / Picc., Ob. / Eh.", "asax.fl(=picc).ob(=corA)", []),
        ("trombone (or baritone), tuba", "tbn or barhn.tba", []),
        ("soprano, alto sax, tenor", "S – asax – T", []),
    ],
)
def test_a_size_after_its_instrument_is_no_singer(text: str, written: str, codes: list[str]) -> None:
    reading = read(text)
    assert (shorthand(reading), [remark.code for remark in reading.warnings]) == (written, codes)
