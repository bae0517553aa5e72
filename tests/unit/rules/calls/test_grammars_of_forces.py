"""Lists of players in whatever words introduce them, and doublings told in a sentence of their own, five languages.

The sentences are invented; what is wanted is what a careful person reads.
"""

from __future__ import annotations

import pytest

from catalogue.rules.calls.reading import read_call

ORCHESTRA_EN = "2 flutes, 2 oboes, 2 clarinets, 2 bassoons, 2 horns, timpani and strings"
ORCHESTRA_DE = "2 Flöten, 2 Oboen, 2 Klarinetten, 2 Fagotte, 2 Hörner, Pauken und Streicher"
ORCHESTRA_FR = "2 flûtes, 2 hautbois, 2 clarinettes, 2 bassons, 2 cors, timbales et cordes"
ORCHESTRA_IT = "2 flauti, 2 oboi, 2 clarinetti, 2 fagotti, 2 corni, timpani e archi"
ORCHESTRA_ES = "2 flautas, 2 oboes, 2 clarinetes, 2 fagotes, 2 trompas, timbales y cuerdas"
ENSEMBLE_EN = "flute, clarinet, violin, cello and piano"
ENSEMBLE_DE = "Flöte, Klarinette, Violine, Violoncello und Klavier"
ENSEMBLE_FR = "flûte, clarinette, violon, violoncelle et piano"
ENSEMBLE_IT = "flauto, clarinetto, violino, violoncello e pianoforte"
ENSEMBLE_ES = "flauta, clarinete, violín, violonchelo y piano"


def forces_of(text: str) -> tuple[str, ...]:
    return read_call(f"An invented call\n\n{text}\n\nDeadline: 15 January 2027").call.forces.texts


@pytest.mark.parametrize(
    "text",
    [
        f"The orchestra has {ORCHESTRA_EN}.",
        f"Scoring must not exceed {ORCHESTRA_EN}.",
        f"Composers may draw on {ORCHESTRA_EN}.",
        f"The work should be scored for no more than {ORCHESTRA_EN}.",
        f"You have at your disposal {ORCHESTRA_EN}.",
        f"The maximum instrumentation is {ORCHESTRA_EN}.",
        f"We can offer {ORCHESTRA_EN}.",
        f"The instrumentation must be within {ORCHESTRA_EN}.",
        f"Write for an orchestra consisting of {ORCHESTRA_EN}.",
        f"Die Besetzung darf {ORCHESTRA_DE} nicht überschreiten.",
        f"Zur Verfügung stehen {ORCHESTRA_DE}.",
        f"Das Orchester besteht aus {ORCHESTRA_DE}.",
        f"Die Höchstbesetzung ist {ORCHESTRA_DE}.",
        f"L'effectif ne doit pas dépasser {ORCHESTRA_FR}.",
        f"L'orchestre se compose de {ORCHESTRA_FR}.",
        f"L'effectif disponible est de {ORCHESTRA_FR}.",
        f"L'œuvre est écrite pour au maximum {ORCHESTRA_FR}.",
        f"L'organico non deve superare {ORCHESTRA_IT}.",
        f"L'orchestra è composta da {ORCHESTRA_IT}.",
        f"L'organico a disposizione è {ORCHESTRA_IT}.",
        f"Il brano è per {ORCHESTRA_IT}.",
        f"La plantilla no podrá exceder {ORCHESTRA_ES}.",
        f"La orquesta está formada por {ORCHESTRA_ES}.",
        f"La plantilla disponible es {ORCHESTRA_ES}.",
        f"La obra estará escrita para un máximo de {ORCHESTRA_ES}.",
    ],
)
def test_no_player_of_an_orchestra_is_lost_to_the_words_before_or_behind_its_list(text: str) -> None:
    assert forces_of(text) == ("2.2.2.2 – 2.0.0.0 – timp – str",)


@pytest.mark.parametrize(
    "text",
    [
        f"The ensemble has {ENSEMBLE_EN}.",
        f"The available instruments are {ENSEMBLE_EN}.",
        f"The ensemble plays {ENSEMBLE_EN}.",
        f"Our musicians are a quintet of {ENSEMBLE_EN}.",
        f"The line-up will be {ENSEMBLE_EN}.",
        f"We seek works scored for {ENSEMBLE_EN}, lasting six minutes.",
        f"Pieces must use all of {ENSEMBLE_EN}.",
        f"Das Ensemble spielt in der Besetzung {ENSEMBLE_DE}.",
        f"Gesucht werden Werke für {ENSEMBLE_DE}.",
        f"Die Besetzung lautet: {ENSEMBLE_DE}.",
        f"Das Ensemble besteht aus {ENSEMBLE_DE}.",
        f"Das Stück ist für {ENSEMBLE_DE} zu schreiben.",
        f"L'ensemble est composé de {ENSEMBLE_FR}.",
        f"Les œuvres seront écrites pour {ENSEMBLE_FR}.",
        f"L'effectif comprend {ENSEMBLE_FR}.",
        f"Une pièce pour {ENSEMBLE_FR}, d'une durée de six minutes.",
        f"L'ensemble è formato da {ENSEMBLE_IT}.",
        f"Composizioni per {ENSEMBLE_IT}.",
        f"L'organico comprende {ENSEMBLE_IT}.",
        f"Si richiede un brano per {ENSEMBLE_IT} della durata di sei minuti.",
        f"El ensemble está formado por {ENSEMBLE_ES}.",
        f"Obras para {ENSEMBLE_ES}.",
        f"La plantilla consta de {ENSEMBLE_ES}.",
        f"La obra estará escrita para {ENSEMBLE_ES}.",
    ],
)
def test_no_player_of_an_ensemble_is_lost_to_the_words_before_or_behind_its_list(text: str) -> None:
    assert forces_of(text) == ("fl.cl – vn.vc – pf",)


@pytest.mark.parametrize(
    ("text", "winds"),
    [
        ("Doublings: flute 2 on piccolo, oboe 2 on English horn, clarinet 2 on bass clarinet.",
         "2(II=picc).2(II=corA).2(II=bcl).2"),
        ("Second flute doubles piccolo and second bassoon doubles contrabassoon.", "2(II=picc).2.2.2(II=cbn)"),
        ("The 2nd oboe also plays cor anglais; the 2nd clarinet may take bass clarinet.", "2.2(II=corA).2(II=bcl).2"),
        ("Clarinet II doubles bass clarinet.", "2.2.2(II=bcl).2"),
        ("Wechsel: 2. Flöte auch Piccolo, 2. Oboe auch Englischhorn", "2(II=picc).2(II=corA).2.2"),
        ("La deuxième flûte prend le piccolo.", "2(II=picc).2.2.2"),
        ("Secondo flauto anche ottavino.", "2(II=picc).2.2.2"),
        ("La segunda flauta toca también el piccolo.", "2(II=picc).2.2.2"),
        ("No doublings.", "2.2.2.2"),
    ],
)  # fmt: skip
def test_doublings_are_told_in_a_sentence_of_their_own(text: str, winds: str) -> None:
    listed = "Works use at most 2.2.2.2 – 4.2.3.0 – timp – hp – str"

    assert forces_of(f"{listed}\n\n{text}") == (f"{winds} – 4.2.3.0 – timp – hp – str",)


@pytest.mark.parametrize(
    "text",
    [
        f"Our players are {ENSEMBLE_EN}. Please write for at least three of them.",
        f"Das Ensemble besteht aus {ENSEMBLE_DE}. Zu schreiben ist für mindestens drei von ihnen.",
        f"L'ensemble est composé de {ENSEMBLE_FR}. Les œuvres sont écrites pour au moins trois d'entre eux.",
        f"L'ensemble è formato da {ENSEMBLE_IT}. Si scriva per almeno tre di loro.",
        f"El ensemble está formado por {ENSEMBLE_ES}. Se escribirá para al menos tres de ellos.",
    ],
)
def test_so_many_of_them_are_the_least_of_a_body_to_choose_from(text: str) -> None:
    forces = read_call(f"An invented call\n\n{text}\n\nDeadline: 15 January 2027").call.forces

    assert (str(forces.rule), forces.players_min) == ("any subset of", 3)


@pytest.mark.parametrize(
    ("text", "rule", "least", "most"),
    [
        (
            "Besetzung: Flöte, Klarinette, Violine, Violoncello. Alle oder einige davon, mindestens drei.",
            "any subset of",
            3,
            None,
        ),
        ("Forces: flute, clarinet, violin, cello. All or some of these, at least three.", "any subset of", 3, None),
        ("SATB choir (with divisi up to 8 parts), unaccompanied. Up to 4 minutes.", "at most", None, None),
        ("Für Chor SATB, bis zu achtstimmig, höchstens vier Minuten.", "at most", None, None),
    ],
)
def test_a_part_of_the_players_may_be_chosen_and_divisi_count_nobody(
    text: str, rule: str, least: int | None, most: int | None
) -> None:
    forces = read_call(f"An invented call\n\n{text}\n\nDeadline: 15 January 2027").call.forces

    assert (forces.rule.value, forces.players_min, forces.players_max) == (rule, least, most)
