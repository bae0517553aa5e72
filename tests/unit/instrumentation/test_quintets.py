"""String quintets and quartets among the winds of an orchestra (common practice of French and Italian scores)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2.2.2.2 - 2.2.0.0 - timp - le quintette à cordes", "2.2.2.2 – 2.2.0.0 – timp – str"),
        ("2 flûtes, 2 hautbois, 2 cors, quintette à cordes", "2.2.0.0 – 2.0.0.0 – str"),
        ("2 flauti, 2 oboi, 2 corni, quintetto d'archi", "2.2.0.0 – 2.0.0.0 – str"),
        ("2 flautas, 2 oboes, 2 trompas, quinteto de cuerda", "2.2.0.0 – 2.0.0.0 – str"),
        ("2 fl, 2 hautb, 2 cors, timb, quintuor à cordes", "2fl.2ob – 2hn – timp – str"),
    ],
)
def test_the_quintet_of_an_orchestra_is_its_strings(text: str, written: str) -> None:
    reading = read(text)

    assert reading.lines == read(written).lines
    assert [remark.code for remark in reading.warnings] == ["single-strings"]
    assert all(line.players == (1, 1) for line in read(text, convention="other single-strings").lines[-5:])


@pytest.mark.parametrize(
    "text", ["clarinette et quintette à cordes", "flauto, oboe, quintetto d'archi", "string quintet"]
)
def test_a_quintet_beside_single_players_is_five_players(text: str) -> None:
    reading = read(text)

    assert all(line.players == (1, 1) for line in reading.lines)
    assert [remark.code for remark in reading.warnings] == ["ensemble"]


@pytest.mark.parametrize("name", ["string quartet", "Streichquartett", "quatuor à cordes", "quartetto d'archi"])
def test_a_quartet_among_pairs_of_winds_is_told(name: str) -> None:
    reading = read(f"2.2.2.2 – 4.2.3.1 – timp – {name}")

    assert [line.players for line in reading.lines[-4:]] == [(1, 1)] * 4
    assert [remark.code for remark in reading.warnings] == ["single-strings"]


def test_a_solo_quartet_is_not_in_doubt() -> None:
    assert read("solo string quartet, 2.2.2.2 – 4.2.3.1 – timp – str").warnings == ()
