"""Scores of the invented composer with all that can stand before the music, and what must not be printed there."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from catalogue.documents.contents.front_matter import front_matter
from catalogue.documents.contents.history import Hearing
from catalogue.documents.contents.programme_entry import Written, programme_entry
from catalogue.documents.model import Document, Paper
from catalogue.facts import (
    CommissionFacts,
    ComposerFacts,
    MovementFacts,
    PerformerFacts,
    ProgrammedFacts,
    TitleFacts,
    WorkFacts,
)
from catalogue.instrumentation import read
from catalogue.record_facts import (
    EditionFacts,
    PercussionFacts,
    PerformanceNoteFacts,
    ProgrammeNoteFacts,
    RetuningFacts,
    SignFacts,
    TextSourceFacts,
    TuningFacts,
    WorkRecords,
)
from catalogue.rules.premieres import Claim
from catalogue.rules.technical.reading import read_inputs, read_needs, read_outputs, read_places
from catalogue.rules.technical.terms import Setup
from catalogue.terms import (
    AccidentalRule,
    Category,
    Clearance,
    EditionKind,
    LayoutName,
    NoteLength,
    NotePurpose,
    PerformerRole,
    ScorePitch,
    SignGroup,
    Synchronisation,
)
from catalogue.timing import Duration, PartialDate
from tests.fact_makers import make_event, make_venue, make_work

TODAY = date(2026, 3, 14)
COMPOSER = ComposerFacts(
    id=1, slug="ada-quill", name="Ada Quill", sort_name="Quill, Ada", website="https://quill.example"
)
FORCES = "3(III=picc).2.2.2 – 4.2.3.1 – timp.perc(2) – hp – str(12.10.8.6.4)"
HERRING_ROADS = make_work(
    21,
    "Herring Roads",
    category=Category.ORCHESTRA,
    completed=PartialDate(2024),
    instrumentation=read(FORCES),
    instrumentation_text=FORCES,
    duration=Duration(1260, approximate=True),
    movements=(
        MovementFacts(1, "Nets Out", Duration(490)),
        MovementFacts(2, "Waiting", Duration(290), attacca=True),
        MovementFacts(3, "Silver", Duration(480)),
    ),
    commissions=(CommissionFacts("Dock Sinfonia", "Leith", "Slipway Trust"),),
    dedication="to the cooper",
    parts_on_hire=True,
)
RECORDS = WorkRecords(
    21,
    programme_notes=(
        ProgrammeNoteFacts(1, "The roads are of water, and nobody sees them twice.\n\nThe nets do.", NoteLength.SHORT),
    ),
    performance_notes=(
        PerformanceNoteFacts(1, "Two percussionists stand apart, left and right.", "Placing"),
        PerformanceNoteFacts(2, "Play the silver passages slowly with a drone first.", "Silver", "violins",
                             first_at="bar 201", purpose=NotePurpose.PRACTISING),
        PerformanceNoteFacts(3, "Bring the drone in under the first horn.", "Drone", purpose=NotePurpose.OPERATING),
        PerformanceNoteFacts(4, "Zwei Schlagzeuger stehen getrennt.", "Aufstellung", language="de"),
    ),
    percussion=(
        PercussionFacts(1, 1, "bass drum", shared_with="player 2"),
        PercussionFacts(2, 1, "triangles", number=3, size="15 to 25 cm"),
        PercussionFacts(3, 2, "vibraphone", compass="3 octaves", beaters="bow", needs_power=True),
    ),
    signs=(
        SignFacts(1, SignGroup.ACCIDENTAL, "quarter-tone sharp", "accidentalQuarterToneSharpStein", Decimal(50),
                  first_at="bar 3", system="Stein-Zimmermann"),
        SignFacts(2, SignGroup.TECHNIQUE, "crossed stem", meaning="Strike the string with the palm.",
                  concerns="strings", first_at="bar 31"),
    ),
    tunings=(TuningFacts(1, "24 equal divisions", 24, "A4", Decimal("442.000")),),
    retunings=(RetuningFacts(1, "double bass, string IV", "B0", Decimal("-500.000"), "as fingered"),),
    editions=(
        EditionFacts(1, EditionKind.PARTS, on_hire=True, publisher_email="hire@lockgate.example"),
        EditionFacts(
            2, EditionKind.FULL_SCORE, ScorePitch.TRANSPOSED, AccidentalRule.BAR, "Lock Gate Editions",
            "4 Ropewalk\nWapping", number="LG 21", ismn="979-0-9999901-3-0", printing="Second printing, February 2026",
            copyright_line="© 2024 Ada Quill",
        ),
    ),
)  # fmt: skip
SETUP = Setup(
    id=1,
    name="As meant",
    description="One drone from the back of the hall.",
    synchronisation=Synchronisation.OPERATOR,
    inputs=read_inputs("1; horn 1; clip condenser; 48 V; to live; composer"),
    outputs=read_outputs("1-2; front pair; drone; presenter"),
    layout=LayoutName.STEREO,
    equipment=read_needs("2 loudspeakers; full range; such as any eight-inch two-way; presenter"),
    places=read_places("harp; -4; 3\nmonitor; 0; 1"),
    loudest="about 90 dB(A) at the desk for 20 s, averaged over them",
    documented=PartialDate(2026, 1),
)
FIRST = make_event(
    1,
    "2024-09-21",
    ProgrammedFacts(1, 21),
    venue=make_venue("Dock Hall", city="Leith"),
    city="Leith",
    performers=(PerformerFacts("Dock Sinfonia", PerformerRole.ENSEMBLE),),
)
HEARD = (Hearing(FIRST, FIRST.programme[0], PartialDate(2024, 9, 21), Claim(("world",), proved=True)),)
SONG = replace(
    make_work(22, "Ebbsang", category=Category.VOICE),
    title=TitleFacts("Ebbsang", "da", translated="Ebb Song"),
    instrumentation=read("S, pf"),
    instrumentation_text="S, pf",
    duration=Duration(240),
    text_author="Jon Aske",
    text_language="da",
)
EBB = TextSourceFacts(
    1,
    "Jon Aske",
    "Ebbe",
    language="da",
    translator="Mira Oxley",
    clearance=Clearance.GRANTED,
    expires=PartialDate(2030),
    credit="Words by kind permission of the author.",
    body="Vandet går,\nvandet ler.\n\nIngen ser det mer.",
    translation="The water goes,\nthe water laughs.\n\nNobody sees it again.",
    translation_language="en",
    translation_clearance=Clearance.OWN_TEXT,
)
SONG_RECORDS = WorkRecords(22, text_sources=(EBB,))


def score(language: str = "en-GB", paper: Paper = Paper.A3, **changed: Any) -> Document:
    told: dict[str, Any] = {"records": RECORDS, "setups": (SETUP,), "heard": HEARD, **changed}
    return front_matter(HERRING_ROADS, COMPOSER, language=language, paper=paper, printed_on=TODAY, **told)


def song(work: WorkFacts = SONG, today: date = TODAY, **changed: Any) -> Document:
    """The song with its words; ``changed`` is what its text says otherwise."""
    records = replace(SONG_RECORDS, text_sources=(replace(EBB, **changed),))
    return front_matter(work, COMPOSER, records=records, language="en-GB", paper=Paper.A4, printed_on=today)


def song_entry(**changed: Any) -> Document:
    """The song in a programme book; ``changed`` is what its text says otherwise."""
    return programme_entry(
        SONG,
        COMPOSER,
        written=Written(texts=(replace(EBB, **changed),)),
        language="en-GB",
        paper=Paper.A4,
        printed_on=TODAY,
    )


SCORES = {
    "entry-of-a-song": song_entry,
    "front-matter": score,
    "front-matter-american": lambda: score("en-US", Paper.TEN_BY_THIRTEEN),
    "front-matter-german": lambda: score("de", Paper.B4),
    "front-matter-of-a-song": song,
}
