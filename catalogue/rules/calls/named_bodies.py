"""Bodies of players that a call names together with their list, and lists told by their labels or by people's names.

``wind quintet (flute, oboe, clarinet, horn, bassoon)``, ``Percussion: 3 players``, ``Anna (viola) and Ben (harp)``.
"""

from __future__ import annotations

import re
from itertools import pairwise

from catalogue.instrumentation import Instrumentation, shorthand
from catalogue.rules.calls.limit_texts import AUXILIARIES, item, items, reading
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


PLAYS = re.compile(r"(?<!\w)(?P<who>[A-ZÄÖÜÉ][\w'’-]+) \((?P<plays>[^()]{2,48})\)")
"""A person with what is played: *Anna (viola) and Ben (harp)*."""
RANGE = re.compile(
    r"(?:from|von|vom|de|du|dal?|del?) \w+ (?:up )?(?:to|bis(?: zu\w*)?|à|au|al?|hasta) \w+", re.IGNORECASE
)


def people_in(text: str) -> list[str]:
    """Return what each named person plays, as one player each; empty where it cannot be told what one plays."""
    named = [match for match in PLAYS.finditer(text) if not is_instrument(match["who"])]
    people = [one_player(match["plays"]) for match in named]
    return people if sum(map(bool, people)) > 1 else []


def is_instrument(word: str) -> bool:
    """Whether a word names an instrument as it stands; a person's name may be near to one."""
    found = reading(word)
    return found is not None and not any(one.code == "spelling" for one in found.warnings)


def one_player(text: str) -> str:
    """Return a bracket as one player with all that is played in it.

    >>> one_player("viola"), one_player("vibraphone and small percussion"), one_player("in the hall")
    ('viola', 'vib(=perc)', '')
    """
    name, colon, rest = text.partition(":")
    single = name.strip()[:-1] if colon and name.strip().endswith("s") else name.strip()
    if colon and reading(single):
        every = ",".join(short for short, _ in AUXILIARIES.get(instrument_of(single), ()))
        return f"1 {single}(={every})" if RANGE.search(rest) and every else item(f"{single} ({rest})")
    found = reading(text)
    if (
        found is None
        or not is_named(found)
        or any(line.players not in ((1, 1), None) or line.note for line in found.lines)
    ):
        return ""
    if len(found.lines) == 1:
        return text
    first, *others = (shorthand(Instrumentation((line,))) for line in found.lines)
    together = f"{first}(={','.join(others)})"
    return together if reading(together) else ""


def instrument_of(text: str) -> str:
    found = reading(text)
    return found.lines[0].instrument if found else ""


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
