"""What readers of feeds and search engines hold against what they fetch, told apart from the code that writes it.

Atom: RFC 4287 (elements and how often they stand in 4.1 and 4.2, dates in 3.3, links in 4.2.7), its shape as a schema
of RELAX NG. JSON Feed: version 1.1 (https://www.jsonfeed.org/version/1.1/). Maps of a site: protocol 0.9
(https://www.sitemaps.org/protocol.html).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import datetime
from typing import Any
from urllib.parse import urlsplit

from lxml import etree

ATOM = "{http://www.w3.org/2005/Atom}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|[+-]\d\d:\d\d)")  # RFC 3339
MOST_IN_A_MAP, LONGEST_ADDRESS = 50_000, 2_048
RELAX = 'xmlns="http://relaxng.org/ns/structure/1.0" datatypeLibrary="http://www.w3.org/2001/XMLSchema-datatypes"'


def element(name: str, inside: str) -> str:
    return f'<element name="{name}">{inside}</element>'


def optional(*inside: str) -> str:
    return "".join(f"<optional>{one}</optional>" for one in inside)


def many(inside: str) -> str:
    return f"<zeroOrMore>{inside}</zeroOrMore>"


def text(name: str) -> str:
    return element(name, optional('<attribute name="type"><value>text</value></attribute>') + "<text/>")


def moment(name: str) -> str:
    return element(name, '<data type="dateTime"/>')


def atom_schema() -> etree.RelaxNG:
    """Build the shape of a feed as it is written here: texts plain, no extensions."""
    person = f"<interleave>{element('name', '<text/>')}{optional(element('uri', '<text/>'))}</interleave>"
    also = optional(*(f'<attribute name="{name}"/>' for name in ("rel", "type", "hreflang", "title", "length")))
    link = element("link", f'<attribute name="href"><data type="anyURI"/></attribute>{also}<empty/>')
    shared = many(element("author", person)) + element("id", '<data type="anyURI"/>') + many(link)
    shared += text("title") + moment("updated") + optional(text("rights"))
    entry = shared + optional(text("summary"), text("content"), moment("published"))
    entries = many(element("entry", f"<interleave>{entry}</interleave>"))
    feed = f"<interleave>{shared}{optional(text('subtitle'))}{entries}</interleave>"
    return etree.RelaxNG(etree.fromstring(f'<element name="feed" ns="{ATOM[1:-1]}" {RELAX}>{feed}</element>'))


def is_absolute(address: str | None) -> bool:
    parts = urlsplit(address or "")
    return bool(parts.scheme and (parts.netloc or parts.path))


def faults_of_atom(content: bytes) -> list[str]:
    """Return what of a feed is not as RFC 4287 has it."""
    feed, schema = etree.fromstring(content), atom_schema()
    if not schema.validate(feed):
        return [str(fault.message) for fault in schema.error_log]
    entries = feed.findall(f"{ATOM}entry")
    return [fault for one in (feed, *entries) for fault in faults_of_container(one)] + list(faults_of_whole(feed))


def faults_of_whole(feed: Any) -> Iterator[str]:
    entries = feed.findall(f"{ATOM}entry")
    if len({one.findtext(f"{ATOM}id") for one in entries}) < len(entries):
        yield "entries share an id"
    authored = [one for one in entries if one.find(f"{ATOM}author") is not None]
    if feed.find(f"{ATOM}author") is None and not (entries and authored == entries):
        yield "an author is missing"
    if "self" not in {one.get("rel") for one in feed.findall(f"{ATOM}link")}:
        yield "a feed has no link to itself"


def faults_of_container(one: Any) -> Iterator[str]:
    links = one.findall(f"{ATOM}link")
    others = [(link.get("type"), link.get("hreflang")) for link in links if link.get("rel", "alternate") == "alternate"]
    if len(set(others)) < len(others):
        yield "two alternates of one type and language"
    if not others and one.find(f"{ATOM}content") is None:
        yield "neither content nor an alternate"
    if not all(is_absolute(told) for told in (one.findtext(f"{ATOM}id"), *(link.get("href") for link in links))):
        yield "an address is not absolute"
    if not MOMENT.fullmatch(one.findtext(f"{ATOM}updated")):
        yield "a moment without its offset"
    if not (one.findtext(f"{ATOM}title") or "").strip():
        yield "an empty title"


def faults_of_json_feed(content: bytes) -> list[str]:
    """Return what of a feed is not as JSON Feed 1.1 has it."""
    feed = json.loads(content)
    return [*faults_of_feed(feed), *(fault for one in feed.get("items", ()) for fault in faults_of_item(one))]


def faults_of_feed(feed: dict[str, Any]) -> Iterator[str]:
    known = {"version", "title", "home_page_url", "feed_url", "description", "icon", "language", "authors", "items"}
    yield from (f"unknown: {name}" for name in sorted(feed.keys() - known))
    if feed.get("version") != "https://jsonfeed.org/version/1.1":
        yield "another version"
    if not feed.get("title") or not isinstance(feed.get("items"), list):
        yield "no title or no items"
    yield from (f"not absolute: {name}" for name in ("home_page_url", "feed_url") if not is_absolute(feed.get(name)))
    if len({one.get("id") for one in feed.get("items", ())}) < len(feed.get("items", ())):
        yield "items share an id"
    if not all(one.get("name") for one in feed.get("authors", ())):
        yield "an author without a name"


def faults_of_item(item: dict[str, Any]) -> Iterator[str]:
    if not isinstance(item.get("id"), str) or not item["id"]:
        yield "an item without an id"
    if not item.get("content_text") and not item.get("content_html"):
        yield "an item without content"
    if "url" in item and not is_absolute(item["url"]):
        yield "an item's address is not absolute"
    for name in ("date_published", "date_modified"):
        if name in item and not MOMENT.fullmatch(item[name]):
            yield f"{name} is no moment"


def faults_of_map(content: bytes) -> list[str]:
    """Return what of a map of a site, or of a list of maps, is not as protocol 0.9 has it."""
    root = etree.fromstring(content)
    inner = {f"{MAP}urlset": f"{MAP}url", f"{MAP}sitemapindex": f"{MAP}sitemap"}.get(root.tag)
    return ["another root"] if inner is None else list(faults_of_places(root, inner))


def faults_of_places(root: Any, inner: str) -> Iterator[str]:
    located = [one.findtext(f"{MAP}loc") or "" for one in root]
    if any(one.tag != inner for one in root):
        yield "something else in it"
    if not 0 < len(located) <= MOST_IN_A_MAP or len(set(located)) < len(located):
        yield "none, too many, or one twice"
    yield from (f"not absolute: {one}" for one in located if not is_absolute(one) or len(one) >= LONGEST_ADDRESS)
    yield from (f"no day: {one.text}" for one in root.iter(f"{MAP}lastmod") if not is_day(one.text))


def is_day(told: str | None) -> bool:
    try:
        datetime.fromisoformat(told or "")
    except ValueError:
        return False
    return True
