"""A work's forces against the players that a call offers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from catalogue.instrumentation import Instrumentation, Line
from catalogue.instrumentation.bodies import is_section
from catalogue.instrumentation.fit import Fit, fit
from catalogue.instrumentation.seats import is_person
from catalogue.rules.calls.families import Candidate
from catalogue.rules.calls.limit_texts import reading
from catalogue.rules.calls.terms import Call, Forces, ForcesRule
from catalogue.rules.calls.verdicts import Judged, Verdict
from catalogue.rules.calls.voices import judge_choir
from catalogue.rules.phrases import listed

NEAR_MISS_LINES = 3  # a work of fewer lines is another work without one of them
YES, NO, CANNOT_TELL = Verdict.YES, Verdict.NO, Verdict.CANNOT_TELL


@dataclass(frozen=True, slots=True)
class Answer:
    """What the forces come to; ``mend`` says what would mend it."""

    verdict: Verdict
    reason: str
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Answers:
    """What a call's players come to for the forces of works; works that share a reading are answered once."""

    call: Call
    told: dict[int, tuple[Instrumentation, Answer]] = field(default_factory=dict)
    """By the reading's identity; the reading is kept, so that nothing else takes its identity."""
    soloists: dict[int, tuple[Instrumentation, str]] = field(default_factory=dict)
    electronic: dict[int, tuple[Instrumentation, bool]] = field(default_factory=dict)

    def of(self, work: Instrumentation) -> Answer:
        known = self.told.get(id(work))
        if known is None:
            known = self.told[id(work)] = (work, answer_of(work, self.call))
        return known[1]

    def soloists_of(self, work: Instrumentation) -> str:
        known = self.soloists.get(id(work))
        if known is None:
            known = self.soloists[id(work)] = (work, soloists_of(work))
        return known[1]

    def needs_electronics(self, work: Instrumentation) -> bool:
        known = self.electronic.get(id(work))
        if known is None:
            known = self.electronic[id(work)] = (work, needs_electronics(work))
        return known[1]


def forces(one: Candidate, answers: Answers) -> Judged:
    """Judge whether the call's players can play the work, as the call has it."""
    record = one.record
    if one.work.instrumentation is None:
        reason = "Its forces are not recorded." if not one.work.instrumentation_typed else "Its forces cannot be read."
        return Judged("forces", CANNOT_TELL, reason, record, "Enter the instrumentation.")
    answer = answers.of(one.work.instrumentation)
    return Judged("forces", answer.verdict, answer.reason, record, answer.mend)


def answer_of(work: Instrumentation, call: Call) -> Answer:
    """Return the best answer among the line-ups that may play the work."""
    answers = [answer_for(one, call) for one in work.line_ups]
    return next(one for verdict in (YES, CANNOT_TELL, NO) for one in answers if one.verdict is verdict)


def answer_for(work: Instrumentation, call: Call) -> Answer:
    people = tuple(line for line in work.lines if is_person(line) and not is_optional(line))
    offer = offer_of(call.forces.texts)
    if call.forces.texts and not offer.line_ups:
        return Answer(
            CANNOT_TELL, f"The call’s forces cannot be read: “{call.forces.text}”.", "Correct the call’s forces."
        )
    checks = [by_kind(people, offer, call), by_number(work, people, call.forces)]
    if offer.line_ups and checks[0].verdict is YES:
        checks.append(by_players(replace(work, lines=people), offer, call))
    return worst(checks)


def worst(answers: list[Answer]) -> Answer:
    for verdict in (NO, CANNOT_TELL):
        found = [one for one in answers if one.verdict is verdict]
        if found:
            return found[0]
    return answers[-1]


@dataclass(frozen=True, slots=True)
class Offer:
    """The line-ups that a call offers, whether any has a voice or a section of strings, and whether all are sections.

    A call for string orchestra alone is for that body: a quartet fits its players and is no piece for it.
    """

    line_ups: tuple[Instrumentation, ...]
    sung: bool
    has_section: bool
    only_sections: bool


@lru_cache(maxsize=256)
def offer_of(texts: tuple[str, ...]) -> Offer:
    read = (reading(text) for text in texts)
    line_ups = tuple(one for found in read if found is not None for one in found.line_ups)
    return Offer(
        line_ups,
        sung=any(is_voice(line) for one in line_ups for line in one.lines),
        has_section=any(is_string_section(line, one.lines) for one in line_ups for line in one.lines),
        only_sections=bool(line_ups)
        and all(is_string_section(line, one.lines) for one in line_ups for line in one.lines if is_person(line)),
    )


def is_optional(line: Line) -> bool:
    return line.optional


def is_voice(line: Line) -> bool:
    return line.family == "voice"


def by_kind(people: tuple[Line, ...], offer: Offer, call: Call) -> Answer:
    """Judge players and singers, sections and single players, compulsory strings: what needs no matching."""
    sung = any(map(is_voice, people))
    if not offer.line_ups:
        if sung and call.voices_excluded:
            return Answer(NO, "A choir or singer is needed; the call wants players only.")
        return Answer(YES, "The call sets no forces.")
    if not people:
        return Answer(NO, "There are no players in the work.")
    if offer.sung:
        return Answer(YES, "")
    if sung:
        return Answer(NO, "A choir or singer is needed; the call has none.")
    sections = any(is_string_section(line, people) for line in people)
    if sections and not offer.has_section:
        return Answer(NO, "A string section is needed; the call has single players.")
    if offer.only_sections and not sections and call.forces.rule is not ForcesRule.ANY_SUBSET:
        return Answer(NO, "There is no string section in the work; the call is for string orchestra.")
    if call.forces.strings_compulsory and not sections:
        return Answer(NO, "There is no string section in the work; full strings are compulsory.")
    return Answer(YES, "")


def is_string_section(line: Line, lines: tuple[Line, ...]) -> bool:
    return line.family == "strings" and is_section(line, lines)


def by_number(work: Instrumentation, people: tuple[Line, ...], limits: Forces) -> Answer:
    """Judge how many players the work needs; a section of open strength has two players at least."""
    least = sum(players_of(line)[0] for line in people)
    known = all(line.players is not None and line.unit != "desks" for line in people)
    told = f"{least} player{'' if least == 1 else 's'}" if known else f"{least} or more players"
    if limits.players_max is not None and least > limits.players_max:
        return Answer(NO, f"{told}; the call admits at most {limits.players_max}.")
    if limits.players_min is not None and least < limits.players_min:
        if not known:
            return Answer(
                CANNOT_TELL,
                f"The strength of its sections is open; the call wants at least {limits.players_min} players.",
            )
        return Answer(NO, f"{told}; the call wants at least {limits.players_min}.")
    if limits.players_max is not None and not known:
        return Answer(
            CANNOT_TELL, f"The strength of its sections is open; the call admits at most {limits.players_max} players."
        )
    return Answer(YES, f"{told}.")


def players_of(line: Line) -> tuple[int, int | None]:
    if line.players is None or line.unit == "desks":
        return 2, None
    return line.players


def by_players(work: Instrumentation, offer: Offer, call: Call) -> Answer:
    """Match the work's chairs with the call's players, for each alternative that the call gives."""
    offered = offer.line_ups
    if offer.sung:
        return judge_with_voices(work, offered, call)
    if call.soloists_excluded:
        work = replace(work, lines=tuple(line for line in work.lines if line.role != "soloist" or len(work.lines) == 1))
    answers = [answer for one in offered for answer in matched(work, one, call)]
    best = {answer.verdict: answer for answer in reversed(answers)}
    return best.get(YES) or best.get(CANNOT_TELL) or best[NO]


def judge_with_voices(work: Instrumentation, offered: Sequence[Instrumentation], call: Call) -> Answer:
    answers = []
    for one in offered:
        if any(is_voice(line) for line in one.lines):
            verdict, reason = judge_choir(work, one)
            answers.append(Answer(verdict, reason))
        else:
            answers += matched(work, one, call)
    best = {answer.verdict: answer for answer in reversed(answers)}
    return best.get(YES) or best.get(CANNOT_TELL) or best[NO]


def matched(work: Instrumentation, offered: Instrumentation, call: Call) -> Iterator[Answer]:
    rules = call.forces
    exact = rules.rule is ForcesRule.EXACTLY
    found = fitted(work, offered, rules.usual_doublings, rules.timpani_among_percussion, not exact)
    if found.fits is None:
        yield Answer(CANNOT_TELL, " ".join(found.open) or "It cannot be told whether there are players enough.")
    elif found.fits and call.forces.rule is ForcesRule.EXACTLY and not is_exact(work, offered, found):
        yield Answer(NO, f"It uses only some of the players; the call wants exactly {call.forces.text}.")
    elif found.fits:
        yield Answer(YES, f"The call’s players can play it: {call.forces.text}.")
    elif not found.fits and lacking(found) <= (rules.extra_players or 0):
        names = listed(list(dict.fromkeys(one.instrument.replace("-", " ") for one in found.missing)))
        yield Answer(YES, f"The call’s players can play it, its extra player {names}: {call.forces.text}.")
    else:
        why = " ".join(one.why for one in found.missing)
        near = len(work.lines) > NEAR_MISS_LINES and rules.rule is not ForcesRule.EXACTLY
        yield Answer(NO, why, mend_of(found) if near else "")


@lru_cache(maxsize=20_000)
def fitted(work: Instrumentation, offered: Instrumentation, usual: bool, timpani: bool, as_limits: bool) -> Fit:
    """Return what ``fit`` says; works with the same forces are matched once."""
    return fit(work, offered, usual_doublings=usual, timpani_among_percussion=timpani, as_limits=as_limits)


def is_exact(work: Instrumentation, offered: Instrumentation, found: Fit) -> bool:
    """Whether everybody whom the call offers for certain has something to play."""
    return not found.unused and bool(work.lines) and bool(offered.lines)


def lacking(found: Fit) -> int:
    """Return how many players are missing; an open section and a device are more than anybody brings along."""
    return sum(one.players or 9 for one in found.missing)


def mend_of(found: Fit) -> str:
    """Say what would mend it where no more than two chairs are missing."""
    few = lacking(found)
    if few > 2:
        return ""
    names = listed(list(dict.fromkeys(one.instrument.replace("-", " ") for one in found.missing)))
    return f"Only {names} is missing: a version without it would fit." if few == 1 else f"Missing are {names} only."


def soloist(one: Candidate, answers: Answers) -> Judged:
    """Judge a call that wants no soloists."""
    found = one.work.instrumentation
    if found is None:
        return Judged("soloist", CANNOT_TELL, "Its forces are not recorded.", one.record, "Enter the instrumentation.")
    names = answers.soloists_of(found)
    if names:
        return Judged("soloist", NO, f"It has a soloist: {names}.", one.record)
    return Judged("soloist", YES, "It has no soloist.", one.record)


def soloists_of(work: Instrumentation) -> str:
    """Return the instruments that play alone before others; empty where nobody does."""
    solos = [line for line in work.lines if line.role == "soloist" and not is_voice(line)]
    return ", ".join(line.instrument.replace("-", " ") for line in solos) if len(work.lines) > len(solos) else ""


def needs_electronics(work: Instrumentation) -> bool:
    """Whether a work cannot be played without electronics."""
    devices = [line for line in work.lines if line.family == "electronics"]
    return any(not line.optional for line in devices) if devices else work.electronics != "none"
