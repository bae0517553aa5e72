"""Which clock a call's deadline goes by: what it names, else the clock of the organiser's place.

``zones.toml`` holds the words, its head explains them.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from zoneinfo import available_timezones

from catalogue.rules.calls.words import plain
from catalogue.rules.states import state_named, states

OFFSET = re.compile(r"\b(?:UTC|GMT)\s?(?P<sign>[+−-])\s?(?P<hours>\d{1,2})\b")


@dataclass(frozen=True, slots=True)
class Clocks:
    """``words`` and ``cities`` are plain; ``fixed`` are abbreviations with their hours, ``summer`` which of them."""

    words: dict[str, str]
    cities: dict[str, str]
    states: dict[str, str]
    fixed: dict[str, int]
    summer: frozenset[str]


@cache
def clocks() -> Clocks:
    table = tomllib.loads((files("catalogue.rules.calls") / "zones.toml").read_text(encoding="utf-8"))
    named = {plain(zone.rpartition("/")[2].replace("_", " ")): zone for zone in sorted(available_timezones())}
    capitals = {name: zone for name, zone in named.items() if zone.count("/") and not zone.startswith("Etc")}
    cities = {city: zone for zone, row in table["cities"].items() for city in row}
    known = capitals | {plain(zone.rpartition("/")[2].replace("_", " ")): zone for zone in table["states"].values()}
    fixed = table["standard"] | table["summer"]
    return Clocks(table["words"], known | cities, table["states"], fixed, frozenset(table["summer"]))


NOT_CITIES = {"eastern", "central", "pacific", "mountain", "west", "east", "north", "south", "general", "easter"}


def zone_of_city(text: str) -> str:
    """Return the IANA zone of a city, empty where it is not known.

    >>> zone_of_city("Kassel"), zone_of_city("Atlantis")
    ('Europe/Berlin', '')
    """
    name = plain(text).strip()
    return "" if name in NOT_CITIES else clocks().cities.get(name, "")


def zone_of_words(text: str) -> str:
    """Return the IANA zone that ``UK``, ``Norwegian`` or ``Brussels`` stand for before *time*."""
    name = plain(text).strip()
    state = state_named(text.strip())
    return clocks().words.get(name) or zone_of_city(name) or clocks().states.get(state, "")


PLACE = re.compile(
    r"(?<![\w'’])[^\W\d_a-zà-ÿ]['’\w.-]+(?:\s+(?:[^\W\d_a-zà-ÿ][\w'’.-]+|de|la|den))*|(?<=/ )[a-z]+$", re.M
)


def zone_of_text(text: str) -> tuple[str, int, int]:
    """Return the zone of the first place that a text names, a city before a state, and where the place stands."""
    state_zone = ("", 0, 0)
    for match in PLACE.finditer(text):
        words = re.split(r"\s+", match[0])
        for first in range(len(words)):
            for last in range(len(words), first, -1):
                name = " ".join(words[first:last]).strip(".,-'’")
                zone = zone_of_city(name)
                if zone:
                    return zone, match.start(), match.end()
                code = state_named(name)
                if code and not state_zone[0] and len(name) > 2:
                    state_zone = clocks().states.get(code, ""), match.start(), match.end()
    return state_zone


def state_of_word(word: str) -> str:
    """Return the ISO code of a state that a word names: ``Belgium``, ``Belgian``."""
    text = plain(word).strip(" .")
    return state_named(word.strip(" .")) or states().adjectives.get(text, "") or ADJECTIVES.get(text, "")


ADJECTIVES = {
    "northern ireland": "GB",
    "scotland": "GB",
    "wales": "GB",
    "england": "GB",
    "norwegian": "NO",
    "swedish": "SE",
    "danish": "DK",
    "finnish": "FI",
    "dutch": "NL",
    "irish": "IE",
    "scottish": "GB",
    "welsh": "GB",
    "english": "GB",
    "flemish": "BE",
    "polish": "PL",
    "portuguese": "PT",
    "swiss": "CH",
    "croatian": "HR",
    "canadian": "CA",
    "american": "US",
    "british": "GB",
    "belgian": "BE",
    "german": "DE",
    "austrian": "AT",
    "french": "FR",
    "italian": "IT",
    "spanish": "ES",
    "uk": "GB",
}
