"""Score files: order of bars, seconds, forces, credits, a proposed tempo map, and files that are not taken.

Scores are made here; the meaning of their elements is MusicXML 4.0 (W3C), the order of bars is common practice.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterable
from fractions import Fraction
from itertools import chain
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from catalogue.exchange.scores import ScoreError, parsing, read_score
from catalogue.exchange.scores.forces import without_numbers
from catalogue.exchange.scores.model import Score
from catalogue.exchange.scores.opening import score_xml
from catalogue.exchange.scores.parsing import Reading, at_once, parsed, streamed
from catalogue.exchange.scores.playing import playing_order
from catalogue.instrumentation import read
from catalogue.timing import read_tempo_map, timeline
from tests.score_files import (
    BACKWARD,
    FINAL,
    FORWARD,
    METRE,
    bar,
    compressed,
    ending,
    metronome,
    part_list,
    score,
    sound,
    words,
)


def order_of(*bars: str) -> list[int]:
    """Return the bars in the order in which they are played, from 1."""
    return [index + 1 for index in playing_order(parsed(score(*bars)).bars)]


FIRST, FIRST_ENDS = ending("1", repeats=True)
SECOND, SECOND_ENDS = ending("2", closes=False)


@pytest.mark.parametrize(
    ("bars", "order"),
    [
        ([bar(), bar()], [1, 2]),
        ([bar(), bar(after=BACKWARD), bar()], [1, 2, 1, 2, 3]),
        ([bar(), bar(FORWARD), bar(after=BACKWARD), bar()], [1, 2, 3, 2, 3, 4]),
        ([bar(after=BACKWARD), bar(after=BACKWARD)], [1, 1, 2, 2]),
        ([bar(after=FINAL), bar(after=BACKWARD)], [1, 2, 2]),
        ([bar(), bar(FIRST, after=FIRST_ENDS), bar(SECOND, after=SECOND_ENDS), bar()], [1, 2, 1, 3, 4]),
        ([bar(), bar(FIRST, after=FIRST_ENDS), bar()], [1, 2, 1, 3]),
        ([bar(after='<barline><repeat direction="backward" times="3"/></barline>')], [1, 1, 1]),
        ([bar(), bar(sound(fine="yes")), bar(sound(dacapo="yes"))], [1, 2, 3, 1, 2]),
        ([bar(), bar(words("Fine")), bar(words("D.C. al Fine"))], [1, 2, 3, 1, 2]),
        ([bar(), bar(sound(segno="s")), bar(sound(dalsegno="s")), bar()], [1, 2, 3, 2, 3, 4]),
        (
            [bar(sound(segno="s")), bar(sound(tocoda="c")), bar(sound(dalsegno="s")), bar(sound(coda="c"))],
            [1, 2, 3, 1, 2, 4],
        ),
        (
            [
                bar(words("", "segno")),
                bar(words("To Coda", "coda")),
                bar(words("D.S. al Coda")),
                bar(words("", "coda")),
            ],
            [1, 2, 3, 1, 2, 4],
        ),
        (
            [bar(words("", "segno")), bar(words("", "coda")), bar(words("D.S.")), bar(words("", "coda"))],
            [1, 2, 3, 1, 2, 4],
        ),
        ([bar(after=BACKWARD), bar(sound(dacapo="yes"))], [1, 1, 2, 1, 2]),
        (
            [bar(), bar(FIRST, after=FIRST_ENDS), bar(SECOND, after=SECOND_ENDS), bar(sound(dacapo="yes"))],
            [1, 2, 1, 3, 4, 1, 3, 4],
        ),
        ([bar(after=FINAL), bar(sound(fine="yes")), bar(sound(dacapo="yes")), bar()], [1, 2, 3, 2, 4]),
    ],
)
def test_bars_are_played_in_order(bars: list[str], order: list[int]) -> None:
    assert order_of(*bars) == order


def test_an_ending_may_open_the_next_repeat() -> None:
    opens = [bar(), bar(FIRST, after=FIRST_ENDS), bar(SECOND, FORWARD, after=SECOND_ENDS), bar(after=BACKWARD)]
    assert order_of(*opens) == [1, 2, 1, 3, 4, 3, 4]


def test_an_ending_whose_bracket_is_drawn_over_its_first_bar_goes_on_to_its_repeat() -> None:
    begins, ends = ending("1")
    bars = [bar(), bar(begins, after=ends), bar(after=BACKWARD), bar(SECOND, after=SECOND_ENDS), bar(after=BACKWARD)]
    assert order_of(*bars) == [1, 2, 3, 1, 4, 5, 5]
    found = read_score(score(sound(tempo="60") + bars[0], *bars[1:]))
    assert found.tempo_map.splitlines()[1:] == ["repeat 1-3 last 2-3", "repeat 5-5"]
    assert timeline(read_tempo_map(found.tempo_map)).seconds == found.seconds


def test_endings_for_several_times_are_played_as_often() -> None:
    begins, ends = ending("1, 2", repeats=True)
    last, last_ends = ending("3", closes=False)
    assert order_of(bar(), bar(begins, after=ends), bar(last, after=last_ends)) == [1, 2, 1, 2, 1, 3]


@pytest.mark.parametrize(
    ("bars", "once", "played"),
    [
        ([bar(sound(tempo="60")), bar()], 8, 8),
        ([bar(metronome("quarter", "120")), bar(after=BACKWARD)], 4, 8),
        ([bar(metronome("half", "30", dots=1)), bar()], Fraction(480, 90), Fraction(480, 90)),
        ([bar(metronome("quarter", "c. 60-66")), bar(sound(tempo="120"))], 6, 6),
        ([bar(words("Lento (♩ = 60)"))], 4, 4),
        ([bar(), bar(sound(tempo="60"))], 8, 8),
        ([bar(sound(tempo="60"), quarters=2, after=sound(tempo="120") + bar(quarters=2))], 3, 3),
    ],
)
def test_seconds_follow_tempo_marks(bars: list[str], once: float, played: float) -> None:
    found = read_score(score(*bars))
    assert (found.seconds_unrepeated, found.seconds) == (
        pytest.approx(float(once), abs=0.001),
        pytest.approx(float(played), abs=0.001),
    )


def test_a_repeated_passage_goes_at_its_own_tempo_again() -> None:
    found = read_score(score(bar(sound(tempo="60")), bar(sound(tempo="240"), after=BACKWARD)))
    assert found.seconds == 10


def test_a_score_without_tempo_gives_no_duration() -> None:
    found = read_score(score(bar(words("Allegro"))))
    assert (found.seconds, found.seconds_unrepeated, found.has_tempo_marks, found.tempo_map) == (None, None, False, "")
    assert found.warnings == (
        "The file has no tempo mark with a figure, so it gives no duration. It says “Allegro”, which is no figure.",
    )


def test_a_metric_modulation_changes_the_tempo_in_proportion() -> None:
    mark = "<metronome><beat-unit>quarter</beat-unit><beat-unit>half</beat-unit></metronome>"
    found = read_score(
        score(bar(sound(tempo="60")), bar(f"<direction><direction-type>{mark}</direction-type></direction>"))
    )
    assert found.seconds == 6


@pytest.mark.parametrize(
    ("parts", "instrumentation"),
    [
        (("Flute 1", "Flute 2", "Oboe", "Clarinet in B♭", "Bassoon"), "2 flutes, oboe, clarinet, bassoon"),
        (("Violin I", "Violin II", "Viola", "Violoncello"), "2 violins, viola, cello"),
        (("Soprano", "Alto", "Tenor", "Bass", "Organ"), "SATB choir, organ"),
        (("Soprano", "Piano"), "soprano, piano"),
        (("1.2. Horn in F", "3.4. Horn in F"), "4 horns"),
        (("Violini I", "Violini II", "Viole", "Violoncelli", "Contrabbassi"), "str"),
        (("Flûte", "Alto", "Harpe"), "flute, viola, harp"),
        (("Flûte", "Soprano", "Alto"), "flute, soprano, contralto"),
        (("Flute", "Alto", "Piano"), "flute, contralto, piano"),
        (
            (
                "2 Flutes",
                "2 Oboes",
                "2 Bassoons",
                "Horns 1, 2",
                "Timpani",
                "Violin I",
                "Violin II",
                "Viola",
                "Cello",
                "Bass",
            ),
            "2 fl, 2 ob, 2 bn, 2 hn, timp, str",
        ),
    ],
)
def test_parts_make_up_an_instrumentation(parts: tuple[str, ...], instrumentation: str) -> None:
    found = read_score(score(bar(), parts=parts))
    assert read(found.instrumentation).lines == read(instrumentation).lines


def instruments(*listed: tuple[str, str]) -> str:
    return "".join(
        f'<score-instrument id="I{number}"><instrument-name>{name}</instrument-name>'
        f"<instrument-sound>{sound_id}</instrument-sound></score-instrument>"
        for number, (name, sound_id) in enumerate(listed, start=1)
    )


def test_an_instrument_is_known_by_its_sound_where_its_name_says_nothing() -> None:
    part = "<part-name>Staff</part-name>" + instruments(("A", "wind.reed.english-horn"))
    assert read_score(score(bar(), parts=(part,))).parts[0].instrument == "cor-anglais"


def test_a_change_of_instrument_is_a_doubling() -> None:
    declared = instruments(("Flute", "wind.flutes.flute"), ("Piccolo", "wind.flutes.flute.piccolo"))
    notes = "".join(f'<note><rest/><duration>2</duration><instrument id="{one}"/></note>' for one in ("I1", "I2"))
    told = read_score(score(notes, parts=("<part-name>Flute</part-name>" + declared,)))
    said = read_score(score(bar(words("muta in Ottavino")), parts=("Flute",)))
    assert (read(told.instrumentation).lines, read(said.instrumentation).lines) == (
        read("flute (=piccolo)").lines,
        read("flute (=piccolo)").lines,
    )


@pytest.mark.parametrize(
    ("part", "told", "forces"),
    [
        ("Clarinet in B♭", "muta in Ottavino", "clarinet (=piccolo flute)"),
        ("Clarinet in B♭", "take bass clarinet", "clarinet (=bass clarinet)"),
        ("Flute 1, 2", "2. muta in Ottavino", "2 flutes (II=piccolo)"),
        ("Flute 3", "3. nimmt die kleine Flöte", "flute (=piccolo)"),
        ("Oboe", "prendre le cor anglais", "oboe (=cor anglais)"),
        ("Oboe", "to the end", "oboe"),
        ("Horn in F", "muta in D", "horn"),
        ("Horns 1, 2", "1. muta in D", "2 horns"),
    ],
)
def test_a_change_told_in_words_is_what_it_says(part: str, told: str, forces: str) -> None:
    found = read_score(score(bar(words(told)), parts=(part,)))
    assert read(found.instrumentation).lines == read(forces).lines
    assert not [one for one in found.warnings if part in one]


@pytest.mark.parametrize(
    ("part", "told", "doubt"),
    [
        ("Flute", "muta in Triangolo", "“Flute” also names triangle, which is of another family"),
        ("Flute", "change to Zinken-wheel", "“Flute” changes to “Zinken-wheel”, not known as an instrument."),
        ("Flute 1, 2", "muta in Ottavino", "“Flute 1, 2” takes up piccolo; which player does is not told"),
    ],
)
def test_a_change_that_is_left_open_is_said(part: str, told: str, doubt: str) -> None:
    found = read_score(score(bar(words(told)), parts=(part,)))
    assert len([one for one in found.warnings if one.startswith(doubt)]) == 1


def test_a_part_that_is_no_known_instrument_is_named() -> None:
    found = read_score(score(bar(), parts=("Hurdy Wheel Machine", "Piano")))
    assert found.parts[0].instrument is None
    assert "Not known as an instrument: Hurdy Wheel Machine." in found.warnings


@pytest.mark.parametrize(
    ("name", "plain"),
    [
        ("Clarinet in B♭ 1, 2", ("Clarinet", 2)),
        ("Klarinette in B", ("Klarinette", 1)),
        ("Trompette en Ut", ("Trompette en Ut", 1)),
        ("Horn (F) III-IV", ("Horn", 2)),
        ("Violin II", ("Violin", 1)),
        ("4 Trombones", ("Trombones", 4)),
    ],
)
def test_chair_numbers_and_keys_are_no_part_of_a_name(name: str, plain: tuple[str, int]) -> None:
    assert without_numbers(name) == plain


def test_credits_are_read() -> None:
    head = (
        "<work><work-title>Three Kettles</work-title></work><movement-title>Boil</movement-title>"
        '<identification><creator type="composer">Ada Quill</creator><creator>Bo Reed</creator></identification>'
    )
    found = read_score(score(bar(), head=head)).to_json()
    assert (found["title"], found["movements"], found["creators"]) == (
        "Three Kettles",
        ["Boil"],
        [{"name": "Ada Quill", "type": "composer"}, {"name": "Bo Reed", "type": ""}],
    )


def test_a_timewise_score_is_read_as_a_partwise_one() -> None:
    parts = "<part-list><score-part id='A'><part-name>Flute</part-name></score-part>" + (
        "<score-part id='B'><part-name>Oboe</part-name></score-part></part-list>"
    )
    rest = "<note><rest/><duration>4</duration></note>"
    first = f"<attributes><divisions>1</divisions></attributes><sound tempo='60'/>{rest}"
    bars = f"<measure number='1'><part id='A'>{first}</part><part id='B'>{rest}</part></measure>" + (
        f"<measure number='2'><part id='A'>{rest}</part><part id='B'>{rest}</part></measure>"
    )
    found = read_score(f"<score-timewise>{parts}{bars}</score-timewise>".encode())
    assert (found.bars, found.seconds, [part.instrument for part in found.parts]) == (2, 8, ["flute", "oboe"])


@pytest.mark.parametrize("odd", ["<measure/>", "<measure><measure/></measure>"])
def test_a_bar_without_a_part_is_a_bar(odd: str) -> None:
    bar = "<measure><part id='A'><note><rest/><duration>4</duration></note></part></measure>"
    parts = "<part-list><score-part id='A'/></part-list>"

    assert read_score(f"<score-timewise>{parts}{bar}{odd}{bar}</score-timewise>".encode()).bars >= 3


def test_a_bar_lasts_as_long_as_its_longest_part() -> None:
    parts = "<part-list><score-part id='A'/><score-part id='B'/></part-list>"
    short, long = (f"<note><rest/><duration>{length}</duration></note>" for length in (1, 4))
    head = "<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>"
    body = f"<part id='A'><measure number='1'>{head}{short}</measure></part>" + (
        f"<part id='B'><measure number='1'>{head}<sound tempo='60'/>{long}</measure></part>"
    )
    assert read_score(f"<score-partwise>{parts}{body}</score-partwise>".encode()).seconds == 4


def test_the_proposed_tempo_map_lasts_as_long_as_the_score() -> None:
    bars = [
        bar(sound(tempo="60"), quarters=1),
        bar(),
        bar(FORWARD),
        bar(FIRST, after=FIRST_ENDS),
        bar(SECOND, after=SECOND_ENDS),
        bar(metronome("eighth", "144")),
    ]
    found = read_score(score(*bars))
    assert found.tempo_map == ("upbeat  1/4   q=60\n1-4     4/4   q=60\n5       4/4   q=72\nrepeat 2-3 last 3-3\n")
    assert float(timeline(read_tempo_map(found.tempo_map)).seconds) == pytest.approx(found.seconds, abs=0.001)


def test_a_proposed_tempo_map_says_what_it_cannot_hold() -> None:
    found = read_score(score(bar(sound(tempo="60"), quarters=1), bar(after=BACKWARD)))
    assert found.tempo_map.splitlines()[2:] == [
        "repeat 1-1",
        "# the upbeat, which is played again with the first repeat, is not in it",
    ]
    assert read_tempo_map(found.tempo_map)


def test_a_proposed_tempo_map_of_a_long_score_can_be_read() -> None:
    found = read_score(score(bar(sound(tempo="60")), *[bar()] * 1_000, sound(tempo="72") + bar(), *[bar()] * 2_000))
    assert len(read_tempo_map(found.tempo_map).lines) == 2


def test_no_tempo_map_is_proposed_of_more_bars_than_one_may_have() -> None:
    found = read_score(score(bar(sound(tempo="60")), *[bar()] * 9_999))
    assert (found.tempo_map, found.seconds) == ("", 40_000)
    assert "A tempo map may have 9,999 bars; none is proposed for this score." in found.warnings


def numbered(first: int, *bars: str) -> str:
    return "".join(f'<measure number="{number}">{one}</measure>' for number, one in enumerate(bars, start=first))


def test_bars_that_are_numbered_afresh_are_another_movement() -> None:
    head = METRE.format(4, 4)
    one = numbered(1, head + sound(tempo="60") + bar(), bar(), bar(after=BACKWARD))
    two = numbered(0, bar(quarters=1), sound(tempo="120") + bar(), bar(after=BACKWARD), bar())
    content = f"<score-partwise>{part_list('Flute')}<part id='P1'>{one}{two}</part></score-partwise>"
    found = read_score(content.encode())
    assert found.tempo_map.splitlines() == [
        "movement",
        "1-3     4/4   q=60",
        "repeat 1-3",
        "movement",
        "upbeat  1/4   q=60",
        "1-3     4/4   q=120",
        "repeat 1-2",
        "# the upbeat, which is played again with the first repeat, is not in it",
    ]
    assert (found.played, found.seconds) == (13, 24 + 1 + 4 + 1 + 4 + 2)
    assert len(read_tempo_map(found.tempo_map).movements) == 2
    assert "Its bars are numbered afresh: the file is read as 2 movements." in found.warnings


def moved(kind: str, divisions: int) -> str:
    return f"<{kind}><duration>{divisions}</duration></{kind}>"


@pytest.mark.parametrize(
    ("inside", "seconds"),
    [
        ("{q}{q}" + moved("backup", 4) + "{q}{q}{q}{t}{q}", 5),  # the second voice is the longer one
        ("{q}{q}{q}{t}" + moved("backup", 6) + "{q}", 3),  # a tempo at the end of what is heard first
        ("{q}" + moved("forward", 4) + "{q}{t}" + moved("backup", 99) + "{q}", 4),  # back to the bar line at most
        ("{q}<note><chord/><rest/><duration>2</duration></note>{t}{q}", 3),
        (moved("forward", 8), 4),  # nothing is heard in it: it lasts as long as it is skipped
    ],
)
def test_voices_of_a_bar_begin_where_the_file_goes_back_to(inside: str, seconds: float) -> None:
    quarter, tempo = "<note><rest/><duration>2</duration></note>", sound(tempo="30")
    voices = inside.format(q=quarter, t=tempo)
    found = read_score(score(sound(tempo="60") + voices, metre=(1, 64)))
    assert found.seconds == seconds


SEED = score(
    bar(sound(tempo="60"), FORWARD),
    bar(FIRST, after=FIRST_ENDS),
    bar(SECOND, after=SECOND_ENDS),
    bar(words("D.C. al Fine")),
    parts=("Flute 1", "Violin"),
)


def read_by(elements: Iterable[Any]) -> Score:
    reading = Reading()
    for element in elements:
        reading.take(element)
    return reading.score


@pytest.mark.parametrize("kind", ["partwise", "timewise"])
def test_a_large_score_is_read_as_a_stream_to_the_same_end(kind: str) -> None:
    content = SEED
    if kind == "timewise":
        bars = "".join(f"<measure><part id='P1'>{bar(FORWARD)}<sound tempo='6{at}'/></part></measure>" for at in "123")
        content = f"<score-timewise><part-list><score-part id='P1'/></part-list>{bars}</score-timewise>".encode()
    assert read_by(chain.from_iterable(streamed(content))) == read_by(at_once(content)) == parsed(content)


def test_a_large_score_is_read_in_steps_and_let_go_of(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parsing, "AT_ONCE", 0)
    monkeypatch.setattr(parsing, "PORTION", 400)

    steps = list(parsing.parsed_in_steps(SEED))

    assert steps == [*range(400, len(SEED), 400), len(SEED)]
    assert read_score(SEED) == read_score(compressed(SEED))


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"<score-partwise><part id='P'><measure>" + b"<note/>" * 300, "A bar of this score is longer than 0 MB"),
        (b"<letter>" + b"<note/>" * 300, "This XML is no MusicXML score"),
        (SEED[:-40], "This file was cut off"),
        (SEED.replace(b"</part>", b"</past>"), "This file is not well-formed XML"),
    ],
)
def test_a_large_file_that_is_no_sound_score_is_refused(
    content: bytes, reason: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, size in (("AT_ONCE", 0), ("PORTION", 100), ("LONGEST_BAR", 1_000)):
        monkeypatch.setattr(parsing, name, size)
    with pytest.raises(ScoreError, match=reason):
        parsed(content)


def test_a_compressed_score_is_read_by_its_container_or_without_one() -> None:
    plain = score(bar(sound(tempo="60")))
    assert read_score(compressed(plain)) == read_score(compressed(plain, container=False)) == read_score(plain)


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"", "This file is empty."),
        (b"<score-partwise><part>", "This file was cut off: it ends in line 1, before the score does."),
        (b"<score-partwise><part></score-partwise>", "This file is not well-formed XML (line 1)."),
        (
            b"%PDF-1.7",
            "By its content this file is PDF, and no score; let the notation program export the score as MusicXML.",
        ),
        (b"notes", "This file is no XML, and no score; let the notation program export the score as MusicXML."),
        (b"<html/>", "This XML is no MusicXML score: it begins with “html”, not with score-partwise."),
        (b"<score-partwise/>", "There is no part in this score."),
        (b"PK\x03\x04 nothing", "This file is damaged and cannot be unpacked."),
        (compressed(b"x", "readme.txt", container=False), "There is no score in this compressed file."),
        (
            b'<!DOCTYPE score-partwise [<!ENTITY a SYSTEM "file:///etc/hostname">]><score-partwise><part id="P">'
            b"<measure>&a;</measure></part></score-partwise>",
            "This file declares entities of its own and is not read.",
        ),
        (compressed(b"<a>" + b" " * 105_000_000), "A part of this file unpacks to more than 100 MB."),
    ],
)
def test_what_is_no_score_is_refused_with_a_reason(content: bytes, reason: str) -> None:
    with pytest.raises(ScoreError) as fault:
        read_score(content)
    assert fault.value.reason == reason


def test_a_document_type_is_no_entity() -> None:
    head = b'<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "partwise.dtd">'
    assert read_score(head + score(bar())).bars == 1


@settings(max_examples=150, deadline=None)
@example([(1, b":")], False)  # a root whose name begins with a colon
@given(st.lists(st.tuples(st.integers(0, len(SEED) - 1), st.binary(max_size=4)), max_size=6), st.booleans())
def test_a_damaged_score_is_read_or_refused(changes: list[tuple[int, bytes]], pack: bool) -> None:
    content = bytearray(SEED)
    for place, new in changes:
        content[place : place + len(new)] = new
    with contextlib.suppress(ScoreError):
        assert read_score(compressed(bytes(content)) if pack else bytes(content)).bars >= 0


def test_the_xml_of_a_plain_file_is_the_file() -> None:
    assert score_xml(SEED) == SEED
