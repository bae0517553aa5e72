"""A call's text → Proposal: each subject read by its own module, the surest finding kept, each beside its words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import fields, replace
from datetime import date
from typing import Any

from catalogue.rules.calls.dating import read_dating
from catalogue.rules.calls.deadlines import read_deadlines
from catalogue.rules.calls.doubts import differing, unread_in
from catalogue.rules.calls.entrants import read_entrants
from catalogue.rules.calls.forces import read_forces
from catalogue.rules.calls.limits import read_limits
from catalogue.rules.calls.materials import read_materials
from catalogue.rules.calls.novelty import read_novelty
from catalogue.rules.calls.passages import Passage, passages_of
from catalogue.rules.calls.portals import PREFIX, read_portals
from catalogue.rules.calls.portfolios import read_portfolios
from catalogue.rules.calls.results import read_results
from catalogue.rules.calls.sound import read_sound
from catalogue.rules.calls.sung_texts import read_sung_texts
from catalogue.rules.calls.terms import Call, CallKind, Electronics, Evidence, Found, Portal, Proposal
from catalogue.rules.calls.words import has, plain

LONGEST = 60_000
KINDS = (
    (
        CallKind.DEGREE,
        r"\b(?:biennio|triennio)\b|master en\b|pruebas? de acceso|esami? di ammissione|concours d'entree|"
        r"aufnahmeprufung|eignungsprufung|master(?:studium|studiengang)\w*|zulassung\b|zulassungsprufung|"
        r"admision al master|"
        r"admission en (?:master|doctorat)|\b(?:m|b|d)\.?mus\b|m\.?phil\b|konzertexamen|doctor of|doctorate|"
        r"ph\.?d|d\.?m\.?a\b|master of|master's|"
        r"bachelor|admission|degree|"
        r"promotionsstudium|portfolio for entry",
    ),
    (
        CallKind.RESIDENCY,
        r"(?<!in )residenc|composers? in residence|residenz|artist in residence|aufenthaltsstipend|"
        r"composer[- ]in[- ]residence",
    ),
    (
        CallKind.READING,
        r"werkstatt fur neue|workshop for new (?:scores|works)|atelier de lecture|"
        r"(?:public )?lectures? publiques?|(?:orchester|ensemble|chor|lese)werkstatt\b|laboratorio di lettura|"
        r"taller de lectura|lettura (?:orchestrale|pubblica)|orchesterlesung|"
        r"week of workshops|reading workshop|reading (?:day|session|panel|week|project|afternoon|scheme)|"
        r"readings?\b(?=[^.]{0,40}(?:session|day|orchestra))|leseprobe|open reading|"
        r"(?:scores|works|music|orchestral?) readings?\b|seance de lecture|prove di lettura",
    ),
    (
        CallKind.COMPETITION,
        r"prize\b|competition|award\b|\w*wettbewerb|concours|concorso|concurso|premio|certamen|\w*preis\b|"
        r"prix\b",
    ),
    (
        CallKind.GRANT,
        r"grants?\b|bursar|\w*stipendi(?:um|en|ums)?\b|stipend|funding|fund\b|forderung|scholarship|fellowship|"
        r"bourse|borsa|becas?\b",
    ),
)
PAPER = re.compile(
    r"(?:\w*ausschreibung|bando(?: di concorso)?|bases(?: de la convocatoria)?|convocatoria|reglement|regolamento|"
    r"rules|"
    r"rules and conditions|terms and conditions|appel a \w+|call for (?:scores|works|entries|submissions)(?: \d{4})?)"
)
"""What sort of paper it is, which is no title where the next line has one."""
LONG_TITLE = 90
LISTS = ("documents", "set_rules", "contradictions", f"{PREFIX}formats")


class CallError(ValueError):
    """A text that cannot be read as a call."""

    def __init__(self, reason: str, text: str, start: int = 0, end: int = 0) -> None:
        super().__init__(reason)
        self.reason, self.text, self.start, self.end = reason, text, start, end


def read_call(text: str) -> Proposal:
    """Return what a call's text asks for, each field beside the words it came from. Raises CallError.

    >>> read_call("Length: up to nine minutes.").call.duration_max
    540
    """
    if not text.strip():
        raise CallError("The call’s text is empty.", text)
    if len(text) > LONGEST:
        reason = f"The text has {len(text)} characters; at most {LONGEST} are read. Paste the rules alone."
        raise CallError(reason, text, LONGEST, len(text))
    passages = passages_of(text)
    kind = kind_of(passages)
    found = [Found("kind", kind, 0, 0), *title_of(text, passages), *read_deadlines(passages, text)]
    found += read_results(passages)
    closes = next((one.value for one in found if one.field == "deadline_day" and isinstance(one.value, date)), None)
    found += subjects(passages, text, kind, closes)
    proposal = assembled(text, (*found, *differing(found, text)))
    return replace(proposal, unread=tuple(unread_in(passages, proposal.evidence, found)))


def subjects(passages: Sequence[Passage], text: str, kind: CallKind, closes: date | None) -> Iterator[Found]:
    yield from read_forces(passages, text, kind)
    yield from read_limits(passages)
    yield from read_dating(passages, closes)
    yield from read_novelty(passages)
    yield from read_entrants(passages, closes)
    yield from read_sound(passages)
    yield from read_sung_texts(passages)
    yield from read_materials(passages)
    yield from read_portfolios(passages)
    yield from read_portals(passages)


def kind_of(passages: Sequence[Passage]) -> CallKind:
    """Return what sort of call it is: by its first lines, else by the whole text."""
    title = plain(" ".join(one.text for one in passages[:2] if one.line <= passages[0].line + 2))
    head = plain(" ".join(f"{one.label} {one.text}" for one in passages[:4]))
    whole = plain(" ".join(f"{one.label} {one.text}" for one in passages)).replace("no prize", "")
    first = passages[0].plain if passages else ""
    for said in (first, title, head, whole):
        for kind, pattern in KINDS:
            if has(pattern, said) and (said is not whole or kind is CallKind.COMPETITION):
                return kind
    return CallKind.CALL


def title_of(text: str, passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield the first line that is no greeting and no deadline as the title, with the next where that says what it is.

    A line that only names the organiser is followed by one that says what is to be won or had.
    """
    lines = list(lines_for_title(text))
    if not lines:
        return
    start, line = lines[0]
    end, told = start + len(line), short_title(bare_line(line))
    if len(lines) > 1 and is_organiser(line) and says_what_it_is(lines[1][1]):
        end, told = lines[1][0] + len(lines[1][1]), f"{told}: {short_title(bare_line(lines[1][1]))}"
    yield Found("title", told, start, end)


GREETING = r"hello|dear|hi\b|liebe|cher|deadline|greetings|from:|to:|date:|sent:|an:|von:"


def lines_for_title(text: str) -> Iterator[tuple[int, str]]:
    """Yield the lines that may be a title, with their places."""
    at = 0
    for line in text.split("\n"):
        said = plain(line).strip(" *#-=>")
        if len(said) > 3 and not has(GREETING, said) and not PAPER.fullmatch(said):
            yield at, line
        at += len(line) + 1


def bare_line(line: str) -> str:
    return re.sub(r"^(?:Subject|Betreff|Objet|Oggetto|Fwd|Re):\s*", "", line.strip(" *#-=>|")) or line.strip(" *#-=>|")


def is_organiser(line: str) -> bool:
    """Whether a line names somebody and does not say what is to be won or had."""
    said = plain(line)
    return len(line.split()) <= 8 and not re.search(r"[.:!?]\s*$|:", line.strip()) and not says_a_kind(said)


def says_what_it_is(line: str) -> bool:
    return len(line) <= LONG_TITLE and not line.strip().endswith(".") and says_a_kind(plain(line))


def says_a_kind(said: str) -> bool:
    return any(has(pattern, said) for _kind, pattern in KINDS) or has(r"call for|scores wanted|ausschreibung", said)


def short_title(line: str) -> str:
    """Return a line as a title; of a long one the name that it introduces, else its first words."""
    if len(line) <= LONG_TITLE:
        return line
    sentence = re.match(r"[^.!?]{4,90}?(?=[.!?](?:\s|$))", line)
    if sentence:
        return sentence[0]
    named = re.search(r"\b(?:[Ww]e(?:'re|’re| are) the|[Tt]he)\s+(?P<name>(?:[A-Z]\w+\s+){1,4}[A-Z]\w+)", line)
    return named["name"] if named else line[:80].rsplit(" ", 1)[0] + " …"


def assembled(text: str, found: tuple[Found, ...]) -> Proposal:
    """Return the call of the surest findings; of equally sure ones the first counts."""
    names = {one.name for one in fields(Call)}
    values: dict[str, Any] = {}
    evidence: list[Evidence] = []
    for name in dict.fromkeys(one.field for one in found):
        of_field = [one for one in found if one.field == name]
        if name in LISTS:
            values[name] = tuple(dict.fromkeys(one.value for one in of_field))
            kept: Iterable[Found] = of_field
        else:
            best = max(of_field, key=lambda one: one.rank)
            values[name] = best.value
            kept = [one for one in of_field if one.value == best.value]
        if name in names or name.startswith(PREFIX):
            evidence += dict.fromkeys(Evidence(name, one.start, one.end) for one in kept if one.end)
    portal = {name.removeprefix(PREFIX): value for name, value in values.items() if name.startswith(PREFIX)}
    call = replace(Call(portal=Portal(**portal)), **{name: value for name, value in values.items() if name in names})
    return Proposal(tidy(call), text, tuple(sorted(evidence, key=lambda one: (one.start, one.field))))


def tidy(call: Call) -> Call:
    """Return the call without what cannot be: a least above the most is no bound, none of no electronics is no kind."""
    if call.duration_min is not None and call.duration_max is not None and call.duration_min > call.duration_max:
        call = replace(call, duration_min=None)
    if call.works_max is not None and call.works_min is not None and call.works_min > call.works_max:
        call = replace(call, works_min=None)
    if call.electronics is Electronics.EXCLUDED:
        call = replace(call, electronics_only=None)
    return call
