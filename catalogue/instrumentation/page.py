"""The instrumentation page of a score: a line for each chair with what it also plays, under the names of the families.

Instruments that sound an octave or two from what is written say so, since that holds in a score in C as well
(common practice); keys of transposing instruments stand in the lines' own remarks.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby

from catalogue.instrumentation.bodies import is_choir, is_section
from catalogue.instrumentation.grammar import Grammar, grammar, spread
from catalogue.instrumentation.item_writing import HANDS, has_more
from catalogue.instrumentation.model import Chair, Instrumentation, Line
from catalogue.instrumentation.seats import chairs_by_number
from catalogue.instrumentation.vocabulary import instruments
from catalogue.instrumentation.wording import (
    UNCOUNTED,
    device_phrases,
    line_phrase,
    phrases_of,
    quoting,
    reads_back,
    says_open,
    some_of,
)

MOST_CHAIRS = 60
OCTAVES = {
    "piccolo": 1, "celesta": 1, "xylophone": 1, "glockenspiel": 2, "crotales": 2, "sopranino-recorder": 1,
    "soprano-recorder": 1, "bass-recorder": 1, "bass-flute": -1, "contrabass-flute": -2, "bass-oboe": -1,
    "heckelphone": -1, "contrabassoon": -1, "double-bass": -1, "guitar": -1, "electric-guitar": -1, "bass-guitar": -1,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class PageLine:
    """One line of the page. ``family`` is its label; ``remark`` says how it sounds, where from, or what is optional."""

    family: str
    text: str
    remark: str = ""

    def __str__(self) -> str:
        return f"{self.text} ({self.remark})" if self.remark else self.text


def page_lines(instrumentation: Instrumentation, language: str = "en-GB") -> tuple[PageLine, ...]:
    """Return the page's lines in the order of the forces, the total of people last; then those of other line-ups.

    >>> flutes = Line("flute", "woodwind", (2, 2), chairs=(Chair(2, ("flute", "piccolo")),))
    >>> [str(line) for line in page_lines(Instrumentation((flutes,)))]
    ['Flute 1', 'Flute 2, doubling piccolo (piccolo sounds an octave higher)', '2 players']
    """
    speech = grammar(language)
    first, *others = (tuple(lines_of_line_up(one, speech)) for one in instrumentation.line_ups)
    either = capital(speech.word("or"))
    return (
        *first,
        *(replace(line, family=f"{either}{speech.colon}{line.family}") for lines in others for line in lines),
    )


def lines_of_line_up(instrumentation: Instrumentation, speech: Grammar) -> Iterator[PageLine]:
    yield from chair_lines(instrumentation, speech)
    for said in device_phrases(instrumentation, speech):
        yield PageLine(speech.words["families"]["electronics"], capital(said))
    yield from total_line(instrumentation, speech)


def write_page(instrumentation: Instrumentation, language: str = "en-GB") -> str:
    """Return the page as text, a blank line and its label before each family; it reads back to the same players.

    A remark that would be read as something else stands in quotation marks; *or* stands before another line-up.
    """
    speech = grammar(language)
    either = f"\n\n{capital(speech.word('or'))}{speech.colon.rstrip()}\n"
    return either.join(one_page(one, language) for one in instrumentation.line_ups)


def one_page(instrumentation: Instrumentation, language: str) -> str:
    """Return one line-up's page, the first that reads back: as it is, remarks quoted, the open number told as well."""
    plain = in_lines(instrumentation, language)
    if not any(line.note or is_open_percussion(line) for line in instrumentation.lines):
        return plain
    opening = partial(telling_open, word=grammar(language).word("open"))
    for steps in ((), (quoting,), (opening,), (quoting, opening)):
        lines = instrumentation.lines
        for step in steps:
            lines = tuple(map(step, lines))
        told = in_lines(replace(instrumentation, lines=lines), language)
        if reads_back(told, instrumentation, language):
            return told
    return plain


def is_open_percussion(line: Line) -> bool:
    """Whether the number of percussionists is open, which only an orchestra's page leaves unsaid."""
    return line.instrument == "percussion" and line.players is None


def telling_open(line: Line, word: str) -> Line:
    return replace(line, note="; ".join(filter(None, (word, line.note)))) if is_open_percussion(line) else line


def in_lines(instrumentation: Instrumentation, language: str) -> str:
    found: list[str] = []
    family = None
    for line in page_lines(instrumentation, language):
        if line.family != family:
            label = f"{line.family}{grammar(language).colon.rstrip()}"
            found += ["", label] if found else [label]
            family = line.family
        found.append(f"  {line}")
    return "\n".join(found)


def capital(text: str) -> str:
    """Return a text that begins with a capital letter."""
    return text[:1].upper() + text[1:]


def family_label(line: Line, speech: Grammar) -> str:
    families = speech.words["families"]
    family = "solo" if line.role == "soloist" else line.family
    label = families[family if family in families else "other"]
    return f"{capital(speech.body(line.group))}{speech.colon}{label}" if line.group else str(label)


# ---- players


def chair_lines(instrumentation: Instrumentation, speech: Grammar) -> Iterator[PageLine]:
    for sung, lines in groupby(instrumentation.lines, key=is_choir):
        if sung:
            yield from choir_lines(tuple(lines), speech)
        else:
            others = (line for line in lines if line.family != "electronics")
            yield from (said for line in others for said in lines_of(line, instrumentation, speech))


def lines_of(line: Line, instrumentation: Instrumentation, speech: Grammar) -> Iterator[PageLine]:
    """Give the lines of the score's instrument page for one line of an instrumentation."""
    if line.players is None or line.players[1] > MOST_CHAIRS or is_section(line, instrumentation.lines):
        yield section_line(line, speech)
    elif has_more(line) or shares_list(line) or shares_keyboard(line) or are_undivided(line):
        yield PageLine(family_label(line, speech), capital(line_phrase(line, speech)))
    else:
        yield from lines_of_chairs(line, speech)
        yield from unnamed_doublings(line, speech)


def section_line(line: Line, speech: Grammar) -> PageLine:
    """Return the line of a section: its number of players or desks, and how it is meant."""
    number = f"{spread(line.players)} " if line.players else ""
    several = 1 if line.instrument in UNCOUNTED or (line.instrument == "percussion" and not line.players) else 2
    desks = f"({speech.word('desks')})" if line.unit == "desks" else ""
    meant = speech.word(line.strength) if line.strength in ("preferred", "least") else ""
    meant = meant or (speech.word("open") if line.instrument != "percussion" and says_open(line, speech) else "")
    text = " ".join(filter(None, [f"{number}{speech.name(line.instrument, several)}", desks]))
    octave = OCTAVES.get(line.instrument)
    sounds = str(speech.words["sound"][str(octave)]) if octave else ""
    return PageLine(family_label(line, speech), capital(text), remark(line, (), speech, meant, sounds))


def shares_list(line: Line) -> bool:
    """Whether several percussionists share one list of instruments, which nobody has allotted."""
    return line.instrument == "percussion" and not line.chairs and bool(line.note) and line.role == "ensemble"


def shares_keyboard(line: Line) -> bool:
    """Whether players sit at one keyboard, which is one line: piano, 4 hands."""
    return line.family == "keyboard" and HANDS.fullmatch(line.note) is not None and not line.chairs


def are_undivided(line: Line) -> bool:
    """Whether several are told together: violins not parted into first and second, what is no known instrument."""
    return (line.instrument == "violin" or line.instrument not in instruments()) and line.players != (1, 1)


def lines_of_chairs(line: Line, speech: Grammar) -> Iterator[PageLine]:
    _, most = line.players or (0, 0)
    named = chairs_by_number(Line(line.instrument, line.family, line.players, chairs=numbered(line)), most)
    plays = [named.get(chair, (line.instrument,)) for chair in range(1, most + 1)]
    total = Counter(one[0] for one in plays)
    seen: Counter[str] = Counter()
    for chair, one in enumerate(plays, 1):
        seen[one[0]] += 1
        own = one[0] == line.instrument
        number = f" {chair if own else seen[one[0]]}" if (most if own else total[one[0]]) > 1 else ""
        yield chair_line(line, chair, one, number, speech)


def chair_line(line: Line, chair: int, plays: tuple[str, ...], number: str, speech: Grammar) -> PageLine:
    """Return one chair's line; a remark on the instrument stands before what its player also plays."""
    least, most = line.players or (0, 0)
    noted = bool(line.note) and len(plays) > 1 and line.instrument != "percussion"
    seat = "" if plays[0] == line.instrument else f"{speech.name(line.instrument)} {chair}"
    said = speech.semicolon.join(filter(None, (line.note if noted else "", seat if len(plays) > 1 else "")))
    before = f" ({said})" if said else ""
    alone = line.family == "percussion" and most == 1 and line.instrument != "timpani"
    text = f"{alternatives(line, plays[0], speech)}{number}{before}{doubling(plays, speech)}"
    more = (
        "" if before else seat,
        speech.counted((1, 1), "executants") if alone else "",
        speech.word("optional") if chair > least or line.optional else "",
        next((one.note for one in line.chairs if one.chair == chair), ""),
    )
    told = replace(line, note="") if noted else line
    return PageLine(family_label(line, speech), capital(text), remark(told, plays, speech, *more))


def numbered(line: Line) -> tuple[Chair, ...]:
    return tuple(chair for chair in line.chairs if chair.chair is not None)


def alternatives(line: Line, slug: str, speech: Grammar) -> str:
    others = line.alternatives if slug == line.instrument else ()
    return speech.either([speech.name(one) for one in (slug, *others)])


def doubling(plays: tuple[str, ...], speech: Grammar) -> str:
    """Return what a chair also plays; a percussionist's instruments are listed after a colon."""
    if len(plays) == 1:
        return ""
    if plays[0] == "percussion":
        return f": {', '.join(speech.name(one) for one in plays[1:])}"
    return f", {speech.word('also')} {speech.listed([speech.name(one) for one in plays[1:]])}"


def unnamed_doublings(line: Line, speech: Grammar) -> Iterator[PageLine]:
    """Yield a line for those who double without the text saying who."""
    counts = Counter(chair.plays for chair in line.chairs if chair.chair is None)
    for plays, count in counts.items():
        text = f"{some_of(count, line, speech)}{doubling(plays, speech).replace(',', '', 1)}"
        yield PageLine(family_label(line, speech), capital(text), remark(line, plays[1:], speech))


def remark(line: Line, plays: tuple[str, ...], speech: Grammar, *more: str) -> str:
    """Return the remarks on a line: octaves, place, amplification, what the text says."""
    said = [sounding(slug, plays, speech) for slug in plays if slug in OCTAVES]
    if line.role == "offstage":
        said.append(speech.word("offstage"))
    if line.amplified:
        said.append(speech.agreeing("amplified", plays[0] if plays else line.instrument))
    return speech.semicolon.join(dict.fromkeys(filter(None, [*more, line.note, *said])))


def sounding(slug: str, plays: tuple[str, ...], speech: Grammar) -> str:
    said = str(speech.words["sounds"][str(OCTAVES[slug])])
    return said if len(plays) == 1 else f"{speech.name(slug)} {said}"


# ---- choirs and the total


def choir_lines(lines: tuple[Line, ...], speech: Grammar) -> Iterator[PageLine]:
    """Yield the choirs of a run of their parts, by voicing where they have one."""
    label = speech.words["families"]["voice"]
    for phrase in phrases_of(lines, speech):
        yield PageLine(label, capital(phrase))


def total_line(instrumentation: Instrumentation, speech: Grammar) -> Iterator[PageLine]:
    """Yield the number of people; players of sections without a number are said not to be in it."""
    people = [
        speech.counted(count, key)
        for key, count in (("players", instrumentation.counted), ("singers", instrumentation.singers))
        if count and count[1]
    ]
    if people:
        said = speech.listed(people)
        open_lines = instrumentation.players is None
        yield PageLine(speech.word("total"), speech.word("uncounted").format(counted=said) if open_lines else said)
