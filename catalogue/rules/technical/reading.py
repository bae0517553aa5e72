"""What each row of a typed list says.

The first parts of a row have their places; those behind them are known by their words: *48 V*, *to live*, *from the
hall*, *composer*. So a row is as short as what it says.

>>> row, = read_inputs("3; bass clarinet; small condenser; boom; 48 V; to live; presenter")
>>> row.source, row.phantom, row.to, row.provider, row.stand
('bass clarinet', True, 'live', 'presenter', 'boom')
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation
from typing import TypeVar

from catalogue.rules.technical.lists import ListRow, Part, numbers_in, provider_in, rows_of
from catalogue.rules.technical.terms import (
    Channels,
    Duty,
    Feed,
    Input,
    Mark,
    Media,
    Need,
    Output,
    Place,
    Send,
    Slot,
    Software,
    Speaker,
)

Found = TypeVar("Found", Feed, Send, Mark)

PHANTOM = re.compile(r"(?:p?48\s*v?|phantom(?: power)?(?: 48\s*v)?|yes)", re.IGNORECASE)
NO_PHANTOM = re.compile(r"no(?: phantom| 48\s*v)?", re.IGNORECASE)
FEEDS: tuple[tuple[re.Pattern[str], Feed], ...] = (
    (re.compile(r"\b(?:digital|adat|madi|aes\d*|usb)\b", re.IGNORECASE), Feed.DIGITAL),
    (re.compile(r"\bDIs?\b|\bDI[- ]box", re.IGNORECASE), Feed.DI),
    (
        re.compile(
            r"\b(?:microphones?|mics?|condensers?|dynamic|ribbon|clips?|cardioid|omni|boundary|contact|lavalier)\b",
            re.IGNORECASE,
        ),
        Feed.MICROPHONE,
    ),
    (re.compile(r"\b(?:line|balanced|unbalanced|dBu|dBV|jack|XLR)\b", re.IGNORECASE), Feed.LINE),
)
BOX = re.compile(r"(?:active |passive )?DI(?:[- ]box)?|line|digital", re.IGNORECASE)
SENDS: tuple[tuple[re.Pattern[str], Send], ...] = (
    (re.compile(r"\bin[- ]ears?\b|\b(?:head|ear)phones?\b|\biem\b", re.IGNORECASE), Send.IN_EAR),
    (re.compile(r"\bmonitors?\b|\bwedges?\b|\bfoldback\b", re.IGNORECASE), Send.MONITOR),
    (re.compile(r"\bsub(?:woofer)?s?\b|\blfe\b", re.IGNORECASE), Send.SUBWOOFER),
    (re.compile(r"\brecord(?:ing|er)?\b|\bbroadcast\b", re.IGNORECASE), Send.RECORDING),
    (re.compile(r"\b(?:loudspeakers?|ring|pa|main|front|rear|side|left|right|cent(?:re|er)|dome)\b", re.IGNORECASE),
     Send.LOUDSPEAKER),
)  # fmt: skip
MARKS: tuple[tuple[re.Pattern[str], Mark], ...] = (
    (re.compile(r"\bconductor\b", re.IGNORECASE), Mark.CONDUCTOR),
    (re.compile(r"\bmic(?:rophone)?s?\b", re.IGNORECASE), Mark.MICROPHONE),
    (re.compile(r"\b(?:monitor|wedge)s?\b", re.IGNORECASE), Mark.MONITOR),
    (re.compile(r"\b(?:loudspeaker|speaker|subwoofer)s?\b", re.IGNORECASE), Mark.LOUDSPEAKER),
    (re.compile(r"\b(?:desk|mix|mixer)\b", re.IGNORECASE), Mark.DESK),
    (re.compile(r"\b(?:power|mains|outlets?|sockets?)\b", re.IGNORECASE), Mark.POWER),
    (re.compile(r"\b(?:table|chair|bench|sofa|bed|door|screen|platform|riser|lectern)s?\b", re.IGNORECASE), Mark.THING),
)
CHANNEL_COUNT = re.compile(r"(\d{1,3})\s*(?:ch|chan|channels?)|(mono|stereo)", re.IGNORECASE | re.ASCII)
RATE = re.compile(r"(\d{1,3}(?:[.,]\d{1,3})?)\s*kHz|(\d{4,6})\s*Hz", re.IGNORECASE | re.ASCII)
BITS = re.compile(r"(\d{1,2})[- ]?bit(?: float)?", re.IGNORECASE | re.ASCII)
CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)", re.ASCII)
SHA256 = re.compile(r"(?:sha-?256[: ]*)?([0-9a-f]{64})", re.IGNORECASE)
COUNTED = re.compile(r"(\d{1,3})(?:\s*[x\N{MULTIPLICATION SIGN}])?\s+(.+)", re.ASCII)
SUCH_AS = re.compile(r"(?:such as|like|for example|e\.g\.) (.+)", re.IGNORECASE)
VERSION = re.compile(r"(?:version |v\.? ?)?(\d[\w.+\- ()]*)", re.IGNORECASE)


@dataclass(slots=True)
class Rest:
    """The parts behind the first ones, sorted by what they are; ``others`` keep their order."""

    provider: str = ""
    labelled: dict[str, str] = field(default_factory=dict)
    phantom: bool = False
    others: list[str] = field(default_factory=list)


def sorted_parts(parts: Sequence[Part], *, labels: tuple[str, ...] = (), phantom: bool = False) -> Rest:
    """Tell the parts of a row by their words; ``labels`` are words that open one, such as *to*."""
    rest = Rest()
    for part in parts:
        label = next((one for one in labels if part.text.casefold().startswith(f"{one} ")), "")
        provider = provider_in(part.text)
        if phantom and (PHANTOM.fullmatch(part.text) or NO_PHANTOM.fullmatch(part.text)):
            rest.phantom = PHANTOM.fullmatch(part.text) is not None
        elif label:
            rest.labelled[label] = part.text[len(label) + 1 :].strip()
        elif provider and not rest.provider:
            rest.provider = provider
        else:
            rest.others.append(part.text)
    return rest


def first_of(found: Sequence[str], place: int = 0) -> str:
    return found[place] if len(found) > place else ""


def rest_of(found: Sequence[str], place: int) -> str:
    return "; ".join(found[place:])


def named(row: ListRow, place: int, what: str) -> str:
    """The part at a place, which has to be there. Raises ListError."""
    if len(row.parts) <= place:
        raise row.mistake(f"Say {what} after “{row.parts[-1].text}”, with a semicolon between.", row.parts[-1])
    return row.parts[place].text


# ---- channels


def read_inputs(text: str) -> tuple[Input, ...]:
    """Read an input list: channel; source; microphone or line; stand; 48 V; insert …; to …; who provides it."""
    return tuple(read_input(row) for row in rows_of(text))


def read_input(row: ListRow) -> Input:
    channels, source = Channels(*numbers_in(row)), named(row, 1, "what is heard on the channel")
    rest = sorted_parts(row.parts[2:], labels=("to", "insert"), phantom=True)
    others = [text for text in rest.others[1:] if not BOX.fullmatch(text)]
    line = ", ".join([*rest.others[:1], *(text for text in rest.others[1:] if BOX.fullmatch(text))])
    feed = first_match(FEEDS, line) or first_match(FEEDS, source)
    return Input(
        channels=channels,
        source=source,
        line=line,
        feed=feed,
        stand=first_of(others),
        phantom=rest.phantom,
        insert=rest.labelled.get("insert", ""),
        to=rest.labelled.get("to", ""),
        provider=rest.provider,
        remark=rest_of(others, 1),
    )


def read_outputs(text: str) -> tuple[Output, ...]:
    """Read an output list: channel; where it leads; what is on it; heard by …; who provides what it leads to."""
    return tuple(read_output(row) for row in rows_of(text))


def read_output(row: ListRow) -> Output:
    channels, destination = Channels(*numbers_in(row)), named(row, 1, "where the output leads")
    rest = sorted_parts(row.parts[2:], labels=("heard by", "for"))
    return Output(
        channels=channels,
        destination=destination,
        signal=first_of(rest.others),
        send=first_match(SENDS, destination) or Send.OTHER,
        heard_by=rest.labelled.get("heard by", "") or rest.labelled.get("for", ""),
        provider=rest.provider,
        remark=rest_of(rest.others, 1),
    )


def first_match(table: Sequence[tuple[re.Pattern[str], Found]], text: str) -> Found | None:
    return next((found for pattern, found in table if pattern.search(text)), None)


def read_speakers(text: str) -> tuple[Speaker, ...]:
    """Read a layout: name; azimuth; elevation, in degrees; *low* marks a channel of low frequencies."""
    return tuple(read_speaker(row) for row in rows_of(text))


def read_speaker(row: ListRow) -> Speaker:
    parts = [part for part in row.parts[1:] if part.text.casefold() not in {"low", "lfe", "subwoofer"}]
    is_low = len(parts) < len(row.parts) - 1
    azimuth = degrees(row, parts[0], 180) if parts else Decimal(0)
    elevation = degrees(row, parts[1], 90) if len(parts) > 1 else Decimal(0)
    if not parts and not is_low:
        raise row.mistake(f"Say at which angle “{row.parts[0].text}” stands, such as -30; minus is left.")
    return Speaker(row.parts[0].text, azimuth, elevation, is_low)


def degrees(row: ListRow, part: Part, most: int) -> Decimal:
    angle = decimal_in(row, part, "°")
    if abs(angle) > (360 if most == 180 else most):
        raise row.mistake(f"“{part.text}” is no angle here; angles reach from -{most} to {most}.", part)
    return angle - 360 if angle > 180 else angle + 360 if angle < -180 else angle


def decimal_in(row: ListRow, part: Part, unit: str) -> Decimal:
    text = part.text.removesuffix(unit).strip().replace("\N{MINUS SIGN}", "-").replace(",", ".")
    try:
        number = Decimal(text)
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or abs(number) > 1000:
        raise row.mistake(f"“{part.text}” is no number.", part)
    return number


# ---- what is played and what has to be there


def read_media(text: str) -> tuple[Media, ...]:
    """Read a list of media files: name; channels; kHz; bit; length; SHA-256; what it is for, in any order."""
    return tuple(read_one_file(row) for row in rows_of(text))


def read_one_file(row: ListRow) -> Media:
    told: dict[str, int | str | None] = {}
    uses = []
    for part in row.parts[1:]:
        found = next(((name, read(part.text)) for name, read in FILE_PARTS if read(part.text) is not None), None)
        if found is None or found[0] in told:
            uses.append(part.text)
        else:
            told[found[0]] = found[1]
    return Media(row.parts[0].text, use="; ".join(uses), **told)  # type: ignore[arg-type]


def channel_count(text: str) -> int | None:
    found = CHANNEL_COUNT.fullmatch(text)
    if found is None:
        return None
    return int(found[1]) if found[1] else {"mono": 1, "stereo": 2}[found[2].casefold()]


def rate_in(text: str) -> int | None:
    """Read a sample rate, in hertz.

    >>> rate_in("44.1 kHz"), rate_in("48000 Hz"), rate_in("loud")
    (44100, 48000, None)
    """
    found = RATE.fullmatch(text)
    if found is None:
        return None
    return int(Decimal(found[1].replace(",", ".")) * 1000) if found[1] else int(found[2])


def bits_in(text: str) -> int | None:
    found = BITS.fullmatch(text)
    return int(found[1]) if found else None


def seconds_in(text: str) -> int | None:
    found = CLOCK.fullmatch(text)
    return None if found is None else int(found[1] or 0) * 3600 + int(found[2]) * 60 + int(found[3])


def sha256_in(text: str) -> str | None:
    found = SHA256.fullmatch(text)
    return found[1].lower() if found else None


FILE_PARTS: tuple[tuple[str, Callable[[str], int | str | None]], ...] = (
    ("channels", channel_count),
    ("rate", rate_in),
    ("bits", bits_in),
    ("seconds", seconds_in),
    ("sha256", sha256_in),
)


def read_needs(text: str) -> tuple[Need, ...]:
    """Read a list of what has to be there: number and thing; what it has to do; such as …; who provides it."""
    return tuple(read_need(row) for row in rows_of(text))


def read_need(row: ListRow) -> Need:
    number, name = counted(row.parts[0].text)
    rest = sorted_parts(row.parts[1:])
    models = [found[1] for found in map(SUCH_AS.fullmatch, rest.others) if found]
    details = [text for text in rest.others if not SUCH_AS.fullmatch(text)]
    return Need(name, number, "; ".join(details), "; ".join(models), rest.provider, row.head)


def counted(text: str) -> tuple[int, str]:
    """Return how many of a thing, and the thing.

    >>> counted("8 loudspeakers"), counted("mixing desk"), counted("5-octave marimba")
    ((8, 'loudspeakers'), (1, 'mixing desk'), (1, '5-octave marimba'))
    """
    found = COUNTED.fullmatch(text)
    return (int(found[1]), found[2]) if found and int(found[1]) else (1, text)


def read_software(text: str) -> tuple[Software, ...]:
    """Read a list of programs: name; exact version; what for; who brings it."""
    return tuple(read_program(row) for row in rows_of(text))


def read_program(row: ListRow) -> Software:
    rest = sorted_parts(row.parts[1:])
    version = next((found[1] for found in map(VERSION.fullmatch, rest.others) if found), "")
    uses = [text for text in rest.others if not VERSION.fullmatch(text)]
    return Software(row.parts[0].text, version, "; ".join(uses), rest.provider)


def read_staff(text: str) -> tuple[Duty, ...]:
    """Read a list of people: role; what and when; who provides them."""
    return tuple(read_duty(row) for row in rows_of(text))


def read_duty(row: ListRow) -> Duty:
    rest = sorted_parts(row.parts[1:])
    return Duty(row.parts[0].text, "; ".join(rest.others), rest.provider)


def read_schedule(text: str) -> tuple[Slot, ...]:
    """Read a schedule: when; what."""
    return tuple(Slot(row.parts[0].text, named(row, 1, "what happens then")) for row in rows_of(text))


def read_places(text: str) -> tuple[Place, ...]:
    """Read what stands on the stage: name; metres to the right of the middle; metres from the front edge; channels."""
    return tuple(read_place(row) for row in rows_of(text))


def read_place(row: ListRow) -> Place:
    name = row.parts[0].text
    named(row, 2, "how many metres it stands right of the middle and behind the front edge")
    x, y = (decimal_in(row, part, "m") for part in row.parts[1:3])
    if not (-100 <= x <= 100 and -50 <= y <= 100):
        raise row.mistake(f"“{name}” stands too far away for a stage plan.")
    channels = "; ".join(part.text for part in row.parts[3:])
    return Place(name, x, y, first_match(MARKS, name) or Mark.PLAYER, channels)
