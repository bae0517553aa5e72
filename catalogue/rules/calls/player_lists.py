"""Lists of players in a call's text: over the lines of a list, or within a sentence.

A list is the longest run of items that the reader of instrumentations knows; words that only surround it end it. Where
*or* joins items, each side is an alternative.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from catalogue.instrumentation import shorthand
from catalogue.rules.calls.alternatives import alternative_of, alternatives
from catalogue.rules.calls.limit_texts import item, items, reading, several
from catalogue.rules.calls.named_bodies import (
    NAMED_LIST,
    PLAYS,
    bodies_in,
    headed,
    listed_players,
    people_in,
)
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.player_readings import is_loose, is_named, is_players, most_of
from catalogue.rules.calls.words import NUMBER, WORD, has, plain

LABEL = (
    r"forces|instrumentation|\w*besetzung|effectif|formation|organico|plantilla|available|players|"
    r"line-?up|ensemble|we are|"
    r"what we have|we have|we offer|resources|scoring|scored|orchestra|available players|instruments?\b|"
    r"bezetting|organic"
)
CUE = (
    r"\bfor (?!the|each|every|all|you|us|our|more|one\b)|\bof\b|consist|we play|trio of|"
    r"quartet of|quintet of|drawn from|we are|"
    r"(?:ensemble|orchestra|group|quintet|sextet|trio|quartet|duo) (?:has|plays|is)|line-?up|besteht|formato|formado|"
    r"comprende?\b|compos\w|consta|effectif|organico|plantilla|besetzung|"
    r"our (?:house )?(?:musicians|players)|fur|pour|per\b|para|comprising|any combination|wir sind|nous sommes|siamo"
)
WHOLE = 6  # lines of a list under its label that is read as it stands
ANNOUNCED = (
    r"call for (?:\w+ )?(?:scores|works|pieces|music|compositions)|appel (?:a|d['e]) ?(?:\w+ )?(?:oe?uvres|partitions)|"
    r"convocatoria de (?:obras|partituras)|bando per (?:brani|partiture)|gesucht"
)
LASTING = r"\d\s?(?:min\b|minut|')"
NAMED_LEAST = 3
NEGATED = r"^(?:no|not|keine?|without|ohne|other|neither|in [ab]\b|there are no|we cannot|weitere|excluding|sans)\b"
ONE_DENIED = re.compile(
    r"\s*(?:no|not|kein\w*|ohne|without|pas de|sans|senza|niente|nessun\w*|sin|ningun\w*) [\w-]+( [\w-]+)?\s*"
)
"""An item of a list that only says what is not there: *two trumpets, no trombones; timpani*."""
REFUSED_BEHIND = re.compile(
    r",?\s*(?<!\w)(?:nicht (?:aber|jedoch)|(?:aber|jedoch) (?:nicht|kein\w*|ohne)|but (?:not|no|without)|"
    r"mais (?:pas|sans|"
    r"ni|non)|ma (?:non|senza)|(?:pero|però) (?:no|sin)|sondern nicht)\s[^.;:()]*",
    re.IGNORECASE,
)
"""What a sentence names to refuse it: *for strings, but not with guests, winds or percussion*."""
MOMENT = re.compile(r"(?:19|20)\d\d(?!\d)|\d:\d\d|\b\d{1,2}/\d{1,2}/\d")


@dataclass(frozen=True, slots=True)
class Run:
    """A run of items that name players: its shorthand, how many items, where, and how likely it is the limit."""

    text: str
    count: int
    players: int
    rank: int
    first: Passage
    last: Passage
    alternative: str = ""
    doubt: str = ""
    """What is to be looked at by whoever confirms it."""


def runs_in(passages: Sequence[Passage]) -> Iterator[Run]:
    """Yield the runs of a text: within a passage, and over the lines of a list."""
    block: list[tuple[Passage, str, int]] = []
    for passage in (without_refused(one) for one in passages):
        whole = line_item(passage)
        if whole and (not block or block[-1][0].line + 1 >= passage.line):
            block.append((passage, *whole))
            continue
        yield from block_run(block)
        block = [(passage, *whole)] if whole else []
        if not whole:
            yield from passage_runs(passage)
    yield from block_run(block)


def without_refused(passage: Passage) -> Passage:
    text = REFUSED_BEHIND.sub(" ", passage.text)
    return passage if text == passage.text else replace(passage, text=text)


def line_item(passage: Passage) -> tuple[str, int] | None:
    """Return a line that is nothing but players, in shorthand, with how many items."""
    told = passage.text.rstrip(" .")
    whole = reading(told) if has(LABEL, plain(passage.label)) and several(told) == told else None
    if whole and is_named(whole) and len(whole.lines) > WHOLE:
        return shorthand(whole), len(whole.lines)
    if len(passage.text) > 160 or has(NEGATED, passage.plain.partition(": ")[2] or passage.plain):
        return None
    if MOMENT.search(passage.text) or (passage.text.endswith(".") and len(passage.text.split()) > 7):
        return None
    listed = NAMED_LIST.sub(listed_players, several(headed(passage)))
    parts = [item(listed[start:end]) for start, end, _ in items(listed)]
    text = ", ".join(part for part in parts if part)
    found = reading(text)
    words = re.sub(r"\([^()]*\)", " ", listed).split()
    few = len(parts) < 2 and not re.match(NUMBER, plain(passage.text)) and len(words) > 2
    return (text, len(parts)) if found and is_named(found) and not few else None


def block_run(block: list[tuple[Passage, str, int]]) -> Iterator[Run]:
    """Yield the run of a list over several lines; lines of alternatives each make their own."""
    if not block:
        return
    numbered = len({one[0].numbering for one in block} - {""}) > 1 and all(one[2] >= 2 or one[0].label for one in block)
    numbered = numbered or len({alternative_of(one[0]) for one in block} - {""}) > 1
    groups = (
        [[one] for one in block]
        if numbered or (len(block) > 1 and any(one[0].numbering.startswith(("A", "B")) for one in block))
        else [block]
    )
    for group in groups:
        text = ", ".join(one[1] for one in group)
        found = reading(text)
        if found is None:
            continue
        count = sum(one[2] for one in group)
        labelled = any(has(LABEL, one[0].label.lower()) for one in group)
        rank = 4 if labelled and count >= 3 else 3 if labelled or count >= 3 else 1
        first, last = group[0][0], group[-1][0]
        yield Run(
            shorthand(found),
            count,
            most_of(found),
            rank,
            first,
            last,
            alternative_of(first),
        )


def passage_runs(passage: Passage) -> Iterator[Run]:
    """Yield the bodies that a sentence names with their lists, else its longest run of items."""
    bodies = bodies_in(passage)
    for number, one in enumerate(bodies):
        found = reading(one)
        if found:
            yield Run(shorthand(found), len(found.lines), most_of(found), 3, passage, passage, "AB"[number % 2])
    if not bodies:
        yield from longest_run(passage)


LEFT = "Beside the players that were taken their sentence names others: {}. Look whether they belong to the forces."


def longest_run(passage: Passage) -> Iterator[Run]:
    """Yield the longest run of items in a sentence, split where *or* joins alternatives."""
    said = passage.plain
    by_chunk = [item_runs(chunk) for chunk in chunks(several(passage.text))]
    best = max((run for runs in by_chunk for run in runs), key=weight, default=[])
    if not best or (has(NEGATED, said) and not has(LABEL, passage.label.lower())):
        return
    rank = rank_of(passage, said, len(best))
    apart = next(runs for runs in by_chunk if best in runs)
    left = ", ".join(one for run in apart if run is not best for one, _ in run if is_sure(one))
    for group in alternatives(best):
        found = reading(", ".join(group))
        if found and is_named(found) and rank:
            named = shorthand(found), len(best), most_of(found), rank
            yield Run(*named, passage, passage, alternative_of(passage), left and LEFT.format(left))


def names_players(passage: Passage) -> bool:
    """Whether a passage lists two players or more, whatever it says of them."""
    runs = (run for chunk in chunks(several(passage.text)) for run in item_runs(chunk))
    return any(sum(is_sure(one) for one, _ in run) > 1 for run in runs)


def item_runs(chunk: str) -> list[list[tuple[str, str]]]:
    """Return the runs of items in a part of a sentence, each item with what joins it to the next one."""
    found: list[list[tuple[str, str]]] = []
    current: list[tuple[str, str]] = []
    for start, end, separator in items(chunk):
        segment = chunk[start:end]
        if current and ONE_DENIED.fullmatch(plain(segment)):
            continue
        told = as_item(segment, first=not current) if segment.strip() else ""
        if told:
            found += [] if current else [current]
            current.append((told, separator))
        elif current and (not segment.strip() or current[-1][1] == "with"):
            current[-1] = (current[-1][0], separator or current[-1][1])
        else:
            current = []
    return found


def is_sure(text: str) -> bool:
    found = reading(text)
    return found is not None and is_named(found)


def weight(run: list[tuple[str, str]]) -> int:
    found = reading(", ".join(one for one, _ in run))
    return len(run) * 10 + (min(most_of(found), 9) if found else 0)


SIZE = r"(?:contr)?alto|contralto|sopranino|soprano?|tenore?|ténor|bariton\w*|bass[oe]?|basse|bajo|bass"
SIZES = re.compile(rf"\s*(?:{SIZE})(?:\s*(?:,|/|or|oder|ou|o|and|und|et|e|y)\s*(?:{SIZE}))*\s*")
"""Which sizes of the instrument before the bracket: *saxophone (alto or soprano)* names no voices."""


def chunks(text: str) -> Iterator[str]:
    """Yield the parts of a sentence in which a list may stand: inside its brackets, and outside, parted at colons."""
    yield from (one["list"] for one in NAMED_LIST.finditer(text) if listed_players(one) != one["name"])
    text = NAMED_LIST.sub(listed_players, text)
    people = people_in(text)
    if len(people) > 1:
        yield ", ".join(people) if all(people) else ""
        text = PLAYS.sub(" ", text)
    for match in re.finditer(r"\(([^()]{12,})\)", text):
        if len(list(items(match[1]))) >= 2 and not SIZES.fullmatch(plain(match[1])):
            yield match[1]
    yield from re.split(r":\s", text)


def without_moment(segment: str) -> str:
    """Return what a segment with a year says after its last *for*: ``born after 1990 to enter a work for trio``."""
    last = list(re.finditer(r"\b(?:for|für|pour|per|para)\s+", segment, re.IGNORECASE))
    return segment[last[-1].start() :] if last and MOMENT.search(segment[: last[-1].start()]) else segment


def as_item(segment: str, *, first: bool) -> str:
    """Return a segment as an item; the first of a list may follow other words, the last may precede them."""
    segment = without_moment(segment.strip(' .;:"”“'))
    if not segment or has(NEGATED, segment.lower()) or MOMENT.search(segment):
        return ""
    if len(segment.split()) <= 9 or "(" in segment:
        text = item(segment)
        found = reading(text)
        if found and is_players(found) and len(text) < 120 and not is_loose(found):
            return text
    if first:
        counted = counted_item(segment)
        if counted:
            return counted
        for match in reversed(list(INTRODUCED.finditer(segment))):
            rest = segment[match.end() :]
            told = (whole_item(rest) if len(rest.split()) <= LONGEST_ITEM else "") or as_head(rest)
            if told:
                return told
    return as_head(segment)


LONGEST_ITEM = 8  # words
INTRODUCED = re.compile(
    r"(?:\b(?:for|has|have|be|plays?|besetzung|lautet|umfasst|comprend|comprende|da|por|di|play|use|using|exceed|"
    r"comprises?|für|pour|per|para|of|are|from|with|von|aus|de|sind)|['’]re|\bis)\s+(?:an?\s+)?",
    re.IGNORECASE,
)
COUNTED = re.compile(
    rf"(?<![\w.,/-])(?:\d{{1,2}}|(?!(?:un|une|ein|eine|una|sei)\b){WORD})\s+(?=[^\W\d])", re.IGNORECASE
)


def counted_item(segment: str) -> str:
    """Return the item that begins with a number behind whatever words: ``the orchestra has two flutes``."""
    for match in reversed(list(COUNTED.finditer(segment))):
        rest = segment[match.start() :]
        found = whole_item(rest) if len(rest.split()) <= LONGEST_ITEM else ""
        if found:
            return found
    return ""


def whole_item(text: str) -> str:
    """Return a text that is one item of players and nothing else, as it is read; empty where it is not."""
    told = item(text)
    found = reading(told)
    return told if found and is_players(found) and not is_loose(found) else ""


def as_head(segment: str) -> str:
    """Return the item with which a segment begins before words that name no player: ``cello that last …``."""
    match = re.match(
        r"^(.{3,60}?)\s+(?:with (?:more|no|the|our|lots|few|all)|that|which|who|with|lasting|of between|between|"
        r"in the|with a|of up|of at|"
        r"mit ein\w*|avec une?|d['’]une|della|di durata|con una?|de una|not|to be|and nothing|and nobody|only|"
        r"must|are\b|is\b|sind|ist|sono|sont|nicht|zur?|non pu|ne doi|ne peu|no podr|in|auf|without|ohne|sans|"
        r"senza|sin|from|aus|by)\b",
        segment,
    )
    text = item(match[1]) if match else ""
    found = reading(text) if text else None
    return text if found and is_players(found) and not is_loose(found) else ""


def is_announced(passage: Passage, said: str) -> bool:
    """Whether a passage begins with players, as a short notice does: *Call for scores: piano trio, 8-10 minutes*."""
    first = re.split(r"[,;]\s", passage.text)[0].strip(" .")
    return (has(ANNOUNCED, plain(passage.label)) or has(LASTING, said)) and len(first.split()) <= 6 and is_sure(first)


def rank_of(passage: Passage, said: str, count: int) -> int:
    """Return how likely a sentence names the limit: 0 not at all, 3 under its own label."""
    if has(LABEL, passage.label.lower()):
        return 4
    if has(
        r"(?:string|wind|brass|saxophone|piano|clarinet|percussion) (?:quartet|quintet|trio|duo|sextet|orchestra)|"
        r"(?:streich|blaser|blech\w*|saxophon|klavier|holz\w*)-?(?:quartett|quintett|trio|sextett|orchester)|"
        r"(?:quatuor|quintette|orchestre) (?:a|de) (?:cordes|vents|cuivres)|(?:quartetto|quintetto|orchestra) d'archi|"
        r"(?:cuarteto|quinteto|orquesta) de (?:cuerda|viento|metal)",
        said,
    ) and has(
        r"works? for|pieces? for|music for|write for|(?:we(?:'re| are)|is) an?|fur ein|pour|per |para",
        said,
    ):
        return 3
    if count >= 5 or (count >= 3 and (has(CUE, said) or re.match(NUMBER, plain(passage.text)))):
        return 3
    if has(
        r"(?:works?(?: must be)?|pieces?|music|write|compositions?|scores?|werke?|oe?uvres?|stucke?|brani|"
        r"obras?|composizion[ei]|opere|pezzi|piezas?|composicion(?:es)?|pieces?|"
        r"solo) (?:\w+ )?(?:for|fur|pour|per|para)\b",
        said,
    ):
        return 2
    if re.match(r"(?:for|fur|pour|per|para) ", plain(passage.text)) or is_announced(passage, said):
        return 2
    if re.match(r"(?:hello[,!] )?(?:we(?:'re| are)|wir sind|nous sommes|siamo|somos) ", said):
        return 2
    if has(r"(?:obras?|piezas?|opere|brani|oe?uvres?|pieces?|partituras?|partitions?) (?:de|di|d['e]) ?(?!l)", said):
        return 1
    if has(r"(?:should|must|have to|has to|are to) be (?:scored |written )?for\b", said):
        return 2
    if count >= NAMED_LEAST and NAMED_LIST.search(passage.text):
        return 2
    if count >= 2 and len(PLAYS.findall(passage.text)) >= 2:
        return 2
    return 1 if count >= 2 and has(CUE, said) else 0
