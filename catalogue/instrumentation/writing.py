"""Writes an instrumentation in the canonical shorthand: ``2(II=picc).2.2.2 – 4.2.3.1 – timp.perc(2) – hp – str``.

The winds of an orchestra stand by place with a nought for what is missing, those of an ensemble by their names; an
en dash parts families, a point what belongs to one family, a Roman numeral names a chair. What the short form cannot
say, or would say in two ways, is written out: every text is read back before it is returned, and the first one that
says the same is taken.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from catalogue.instrumentation.bodies import is_choir
from catalogue.instrumentation.choir_writing import choirs, is_choir_label
from catalogue.instrumentation.item_writing import Bracketing, Dress, chairs, digits, item, tail, word
from catalogue.instrumentation.lexicon import OFFSTAGE
from catalogue.instrumentation.model import Instrumentation, InstrumentationError, Line
from catalogue.instrumentation.reading import read
from catalogue.instrumentation.vocabulary import instrument, key_of

WOODWIND = ("flute", "oboe", "clarinet", "bassoon")
BRASS = ("horn", "trumpet", "trombone", "tuba")
FIVE = ("violin-1", "violin-2", "viola", "cello", "double-bass")
FAMILY_MARK = " – "
STRENGTHS = {"stated": "", "preferred": "preferred ", "least": "min "}
SAME_FAMILY = {"woodwind": "winds", "brass": "winds"}


def shorthand(instrumentation: Instrumentation) -> str:
    """Return the canonical text of the forces; reading it gives the same lines."""
    return by_line_up(instrumentation, chairs)


def by_line_up(instrumentation: Instrumentation, bracket: Bracketing) -> str:
    """Return the text of each line-up, ``fl.va.hp; or 2vn – pf``; ``bracket`` writes the doublings of a line."""
    return "; or ".join(first_that_reads_back(one, bracket) for one in instrumentation.line_ups)


def first_that_reads_back(instrumentation: Instrumentation, bracket: Bracketing) -> str:
    """Return the shortest text that reads back to the same lines; ``bracket`` writes the doublings of a line.

    Where none does, the text that the forces were read from is the one that says them.
    """
    tried: dict[str, bool] = {}
    for text in variants(instrumentation, bracket):
        if text not in tried:
            tried[text] = says(text, instrumentation)
        if tried[text]:
            return text
    given = instrumentation.text
    return given if given and says(given, instrumentation) else next(iter(tried))


def says(text: str, instrumentation: Instrumentation) -> bool:
    """Whether the text reads back to these forces."""
    try:
        again = read(text)
    except InstrumentationError:
        return False
    same = again.lines == instrumentation.lines and again.electronics == instrumentation.electronics
    return same and again.channels == instrumentation.channels and not again.alternatives


def variants(instrumentation: Instrumentation, bracket: Bracketing) -> Iterator[str]:
    """Give the texts to try, from the shortest to the one that is most written out."""
    if instrumentation.lines and all(line.optional for line in instrumentation.lines):
        yield choice(instrumentation, Dress(False, 0, False, True, bracket))
    for spelled, positional, told, apart in product((False, True), (True, False), (0, 1, 2), (True, False)):
        yield write(instrumentation, Dress(positional, told, spelled, apart, bracket))


def choice(instrumentation: Instrumentation, dress: Dress) -> str:
    """Return forces of which some are chosen, ``minimum 8 players from: fl.ob – pf``, by the note on the first."""
    first, _, rest = instrumentation.lines[0].note.partition("; ")
    plain = [replace(line, optional=False, players=line.players and (line.players[1],) * 2) for line in instrumentation]
    plain[0] = replace(plain[0], note=rest)
    return f"{first}: {body(plain, dress, instrumentation.channels or '')}"


def write(instrumentation: Instrumentation, dress: Dress) -> str:
    lines = instrumentation.lines
    second = [one for one in dict.fromkeys(line.group for line in lines) if one is not None and is_second(one, lines)]
    main = [line for line in lines if line.group not in second]
    channels = instrumentation.channels or ""
    texts = [body(main, dress, channels)] if main else []
    for label in second:
        texts.append(f"{label}: {body(own(label, lines), dress, '' if main else channels)}")
    unsaid = channels and not any(line.family == "electronics" for line in (main or lines))
    return "; ".join(texts) + (f"{FAMILY_MARK}{channels}-channel" if unsaid else "")


def is_second(label: str, lines: tuple[Line, ...]) -> bool:
    """Whether a label is that of a second body and not of one of several choirs."""
    numbered = is_choir_label(label) and all(is_choir(line) for line in lines if line.group == label)
    return not numbered


def own(label: str, lines: tuple[Line, ...]) -> list[Line]:
    """Return the lines under a label; where the label says that they are off stage it is not said again."""
    found = [line for line in lines if line.group == label]
    if key_of(label) in OFFSTAGE and all(line.role == "offstage" for line in found):
        return [replace(line, role="ensemble") for line in found]
    return found


def body(lines: list[Line], dress: Dress, channels: str) -> str:
    """Return the text of one group of lines, family by family."""
    figures = dress.positional and wants_figures(lines)
    texts: list[str] = []
    placed = False
    for run in runs(lines, dress, figures=figures):
        mains = WOODWIND if run[0].family == "woodwind" else BRASS if run[0].family == "brass" and placed else ()
        end = placed_end(run, mains) if figures and mains else 0
        if end:
            texts.append(by_place(run[:end], mains, dress))
            placed = True
        if run[end:]:
            texts += by_name(run[end:], dress, channels, company=lines)
    return FAMILY_MARK.join(texts)


def wants_figures(lines: list[Line]) -> bool:
    """Whether winds are written by place: those of an orchestra, with a body of strings or a timpanist, or in pairs."""
    found = {line.instrument: line.players for line in lines if line.role == "ensemble"}
    woodwind = [found[main] for main in WOODWIND if main in found]
    pairs = any(players != (1, 1) for players in woodwind)
    if len(woodwind) > 1 and pairs:
        return True
    return (has_body(lines) and len(woodwind) == 4) or ("timpani" in found and len(woodwind) > 2)


def runs(lines: list[Line], dress: Dress, *, figures: bool) -> list[list[Line]]:
    """Return the lines cut where the family changes; harps, soloists and players off stage stand for themselves."""
    found: list[list[Line]] = []
    mixed = not figures and is_mixed([line for line in lines if line.role == "ensemble"])
    for line in lines:
        kind = kind_of(line, dress, mixed=mixed)
        if found and kind_of(found[-1][-1], dress, mixed=mixed) == kind:
            found[-1].append(line)
        else:
            found.append([line])
    return found


def is_mixed(lines: list[Line]) -> bool:
    """Whether woodwind and brass are one group, as in a wind quintet: not woodwind first, or with a horn alone."""
    if has_body(lines) or any(line.instrument == "timpani" for line in lines):
        return False
    families = [line.family for line in lines if line.family in SAME_FAMILY]
    brass = [(line.instrument, line.players) for line in lines if line.family == "brass"]
    ordered = families == sorted(families, reverse=True)
    return bool(brass) and (not ordered or (brass == [("horn", (1, 1))] and len(families) > 1))


def kind_of(line: Line, dress: Dress, *, mixed: bool) -> str:
    if line.role == "offstage" and dress.apart:
        return "off-stage"
    if is_choir(line):
        return "choir"
    if line.role == "soloist" and line.family != "voice":
        return "soloist"
    if line.instrument == "harp":
        return "harp"
    return SAME_FAMILY.get(line.family, line.family) if mixed else line.family


def placed_end(run: list[Line], mains: tuple[str, ...]) -> int:
    """Return how many lines of a run can stand as figures; what is of no place, a wind player of any kind, follows."""
    end = len(run)
    while end and not instrument(run[end - 1].instrument).section:
        end -= 1
    return end if end and can_be_placed(run[:end], mains) else 0


def can_be_placed(run: list[Line], mains: tuple[str, ...]) -> bool:
    """Whether a run can stand as figures: the main instruments in order, each followed by what belongs to it."""
    at = -1
    for line in run:
        main = line.instrument in mains
        said = line.optional or line.amplified or line.note or line.alternatives or line.role != "ensemble"
        exact = line.players is not None and line.players[0] == line.players[1] > 0
        if said or not exact:
            return False
        section = line.instrument if main else instrument(line.instrument).section
        place = mains.index(section) if section in mains else len(mains) - 1 if section == "saxophone" else -1
        if place < at or place < 0 or (main and place == at):
            return False
        at = place
    return any(line.instrument in mains for line in run)


def by_place(run: list[Line], mains: tuple[str, ...], dress: Dress) -> str:
    pieces: list[str] = []
    for place, main in enumerate(mains):
        line = next((one for one in run if one.instrument == main), None)
        pieces.append("0" if line is None else f"{digits(line.players)}{dress.bracket(line)}")
        pieces += [item(one, dress) for one in run if one.instrument != main and place_of(one, mains) == place]
    return ".".join(pieces)


def place_of(line: Line, mains: tuple[str, ...]) -> int:
    section = instrument(line.instrument).section
    return mains.index(section) if section in mains else len(mains) - 1


def by_name(run: list[Line], dress: Dress, channels: str, company: list[Line]) -> list[str]:
    """Return the texts of a run by name: a choir by its voicing, a body of strings by its figures."""
    first = run[0]
    if first.role == "offstage" and dress.apart:
        on_stage = [replace(line, role="ensemble") for line in run]
        parts = [text for part in runs(on_stage, dress, figures=False) for text in by_name(part, dress, "", company)]
        return [f"off-stage: {', '.join(parts)}"]
    if is_choir(first):
        return [choirs(run, dress)]
    if first.family == "electronics":
        return [media(run, dress, channels)]
    if first.role == "soloist":
        return [soloists(run, dress, company)]
    if first.family == "strings":
        return strings(run, dress)
    mark = ", " if first.family in ("voice", "other") else "."
    return [mark.join(item(line, dress) for line in run)]


def soloists(run: list[Line], dress: Dress, company: list[Line]) -> str:
    """Return soloists: ``solo pf``, ``soli vn.vc``; singers are called so only beside a choir or an orchestra."""
    mark = ", " if dress.told else "."
    sung = run[0].family == "voice"
    each = dress.told and not sung
    if len(run) == 1 or each or (sung and not (any(map(is_choir, company)) or has_body(company))):
        return mark.join(item(line, dress) for line in run)
    return "soli " + mark.join(item(line, dress, solo="") for line in run)


def media(run: list[Line], dress: Dress, channels: str) -> str:
    """Return electronics with their channels, ``fixed media (2ch)``."""
    texts = [word(line.instrument, dress) for line in run]
    if channels:
        texts[-1] += f" ({channels}ch)"
    return ", ".join(text + tail(line) for text, line in zip(texts, run, strict=True))


def strings(run: list[Line], dress: Dress) -> list[str]:
    """Return a body of strings as figures, ``str`` where it is open, and other bowed instruments by name."""
    texts: list[str] = []
    single: list[str] = []
    at = 0
    while at < len(run):
        section = run[at : at + 5]
        if is_body(section):
            texts += [".".join(single)] * bool(single) + [figures(section)]
            single, at = [], at + 5
        else:
            single.append(item(run[at], dress))
            at += 1
    return texts + [".".join(single)] * bool(single)


def is_body(section: list[Line]) -> bool:
    """Whether five lines are one body: the five sections in order, alike in everything but their numbers."""
    if tuple(line.instrument for line in section) != FIVE:
        return False
    first = section[0]
    same = all(
        (line.role, line.optional, line.amplified, line.note, line.unit, line.strength, line.players is None)
        == (first.role, first.optional, first.amplified, first.note, first.unit, first.strength, first.players is None)
        and not line.chairs
        and not line.alternatives
        for line in section
    )
    exact = all(line.players is None or line.players[0] in (0, line.players[1]) for line in section)
    return same and exact and first.role != "soloist"


def has_body(lines: list[Line]) -> bool:
    """Whether a body of strings is among the lines."""
    return any(is_body(lines[at : at + 5]) for at in range(len(lines)))


def figures(section: list[Line]) -> str:
    first = section[0]
    if first.players is None:
        return f"str{tail(first, body=True)}"
    numbers = ".".join(digits(line.players) for line in section)
    desks = " desks" if first.unit == "desks" else ""
    return f"str({STRENGTHS[first.strength or 'stated']}{numbers}{desks}){tail(first, body=True)}"
