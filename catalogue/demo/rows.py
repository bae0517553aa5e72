"""The files of the invented demo house (``fixtures/demo``), and the records that their rows become, not yet stored.

What the columns mean stands at the head of each file.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from dataclasses import dataclass, fields
from datetime import date, timedelta
from pathlib import Path
from typing import Any
from uuid import NAMESPACE_URL, UUID, uuid5

from catalogue.gathering import reading_of
from catalogue.models import (
    Composer,
    Cue,
    Movement,
    Organisation,
    Performance,
    Person,
    ProgrammedWork,
    Recording,
    Venue,
    Work,
)
from catalogue.terms import Category, OrganisationKind, WorkStatus
from catalogue.timing import PartialDate, read_clock_time, read_date, read_duration, write_date

COMPOSER = (
    "slug", "name", "sort_name", "birthplace", "email", "website", "number_prefix", "house_style", "paper_face",
    "paper_ink", "paper_margins",
)  # fmt: skip
"""The columns of a composer that stand in the file as they are stored."""

Row = dict[str, Any]
Table = dict[str, Row]


@dataclass(frozen=True, slots=True)
class House:
    """The rows of the files, by slug, in the order of each file."""

    composers: Table
    people: Table
    organisations: Table
    venues: Table
    works: Table
    performances: Table
    calls: Table
    members: Table
    houses: Table

    def works_of(self, composer: str) -> Table:
        return {slug: row for slug, row in self.works.items() if row["composer"] == composer}

    def performances_of(self, composer: str) -> Table:
        """Return the performances of a composer's music; no programme has works of two."""
        works = self.works_of(composer)
        return {slug: row for slug, row in self.performances.items() if row["programme"][0]["work"] in works}

    def name_of(self, organisation: str | None) -> str:
        return str(self.organisations[organisation]["name"]) if organisation else ""


def read_house(folder: Path) -> House:
    return House(**{table.name: read_table(folder / f"{table.name}.toml") for table in fields(House)})


def read_table(path: Path) -> Table:
    (rows,) = tomllib.loads(path.read_text(encoding="utf-8")).values()
    return {row["slug"]: row for row in rows}


def core_of(house: House) -> House:
    """Return the small selection, with the composers whose works are in it."""
    works, performances = marked_as_core(house.works), marked_as_core(house.performances)
    kept = {row["composer"] for row in works.values()}
    composers = {slug: row for slug, row in house.composers.items() if slug in kept}
    return House(composers, house.people, house.organisations, house.venues, works, performances, {}, {}, {})


def marked_as_core(table: Table) -> Table:
    return {slug: row for slug, row in table.items() if row.get("core")}


def identity(noun: str, slug: str) -> UUID:
    """Return the identity by which a work or a performance is known again, in calendars too."""
    return uuid5(NAMESPACE_URL, f"https://demo.example.org/{noun}/{slug}")


def copied(row: Row, *columns: str) -> Row:
    """Return the columns that stand in the file as they are stored."""
    return {column: row[column] for column in columns if column in row}


def maybe(read: Callable[[str], Any], text: str | None) -> Any:
    return read(text) if text else None


def strengths(text: str | None) -> tuple[int, ...]:
    return tuple(int(players) for players in text.split(".")) if text else ()


def call_text(row: Row, today: date) -> str:
    """Return a call's text with its days, told from the day of loading."""
    closes, since = today + timedelta(days=row["closes_in"]), date(today.year - 5, 1, 1)
    written = {name: write_date(PartialDate.of(day), "en-GB") for name, day in (("deadline", closes), ("since", since))}
    return str(row["text"]).strip().format(**written).replace("\N{NO-BREAK SPACE}", " ")


# --- the composer, people, bodies and halls ---


def composer_columns(row: Row) -> Row:
    return {
        **copied(row, *COMPOSER),
        "original_name": row.get("original_script_name", ""),
        "born": read_date(row["born"]),
        "country": row["nationality"],
        "is_public": row.get("has_public_pages", False),
        "biography": row["biography_long"],
        "short_biography": row["biography_short"],
        "string_strengths": strengths(row.get("string_strengths")),
    }


def new_person(composer: Composer, row: Row) -> Person:
    notes = row.get("original_script_name", "")
    return Person(composer=composer, notes=notes, **copied(row, "name", "sort_name", "plays"))


def new_organisation(composer: Composer, row: Row) -> Organisation:
    kinds = tuple(OrganisationKind(kind) for kind in row["kinds"])
    columns = copied(row, "name", "city", "country", "address", "email", "website")
    return Organisation(composer=composer, kinds=kinds, **columns)


def new_venue(composer: Composer, row: Row) -> Venue:
    seats = f"{row['capacity']} seats" if "capacity" in row else ""
    columns = copied(row, "name", "city", "region", "country", "equipment")
    return Venue(composer=composer, zone=row["timezone"], notes=seats, **columns)


# --- works ---


def new_work(composer: Composer, house: House, row: Row) -> Work:
    """Make a work without its first version, its parts and what is reckoned from its forces."""
    work = Work(composer=composer, uid=identity("works", row["slug"]), **work_texts(row), **titles(row))
    for column in ("begun", "completed", "revised", "published"):
        setattr(work, column, maybe(read_date, row.get(column)))
    work.category = row.get("category", Category.OTHER.value)
    work.status = row.get("status", WorkStatus.ACTIVE.value)
    for column in ("duration", "least_duration", "most_duration"):
        setattr(work, column, maybe(read_duration, row.get(column)))
    work.publisher = house.name_of(row.get("publisher"))
    work.parts_on_hire = row.get("parts_on_hire", False)
    work.strength = row.get("strength")
    work.is_public = composer.is_public and work.status == WorkStatus.ACTIVE.value
    return work


def work_texts(row: Row) -> Row:
    typed = row.get("instrumentation", "")
    same = (
        "title", "transliteration", "translated_title", "subtitle", "catalogue_number", "dedication", "text_author",
        "text_language", "version_label", "iswc", "ismn", "programme_note", "notes", "tempo_map", "cue_letters",
    )  # fmt: skip
    return {
        **copied(row, *same),
        "instrumentation": typed if reading_of(typed) else "",
        "instrumentation_typed": typed,
        "duration_typed": row.get("duration", ""),
        "electronics_note": row.get("electronics", ""),
    }


def titles(row: Row) -> Row:
    """Return the title in its own script with its language; the title in Latin letters is then marked so (BCP 47)."""
    language = row.get("title_language", "")
    if "original_script_title" not in row:
        return {"title_language": language}
    return {
        "title_language": f"{language}-Latn",
        "original_title": row["original_script_title"],
        "original_language": language,
    }


def new_movement(work: Work, number: int, row: Row) -> Movement:
    duration = maybe(read_duration, row.get("duration"))
    return Movement(work=work, number=number, title=row["title"], duration=duration)


def new_cue(work: Work, order: int, row: Row) -> Cue:
    length = maybe(read_duration, row.get("length"))
    return Cue(
        work=work, order=order, length=length, **copied(row, "number", "place", "action", "media", "who", "notes")
    )


def new_recording(work: Work, row: Row) -> Recording:
    released, duration = read_date(row["released"]), maybe(read_duration, row.get("duration"))
    said = copied(row, "performers", "label", "number")
    return Recording(work=work, released=released, duration=duration, **said)


# --- performances ---


def new_performance(composer: Composer, row: Row, today: date) -> Performance:
    """Make a performance without its place, its presenter, its programme and its performers."""
    return Performance(
        composer=composer,
        uid=identity("performances", row["slug"]),
        date=day_of(row, today),
        time=maybe(read_clock_time, row.get("time")),
        event_title=row.get("event", ""),
        **copied(row, "kind", "audience", "status", "series", "notes"),
    )


def day_of(row: Row, today: date) -> PartialDate:
    """Return the date that a row states, or the day that it counts from the day of loading."""
    if "date" in row:
        return read_date(row["date"])
    day = today + timedelta(days=int(row["day"]))
    return PartialDate(day.year, day.month, day.day)


def new_programmed(performance: Performance, order: int, work: Work, row: Row) -> ProgrammedWork:
    duration = maybe(read_duration, row.get("duration"))
    said = copied(row, "extent", "part", "billing")
    return ProgrammedWork(performance=performance, order=order, work=work, duration=duration, **said)
