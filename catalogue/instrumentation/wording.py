"""Forces in words, in British and American English, German, French, Italian and Spanish.

    2 flutes, the second doubling piccolo; 2 oboes; …; percussion (2 players); harp; strings (8.6.4.4.2)

Lines are parted by semicolons, because what is said of a line is parted by commas. What is written here reads back
to the same lines.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import groupby

from catalogue.instrumentation.bodies import BOWED, is_choir
from catalogue.instrumentation.choir_wording import choir_phrases
from catalogue.instrumentation.grammar import Grammar, grammar, in_brackets, spread
from catalogue.instrumentation.item_writing import HANDS, has_more, told_note
from catalogue.instrumentation.model import Chair, Instrumentation, InstrumentationError, Line
from catalogue.instrumentation.plurals import plurals
from catalogue.instrumentation.reading import read
from catalogue.instrumentation.senses import clear_name
from catalogue.instrumentation.vocabulary import instrument, key_of

DEVICES = {"fixed": ("fixed-media",), "live": ("live-electronics",), "both": ("live-electronics", "fixed-media")}
BODY = ("violin-1", "violin-2", "viola", "cello", "double-bass")
IN_KEY = re.compile(r"in [A-H](?:[ -]?(?:flat|sharp)|[♭♯b])?")
"""The key of a wind player's part, kept as a remark: it follows the name, as the trade writes it."""
UNCOUNTED = ("choir", "choir-children", "basso-continuo", "orchestra", "wind-band", "brass-band", "big-band")
UNDIVIDED = ("violin", "viola", "cello", "double-bass")


def write_words(instrumentation: Instrumentation, language: str = "en-GB") -> str:
    """Return the forces in words, without a full stop.

    >>> flutes = Line("flute", "woodwind", (2, 2), chairs=(Chair(2, ("flute", "piccolo")),))
    >>> write_words(Instrumentation((flutes, Line("harp", "plucked"))), "de")
    '2 Flöten, die zweite auch Piccolo; Harfe'
    """
    speech = grammar(language)
    either = f"{speech.semicolon}{speech.word('or')}{speech.colon}"
    return either.join(one_line_up(one, language) for one in instrumentation.line_ups)


def one_line_up(instrumentation: Instrumentation, language: str) -> str:
    plain = in_words(instrumentation, language)
    return noted(instrumentation, plain, language) if any(map(says_more, instrumentation.lines)) else plain


def says_more(line: Line) -> bool:
    """Whether a line has a remark, or an open number that its name alone does not tell."""
    return bool(line.note) or is_open(line)


def is_open(line: Line) -> bool:
    return line.players is None and line.family not in ("strings", "voice") and line.instrument not in UNCOUNTED


def says_open(line: Line, speech: Grammar) -> bool:
    """Whether an open number has to be told in words, because the name has no plural of its own to tell it."""
    return is_open(line) and key_of(speech.name(line.instrument, 2)) not in plurals(line.instrument)


@lru_cache(maxsize=1024)
def noted(instrumentation: Instrumentation, plain: str, language: str) -> str:
    """Return forces of which something more is said: in brackets where that reads back, else in quotation marks.

    A reader takes what stands in quotation marks as it is; in brackets, the name of a key or of another instrument
    would be taken for the instrument's own.
    """
    for told in (plain, in_words(replace(instrumentation, lines=tuple(map(quoting, instrumentation.lines))), language)):
        if reads_back(told, instrumentation, language):
            return told
    return plain


def quoting(line: Line) -> Line:
    usual = line.instrument == "choir" and line.note in grammar("en-GB").words["choirs"]
    note = told_note(line) if line.players else line.note
    if not note or usual or "”" in note:
        return line
    more = "or more; " if note != line.note else ""
    return replace(line, note=f"{more}“{note}”")


def reads_back(told: str, instrumentation: Instrumentation, language: str) -> bool:
    try:
        return read(told, language=language) == instrumentation
    except InstrumentationError:
        return False


def in_words(instrumentation: Instrumentation, language: str) -> str:
    speech = grammar(language)
    said: list[str] = []
    for group, lines in groupby(played(instrumentation), key=lambda line: label(line)):
        phrases = list(phrases_of(tuple(lines), speech))
        under = f"{speech.body(group)}{speech.colon}" if group else ""
        said.append(f"{under}{', '.join(phrases)}" if group else speech.semicolon.join(phrases))
    said += device_phrases(instrumentation, speech)
    return speech.semicolon.join(said)


def write_sentence(instrumentation: Instrumentation, language: str = "en-GB") -> str:
    """Return the forces as one sentence, the number of people first where it is known: ``42 players: 2 flutes, …``.

    It is what a picture of the forces says to those who do not see it.
    """
    speech = grammar(language)
    people = [
        speech.counted(count, key)
        for key, count in (("players", instrumentation.players), ("singers", instrumentation.singers))
        if count and count[1]
    ]
    known = instrumentation.players is not None and instrumentation.singers is not None
    told = write_words(instrumentation, language)
    return f"{speech.listed(people)}{speech.colon}{told}." if known and people else f"{told[:1].upper()}{told[1:]}."


def played(instrumentation: Instrumentation) -> Iterator[Line]:
    """Yield everything but devices; singers are called soloists only beside a choir."""
    beside_choir = any(is_choir(line) for line in instrumentation.lines)
    for line in instrumentation.lines:
        if line.family == "voice" and line.role == "soloist" and not beside_choir:
            yield replace(line, role="ensemble")
        elif line.family != "electronics":
            yield line


def label(line: Line) -> str | None:
    """Return the heading that a line stands under; numbered choirs are told by their voicing alone."""
    return None if is_choir(line) else line.group


def phrases_of(lines: Sequence[Line], speech: Grammar) -> Iterator[str]:
    """Yield a phrase for each line, one for a body of strings and one for the parts of a choir."""
    for kind, run in groupby(lines, key=body_kind):
        together = tuple(run)
        figures = figures_of(together) if kind[0] == "strings" and not is_torn(together, lines) else None
        if figures is not None:
            yield strings_phrase(together, figures, speech)
        elif is_quartet(together):
            yield " ".join([speech.word("quartet"), *(f"({one})" for one in qualities(together[0], speech))])
        elif kind[0] == "choir":
            yield from choir_phrases(together, speech)
        elif kind[0] == "bare" and [line.group for line in together] == ["choir 1", "choir 2"]:
            yield speech.word("double")
        else:
            yield from (line_phrase(line, speech) for line in together)


def body_kind(line: Line) -> tuple[object, ...]:
    """Return what lines have in common that are told as one body."""
    if line.instrument.startswith("choir-") and line.instrument != "choir-children" and is_even(line):
        return "choir", line.optional, line.role, line.players is None
    if line == Line("choir", "voice", None, group=line.group) and line.group is not None:
        return ("bare",)
    if line.instrument in BOWED:
        manner = (line.unit, line.strength, line.players is None, line.optional, line.amplified, line.role, line.note)
        return "strings", *manner
    return ("single",)


def is_even(line: Line) -> bool:
    """Whether the part of a choir is told by its letter: open, or counted and undivided."""
    return line.players is None or (line.players[0] == line.players[1] and line.parts == 1)


# ---- strings


def figures_of(lines: Sequence[Line]) -> str | None:
    """Return a body's figures, empty for an open one, ``None`` where the lines are not told as one body.

    Five figures divide the violins, 0 for a part that is not there; four or three leave them undivided.
    """
    slugs = tuple(line.instrument for line in lines)
    counts = {line.instrument: line.players[1] for line in lines if line.players}
    if any(line.chairs or line.alternatives or line.role != "ensemble" for line in lines) or len(counts) < len(lines):
        return "" if slugs == BODY and not counts else None
    ranged = any(line.players and line.players[0] not in (0, line.players[1]) for line in lines)
    if len(lines) < 2 or any(line.unit is None for line in lines) or ranged:
        return None
    if slugs in (UNDIVIDED, UNDIVIDED[:3]) and set(counts.values()) != {1}:
        return ".".join(str(counts[slug]) for slug in slugs)
    if len(counts) < len(lines) or list(slugs) != sorted(counts, key=BOWED.index) or "violin" in counts:
        return None
    return ".".join(str(counts.get(slug, 0)) for slug in BODY)


def is_torn(together: Sequence[Line], lines: Sequence[Line]) -> bool:
    """Whether a part of the body stands apart, by a remark of its own: a 0 among the figures would deny it."""
    present = {line.instrument for line in together}
    return any(
        line.unit is not None and line.instrument in BODY and line.instrument not in present and line.role == "ensemble"
        for line in lines
    )


def is_quartet(lines: Sequence[Line]) -> bool:
    """Whether the lines are a string quartet of which nothing more is said."""
    plain = all(line.players == (1, 1) and not (line.chairs or line.alternatives or line.note) for line in lines)
    return plain and tuple(line.instrument for line in lines) == BODY[:4] and lines[0].role == "ensemble"


def strings_phrase(lines: Sequence[Line], figures: str, speech: Grammar) -> str:
    first = lines[0]
    said = [speech.word("strings")]
    if figures:
        before = f"{speech.word('least')} " if first.strength == "least" else ""
        unit = f" {speech.word('desks')}" if first.unit == "desks" else ""
        after = f" {speech.word('preferred')}" if first.strength == "preferred" else ""
        said.append(f"({before}{figures}{unit}{after})")
    said += [in_brackets(first.note)] if first.note else []
    return with_qualities(" ".join(said), first, speech)


# ---- single lines


def line_phrase(line: Line, speech: Grammar) -> str:
    """Return what is said of one line: number, name, place, remark, doublings, qualities."""
    if line.instrument == "choir" and line.note in speech.words["choirs"]:
        parts = [in_brackets(one) for one in parts_of_choir(line, speech)]
        return with_qualities(" ".join([speech.words["choirs"][line.note], *parts]), line, speech)
    if line.instrument == "percussion" and line.chairs and all(chair.note for chair in line.chairs):
        parts = [f"{speech.name('percussion')} {chair.chair} ({chair.note})" for chair in line.chairs]
        return with_qualities(speech.semicolon.join(parts), line, speech)
    hands = HANDS.fullmatch(line.note) if line.family == "keyboard" and not line.chairs else None
    if hands and line.players == (int(hands[1]) // 2,) * 2:
        keyboards = int(hands[2] or 1)
        alone = replace(line, players=(keyboards, keyboards), note="")
        return f"{line_phrase(alone, speech)} {speech.word('hands').format(n=hands[1])}"
    in_key = [line.note] if line.family in ("woodwind", "brass") and IN_KEY.fullmatch(line.note) else []
    brackets = [in_brackets(one) for one in bracketed(replace(line, note="") if in_key else line, speech)]
    head = " ".join([counted_name(line, speech), *in_key, *brackets])
    return with_qualities(f"{head}{doublings(line, speech)}", line, speech)


def counted_name(line: Line, speech: Grammar) -> str:
    """Return the number and the name; *at least* before a number that may be exceeded."""
    count = line.players
    people = line.instrument in ("percussion", "timpani") or line.family == "electronics"
    single = count == (1, 1) and not (line.optional or has_more(line))
    if count is None or people or single or (line.optional and count[1] == 1):
        name = speech.name(line.instrument, 1 if count or people or line.instrument in UNCOUNTED else 2)
        return with_solo(with_alternatives(name, line, speech), line, speech)
    most = (count[1], count[1]) if line.optional else count
    name = with_alternatives(speech.name(line.instrument, most[1]), line, speech)
    least = f"{speech.word('least')} " if has_more(line) else ""
    return f"{least}{spread(most)} {with_solo(name, line, speech)}"


def with_alternatives(name: str, line: Line, speech: Grammar) -> str:
    several = line.players is None or line.players[1] != 1
    others = [speech.name(slug, 2 if several else 1) for slug in line.alternatives]
    return speech.either([name, *others])


def with_solo(name: str, line: Line, speech: Grammar) -> str:
    several = line.players is None or line.players[1] > 1
    forms = speech.words.get("solo_f") if speech.gender(line.instrument) == "f" else None
    return str((forms or speech.words["solo"])[several]).format(name=name) if line.role == "soloist" else name


def bracketed(line: Line, speech: Grammar) -> Iterator[str]:
    if line.players and (line.instrument == "percussion" or (line.instrument == "timpani" and line.players[1] > 1)):
        least = f"{speech.word('least')} " if has_more(line) else ""
        yield least + speech.counted((line.players[1],) * 2 if line.optional else line.players, "executants")
    if line.role == "offstage" and not line.group:
        yield speech.word("offstage")
    if says_open(line, speech):
        yield speech.word("open")
    if line.family == "strings":
        yield from (speech.word(one) for one in (line.unit, line.strength) if one in ("desks", "least", "preferred"))
    yield from parts_of_choir(line, speech)
    note = told_note(line) if line.players else line.note
    if note:
        yield note


def parts_of_choir(line: Line, speech: Grammar) -> Iterator[str]:
    if line.instrument in ("choir", "choir-children") and line.parts != 1:
        yield speech.word("divides").format(n=line.parts)


def with_qualities(phrase: str, line: Line, speech: Grammar) -> str:
    return ", ".join([phrase, *qualities(line, speech)])


def qualities(line: Line, speech: Grammar) -> Iterator[str]:
    if line.amplified:
        yield speech.agreeing("amplified", line.instrument, 1 if line.players == (1, 1) else 2)
    if line.optional:
        yield speech.word("optional")


# ---- doublings


def doublings(line: Line, speech: Grammar) -> str:
    """Return the doublings of a line with what joins them to its name, nothing where nobody doubles."""
    if not any(chair.plays != (line.instrument,) for chair in line.chairs):
        return ""
    if line.players == (1, 1) and line.chairs[0].plays[0] == line.instrument:
        first = line.chairs[0]
        return f"{speech.word('alone')} {other_names(first, line, speech)}{remark(first, speech)}"
    return "".join(f", {clause}" for clause in clauses(line, speech))


def clauses(line: Line, speech: Grammar) -> Iterator[str]:
    """Yield one clause for all chairs that play the same."""
    kinds: dict[tuple[tuple[str, ...], bool, str], list[Chair]] = {}
    for chair in line.chairs:
        if chair.plays == (line.instrument,) and not chair.note:
            continue
        kinds.setdefault((chair.plays, chair.chair is None, chair.note), []).append(chair)
    for (_, unnamed, _), chairs in kinds.items():
        who = some_of(len(chairs), line, speech) if unnamed else named(chairs, line, speech)
        yield f"{who} {plays_phrase(chairs, line, speech)}{remark(chairs[0], speech)}"


def remark(chair: Chair, speech: Grammar) -> str:
    """Return what the text says of a chair's doubling, in brackets; *optional* in the language's own word."""
    said = chair.note if says_either(chair) is None else " ".join({*chair.note.split()} - {"or"})
    note = speech.word("optional") if said == "optional" else said
    return f" ({note})" if note else ""


def says_either(chair: Chair) -> int | None:
    """Return how many of a chair's doublings a word for *or* joins, ``None`` where its note says something else."""
    words = chair.note.split()
    return words.count("or") if words and set(words) <= {"or", "optional"} and "or" in words else None


def plays_phrase(chairs: Sequence[Chair], line: Line, speech: Grammar) -> str:
    chair = chairs[0]
    if chair.plays[0] == line.instrument:
        return f"{speech.word('also')} {other_names(chair, line, speech)}"
    return f"{speech.words['only'][len(chairs) > 1]} {other_names(chair, line, speech)}"


def other_names(chair: Chair, line: Line, speech: Grammar) -> str:
    """Return what a player plays besides, joined by *and*, by *or* where one of it is chosen."""
    slugs = chair.plays[chair.plays[0] == line.instrument :]
    section = instrument(line.instrument).section
    names = [clear_name(slug, section, speech.language, whole=True) for slug in slugs]
    return speech.either(names) if says_either(chair) == len(names) - 1 else speech.listed(names)


def named(chairs: Sequence[Chair], line: Line, speech: Grammar) -> str:
    numbers = [chair.chair for chair in chairs if chair.chair is not None]
    everybody = line.players is not None and numbers == list(range(1, line.players[1] + 1)) and len(numbers) > 1
    if everybody:
        return speech.agreeing("both" if len(numbers) == 2 else "all", line.instrument)
    return speech.chairs(numbers, line.instrument)


def some_of(number: int, line: Line, speech: Grammar) -> str:
    if number == 1:
        return speech.agreeing("one", line.instrument)
    return str(speech.words["numbers"].get(str(number), number))


# ---- devices


def device_phrases(instrumentation: Instrumentation, speech: Grammar) -> list[str]:
    """Return the electronics, the channels with the last of them."""
    lines = [line for line in instrumentation.lines if line.family == "electronics"]
    said = [line_phrase(line, speech) for line in lines]
    if not lines and instrumentation.electronics != "none":
        said = [speech.name(slug) for slug in DEVICES.get(instrumentation.electronics, ("electronics",))]
    if said and instrumentation.channels:
        said[-1] += f" ({speech.word('channels').format(n=instrumentation.channels)})"
    return said
