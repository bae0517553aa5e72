"""A rider held against a hall's list: kinds, numbers, qualities; what is called how is common practice."""

from __future__ import annotations

import pytest

from catalogue.rules.technical.halls import Verdict, held_against
from catalogue.rules.technical.items import Item
from catalogue.rules.technical.reading import read_needs
from catalogue.rules.technical.things import Thing, things_in

HALL = "8 loudspeakers full-range, 2 subwoofers, 24-channel desk, 6 condenser microphones"


def things(text: str) -> list[Thing]:
    return [thing for need in read_needs(text) for thing in things_in(need)]


def against(stock: str, *asked: str) -> list[tuple[str, int, int, int]]:
    items = [
        Item("Sound", one.name, one.number, one.detail, provider="presenter") for one in read_needs("\n".join(asked))
    ]
    return [(one.verdict.value, one.there, one.unsure, one.lacking) for one in held_against(items, read_needs(stock))]


def test_list_on_one_line_is_read_into_things() -> None:
    assert things(HALL) == [
        Thing("loudspeaker", 8, frozenset({"full range"})),
        Thing("subwoofer", 2),
        Thing("mixing desk", 1, measures={"inputs": 24}),
        Thing("microphone", 6, frozenset({"condenser"})),
    ]


@pytest.mark.parametrize(
    ("line", "read"),
    [
        ("mixing desk; 16 inputs, 8 outputs", [Thing("mixing desk", 1, measures={"inputs": 16, "outputs": 8})]),
        ("6 small condensers", [Thing("microphone", 6, frozenset({"condenser"}))]),
        ("4 x wedge monitors", [Thing("stage monitor", 4)]),
        ("grand piano; 2.1 m", [Thing("piano", 1, frozenset({"grand"}))]),
        ("20 music stands; chairs", [Thing("music stand", 20), Thing("chair", None)]),
        ("20 chairs and music stands", [Thing("chair", 20), Thing("music stand", 20)]),
        ("microphones", [Thing("microphone", None)]),
        ("two DI", [Thing("DI box", 2)]),
        ("pair of small diaphragm condensers", [Thing("microphone", 2, frozenset({"condenser"}))]),
        ("4 Lautsprecher", [Thing("loudspeaker", 4)]),
        ("1 Mischpult mit 32 Kanälen", [Thing("mixing desk", 1, measures={"inputs": 32})]),
        ("music stand lights", [Thing("stand light", None)]),
        ("6 Kondensatormikrofone mit Galgenstativen", [Thing("microphone", 6, frozenset({"condenser"}))]),
        ("Notenpulte; Pultleuchten", [Thing("music stand", None), Thing("stand light", None)]),
        ("2 drahtlose Ansteckmikrofone", [Thing("microphone", 2, frozenset({"wireless", "lavalier"}))]),
        ("ein Konzertflügel", [Thing("piano", 1, frozenset({"grand"}))]),
        ("8 DI-Boxen", [Thing("DI box", 8)]),
        ("8 DI boxes, 2 stage boxes", [Thing("DI box", 8), Thing("stagebox", 2)]),
        ("4 Lautsprecherstative und 4 Lautsprecher", [Thing("loudspeaker stand", 4), Thing("loudspeaker", 4)]),
        ("4 micros statiques", [Thing("microphone", 4, frozenset({"condenser"}))]),
        ("2 enceintes large bande", [Thing("loudspeaker", 2, frozenset({"full range"}))]),
        ("table de mixage; 32 voies", [Thing("mixing desk", 1, measures={"inputs": 32})]),
        ("12 pupitres et 12 chaises", [Thing("music stand", 12), Thing("chair", 12)]),
        ("6 projecteurs; projecteur vidéo", [Thing("spotlight", 6), Thing("projector")]),
        ("2 retours de scène", [Thing("stage monitor", 2)]),
        ("piano à queue", [Thing("piano", 1, frozenset({"grand"}))]),
        ("6 condenser microphones on boom stands", [Thing("microphone", 6, frozenset({"condenser"}))]),
        ("bass drum", []),
    ],
)  # fmt: skip
def test_line_of_a_list_is_read_into_things(line: str, read: list[Thing]) -> None:
    assert things(line) == read


@pytest.mark.parametrize(
    ("stock", "asked", "told"),
    [
        (HALL, "8 loudspeakers; full range", ("has", 8, 0, 0)),
        (HALL, "10 loudspeakers", ("lacks", 8, 0, 2)),
        (HALL, "mixing desk; 24 inputs", ("has", 1, 0, 0)),
        (HALL, "mixing desk; 32 inputs", ("lacks", 0, 0, 1)),
        (HALL, "mixing desk; 16 inputs, 8 outputs", ("cannot tell", 0, 1, 0)),
        (HALL, "2 dynamic microphones", ("lacks", 0, 0, 2)),
        (HALL, "4 clip condensers", ("cannot tell", 0, 4, 0)),
        ("6 microphones", "4 condenser microphones", ("cannot tell", 0, 4, 0)),
        ("6 microphones", "8 condenser microphones", ("lacks", 0, 6, 2)),
        ("chairs", "12 chairs", ("cannot tell", 0, 12, 0)),
        ("20 music stands; chairs", "20 chairs and music stands", ("cannot tell", 0, 20, 0)),
        ("20 music stands", "20 chairs and music stands", ("lacks", 0, 0, 20)),
        ("music stands", "12 music stand lights", ("lacks", 0, 0, 12)),
        ("4 wedges", "2 stage monitors", ("has", 2, 0, 0)),
        ("2 loudspeakers", "subwoofer", ("lacks", 0, 0, 1)),
        ("upright piano", "grand piano", ("lacks", 0, 0, 1)),
        ("grand piano", "piano", ("has", 1, 0, 0)),
        ("bass drum; 28 in", "bass drum", ("has", 1, 0, 0)),
        ("snare drum", "bass drum", ("lacks", 0, 0, 1)),
    ],
)
def test_need_is_held_against_the_list(stock: str, asked: str, told: tuple[str, int, int, int]) -> None:
    assert against(stock, asked) == [told]


def test_thing_of_the_list_is_given_out_once() -> None:
    assert against("6 condenser microphones", "4 condenser microphones; strings", "4 condenser microphones; winds") == [
        ("has", 4, 0, 0),
        ("lacks", 2, 0, 2),
    ]


def test_particular_need_is_served_before_one_that_takes_anything() -> None:
    stock = "2 condenser microphones\n2 dynamic microphones"

    assert against(stock, "2 microphones", "2 condenser microphones") == [("has", 2, 0, 0), ("has", 2, 0, 0)]


def test_what_is_not_said_is_named() -> None:
    items = [Item("Sound", "clip condensers", 2), Item("Stage", "chairs", 9)]

    found = held_against(items, read_needs("6 microphones\nchairs"))

    assert [(one.called, one.unsaid) for one in found] == [
        ("microphones", ("clip", "condenser")),
        ("chairs", ("how many",)),
    ]
    assert {one.verdict for one in found} == {Verdict.CANNOT_TELL}


def test_what_the_composer_brings_is_not_asked_of_the_hall() -> None:
    assert held_against([Item("Sound", "loudspeakers", 8, provider="composer")], read_needs("desk")) == ()
