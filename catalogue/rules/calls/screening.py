"""Every work against every condition of a call: yes, no, cannot tell, each with its reason and the record it rests on.

A no beats a cannot tell. What is to be prepared (a recording, a note, a motto, a fee) decides nothing, except that a
demanded live recording cannot exist of a work that was never played; rules on the works together touch no single work.
Words are looked at where the call's players and singers can perform them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from catalogue.facts import CatalogueFacts, ComposerFacts, WorkFacts
from catalogue.rules.calls.families import Candidate, candidates
from catalogue.rules.calls.figures_of_works import all_figures
from catalogue.rules.calls.fitting import Answers, forces, soloist
from catalogue.rules.calls.past import live_recording, unperformed
from catalogue.rules.calls.terms import Age, Call, RecordingRule, Residence
from catalogue.rules.calls.texts_of_works import judge_texts
from catalogue.rules.calls.verdicts import Judged, Record, Verdict, together
from catalogue.rules.calls.zones import state_of_word
from catalogue.rules.phrases import listed
from catalogue.rules.states import state_name

YES, NO, CANNOT_TELL = Verdict.YES, Verdict.NO, Verdict.CANNOT_TELL


class Screened(NamedTuple):
    """One work with what each condition makes of it."""

    work: WorkFacts
    verdict: Verdict
    conditions: tuple[Judged, ...]

    @property
    def deciding(self) -> tuple[Judged, ...]:
        """The conditions that make the verdict what it is; none for a yes."""
        return tuple(one for one in self.conditions if one.verdict is self.verdict) if self.verdict is not YES else ()

    @property
    def is_near_miss(self) -> bool:
        """Whether one thing alone stands in the way and something would mend it."""
        return self.verdict is NO and len(self.deciding) == 1 and bool(self.deciding[0].mend)


@dataclass(frozen=True, slots=True)
class Screening:
    """A call against a catalogue: what concerns the composer, and every work."""

    call: Call
    composer: tuple[Judged, ...]
    works: tuple[Screened, ...]

    def of(self, verdict: Verdict) -> tuple[Screened, ...]:
        return tuple(one for one in self.works if one.verdict is verdict)


def screen(call: Call, catalogue: CatalogueFacts) -> Screening:
    """Return every work of a catalogue against a call."""
    person = tuple(of_composer(call, catalogue.composer))
    barring = tuple(one for one in person if one.condition == "age" or one.verdict is NO)
    answers = Answers(call)
    works = tuple(screened(one, answers, barring) for one in candidates(catalogue))
    return Screening(call, person, works)


def screened(one: Candidate, answers: Answers, barring: tuple[Judged, ...]) -> Screened:
    conditions = (*barring, *conditions_of(one, answers))
    return Screened(one.work, together([judged.verdict for judged in conditions]), conditions)


def conditions_of(one: Candidate, answers: Answers) -> Iterator[Judged]:
    call, played = answers.call, None
    offers = call.forces
    if offers.texts or offers.players_max is not None or offers.players_min is not None or call.voices_excluded:
        played = forces(one, answers)
        yield played
    if call.soloists_excluded:
        yield soloist(one, answers)
    yield from all_figures(one, answers)
    if (call.text_languages or call.text_rights) and (played is None or played.verdict is not NO):
        yield from judge_texts(one, call)
    if call.unperformed:
        yield unperformed(one, call)
    if call.recording is RecordingRule.REQUIRED and call.recording_live:
        yield live_recording(one)


# ---- the composer


def of_composer(call: Call, composer: ComposerFacts) -> Iterator[Judged]:
    if call.age:
        yield age(call.age, composer)
    if call.residence:
        yield residence(call.residence, composer)


def age(rule: Age, composer: ComposerFacts) -> Judged:
    """Judge the composer's age: birthdays of a year alone are tried at both its ends."""
    record = Record("composer", composer.id)
    born = composer.born
    if born is None:
        return Judged("age", CANNOT_TELL, "The date of birth is not recorded.", record, "Enter the date of birth.")
    verdicts = {allowed(rule, day) for day in (born.first, born.last)}
    verdict = verdicts.pop() if len(verdicts) == 1 else CANNOT_TELL
    return Judged("age", verdict, age_reason(rule, born.first, str(born)), record)


def allowed(rule: Age, born: date) -> Verdict:
    if rule.born is not None and (born < rule.born or (rule.after and born == rule.born)):
        return NO
    if rule.limit is None and rule.least is None:
        return YES
    if rule.on is None:
        return CANNOT_TELL
    years = age_on(born, rule.on)
    too_old = rule.limit is not None and years > rule.limit
    return NO if too_old or (rule.least is not None and years < rule.least) else YES


def age_on(born: date, day: date) -> int:
    """Return the age in full years on a day.

    >>> age_on(date(1991, 3, 7), date(2027, 3, 6))
    35
    """
    return day.year - born.year - ((day.month, day.day) < (born.month, born.day))


def age_reason(rule: Age, born: date, told: str) -> str:
    if rule.born is not None:
        return f"Born {told}; the call is for those born {'after' if rule.after else 'on or after'} {rule.born}."
    if rule.on is None:
        return f"Born {told}; the call does not say on which day the age counts."
    if rule.limit is None:
        asked = f"from {rule.least}"
    else:
        asked = f"from {rule.least} up to {rule.limit}" if rule.least else f"up to {rule.limit}"
    return f"Born {told}, {age_on(born, rule.on)} on {rule.on}; the call admits {asked}."


def residence(rule: Residence, composer: ComposerFacts) -> Judged:
    """Judge nationality, residence and birthplace: one that is met is enough, one that is not known leaves it open."""
    record = Record("composer", composer.id)
    known = {
        "lives in or belongs to": {composer.country} - {""},
        "was born in": {place_state(composer.birthplace)} - {""},
    }
    wanted = set(rule.national) | set(rule.resident)
    found = known["lives in or belongs to"] & wanted | known["was born in"] & set(rule.born)
    if found:
        return Judged("nationality", YES, f"The records name {listed(sorted(map(state_name, found)))}.", record)
    asked = listed([state_name(one) for one in dict.fromkeys((*rule.national, *rule.resident, *rule.born))], "or")
    reason = f"The call is for composers of {asked}; the records do not say it of this one."
    return Judged("nationality", CANNOT_TELL, reason, record, "Check it against your passport and address.")


def place_state(place: str) -> str:
    return next((code for part in place.split(",")[::-1] if (code := state_of_word(part.strip()))), "")
