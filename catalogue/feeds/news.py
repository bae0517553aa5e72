"""News of a catalogue for readers of feeds: Atom (RFC 4287) and JSON Feed 1.1, of the same items."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from xml.etree.ElementTree import Element, SubElement, tostring

from catalogue.feeds.entries import one_line

ATOM = "http://www.w3.org/2005/Atom"
NEVER = datetime(1970, 1, 1, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Item:
    """One piece of news; ``uid`` never changes, ``changed`` is aware."""

    uid: str
    title: str
    summary: str
    address: str
    changed: datetime


@dataclass(frozen=True, slots=True)
class News:
    """What a feed holds; ``address`` is that of the page, ``own`` that of the feed itself."""

    title: str
    author: str
    address: str
    own: str
    items: Sequence[Item]

    @property
    def changed(self) -> datetime:
        return max((item.changed for item in self.items), default=NEVER)


def atom_bytes(news: News) -> bytes:
    """Write news as a feed in Atom (RFC 4287)."""
    feed = Element("feed", xmlns=ATOM)
    SubElement(feed, "id").text = news.own
    SubElement(feed, "title").text = one_line(news.title)
    SubElement(feed, "updated").text = stamp(news.changed)
    SubElement(SubElement(feed, "author"), "name").text = one_line(news.author)
    SubElement(feed, "link", rel="self", href=news.own, type="application/atom+xml")
    SubElement(feed, "link", rel="alternate", href=news.address, type="text/html")
    for item in news.items:
        entry = SubElement(feed, "entry")
        SubElement(entry, "id").text = f"urn:uuid:{item.uid}"
        SubElement(entry, "title").text = one_line(item.title)
        SubElement(entry, "updated").text = stamp(item.changed)
        SubElement(entry, "link", rel="alternate", href=item.address, type="text/html")
        if item.summary:
            SubElement(entry, "summary").text = one_line(item.summary)
    told: bytes = tostring(feed, encoding="utf-8", xml_declaration=True)
    return told


def json_bytes(news: News) -> bytes:
    """Write news as JSON Feed 1.1."""
    told = {
        "version": "https://jsonfeed.org/version/1.1",
        "title": one_line(news.title),
        "home_page_url": news.address,
        "feed_url": news.own,
        "authors": [{"name": one_line(news.author)}],
        "items": [
            {
                "id": f"urn:uuid:{item.uid}",
                "url": item.address,
                "title": one_line(item.title),
                "content_text": one_line(item.summary) or one_line(item.title),
                "date_modified": stamp(item.changed),
            }
            for item in news.items
        ],
    }
    return json.dumps(told, ensure_ascii=False, indent=1).encode()


def stamp(moment: datetime) -> str:
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
