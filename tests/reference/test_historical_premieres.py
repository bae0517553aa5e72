"""Premieres reckoned for published early performances of historical works.

``premieres/performances.csv`` holds dates, places and coded facts of each event as the source in its last column has
them (``from_memory``: a day or place is from memory), and in ``reckoned`` what the rules make of the rows of that work
in the file. ``librarian`` is what a careful librarian would call it where that differs ("none" for no title); the
reasons are below. ``premieres/works.csv`` holds the premiere as works lists print it.
"""

from __future__ import annotations

import csv
from collections import defaultdict
from datetime import date
from pathlib import Path

import pytest

from catalogue.facts import CatalogueFacts, ProgrammedFacts, WorkFacts
from catalogue.rules.premieres import Claim, reckon
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus
from tests.fact_makers import make_catalogue, make_event, make_work

FOLDER = Path(__file__).parent / "premieres"
TODAY = date(2026, 1, 1)

Row = dict[str, str]

ENSEMBLES_OWN = "the claim is an ensemble's own first, and earlier performances of the place are not in the file"
EARLIER_MISSING = "an earlier performance in that country or city is not in the file"
STAGE_ONLY = "only the first staging; concert or broadcast performances came earlier and are not in the file"
SAME_EVENT = "another date for an event that has its own row"
NO_VERSION = "the label names something that is no version of the music"
ANOTHER_WORK = "the piece of 1917 is another work under another title, filed in the rows as a version"
BY_CONVENTION = "works lists follow a convention against the general rule"

# Rows where a librarian would not print what the rules reckon, or whose record is no event of its own.
OVERRIDES: dict[tuple[str, str, str], str] = {
    ("Boléro", "1930-07-15", "Los Angeles"): ENSEMBLES_OWN,
    ("Tzigane", "1924-04-04", "London"): SAME_EVENT,
    ("Prélude à l’après-midi d’un faune", "1912-05-29", "Paris"): NO_VERSION,
    ("The Miraculous Mandarin", "1928-10-15", "Budapest"): "the suite is a work of its own, which its row does not say",
    ("Bluebeard’s Castle", "1952-10-02", "New York"): STAGE_ONLY,
    ("Bluebeard’s Castle", "1954-04-29", "Strasbourg"): STAGE_ONLY,
    ("Two Portraits, Op. 5", "1996-11", "Cincinnati"): ENSEMBLES_OWN,
    ("The Soldier’s Tale", "1948", "Ojai"): EARLIER_MISSING,
    ("Ein deutsches Requiem, Op. 45", "1867-01-15", "Leipzig"): "every other source contradicts the claim",
    ("Ein deutsches Requiem, Op. 45", "1868-04-10", "Bremen"): BY_CONVENTION,
    ("Ein deutsches Requiem, Op. 45", "1869-02-18", "Leipzig"): BY_CONVENTION,
    ("Double Concerto in A minor, Op. 102", "1887-11-17", "Wiesbaden"): "no source claims a first",
    ("Double Concerto in A minor, Op. 102", "1888-02-06", "Berlin"): ENSEMBLES_OWN,
    ("Gurre-Lieder", "1928-01-27", "London"): NO_VERSION,
    ("Gurre-Lieder", "2014", "Amsterdam"): STAGE_ONLY,
    ("Three Places in New England", "1948", "Boston"): EARLIER_MISSING,
    ("All-Night Vigil, Op. 37", "1915-03-10", "Moscow"): SAME_EVENT,
    ("Romeo and Juliet, Op. 64", "2008-07", "Annandale-on-Hudson"): EARLIER_MISSING,
    ("Variations on an Original Theme (“Enigma”), Op. 36", "1901-02-07", "Düsseldorf"): "a shorter label, one version",
    ("Variations on an Original Theme (“Enigma”), Op. 36", "1910", "New York"): EARLIER_MISSING,
    ("Socrate", "1919-03-21", "Paris"): BY_CONVENTION,
    ("The Three-Cornered Hat", "1917", "Madrid"): ANOTHER_WORK,
    ("The Three-Cornered Hat", "1919-07-22", "London"): ANOTHER_WORK,
    ("Die tote Stadt, Op. 12", "2001-04", "Strasbourg"): STAGE_ONLY,
    ("Turandot", "1926-04-25", "Milan"): BY_CONVENTION,
    ("Turandot", "1926-04-27", "Milan"): BY_CONVENTION,
    ("Porgy and Bess", "1935-10-10", "New York"): NO_VERSION,
    ("Treemonisha", "1915-05", "New York"): BY_CONVENTION,
    ("Treemonisha", "1972-01-28", "Atlanta"): BY_CONVENTION,
    ("Treemonisha", "1972-01-27", "Atlanta"): SAME_EVENT,
    ("Density 21.5", "1936-01-16", "New York"): SAME_EVENT,
    ("Density 21.5", "1936-03-02", "New York"): SAME_EVENT,
}

# One version under a long and a short label.
SAME_VERSION = {"revised finale": "revised finale (96 or 100 new bars, organ)"}


def rows_of(name: str) -> list[Row]:
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ROWS = rows_of("performances.csv")


def key_of(row: Row) -> tuple[str, str, str]:
    return row["work"], row["date"], row["city"]


def version_in(row: Row) -> str:
    return SAME_VERSION.get(row["version"], row["version"])


def works_in(rows: list[Row]) -> dict[tuple[str, str], WorkFacts]:
    """Return the works and versions by title and label; the row without a label is the work itself."""
    works: dict[tuple[str, str], WorkFacts] = {}
    for title in dict.fromkeys(row["work"] for row in rows):
        root = make_work(len(works) + 1, title)
        works[title, ""] = root
        for label in dict.fromkeys(version_in(row) for row in rows if row["work"] == title and row["version"]):
            works[title, label] = make_work(len(works) + 1, title, version_of=root.id, version_label=label)
    return works


def extent_in(row: Row) -> Extent:
    if row["complete"] == "y":
        return Extent.COMPLETE
    return Extent.EXCERPT if row["extent"].startswith("excerpt") else Extent.PARTIAL


def catalogue_in(rows: list[Row]) -> CatalogueFacts:
    works = works_in(rows)
    events = []
    for number, row in enumerate(rows, start=1):
        work = works[row["work"], version_in(row)]
        part = row["extent"].partition(": ")[2] or (row["extent"] if row["complete"] == "n" else "")
        item = ProgrammedFacts(id=number, work_id=work.id, extent=extent_in(row), part=part.removeprefix("partial"))
        events.append(
            make_event(
                number,
                row["date"],
                item,
                kind=PerformanceKind(row["kind"]),
                status=PerformanceStatus.GIVEN if row["happened"] == "y" else PerformanceStatus.CANCELLED,
                audience=Audience.PUBLIC if row["public"] == "y" else Audience.PRIVATE,
                city=row["city"],
                country=row["country"],
                country_then=row["country_then"],
            )
        )
    return make_catalogue(*events, works=works.values())


@pytest.fixture(scope="module")
def claims() -> dict[int, Claim]:
    return {one.playing.item.id: one.claim for one in reckon(catalogue_in(ROWS), today=TODAY)}


@pytest.mark.parametrize("number", range(1, len(ROWS) + 1), ids=lambda number: "-".join(key_of(ROWS[number - 1])))
def test_premiere_is_reckoned_as_the_rules_say(number: int, claims: dict[int, Claim]) -> None:
    expected = tuple(code for code in ROWS[number - 1]["reckoned"].split(";") if code)

    assert tuple(str(title) for title in claims[number].reckoned) == expected


def test_every_row_with_an_override_is_listed_with_its_reason() -> None:
    assert {key_of(row) for row in ROWS if row["librarian"]} == set(OVERRIDES)


def test_no_row_of_the_file_is_lost(claims: dict[int, Claim]) -> None:
    assert (len(ROWS), len(claims)) == (131, 131)


# Works whose printed premiere is another event than the first complete public one of the rows.
PRINTED_OTHERWISE = {
    "Ein deutsches Requiem, Op. 45": BY_CONVENTION,
    "Turandot": BY_CONVENTION,
    "Treemonisha": BY_CONVENTION,
    "Socrate": BY_CONVENTION,
    "The Three-Cornered Hat": ANOTHER_WORK,
    "Die tote Stadt, Op. 12": "two cities share the day, and the list prints both as one place",
}


def test_printed_premieres_are_the_world_premieres_reckoned(claims: dict[int, Claim]) -> None:
    reckoned: dict[str, set[tuple[str, str]]] = defaultdict(set)
    for number, row in enumerate(ROWS, start=1):
        if "world" in claims[number].reckoned:
            reckoned[row["work"]].add((row["date"], row["city"]))
    printed = {row["title"]: (row["premiere_date"], row["premiere_city"]) for row in rows_of("works.csv")}

    differing = {title for title, events in reckoned.items() if title in printed and printed[title] not in events}

    assert len(set(reckoned) & set(printed)) > 20
    assert differing == set(PRINTED_OTHERWISE)
