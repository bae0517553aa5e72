"""Sentences of calls in the wordings of several languages and houses, invented, with what a careful person reads."""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.rules.calls.plain_values import call_values
from catalogue.rules.calls.reading import read_call

CLOSES = "Deadline: 15 January 2027"


def among(values: Any, wanted: Any) -> Any:
    """Return of the values what stands in those that are wanted, in their shape."""
    if isinstance(values, dict) and isinstance(wanted, dict):
        return {key: among(values[key], one) for key, one in wanted.items()}
    return values


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # how many works
        ("Ogni concorrente può inviare al massimo due composizioni.", {"works_min": None, "works_max": 2}),
        ("Un brano a testa.", {"works_max": 1}),
        ("Una obra por compositor.", {"works_max": 1}),
        ("Pro Person kann nur eine Komposition eingereicht werden.", {"works_max": 1}),
        ("1. mindestens drei, höchstens fünf eigene Werke, davon mindestens eines für Orchester",
         {"works_min": 3, "works_max": 5}),
        ("A portfolio of four scores, at least one of them for orchestra.", {"works_min": 4, "works_max": 4}),
        ("– trois partitions d'œuvres récentes\n– un catalogue des œuvres", {"works_min": 3, "works_max": 3}),
        ("Our quintet reads eight scores in public on 14 June 2027.", {"works_max": None}),
        ("Please send a short biography and one note on the work.", {"works_max": None}),
        # since when, how long
        ("– zwei Partituren aus den letzten drei Jahren", {"composed_from": "2024-01-15"}),
        ("Die Werke sollen nicht älter als fünf Jahre sein.", {"composed_from": "2022-01-15"}),
        ("La durata deve essere compresa fra gli 8 e i 12 minuti.", {"duration_min": 480, "duration_max": 720}),
        ("Tendrá una duración mínima de 7 minutos y máxima de 12.", {"duration_min": 420, "duration_max": 720}),
        ("Pieces last between six and nine minutes. A tolerance of 10% is allowed.", {"duration_tolerance": 54}),
        # what may not be in it
        ("Non sono ammessi solisti, voci o mezzi elettronici.",
         {"soloists_excluded": True, "voices_excluded": True, "electronics": "excluded"}),
        ("Quedan excluidos los solistas, la voz y la electrónica.",
         {"soloists_excluded": True, "voices_excluded": True, "electronics": "excluded"}),
        ("Nothing electronic, please.", {"electronics": "excluded"}),
        ("Elettronica: solo supporto stereo, facoltativa.", {"electronics": "allowed"}),
        ("Nicht möglich: Solisten, Chor, Elektronik",
         {"soloists_excluded": True, "voices_excluded": True, "electronics": "excluded"}),
        ("Send a score and an audio file (computer playback is fine).", {"electronics": None}),
        # recordings
        ("No recordings will be considered.", {"recording": "forbidden"}),
        ("Tonträger werden nicht berücksichtigt.", {"recording": "forbidden"}),
        ("No se requiere grabación.", {"recording": "optional"}),
        ("Enregistrements : facultatifs.", {"recording": "optional"}),
        ("Send each score with a recording. Live recordings are preferred.", {"recording": "required"}),
        ("Avec des enregistrements obligatoires (les simulations ne sont pas acceptées).",
         {"recording": "required", "recording_live": True}),
        ("Aufnahmen: bitte nicht mitschicken.", {"recording": "forbidden"}),
        # what has happened to it
        ("It must not have been sung in public before.", {"unperformed": True}),
        ("L'œuvre ne doit avoir été ni éditée, ni exécutée en public.", {"unperformed": True, "unpublished": True}),
        ("Se aceptan obras ya estrenadas por aficionados, pero no por orquestas profesionales.",
         {"unperformed": True, "novelty": {"by": "a professional orchestra"}}),
        ("We invite composers who have not had a work performed by a professional orchestra.", {"unperformed": None}),
        # who may enter
        ("Compositeurs et compositrices de 18 à 30 ans.", {"age": {"least": 18, "limit": 30}}),
        ("There is no upper age limit; the lower age limit is 16.", {"age": {"least": 16, "limit": None}}),
        ("Category A (up to 18) and Category B (adults) share the rules except for the age limit.", {"age": None}),
        ("U.S. citizens or permanent residents.", {"residence": {"national": ["US"], "resident": ["US"]}}),
        ("Für Komponisten mit deutscher Adresse und die deutsche oder Schweizer Staatsangehörigkeit.",
         {"residence": {"national": ["CH", "DE"]}}),
        ("Komponisten, die nicht älter als 40 Jahre sind (Stichtag 1. März 2027).",
         {"composed_from": None, "age": {"limit": 40, "on": "2027-03-01"}}),
        ("Compositeurs nés le 1er janvier 1985 ou après cette date.", {"age": {"born": "1985-01-01", "after": False}}),
        ("De nacionalidad española o con residencia legal en España.",
         {"residence": {"national": ["ES"], "resident": ["ES"]}}),
        # fees and names
        ("Entry fee. $25.", {"fee": "$25"}),
        ("Fee | none", {"fee": "none"}),
        ("Es gibt weder eine Gebühr noch eine Altersgrenze.", {"fee": "none", "age": None}),
        ("Fee: none for applicants from the EU.", {"fee": "none for applicants from the EU"}),
        ("Submit a full score without identifying marks.", {"anonymous": True}),
        # players
        ("For an ensemble of between six and twelve of the following: flute, oboe, clarinet, bassoon, horn, trumpet, "
         "trombone, piano, harp, violin, viola, cello.", {"forces": {"rule": "any subset of", "players_min": 6}}),
        ("Gesucht wird ein Werk für Violine, Violoncello und Klavier mit einer Dauer von zehn Minuten.",
         {"forces": {"texts": ["vn.vc – pf"]}}),
        ("Instrument        Solo violoncello", {"forces": {"texts": ["vc"]}}),
        ("Instrumentation: 2 flutes (one doubling piccolo), 2 oboes, 2 clarinets, strings.",
         {"forces": {"texts": ["2(picc).2.2.0 – str"]}}),
        ("For wind quintet. Our flutist owns a piccolo, and our oboist plays English horn.",
         {"forces": {"texts": ["fl(=picc).ob(=corA).cl.hn.bn"]}}),
        ("La portfolio comprende tre composizioni, di cui almeno una per ensemble di almeno dieci esecutori.",
         {"forces": {"players_min": None}}),
    ],
)  # fmt: skip
def test_a_sentence_is_read_as_a_careful_person_reads_it(text: str, wanted: dict[str, Any]) -> None:
    values = call_values(read_call(f"An invented call\n\n{text}\n\n{CLOSES}").call)

    assert {name: among(values[name], one) for name, one in wanted.items()} == wanted


@pytest.mark.parametrize(
    ("text", "title", "kind"),
    [
        ("Ausschreibung\nKompositionswettbewerb der Stiftung Erlenhag", "Kompositionswettbewerb der Stiftung Erlenhag",
         "competition"),
        ("Hochschule Ude\nMasterstudium Komposition", "Hochschule Ude: Masterstudium Komposition", "degree"),
        ("Composers' Grants 2027\nThe award goes towards the costs of a new work.", "Composers' Grants 2027", "grant"),
        ("CONVOCATORIA\nTaller de lectura orquestal", "Taller de lectura orquestal", "reading"),
    ],
)  # fmt: skip
def test_a_title_says_what_is_to_be_won_and_by_whom(text: str, title: str, kind: str) -> None:
    call = read_call(f"{text}\n\n{CLOSES}").call

    assert (call.title, str(call.kind)) == (title, kind)


@pytest.mark.parametrize(
    "text",
    [
        "Applications open October 1, 2026 and close January 31, 2027.",
        "Anmeldeschluss: 31. Januar 2027. Teilnehmende sind jünger als 30 Jahre (am 1. Oktober 2026).",
        "La presentación de solicitudes es gratuita y finaliza el 31 de enero de 2027.",
    ],
)
def test_the_day_of_something_else_is_no_deadline(text: str) -> None:
    assert str(read_call(f"Call for scores\n\n{text}").call.deadline_day) == "2027-01-31"


def test_the_end_of_a_month_is_its_last_day() -> None:
    call = read_call("Call for scores\n\nSend a PDF by the end of February 2028.").call

    assert str(call.deadline_day) == "2028-02-29"


def test_marks_of_quoting_and_of_tables_stand_for_nothing() -> None:
    quoted = (
        "> Call for scores, Lowmarsh\n> For flute and harp.\n"
        "> The piece must be at least four minutes long and must not be\n"
        "> longer than nine minutes."
    )
    rows = "Lowmarsh: call for scores\n| Players | flute and harp |\n| Length | 4 min minimum, 9 min maximum |"

    for text in (quoted, rows):
        call = read_call(text).call
        assert (call.forces.texts, call.duration_min, call.duration_max) == (("fl – hp",), 240, 540)
    assert read_call(quoted).call.title == "Call for scores, Lowmarsh"
