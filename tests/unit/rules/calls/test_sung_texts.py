"""The words that works set: what a call says of their language and rights, and what the records answer."""

from __future__ import annotations

from datetime import date

import pytest

from catalogue.facts import TextFacts
from catalogue.rules.calls.families import Candidate
from catalogue.rules.calls.reading import read_call
from catalogue.rules.calls.terms import Call, TextRights
from catalogue.rules.calls.texts_of_works import judge_texts
from catalogue.rules.calls.verdicts import Verdict
from catalogue.terms import Clearance
from catalogue.timing import PartialDate
from tests.fact_makers import make_work

YES, NO, CANNOT_TELL = Verdict.YES, Verdict.NO, Verdict.CANNOT_TELL
PUBLIC_DOMAIN, OWN, CLEARED = TextRights.PUBLIC_DOMAIN, TextRights.OWN, TextRights.CLEARED


@pytest.mark.parametrize(
    ("text", "rights", "languages"),
    [
        ("The text must be in the public domain.", PUBLIC_DOMAIN, ()),
        ("Words: in English, by the composer or out of copyright.", OWN, ("en",)),
        ("Texts in Latin or Welsh, in the public domain or cleared with the publisher.", CLEARED, ("la", "cy")),
        ("Der Text ist auf Deutsch und gemeinfrei.", PUBLIC_DOMAIN, ("de",)),
        ("Sur un texte libre de droits, en français ou en latin.", OWN, ("fr", "la")),
        ("Il testo, in italiano, è di pubblico dominio o accompagnato dall'autorizzazione.", CLEARED, ("it",)),
        ("El texto, en castellano, será de dominio público.", PUBLIC_DOMAIN, ("es",)),
        ("A biography in English and a note of at most 100 words.", None, ()),
        ("The language of the application is German.", None, ()),
    ],
)
def test_what_is_said_of_words_that_are_sung_is_read(
    text: str, rights: TextRights | None, languages: tuple[str, ...]
) -> None:
    call = read_call(f"Call for choirs\n\n{text}").call

    assert (call.text_rights, call.text_languages) == (rights, languages)


def judged(call: Call, *texts: TextFacts, author: str = "", language: str = "") -> list[tuple[str, Verdict]]:
    song = make_work(title="Rope Song", text_author=author, text_language=language)
    return [(one.condition, one.verdict) for one in judge_texts(Candidate(song, texts=texts), call)]


@pytest.mark.parametrize(
    ("text", "verdicts"),
    [
        (TextFacts(1, "Ilo Pertwee", clearance=Clearance.PUBLIC_DOMAIN), (YES, YES, YES)),
        (TextFacts(1, "Ilo Pertwee", clearance=Clearance.OWN_TEXT), (CANNOT_TELL, YES, YES)),
        (TextFacts(1, "Ilo Pertwee", clearance=Clearance.GRANTED), (NO, NO, YES)),
        (TextFacts(1, "Ilo Pertwee", clearance=Clearance.GRANTED, expires=PartialDate(2026)), (NO, NO, NO)),
        (TextFacts(1, "Ilo Pertwee", clearance=Clearance.REFUSED), (NO, NO, NO)),
        (TextFacts(1, "Ilo Pertwee"), (CANNOT_TELL, CANNOT_TELL, CANNOT_TELL)),
        (TextFacts(1, "Ilo Pertwee (1801–1856)"), (YES, YES, YES)),
        (TextFacts(1, "Ilo Pertwee (1901–1990)"), (CANNOT_TELL, CANNOT_TELL, CANNOT_TELL)),
        (TextFacts(1, "anonymous, 12th century"), (YES, YES, YES)),
        (TextFacts(1, "the composer"), (CANNOT_TELL, YES, YES)),
    ],
)
def test_rights_of_a_text_are_held_against_what_the_call_wants(
    text: TextFacts, verdicts: tuple[Verdict, Verdict, Verdict]
) -> None:
    calls = [Call(text_rights=rights, deadline_day=date(2027, 3, 1)) for rights in (PUBLIC_DOMAIN, OWN, CLEARED)]

    assert [judged(call, text) for call in calls] == [[("text rights", one)] for one in verdicts]


def test_languages_of_the_text_are_held_against_those_of_the_call() -> None:
    call = Call(text_languages=("la", "en"))

    assert judged(call, author="Ilo Pertwee", language="English") == [("text language", YES)]
    assert judged(call, author="Ilo Pertwee", language="de") == [("text language", NO)]
    assert judged(call, author="Ilo Pertwee") == [("text language", CANNOT_TELL)]
    assert judged(call, TextFacts(1, "Ilo Pertwee", language="la-VA"), language="de") == [("text language", YES)]


def test_a_work_without_words_answers_every_rule_on_them() -> None:
    assert judged(Call(text_languages=("la",), text_rights=PUBLIC_DOMAIN)) == [
        ("text language", YES),
        ("text rights", YES),
    ]
