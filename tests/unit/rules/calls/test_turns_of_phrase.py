"""Conditions of calls in turns of phrase that name them from the other side, and what is left to the reader.

The sentences are invented; what is wanted is what a careful person reads. A field that is ``None`` must stay empty: a
limit that is read wrong is worse than one that is not read.
"""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.rules.calls.plain_values import call_values
from catalogue.rules.calls.reading import read_call
from catalogue.rules.calls.terms import Proposal


def read(text: str) -> Proposal:
    return read_call(f"An invented call (Leeds)\n\n{text}\n\nDeadline: 15 January 2027, 12:00")


def values_of(text: str, names: Any) -> dict[str, Any]:
    values = call_values(read(text).call)
    return {name: values[name] for name in names}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Pieces written before September 2018 should stay at home.", {"composed_from": "2018-09-01"}),
        ("Composed since September 2018.", {"composed_from": "2018-09-01"}),
        ("Composed after September 2018.", {"composed_from": "2018-10-01"}),
        ("Works completed before 2020 are too old for us.", {"composed_from": "2020-01-01", "composed_until": None}),
        ("Die Komposition darf nicht vor Oktober 2020 entstanden sein.", {"composed_from": "2020-10-01"}),
        ("Les œuvres antérieures à 2018 ne seront pas retenues.", {"composed_from": "2018-01-01"}),
        ("Opere anteriori al 2018 non saranno prese in considerazione.", {"composed_from": "2018-01-01"}),
        ("No se aceptan obras anteriores a enero de 2020.", {"composed_from": "2020-01-01"}),
        ("No older than ten years when the call closes.", {"composed_from": "2017-01-15", "age": None}),
        ("The work must have been written before 2015.", {"composed_until": "2014-12-31"}),
        ("Works written before 2015 will be considered.", {"composed_from": None, "composed_until": None}),
        ("Music begun before 2020 but finished afterwards is welcome.", {"composed_from": None}),
        ("L'œuvre, composée depuis 2017, n'aura jamais été donnée en concert.", {"age": None, "unperformed": True}),
        ("A reworking of something older does not make it new.", {"versions": "keep the first date"}),
        ("Ten minutes, give or take one.", {"duration_min": 600, "duration_max": 600, "duration_tolerance": 60}),
        ("8 to 10 minutes, plus or minus 30 seconds.", {"duration_max": 600, "duration_tolerance": 30}),
        ("Between a quarter of an hour and twenty minutes.", {"duration_min": 900, "duration_max": 1200}),
        (
            "Two works, each between three and twelve minutes; together not over twenty minutes.",
            {"duration_min": 180, "duration_max": 720, "total_max": 1200},
        ),
        (
            "Together they last 20 to 30 minutes, no single work more than 12.",
            {"total_min": 1200, "total_max": 1800, "duration_max": 720, "works_max": None},
        ),
        ("Do not offer the same works to any other competition.", {"exclusive": True}),
        ("Works that have been broadcast are not accepted.", {"unperformed": None}),
        ("Sie dürfen bereits erklungen, aber noch nicht im Druck erschienen sein.", {"unpublished": True}),
        ("Purely acoustic pieces are not what we are after.", {"electronics": "required"}),
        ("We programme pieces for one performer with electronics.", {"electronics": "required"}),
        (
            "Concertos are ineligible, as are works with voices and works that require amplification.",
            {"soloists_excluded": True, "voices_excluded": True, "electronics": "excluded"},
        ),
        ("WHAT WE CANNOT DO\nSingers, narrators, tape.", {"voices_excluded": True, "electronics": "excluded"}),
        ("Computer realisations will do; one recording at least must be of live players.", {"recording_live": False}),
        ("Der Text, deutsch oder lateinisch, muss rechtefrei sein.", {"text_languages": ["de", "la"]}),
        ("Not over 120 words about the piece.", {"note_words": 120}),
    ],
)
def test_a_condition_is_read_from_whichever_side_it_is_told(text: str, wanted: dict[str, Any]) -> None:
    assert values_of(text, wanted) == wanted


@pytest.mark.parametrize(
    ("text", "least", "limit"),
    [
        ("Teilnehmende müssen das 18. Lebensjahr vollendet haben.", 18, None),
        ("Wer das 18., aber noch nicht das 41. Lebensjahr vollendet hat, kann sich bewerben.", 18, 40),
        ("Entrants must have turned 18, but not 36.", 18, 35),
        ("Composers must be no older than 40.", None, 40),
    ],
)
def test_a_year_of_life_bounds_an_age_below_or_above(text: str, least: int | None, limit: int | None) -> None:
    age = read(text).call.age

    assert age is not None
    assert (age.least, age.limit) == (least, limit)


def test_a_birthday_after_a_month_counts_from_the_next_one() -> None:
    age = read("Composers born after March 1991 may enter.").call.age

    assert age is not None
    assert (str(age.born), age.after) == ("1991-04-01", False)


@pytest.mark.parametrize(
    ("text", "moment"),
    [
        ("Entries close at five in the afternoon on the first of March 2027.", "2027-03-01 17:00:00+00:00"),
        ("It shuts on the twenty-third of June 2027, half past nine in the morning.", "2027-06-23 09:30:00+01:00"),
        ("Closing date: 2 April 2027, twelve o'clock", "2027-04-02 12:00:00+01:00"),
    ],
)  # fmt: skip
def test_a_deadline_is_read_in_words(text: str, moment: str) -> None:
    assert str(read_call(f"An invented call (Leeds)\n\n{text}").call.deadline) == moment


@pytest.mark.parametrize(
    "text",
    [
        "Works for flute, oboe and harp. Your piece need not use everybody.",
        "Works for flute, oboe and harp. The full line-up is not required.",
        "Stücke für Flöte, Oboe und Harfe. Es müssen nicht alle mitspielen.",
        "Des œuvres pour flûte, hautbois et harpe. L'effectif complet n'est pas exigé.",
        "Opere per flauto, oboe e arpa. Non è necessario impiegare tutti gli strumenti.",
        "Obras para flauta, oboe y arpa. No es necesario utilizar todos los instrumentos.",
    ],
)
def test_players_who_need_not_all_play_are_a_body_to_choose_from(text: str) -> None:
    forces = read(text).call.forces

    assert (forces.texts, str(forces.rule)) == (("fl.ob – hp",), "any subset of")


def test_so_many_words_or_fewer_say_nothing_of_the_players() -> None:
    text = "Forces, at most: 2.2.2.2 - 2.2.0.0 - str. Usual doublings are allowed. A note of 150 words or fewer."
    forces = read(text).call.forces

    assert (forces.texts, str(forces.rule), forces.usual_doublings) == (
        ("2.2.2.2 – 2.2.0.0 – str",),
        "at most",
        True,
    )


def test_bodies_name_how_many_play() -> None:
    forces = read("Works for flute, viola, cello and harp, anything from a duo to a quartet.").call.forces

    assert (forces.players_min, forces.players_max) == (2, 4)


def test_each_person_named_with_a_bracket_is_one_player() -> None:
    text = "One of these: Ayla (flutes: from piccolo to bass), Jorin (accordion), Pell (vibraphone and percussion)."
    forces = read(text).call.forces

    assert (forces.texts, str(forces.rule)) == (("fl(=picc+afl+bfl) – acn – vib(=perc)",), "any subset of")


def test_what_two_players_own_goes_to_each() -> None:
    text = "For flute, clarinet and piano. The flautist owns a piccolo and the clarinettist a bass clarinet."

    assert read(text).call.forces.texts == ("fl(=picc).cl(=bcl) – pf",)


def test_players_apart_from_the_list_that_was_taken_are_told() -> None:
    found = read("We look for works for flute, oboe, wibblehorn, piano and cello.").call

    assert found.contradictions == (
        "Beside the players that were taken their sentence names others: piano, cello. "
        "Look whether they belong to the forces.",
    )


def test_mixed_voices_by_their_number_are_a_choir_and_unnamed_ones_are_told() -> None:
    eight = read("Gesucht wird ein Chorwerk für vier bis acht gemischte Stimmen.").call
    six = read("We want a choral work for six mixed voices.").call

    assert (eight.forces.texts, eight.contradictions) == (("SATB choir “max. div. SSAATTBB”",), ())
    assert (six.forces.texts, six.contradictions) == (
        ("SATB choir “max. div. SSAATTBB”",),
        ("The call says 6 mixed voices and not which: up to two of each are taken.",),
    )


@pytest.mark.parametrize(
    "sentence",
    [
        "Works written before 2015 will be considered.",
        "Trio: clarinet in B flat or bass clarinet, viola, harp.",
        "Works that have been broadcast are not accepted.",
    ],
)
def test_a_condition_that_is_not_taken_is_told(sentence: str) -> None:
    assert read(sentence).unread == (sentence,)


def test_works_of_two_kinds_among_those_sent_are_asked_for() -> None:
    found = read("Among them there has to be one with a voice or voices and one that uses electronics.").call

    assert [(one.kind, one.least) for one in found.set_rules] == [("voice", 1), ("electronics", 1)]


@pytest.mark.parametrize(
    ("text", "forces", "most", "limit"),
    [
        ("Call for scores: string quartet, max. 10 minutes, composers under 35.", "vnI.vnII.va.vc", 600, 34),
        ("String quartet, 8-10 minutes, composers aged 18 to 30.", "vnI.vnII.va.vc", 600, 30),
        ("Wind quintet, at most 12 minutes.", "fl.ob.cl.hn.bn", 720, None),
        ("We invite works for string quartet by composers under 35.", "vnI.vnII.va.vc", None, 34),
        ("Our piano trio has played in many halls, among them ours.", "", None, None),
        ("The flute seminar, 20 minutes on foot from the station, is open.", "", None, None),
    ],
)
def test_a_short_notice_tells_players_length_and_age_between_commas(
    text: str, forces: str, most: int | None, limit: int | None
) -> None:
    """What a call says is a condition; one that is passed over in silence would make a yes of what nobody knows."""
    values = call_values(read(text).call)

    assert values["forces"]["texts"] == ([forces] if forces else [])
    assert values["duration_max"] == most
    assert (values["age"] or {}).get("limit") == limit
