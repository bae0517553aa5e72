"""Bodies of players that a call names together with their list, and lists told by their labels or by people's names.

``wind quintet (flute, oboe, clarinet, horn, bassoon)``, ``Percussion: 3 players``, ``Anna (viola) and Ben (harp)``.
"""

from __future__ import annotations

import re
from itertools import pairwise

from catalogue.rules.calls.limit_texts import item, items, reading
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.player_readings import is_named, is_players
from catalogue.rules.calls.words import NUMBER

NAMED_LIST = re.compile(
    r"\b(?P<name>(?:[\w-]+ )?\w*(?:quartet|quintet|trio|sextet|octet|septet|duo|quartett|quintett|sextett|oktett|"
    r"septett|quatuor|quintette|quartetto|quintetto|cuarteto|quinteto)(?: (?:de|à|d['’]|di|du|des)\s?[\w'’]+){0,2})\s*"
    r"\((?P<list>[^()]+(?:\([^()]*\)[^()]*)*)\)",
    re.IGNORECASE,
)
OR_FOR = re.compile(r"\b(?:or|oder|ou|and for|und für|et pour|e per|y para)\b", re.IGNORECASE)


def bodies_in(passage: Passage) -> list[str]:
    """Return the bodies that a sentence names each with its list, where *or* or a second *for* parts them."""
    found = list(NAMED_LIST.finditer(passage.text))
    parted = (OR_FOR.search(passage.text[one.end() : other.start() + 1]) for one, other in pairwise(found))
    if len(found) < 2 or not all(parted):
        return []
    texts = [", ".join(items_of(one["list"])) for one in found]
    return texts if all(reading(text) for text in texts) else []


DOUBLES = re.compile(r"\b(?:may|can|will|also|doubl)", re.IGNORECASE)


def items_of(text: str) -> list[str]:
    """Return the items of a list in brackets; a sentence on doublings in it is none."""
    segments = (text[start:end].strip() for start, end, _ in items(text))
    return [item(one) for one in segments if not (DOUBLES.search(one) and len(one.split()) > 3)]


def listed_players(match: re.Match[str]) -> str:
    """Return a named body with its list as the list, where that can be read, else as its name."""
    parts = items_of(match["list"])
    name = match["name"] if reading(match["name"]) else match["name"].partition(" ")[2]
    if is_of_instruments(name) and is_of_voices(", ".join(parts)):
        return name
    if len(parts) > 2 and reading(", ".join(parts)):
        return " and ".join(parts) + ","
    return match["name"] if reading(match["name"]) else match[0]


def is_of_instruments(name: str) -> bool:
    found = reading(name)
    return found is not None and all(line.family not in ("voice", "electronics") for line in found.lines)


def is_of_voices(listed: str) -> bool:
    """Whether a list names voices alone, as the sizes of instruments are called too: soprano, alto, tenor."""
    found = reading(listed)
    return found is not None and all(line.family == "voice" for line in found.lines)


PLAYS = re.compile(r"(?<=\w) \(([^()]{2,20})\)")


def is_one_player(text: str) -> bool:
    """Whether a bracket says what a named person plays: *Anna (viola) and Ben (harp)*."""
    found = reading(text)
    return found is not None and len(found.lines) == 1 and found.lines[0].players == (1, 1) and is_named(found)


HEADED = re.compile(
    rf"(?P<count>{NUMBER})(?:\s+(?:players?|spieler\w*|exécutants|esecutori))?(?P<rest>\b.*)", re.IGNORECASE
)


def headed(passage: Passage) -> str:
    """Return a line with what its label counts: *Percussion: 3 players* as ``3 percussion``."""
    found = reading(passage.label.strip()) if 0 < len(passage.label.split()) <= 2 else None
    if found is None or len(found.lines) != 1 or not is_players(found):
        return passage.text
    counted = HEADED.fullmatch(passage.text.strip(" ."))
    if re.fullmatch(r"[\d.,/ -]{7,}", passage.text.strip(" .")):
        return f"{passage.label} {passage.text}"
    return f"{counted['count']} {passage.label}{counted['rest']}" if counted else passage.text
