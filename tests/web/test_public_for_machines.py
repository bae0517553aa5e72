"""Feeds, maps, linked data and the heads of public pages, held against what those who read them ask for."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any
from urllib.robotparser import RobotFileParser

import pytest
from django.test import Client

from catalogue.actions.publishing import publish
from catalogue.models import Composer, Work
from catalogue.web.views import public
from tests.conftest import NOW
from tests.feed_rules import faults_of_atom, faults_of_json_feed, faults_of_map, is_absolute
from tests.makers import make_performance, make_venue, make_work
from tests.unit.feeds.test_linked_data import nodes_in, outside
from tests.web.pages import Page

pytestmark = pytest.mark.django_db
ADDRESS = "/public/ilka-marovand/"
ODD = "Ash & <Ferry> “7”\u2028"


@pytest.fixture
def opened(composer: Composer) -> list[Work]:
    hall = make_venue("Dock Hall", composer=composer)
    works = [
        make_work(ODD, composer=composer, duration="12'30", completed="2021-05", instrumentation="2vn.va.vc"),
        make_work("Bare", composer=composer),
        make_work("Long Weir", composer=composer, movements=("I", "II"), text_author="Bo Reed", catalogue_number="7"),
    ]
    make_performance(*works, venue=hall, status="confirmed", performers=("Kestrel Quartet",))
    make_performance(works[0], venue=hall, date="2026-07-01", status="postponed")
    publish(composer=composer, is_open=True, works=[one.pk for one in works], now=NOW)
    return works


def fetched(address: str) -> bytes:
    answer = Client().get(address)
    assert answer.status_code == 200
    return answer.content


def pages_of(composer: Composer) -> list[str]:
    keys = composer.performances.values_list("pk", flat=True)
    works = [f"{ADDRESS}works/{key}/" for key in composer.works.values_list("pk", flat=True)]
    return [ADDRESS, *works, *(f"{ADDRESS}performances/{key}/" for key in keys)]


@pytest.mark.parametrize("group", ["works", "performances"])
def test_feeds_are_as_readers_of_feeds_ask(opened: list[Work], group: str) -> None:
    assert faults_of_atom(fetched(f"{ADDRESS}{group}.atom")) == []
    assert faults_of_json_feed(fetched(f"{ADDRESS}{group}.json")) == []


@pytest.mark.parametrize("group", ["works", "performances"])
def test_feeds_without_news_are_feeds(composer: Composer, group: str) -> None:
    publish(composer=composer, is_open=True, works=[], now=NOW)

    assert faults_of_atom(fetched(f"{ADDRESS}{group}.atom")) == []
    assert faults_of_json_feed(fetched(f"{ADDRESS}{group}.json")) == []


def test_the_rules_find_what_is_wrong() -> None:
    atom = (
        b'<feed xmlns="http://www.w3.org/2005/Atom"><id>urn:a</id><title>A</title><updated>2026-01-01T00:00:00</updated>'
        b"</feed>"
    )
    assert faults_of_atom(atom) == [
        "neither content nor an alternate", "a moment without its offset", "an author is missing",
        "a feed has no link to itself",
    ]  # fmt: skip
    assert faults_of_atom(atom.replace(b"<title>A</title>", b""))
    assert faults_of_json_feed(b'{"items": [{}]}')
    assert faults_of_map(b"<urlset/>") == ["another root"]


def test_the_map_of_the_site_is_as_search_engines_ask(opened: list[Work]) -> None:
    assert faults_of_map(fetched("/sitemap.xml")) == []


def test_a_large_site_has_several_maps(opened: list[Work], monkeypatch: pytest.MonkeyPatch) -> None:
    whole = located(fetched("/sitemap-1.xml"))
    monkeypatch.setattr(public, "MOST_PLACES", 4)
    make_work("Another state", composer=opened[0].composer)

    listed = fetched("/sitemap.xml")
    parts = [fetched(address.removeprefix("http://127.0.0.1:8000")) for address in located(listed)]

    assert faults_of_map(listed) == []
    assert [faults_of_map(part) for part in parts] == [[], []]
    assert [one for part in parts for one in located(part)] == whole
    assert Client().get("/sitemap-3.xml").status_code == 404


def located(content: bytes) -> list[str]:
    return [text.split("</loc>")[0] for text in content.decode().split("<loc>")[1:]]


def test_robots_may_read_what_is_public_and_nothing_else(opened: list[Work]) -> None:
    robots = RobotFileParser()
    robots.parse(fetched("/robots.txt").decode().splitlines())

    assert all(robots.can_fetch("*", address) for address in (ADDRESS, f"{ADDRESS}works.atom", "/sitemap.xml"))
    assert not robots.can_fetch("*", "/c/ilka-marovand/works/")
    assert [address.split("/", 3)[3] for address in robots.site_maps() or []] == ["sitemap.xml"]


def graph_in(address: str) -> list[dict[str, Any]]:
    (told,) = Page(Client().get(address)).texts("//script[@type='application/ld+json']")
    graph = json.loads(told)
    assert graph["@context"] == "https://schema.org"
    nodes: list[dict[str, Any]] = graph["@graph"]
    return nodes


def values_in(told: Any) -> Iterator[Any]:
    yield told
    if isinstance(told, dict | list):
        for value in told.values() if isinstance(told, dict) else told:
            yield from values_in(value)


def test_linked_data_of_every_page_has_no_property_out_of_place_and_nothing_empty(
    composer: Composer, opened: list[Work]
) -> None:
    for address in pages_of(composer):
        nodes = graph_in(address)
        assert outside(nodes) == set()
        assert not [value for value in values_in(nodes) if value in ("", None, [], {}, "PT")]
        assert all(
            node.get("name") for node in nodes_in(nodes) if node["@type"] not in ("PostalAddress", "PropertyValue")
        )


def test_linked_data_names_everything_by_an_address_that_is_there(composer: Composer, opened: list[Work]) -> None:
    """A name that stands alone is told of in full on the page of its address, with the same name."""
    told = {node["@id"]: node for address in pages_of(composer) for node in graph_in(address)}
    named = {node["@id"] for node in values_in(list(told.values())) if isinstance(node, dict) and "@id" in node}

    assert named == set(told)
    for name in named:
        here = "/" + name.split("/", 3)[3].partition("#")[0]
        assert name in {node["@id"] for node in graph_in(here)}


def test_a_page_of_a_work_or_of_an_event_is_told_of_in_its_own_words(composer: Composer, opened: list[Work]) -> None:
    work = next(node for node in graph_in(f"{ADDRESS}works/{opened[2].pk}/") if node["@type"] == "MusicComposition")
    assert (work["lyricist"], work["identifier"]["value"], len(work["includedComposition"])) == (
        {"@type": "Person", "name": "Bo Reed"}, "7", 2,
    )  # fmt: skip
    states = {
        node["eventStatus"].rpartition("/")[2]
        for address in pages_of(composer)
        for node in graph_in(address)
        if node["@type"] == "MusicEvent"
    }
    assert states == {"EventScheduled", "EventPostponed"}


def test_the_head_of_every_page_has_what_is_shown_where_it_is_named(composer: Composer, opened: list[Work]) -> None:
    """The four that the Open Graph protocol asks for (https://ogp.me/), each once, and the page's language."""
    for address in pages_of(composer):
        page = Page(Client().get(address))
        told = [(one.get("property"), one.get("content")) for one in page.tree.xpath("//meta[@property]")]
        head = dict(told)
        assert len(head) == len(told)
        assert all(head[f"og:{name}"] for name in ("title", "type", "image", "url"))
        assert head["og:locale"] == "en_GB"
        assert head["og:url"] == page.values("//link[@rel='canonical']/@href")[0]
        assert is_absolute(head["og:image"])
