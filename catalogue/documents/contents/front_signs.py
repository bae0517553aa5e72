"""The notation key in front of a score: how long an accidental holds, then each sign that occurs, group by group."""

from __future__ import annotations

from itertools import groupby

from catalogue.documents.contents.front_forces import cents_text
from catalogue.documents.labels import Labels
from catalogue.documents.model import Block, Legend, Section, Sign, Text, joined, value, wording
from catalogue.drawings.signs import key_stave
from catalogue.record_facts import SignFacts, WorkRecords
from catalogue.rules.front_matter import score_of
from catalogue.terms import AccidentalRule, SignGroup

HEADS = {
    SignGroup.ACCIDENTAL: "Accidentals",
    SignGroup.NOTEHEAD: "Noteheads",
    SignGroup.TECHNIQUE: "Ways of playing",
    SignGroup.ELECTRONICS: "Electronics",
    SignGroup.TIME: "Time",
    SignGroup.GRAPHIC: "Graphic notation",
}
RULES = {
    AccidentalRule.BAR: "An accidental holds to the end of the bar, in its own octave only.",
    AccidentalRule.NOTE: "An accidental holds for its own note only.",
}


def sign_sections(records: WorkRecords, says: Labels) -> tuple[Section, ...]:
    """The key; nothing for a score without signs of its own."""
    legends: tuple[Block, ...] = tuple(
        legend(group, tuple(signs), records, says) for group, signs in groupby(records.signs, key=lambda one: one.group)
    )
    return (Section(wording(says.word("Notation")), legends),) if legends else ()


def legend(group: SignGroup, signs: tuple[SignFacts, ...], records: WorkRecords, says: Labels) -> Legend:
    note = accidentals_note(signs, records, says) if group is SignGroup.ACCIDENTAL else ()
    return Legend(tuple(sign_of(one, says) for one in signs), wording(says.word(HEADS[group])), note)


def accidentals_note(signs: tuple[SignFacts, ...], records: WorkRecords, says: Labels) -> Text:
    """How long an accidental holds, and after whom the signs are written."""
    score = score_of(records.editions)
    rule = wording(says.word(RULES[score.accidentals])) if score and score.accidentals else ()
    systems = tuple(value(name) for name in dict.fromkeys(one.system for one in signs if one.system))
    after = says.say("Signs after {systems}.", systems=says.listed(systems)) if systems else ()
    return joined((rule, after), " ")


def sign_of(one: SignFacts, says: Labels) -> Sign:
    """A row: the sign on a stave, its name, what to do and who does it, how much it alters or where it first stands."""
    cents = value(f"{says.figure(cents_text(one.cents))} {says.word('cents')}") if one.cents is not None else ()
    first = says.say("from {place}", place=one.first_at) if one.first_at else ()
    detail = joined((value(one.concerns), value(" ".join(one.meaning.split()))), says.colon)
    return Sign(key_stave(one.smufl), value(one.name), detail, joined((cents, first), ", "))
