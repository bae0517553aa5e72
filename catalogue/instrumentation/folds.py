"""Reads so many of each woodwind, ``triple woodwind``, ``bois par trois``, and which of them double.

told = [ "with" ] , clause , { [ "," | "and" ] , clause } ;
clause = [ ordinal ] , [ "players" | woodwind ] , doubling word , [ name , { [ "," | "and" ] , name } ] ;

Where the text says that the third players double, there are three of each; where it only names the auxiliaries, or
says nothing, the last player of each plays the auxiliary alone, which is told in a remark.
"""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.instrumentation.doublings import doublings_in
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.kinds import grouped
from catalogue.instrumentation.lexicon import AND, ARTICLES, EACH, ENSEMBLE, HEADINGS, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import ALL
from catalogue.instrumentation.phrases import is_key, ordinal_at, phrase_end, token_at
from catalogue.instrumentation.players_meant import Section, linked
from catalogue.instrumentation.seating import double
from catalogue.instrumentation.tokens import Bracket, Nodes
from catalogue.instrumentation.vocabulary import instrument

Found = tuple[list[Draft], int, bool]
MAIN = ("flute", "oboe", "clarinet", "bassoon")
AUXILIARY = {"flute": "piccolo", "oboe": "cor-anglais", "clarinet": "bass-clarinet", "bassoon": "contrabassoon"}
"""What a third player usually takes (common practice of orchestras)."""
AUXILIARIES = keyed(
    "auxiliaries auxiliary_instruments auxiliary nebeninstrumente auxiliaires instruments_auxiliaires ausiliari "
    "auxiliares"
)
WITH = frozenset({"with", "mit", "avec", "con"})
PAIR = 2
MOST_OF_SECTION = 12


SMALL = WITH | EACH | ALL | ARTICLES
JOINING = AND | ARTICLES


@dataclass(frozen=True, slots=True)
class Doubled:
    """Which seat of a woodwind section also plays what."""

    section: str
    seat: int
    plays: tuple[str, ...]


def doubled_in_fold(
    nodes: Nodes, at: int, size: int, drafts: list[Draft], forces: Forces
) -> tuple[list[Draft], int] | None:
    """Read who doubles in a bracket or a clause after so many of each woodwind; ``None`` where nobody is told to."""
    node = nodes[at] if at < len(nodes) else None
    if isinstance(node, Bracket):
        told = doubled_at(node.nodes, 0, size)
        if told is None or told[1] < len(node.nodes):
            return None
        found, end = told[0], at + 1
    else:
        start = at + (node is not None and node.is_mark(",:;"))
        seated = ordinal_at(nodes, past_small_words(nodes, start)) is not None
        told = doubled_at(nodes, start, size) if seated else None
        if told is None:
            return None
        found, end = told
    first = drafts[0]
    sections = grouped(tuple(slug for slug in MAIN for _ in range(size)), first.start, first.end, collective="fold")
    for one in found:
        section = next(draft for draft in sections if draft.slug == one.section)
        section.counted(max(section.most, one.seat))
        double(section, one.seat, one.plays, "")
    if len({one.section for one in found}) < len(MAIN) and size > PAIR:
        message = f"“{forces.written(first.start, nodes[end - 1].end)}” was read as {size} of each."
        forces.remark("ensemble", message, first.start, nodes[end - 1].end, "the last player of each on the auxiliary")
    return sections, end


def doubled_at(nodes: Nodes, at: int, size: int) -> tuple[list[Doubled], int] | None:
    """Return who doubles what from a place on, and where that ends; ``None`` where it says something else."""
    found: list[Doubled] = []
    end = at
    while (clause := clause_at(nodes, end, size)) is not None:
        found += clause[0]
        end = clause[1]
        at = end + (end < len(nodes) and (nodes[end].is_mark(",;") or is_key(nodes[end], AND)))
        at += at < len(nodes) and is_key(nodes[at], AND)
        if clause_at(nodes, at, size) is None:
            break
        end = at
    return (found, end) if found else None


def past_small_words(nodes: Nodes, at: int) -> int:
    """Pass over ``with``, ``each`` and articles."""
    while at < len(nodes) and is_key(nodes[at], SMALL) and ordinal_at(nodes, at) is None:
        at += 1
    return at


def clause_at(nodes: Nodes, at: int, size: int) -> tuple[list[Doubled], int] | None:
    """Read one clause, ``third players doubling piccolo and cor anglais``, ``3rd flute also alto flute``."""
    at = past_small_words(nodes, at)
    seated = ordinal_at(nodes, at)
    seat, at = seated if seated is not None else (size, at)
    at = phrase_end(nodes, at, ENSEMBLE) or at
    own = name_at(nodes, at)
    section = next((slug for slug in own.slugs if slug in MAIN), "") if own is not None else ""
    link, only = linked(nodes, own.end if own is not None and section else at)
    if link is None or only or not 0 < seat <= MOST_OF_SECTION:
        return None
    named, end = auxiliaries_at(nodes, link)
    if not named:
        end = phrase_end(nodes, link, AUXILIARIES) or link
        told = [section] if section else list(MAIN)
        return [Doubled(one, seat, (AUXILIARY[one],)) for one in told], end
    if section:
        return [Doubled(section, seat, tuple(named))], end
    sections = [instrument(slug).section for slug in named]
    if not set(sections) <= set(MAIN):
        return None
    return [Doubled(one, seat, (slug,)) for one, slug in zip(sections, named, strict=True)], end


def auxiliaries_at(nodes: Nodes, at: int) -> tuple[list[str], int]:
    """Return the auxiliaries that are listed from a place on, and where the list ends."""
    found: list[str] = []
    end = at
    while (step := auxiliary_at(nodes, at)) is not None:
        slug, end = step
        found.append(slug)
        at = end
        while at < len(nodes) and (nodes[at].is_mark(",/.") or is_key(nodes[at], JOINING)):
            at += 1
    return found, end


def auxiliary_at(nodes: Nodes, at: int) -> tuple[str, int] | None:
    name = name_at(nodes, at)
    slugs = name.slugs if name is not None else ()
    slug = next((one for one in slugs if instrument(one).section in MAIN and one not in MAIN), "")
    return (slug, name.end) if name is not None and slug else None


def folded_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``woodwind a 2`` and its kin that are written with a figure."""
    token = token_at(nodes, at)
    if token is None or not is_key(token, HEADINGS["woodwind"]):
        return None
    link, number = token_at(nodes, at + 1), token_at(nodes, at + 2)
    if link is None or number is None or not link.is_word("a", "à", "par") or number.kind != "number":
        return None
    if not 1 <= int(number.text[:3]) <= 4:
        return None
    drafts = grouped(folded(number.number), token.start, number.end, collective="fold")
    named = doubled_in_fold(nodes, at + 3, number.number, drafts, forces)
    if named is not None:
        return *named, False
    told = nodes[at + 3] if at + 3 < len(nodes) else None
    end = at + 3 + (isinstance(told, Bracket) and repeats_fold(told, "fold"))
    say_of_fold(number.number, token.start, number.end, forces)
    return drafts, end, False


def changes_one(bracket: Bracket, drafts: list[Draft], forces: Forces) -> bool:
    """Whether ``(with a third flute doubling piccolo)`` after ``double winds`` adds that player to his section."""
    at = int(is_key(token_at(bracket.nodes, 0), WITH))
    at += is_key(token_at(bracket.nodes, at), ARTICLES)
    seat = ordinal_at(bracket.nodes, at)
    name = name_at(bracket.nodes, seat[1]) if seat is not None else None
    section = next((one for one in drafts if name is not None and one.slug in name.slugs), None)
    if seat is None or name is None or section is None or not 0 < seat[0] <= MOST_OF_SECTION:
        return False
    rest = bracket.nodes[name.end :]
    found = doublings_in(rest, Section(section.slug, section.slug, seat[0]), forces) if rest else []
    if found is None:
        return False
    section.counted(max(section.most, seat[0]))
    for one in found:
        double(section, seat[0], one.plays, one.note, only=one.only)
    return True


def repeats_fold(bracket: Bracket, kind: str) -> bool:
    """Whether a bracket after ``triple woodwind`` names only the auxiliaries that the third players take."""
    if kind != "fold":
        return False
    named = [name.slugs[0] for at in range(len(bracket.nodes)) if (name := name_at(bracket.nodes, at)) is not None]
    return not any(slug in ("flute", "oboe", "clarinet", "bassoon") for slug in named)


def say_of_fold(size: int, start: int, end: int, forces: Forces) -> None:
    """Say of three or more of each woodwind that the last of them was read as playing the auxiliary."""
    if size > PAIR:
        message = f"“{forces.written(start, end)}” was read with the last player of each on the auxiliary."
        forces.remark("ensemble", message, start, end, f"{size} of each and no auxiliary")


def folded(size: int) -> tuple[str, ...]:
    """Return the woodwind of an orchestra in so many of each; a third player takes the usual auxiliary."""
    of_each = []
    for slug in MAIN:
        plain = size if size < 3 else size - 1
        of_each += [slug] * plain + ([AUXILIARY[slug]] if size > 2 else [])
    return tuple(of_each)
