"""A set of parts as lines of text: number, name, what is also played, copies; a spare copy is shown apart."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.instrumentation.grammar import Grammar, grammar
from catalogue.instrumentation.model import Instrumentation
from catalogue.instrumentation.parts import Part, part_list


def write_parts(instrumentation: Instrumentation, language: str = "en-GB") -> str:
    """Return the set of parts, a line each, one set after another for works that several line-ups may play.

    Raises PartsError where the strings have no numbers.

    >>> from catalogue.instrumentation.model import Chair, Line
    >>> flute = Line("flute", "woodwind", (1, 1), chairs=(Chair(1, ("flute", "piccolo")),))
    >>> print(write_parts(Instrumentation((flute,))))
    00  Score
    01  Flute, doubling piccolo
    >>> print(write_parts(Instrumentation((Line("trumpet", "brass", (0, 1), "offstage", optional=True),))))
    00  Score
    01  Trumpet (offstage; optional)
    """
    speech = grammar(language)
    sets = ("\n".join(lines(part_list(one).parts, speech)) for one in instrumentation.line_ups)
    return f"\n\n{speech.word('or').capitalize()}:\n".join(sets)


def lines(parts: tuple[Part, ...], speech: Grammar) -> Iterator[str]:
    for part in parts:
        copies = "" if part.copies == 1 else f" × {part.copies}" if part.copies else " × ?"
        yield f"{part.label}  {part_name(part, speech)}{marks(part, speech)}{copies}"


def marks(part: Part, speech: Grammar) -> str:
    """Return what is said of a part after its name: its body, where it stands, that it may be left out, its note."""
    said = (
        speech.body(part.group) if part.group else "",
        speech.word("offstage") if part.off_stage else "",
        speech.word("optional") if part.optional else "",
        part.note,
    )
    return f" ({'; '.join(filter(None, said))})" if any(said) else ""


def part_name(part: Part, speech: Grammar) -> str:
    """Return what a part is called: the chair with its doublings, a section, the score."""
    if not part.instrument:
        name = str(speech.words["parts"][part.kind.value])
    else:
        chair = f" {part.chair}" if part.chair else ""
        others = speech.listed([speech.name(slug) for slug in part.plays[1:]])
        also = f", {speech.word('also')} {others}" if others else ""
        name = f"{speech.name(part.plays[0])}{chair}{also}"
    return name[:1].upper() + name[1:]
