"""Until when a call is open: the day, the hour, and the clock it goes by.

A call that names several days is read by the earliest, and the contradiction is said. An abbreviation that names the
wrong half of the year (CET in July) is read as the place's own clock or literally, whichever comes first. An hour for
which neither a clock nor a known place is named stays an hour on an unknown clock, to be asked about.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, timezone
from zoneinfo import ZoneInfo

from catalogue.rules.calls.figures import days_in, without_days
from catalogue.rules.calls.loose_days import months_told, spans_told
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import Found
from catalogue.rules.calls.words import NUMBER, has, number_of, plain
from catalogue.rules.calls.zones import OFFSET, clocks, zone_of_text, zone_of_words
from catalogue.rules.phrases import listed

STRONG = (
    r"deadline|closing (?:date|day)|closes?\b|einsendeschluss|einreichfrist|bewerbungsschluss|bewerbungsfrist|"
    r"abgabeschluss|abgabetermin|stichtag fur die einsendung|date limite|cloture|scadenza|fecha limite|plazo|termine|"
    r"sluitingsdatum|due (?:date|by|on)|(?:is|are) due|last day|\w*termin\b|\w*schluss\b|finaliza|se cierra|"
    r"si chiud\w+|se cierran?\b|schlies+(?:t|en)\b|scad(?:e|ono|ra|ranno)\b|lauft ab\b|vence\b|quand\b|when\b|"
    r"einsendefrist|"
    r"final date|last date|date for (?:entries|submissions|receipt)|"
    r"(?:ausschreibung|aufruf|bewerbungsphase|frist|call|competition)\b[^.;]{0,30}(?:endet|ends)\b|"
    r"fin des? (?:inscriptions|candidatures|depots?|l'appel)|concluye|"
    r"(?:window|call|form|portal|inbox|doors?|entries|submissions?|applications?) (?:shuts?|ends?|expires?)\b|shuts\b|"
    r"annahmeschluss|bewerbungsende|\w*frist\b|dernier delai|ultimo giorno|cierre\b|fin de plazo|chiusura"
)
MEDIUM = (
    r"(?:post(?:ed|mark)|receiv|arriv|reach|submit|send|sent|upload|entries|applications?|everything|with us|"
    r"materials?|have everything|hear from you|einsend|bei uns sein|uns erreichen|da sein|einzusend|bewerbung|"
    r"eingang|eingegangen|envoy|candidatures?|invi(?:at|are|o\b)|domande|manda|enviar|envi[oe]|postmark|apply|"
    r"parven|parvien|perven|remett|remise|consegn|recib|presentar|einreich|eingereicht|write to us|partitur|partition)"
)
BY = (
    r"(?:by|until|till|before|no later than|not later than|up to|bis|spatestens|avant|jusqu|entro|antes|hasta|voor|"
    r"au plus tard)\b"
)
OTHER = (
    r"born|composed|written|completed|geboren|komponiert|entstanden|age\b|aged|altersgrenze|interview|concert on|"
    r"premiere on|performance on|results?|announce|notified|winners?|workshop on|counted on|rehears"
)
OPENS = (
    r"opens?\b|opening|eroffn\w*|ouvr\w*|ouvert\w*|apert\w*|apre\b|abiert\w*|"
    r"abre\b|comienz\w*|empiez\w*|commenc\w*|inizi\w*|starts?\b|beginn\w*|stichtag"
)
OF_WORKS = (
    r"composed|completed|written (?:after|in|since|on)|finished|entst\w+|komponiert|vollendet|fertiggestellt|achev|"
    r"compose|ecrit|compost|scritt|terminad|finalizad|compuest|escrit"
)
CLOCK = re.compile(
    r"(?<![\d.,])(?:(?P<hour>\d{1,2})(?::|\.|"
    r"\s?h\s?)(?P<minute>\d{2})\s*(?P<half>[ap]\.?\s?m\b\.?)?(?:\s*(?:uhr|hrs|hours|h))?"
    r"|(?P<only>\d{1,2})\s*(?P<part>[ap]\.?\s?m\b\.?)|(?P<uhr>\d{1,2})\s*(?:uhr|h\b|heures|ore)"
    r"|(?:ore|a las|alle|kl\.?|om) (?P<ore>\d{1,2})(?!\d|[.:h]\d)|(?P<noon>noon|midday|mittag|midi\b|mezzogiorno|"
    r"mediodia)"
    rf"|(?P<said>{NUMBER}|half past {NUMBER})(?: o'?clock)? in the (?P<day>morning|afternoon|evening)|"
    rf"(?P<oclock>{NUMBER}) o'?clock"
    r"|(?P<midnight>midnight|mitternacht|minuit|mezzanotte|medianoche))"
)
TIME = re.compile(r"(?P<zone>[A-Z][\w.-]*(?:[ /][A-Z][\w.-]*)*)\s+(?:[Tt]ime|TIME|Zeit)\b")
IN_BRACKETS = re.compile(r"[(,]\s*(?P<zone>[A-Z][\w .-]{2,30}?)\s*(?:[tT]ime)?\s*\)")


@dataclass(frozen=True, slots=True)
class Moment:
    """One deadline as a passage has it; ``at`` carries its offset, ``rank`` how surely it is the deadline."""

    day: date
    at: datetime | None
    zone: str
    rank: int
    passage: Passage
    odd: str = ""
    hour: str = ""
    by_place: bool = False

    @property
    def first(self) -> datetime:
        """When it has passed for certain: an hour that is not known is taken as the day's end."""
        return self.at.astimezone(UTC) if self.at else datetime.combine(self.day, time(23, 59), UTC)


def read_deadlines(passages: Sequence[Passage], text: str) -> Iterator[Found]:
    """Yield the deadline, its zone and what contradicts it."""
    home, *place = zone_of_text(text)
    found = [moment for passage in passages for moment in moments_in(passage, home, text)]
    if not found:
        found = [bare_moment(passage, home) for passage in passages if is_bare(passage)]
    if not any(one.rank > 1 for one in found):
        found = [*loose_moments(passages, text)] or found
    if not found:
        return
    best = max(one.rank for one in found)
    named = [one for one in found if one.rank == best or one.rank >= 2]
    first = min(named, key=lambda one: (one.day, one.first))
    for one in named:
        yield Found("deadline_text", one.passage.text, one.passage.start, one.passage.end)
    where = first.passage.start, first.passage.end
    yield Found("deadline_day", first.day, *where)
    if first.at:
        yield Found("deadline", first.at, *where)
        yield Found("deadline_zone", first.zone, *(place if first.by_place else where))
    elif first.hour:
        yield Found("deadline_hour", first.hour, *where)
    days = sorted({one.day for one in named})
    if len(days) > 1:
        said = listed([str(one) for one in days])
        yield Found(
            "contradictions", f"The call names more than one deadline: {said}; the earlier one is safe.", *where
        )
    if first.odd:
        yield Found("contradictions", first.odd, *where)


def is_bare(passage: Passage) -> bool:
    """Whether a passage is a day with an hour and little else, as a call may end."""
    days = days_in(passage.text)
    rest = without_days(passage.text)
    return bool(days) and len(passage.text.split()) <= 8 and CLOCK.search(plain(rest)) is not None


def bare_moment(passage: Passage, home: str) -> Moment:
    return moment_of(passage, days_in(passage.text)[0].day, home)


def moments_in(passage: Passage, home: str, text: str) -> Iterator[Moment]:
    rank = 3 if window_of(passage) else rank_of(passage)
    if not rank:
        return
    month_first = home.startswith("America/") and "/" in passage.text
    days = days_in(passage.text, month_first=month_first)
    for index, one in enumerate(days):
        before = plain(passage.text[days[index - 1].end if index else 0 : one.start])
        following = days[index + 1].start if index + 1 < len(days) else None
        if has(OPENS, before[-25:]) or (following and UNTIL.fullmatch(plain(passage.text[one.end : following]))):
            continue
        if rank < 3 and has(OTHER, before[-40:]):
            continue
        yield moment_of(passage, one.day, home)
        if index == 0 and not has(STRONG, plain(passage.text)[one.end :]):
            return


def loose_moments(passages: Sequence[Passage], text: str) -> Iterator[Moment]:
    """Yield deadlines that are told as a part of a month or a month: the first of its days, and that it is not exact.

    A month without a year is one of the only year that the whole text names.
    """
    named = {int(one) for one in re.findall(r"(?<!\d)20\d\d(?!\d)", text)}
    year = named.pop() if len(named) == 1 else None
    for passage in passages:
        said = passage.plain
        rank = 3 if has(STRONG, said) else 2 if has(MEDIUM, said) else 0
        if not rank or has(rf"geboren|born|{OF_WORKS}", said) or days_in(passage.text):
            continue
        spans = spans_told(passage.text, year) or (months_told(passage.text) if rank_of(passage) > 1 else [])
        for one in spans[:1]:
            before = plain(passage.text[: one.start])
            if not has(OTHER, before[-40:]) and not has(OPENS, before[-25:]):
                yield Moment(
                    one.first,
                    None,
                    "",
                    rank,
                    passage,
                    NOT_EXACT.format(passage.text[one.start : one.end].rstrip(" .,"), one),
                )


NOT_EXACT = (
    "The call names no day, only “{0}”, which is {1.first} to {1.last}: the first of these days is taken, to be safe. "
    "Ask the organiser."
)
UNTIL = re.compile(r"\s*(?:to|until|till|bis(?: zum)?|au|al|a|-|hasta(?: el)?|fino al)(?: the| le| il| el)?\s*")
"""What joins the day on which a call opens to the day on which it closes."""
WINDOW = (
    r"window|\w*zeitraum|open (?:from|between)|ouverte?s?\b|apert[aeio]\b|abiert[ao]s?\b|plazo|submissions?:|entries:"
)


def window_of(passage: Passage) -> bool:
    """Whether a passage tells from when to when a call is open."""
    days = days_in(passage.text)
    return (
        len(days) > 1
        and has(WINDOW, passage.plain)
        and UNTIL.fullmatch(plain(passage.text[days[0].end : days[1].start])) is not None
    )


def rank_of(passage: Passage) -> int:
    said = passage.plain
    if has(rf"geboren|born|{OF_WORKS}", said) and not has(STRONG, said):
        return 0
    if has(
        r"age limit|alters|turned|birthday|under \d+ years|aged|years (?:of age|old)|alter als|junger als|"
        r"lebensjahr|\d ans\b|\d anni\b|\d anos\b|interviews?|results will|notif",
        said,
    ) and not has(r"deadline:|closing date:", said):
        return 0
    if has(STRONG, said):
        return 3
    if has(MEDIUM, said) and has(BY, said):
        return 2
    return 1 if has(BY, said) else 0


def moment_of(passage: Passage, day: date, home: str) -> Moment:
    """Return the moment that a passage names on a day."""
    rest = without_days(passage.text)
    match = CLOCK.search(plain(rest))
    rank = rank_of(passage)
    if match is None:
        return Moment(day, None, "", rank, passage)
    clock, later = clock_of(match, plain(rest))
    zone, fixed = zone_named_in(rest, home)
    if not zone and fixed is None:
        return Moment(day, None, "", rank, passage, hour="24:00" if later else f"{clock:%H:%M}")
    wall = datetime.combine(day, clock) + timedelta(days=later)
    at, odd = settled(wall, zone, fixed)
    return Moment(day, at, zone, rank, passage, odd, by_place=zone_named_in(rest, "") == ("", None))


def clock_of(match: re.Match[str], said: str) -> tuple[time, int]:
    """Return the time of day and how many days later it falls: midnight is the end of the day unless it is said."""
    if match["midnight"]:
        starts = has(r"at the (?:start|beginning)|beginning of|zu beginn", said)
        return time(0, 0), 0 if starts else 1
    if match["noon"]:
        return time(12, 0), 0
    if match["said"] or match["oclock"]:
        return spoken_clock(match), 0
    hour = int(match["hour"] or match["only"] or match["uhr"] or match["ore"])
    minute, half = int(match["minute"] or 0), (match["half"] or match["part"] or "")[:1]
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    if hour == 24 and minute == 0:
        return time(0, 0), 1
    return time(min(hour, 23), min(minute, 59)), 0


def spoken_clock(match: re.Match[str]) -> time:
    """Return an hour in words: *five in the afternoon*, *half past nine in the morning*; twelve o'clock is noon."""
    words = match["said"] or match["oclock"]
    hour = number_of(words.removeprefix("half past ").strip()) % 24
    later = hour < 12 and match["day"] in ("afternoon", "evening")
    return time(hour + (12 if later else 0), 30 if words.startswith("half") else 0)


SPOKEN_CLOCKS = {
    r"[ap]\.? ?m\.?,? eastern": "America/New_York",
    r"[ap]\.? ?m\.?,? central(?! europe)": "America/Chicago",
    r"[ap]\.? ?m\.?,? pacific": "America/Los_Angeles",
    r"hora (?:peninsular|espanola|de madrid|de barcelona)": "Europe/Madrid",
    r"heure (?:francaise|de paris|de metropole)": "Europe/Paris",
    r"heure (?:belge|de bruxelles)": "Europe/Brussels",
    r"heure suisse": "Europe/Zurich",
    r"or[ae] (?:italian[ae]|di roma|di milano)": "Europe/Rome",
}


def zone_named_in(text: str, home: str) -> tuple[str, str | None]:
    """Return the IANA zone by which a passage goes, and the abbreviation or offset that it names."""
    offset = OFFSET.search(text)
    if offset:
        return home, offset[0]
    for short in clocks().fixed:
        if re.search(rf"\b{short}\b", text):
            return ("UTC", None) if short == "UTC" else (home, short)
    for pattern, zone in SPOKEN_CLOCKS.items():
        if has(pattern, plain(text)):
            return zone, None
    for match in (*TIME.finditer(text), *IN_BRACKETS.finditer(text)):
        words = match["zone"].split(" ")
        for first in range(len(words)):
            zone = zone_of_words(" ".join(words[first:]))
            if zone:
                return zone, None
    return home, None


def settled(wall: datetime, zone: str, fixed: str | None) -> tuple[datetime, str]:
    """Return the moment and, where an abbreviation does not fit the place's clock that day, a sentence."""
    own = wall.replace(tzinfo=ZoneInfo(zone)) if zone else None
    if fixed is None and own is not None:
        return with_offset(own), ""
    literal = wall.replace(tzinfo=timezone(timedelta(hours=hours_of(fixed or "UTC"))))
    if own is None or own.utcoffset() == literal.utcoffset() or abs(hours_between(own, literal)) > 1:
        return literal, ""
    early = min(own, literal)
    return with_offset(early), f"{fixed} is named, but another clock is in force at the place on that day."


def hours_between(one: datetime, other: datetime) -> float:
    return (one - other).total_seconds() / 3600


def hours_of(fixed: str) -> int:
    offset = OFFSET.match(fixed)
    if offset:
        return int(offset["hours"]) * (1 if offset["sign"] == "+" else -1)
    return clocks().fixed[fixed]


def with_offset(moment: datetime) -> datetime:
    """Return the same moment with its offset alone, without the zone's rules."""
    return moment.replace(tzinfo=timezone(moment.utcoffset() or timedelta(0)))
