"""The rows of a large invented house, kind by kind; every name in them is made up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import lru_cache
from random import Random
from typing import Any, NamedTuple
from uuid import UUID

from django.contrib.auth.hashers import make_password

from catalogue.actions.forces import Row as LineRow
from catalogue.actions.forces import forces_of, rows_of
from catalogue.benches.invented import CATEGORIES, FIRST, NOW, PLACES, SECOND, forces
from catalogue.instrumentation import read, shorthand
from catalogue.rules.search import fold
from catalogue.terms import OrganisationKind, PerformanceKind, PerformanceStatus, PerformerRole, Role, WorkStatus
from catalogue.timing import Duration, MomentError, PartialDate, moment_at

Row = dict[str, Any]

GIVEN_NAMES = ("Orla", "Tarn", "Ivo", "Maren", "Sefa", "Lio", "Runa", "Pell", "Anouk", "Davit", "Yuna", "Bram", "Ysol")
NAME_STEMS = ("Quen", "Tarr", "Vel", "Ost", "Mire", "Kess", "Hal", "Brun", "Sel", "Dorn", "Lath", "Ovi", "Penn", "Zar")
NAME_ENDS = ("by", "ock", "mark", "enko", "ander", "wick", "eira", "holt", "ini", "stad", "oux", "gård", "ský", "oğlu")
BODIES = ("Ensemble", "Orchestra", "Quartet", "Choir", "Sinfonietta", "Players", "Festival", "Collective")
PLAYS = ("violin", "piano", "voice", "percussion", "flute", "violoncello", "clarinet", "electronics")
BEHIND = ("", "", "", " for the Evening", " after Rain", " in Blue", " without End")
OTHER_SCRIPTS = (
    ("Σχοινί στο ποτάμι", "el"), ("Медленная река", "ru"), ("حديقة بطيئة", "ar"), ("גן לאט", "he"), ("紙の庭", "ja"),
    ("Łąka zimowa", "pl"), ("Étude des cordes", "fr"), ("Größe des Flusses", "de"), ("Đêm chậm", "vi"),
)  # fmt: skip
HOURS = (time(19, 30), time(19, 30), time(20, 0), time(18, 0), time(11, 0), time(16, 30))
FORCES_IN_USE = 400
FIRST_YEAR = 1990
AHEAD = 540  # days to come in which something is planned


@dataclass(frozen=True, slots=True)
class House:
    """A composer and the numbers of the rows that are theirs; as many halls and people as ``bodies``."""

    composer: int
    works: range
    bodies: range
    events: range


class Forces(NamedTuple):
    typed: str
    canonical: str
    least: int | None
    most: int | None
    electronics: str
    lines: tuple[LineRow, ...]


@lru_cache(maxsize=FORCES_IN_USE)
def forces_numbered(number: int) -> Forces:
    typed = forces(number)
    reading = read(typed)
    return Forces(typed, shorthand(reading), *forces_of(reading), tuple(rows_of(reading)))


def forces_of_work(number: int) -> Forces:
    return forces_numbered(number * 7 % FORCES_IN_USE)


def uid(kind: int, number: int) -> UUID:
    return UUID(int=kind << 64 | number)


def person_name(number: int) -> tuple[str, str]:
    """Return the given and the family name; the first 2,500 are all different, later ones carry a number."""
    many = len(GIVEN_NAMES) * len(NAME_STEMS) * len(NAME_ENDS)
    given = GIVEN_NAMES[number % len(GIVEN_NAMES)]
    stem, end = NAME_STEMS[number // 13 % len(NAME_STEMS)], NAME_ENDS[number // 182 % len(NAME_ENDS)]
    again = number // many
    return given, f"{stem}{end}{again or ''}"


def drawn(chance: Random, among: range) -> int:
    """Draw one of the numbers, the first ones far more often: some works are played again and again."""
    return among[int(len(among) * chance.random() ** 2.5)]


# ---- who and where


def user_rows(houses: tuple[House, ...]) -> Iterator[Row]:
    shut = make_password(None)
    for house in houses:
        yield {"id": house.composer, "username": f"composer-{house.composer}", "password": shut, "date_joined": NOW}


def composer_rows(houses: tuple[House, ...]) -> Iterator[Row]:
    for house in houses:
        given, family = person_name(house.composer)
        yield {
            "id": house.composer,
            "name": f"{given} {family}",
            "sort_name": f"{family}, {given}",
            "slug": f"composer-{house.composer}",
            "born": PartialDate(1930 + house.composer % 70),
            "feed_is_public": True,
            "is_public": True,
            "saves": 1,
            "changed_at": NOW,
        }


def membership_rows(houses: tuple[House, ...]) -> Iterator[Row]:
    for house in houses:
        number = house.composer
        yield {"id": number, "user_id": number, "composer_id": number, "role": Role.OWNER.value}


def venue_rows(houses: tuple[House, ...]) -> Iterator[Row]:
    for house in houses:
        for number in house.bodies:
            name, city, country, zone = PLACES[number % len(PLACES)]
            called = f"{name} {number - house.bodies.start + 1}"
            words = {"name": called, "city": city, "country": country, "zone": zone}
            search = fold(f"{called}\n{city}\n")
            yield {"id": number, "composer_id": house.composer, **words, "search_text": search, "changed_at": NOW}


def organisation_rows(houses: tuple[House, ...]) -> Iterator[Row]:
    for house in houses:
        for number in house.bodies:
            _given, family = person_name(number)
            _name, city, country, _zone = PLACES[number * 3 % len(PLACES)]
            called = f"{family} {BODIES[number % len(BODIES)]} {city}"
            yield {
                "id": number,
                "composer_id": house.composer,
                "uid": uid(1, number),
                "name": called,
                "kinds": (OrganisationKind.ENSEMBLE, OrganisationKind.PRESENTER),
                "city": city,
                "country": country,
                "search_text": fold(f"{called}\n{city}"),
                "changed_at": NOW,
            }


def person_rows(houses: tuple[House, ...]) -> Iterator[Row]:
    for house in houses:
        for number in house.bodies:
            given, family = person_name(number * 5)
            plays = PLAYS[number % len(PLAYS)]
            yield {
                "id": number,
                "composer_id": house.composer,
                "uid": uid(2, number),
                "name": f"{given} {family}",
                "sort_name": f"{family}, {given}",
                "plays": plays,
                "search_text": fold(f"{given} {family}\n{family}, {given}\n{plays}"),
                "changed_at": NOW,
            }


# ---- works


def work_rows(houses: tuple[House, ...], chance: Random) -> Iterator[Row]:
    for house in houses:
        for place, number in enumerate(house.works):
            yield work_row(house, place, number, chance)


def work_row(house: House, place: int, number: int, chance: Random) -> Row:
    title, language = title_of(place, chance)
    played_by = forces_of_work(number)
    catalogue_number, notes = str(place + 1), f"Sketched in {PLACES[number % len(PLACES)][1]}."
    searched = (title, catalogue_number, played_by.typed, notes)
    return {
        "id": number,
        "composer_id": house.composer,
        "uid": uid(3, number),
        "title": title,
        "title_language": language,
        "category": CATEGORIES[number % len(CATEGORIES)].value,
        "status": (WorkStatus.WITHDRAWN if chance.random() < 0.02 else WorkStatus.ACTIVE).value,
        "catalogue_number": catalogue_number,
        "completed": PartialDate(FIRST_YEAR - 10 + int(45 * (place + 1) / len(house.works))),
        "duration": Duration(180 + chance.randrange(1800), approximate=chance.random() < 0.3),
        "instrumentation": played_by.canonical,
        "instrumentation_typed": played_by.typed,
        "least_players": played_by.least,
        "most_players": played_by.most,
        "electronics": played_by.electronics,
        "is_public": True,
        "notes": notes,
        "search_text": fold("\n".join(searched)),
        "saves": 1,
        "changed_at": NOW,
    }


def title_of(place: int, chance: Random) -> tuple[str, str]:
    """Return a title and its language; one in thirty is in another language or script."""
    again = place // (len(FIRST) * len(SECOND))
    behind = f" {again + 1}" if again else ""
    if place % 30 == 29:
        title, language = chance.choice(OTHER_SCRIPTS)
        return f"{title}{behind}", language
    words = f"{FIRST[place % len(FIRST)]} {SECOND[place // len(FIRST) % len(SECOND)]}"
    return f"{words}{chance.choice(BEHIND)}{behind}", ""


def line_rows(houses: tuple[House, ...]) -> Iterator[Row]:
    for house in houses:
        for number in house.works:
            yield from ({"work_id": number, **line} for line in forces_of_work(number).lines)


# ---- evenings


class Evening(NamedTuple):
    evening: Row
    programme: list[Row]
    credits: list[Row]


def performance_rows(houses: tuple[House, ...], chance: Random, today: date) -> Iterator[Evening]:
    """Give each evening with its programme and its performers."""
    for house in houses:
        for number in house.events:
            played, heard = programme(house, number, chance), credits(house, number, chance)
            yield Evening(evening(house, number, chance, today), played, heard)


def evening(house: House, number: int, chance: Random, today: date) -> Row:
    hall = house.bodies[chance.randrange(len(house.bodies))]
    when, hour = date_of(chance, today), chance.choice(HOURS)
    title = f"{FIRST[number % len(FIRST)]} Evening" if number % 3 == 0 else ""
    return {
        "id": number,
        "composer_id": house.composer,
        "uid": uid(4, number),
        "date": when,
        "first_day": when.first,
        "last_day": when.last,
        "time": hour if when.exact else None,
        "starts_at": moment(when.exact, hour, PLACES[hall % len(PLACES)][3]) if when.exact else None,
        "kind": (PerformanceKind.BROADCAST if chance.random() < 0.05 else PerformanceKind.CONCERT).value,
        "status": status_of(chance, is_to_come=when.last >= today).value,
        "event_title": title,
        "venue_id": hall,
        "presenter_id": house.bodies[chance.randrange(len(house.bodies))] if number % 4 == 0 else None,
        "search_text": fold(title),
        "saves": 1,
        "changed_at": NOW,
    }


def date_of(chance: Random, today: date) -> PartialDate:
    """Return a day, more often a late one; of one evening in forty only the year is known."""
    begin = date(FIRST_YEAR, 1, 1)
    if chance.random() < 0.02:
        return PartialDate.of(today + timedelta(days=chance.randrange(AHEAD)))
    day = begin + timedelta(days=int((today - begin).days * chance.random() ** 0.5))
    return PartialDate(day.year) if chance.random() < 0.025 and day.year < today.year else PartialDate.of(day)


@lru_cache(maxsize=200_000)
def moment(day: date, hour: time, zone: str) -> datetime | None:
    try:
        return moment_at(day, hour, zone)
    except MomentError:
        return None


def status_of(chance: Random, *, is_to_come: bool) -> PerformanceStatus:
    number = chance.random()
    if number < 0.04:
        return PerformanceStatus.CANCELLED if number < 0.03 else PerformanceStatus.POSTPONED
    if not is_to_come:
        return PerformanceStatus.GIVEN
    return PerformanceStatus.PLANNED if number < 0.3 else PerformanceStatus.CONFIRMED


def programme(house: House, number: int, chance: Random) -> list[Row]:
    many = 1 if chance.random() < 0.8 else 2
    played = dict.fromkeys(drawn(chance, house.works) for _ in range(many))
    return [{"performance_id": number, "work_id": work, "order": order} for order, work in enumerate(played, start=1)]


def credits(house: House, number: int, chance: Random) -> list[Row]:
    """Give the ensemble, and one evening in three a soloist."""
    body = drawn(chance, house.bodies)
    rows = [credit(number, 1, PerformerRole.ENSEMBLE, organisation=body)]
    if number % 3 == 0:
        rows.append(credit(number, 2, PerformerRole.SOLOIST, person=drawn(chance, house.bodies)))
    return rows


def credit(number: int, order: int, role: PerformerRole, **who: int) -> Row:
    return {
        "performance_id": number,
        "order": order,
        "role": role.value,
        "organisation_id": who.get("organisation"),
        "person_id": who.get("person"),
        "name": "",
    }
