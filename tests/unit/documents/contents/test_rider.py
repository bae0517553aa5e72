"""The technical rider: what it asks for, in which order, and what it leaves out."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

import pytest

from catalogue.documents.contents.cautions import WORDS, Caution, cautions, words_of
from catalogue.documents.contents.rider import rider, rider_lines
from catalogue.documents.contents.rider_items import rider_items
from catalogue.documents.contents.rider_words import usual
from catalogue.documents.contents.stage import stage_of
from catalogue.documents.labels import labels
from catalogue.documents.model import Document, Paper, Section, plain
from catalogue.documents.needs import DocumentNeeds
from catalogue.documents.reading_order import texts
from catalogue.facts import TimingFacts
from catalogue.instrumentation import read
from catalogue.record_facts import RetuningFacts, TuningFacts, WorkRecords
from catalogue.rules.technical.reading import read_inputs, read_places
from catalogue.rules.technical.riders import RiderFacts
from catalogue.rules.technical.terms import Need, Setup, Slot
from tests.fact_makers import make_work
from tests.reference.documents.house import COMPOSER, SENT, SETUP, TODAY, rider_of

SAYS = labels("en-GB")
SCHEDULE = "Schedule"


def heads(document: Document) -> list[str]:
    return [plain(one.head).partition("\N{EM SPACE}")[2] for one in document.blocks if isinstance(one, Section)]


def says_of(document: Document, head: str) -> str:
    section = next(one for one in document.blocks if isinstance(one, Section) and plain(one.head).endswith(head))
    return " | ".join(plain(text) for text in texts(section) if text)


def test_sections_without_anything_in_them_are_left_out_and_the_others_numbered() -> None:
    bare = rider_of(setup=None, others=(), stock=(), schedule=())
    assert heads(bare) == ["Contact", "What is needed", "Stage plan", "Cues", "Who brings what"]


@pytest.mark.parametrize(("language", "at"), [("en-GB", "14:00"), ("en-US", "2:00\xa0p.m.")])
def test_schedule_tells_the_time_as_the_language_has_it(language: str, at: str) -> None:
    schedule = (Slot("14:00", "rehearsal"), Slot("the day before", "get-in"))

    told = says_of(rider_of(language, schedule=schedule), SCHEDULE)

    assert f"{at} | rehearsal" in told
    assert "the day before | get-in" in told


def test_sections_that_stand_side_by_side_come_in_pairs() -> None:
    halves = [plain(one.head) for one in rider_of().blocks if isinstance(one, Section) and one.half]

    assert [head.partition("\N{EM SPACE}")[2] for head in halves][:2] == ["Output list", "Loudspeakers"]
    assert len(halves) % 2 == 0


def test_a_rider_under_a_motto_names_neither_the_composer_nor_whom_to_ask() -> None:
    named, hidden = rider_of(), rider_of(motto="Grey Heron")
    told = " ".join(plain(text) for block in hidden.blocks for text in texts(block))

    assert "Quill" not in f"{told} {hidden.author} {' '.join(map(plain, hidden.running))}"
    assert hidden.author == "Grey Heron"
    assert "One contact | Grey Heron | Presenter" in says_of(hidden, "Contact")
    assert heads(hidden) == heads(named)


def test_a_work_that_needs_nothing_has_no_rider() -> None:
    work = make_work(instrumentation=None)
    with pytest.raises(DocumentNeeds, match="Nothing is noted yet"):
        rider(
            work, TimingFacts(1), RiderFacts(WorkRecords(1)), COMPOSER, language="en", paper=Paper.A4, printed_on=TODAY
        )


def test_a_revision_is_compared_with_what_it_said_itself() -> None:
    lines = rider_lines(rider_of())
    assert "4 loudspeakers; full range, alike; such as any eight-inch two-way; presenter" in lines["What is needed"]
    assert set(lines) >= {"Input list", "Output list", "Loudspeakers", "Schedule", "Cues"}


def test_differences_are_told_only_in_the_language_of_the_revision_before() -> None:
    assert "Different since the last revision" in heads(rider_of(sent=SENT))
    assert "Anders als in der letzten Fassung" not in heads(rider_of("de", sent=SENT))
    assert "Nothing is different" in says_of(
        rider_of(sent=replace(SENT, lists=rider_lines(rider_of()))), "Different since the last revision"
    )


def test_what_the_hall_lists_is_not_lacking() -> None:
    told = says_of(rider_of(), "Not on the list of the hall")
    assert "loudspeakers | 4 | 2" in told
    assert "mixing desk" not in told


def test_cautions_follow_from_what_is_used() -> None:
    told = says_of(rider_of(), "Cautions")
    assert [head for head, *_words in WORDS.values() if f"| {head} | " in told] == [
        "Hearing",
        "In-ears and click",
        "Phantom power",
        "Mains",
        "Rigging",
        "Cables and darkness",
    ]
    assert "About 92 dB(A) at the desk for 20 s" in told


def test_flashing_light_is_told_with_its_caution() -> None:
    told = says_of(rider_of(setup=replace(SETUP, flashing="two flashes a second for 10 s at bar 40")), "Cautions")
    assert (
        "Flashing light | Two flashes a second for 10 s at bar 40. Rate, length and place are told beforehand" in told
    )


def test_what_gets_hot_is_told_with_its_caution() -> None:
    hot = replace(SETUP, equipment=(*SETUP.equipment, Need("forty kettles", 40, "on stoves")))
    assert "Hot equipment | What gets hot" in says_of(rider_of(setup=hot), "Cautions")


def test_no_caution_promises_safety_and_limits_are_named_with_period_and_source() -> None:
    told = words_of(Caution.HEARING, SAYS)
    assert "never a target" in told
    assert "NIOSH 85 dB(A) averaged over 8 hours, exchange rate 3 dB; OSHA 90 dB(A) over 8 hours, 5 dB" in told
    assert "ITU-T H.870 80 dB(A) for 40 hours a week; WHO for venues 100 dB(A) averaged over 15 minutes" in told
    assert not [topic for topic in Caution if re.search(r"\bis safe\b(?<!that a level is safe)", words_of(topic, SAYS))]


def test_each_caution_is_printed_once_in_the_usual_order() -> None:
    found = cautions((Caution.TRIP, Caution.MAINS, Caution.TRIP), SAYS)
    assert [plain(pair.label) for one in found for pair in one.groups[0]] == ["Mains", "Cables and darkness"]


def test_singers_players_off_stage_pitch_and_preparation_are_asked_for() -> None:
    work = make_work(instrumentation=read("S, narr, 2vn – off-stage tpt"), text_language="fr")
    records = WorkRecords(
        1,
        tunings=(TuningFacts(1, "house pitch", reference_note="a′", reference_hertz=Decimal(442)),),
        retunings=(RetuningFacts(1, "piano", preparation="bolts between d and f"),),
    )
    items = rider_items(work, RiderFacts(records), SAYS)
    assert {item.group for item in items} >= {
        "Sung and spoken parts",
        "Off stage",
        "Tuning and preparation",
        "Stage",
    }
    assert "bolts between d and f" in {item.detail for item in items}
    assert "sung; French" in {item.detail for item in items}


def test_a_player_with_a_place_of_its_own_stands_there_and_the_others_by_section() -> None:
    setup = Setup(1, "x", places=read_places("viola; 3; 1.5; 4\nlamp post; 0; 5"))
    stage = stage_of(read("2vn, va, vc"), setup, SAYS)
    assert stage is not None
    found = {one.name: (one.x, one.y, one.channels) for one in stage.things}
    assert found["viola"] == (3, 1.5, "4")
    assert found["lamp post"] == (0, 5, "")
    assert len(found) == 5


def test_a_place_is_known_whatever_the_language_of_the_rider() -> None:
    setup = Setup(1, "x", places=read_places("violin 2; 1; 2"), inputs=read_inputs("4; viola, bridge; contact"))
    stage = stage_of(read("2vn, va, vc"), setup, labels("de"))

    assert stage is not None
    assert [one.name for one in stage.things] == ["Violine 1", "Violine 2", "Viola", "Violoncello"]
    assert (stage.things[1].x, stage.things[1].y, stage.things[2].channels) == (1, 2, "4")


def test_nothing_stands_on_a_stage_of_which_nothing_is_known() -> None:
    assert stage_of(None, None, SAYS) is None


def test_a_french_rider_leaves_a_space_before_its_signs_and_every_language_has_its_decimal_sign() -> None:
    # Lexique des règles typographiques en usage à l'Imprimerie nationale: a no-break space before ; and :
    said = replace(SETUP, description="")
    french = " | ".join(plain(text) for block in rider_of("fr", setup=said).blocks for text in texts(block))
    assert len(re.findall("\N{NO-BREAK SPACE};", french)) > 10
    assert re.findall("[^\N{NO-BREAK SPACE}];", french) == []

    german = says_of(rider_of("de", setup=replace(SETUP, latency_ms=Decimal("6.50"))), "Zuspielung und Zusammenspiel")
    assert "6,5 ms" in german


def test_usual_words_of_lists_are_printed_in_the_language_of_the_rider_and_others_as_typed() -> None:
    assert usual("line, balanced", labels("de")) == "Leitung, symmetrisch"
    assert usual("front left", labels("fr")) == "avant gauche"
    assert usual("radio in the lamp post, click", labels("de")) == "radio in the lamp post, Klick"


def test_singers_stand_in_front_and_strings_before_winds_and_brass_where_somebody_conducts() -> None:
    stage = stage_of(read("S, Bar, 1.1.1.1 - 1.1.1.0 - str(1.1.1.1.1)"), None, SAYS)
    assert stage is not None
    back = {one.name: one.y for one in stage.things}

    assert back["soprano"] == back["baritone"] < back["violin I"]
    assert back["viola"] < back["oboe"] < back["trumpet"]
    assert [one.number for one in stage.things if one.mark == "player"] == [str(one) for one in range(1, 15)]
