"""Which kind of electronics a sentence admits: clauses that set tape and live electronics against each other."""

from __future__ import annotations

import pytest

from catalogue.rules.calls.reading import read_call


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Tape welcome, live electronics not.", ("allowed", "fixed media")),
        ("Tape is welcome; live electronics are not.", ("allowed", "fixed media")),
        ("Live electronics are welcome, but no tape.", ("allowed", "live electronics")),
        ("Fixed media may be used, but not live electronics.", ("allowed", "fixed media")),
        ("Electronics are possible (fixed media only).", ("allowed", "fixed media")),
        ("Zuspielungen sind gestattet, Live-Elektronik dagegen nicht.", ("allowed", "fixed media")),
        ("Keine Live-Elektronik; Zuspielung ist möglich.", ("allowed", "fixed media")),
        ("Live-Elektronik ist erwünscht, nicht aber Tonband.", ("allowed", "live electronics")),
        ("Les sons fixés sont admis, mais pas le traitement en temps réel.", ("allowed", "fixed media")),
        ("L'électronique n'est admise que sur support.", ("allowed", "fixed media")),
        ("È ammesso il nastro, non l'elettronica dal vivo.", ("allowed", "fixed media")),
        ("Elettronica dal vivo ammessa, nastro escluso.", ("allowed", "live electronics")),
        ("Se admite electrónica fijada en soporte; la electrónica en vivo queda excluida.", ("allowed", "fixed media")),
        ("No se admite electrónica en tiempo real; cinta sí.", ("allowed", "fixed media")),
        ("Neither tape nor live electronics.", ("excluded", None)),
        ("Tape and live electronics are not possible.", ("excluded", None)),
        ("Live- und Zuspielelektronik sind ausgeschlossen.", ("excluded", None)),
        ("No electronics, fixed or live.", ("excluded", None)),
        ("Live electronics and fixed media are welcome.", ("allowed", None)),
        ("Live electronics are not required but possible.", ("allowed", None)),
    ],
)
def test_clauses_set_against_each_other_are_told_apart(text: str, wanted: tuple[str | None, str | None]) -> None:
    found = read_call(f"Lowmarsh: call for scores\nFor flute and harp.\n{text}").call

    assert (found.electronics, found.electronics_only) == wanted
