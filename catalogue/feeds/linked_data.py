"""What a public page says to machines: a graph of schema.org's types (version 30.0), one a page, with lasting names.

A composition has no duration there (that belongs to recordings and events), so the time that it takes is told, and no
property for its instruments, which stand in the description. What is unknown is left out.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any
from zoneinfo import ZoneInfo

from catalogue.facts import ComposerFacts, MovementFacts, PerformanceFacts, VenueFacts, WorkFacts
from catalogue.feeds.entries import one_line
from catalogue.terms import Category, PerformanceStatus, PerformerRole
from catalogue.timing import Duration, PartialDate

Node = dict[str, Any]
BODIES = {PerformerRole.ENSEMBLE}
STATUSES = {
    PerformanceStatus.CANCELLED: "EventCancelled",
    PerformanceStatus.POSTPONED: "EventPostponed",
}
ESCAPES = {ord(letter): f"\\u{ord(letter):04x}" for letter in "<>&\u2028\u2029"}


@dataclass(frozen=True, slots=True)
class Addresses:
    """The absolute addresses of the public pages."""

    composer: str
    work: Callable[[int], str]
    performance: Callable[[int], str]


def script_text(nodes: list[Node]) -> str:
    """Return the graph as JSON that no page can take for markup.

    >>> script_text([{"name": "</script>"}])
    '{"@context":"https://schema.org","@graph":[{"name":"\\\\u003c/script\\\\u003e"}]}'
    """
    graph = {"@context": "https://schema.org", "@graph": nodes}
    return json.dumps(graph, ensure_ascii=False, separators=(",", ":")).translate(ESCAPES)


def filled(node: Node) -> Node:
    """Leave out what is not known."""
    return {name: value for name, value in node.items() if value not in ("", None, [], {})}


def person(composer: ComposerFacts, addresses: Addresses) -> Node:
    """Describe the composer as a Person of schema.org."""
    isni = f"https://isni.org/isni/{composer.isni.replace(' ', '')}" if composer.isni else ""
    return filled(
        {
            "@type": "Person",
            "@id": f"{addresses.composer}#composer",
            "name": one_line(composer.name),
            "alternateName": one_line(composer.original_name),
            "jobTitle": "Composer",
            "url": addresses.composer,
            "description": one_line(composer.short_biography),
            "sameAs": [each for each in (composer.website, isni) if each],
        }
    )


def composition(work: WorkFacts, addresses: Addresses, *, description: str = "") -> Node:
    """Describe a work as a MusicComposition of schema.org."""
    address = addresses.work(work.id)
    return filled(
        {
            "@type": "MusicComposition",
            "@id": f"{address}#work",
            "name": one_line(work.title.original or work.title.title),
            "alternateName": [
                one_line(name)
                for name in dict.fromkeys((work.title.title, work.title.transliteration, work.title.translated))
                if name and name != (work.title.original or work.title.title)
            ],
            "url": address,
            "composer": {"@id": f"{addresses.composer}#composer"},
            "lyricist": named("Person", work.text_author),
            "iswcCode": work.iswc,
            "musicCompositionForm": "" if work.category is Category.OTHER else work.category.value,
            "timeRequired": lasting(work.duration),
            "dateCreated": dated(work.completed),
            "datePublished": dated(work.published),
            "publisher": named("Organization", work.publisher),
            "inLanguage": work.text_language,
            "description": one_line(description),
            "identifier": numbered(work),
            "includedComposition": [movement(one) for one in work.movements if one.title],
        }
    )


def event(performance: PerformanceFacts, works: Mapping[int, WorkFacts], addresses: Addresses, *, name: str) -> Node:
    """Describe a performance as a MusicEvent of schema.org, with those of ``works`` that are played in it."""
    address = addresses.performance(performance.id)
    played = [item.work_id for item in performance.programme if item.work_id in works]
    return filled(
        {
            "@type": "MusicEvent",
            "@id": f"{address}#event",
            "name": one_line(name),
            "url": address,
            "startDate": begins(performance),
            "eventStatus": f"https://schema.org/{STATUSES.get(performance.status, 'EventScheduled')}",
            "location": place(performance.venue, performance.city, performance.country),
            "performer": [
                named("MusicGroup" if one.role in BODIES else "Person", one.name) for one in performance.performers
            ],
            "organizer": named("Organization", performance.presenter),
            "composer": {"@id": f"{addresses.composer}#composer"},
            "workPerformed": [performed(works[each], addresses) for each in dict.fromkeys(played)],
        }
    )


def movement(one: MovementFacts) -> Node:
    return filled({"@type": "MusicComposition", "name": one_line(one.title), "timeRequired": lasting(one.duration)})


def performed(work: WorkFacts, addresses: Addresses) -> Node:
    return {"@type": "MusicComposition", "@id": f"{addresses.work(work.id)}#work", "name": one_line(work.title.title)}


def named(kind: str, name: str) -> Node | None:
    return {"@type": kind, "name": one_line(name)} if name else None


def numbered(work: WorkFacts) -> Node | None:
    if not work.catalogue_number:
        return None
    return {"@type": "PropertyValue", "propertyID": "catalogue number", "value": one_line(work.catalogue_number)}


def place(venue: VenueFacts | None, city: str, country: str) -> Node | None:
    told = filled({"@type": "PostalAddress", "addressLocality": one_line(city), "addressCountry": country})
    name = venue.name if venue else city
    if not name:
        return None
    return filled({"@type": "Place", "name": one_line(name), "address": told if len(told) > 1 else None})


def begins(performance: PerformanceFacts) -> str:
    """The moment by the clocks there, with their offset, else the day, the month or the year (ISO 8601)."""
    if performance.starts_at is not None:
        return performance.starts_at.astimezone(ZoneInfo(performance.zone or "UTC")).isoformat()
    return dated(performance.date)


def dated(when: PartialDate | None) -> str:
    """As much of a date as is known for certain: a day, a month, a year.

    >>> dated(PartialDate(2024, 5)), dated(PartialDate(2024, circa=True)), dated(None)
    ('2024-05', '', '')
    """
    if when is None or when.circa or when.until:
        return ""
    parts = (f"{when.year:04}", f"{when.month:02}" if when.month else "", f"{when.day:02}" if when.day else "")
    return "-".join(part for part in parts if part)


def lasting(duration: Duration | None) -> str:
    """A duration as ISO 8601 has it.

    >>> lasting(Duration(750)), lasting(Duration(3600))
    ('PT12M30S', 'PT1H')
    """
    if duration is None:
        return ""
    minutes, seconds = divmod(duration.seconds, 60)
    hours, minutes = divmod(minutes, 60)
    told = ((hours, "H"), (minutes, "M"), (seconds, "S"))
    return "PT" + "".join(f"{number}{unit}" for number, unit in told if number)
