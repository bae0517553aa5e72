"""Words that only introduce a list add no players; what is said of players decides their number and chairs."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand

LISTED = (
    ("jazz trio (piano, bass guitar, drums)", "pf – bgtr – drkit"),
    ("ensemble of 6: fl, cl, perc, pf, vn, vc", "fl.cl – perc – pf – vn.vc"),
    ("septet: cl, bn, hn, vn, va, vc, db", "cl.bn.hn – vn.va.vc.db"),
    ("10-piece brass ensemble: 4 trumpets, horn, 4 trombones, tuba", "4tpt.hn.4tbn.tba"),
    ("Blechbläserensemble (3 Trp, 3 Pos, Tb)", "3tpt.3tbn.tba"),
    ("Chamber opera: S, Bar; 1.1.1.1 – 1.0.0.0 – str", "soli S.Bar – 1.1.1.1 – 1.0.0.0 – str"),
    ("flute quartet: piccolo, 2 flutes, alto flute", "picc.2fl.afl"),
    ("an orchestra of double woodwind, 4 horns and strings", "2.2.2.2 – 4.0.0.0 – str"),
    ("cuarteto de guitarras", "4gtr"),
    ("vibraphone and marimba duo", "vib.mba"),
    ("4 horns (2 optional), 2 trombones (2nd ad lib.)", "2–4hn.1–2tbn"),
    ("percussion (bass drum, cymbals: 2 players)", "perc(2) “bass drum, cymbals”"),
    ("Flute 1, 2, 3/piccolo; Clarinet 1, 2/bass clarinet", "3(III=picc).0.2(II=bcl).0"),
    ("Fl1, Fl2/Picc, Ob1, Ob2/EH, Hn1-4, Perc1-3", "2(II=picc).2(II=corA).0.0 – 4.0.0.0 – perc(3)"),
    ("3 Flöten (2. und 3. auch Piccolo), Harfe", "3fl(II,III=picc) – hp"),
    ("2 flûtes (dont une jouant le piccolo), harpe", "2fl(picc) – hp"),
    ("8.6.4.4.2 strings and harp", "str(8.6.4.4.2) – hp"),
    ("8 solo voices (SSAATTBB)", "2S.2A.2T.2B"),
    ("narrator; double choir (SATB/SATB)", "narr – double choir (SATB/SATB)"),
    ("trombone ténor-basse, piano", "tbn – pf"),
    ("Concerto for flute, harp and strings", "soli fl.hp – str"),
)


@pytest.mark.parametrize(("text", "written"), LISTED)
def test_a_list_is_read_as_the_trade_means_it(text: str, written: str) -> None:
    reading = read(text)

    assert (shorthand(reading), reading.warnings) == (written, ())


OPEN = (
    ("2(2 doubling picc).2.2.2 – 2.0.0.0 – str", "figure-in-bracket"),
    ("2222 2200 timp archi vno", "soloist"),
    ("flute, viola and harp, each also playing crotales", "each"),
    ("guitare électrique, basse électrique, batterie", "drum-kit"),
    ("mezzo-soprano, alto et piano", "alto"),
    ("brass band (with 3 percussion)", "beside-body"),
    ("2222/2200/timp/str (reduced version: 1111/1100/pf/str)", "remark"),
    ("str (max. 12.10.8.6.4)", "most-strings"),
    ("timp (=perc 1), perc 2", "same-player"),
    ("Part 1: flute/oboe; Part 2: cello/bassoon", "part-choice"),
    ("Quintet for clarinet and strings", "ensemble"),
)


@pytest.mark.parametrize(("text", "code"), OPEN)
def test_an_open_text_comes_with_its_other_reading(text: str, code: str) -> None:
    remarks = [remark for remark in read(text).warnings if remark.code == code]

    assert [bool(remark.other) for remark in remarks] == [True] * len(remarks) != []
