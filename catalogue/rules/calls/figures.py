"""Numbers, lengths and dates in running text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from catalogue.rules.calls.loose_days import weekdays_told
from catalogue.rules.calls.words import NUMBER, number_of, plain
from catalogue.timing import DateError, read_date

HOURS = r"hours?|stunden?|heures?|ore\b|ora\b|horas?|uren|uur"
MINUTES = r"minutes?|mins?|minuten|minuti|minuto|minutos|minuut|mn|'(?!')"
SECONDS = r"seconds?|secs?|sekunden|secondes?|secondi|segundos|seconden|\"|''"
FIGURE = re.compile(
    rf"(?<![\w.,:/€£$])(?:(?P<clock>\d{{1,3}})(?:'|:)\s?(?P<rest>[0-5]\d)(?:\"|'')?(?![\d:])"
    rf"|(?P<number>{NUMBER}|\d{{1,3}}[.,]5)(?:\s*(?P<half>1/2|½|and a half|einhalb|et demie?|y medi[ao]|e mezz[ao]))?"
    rf"(?:\s*-?\s*(?:full\s+)?(?:(?P<minutes>{MINUTES})|(?P<seconds>{SECONDS})|"
    rf"(?P<hours>{HOURS}))(?![a-z]))?)(?![\w]|[.,/:]\d)"
)
LINKS = (
    r"to|and|or|bis|und|oder|a|et|ou|e|o|y|hasta|tot|en|from|between|nor|ni|ne|noch|but|not|no|non|nicht|weder|more|"
    r"less|fewer|longer|shorter|over|under|uber|unter|oltre|than|mehr|weniger|langer|kurzer|als|mas|menos|piu|meno|"
    r"plus|moins|que|de|di|"
    r"at|most|least|up|max|maximum|maximal|maxim[ao]|massim[ao]|hochstens|min|minimum|minimal|minim[ao]|mindestens|"
    r"almeno|al|au|como|superior[ei]?|inferior[ei]?|superieure?|inferieure?|exceeding|i|gli|ai|los|las|les|un"
)
JOINED = re.compile(rf"(?:[\s,.-]|(?<![a-z])(?:{LINKS})(?![a-z])){{1,24}}")
"""What may stand between a number and the next one that names the unit for both."""
DATES = re.compile(
    r"(?<!\d)\d{4}-\d{2}-\d{2}(?!\d)"
    r"|(?<!\d)\d{1,2}(?:st|nd|rd|th|er|[.º°])?\s+(?:of\s+|de\s+)?[^\W\d_]{3,10}\.?,?\s+(?:of\s+|de\s+)?\d{4}(?!\d)"
    r"|(?<!\w)[^\W\d_]{3,10}\.?\s+\d{1,2}(?:st|nd|rd|th)?,?\s+\d{4}(?!\d)"
    r"|(?<!\w)(?i:end of|ende|fin(?: de)?|fine(?: di)?|finales de)\s+[^\W\d_]{3,10}\s+(?:de\s+)?\d{4}(?!\d)"
    r"|(?<!\d)\d{1,2}[./]\d{1,2}[./]\d{4}(?!\d)"
)
UNITS_OF_DAYS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")
DAYS = (
    *UNITS_OF_DAYS, "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth",
    "eighteenth", "nineteenth", "twentieth", *(f"twenty-{one}" for one in UNITS_OF_DAYS), "thirtieth", "thirty-first",
)  # fmt: skip
FIRSTS = r"premier|primo|primero|ersten"
IN_WORDS = re.compile(
    rf"(?<!\w)(?P<day>{'|'.join(sorted(DAYS, key=len, reverse=True))}|{FIRSTS})"
    r"(?=\s+(?:of\s+|de\s+)?[^\W\d_]{3,10}\.?,?\s+"
    r"(?:de\s+)?\d{4}(?!\d))",
    re.IGNORECASE,
)
MONTHS = re.compile(r"(?<![\w.])(?P<month>[^\W\d_]{3,10})\.?,?\s+(?:of\s+|de\s+)?(?P<year>(?:19|20)\d{2})(?![\d/-])")
END_OF = re.compile(r"(?:end of|ende|fin(?: de)?|fine(?: di)?|finales de)\s+(?=[^\W\d_])", re.IGNORECASE)
YEAR = re.compile(r"(?<![\d/.-])((?:19|20)\d{2})(?![\d/-]\d|\d)")


@dataclass(frozen=True, slots=True)
class Length:
    """A duration as it stands in a text."""

    seconds: int
    start: int
    end: int
    joined: bool = False


@dataclass(frozen=True, slots=True)
class Day:
    """A date as it stands in a text."""

    day: date
    start: int
    end: int


def lengths_in(text: str) -> list[Length]:
    """Return the durations of a plain text; a number joined to one with a unit has the same unit.

    >>> [one.seconds for one in lengths_in("not less than four and not more than six minutes")]
    [240, 360]
    """
    text = text_with_parts(text)
    found: list[Length] = []
    following: tuple[int, int] | None = None
    for match in reversed(list(FIGURE.finditer(text))):
        unit = unit_of(match)
        joined = False
        if match["clock"]:
            seconds = int(match["clock"]) * 60 + int(match["rest"])
            unit = 60
        else:
            if not unit and following and JOINED.fullmatch(text, match.end(), following[0]):
                unit, joined = following[1], True
            seconds = round(value_of(match) * unit)
        if unit:
            found.append(Length(seconds, match.start(), match.end(), joined))
            following = match.start(), unit
    return seconds_joined(with_later(list(reversed(found)), text), text)


ENDING = re.compile(
    rf"(?:,|and|or|und|but) (?P<number>{NUMBER})(?P<half> and a half)? (?=at (?:the )?(?:very )?(?:most|outside)|"
    rf"maximum|"
    r"hochstens|au (?:plus|maximum)|al massimo|como maximo)"
)
LATER = re.compile(
    rf"(?:(?<![a-z])(?:and|but|y|e|et|und|ni|ne|nor|noch)|,) ?(?:(?:must|should|may|has to|soll\w*|muss|doit|deve|"
    rf"debe) "
    rf"(?:stay |remain |be |last |run )?)?(?:(?:at (?:most|least)|(?:quella )?(?:maxim[ao]|"
    rf"massim[ao]|"
    rf"minim[ao])(?: de| di)?|baj(?:ar|e|en) de|descend\w+ (?:de|sous|sotto)|scend\w+ sotto|(?:max|min)\.?|"
    rf"maximale? de|maximal|(?:no |not |non |nicht |mas |piu |plus )*(?:more|"
    rf"less|longer|shorter|fewer|mehr|weniger|mas|menos|piu|meno|plus|moins|superior[ei]?|superieure?|inferior[ei]?)"
    rf" (?:than|als|de|di|a|ai)|hochstens|mindestens|under|less than|below)) (?P<number>{NUMBER})"
    r"(?=[.,;)\s]*$|[.,;)]| long| in\b| at (?:the )?most)"
)


def with_later(lengths: list[Length], text: str) -> list[Length]:
    """Add the numbers that follow a length and have its unit: *no more than twelve minutes and no less than four*."""
    found = list(lengths)
    for match in LATER.finditer(text):
        before = [one for one in lengths if one.end <= match.start()]
        known = any(one.start <= match.start("number") < one.end for one in lengths)
        if before and not known:
            found.append(Length(number_of(match["number"]) * 60, match.start("number"), match.end("number"), True))
    for match in ENDING.finditer(text):
        known = any(one.start <= match.start("number") < one.end for one in found)
        if lengths and lengths[0].end <= match.start() and not known:
            seconds = number_of(match["number"]) * 60 + (30 if match["half"] else 0)
            found.append(Length(seconds, match.start("number"), match.end(), True))
    return sorted(found, key=lambda one: one.start)


PARTS_OF_HOUR = (
    (
        re.compile(r"(?:three quarters of an hour|trois quarts d'heure|tre quarti d'ora|tres cuartos de hora)"),
        "45'",
    ),
    (
        re.compile(
            r"(?:mezza ora|half an hour|a half[- ]hour|eine halbe stunde|einer halben stunde|une demi-heure|"
            r"mezz'ora|media hora)"
        ),
        "30'",
    ),
    (
        re.compile(r"(?:a quarter of an hour|eine viertelstunde|un quart d'heure|un quarto d'ora|un cuarto de hora)"),
        "15'",
    ),
    (re.compile(r"(?<![a-z])(?:an|une?|un'|einer?) (?:hour|heure|ora|hora|stunde)(?![a-z])"), "60'"),
)


def text_with_parts(text: str) -> str:
    """Return the text with halves and quarters of an hour in minutes, its length unchanged."""
    for pattern, minutes in PARTS_OF_HOUR:
        for match in pattern.finditer(text):
            text = f"{text[: match.start()]}{minutes[:-1].ljust(len(match[0]) - 1)}'{text[match.end() :]}"
    return text


def unit_of(match: re.Match[str]) -> int:
    return next((size for name, size in UNITS if match[name]), 0)


UNITS = (("minutes", 60), ("seconds", 1), ("hours", 3600))


def value_of(match: re.Match[str]) -> float:
    number = match["number"]
    whole = float(number.replace(",", ".")) if re.fullmatch(r"\d+[.,]5", number) else float(number_of(number))
    return whole + (0.5 if match["half"] else 0)


def seconds_joined(lengths: list[Length], text: str) -> list[Length]:
    """Join minutes with the seconds that follow them: ``8 minutes 30 seconds``."""
    found: list[Length] = []
    for one in lengths:
        last = found[-1] if found else None
        between = text[last.end : one.start].strip() if last else "-"
        if last and between in ("", "and", "und", "et") and one.seconds < 60 <= last.seconds and not last.joined:
            found[-1] = Length(last.seconds + one.seconds, last.start, one.end, last.joined)
        else:
            found.append(one)
    return found


def days_in(text: str, *, month_first: bool = False) -> list[Day]:
    """Return the full dates of a text.

    >>> [str(one.day) for one in days_in("by Friday 12 February 2027, 17:00")]
    ['2027-02-12']
    """
    found = []
    text = with_days_in_figures(text)
    for match in DATES.finditer(text):
        ending = END_OF.match(match[0])
        try:
            read = read_date(
                (match[0][ending.end() :] if ending else match[0]).replace(",", ", "),
                language="en-US" if month_first else "en-GB",
            )
        except DateError:
            continue
        day = read.last if ending and read.month else read.exact
        if day is not None:
            found.append(Day(day, match.start(), match.end()))
    by_weekday = [Day(one.first, one.start, one.end) for one in weekdays_told(text)]
    return sorted([*found, *by_weekday], key=lambda one: one.start) if by_weekday else found


def with_days_in_figures(text: str) -> str:
    """Return the text with the days of dates in figures, its length unchanged.

    >>> with_days_in_figures("on the first of March 2027")
    'on the 1     of March 2027'
    """

    def figure(match: re.Match[str]) -> str:
        day = match["day"].lower()
        return str(DAYS.index(day) + 1 if day in DAYS else 1).ljust(len(day))

    return IN_WORDS.sub(figure, text)


def months_in(text: str) -> list[tuple[date, date]]:
    """Return the first and the last day of each month that a text names without a day.

    >>> [(str(first), str(last)) for first, last in months_in("written since September 2018")]
    [('2018-09-01', '2018-09-30')]
    """
    found = []
    for match in MONTHS.finditer(without_days(text)):
        try:
            read = read_date(f"{match['month']} {match['year']}", language="en-GB")
        except DateError:
            continue
        if read.month and read.first != read.last:
            found.append((read.first, read.last))
    return found


def without_days(text: str) -> str:
    """Return the text with blanks for its full dates."""
    text = DATES.sub(lambda match: " " * len(match[0]), with_days_in_figures(text))
    for one in weekdays_told(text):
        text = text[: one.start] + " " * (one.end - one.start) + text[one.end :]
    return text


def years_in(text: str) -> list[int]:
    """Return the bare years of a text, those of full dates left out."""
    without = without_days(text)
    return [
        int(match[1]) for match in YEAR.finditer(re.sub(r"(?<=\d{4})\s?-\s?(?=(?:19|20)\d{2})", " - ", plain(without)))
    ]
