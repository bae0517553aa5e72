"""Medium of performance for library catalogues: MARC 21 fields 382 and 048.

Source: MARC 21 Format for Bibliographic Data, Library of Congress. In 382 ``$b`` is a soloist, ``$a`` everybody
else, ``$d`` a doubling and ``$p`` an alternative of the medium before it, ``$n`` the number of players of the medium
just before, ``$e`` the number of ensembles, ``$s`` the number of performers, ``$r`` that of individuals beside
ensembles, ``$t`` that of ensembles, ``$v`` a note; the first indicator is 0 for a complete statement and 1 for a
partial one. People are counted once, so a doubling adds nobody. In 048 a code is two letters and two figures,
soloists (``$b``) before the rest.

A body with sections of strings is given as an orchestra, as the format's own examples do, single players as such.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from catalogue.instrumentation.bodies import is_choir, is_section
from catalogue.instrumentation.model import Instrumentation, Line, is_singer
from catalogue.instrumentation.playing import plain
from catalogue.instrumentation.seats import chairs_by_number, is_person
from catalogue.instrumentation.vocabulary import called, instrument, score_order

MOST_048 = 99
UPPER = frozenset({"choir-soprano", "choir-mezzo-soprano", "choir-alto"})
LOWER = frozenset({"choir-tenor", "choir-baritone", "choir-bass"})
CHORUSES = {
    "mixed": ("mixed chorus", "ca"),
    "upper": ("women's chorus", "cb"),
    "lower": ("men's chorus", "cc"),
    "children": ("children's chorus", "cd"),
    "unsaid": ("chorus", "cn"),
}
ORCHESTRAS = {True: ("string orchestra", "oc"), False: ("orchestra", "oa")}

# Terms of the Library of Congress Medium of Performance Thesaurus that stand in published examples of the field: the
# format itself; Music Cataloging at Yale, MARC 382; Code4Lib Journal on medium of performance data (viola, clarinet as
# an alternative). A field that uses any other word names no source.
KNOWN_TERMS = """
alto flute, alto saxophone, bass clarinet, bass flute, bassoon, cello, clarinet, double bass, English horn, flute,
harpsichord, horn, marimba, mixed chorus, oboe, orchestra, organ, percussion, piano, piccolo, prepared piano,
saxophone, string orchestra, synthesizer, trombone, trumpet, vibraphone, viola, violin
"""
LCMPT = frozenset(" ".join(KNOWN_TERMS.split()).split(", "))
SPELT = {"didgeridoo": "didjeridu"}

Subfields = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Field:
    """A field of a MARC 21 record; ``#`` is a blank indicator."""

    tag: str
    indicators: str
    subfields: Subfields

    def __str__(self) -> str:
        return " ".join([self.tag, self.indicators, *(f"${code} {value}" for code, value in self.subfields)])


@dataclass(frozen=True, slots=True)
class Medium:
    """One medium of performance: its term, its 048 code, and how many people or ensembles it is."""

    term: str
    code: str
    number: int | None
    solo: bool = False
    ensemble: bool = False
    doublings: tuple[tuple[str, int], ...] = ()
    alternatives: tuple[str, ...] = ()
    note: str = ""


def field_382(instrumentation: Instrumentation, *, partial: bool = False, access: str = "#") -> Field:
    """Return the statement of medium; ``access`` is the second indicator, 1 where it is meant for access points."""
    media = merged(media_of(instrumentation))
    found = [subfield for medium in media for subfield in subfields_of(medium)]
    found += () if partial else totals(media)
    terms = {value for code, value in found if code in "abdp"}
    if terms and terms <= LCMPT:
        found.append(("2", "lcmpt"))
    return Field("382", f"{int(partial)}{access}", tuple(found))


def write_marc(instrumentation: Instrumentation) -> str:
    """Return the two fields as text, for each line-up that may play the work."""
    fields = ((field_382(one), field_048(one)) for one in instrumentation.line_ups)
    return "\n".join(str(field) for pair in fields for field in pair)


def field_048(instrumentation: Instrumentation) -> Field:
    """Return the coded statement: letters for the medium, two figures for how many where that is known."""
    media = sorted(media_of(instrumentation), key=lambda medium: not medium.solo)
    codes: Counter[tuple[str, str]] = Counter()
    uncounted = set()
    for medium in media:
        key = ("b" if medium.solo else "a", medium.code or "zz")
        codes[key] += medium.number or 0
        if medium.number is None or (medium.ensemble and medium.number == 1):
            uncounted.add(key)
    return Field(
        "048",
        "##",
        tuple((kind, coded(code, number, (kind, code) in uncounted)) for (kind, code), number in codes.items()),
    )


def coded(code: str, number: int, uncounted: bool) -> str:
    return code if uncounted or not 0 < number <= MOST_048 else f"{code}{number:02}"


# ---- the media of an instrumentation


def media_of(instrumentation: Instrumentation) -> Iterator[Medium]:
    """Yield soloists, single players and singers, then choirs and orchestras."""
    people = [line for line in instrumentation.lines if is_person(line)]
    alone = all(line.role == "soloist" for line in people)
    bodies = {line.group for line in people if is_section(line, instrumentation.lines) and not is_choir(line)}
    for line in people:
        solo = not alone and is_solo(line)
        if is_choir(line) or (line.group in bodies and not solo and not is_singer(line) and line.role == "ensemble"):
            continue
        yield from media_of_line(line, solo=solo)
    yield from choruses([line for line in people if is_choir(line)])
    if bodies:
        yield orchestra([line for line in people if line.group in bodies], len(bodies))
    if instrumentation.electronics != "none":
        yield Medium("electronics", "ez", None)


def merged(media: Iterable[Medium]) -> tuple[Medium, ...]:
    """Count media together that follow each other and differ in number only: first and second violins."""
    found: list[Medium] = []
    for medium in media:
        last = found[-1] if found else None
        if last and last.number and medium.number and replace(last, number=medium.number) == medium:
            found[-1] = replace(last, number=last.number + medium.number)
        else:
            found.append(medium)
    return tuple(found)


def is_solo(line: Line) -> bool:
    return line.role in ("soloist", "narrator")


def media_of_line(line: Line, *, solo: bool) -> Iterator[Medium]:
    """Yield the line's instruments: first those who begin on its own, then those who play another one only."""
    if line.players is None:
        yield medium(line, line.instrument, None, (), solo)
        return
    named = chairs_by_number(line, line.players[1])
    mains = Counter(plays[0] for plays in named.values())
    mains[line.instrument] += line.players[1] - len(named)
    for slug in sorted(mains, key=score_order_from(line.instrument)):
        doubled = Counter(other for plays in named.values() if plays[0] == slug for other in plays[1:])
        if mains[slug]:
            yield medium(line, slug, mains[slug], tuple(doubled.items()), solo)


def score_order_from(main: str) -> Callable[[str], tuple[bool, int]]:
    return lambda slug: (slug != main, score_order(slug))


def medium(line: Line, slug: str, number: int | None, doubled: tuple[tuple[str, int], ...], solo: bool) -> Medium:
    alternatives = tuple(term(one) for one in line.alternatives)
    doublings = tuple((term(one), count) for one, count in doubled)
    return Medium(term(slug), instrument(slug).marc, number, solo, False, doublings, alternatives, note_of(line))


def term(slug: str) -> str:
    """Return the catalogue's word for an instrument: American names, singers as voices."""
    slug = SPELT.get(plain(slug), plain(slug))
    name = called(slug, "en-US").singular
    return f"{name} voice" if slug.startswith("voice-") else name


def note_of(line: Line) -> str:
    said = ["optional"] if line.optional else ["off-stage"] if line.role == "offstage" else []
    if line.players and line.players[0] != line.players[1] and not line.optional:
        said.append(f"{line.players[0]} to {line.players[1]} players")
    return ", ".join(said)


def choruses(lines: list[Line]) -> Iterator[Medium]:
    for group in dict.fromkeys(line.group for line in lines):
        word, code = CHORUSES[kind_of_chorus({line.instrument for line in lines if line.group == group})]
        yield Medium(word, code, 1, ensemble=True)


def kind_of_chorus(slugs: set[str]) -> str:
    if slugs == {"choir-children"}:
        return "children"
    if slugs & UPPER and slugs & LOWER:
        return "mixed"
    return "upper" if slugs & UPPER else "lower" if slugs & LOWER else "unsaid"


def orchestra(lines: Iterable[Line], number: int) -> Medium:
    only_strings = all(line.family == "strings" for line in lines if line.role == "ensemble" and line.family != "voice")
    word, code = ORCHESTRAS[only_strings]
    return Medium(word, code, number, ensemble=True)


# ---- the subfields


def subfields_of(medium: Medium) -> Iterator[tuple[str, str]]:
    yield ("b" if medium.solo else "a"), medium.term
    if medium.number is not None:
        yield ("e" if medium.ensemble else "n"), str(medium.number)
    for other, count in medium.doublings:
        yield from (("d", other), ("n", str(count)))
    for other in medium.alternatives:
        yield "p", other
        if medium.number is not None:
            yield "n", str(medium.number)
    if medium.note:
        yield "v", medium.note


def totals(media: tuple[Medium, ...]) -> Iterator[tuple[str, str]]:
    """Yield the total of people, or of individuals and ensembles, where all are counted."""
    people = [medium.number for medium in media if not medium.ensemble and medium.code != "ez"]
    ensembles = sum(medium.number or 0 for medium in media if medium.ensemble)
    known = sum(number for number in people if number is not None)
    if people and None not in people and not any(medium.note for medium in media):
        yield ("r" if ensembles else "s"), str(known)
    if ensembles:
        yield "t", str(ensembles)
