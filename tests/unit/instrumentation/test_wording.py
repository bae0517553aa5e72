"""Forces in words: number, gender and ordinals in six languages, and each thing that can be said of a line."""

from __future__ import annotations

from dataclasses import replace

import pytest

from catalogue.instrumentation import read
from catalogue.instrumentation.grammar import grammar
from catalogue.instrumentation.model import Chair, Instrumentation, Line
from catalogue.instrumentation.vocabulary import LANGUAGES, family_of
from catalogue.instrumentation.wording import write_sentence, write_words

Named = tuple[int | None, tuple[str, ...]]


def line(slug: str, players: int | tuple[int, int] | None = 1, *chairs: Named, **more: object) -> Line:
    numbers = (players, players) if isinstance(players, int) else players
    named = tuple(Chair(number, plays) for number, plays in chairs)
    return Line(slug, family_of(slug), numbers, chairs=named, **more)  # type: ignore[arg-type]


def said(*lines: Line, language: str = "en-GB", **more: object) -> str:
    return write_words(Instrumentation(lines, **more), language)  # type: ignore[arg-type]


def strings(*numbers: int | None, strength: str = "stated", unit: str = "players") -> tuple[Line, ...]:
    slugs = ("violin-1", "violin-2", "viola", "cello", "double-bass")
    return tuple(line(slug, count, unit=unit, strength=strength) for slug, count in zip(slugs, numbers, strict=True))


WINDS = (
    line("flute", 3, (2, ("flute", "piccolo")), (3, ("flute", "piccolo"))),
    line("oboe", 2, (2, ("oboe", "cor-anglais"))),
    line("clarinet", 3, (1, ("clarinet", "e-flat-clarinet")), (3, ("bass-clarinet",))),
    line("bassoon", 1, (1, ("bassoon", "contrabassoon"))),
    line("horn", 4, (None, ("horn", "wagner-tuba"))),
    line("trumpet", 2, (1, ("trumpet", "cornet")), (2, ("trumpet", "cornet"))),
)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "en-GB",
            "3 flutes, the second and third doubling piccolo; 2 oboes, the second doubling cor anglais; 3 "
            "clarinets, the "
            "first doubling E-flat clarinet, the third playing bass clarinet; bassoon doubling contrabassoon; 4 horns, "
            "one doubling Wagner tuba; 2 trumpets, both doubling cornet",
        ),
        (
            "en-US",
            "3 flutes, the second and third doubling piccolo; 2 oboes, the second doubling English horn; 3 clarinets, "
            "the first doubling E-flat clarinet, the third playing bass clarinet; bassoon doubling contrabassoon; "
            "4 horns, one doubling Wagner tuba; 2 trumpets, both doubling cornet",
        ),
        (
            "de",
            "3 Flöten, die zweite und die dritte auch Piccolo; 2 Oboen, die zweite auch Englischhorn; 3 "
            "Klarinetten, die "
            "erste auch Es-Klarinette, die dritte spielt Bassklarinette; Fagott, auch Kontrafagott; 4 "
            "Hörner, eines auch "
            "Wagnertuba; 2 Trompeten, beide auch Kornett",
        ),
        (
            "fr",
            "3 flûtes, la deuxième et la troisième aussi petite flûte\u00a0; 2 hautbois, le deuxième aussi cor "
            "anglais\u00a0; 3 clarinettes, la première aussi petite clarinette, la troisième joue clarinette "
            "basse\u00a0; basson, aussi contrebasson\u00a0; 4 cors, un aussi tuba wagnérien\u00a0; 2 trompettes, "
            "toutes deux aussi cornet à pistons",
        ),
        (
            "it",
            "3 flauti, il secondo e il terzo anche ottavino; 2 oboi, il secondo anche corno inglese; 3 clarinetti, il "
            "primo anche clarinetto piccolo, il terzo suona clarinetto basso; fagotto, anche controfagotto; "
            "4 corni, uno "
            "anche tuba wagneriana; 2 trombe, entrambe anche cornetta",
        ),
        (
            "es",
            "3 flautas, la segunda y la tercera también flautín; 2 oboes, el segundo también corno inglés; "
            "3 clarinetes, "
            "el primero también requinto, el tercero toca clarinete bajo; fagot, también contrafagot; 4 trompas, una "
            "también tuba wagneriana; 2 trompetas, ambas también cornetín",
        ),
    ],
)
def test_doublings_agree_with_the_instrument(language: str, text: str) -> None:
    assert said(*WINDS, language=language) == text


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en-GB", "percussion (2–4 players); 2 harps, amplified; celesta, optional; piano or organ; solo violin"),
        ("de", "Schlagzeug (2–4 Spieler); 2 Harfen, verstärkt; Celesta, ad libitum; Klavier oder Orgel; Violine solo"),
        (
            "fr",
            "percussion (2–4 exécutants)\u00a0; 2 harpes, amplifiées\u00a0; célesta, ad libitum\u00a0; "
            "piano ou orgue\u00a0; violon solo",
        ),
        (
            "it",
            "percussioni (2–4 esecutori); 2 arpe, amplificate; celesta, ad libitum; pianoforte o organo; "
            "violino solista",
        ),
        (
            "es",
            "percusión (2–4 ejecutantes); 2 arpas, amplificadas; celesta, ad libitum; piano u órgano; violín solista",
        ),
    ],
)
def test_what_is_said_of_a_line_is_said_in_each_language(language: str, text: str) -> None:
    lines = (
        line("percussion", (2, 4)),
        line("harp", 2, amplified=True),
        line("celesta", (0, 1), optional=True),
        line("piano", alternatives=("organ",)),
        line("violin", role="soloist"),
    )
    assert said(*lines, language=language) == text


def test_strings_are_told_with_their_strengths() -> None:
    assert said(*strings(8, 6, 4, 4, 2)) == "strings (8.6.4.4.2)"
    assert said(*strings(8, 6, 4, 4, 2, strength="least")) == "strings (at least 8.6.4.4.2)"
    assert said(*strings(8, 6, 4, 4, 2, strength="preferred"), language="de") == "Streicher (8.6.4.4.2 empfohlen)"
    assert said(*strings(4, 3, 2, 2, 1, unit="desks"), language="it") == "archi (4.3.2.2.1 leggii)"
    assert said(*strings(None, None, None, None, None), language="fr") == "cordes"


def test_single_strings_are_told_one_by_one() -> None:
    quintet = (line("violin-1"), line("violin-2"), line("viola"), line("cello"), line("double-bass"))
    assert said(*quintet) == "violin I; violin II; viola; cello; double bass"
    assert said(*quintet[:4], language="fr") == "quatuor à cordes"
    assert said(line("violin", 2), line("viola"), language="fr") == "2 violons\u00a0; alto"


def test_a_choir_is_told_by_its_voicing() -> None:
    parts = tuple(line(f"choir-{part}", None, parts=2) for part in ("soprano", "alto", "tenor", "bass"))
    assert said(*parts) == "choir (SSAATTBB)"
    assert said(line("choir-soprano", None), line("choir-alto", None), language="fr") == "chœur (SA)"


def test_electronics_carry_their_channels() -> None:
    assert said(line("cello"), electronics="both", channels="8", language="fr") == (
        "violoncelle\u00a0; électronique en temps réel\u00a0; support fixe (8 canaux)"
    )


def test_an_open_number_is_told_by_the_plural() -> None:
    assert said(line("oboe", None), language="it") == "oboi"
    assert said(line("violin", None)) == "violins"


def test_a_sentence_begins_with_the_number_of_people() -> None:
    forces = Instrumentation((line("flute", 2), line("voice-soprano"), line("percussion", (0, 1), optional=True)))
    assert write_sentence(forces) == "2–3 players and 1 singer: 2 flutes; soprano; percussion (1 player), optional."
    assert write_sentence(Instrumentation((line("flute", None),)), "de") == "Flöten."


def test_a_language_without_words_is_named() -> None:
    with pytest.raises(ValueError, match="There are no words in “nl”"):
        grammar("nl")


@pytest.mark.parametrize(
    ("language", "slug", "gender"),
    [
        ("de", "horn", "n"), ("de", "bass-clarinet", "f"), ("de", "double-bass", "m"), ("de", "violin-1", "f"),
        ("fr", "trombone", "m"), ("fr", "piccolo", "f"), ("fr", "double-bass", "f"), ("it", "trumpet", "f"),
        ("it", "viola", "f"), ("es", "horn", "f"), ("es", "viola", "f"), ("es", "oboe", "m"),
    ],
)  # fmt: skip
def test_gender_follows_the_head_of_the_name(language: str, slug: str, gender: str) -> None:
    assert grammar(language).gender(slug) == gender


def test_ordinals_go_beyond_the_words() -> None:
    assert [grammar("en-GB").ordinal(chair, "horn") for chair in (12, 13, 21, 22)] == [
        "twelfth",
        "13th",
        "21st",
        "22nd",
    ]
    assert grammar("es").ordinal(14, "flute") == "la 14a"


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("manner", [("desks", "stated"), ("players", "least"), ("players", "preferred")])
def test_a_single_section_says_how_its_number_is_meant(manner: tuple[str, str], language: str) -> None:
    unit, strength = manner
    forces = Instrumentation((line("harp"), line("double-bass", 4, unit=unit, strength=strength)))

    assert read(write_words(forces, language), language=language) == forces


def test_a_part_of_the_strings_with_a_remark_of_its_own_is_not_denied_by_figures() -> None:
    *upper, bass = strings(16, 14, 12, 10, 8)
    forces = Instrumentation((*upper, replace(bass, note="V corda")))

    told = write_words(forces)
    assert told == "16 violins I; 14 violins II; 12 violas; 10 cellos; 8 double basses (V corda)"
    assert read(told) == forces


def test_soloists_of_a_size_that_is_a_voice_too_read_back() -> None:
    forces = Instrumentation((line("tenor-saxophone", 2, role="soloist"), *strings(8, 6, 4, 4, 2)))

    told = write_words(forces, "fr")
    assert told.startswith("2 saxophones ténor solos")
    assert read(told, language="fr") == forces
