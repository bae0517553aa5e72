"""Subtitles that say forces and nothing else, told in another language."""

from __future__ import annotations

import pytest

from catalogue.documents.contents.subtitles import BODIES, told_in
from catalogue.documents.labels import labels
from catalogue.documents.model import plain


@pytest.mark.parametrize(
    ("subtitle", "language", "told"),
    [
        ("for five players", "de", "für 5 Spieler"),
        ("for piano and small orchestra", "fr", "pour piano et petit orchestre"),
        ("for mezzo-soprano, flute, cello and harp", "it", "per mezzosoprano, flauto, violoncello e arpa"),
        ("for piano, four hands", "es", "para piano a cuatro manos"),
        ("For children's choir and piano", "de", "für Kinderchor und Klavier"),
        ("concerto for accordion and orchestra", "it", "concerto per fisarmonica e orchestra"),
        ("five songs for soprano and piano", "de", "fünf Lieder für Sopran und Klavier"),
        ("für Bandoneon und Streichquartett", "en-GB", "for bandoneon and string quartet"),
        ("pour deux violons", "es", "para 2 violines"),
        ("sound installation", "fr", "installation sonore"),
    ],
)
def test_forces_are_told_in_the_language_of_the_paper(subtitle: str, language: str, told: str) -> None:
    assert plain(told_in(subtitle, language)) == told


@pytest.mark.parametrize(
    "subtitle",
    [
        "Turned Collar",
        "for three to seven players in different rooms",
        "short studies for cello",
        "for my mother",
        "for",
        "five songs, arranged for soprano and seven players",
        "for flute and a door",
        "",
    ],
)
def test_what_says_more_stays_as_it_was_typed(subtitle: str) -> None:
    assert told_in(subtitle, "de") == ()


def test_subtitle_in_the_language_of_the_paper_is_left_alone() -> None:
    assert told_in("for five players", "en-US") == ()
    assert told_in("für fünf Spieler", "de") == ()


@pytest.mark.parametrize("language", ["de", "fr", "it", "es"])
def test_every_body_has_a_name_in_every_language(language: str) -> None:
    same = {"sinfonietta", "ensemble", "live electronics", "orchestra"}
    assert {body for body in BODIES if labels(language).word(body) == body} <= same
