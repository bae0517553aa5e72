"""What an import changes in a record, in words: column, before, after."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from catalogue.gathering.states import MODELS, PARTS, Sort, State, columns_written, value_of
from catalogue.models import Composer, Organisation, Person, Venue, Work
from catalogue.rules.states import state_name
from catalogue.timing import Duration, PartialDate, write_date, write_duration

# A column that is only the reading of another is not told beside it.
READ_FROM = {"instrumentation": "instrumentation_typed", "duration": "duration_typed"}
COLUMN_WORDS = {
    "completed": "year",
    "instrumentation_typed": "instrumentation",
    "duration_typed": "duration",
    "version_label": "version",
    "zone": "time zone",
    "presenter_id": "presenter",
    "presenter_name": "presenter",
    "venue_id": "venue",
    "credits": "performers",
}


@dataclass(frozen=True, slots=True)
class Change:
    column: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Names:
    """What the records are called that others name by number."""

    works: Mapping[int, str]
    venues: Mapping[int, str]
    organisations: Mapping[int, str]
    people: Mapping[int, str]

    @classmethod
    def of(cls, composers: Sequence[Composer]) -> Names:
        """Return the names of the composers' records; four queries."""
        works = Work.objects.filter(composer__in=composers).values_list("pk", "title")
        venues = Venue.objects.filter(composer__in=composers).values_list("pk", "name", "city")
        organisations = Organisation.with_deleted.filter(composer__in=composers).values_list("pk", "name")
        people = Person.with_deleted.filter(composer__in=composers).values_list("pk", "name")
        halls = {key: ", ".join(filter(None, told)) for key, *told in venues}
        return cls(dict(works), halls, dict(organisations), dict(people))


def changes_between(sort: Sort, before: State, after: State, names: Names) -> Iterator[Change]:
    """Give what differs between two states of a record, in the order of its columns, then of its parts."""
    for column in columns_written(MODELS[sort]):
        name = column.attname
        if before[name] == after[name] or before.get(READ_FROM.get(name, "")) != after.get(READ_FROM.get(name, "")):
            continue
        told = tuple(in_words(name, value_of(column, state[name]), names) for state in (before, after))
        yield Change(COLUMN_WORDS.get(name, name.replace("_", " ")), *told)
    for part in PARTS[sort]:
        told = tuple(
            "; ".join(part_in_words(part.name, row, names) for row in state[part.name]) for state in (before, after)
        )
        if told[0] != told[1]:
            yield Change(COLUMN_WORDS.get(part.name, part.name), *told)


def in_words(column: str, value: Any, names: Names) -> str:
    """Return a column's value as one reads it."""
    if value in (None, "", ()):
        return ""
    if column == "venue_id":
        return names.venues.get(value, "")
    if column == "presenter_id":
        return names.organisations.get(value, "")
    if column == "country":
        return state_name(value)
    if isinstance(value, PartialDate):
        return write_date(value)
    if isinstance(value, Duration):
        return write_duration(value)
    return str(value)


def part_in_words(part: str, row: State, names: Names) -> str:
    if part == "movements":
        return row["title"] or f"({row['number']})"
    if part == "programme":
        return " · ".join(filter(None, (names.works.get(row["work_id"], ""), row["part"], row["billing"])))
    body = names.organisations.get(row["organisation_id"] or 0, "")
    name = row["name"] or body or names.people.get(row.get("person_id") or 0, "")
    return f"{row['plays'] or row['role']}: {name}" if part == "credits" else name


def label_of(sort: Sort, state: State, names: Names) -> str:
    """Return what a record is called in a list of what an import has made."""
    if sort is Sort.WORK:
        return ", ".join(filter(None, (state["title"], state["version_label"])))
    if sort is Sort.VENUE:
        return ", ".join(filter(None, (state["name"], state["city"])))
    column = next(one for one in columns_written(MODELS[sort]) if one.name == "date")
    when = in_words("date", value_of(column, state["date"]), names)
    works = ", ".join(dict.fromkeys(names.works.get(row["work_id"], "") for row in state["programme"]))
    place = names.venues.get(state["venue_id"], "") or state["city"]
    return ", ".join(filter(None, (when, place, works)))
