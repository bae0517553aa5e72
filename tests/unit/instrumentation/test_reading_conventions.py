"""The dresses in which instrumentations are written, each with its canonical shorthand and its number of players.

Where a comment names a key, the convention is the one that the key to abbreviations of that house states; the other
lines are common practice of works lists. ``None`` stands for a number that the text leaves open.
"""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand

DOTTED = [
    ("2.2.2.2 – 4.2.3.1 – Pk – Str", "2.2.2.2 – 4.2.3.1 – timp – str", None),
    ("3.3.3.3 – 4.2.3.1 – Pk – Str(14.12.10.8.6)", "3.3.3.3 – 4.2.3.1 – timp – str(14.12.10.8.6)", 73),
    ("0.2.0.2 – 2.2.0.0 – Pk – Str", "0.2.0.2 – 2.2.0.0 – timp – str", None),
    ("2, 2, 2, 2 - 4, 3, 3, 1, timp, str", "2.2.2.2 – 4.3.3.1 – timp – str", None),
    ("3, 3, 3, 3 - 4, 2, 3, 1, timp, 14/12/10/8/6", "3.3.3.3 – 4.2.3.1 – timp – str(14.12.10.8.6)", 73),
    ("2·2·2·2 – 4·2·3·1 – Pk – Str", "2.2.2.2 – 4.2.3.1 – timp – str", None),
    ("2/2/2/2-4/2/3/1-timp-perc-hp-str", "2.2.2.2 – 4.2.3.1 – timp.perc – hp – str", None),
    ("2-2-2-2/4-2-3-1/T-P(2)/H/Str", "2.2.2.2 – 4.2.3.1 – timp.perc(2) – hp – str", None),
    ("2232/4331/str", "2.2.3.2 – 4.3.3.1 – str", None),
    ("1111 1110 1perc pf 11111", "1.1.1.1 – 1.1.1.0 – perc – pf – str(1.1.1.1.1)", 14),
    ("1.1.1.1-1.1.1.0-1perc-pno-1.1.1.1.1", "1.1.1.1 – 1.1.1.0 – perc – pf – str(1.1.1.1.1)", 14),
    ("3222.4231.T.1P.Str 12,10,8,7,5", "3.2.2.2 – 4.2.3.1 – timp.perc(1) – str(12.10.8.7.5)", 63),
    ("2.2.2.2: 4.2.3.1: Timp.Perc(3): Hp: Str", "2.2.2.2 – 4.2.3.1 – timp.perc(3) – hp – str", None),
    ("12/10/8/6/4-2222/4220/timp", "str(12.10.8.6.4) – 2.2.2.2 – 4.2.2.0 – timp", 57),
]

EXTRA_PLAYERS = [
    ("Picc.1.", "picc.fl", 2),
    ("2.picc", "2fl.picc", 3),
    ("2+pic.", "2fl.picc", 3),
    ("2(picc).2+ca.2(Ebcl)+bcl.3(cbn)", "2(picc).2.corA.2(Ebcl).bcl.3(cbn)", 11),
    ("2(II=picc).2.corA.2(I=Ebcl).bcl.3(III=dbn)", "2(II=picc).2.corA.2(I=Ebcl).bcl.3(III=cbn)", 11),
    ("2d1, 2+1, 2d1es+bass, 3d1", "2(picc).2.corA.2(Ebcl).bcl.3(cbn)", 11),
    (
        "3+picc, 3+cor ang, 3+bass, 3+contra - 4, 4, 3+bass, 1, timp, 16/14/12/10/8",
        "3.picc.3.corA.3.bcl.3.cbn – 4.4.3.btbn.1 – timp – str(16.14.12.10.8)",
        90,
    ),
    ("2.2d1.2.2.alto sax – 4.4.3.0 – Pk – Hfe", "2.2(corA).2.2.asax – 4.4.3.0 – timp – hp", 22),
    ("4(II,III,IV=picc).3(III=ca).3(III=bcl).bcl.3.cbn", None, 15),
    ("2.2picc.2.eh.2.4.bcl", "2fl.2picc.2ob.corA.2bn.4cl.bcl", 14),
]

DOUBLINGS = [
    ("1(pic)", "fl(=picc)", 1),
    ("1(Picc).", "fl(=picc)", 1),
    ("fl(=picc)", "fl(=picc)", 1),
    ("3(II+III=picc)", "3fl(II,III=picc)", 3),
    ("3 ob (II=ca, III=bass/ob)", "3ob(II=corA, III=bob)", 3),
    ("2(2pic)", "2fl(II=picc)", 2),
    ("3(2eblc,3bcl)", "3cl(II=Ebcl, III=bcl)", 3),
    ("3[1.2.3/pic] 2[1.Eh]", "3(III=picc).2(II=corA only).0.0", 5),
    (
        "3[1.2.3/pic] 2[1.Eh] 3[1.2.3/Ebcl/bcl] 3[1.2/cbn.cbn]",
        "3(III=picc).2(II=corA only).3(III=Ebcl+bcl).3(II=cbn, III=cbn only)",
        11,
    ),
    ("3(1,2,pic)3(1,2,cor)22 – 4331", "3(III=picc only).3(III=corA only).2.2 – 4.3.3.1", 21),
    ("44(2crt+2tp)31", None, 12),
    ("2 (2. auch Picc), 2, 2, 2", "2(II=picc).2.2.2", 8),
    ("2 flutes, the second doubling piccolo", "2fl(II=picc)", 2),
    ("two flutes, with the second flute doubling on piccolo", "2fl(II=picc)", 2),
    ("3 flutes (2nd and 3rd doubling piccolo)", "3fl(II,III=picc)", 3),
    ("3 flutes (one doubling piccolo)", "3fl(picc)", 3),
    ("2 clarinets (both dbl b. clar.)", "2cl(I,II=bcl)", 2),
    ("4 flutes (2,3,&4=piccolos)", "4fl(II,III,IV=picc)", 4),
    ("8 horns (5-8 = Wagner tubas)", "8hn(V,VI,VII,VIII=Wtba)", 8),
    ("Flute/Piccolo", "fl(=picc)", 1),
    ("pf/cel", "pf(=cel)", 1),
    ("Woodwind 2 (Flute/Clarinet)", "fl(=cl)", 1),
    ("2(I=picc.II=afl)", "2fl(I=picc, II=afl)", 2),
    ("3(II,III=picc,III=afl)", "3fl(II=picc, III=picc+afl)", 3),
]

LANGUAGES = [
    (
        "3 Flöten (2. auch Altflöte, 3. auch Piccolo), 2 Oboen, Englischhorn, 2 Klarinetten, Bassklarinette, "
        "2 Fagotte, Kontrafagott – 4 Hörner, 3 Trompeten, 3 Posaunen, Tuba – Pauken, Schlagzeug (3 Spieler) – Harfe – "
        "Streicher",
        "3(II=afl, III=picc).2.corA.2.bcl.2.cbn – 4.3.3.1 – timp.perc(3) – hp – str",
        None,
    ),
    (
        "3 Flauti (anche 3 Ottavini, I anche Flauto in Sol), 3 Oboi (III anche Corno inglese), 3 Tromboni, Tuba, "
        "Arpa, Percussioni: (4 esecutori)",
        "3(I=picc+afl, II,III=picc).3(III=corA).0.0 – 0.0.3.1 – hp – perc(4)",
        15,
    ),
    (
        "2 flûtes (la 2e aussi piccolo), 2 hautbois, 2 cors, timbales, 2 percussionnistes, piano (aussi célesta), "
        "cordes",
        "2(II=picc).2.0.0 – 2.0.0.0 – timp.perc(2) – pf(=cel) – str",
        None,
    ),
    (
        "2 flautas (2ª también flautín), 2 trompas, percusión (2 ejecutantes), arpa, cuerda",
        "2fl(II=picc) – 2hn – perc(2) – hp – str",
        None,
    ),
    ("flûte, alto et harpe", "fl – va – hp", 3),
    ("Alt und Klavier", "A – pf", 1),
    ("3 Fl. (2. auch Picc.), 2 Ob., E.H., 2 Kl. in A, Bkl.", "3fl(II=picc).2ob.corA.2cl “in A”.bcl", 9),
]

PERCUSSION = [
    ("timp+3", "timp.perc(3)", 4),
    ("1 timp + 4", "timp.perc(4)", 5),
    ("tmp+3[or 4]", "timp.perc(3–4)", (4, 5)),
    ("perc(4)", "perc(4)", 4),
    ("perc(III)", "perc(3)", 3),
    ("Percussioni: (4 esecutori)", "perc(4)", 4),
    ("2Perc Pno Hp", "perc(2) – pf – hp", 4),
    ("11 Pauken (4 Spieler)", "timp(4)", 4),
    ("fl, cl, perc, pf", "fl.cl – perc – pf", 4),
    ("percussion trio. Perc. 1: tom, harmonica. Perc. 2: crotales. Perc. 3: kalimba", None, 3),
    ("perc(1): timp/crot/3 rototoms – pno", "perc “timp/crot/3 rototoms” – pf", 2),
    ("I Vibraphone\nII Marimba", None, 2),
    ("flute, vibraphone, glockenspiel, harp", "fl – vib.glsp – hp", 4),
]

STRINGS = [
    ("str", "str", None),
    ("vn(6)", "6vn", 6),
    ("String octet (4.2.2)", "4vn.2va.2vc", 8),
    ("archi (87654)", "str(8.7.6.5.4)", 30),
    ("Str 12,10,8,7,5", "str(12.10.8.7.5)", 42),
    ("strings (min 5.4.3.2.1)", "str(min 5.4.3.2.1)", 15),
    ("str (preferably 14.12.10.8.6)", "str(preferred 14.12.10.8.6)", 50),
    ("strings (12 celli, 10 double basses)", "12vc.10db", 22),
    ("strings (no double basses)", "vnI(open).vnII(open).va(open).vc(open)", None),
    ("violins I, II, violas, cellos", "vnI(open).vnII(open).va(open).vc(open)", None),
    ("16 violini I, 14 violini II, 12 viole, 10 violoncelli, 8 contrabbassi", "str(16.14.12.10.8)", 60),
    ("vln1-vln2-vla-vlc-cb", "str(1.1.1.1.1)", 5),
    ("string quartet", "vnI.vnII.va.vc", 4),
    ("str (8.8.6.5.4 desks)", "str(8.8.6.5.4 desks)", None),
]

VOICES = [
    ("SATB and organ", "SATB choir – org", 1),
    ("SSAATTBB", "SSAATTBB choir", 0),
    ("coro (2T2B)", "TTBB choir", 0),
    ("S.A.T.B", "S.A.T.B", 0),
    ("STB soloists, SATB chorus", "soli S.T.B – SATB choir", 0),
    ("mixed choir", "mixed choir", 0),
    ("narrator and piano", "narr – pf", 1),
    ("soprano, flute, harp", "S – fl – hp", 2),
    ("4 recorders (SATB)", "4rec(I=srec only, II=arec only, III=trec only, IV=brec only)", 4),
    ("Saxophone Quartet (SATB)", "ssax.asax.tsax.barsax", 4),
]

OTHERS = [
    ("fl.cl/hn/str", "fl.cl – hn – str", None),
    ("afl.bcl.pf.perc.vn.vc", "afl.bcl – pf – perc – vn.vc", 6),
    ("S, fl(=picc), cl(=bcl), vn(=va), vc, pf", "S – fl(=picc).cl(=bcl) – vn(=va).vc – pf", 5),
    ("flute, optional didjeridu", "fl.didj(opt)", (1, 2)),
    ("hp (opt)", "hp(opt)", (0, 1)),
    ("opt org", "org(opt)", (0, 1)),
    ("2 (optional 4) clarinets", "2–4cl", (2, 4)),
    ("2–4 percussion", "perc(2–4)", (2, 4)),
    ("3 o 4 tromboni", "3–4tbn", (3, 4)),
    ("soprano or alto sax, piano", "ssax or asax – pf", 2),
    ("harp or piano", "hp or pf", 1),
    ("vn, pf (all amplified)", "vn(amp) – pf(amp)", 2),
    ("electric flute and amplified piano", "fl(amp) – pf(amp)", 2),
    ("solo violin; 2 fl, 2 hn, timp, str", "solo vn – 2fl – 2hn – timp – str", None),
    ("clarinet and orchestra", "solo cl – orch – str", None),
    ("any 3–7 players + 8ch fixed media", "3–7 instruments – fixed media (8ch)", (3, 7)),
    ("any six treble instruments", "6 treble instruments", 6),
    ("offstage: 3 trumpets", "off-stage: 3tpt", 3),
    ("3 offstage trumpets, organ", "off-stage: 3tpt – org", 4),
    ("pierrot ensemble", "fl.cl – vn.vc – pf", 5),
    ("brass quintet", "2tpt.hn.tbn.tba", 5),
    ("piano 4-hands", "pf 4 hands", 2),
    ("5 sax (2 altos, 2 tenors, 1 baritone)", None, 5),
    ("PF 2pf", "2pf", 2),
    (
        "Soprano cornet, solo cornet, repiano cornet, 2nd cornet, flugelhorn, solo horn, 1st horn, 2 euphoniums, "
        "Eb bass",
        "scrt.2crt.rcrt.flhn.2thn.2euph.Ebbass",
        10,
    ),
    ("two oboes, viola da gamba, theorbo and continuo", "2ob – vdga – theo – cont", None),
]

ALL = [
    *DOTTED, *EXTRA_PLAYERS, *DOUBLINGS, *LANGUAGES, *PERCUSSION, *STRINGS, *VOICES, *OTHERS,
]  # fmt: skip


@pytest.mark.parametrize(("text", "canonical", "players"), ALL, ids=lambda value: str(value)[:40])
def test_text_is_read_and_written_in_the_canonical_shorthand(text, canonical, players):
    reading = read(text)

    assert canonical is None or shorthand(reading) == canonical
    assert reading.players == (players if players is None or isinstance(players, tuple) else (players, players))
    assert read(shorthand(reading)).lines == reading.lines
