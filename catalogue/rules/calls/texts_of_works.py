"""The words that a work sets against a call: their language, and whether they are free of rights or cleared."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from catalogue.facts import TextFacts, WorkFacts
from catalogue.rules.calls.families import Candidate
from catalogue.rules.calls.sung_texts import language_name, language_of
from catalogue.rules.calls.terms import Call, TextRights
from catalogue.rules.calls.verdicts import Judged, Record, Verdict
from catalogue.rules.calls.words import plain
from catalogue.rules.clearances import may_be_printed
from catalogue.rules.phrases import listed
from catalogue.terms import Category, Clearance

YES, NO, CANNOT_TELL = Verdict.YES, Verdict.NO, Verdict.CANNOT_TELL


def judge_texts(one: Candidate, call: Call) -> Iterator[Judged]:
    """Yield what a call's rules on words make of a work; one that sets none answers them."""
    if call.text_languages:
        yield text_language(one, call)
    if call.text_rights:
        yield text_rights(one, call)


def sets_words(one: Candidate) -> bool:
    """Whether somebody sings, or the records name a text."""
    work = one.work
    sung = work.instrumentation is not None and any(line.family == "voice" for line in work.instrumentation.lines)
    of_voices = sung or work.category in (Category.CHOIR, Category.VOICE)
    return of_voices or bool(work.text_author or work.text_language or one.texts)


def text_language(one: Candidate, call: Call) -> Judged:
    record = one.record
    asked = listed([language_name(one) for one in call.text_languages], "or")
    if not sets_words(one):
        return Judged("text language", YES, "It sets no words.", record)
    named = dict.fromkeys(language_of(text) for text in languages_of(one.work, one.texts))
    found = [code for code in named if code]
    if not found:
        reason = f"The language of its text is not recorded; the call asks for {asked}."
        return Judged("text language", CANNOT_TELL, reason, record, "Enter the language of the text.")
    fits = all(code in call.text_languages for code in found)
    reason = f"Its text is in {listed([language_name(code) for code in found])}; the call asks for {asked}."
    return Judged("text language", YES if fits else NO, reason, record)


def languages_of(work: WorkFacts, texts: tuple[TextFacts, ...]) -> list[str]:
    """Return the languages of its texts as the records name them, that of the work where they name none."""
    return [one.language for one in texts if one.language] or [work.text_language]


def text_rights(one: Candidate, call: Call) -> Judged:
    """Judge the rights of every text that a work sets; the worst of them decides."""
    record = one.record
    if not sets_words(one):
        return Judged("text rights", YES, "It sets no words.", record)
    texts = one.texts or tuple(named_alone(one.work))
    if not texts:
        reason = "Whose words it sets, and their rights, is not recorded."
        return Judged("text rights", CANNOT_TELL, reason, record, "Add the text to the work, with its permission.")
    judged = [of_text(text, call, record) for text in texts]
    return next(found for verdict in (NO, CANNOT_TELL, YES) for found in judged if found.verdict is verdict)


def named_alone(work: WorkFacts) -> Iterator[TextFacts]:
    """Yield the text whose author alone is named at the work."""
    if work.text_author:
        yield TextFacts(work.id, work.text_author)


def of_text(text: TextFacts, call: Call, record: Record) -> Judged:
    called, rule = f"“{text.title or text.author}”", call.text_rights
    free = why_free(text, (call.closes or date.max).year)
    if free:
        return Judged("text rights", YES, f"{called}: {free}.", record)
    if is_own(text):
        return of_own_text(called, call, record)
    if rule is not TextRights.CLEARED or text.clearance in (Clearance.NOT_ASKED, Clearance.ASKED):
        return not_free(called, text, call, record)
    cleared = may_be_printed(text.clearance, text.expires, call.closes or date.min)
    reason = f"{called}: {told(text)}; the call wants texts {rule}."
    return Judged("text rights", YES if cleared else NO, reason, record)


def of_own_text(called: str, call: Call, record: Record) -> Judged:
    if call.text_rights is not TextRights.PUBLIC_DOMAIN:
        return Judged("text rights", YES, f"{called}: the text is the composer’s own.", record)
    reason = f"{called}: the text is the composer’s own; the call speaks of the public domain alone."
    return Judged("text rights", CANNOT_TELL, reason, record, "Ask the organiser whether a text of your own will do.")


def not_free(called: str, text: TextFacts, call: Call, record: Record) -> Judged:
    """Say of a text that is not known to be free what is known of it."""
    if text.clearance in (Clearance.GRANTED, Clearance.REFUSED):
        reason = f"{called}: {told(text)}; the call wants texts {call.text_rights}."
        return Judged("text rights", NO, reason, record)
    reason = f"Whether {called} is free of rights is not recorded; the call wants texts {call.text_rights}."
    return Judged("text rights", CANNOT_TELL, reason, record, "Note with the text who holds its rights.")


def is_own(text: TextFacts) -> bool:
    return text.clearance is Clearance.OWN_TEXT or OWN.fullmatch(plain(text.author).strip()) is not None


OWN = re.compile(r"(?:the )?composer(?: \(.*\))?|own text|eigener text|le compositeur|l'autore|il compositore")
OLD = re.compile(
    r"(?:anon|trad|liturg|bibl|psalm|missal|folk ?song|volkslied)|"
    r"(?<!\d)(?:1?\d(?:st|nd|rd|th)(?:[- ]|/\d{2}th[- ])?century|1?\d\. jahrhundert|c\. ?1[0-8]\d\d)"
)
DIED = re.compile(r"(?:-|died |d\. ?|†\s?|gest\. ?)(?P<year>1[0-9]\d\d|20\d\d)(?!\d)")
PROTECTED = 70
"""Years after an author's death for which a text is protected in most states (common practice; local law decides)."""


def why_free(text: TextFacts, year: int) -> str:
    """Say why a text is free of rights, empty where the records do not tell it.

    >>> why_free(TextFacts(1, "Piet Ravensmoor (1790-1861)"), 2027)
    'its author died in 1861'
    """
    if text.clearance is Clearance.PUBLIC_DOMAIN:
        return "it is in the public domain"
    if text.clearance in (Clearance.GRANTED, Clearance.REFUSED):
        return ""
    said = plain(text.author)
    died = [int(match["year"]) for match in DIED.finditer(said)]
    if died:
        return f"its author died in {max(died)}" if max(died) + PROTECTED < year else ""
    return f"its author is told as {text.author}" if OLD.search(said) else ""


def told(text: TextFacts) -> str:
    if text.clearance is Clearance.REFUSED:
        return "permission is refused"
    return f"permission is granted{f' until {text.expires}' if text.expires else ''}"
