"""The facts that the expected documents are made from: one invented composer with works of every kind.

Withdrawn and juvenile works, events that were cancelled and facts that are unknown are among them, so that what must be
left out could be seen if it were not.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, time
from typing import Any

from catalogue.documents.contents.cue_sheet import cue_sheet
from catalogue.documents.contents.cv_section import cv_section
from catalogue.documents.contents.history import hearings
from catalogue.documents.contents.parts_checklist import Hire, Setting, parts_checklist
from catalogue.documents.contents.performance_history import performance_history
from catalogue.documents.contents.performance_return import Member, performance_return
from catalogue.documents.contents.press_sheet import press_sheet
from catalogue.documents.contents.programme_entry import Room, Written, programme_entry
from catalogue.documents.contents.prose import Prose
from catalogue.documents.contents.rider import rider
from catalogue.documents.contents.selection import Chosen
from catalogue.documents.contents.works_list import WHOLE, Telling, works_list
from catalogue.documents.model import Block, Document, Figure, Legend, Paper, Section, Text
from catalogue.documents.reading_order import texts
from catalogue.facts import (
    CatalogueFacts,
    CommissionFacts,
    ComposerFacts,
    CueFacts,
    MovementFacts,
    PerformanceFacts,
    PerformerFacts,
    ProgrammedFacts,
    RecordingFacts,
    TimingFacts,
    TitleFacts,
    WorkFacts,
)
from catalogue.instrumentation import Chair, Instrumentation, Line, read
from catalogue.record_facts import AwardFacts, PercussionFacts, WorkRecords
from catalogue.rules.premieres import claims_by_programmed
from catalogue.rules.technical.reading import (
    read_inputs,
    read_media,
    read_needs,
    read_outputs,
    read_places,
    read_schedule,
    read_software,
    read_speakers,
    read_staff,
)
from catalogue.rules.technical.riders import RiderFacts, Sent
from catalogue.rules.technical.terms import Setup
from catalogue.terms import (
    Category,
    LayoutName,
    PerformanceKind,
    PerformanceStatus,
    PerformerRole,
    SetupKind,
    Synchronisation,
    WorkStatus,
)
from catalogue.timing import Duration, PartialDate
from tests.fact_makers import make_event, make_venue, make_work
from tests.reference.documents.hired import HIRED
from tests.reference.documents.scores import SCORES

TODAY = date(2026, 3, 14)
COMPOSER = ComposerFacts(
    id=1,
    slug="ada-quill",
    name="Ada Quill",
    sort_name="Quill, Ada",
    email="ada@quill.example",
    telephone="+00 000 0417",
)


def work(id_: int, title: str | TitleFacts, **fields: Any) -> WorkFacts:
    named = title if isinstance(title, TitleFacts) else TitleFacts(title)
    return replace(make_work(id_, **fields), title=named)


def minutes(number: int, *, about: bool = True) -> Duration:
    return Duration(60 * number, about)


def strings(*players: int | None) -> tuple[Line, ...]:
    sections = ("violin-1", "violin-2", "viola", "cello", "double-bass")
    return tuple(
        Line(slug, "strings", None if count is None else (count, count), unit="players")
        for slug, count in zip(sections, players, strict=True)
    )


def section(slug: str, family: str, players: int, *chairs: Chair, **fields: Any) -> Line:
    return Line(slug, family, (players, players), chairs=chairs, **fields)


def played_by(*names: str, conductor: str = "", soloist: str = "") -> tuple[PerformerFacts, ...]:
    people = [PerformerFacts(soloist, PerformerRole.SOLOIST)] if soloist else []
    people += [PerformerFacts(name, PerformerRole.ENSEMBLE) for name in names]
    return (*people, *([PerformerFacts(conductor, PerformerRole.CONDUCTOR)] if conductor else []))


WINDS = (
    section("flute", "woodwind", 3, Chair(3, ("flute", "piccolo"))),
    section("oboe", "woodwind", 2),
    section("clarinet", "woodwind", 2, Chair(2, ("clarinet", "bass-clarinet"))),
    section("bassoon", "woodwind", 2),
    section("horn", "brass", 4),
    section("trumpet", "brass", 2),
    section("trombone", "brass", 3, Chair(3, ("bass-trombone",))),
    section("timpani", "percussion", 1),
    section("percussion", "percussion", 2),
    section("harp", "plucked", 1),
)

SLACK_WATER = work(
    1,
    "Slack Rope",
    completed=PartialDate(2024),
    revised=PartialDate(2025),
    catalogue_number="31",
    instrumentation=Instrumentation((*WINDS, *strings(14, 12, 10, 8, 5)), "…"),
    instrumentation_text="3(III=picc).2.2(II=bcl).2 – 4.2.3.0 – timp.perc(2) – hp – str(14.12.10.8.5)",
    duration=minutes(19),
    movements=(MovementFacts(1, "Ebb"), MovementFacts(2, "Slack"), MovementFacts(3, "Flood")),
    commissions=(CommissionFacts("Kornmarkt Philharmonic", "Linz", "Sandglass Trust"),),
    publisher="Lock Gate Editions",
    ismn="979-0-9999-0131-0",
    parts_on_hire=True,
)
STONE_AND_WATER = work(
    2,
    TitleFacts("Ḥajar wa-māʾ", original="حجر وماء", original_language="ar", translated="Stone and Water"),
    completed=PartialDate(2022),
    category=Category.LARGE_ENSEMBLE,
    catalogue_number="27",
    instrumentation=Instrumentation(
        (
            section("flute", "woodwind", 1, Chair(1, ("flute", "alto-flute"))),
            section("clarinet", "woodwind", 1),
            section("horn", "brass", 1),
            section("percussion", "percussion", 2),
            section("piano", "keyboard", 1),
            *strings(1, 1, 1, 1, 1),
        )
    ),
    instrumentation_text="1(=afl).0.1.0 – 1.0.0.0 – perc(2) – pf – str(1.1.1.1.1)",
    duration=minutes(14),
    commissions=(CommissionFacts("Ensemble Nordlicht"), CommissionFacts("Haus am Wehr", "Graz", "Sandglass Trust")),
)
QUARTET = work(
    3,
    "String Quartet No. 2",
    completed=PartialDate(2020, 6),
    category=Category.CHAMBER,
    catalogue_number="22",
    instrumentation=Instrumentation(
        (section("violin", "strings", 2), section("viola", "strings", 1), section("cello", "strings", 1))
    ),
    instrumentation_text="2vn.va.vc",
    duration=minutes(21, about=False),
    commissions=(CommissionFacts("Wehr Quartet"),),
    publisher="Lock Gate Editions",
)
TWO_BANKS = work(
    4,
    TitleFacts("Два берега", language="ru", translated="Two Banks"),
    completed=PartialDate(2019),
    category=Category.CHOIR,
    instrumentation=Instrumentation(
        (
            Line("choir-soprano", "voice", None, parts=2),
            Line("choir-alto", "voice", None, parts=2),
            Line("choir-tenor", "voice", None),
            Line("choir-bass", "voice", None),
            section("organ", "keyboard", 1),
        )
    ),
    instrumentation_text="choir(SSAATB) – org",
    duration=minutes(9),
    text_author="Lida Moroshkina",
    text_language="ru",
)
CONCERTO = work(
    5,
    "Weir",
    completed=PartialDate(2023),
    category=Category.SOLOIST_AND_ORCHESTRA,
    instrumentation=Instrumentation(
        (Line("viola", "strings", role="soloist"), *strings(None, None, None, None, None)), "solo va – str"
    ),
    instrumentation_text="solo va – str",
    dedication="Tomas Ferrand",
)
FERROUS = work(
    6,
    "Ferrous Choir",
    begun=PartialDate(2011),
    completed=PartialDate(2016),
    category=Category.ELECTRONICS,
    instrumentation=Instrumentation(
        (Line("bass-clarinet", "woodwind"), Line("live-electronics", "electronics")), electronics="live"
    ),
    instrumentation_text="bcl – live electronics",
    duration=minutes(12),
)
UNREAD = work(
    7,
    "For the Lock Keeper",
    category=Category.OTHER,
    instrumentation_typed="2 foghorns (tuned?), and whoever is on the quay",
)
STUDY = work(
    8,
    "Sluice",
    completed=PartialDate(2018, circa=True),
    category=Category.SOLO,
    instrumentation=Instrumentation((Line("violin", "strings"),)),
    instrumentation_text="vn",
    duration=Duration(270),
)
WITHDRAWN = work(9, "Withdrawn Piece", completed=PartialDate(2012), status=WorkStatus.WITHDRAWN)
JUVENILE = work(10, "Juvenile Piece", completed=PartialDate(2001), status=WorkStatus.JUVENILE)

LINZ_HALL = make_venue("Kornspeicher")
OSAKA_HALL = make_venue("Wharf Hall", id=2, city="Osaka", country="JP")

PERFORMANCES: tuple[PerformanceFacts, ...] = (
    make_event(
        1,
        "2024-09-21",
        ProgrammedFacts(1, 1),
        venue=LINZ_HALL,
        performers=played_by("Kornmarkt Philharmonic", conductor="Ilse Brandvik"),
    ),
    make_event(
        2,
        "2025-02-07",
        ProgrammedFacts(2, 1),
        venue=OSAKA_HALL,
        city="Osaka",
        country="JP",
        performers=played_by("Kornmarkt Philharmonic", conductor="Ilse Brandvik"),
    ),
    make_event(
        3,
        "2026-05-16",
        ProgrammedFacts(3, 1),
        venue=make_venue("Dock Hall", id=3, city="Leith", country="GB"),
        city="Leith",
        country="GB",
        presenter="Leith Dock Concerts",
        status=PerformanceStatus.CONFIRMED,
        performers=played_by("Dock Sinfonia"),
        string_strengths=(10, 8, 6, 5, 4),
    ),
    make_event(4, "2022-03-04", ProgrammedFacts(4, 2), kind=PerformanceKind.BROADCAST),
    make_event(5, "2022-10-16", ProgrammedFacts(5, 2), venue=LINZ_HALL, performers=played_by("Ensemble Nordlicht")),
    make_event(6, "2020-11-02", ProgrammedFacts(6, 3), city="Graz", performers=played_by("Wehr Quartet")),
    make_event(7, "2020-11-04", ProgrammedFacts(7, 3), city="Graz", performers=played_by("Wehr Quartet")),
    make_event(8, "2020-11-07", ProgrammedFacts(8, 3), city="Graz", performers=played_by("Wehr Quartet")),
    make_event(9, "2019", ProgrammedFacts(9, 4), city="Riga", country="LV", performers=played_by("Quayside Choir")),
    make_event(
        10,
        "2023-06-01",
        ProgrammedFacts(10, 5),
        status=PerformanceStatus.CANCELLED,
        performers=played_by("Cancelled Players"),
    ),
    make_event(11, "2012-05-05", ProgrammedFacts(11, 9), performers=played_by("Withdrawn Players")),
)

CATALOGUE = CatalogueFacts(
    composer=COMPOSER,
    works=(
        SLACK_WATER,
        STONE_AND_WATER,
        QUARTET,
        TWO_BANKS,
        CONCERTO,
        FERROUS,
        UNREAD,
        STUDY,
        WITHDRAWN,
        JUVENILE,
    ),
    performances=PERFORMANCES,
    recordings=(RecordingFacts(3, "Wehr Quartet", "Ballast", "BAL 17", PartialDate(2021)),),
)
CLAIMS = claims_by_programmed(CATALOGUE, today=TODAY)


def works_by(by: str, language: str = "en-GB", paper: Paper = Paper.A4, telling: Telling = WHOLE) -> Document:
    return works_list(
        CATALOGUE, by=by, language=language, paper=paper, printed_on=TODAY, claims=CLAIMS, telling=telling
    )  # type: ignore[arg-type]


EVERYTHING = Chosen()


AWARDS = (
    AwardFacts(1, "Lock Keepers’ Prize", "first prize", PartialDate(2021), "Board of the Two Banks", "Graz", work_id=3),
    AwardFacts(2, "Ballast Fellowship", date=PartialDate(2019)),
    AwardFacts(3, "Early Medal", date=PartialDate(2012)),
)


def cv(choice: Chosen = EVERYTHING, language: str = "en-GB", awards: tuple[AwardFacts, ...] = ()) -> Document:
    return cv_section(
        CATALOGUE,
        choice=choice,
        language=language,
        paper=Paper.A4,
        printed_on=TODAY,
        claims=CLAIMS,
        awards=awards,
    )


def checklist(work: WorkFacts = SLACK_WATER, language: str = "en-GB", **fields: Any) -> Document:
    paper = Paper.LETTER if language == "en-US" else Paper.A4
    return parts_checklist(work, COMPOSER, language=language, paper=paper, printed_on=TODAY, **fields)


NOTE = Prose(
    "A slack rope holds nothing and is ready for everything. The harbour master of my childhood knew eleven words for "
    "it.\n\nThe three movements follow one tide. In the second nothing happens, at length.\n\nThe flood has the last "
    "word.",
    "en",
)
GERMAN_NOTE = Prose("Ein schlaffes Seil hält nichts und ist zu allem bereit.", "de", "Rolf Anders Uferland")
LIFE = Prose("Ada Quill lives beside a lock. She writes slowly.", "en")


ROOM = Room()


def entry(language: str = "en-GB", performance: int | None = None, room: Room = ROOM) -> Document:
    return programme_entry(
        SLACK_WATER,
        replace(COMPOSER, born=PartialDate(1981), birthplace="Wapping"),
        written=Written((NOTE, GERMAN_NOTE), (LIFE,), ("Printed by kind permission of the Lock Gate Editions.",)),
        heard=hearings(CATALOGUE, CLAIMS)[1],
        performance=performance,
        room=room,
        language=language,
        paper=Paper.A4,
        printed_on=TODAY,
    )


def history(choice: Chosen = EVERYTHING, language: str = "en-GB") -> Document:
    return performance_history(
        CATALOGUE, choice=choice, language=language, paper=Paper.A4, printed_on=TODAY, claims=CLAIMS
    )


def timed(event: PerformanceFacts) -> PerformanceFacts:
    """The event with how long each work lasted."""
    lasted = tuple(replace(one, duration=one.duration or Duration(1300)) for one in event.programme)
    return replace(event, programme=lasted, time=time(19, 30))


def returned(language: str = "en-GB", year: int = 2024, **fields: Any) -> Document:
    catalogue = replace(
        CATALOGUE,
        composer=replace(COMPOSER, ipi="00999010417"),
        performances=tuple(timed(event) if event.id != 2 else event for event in PERFORMANCES),
    )
    return performance_return(
        catalogue,
        first=date(year, 1, 1),
        last=date(year + 1, 12, 31),
        language=language,
        paper=Paper.LETTER if language == "en-US" else Paper.A4,
        printed_on=TODAY,
        **fields,
    )


def press(choice: Chosen = EVERYTHING, language: str = "en-GB") -> Document:
    return press_sheet(
        CATALOGUE,
        lives=(LIFE,),
        choice=choice,
        language=language,
        paper=Paper.A4,
        printed_on=TODAY,
        claims=CLAIMS,
    )


HIRE = Hire("Dock Sinfonia, Leith", "2", date(2026, 3, 2), date(2026, 6, 5), "courier")
LEITH = (PERFORMANCES[2],)

TIMING = TimingFacts(
    work_id=6,
    tempo_map=(
        'movement "Lamp"\n1-16 4/4 q=72\n17-24 7/8 e=144\n25 free 45\n'
        'attacca\nmovement "Static"\n1-32 3/4 q=60 > q=92\nrepeat 1-8\n'
    ),
    dated=date(2026, 1, 20),
    cues=(
        CueFacts("T", "", "Open file, check eight channels", "tone-8ch.wav", Duration(40), "E"),
        CueFacts("1", "1:1.1", "Drone fades in over 12 s", "01-drone.wav", Duration(178), "E"),
        CueFacts("3", "1:25.1", "Drone alone", "continues", None, "C", "end on sign"),
        CueFacts("2", "1:17.3", "Flute into slow delay", "live", None, "E"),
        CueFacts("4", "2:1.1@2", "Noise turns clockwise", "04-noise.wav", Duration(90), "E"),
        CueFacts("5", "2:99.1", "Everything off", "off", None, "E"),
    ),
    letters="E electronics, C conductor",
)


def texts_without_figures(document: Document) -> list[Text]:
    """Every text but those that stand at a drawing: what a form that cannot draw has to say all the same."""
    drawn = {text for block in every(document.blocks) if isinstance(block, (Figure, Legend)) for text in texts(block)}
    drawn |= {block.head for block in every(document.blocks) if isinstance(block, Section) and block.key}
    return [text for block in document.blocks for text in texts(block) if text not in drawn]


def every(blocks: Iterable[Block]) -> Iterator[Block]:
    for block in blocks:
        yield block
        if isinstance(block, Section):
            yield from every(block.blocks)


def cues(
    timing: TimingFacts = TIMING, language: str = "en-GB", paper: Paper = Paper.A4, *, pocket: bool = False
) -> Document:
    return cue_sheet(FERROUS, timing, COMPOSER, language=language, paper=paper, printed_on=TODAY, pocket=pocket)


SETUP = Setup(
    id=1,
    name="As meant",
    fixed_media=True,
    live_processing=True,
    description="Five microphones feed the harbour; the harbour answers.",
    synchronisation=Synchronisation.CLICK,
    synchronisation_note="the conductor alone hears it",
    inputs=read_inputs(
        "1; bass clarinet; clip condenser; 48 V; to live; composer\n"
        "2; harp; small condenser; boom; 48 V; to hall; presenter\n"
        "3-4; computer: harbour; line, balanced; to hall; composer"
    ),
    outputs=read_outputs(
        "1-4; ring; harbour; presenter\n5; in-ear, conductor; click; for conductor; composer\n6; subwoofer; low; hall"
    ),
    layout=LayoutName.OWN,
    own_speakers=read_speakers("front left; -45\nfront right; 45\nrear left; -135\nrear right; 135; 20\nsub; low"),
    equipment=read_needs(
        "Sound:\n4 loudspeakers; full range, alike; such as any eight-inch two-way; presenter\nmixing desk; 8 inputs"
    ),
    software=read_software("Harbour patch; 3.1; processing; composer"),
    media=read_media("harbour.wav; 4 channels; 48 kHz; 24 bit; 2:58; the harbour"),
    sample_rate=48_000,
    bit_depth=24,
    staff=read_staff("sound engineer; whole day; presenter"),
    places=read_places("bass clarinet; -2; 2\nmonitor; 0; 1\npower; 3; 5"),
    power="One 16 A supply.",
    loudest="about 92 dB(A) at the desk for 20 s, averaged over them, measured in Leith",
    when_it_fails="Go on from letter F.",
    documented=PartialDate(2026, 1),
)
STEREO = Setup(id=2, name="Stereo", kind=SetupKind.REDUCED, differs="Two loudspeakers, no harbour behind.")
RIDER = RiderFacts(
    records=WorkRecords(6, percussion=(PercussionFacts(1, 1, "bell plate", size="60 cm", provided_by="presenter"),)),
    setup=SETUP,
    others=(STEREO,),
    contact_name="Kit Arran",
    contact_email="kit@example.org",
    contact_telephone="+44 131 496 0000",
    equipment=read_needs("2 towels; presenter"),
    schedule=read_schedule("14:00; rehearsal with electronics\n19:30; performance"),
    hall="Dock Hall",
    stock=read_needs("2 loudspeakers\nmixing desk; 16 inputs"),
)
SENT = Sent(1, date(2026, 1, 12), "en-GB", {"Schedule": ("14:00; rehearsal", "19:30; performance")})


def rider_of(language: str = "en-GB", motto: str | None = None, **changed: Any) -> Document:
    facts = replace(RIDER, **changed)
    return rider(
        FERROUS,
        TIMING,
        facts,
        COMPOSER,
        performance=PERFORMANCES[2],
        language=language,
        paper=Paper.A4,
        printed_on=TODAY,
        motto=motto,
    )


DOCUMENTS = {
    **SCORES,
    **HIRED,
    "rider": rider_of,
    "rider-again": lambda: rider_of(sent=SENT),
    "rider-german": lambda: rider_of("de"),
    "rider-without-electronics": lambda: rider_of(setup=None, others=(), stock=(), contact_name=""),
    "works-by-category": lambda: works_by("category"),
    "works-by-category-german": lambda: works_by("category", "de"),
    "works-by-year": lambda: works_by("year"),
    "works-by-year-american": lambda: works_by("year", "en-US", Paper.LETTER),
    "works-by-forces": lambda: works_by("forces", telling=Telling("medium", indexed=True)),
    "works-by-duration-spanish": lambda: works_by("duration", "es", telling=Telling("short")),
    "works-for-a-quintet": lambda: works_by("category", telling=Telling("short", available=read("2vn, va, vc, bcl"))),
    "works-by-rising-years": lambda: works_by("year", telling=Telling(rising=True)),
    "cv": cv,
    "cv-of-two-lines": lambda: cv(Chosen(most=2), awards=AWARDS),
    "cv-of-two-years": lambda: cv(Chosen(date(2020, 1, 1), date(2022, 12, 31))),
    "parts-of-a-work": checklist,
    "parts-for-a-performance": lambda: checklist(performances=LEITH, hire=HIRE),
    "parts-american": lambda: checklist(language="en-US", performances=LEITH, hire=HIRE),
    "parts-by-default-strengths": lambda: checklist(
        CONCERTO, setting=Setting((6, 5, 4, 3, 2), frozenset({"double-bass"}), extra=1)
    ),
    "entry": entry,
    "entry-of-a-performance": lambda: entry(performance=2, room=Room(note=22, life=6)),
    "entry-german": lambda: entry("de"),
    "history": history,
    "history-of-a-work": lambda: history(Chosen(works=frozenset((3,)))),
    "history-french": lambda: history(Chosen(first=date(2022, 1, 1)), "fr"),
    "return": lambda: returned(member=Member("Society of the Two Banks", "Q-0417", date(2026, 6, 30))),
    "return-american": lambda: returned("en-US", 2022),
    "press": press,
    "press-of-a-work": lambda: press(Chosen(works=frozenset((1,))), "it"),
    "cues": cues,
    "cues-american": lambda: cues(language="en-US", paper=Paper.LETTER),
    "cues-german": lambda: cues(language="de"),
    "cues-for-the-pocket": lambda: cues(pocket=True),
    "cues-without-a-map": lambda: cues(replace(TIMING, tempo_map="")),
}


def even(text: str) -> str:
    """The text without regard to which of its spaces hold a line together."""
    return text.replace("\N{NO-BREAK SPACE}", " ")
