"""What public pages tell machines: each property only on the types that schema.org gives it to.

The tables are those of schema.org 30.0 (2026-03-19), as far as anything here is told of these types: a type has its own
properties and those of the types above it. What has to be there for an event to be shown is Google's list for events
(name, start, place with its address).
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest

from catalogue.facts import MovementFacts, PerformerFacts, ProgrammedFacts, TitleFacts
from catalogue.feeds.linked_data import Addresses, composition, event, person, script_text
from catalogue.terms import PerformanceStatus, PerformerRole
from catalogue.timing import Duration, PartialDate
from tests.fact_makers import COMPOSER, make_event, make_venue, make_work

THING = {"@type", "@id", "name", "alternateName", "description", "identifier", "image", "sameAs", "url"}
CREATIVE_WORK = THING | {
    "dateCreated", "datePublished", "inLanguage", "keywords", "publisher", "timeRequired", "genre", "isPartOf",
}  # fmt: skip
DOMAINS = {
    "MusicComposition": CREATIVE_WORK
    | {
        "composer", "firstPerformance", "includedComposition", "iswcCode", "lyricist", "lyrics", "musicArrangement",
        "musicCompositionForm", "musicalKey", "recordedAs",
    },
    "MusicEvent": THING
    | {
        "composer", "doorTime", "duration", "endDate", "eventStatus", "inLanguage", "location", "offers", "organizer",
        "performer", "previousStartDate", "startDate", "superEvent", "workPerformed",
    },
    "Person": THING | {"familyName", "givenName", "jobTitle", "nationality", "pronouns", "birthDate", "deathDate"},
    "Organization": THING | {"address", "legalName"},
    "MusicGroup": THING | {"address", "album", "genre", "track"},
    "Place": THING | {"address", "geo", "latitude", "longitude"},
    "PostalAddress": THING | {"addressCountry", "addressLocality", "addressRegion", "postalCode", "streetAddress"},
    "PropertyValue": THING | {"propertyID", "value"},
}  # fmt: skip
ADDRESSES = Addresses("https://x.example/", lambda work: f"https://x.example/w/{work}/", lambda one: f"/p/{one}/")
WORK = replace(
    make_work(),
    title=TitleFacts("Slack Rope", original="綱渡り", transliteration="Tsunawatari", translated="Tightrope"),
    iswc="T-034.524.680-1",
    duration=Duration(750),
    completed=PartialDate(2024, 5),
    published=PartialDate(2025),
    publisher="Slate Editions",
    text_author="Jon Aske",
    text_language="ja",
    catalogue_number="12",
    movements=(MovementFacts(1, "Ebb", Duration(60)),),
)
EVENING = make_event(
    1,
    "2026-05-16",
    ProgrammedFacts(id=1, work_id=1),
    starts_at=datetime(2026, 5, 16, 17, 30, tzinfo=UTC),
    venue=make_venue(),
    presenter="Kestrel Festival",
    status=PerformanceStatus.CANCELLED,
    performers=(
        PerformerFacts("Noor Halvorsen", PerformerRole.CONDUCTOR),
        PerformerFacts("Kestrel", PerformerRole.ENSEMBLE),
    ),
)
NODES = (
    person(replace(COMPOSER, isni="0000 0001 2103 2683", website="https://x.example/", original_name="Ада"), ADDRESSES),
    composition(WORK, ADDRESSES, description="For flute"),
    event(EVENING, {1: WORK}, ADDRESSES, name="An evening"),
)


def nodes_in(told: Any) -> Iterator[dict[str, Any]]:
    if isinstance(told, dict):
        if "@type" in told:
            yield told
        for value in told.values():
            yield from nodes_in(value)
    elif isinstance(told, list | tuple):
        for value in told:
            yield from nodes_in(value)


def outside(told: Any) -> set[str]:
    return {f"{node['@type']}.{name}" for node in nodes_in(told) for name in node.keys() - DOMAINS[node["@type"]]}


def test_no_property_stands_where_it_does_not_belong() -> None:
    assert outside(NODES) == set()
    assert {node["@type"] for node in nodes_in(NODES)} == set(DOMAINS)


def test_a_property_of_another_type_is_found() -> None:
    assert outside([{"@type": "MusicComposition", "duration": "PT1M"}]) == {"MusicComposition.duration"}


@pytest.mark.parametrize("name", ["name", "startDate", "location", "eventStatus", "performer", "organizer"])
def test_an_event_has_what_is_asked_of_one(name: str) -> None:
    assert NODES[2][name]
    assert NODES[2]["location"]["address"]["addressLocality"] == "Linz"


def test_what_is_told_is_json_that_no_page_takes_for_markup() -> None:
    told = script_text([composition(replace(WORK, title=TitleFacts("</script><svg onload=x>\u2028")), ADDRESSES)])

    assert not set("<>&\u2028") & set(told)
    assert json.loads(told)["@graph"][0]["name"] == "</script><svg onload=x>"
