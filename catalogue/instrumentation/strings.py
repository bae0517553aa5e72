"""Settles bodies of strings: figures by section, desks or players, strengths, single players against sections.

Five figures are violins I, violins II, violas, cellos and double basses; four leave the violins undivided; three are
violins, violas and cellos. Figures mean players unless desks are spoken of; figures of a printed set are no players.
Common practice.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import takewhile

from catalogue.instrumentation import collectives
from catalogue.instrumentation.doublings import doublings_in
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.formula import falling
from catalogue.instrumentation.lexicon import (
    AND,
    BODY_OF_STRINGS,
    DESKS,
    EACH,
    IN,
    LEAST,
    ONE_TO_A_PART,
    OR,
    ORCHESTRA,
    PARTS_IN_SET,
    PLAYERS,
    PREFERRED,
    SOLO,
    UP_TO,
    WITHOUT,
)
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import MOST
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, token_at
from catalogue.instrumentation.players_meant import Section
from catalogue.instrumentation.plurals import is_plural
from catalogue.instrumentation.string_totals import counts_body
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row, Token, flatten
from catalogue.instrumentation.vocabulary import family_of

FIVE = ("violin-1", "violin-2", "viola", "cello", "double-bass")
BY_FIGURES = {
    5: FIVE,
    4: ("violin", "viola", "cello", "double-bass"),
    3: ("violin", "viola", "cello"),
}
ASIDE = LEAST | PREFERRED | UP_TO | DESKS | PARTS_IN_SET | PLAYERS | EACH | AND | IN
BOWED = frozenset((*FIVE, "violin"))
TITLED = re.compile(r"\W{0,3}(?:\w+ ){0,2}(\w{4,12}) (?:for|für|pour|per|para)\b", re.IGNORECASE)
Figure = tuple[int, int, tuple[Bracket, ...]]
LIMITS = LEAST | PREFERRED | UP_TO | EACH | PLAYERS
LIMITING = LEAST | UP_TO


def figures_before_strings(forces: Forces) -> None:
    """Give five figures that the word for strings follows, ``8.6.4.4.2 strings``, to the body they count."""
    drafts = forces.drafts
    at = next((at for at, one in enumerate(drafts) if one.slug == "strings" and one.count is not None), 0)
    run = drafts[at - 4 : at + 1]
    if at < 4 or drafts[at].numbers or drafts[at].brackets or drafts[at].clauses:
        return
    joined = len({one.separator for one in run[1:]}) == 1 and run[1].separator in (".", ",", "/", "-")
    plain = all(one.figure and not one.brackets and not one.packed for one in run[:-1])
    counts = [one.most for one in run]
    if joined and plain and (falling(counts) or counts == sorted(counts, reverse=True)):
        drafts[at].numbers = [(one.least, one.most) for one in run]
        drafts[at].count, drafts[at].start, drafts[at].separator = None, run[0].start, run[0].separator
        del drafts[at - 4 : at]


def settle_strings(forces: Forces, *, orchestral: bool) -> None:
    """Turn every body of strings into its sections, and named string instruments into players or sections."""
    if not any(draft.slug in BOWED or draft.slug == "strings" for draft in forces.drafts):
        return
    third = any(max((*one.number_after, *one.seats), default=0) > 2 for one in forces.drafts if one.slug == "violin")
    forces.drafts[:] = [part for draft in forces.drafts for part in ((draft,) if third else divided(draft))]
    forces.drafts[:] = [
        draft for at, draft in enumerate(forces.drafts) if not is_made_up(draft, forces.drafts[at + 1 :])
    ]
    named = [draft for draft in forces.drafts if draft.slug in BOWED and draft.role != "soloist"]
    settled: list[Draft] = []
    for draft in forces.drafts:
        if draft.slug == "strings":
            settled += sections(draft, forces)
        else:
            if draft.slug in BOWED:
                strength(draft, [one for one in named if one.group == draft.group], forces, orchestral=orchestral)
            settled.append(draft)
    forces.drafts[:] = settled


def is_made_up(body: Draft, after: list[Draft]) -> bool:
    """Whether a number of strings only counts those who are named after it, ``11 solo strings: 6 violins, …``."""
    if body.slug != "strings" or body.count is None or body.numbers or body.brackets or body.clauses:
        return False
    members = [*takewhile(lambda one: one.slug in BOWED and one.group == body.group, after)]
    return len(members) > 1 and sum(one.most for one in members) == body.most


def chamber_strings(forces: Forces) -> None:
    """Read the strings of ``Quintet for clarinet and strings`` as the players that the size of the work leaves."""
    titled = TITLED.match(forces.text)
    body = next((draft for draft in forces.drafts if draft.slug == "strings"), None)
    size = collectives.size_of(titled[1]) if titled is not None else None
    if body is None or size is None or body.numbers or body.brackets or body.clauses or body.count is not None:
        return
    others = sum(draft.most for draft in forces.drafts if draft is not body and draft.family != "electronics")
    slugs = collectives.STRING_SETS.get(size - others, ())
    if not slugs or not forces.decide(
        "ensemble", "The strings were read as", ("single players", "sections"), body.start, body.end
    ):
        return
    at = next(index for index, one in enumerate(forces.drafts) if one is body)
    players = [Draft(slug, body.start, body.end, separator="&", collective="strings") for slug in dict.fromkeys(slugs)]
    for player in players:
        player.counted(slugs.count(player.slug))
    forces.drafts[at : at + 1] = players


def divided(draft: Draft) -> list[Draft]:
    """Return violins I and II as two drafts where one name covers both."""
    both = draft.number_after or draft.seats
    if draft.slug == "violin" and both == (1, 2) and draft.count is None:
        made = [Draft(slug, draft.start, draft.end, name=draft.name, plural=draft.plural) for slug in FIVE[:2]]
        for one in made:
            one.group, one.role, one.unit, one.optional = draft.group, draft.role, draft.unit, draft.optional
        return made
    if draft.slug == "violin" and len(both) == 1 and both[0] in (1, 2) and not draft.collective:
        draft.slug, draft.number_after, draft.seats = FIVE[both[0] - 1], (), ()
    return [draft]


def strength(draft: Draft, named: list[Draft], forces: Forces, *, orchestral: bool) -> None:
    """Tell players from sections for a string instrument that is named by itself."""
    beside = any(one.plural and one.count is None for one in named)
    uncounted = all(one.count is None and not one.collective for one in named)
    section = beside or (len(named) >= 3 and orchestral and uncounted)
    if section and not beside and not divided_violins(named) and few_winds(forces):
        readings = ("single players", "sections of strings")
        start, end = named[0].start, named[-1].end
        section = not forces.decide("single-strings", "The strings were read as", readings, start, end)
    if draft.count is None and draft.role != "soloist" and not draft.collective and (draft.plural or section):
        draft.open = True
    if draft.unit is None and draft.count is not None and forces.strings_are and draft.most > 1:
        draft.unit = forces.strings_are


def divided_violins(named: list[Draft]) -> bool:
    return any(draft.slug == "violin-2" for draft in named)


def few_winds(forces: Forces) -> bool:
    """Whether the winds are single players, at most the horns a pair: an ensemble and no orchestra."""
    winds = [draft for draft in forces.drafts if draft.family in ("woodwind", "brass")]
    return (
        bool(winds)
        and all(draft.most <= 1 for draft in winds if draft.slug != "horn")
        and all(draft.most <= 2 for draft in winds)
    )


def sections(draft: Draft, forces: Forces) -> Iterator[Draft]:
    """Return the sections of one body."""
    figures: list[Figure] = [(least, most, ()) for least, most in draft.numbers]
    named: list[tuple[str, int | None]] = []
    for clause in draft.clauses:
        figures = figures or figures_in(clause)
    for bracket in draft.brackets:
        bracket_words(draft, bracket, forces)
        if bracket.nodes and is_key(bracket.nodes[0], WITHOUT):
            draft.without += [slug for slug, _ in sections_named(bracket.nodes[1:]) or []]
            continue
        if not figures and (figures := figures_in(bracket.nodes)) and "set" not in draft.notes:
            keep_rest(draft, bracket, forces)
        figures = figures or one_to_a_part(bracket, draft, forces)
        if not figures and not named:
            named = sections_named(bracket.nodes) or []
            if not named and not counts_body(draft, bracket):
                keep_note(draft, bracket, forces)
    if "set" in draft.notes and draft.brackets:
        figures = []
        draft.notes = [forces.written(draft.brackets[0].start + 1, draft.brackets[-1].end - 1)]
    if figures:
        yield from counted_sections(draft, figures, forces)
    elif named:
        for slug, number in named:
            yield section(draft, slug, number, forces.strings_are)
    else:
        if draft.count is not None:
            draft.notes.append(f"{draft.count.most} players")
            message = f"The {draft.count.most} string players are not divided among the sections."
            forces.remark("undivided", message, draft.start, draft.end)
        for slug in FIVE:
            if slug not in draft.without and not (slug.startswith("violin") and "violin" in draft.without):
                yield section(draft, slug, None)


def keep_note(draft: Draft, bracket: Bracket, forces: Forces) -> None:
    """Keep what a bracket says of the body as a note, with a remark where it names players or another line-up."""
    if not bracket.nodes:
        return
    note = forces.written(bracket.nodes[0].start, bracket.nodes[-1].end)
    draft.notes.append(note)
    words = flatten(bracket.nodes)
    numbers = [word for word in words if word.kind == "number"]
    names = [name for at in range(len(words)) if (name := name_at(words, at)) is not None]
    played = any(family_of(name.slugs[0]) in ("woodwind", "brass", "keyboard") for name in names)
    played = played or (len(names) > 1 and bool(numbers))
    alone = any(is_key(word, SOLO) for word in words)
    if len(numbers) > 1 or played or alone:
        message = f"“{note}” was kept as a remark on the strings."
        forces.remark("remark", message, bracket.start, bracket.end, "further players or another line-up")


def bracket_words(draft: Draft, bracket: Bracket, forces: Forces) -> None:
    """Read what a bracket says of the figures in it: minima, preferred strengths, desks, a printed set."""
    words = flatten(bracket.nodes)
    for at, _ in enumerate(words):
        if phrase_end(words, at, LEAST) is not None:
            draft.strength = "least"
        if phrase_end(words, at, PREFERRED) is not None:
            draft.strength = "preferred"
        if phrase_end(words, at, UP_TO) is not None and len(figures_in(bracket.nodes)) > 0:
            draft.strength = "preferred"
            message = "The most players that may play were read as the preferred strength."
            forces.remark("most-strings", message, bracket.start, bracket.end, "a limit")
    choice = next((at for at, word in enumerate(words) if at and is_key(word, OR)), None)
    if choice is not None and phrase_end(words, choice + 1, BODY_OF_STRINGS | ORCHESTRA) is not None:
        written = forces.written(words[choice + 1].start, words[-1].end)
        message = f"“{written}” was kept as an alternative to what stands before it."
        forces.remark("alternative", message, words[choice].start, words[-1].end)
        draft.notes.append(f"or {written}")
    if any(is_key(word, DESKS) for word in words):
        draft.unit = "desks"
    if any(is_key(word, PARTS_IN_SET) for word in words):
        draft.notes.append("set")
        forces.remark("printed-set", "The figures were read as printed parts, not players.", bracket.start, bracket.end)


def figures_in(nodes: Nodes) -> list[Figure]:
    """Return the figures of sections, with the brackets that follow each; nothing where there are too few."""
    return figures_to(nodes)[0]


def keep_rest(draft: Draft, bracket: Bracket, forces: Forces) -> None:
    """Keep what stands after the figures of a bracket, ``(8.6.4.4.2; basses with low C)``, as a note."""
    _, end = figures_to(bracket.nodes)
    while end < len(bracket.nodes) and bracket.nodes[end].kind == "mark":
        end += 1
    rest = bracket.nodes[end:]
    if not all(
        node.kind == "mark" or is_key(node, ASIDE) or phrase_end(rest, at, ASIDE) for at, node in enumerate(rest)
    ):
        keep_note(draft, Bracket(bracket.opening, Row(rest), rest[0].start, rest[-1].end), forces)


def told_end(nodes: Nodes) -> int:
    """Pass over ``12 players:`` before the figures, their sum."""
    counted = count_at(nodes, 0)
    noun = (phrase_end(nodes, counted.end, PLAYERS) or counted.end) if counted is not None else 0
    return noun + 1 if 0 < noun < len(nodes) and nodes[noun].is_mark(":") else 0


def figures_to(nodes: Nodes) -> tuple[list[Figure], int]:
    """Return the figures of sections, nothing where there are too few, and the node after the last of them."""
    at = told_end(nodes)
    while at < len(nodes) and not isinstance(nodes[at], Bracket) and nodes[at].kind != "number":
        if nodes[at].kind == "word" and not (is_key(nodes[at], LIMITS) or phrase_end(nodes, at, LIMITING)):
            return [], len(nodes)
        at += 1
    found: list[Figure] = []
    while at < len(nodes):
        node = nodes[at]
        if isinstance(node, Bracket):
            if found:
                found[-1] = (found[-1][0], found[-1][1], (*found[-1][2], node))
        elif node.kind == "number":
            if name_at(nodes, at + 1) if at + 1 < len(nodes) else None:
                return [], len(nodes)
            found += packed(node)
        elif not node.is_mark(".,/-·") or (node.is_mark(",") and spoken(nodes, at + 1)):
            break
        at += 1
    return (found, at) if len(found) >= 3 else ([], len(nodes))


def one_to_a_part(bracket: Bracket, draft: Draft, forces: Forces) -> list[Figure]:
    """Return a one for each section where a bracket says that each part has one player, or plays solo."""
    alone = phrase_end(bracket.nodes, 0, SOLO) == len(bracket.nodes)
    if not alone and phrase_end(bracket.nodes, 0, ONE_TO_A_PART) != len(bracket.nodes):
        return []
    if alone:
        message = "The strings were read as one player to a part."
        forces.remark("one-to-a-part", message, bracket.start, bracket.end, "sections of strings as soloists")
    return [(0, 0, ()) if slug in draft.without else (1, 1, ()) for slug in FIVE]


def spoken(nodes: Nodes, at: int) -> bool:
    token = token_at(nodes, at)
    return token is not None and token.kind == "word"


def packed(token: Token) -> list[Figure]:
    """Return one figure, or one a digit where four or five are written together."""
    if len(token.text) in (3, 4, 5, 6):
        return [(int(digit), int(digit), ()) for digit in token.text]
    number = min(token.number, MOST) if len(token.text) < 3 else MOST
    return [(number, number, ())]


def counted_sections(draft: Draft, figures: list[Figure], forces: Forces) -> Iterator[Draft]:
    slugs = BY_FIGURES.get(len(figures))
    if slugs is None:
        reason = f"There are {len(figures)} string figures; five were expected."
        raise forces.fail(reason, draft.start, draft.end, ("five figures",))
    if len(figures) == 4 and all(most == 1 for _, most, _ in figures):
        slugs = FIVE[:4]
    elif len(figures) == 4:
        readings = ("undivided violins, violas, cellos and double basses", "violins I and II, violas and cellos")
        if not forces.decide("four-strings", "Four string figures were read as", readings, draft.start, draft.end):
            slugs = FIVE[:4]
    for slug, (least, most, brackets) in zip(slugs, figures, strict=True):
        if not most:
            continue
        made = section(draft, slug, most, forces.strings_are)
        made.counted(least, most)
        for bracket in brackets:
            double_in(made, bracket, forces)
        yield made


def double_in(draft: Draft, bracket: Bracket, forces: Forces) -> None:
    """Let the players of a section double what a bracket after its figure names; other words are a note."""
    found = doublings_in(bracket.nodes, Section("", draft.slug, draft.most), Forces(forces.text, forces.speech))
    if found is None or any(one.plays == (draft.slug,) for one in found):
        draft.notes.append(forces.written(bracket.nodes[0].start, bracket.nodes[-1].end) if bracket.nodes else "")
        return
    for one in found:
        other = one.plays[0].replace("-", " ")
        message = f"One string player was read as changing to {other}."
        forces.remark("string-doubling", message, bracket.start, bracket.end, f"a further player for the {other}")
        seats = one.chairs or ((1,) if draft.most == 1 else (None,))
        draft.chairs += [Chair(seat, (draft.slug, *one.plays), one.note) for seat in seats]


def section(draft: Draft, slug: str, number: int | None, unit: str | None = None) -> Draft:
    """Return the draft of one section of a body."""
    made = Draft(slug, draft.start, draft.end, role=draft.role, group=draft.group, optional=draft.optional)
    made.amplified, made.collective, made.notes = draft.amplified, "section", [note for note in draft.notes if note]
    made.strength, made.unit = draft.strength, draft.unit or (unit if number is not None else None)
    if number is None:
        made.open = True
    else:
        made.counted(number)
    return made


def sections_named(nodes: Nodes) -> list[tuple[str, int | None]] | None:
    """Return the sections that a bracket names, with numbers where it has them; ``None`` where it says more."""
    found: list[tuple[str, int | None]] = []
    single: list[str] = []
    at = 0
    while at < len(nodes):
        node: Node = nodes[at]
        if node.is_mark(",.;-/") or is_key(node, AND):
            at += 1
            continue
        counted = count_at(nodes, at)
        start = counted.end if counted else at
        name = name_at(nodes, start) if start < len(nodes) else None
        slug = bowed(name.slugs) if name is not None else None
        if name is None or slug is None:
            return found if found and (is_key(node, OR) or phrase_end(nodes, at, BODY_OF_STRINGS)) else None
        found.append((slug, counted.most if counted else None))
        single += [slug] * (not is_plural(name))
        at = name.end
    if (
        found
        and all(number is None for _, number in found)
        and {"violin", "viola", "cello"} <= {slug for slug, _ in found}
    ):
        return [(slug, None) for slug in FIVE if slug != "double-bass" or any(one == "double-bass" for one, _ in found)]
    counted_beside = any(number is not None for _, number in found)
    return [(slug, 1 if number is None and counted_beside and slug in single else number) for slug, number in found]


def bowed(slugs: tuple[str, ...]) -> str | None:
    """Return the bowed instrument among the meanings of a name; ``bass`` is a double bass among strings."""
    for slug in slugs:
        if slug in BOWED:
            return slug
        if slug == "voice-bass":
            return "double-bass"
        if slug == "voice-alto":
            return "viola"
    return None
