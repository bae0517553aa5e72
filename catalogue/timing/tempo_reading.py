"""Reads a tempo map: plain text, one passage a line.

    line     = [ passage | upbeat | repeat | cut | movement | join ] , [ "#" , comment ] ;
    passage  = bars , ( metre , motion | "free" , seconds ) ;
    upbeat   = "upbeat" , metre , motion ;
    motion   = tempo , [ ( ">" | ">>" ) , tempo ] , [ "hold" , seconds ] ;
    repeat   = "repeat" , bars , [ "x" , times ] , [ "last" , bars ] ;
    cut      = "cut" , bars ;
    movement = [ join ] , "movement" , [ '"' , name , '"' ] , [ join ] ;
    join     = "attacca" | "gap" , seconds ;
    bars     = number , [ "-" , number ] ;
    metre    = number , { "+" , number } , "/" , power of two ;
    tempo    = ( "w" | "h" | "q" | "e" | "s" ) , [ "." ] , "=" , number ;

Bars run on from 1 in every movement without gap or overlap; seconds may be written 90, 90.5 or 1:30.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from catalogue.timing.mistakes import Mistake
from catalogue.timing.tempo_maps import (
    Attacca,
    Change,
    Cut,
    Free,
    Gap,
    Line,
    Measured,
    Metre,
    MovementMark,
    Repeat,
    Statement,
    Tempo,
    TempoMap,
    Upbeat,
)
from catalogue.timing.tempo_structure import Numbered, StructureFault, movements_of

LONGEST_TEXT = 200_000
HIGHEST_BAR = 9_999
MOST_TIMES = 999
LONGEST_SECONDS = 86_400
LONGEST_HOLD = 600


class TempoError(Mistake):
    """A tempo map that cannot be read; ``line`` and ``column`` count from 1, and the sentence names the line."""

    def __init__(self, reason: str, text: str, line: int, start: int, end: int) -> None:
        super().__init__(f"Line {line}: {reason}", text, start, end)
        self.line = line
        self.column = start - (text.rfind("\n", 0, start) + 1) + 1

    def __str__(self) -> str:
        shown = self.text.split("\n")[self.line - 1].rstrip("\r")
        return f"{self.reason}\n{shown}\n{' ' * (self.column - 1)}{'^' * max(1, self.end - self.start)}"


def read_tempo_map(text: str) -> TempoMap:
    """Return the map that a text describes. Raises TempoError at the first line that cannot be used.

    >>> read_tempo_map("1-16  4/4  q=72").movements[0].last
    16
    """
    if len(text) > LONGEST_TEXT:
        raise TempoError("this is too long for a tempo map.", text, 1, 0, 0)
    lines: list[Line] = []
    numbered: list[Numbered] = []
    readers = [LineReader(text, number, start) for number, start in enumerate(_starts(text), start=1)]
    for reader in readers:
        statements = _statements(reader)
        numbered += [Numbered(statement, reader.number) for statement in statements]
        lines += [Line(statement) for statement in statements[:-1]]
        lines.append(Line(statements[-1] if statements else None, reader.comment))
    try:
        movements = movements_of(tuple(numbered))
    except StructureFault as fault:
        raise readers[fault.line - 1].whole_line(fault.reason) from fault
    return TempoMap(_without_blank_end(lines), movements)


def _starts(text: str) -> list[int]:
    return [0] + [match.end() for match in re.finditer("\n", text)]


def _without_blank_end(lines: list[Line]) -> tuple[Line, ...]:
    while lines and lines[-1] == Line(None):
        lines.pop()
    return tuple(lines)


class LineReader:
    """Takes one line apart from left to right."""

    SPACE = re.compile(r"[^\S\n]*")

    def __init__(self, text: str, number: int, start: int) -> None:
        self.text = text
        self.number = number
        end = text.find("\n", start)
        whole_end = len(text) if end < 0 else end
        self.end = self._end_of_body(start, whole_end)
        rest = text[self.end : whole_end].strip()
        self.comment = rest.removeprefix("#").strip()
        self.start = self.position = self._after_space(start)

    def _end_of_body(self, start: int, whole_end: int) -> int:
        """Return where the comment begins; a # between quotation marks begins none."""
        quoted = False
        for position in range(start, whole_end):
            sign = self.text[position]
            quoted = not quoted if sign == '"' else sign == "“" or (quoted and sign != "”")
            if sign == "#" and not quoted:
                return position
        return whole_end

    def _after_space(self, position: int) -> int:
        match = self.SPACE.match(self.text, position, self.end)
        return match.end() if match else position

    @property
    def done(self) -> bool:
        return self.position >= self.end

    def attempt(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Take what matches, and the space behind it; nothing where it does not."""
        match = pattern.match(self.text, self.position, self.end)
        if match:
            self.position = self._after_space(match.end())
        return match

    def take(self, pattern: re.Pattern[str], wanted: str) -> re.Match[str]:
        match = self.attempt(pattern)
        if match is None:
            raise self.fault_here(wanted)
        return match

    def fault_here(self, wanted: str) -> TempoError:
        word = re.compile(r"\S*").match(self.text, self.position, self.end)
        found = word[0] if word else ""
        reason = f"{wanted} is wanted where “{found}” stands." if found else f"{wanted} is missing at the end."
        return TempoError(reason, self.text, self.number, self.position, self.position + len(found))

    def fault_at(self, match: re.Match[str], reason: str) -> TempoError:
        return TempoError(reason, self.text, self.number, match.start(), match.end())

    def whole_line(self, reason: str) -> TempoError:
        end = self.start + len(self.text[self.start : self.end].rstrip())
        return TempoError(reason, self.text, self.number, self.start, end)


FIGURE = r"[0-9]{1,7}(?:[.,][0-9]{1,6})?"
BARS = re.compile(r"([0-9]{1,7})(?:\s*[-–—]\s*([0-9]{1,7}))?(?![\w/])")
METRE = re.compile(r"([0-9]{1,3}(?:\s*\+\s*[0-9]{1,3})*)\s*/\s*([0-9]{1,3})(?!\w)")
TEMPO = re.compile(rf"([whqes]\.?)\s*=\s*({FIGURE})(?!\w)", re.IGNORECASE)
CHANGE = re.compile(r">>?")
SECONDS = re.compile(rf"(?:([0-9]{{1,4}}):(?=[0-5][0-9]))?({FIGURE})(?!\w)")
TIMES = re.compile(r"[x×]\s*([0-9]{1,3})(?!\w)", re.IGNORECASE)
NAME = re.compile(r'"([^"“”]*)"|“([^"“”]*)”')
WORDS = ("repeat", "cut", "movement", "attacca", "gap", "upbeat", "free", "hold", "last")
WORD = {word: re.compile(rf"{word}(?!\w)", re.IGNORECASE) for word in WORDS}


def _statements(reader: LineReader) -> list[Statement]:
    """Return what a line says: nothing, one statement, or a movement and how it is joined."""
    if reader.done:
        return []
    joined = _attempt_join(reader)
    if joined and reader.done:
        return [joined]
    if reader.attempt(WORD["movement"]):
        return _movement(reader, joined)
    if joined:
        raise reader.fault_here("“movement”")
    statement = _statement(reader)
    if not reader.done:
        raise reader.fault_here("the end of the line")
    return [statement]


def _statement(reader: LineReader) -> Statement:
    forms: tuple[tuple[str, Callable[[LineReader], Statement]], ...] = (
        ("upbeat", _upbeat),
        ("repeat", _repeat),
        ("cut", _cut),
    )
    for word, form in forms:
        if reader.attempt(WORD[word]):
            return form(reader)
    return _passage(reader)


def _attempt_join(reader: LineReader) -> Attacca | Gap | None:
    if reader.attempt(WORD["attacca"]):
        return Attacca()
    return Gap(_seconds(reader, least=0)) if reader.attempt(WORD["gap"]) else None


def _movement(reader: LineReader, joined: Attacca | Gap | None) -> list[Statement]:
    match = reader.attempt(NAME)
    name = (match[1] or match[2] or "").strip() if match else ""
    joined = joined or _attempt_join(reader)
    if not reader.done:
        raise reader.fault_here("a name between quotation marks" if match is None else "the end of the line")
    mark = MovementMark(name)
    return [joined, mark] if joined else [mark]


def _passage(reader: LineReader) -> Statement:
    start = "a bar number, repeat, cut, movement, attacca, gap or upbeat"
    first, last = _bars(reader, start)
    if reader.attempt(WORD["free"]):
        return Free(first, last, _seconds(reader))
    return _measured(reader, first, last)


def _upbeat(reader: LineReader) -> Upbeat:
    return Upbeat(_measured(reader, 0, 0))


def _measured(reader: LineReader, first: int, last: int) -> Measured:
    metre, tempo = _metre(reader), _tempo(reader)
    change = reader.attempt(CHANGE)
    towards = _tempo(reader) if change else None
    hold = _seconds(reader, most=LONGEST_HOLD) if reader.attempt(WORD["hold"]) else Fraction(0)
    return Measured(first, last, metre, tempo, Change(change[0]) if change else None, towards, hold)


def _repeat(reader: LineReader) -> Repeat:
    first, last = _bars(reader, "a bar number")
    times = _attempt_times(reader)
    ending = _bars(reader, "a bar number") if reader.attempt(WORD["last"]) else None
    times = times or _attempt_times(reader) or 2
    return Repeat(first, last, times, ending)


def _attempt_times(reader: LineReader) -> int | None:
    match = reader.attempt(TIMES)
    if match and not 2 <= int(match[1]) <= MOST_TIMES:
        raise reader.fault_at(match, f"what is repeated is played between 2 and {MOST_TIMES} times in all.")
    return int(match[1]) if match else None


def _cut(reader: LineReader) -> Cut:
    return Cut(*_bars(reader, "a bar number"))


def _bars(reader: LineReader, wanted: str) -> tuple[int, int]:
    match = reader.take(BARS, wanted)
    first, last = int(match[1]), int(match[2] or match[1])
    if last < first:
        raise reader.fault_at(match, f"bar {last} comes before bar {first}.")
    if last > HIGHEST_BAR:
        raise reader.fault_at(match, f"bars are counted up to {HIGHEST_BAR}.")
    return first, last


def _metre(reader: LineReader) -> Metre:
    match = reader.take(METRE, "a metre such as 4/4")
    groups, unit = tuple(int(group) for group in match[1].split("+")), int(match[2])
    if not all(groups) or sum(groups) > 99:
        raise reader.fault_at(match, "a bar has between 1 and 99 beats.")
    if unit not in (1, 2, 4, 8, 16, 32, 64):
        raise reader.fault_at(match, "the lower figure of a metre is 1, 2, 4, 8, 16, 32 or 64.")
    return Metre(groups, unit)


def _tempo(reader: LineReader) -> Tempo:
    match = reader.take(TEMPO, "a tempo such as q=72")
    count = Fraction(match[2].replace(",", "."))
    if not 0 < count <= 10_000:
        raise reader.fault_at(match, "a tempo lies above 0 and at most at 10000 notes a minute.")
    return Tempo(match[1].lower(), count)


def _seconds(reader: LineReader, *, least: int | None = None, most: int = LONGEST_SECONDS) -> Fraction:
    """Take seconds, more than nought or, with ``least``, at least that many."""
    match = reader.take(SECONDS, "a number of seconds")
    seconds = int(match[1] or 0) * 60 + Fraction(match[2].replace(",", "."))
    if seconds > most:
        raise reader.fault_at(match, f"at most {most} seconds can stand here.")
    if seconds == 0 and least is None:
        raise reader.fault_at(match, "this has to be more than 0 seconds.")
    return seconds
