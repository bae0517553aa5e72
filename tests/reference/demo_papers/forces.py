"""Which parts the forces of the demo's works ask for, reckoned by hand: a second reading beside the tool's own.

It reads only what the demo's texts use: wind figures in score order with what a chair also plays, percussion and
string figures, lists of instruments, choirs by their letters, electronics. One part a player, one string copy a desk
of two (common practice).
"""

from __future__ import annotations

import re
from collections.abc import Iterator

WINDS = (("Flute", "Oboe", "Clarinet", "Bassoon"), ("Horn", "Trumpet", "Trombone", "Tuba"))
STRINGS = ("Violin I", "Violin II", "Viola", "Cello", "Double bass")
VOICES = {"S": "Choir soprano", "A": "Choir alto", "T": "Choir tenor", "B": "Choir bass"}
NAMES = {
    "picc": "Piccolo", "fl": "Flute", "afl": "Alto flute", "bfl": "Bass flute", "ob": "Oboe", "ca": "Cor anglais",
    "cl": "Clarinet", "Ebcl": "E-flat clarinet", "bcl": "Bass clarinet", "bn": "Bassoon", "cbn": "Contrabassoon",
    "ssax": "Soprano saxophone", "asax": "Alto saxophone", "tsax": "Tenor saxophone", "barsax": "Baritone saxophone",
    "hn": "Horn", "tpt": "Trumpet", "flhn": "Flugelhorn", "tbn": "Trombone", "euph": "Euphonium", "tba": "Tuba",
    "timp": "Timpani", "perc": "Percussion", "hp": "Harp", "org": "Organ", "gtr": "Guitar", "koto": "Koto",
    "pf": "Piano", "cel": "Celesta", "acn": "Accordion", "bandoneon": "Bandoneon", "rec": "Recorder",
    "vn": "Violin", "va": "Viola", "vc": "Cello", "db": "Double bass", "S": "Soprano", "Mez": "Mezzo-soprano",
    "T": "Tenor", "Bar": "Baritone", "children's choir": "Children’s choir",
}  # fmt: skip
WHOLE = {
    "any 3–7 instruments": [
        *(f"Instrument {n}" for n in (1, 2, 3)),
        *(f"Instrument {n} may be left out" for n in (4, 5, 6, 7)),
    ],
    "piano, four hands": ["Piano 4 hands"],  # two players at one instrument, who read from one part
}
KEY = re.compile(r" “(in [A-H](?: flat)?)”")
FIGURE = re.compile(r"(\d)(?:\(([^)]*)\))?")
ITEM = re.compile(r"(\d?)([A-Za-z' ]+?)(?:\(([^)]*)\))?(?: or \w+)?")


def parts_of(text: str, strengths: tuple[int, ...]) -> Iterator[str]:
    """Give the rows of the set's list, without numbers, in any order; ``strengths`` hold where the text has none."""
    if text in WHOLE:
        yield from WHOLE[text]
        return
    groups = 0
    for segment in text.split(" – "):
        if segment.startswith("str"):
            told = re.findall(r"\d+", segment)
            yield from sections([int(one) for one in told] or list(strengths))
        elif re.match(r"\d+(\([^)]*\))?\.", segment):
            yield from winds(segment, WINDS[groups])
            groups += 1
        else:
            for item in re.split(r", (?!\d+ ch)|\.(?=[a-zA-Z])", re.sub(r"^sol[oi] ", "", segment)):
                yield from listed(item)


def sections(players: list[int]) -> Iterator[str]:
    for name, number in zip(STRINGS, players, strict=True):
        desks = -(-number // 2)
        yield f"{name} {number} player{'s' * (number > 1)}, {desks} desk{'s' * (desks > 1)}"


def winds(segment: str, names: tuple[str, ...]) -> Iterator[str]:
    for name, (number, also) in zip(names, FIGURE.findall(segment), strict=True):
        yield from players(name, int(number), also)


def listed(item: str) -> Iterator[str]:
    """An item of a list: one kind of player, a choir, electronics."""
    if "choir" in item and item not in NAMES:
        yield from (f"{VOICES[letter]} one copy a singer" for letter in dict.fromkeys(item.partition(" ")[0]))
    elif "electronics" in item or "media" in item:
        yield from ("Score with cues", "Media and programs")
    else:
        where = "off-stage" if item.startswith("off-stage ") else ""
        key = KEY.search(item)
        found = ITEM.fullmatch(KEY.sub("", item.removeprefix("off-stage ")))
        assert found, item
        number, name, bracket = found.groups()
        for row in counted(name, number, bracket or ""):
            yield with_remarks(row, [one for one in (key[1] if key else "", where) if one])


def with_remarks(row: str, remarks: list[str]) -> str:
    """A row with what is said of it, commas between; the first follows a plain name without one."""
    if not remarks:
        return row
    return f"{row}{', ' if ' also ' in row else ' '}{', '.join(remarks)}"


def counted(name: str, number: str, bracket: str) -> Iterator[str]:
    """Players by the figure before the name, or in the bracket behind it; a range leaves its last ones out."""
    if name == "children's choir":
        yield f"{NAMES[name]} one copy a singer"
    elif bracket[:1].isdigit():
        least, most = int(bracket[0]), int(bracket[-1])
        for row in players(NAMES[name], most, ""):
            optional = most > 1 and int(row[-1]) > least
            yield f"{row} may be left out" if optional else row
    else:
        yield from players(NAMES[name], int(number or 1), bracket)


def players(name: str, number: int, also: str) -> Iterator[str]:
    """One row a player, with what it also plays: ``III=picc`` says it of the third, ``=picc`` of the only one."""
    doubles = dict(one.split("=") for one in also.split(",") if one)
    for chair in range(1, number + 1):
        other = doubles.get("I" * chair if number > 1 else "")
        yield f"{name}{f' {chair}' * (number > 1)}{f' also {in_sentence(NAMES[other])}' if other else ''}"


def in_sentence(name: str) -> str:
    return name if name.startswith("E-flat") else name[0].lower() + name[1:]
