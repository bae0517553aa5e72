"""Catalogues of any size for measuring, all invented, the same each time; no chance is involved."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from uuid import UUID

from catalogue.facts import (
    CatalogueFacts,
    ComposerFacts,
    PerformanceFacts,
    PerformerFacts,
    ProgrammedFacts,
    TitleFacts,
    VenueFacts,
    WorkFacts,
)
from catalogue.instrumentation import read, shorthand
from catalogue.terms import Category, PerformerRole
from catalogue.timing import Duration, PartialDate

NOW = datetime(2026, 3, 9, 10, 0, tzinfo=UTC)
COMPOSER = ComposerFacts(id=1, slug="measured", name="Orla Quenby", sort_name="Quenby, Orla")
FIRST = ("Slack", "Amber", "Seven", "Lesser", "Inland", "Paper", "Winter", "Borrowed", "Slow", "Folded", "Tidal")
SECOND = ("Rope", "Orchards", "Ladders", "Harbour", "Signals", "Meridian", "Psalter", "Engine", "Garden", "Letters")
PLACES = (
    ("Old Granary", "Zurich", "CH", "Europe/Zurich"), ("Kornspeicher", "Linz", "AT", "Europe/Vienna"),
    ("Sluice Hall", "Ghent", "BE", "Europe/Brussels"), ("Ropewalk", "Bristol", "GB", "Europe/London"),
    ("Tram Depot", "Riga", "LV", "Europe/Riga"), ("Salt House", "Cork", "IE", "Europe/Dublin"),
    ("Mill Room", "Lodz", "PL", "Europe/Warsaw"), ("Pump Hall", "Bergen", "NO", "Europe/Oslo"),
)  # fmt: skip
CATEGORIES = (Category.ORCHESTRA, Category.CHAMBER, Category.SOLO, Category.CHOIR, Category.LARGE_ENSEMBLE)
DOUBLINGS = ("", "(II=picc)", "(2=afl)", "(III=picc)")
TAILS = ("timp – str(8.6.4.4.2)", "timp.2perc – hp – str", "perc(3) – hp.cel – str(12.10.8.6.4)", "pf – str")
SMALL = ("fl, cl, vn, vc, pf", "string quartet", "2 pianos, percussion", "soprano, harp and viola", "solo cello")
MORE_STRUCK = ("", ", tam-tam", ", 2 triangles")


def title(number: int) -> str:
    words = f"{FIRST[number % len(FIRST)]} {SECOND[number // len(FIRST) % len(SECOND)]}"
    return f"{words} {number // (len(FIRST) * len(SECOND)) + 1}"


def forces(number: int) -> str:
    """Return an instrumentation as composers type it; no two of the first 100,000 are the same."""
    if number % 5 == 4:
        struck = f"{number % 97 + 2} bells, {number // 485 % 97 + 2} gongs"
        return f"{SMALL[number // 5 % len(SMALL)]}, {struck}{MORE_STRUCK[number // (485 * 97) % len(MORE_STRUCK)]}"
    wood = [number // power % 3 + 2 for power in (1, 3, 9, 27)]
    brass = [number // power % 5 + 1 for power in (81, 405, 2025, 10125)]
    doubling = DOUBLINGS[number // 50625 % 4]
    return (
        f"{wood[0]}{doubling}.{wood[1]}.{wood[2]}.{wood[3]} – {'.'.join(map(str, brass))} – "
        f"{TAILS[number % len(TAILS)]}"
    )


def work(number: int, *, told: bool = True) -> WorkFacts:
    """Return a work; ``told`` reads its forces too."""
    text = forces(number)
    reading = read(text) if told else None
    return WorkFacts(
        id=number + 1,
        uid=UUID(int=number + 1),
        composer_id=COMPOSER.id,
        title=TitleFacts(title(number)),
        category=CATEGORIES[number % len(CATEGORIES)],
        catalogue_number=str(number + 1),
        completed=PartialDate(1980 + number % 45),
        instrumentation=reading,
        instrumentation_text=shorthand(reading) if reading else "",
        instrumentation_typed=text,
        duration=Duration(300 + number * 37 % 1500),
    )


def performance(number: int, works: int) -> PerformanceFacts:
    """Return an evening with one of so many works, in the years around ``NOW``."""
    venue, city, country, zone = PLACES[number % len(PLACES)]
    day = date(2025, 7, 1) + timedelta(days=number * 7 % 700)
    return PerformanceFacts(
        id=number + 1,
        uid=UUID(int=10_000_000 + number),
        date=PartialDate(day.year, day.month, day.day),
        time=time(19, 30),
        zone=zone,
        starts_at=datetime(day.year, day.month, day.day, 18, 30, tzinfo=UTC),
        event_title=f"Evening {number + 1}",
        venue=VenueFacts(number % len(PLACES) + 1, venue, city, country, zone),
        city=city,
        country=country,
        performers=(PerformerFacts("Kestrel Ensemble", PerformerRole.ENSEMBLE),),
        programme=(ProgrammedFacts(id=number + 1, work_id=number * 13 % works + 1),),
        changed_at=NOW,
    )


def catalogue(*, works: int, performances: int, told: bool = True) -> CatalogueFacts:
    return CatalogueFacts(
        composer=COMPOSER,
        works=tuple(work(number, told=told) for number in range(works)),
        performances=tuple(performance(number, works) for number in range(performances)),
    )
