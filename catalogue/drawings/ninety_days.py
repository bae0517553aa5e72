"""The line of the coming days: performances stand above it, what is due hangs below.

A place along the line is a percentage of its width, a height is in pixels, so that type keeps its size however wide the
picture is drawn; there is no viewBox. A disc is a performance, a ring one that is not certain yet; a small ring is
something due. A wide picture (class ``roomy``) tells names and places, a narrow one (``tight``) dates alone, each only
where there is room; a page holds both and shows one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import takewhile
from xml.sax.saxutils import escape, quoteattr

DAYS = 90
LEFT, ALONG = 1.0, 98.0  # per cent: where today stands, and how long the days are
WIDE, NARROW = 1112, 328  # pixels that a wide picture and a narrow one are reckoned with
LEVEL, ROW, STEP = 34.0, 16.0, 13.0  # pixels: between levels of names, rows of discs, rows of rings
DISC, RING = 7.0, 4.0  # radii
NAME_LETTER, DATE_LETTER, GAP = 7.4, 6.9, 14.0  # pixels: usual widths, and what keeps labels apart
LEVELS, DATE_WIDE, TODAY_WIDE, MONTH_WIDE = 4, 46.0, 40.0, 72.0
LONGEST = 36  # letters of a title


@dataclass(frozen=True, slots=True)
class Concert:
    """A performance on the line; ``language`` is that of the title (BCP 47), ``day_text`` the date as it is written."""

    day: date
    title: str
    day_text: str
    place: str = ""
    language: str = ""
    certain: bool = True


@dataclass(frozen=True, slots=True)
class Label:
    """Where the words of a concert stand: ``level`` 0 is the lowest; ``before`` says that they end at its mark."""

    level: int
    before: bool = False


@dataclass(frozen=True, slots=True)
class Picture:
    """Where everything stands: along the line in per cent, above and below it in rows; words that have room."""

    today: date
    is_wide: bool
    concerts: tuple[tuple[float, int, Concert, Label | None], ...]
    due: tuple[tuple[float, int], ...]
    months: tuple[tuple[float, date], ...]

    @property
    def stacked(self) -> float:
        """How high discs stand upon others."""
        return ROW * max((row for _x, row, _concert, _label in self.concerts), default=0)

    @property
    def line(self) -> float:
        """How far the line lies below the top: words first, then discs."""
        levels = max((label.level for *_, label in self.concerts if label), default=0)
        return (60 if self.is_wide else 43) + LEVEL * levels + self.stacked

    @property
    def foot(self) -> float:
        """How far the names of months lie below the top."""
        rows = max((row + 1 for _x, row in self.due), default=1)
        return self.line + 62 + STEP * max(0, rows - 3)


def ninety_days(today: date, concerts: Iterable[Concert], due: Iterable[date], *, width: float = WIDE) -> Picture:
    """Place the concerts and what is due in the coming days; what lies outside them is left out, the late due today.

    ``width`` is what the picture is reckoned with, in pixels; below ``WIDE`` it tells dates alone.
    """
    last = today + timedelta(days=DAYS)
    shown = sorted((one for one in concerts if today <= one.day <= last), key=lambda one: one.day)
    hanging = sorted(max(day, today) for day in due if day <= last)
    places = [along(one.day, today) for one in shown]
    below = [along(day, today) for day in hanging]
    rows = rows_of(places, 2 * DISC / width * 100)
    labels = names_beside(shown, places) if width >= WIDE else dates_above(places, width)
    return Picture(
        today,
        width >= WIDE,
        tuple(zip(places, rows, shown, labels, strict=True)),
        tuple(zip(below, rows_of(below, (2 * RING + 3) / width * 100), strict=True)),
        tuple(months_of(today, last, width)),
    )


def along(day: date, today: date) -> float:
    """Return how far along the line a day stands, in per cent.

    >>> along(date(2026, 3, 28), date(2026, 3, 9))
    21.69
    """
    return round(LEFT + (day - today).days * ALONG / DAYS, 2)


def rows_of(places: Sequence[float], wide: float) -> list[int]:
    """Return for each mark, from left to right, the first row in which it touches no other."""
    ends: list[float] = []
    rows = []
    for place in places:
        row = next((row for row, end in enumerate(ends) if place >= end), len(ends))
        ends[row : row + 1] = [place + wide]
        rows.append(row)
    return rows


def names_beside(concerts: Sequence[Concert], places: Sequence[float]) -> Iterator[Label | None]:
    """Give for each concert where name and place have room: the lowest level at which they meet no others."""
    ends = [0.0] * LEVELS
    for concert, place in zip(concerts, places, strict=True):
        letters = max(len(clipped(concert.title)) * NAME_LETTER, len(beside(concert)) * DATE_LETTER)
        wide = letters / WIDE * 100
        before = place + wide > 100
        start, end = (place - wide, place) if before else (place, place + wide)
        level = next((level for level in range(LEVELS) if start >= ends[level]), None)
        if level is not None:
            ends[level] = end + GAP / WIDE * 100
        yield None if level is None else Label(level, before)


def dates_above(places: Sequence[float], width: float) -> Iterator[Label | None]:
    """Give for each concert whether its date has room above the mark."""
    half, taken = DATE_WIDE / width * 50, 0.0
    for place in places:
        has_room = taken <= place - half and place + half <= 100
        taken = place + half if has_room else taken
        yield Label(0) if has_room else None


def clipped(title: str) -> str:
    return title if len(title) <= LONGEST else f"{title[: LONGEST - 1].rstrip()}…"


def beside(concert: Concert) -> str:
    return ", ".join(part for part in (concert.day_text, concert.place) if part)


def months_of(today: date, last: date, width: float) -> Iterator[tuple[float, date]]:
    """Give where each month begins, the running one at today where its name has room before the next."""
    begins = (today.replace(day=1) + timedelta(days=32 * number) for number in range(1, 5))
    firsts = list(takewhile(lambda day: day <= last, (day.replace(day=1) for day in begins)))
    if along(firsts[0], today) - LEFT >= MONTH_WIDE / width * 100:
        yield LEFT, today
    yield from ((along(first, today), first) for first in firsts)


# ---- as SVG


def to_svg(picture: Picture, *, title: str, today_word: str, months: Sequence[str]) -> str:
    """The picture as an SVG element; ``title`` says it in a sentence, ``months`` are the twelve names."""
    line = picture.line
    is_free = picture.is_wide and all(x >= LEFT + TODAY_WIDE / WIDE * 100 for x, *_ in picture.concerts)
    parts = [
        *(part for month in picture.months for part in month_marks(month, picture, months)),
        stroke("axis", 0, 100, line, line),
        stroke("heavy", LEFT, LEFT, line - 13, line),
        *([text("dim", LEFT, line - 18, today_word)] if is_free else []),
        *(part for concert in picture.concerts for part in leader(concert, picture)),
        *(part for concert in picture.concerts for part in concert_marks(concert, picture)),
        *(disc("hollow", x, line + 12 + STEP * row, RING) for x, row in picture.due),
    ]
    look = "roomy" if picture.is_wide else "tight"
    head = f'<svg class="{look}" role="img" height="{n(picture.foot + 6)}">'
    return f"{head}<title>{escape(title)}</title>{''.join(parts)}</svg>"


def month_marks(month: tuple[float, date], picture: Picture, names: Sequence[str]) -> Iterator[str]:
    x, first = month
    yield stroke("hair", x, x, picture.line, picture.foot - 18)
    yield text("dim", x, picture.foot, names[first.month - 1], anchor="end" if x > 85 else "")


Placed = tuple[float, int, Concert, Label | None]


def leader(placed: Placed, picture: Picture) -> Iterator[str]:
    """Draw the line that leads from words higher up down to their mark; words in its way are drawn over it."""
    x, row, _concert, label = placed
    if label and label.level:
        yield stroke("hair", x, x, name_height(label, picture) + 22, disc_height(row, picture))


def name_height(label: Label, picture: Picture) -> float:
    return picture.line - 46 - picture.stacked - LEVEL * label.level


def disc_height(row: int, picture: Picture) -> float:
    return picture.line - 13 - ROW * row


def concert_marks(placed: Placed, picture: Picture) -> Iterator[str]:
    x, row, concert, label = placed
    if label and picture.is_wide:
        name, anchor = name_height(label, picture), "end" if label.before else ""
        yield text("name", x, name, clipped(concert.title), anchor=anchor, language=concert.language)
        yield text("dim", x, name + 17, beside(concert), anchor=anchor)
    elif label:
        yield text("dim", x, name_height(label, picture) + 17, concert.day_text, anchor="middle")
    yield disc("ink" if concert.certain else "hollow", x, disc_height(row, picture), DISC)


def stroke(name: str, x1: float, x2: float, y1: float, y2: float) -> str:
    return f'<line class="{name}" x1="{n(x1)}%" x2="{n(x2)}%" y1="{n(y1)}" y2="{n(y2)}"/>'


def disc(name: str, x: float, y: float, radius: float) -> str:
    return f'<circle class="{name}" cx="{n(x)}%" cy="{n(y)}" r="{n(radius)}"/>'


def text(name: str, x: float, y: float, words: str, *, anchor: str = "", language: str = "") -> str:
    more = f" text-anchor={quoteattr(anchor)}" if anchor else ""
    more += f" lang={quoteattr(language)}" if language else ""
    return f'<text class="{name}" x="{n(x)}%" y="{n(y)}"{more}>{escape(words)}</text>'


def n(number: float) -> str:
    """A length with at most two decimals."""
    return f"{round(number, 2):g}"
