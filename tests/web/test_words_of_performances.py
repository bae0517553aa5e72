"""Words that performances hold: what the indexes find is what one finds who reads all there is, row by row."""

from __future__ import annotations

from random import Random
from typing import Any

import pytest
from django.db import connection
from django.http import QueryDict
from django.test import RequestFactory
from django.test.utils import CaptureQueriesContext

from catalogue.gathering.once import forget_all
from catalogue.gathering.searches import evenings_with, words_of
from catalogue.gathering.versions import State
from catalogue.models import Composer, Organisation, Performance, PerformanceCredit, Person, Venue, Work
from catalogue.rules.search import fold
from catalogue.web.asked import asked_performances
from catalogue.web.tables import lists, performance_words
from catalogue.web.tables.lists import GroupedPaginator
from tests.makers import (
    NOW,
    make_composer,
    make_organisation,
    make_performance,
    make_person,
    make_venue,
    make_work,
)

pytestmark = pytest.mark.django_db
VOCABULARY = (
    "Étude", "etudes", "GRÖSSE", "Größe", "Łódź", "Øresund", "Ærø", "İzmir", "ısı", "Σχοινί", "ΣΧΟΙΝΊ", "медленная",
    "Медленно", "庭", "庭の歌", "東京", "서울", "한강", "नदी", "river", "Riverside", "O’Hara", "100%", "a_b", "c\\d",
    "“Quoted”", "ﬁn", "ﬁnal", "x", "10–12", "שיר", "مدينة",
)  # fmt: skip
ANEW = State((), is_settled=False)


@pytest.fixture(autouse=True)
def nothing_is_remembered() -> None:
    forget_all()


def some_words(chance: Random, most: int = 3) -> str:
    return " ".join(chance.choice(VOCABULARY) for _ in range(chance.randrange(most + 1)))


def a_question(chance: Random) -> str:
    """Return one to three words or parts of words, in another case here and there."""
    words = []
    for _ in range(chance.randrange(1, 4)):
        word = chance.choice(VOCABULARY)
        start = chance.randrange(len(word))
        part = word[start : start + chance.randrange(1, len(word) + 1)]
        words.append(chance.choice((part, word, part.upper(), word.casefold())))
    return "  ".join(words)


def fill(composer: Composer, chance: Random, number: int) -> None:
    """Make evenings with words everywhere where words are looked for; delete some of all that can be deleted."""
    halls = [make_venue(f"{some_words(chance)}.", composer=composer, city=some_words(chance, 1)) for _ in range(3)]
    bodies = [make_organisation(f"{some_words(chance)}.", composer=composer) for _ in range(3)]
    people = [make_person(f"{some_words(chance)}.", composer=composer, plays=some_words(chance, 1)) for _ in range(3)]
    works = [make_work(f"{some_words(chance)}.", composer=composer, notes=some_words(chance)) for _ in range(6)]
    for _ in range(number):
        evening = make_performance(
            *chance.sample(works, chance.randrange(3)),
            composer=composer,
            date=chance.choice(("2024-05-16", "2025", "")),
            at=None,
            venue=chance.choice((None, *halls)),
            presenter=chance.choice((None, *bodies)),
            performers=tuple(f"{some_words(chance, 1)}!" for _ in range(chance.randrange(2))),
            event_title=some_words(chance, 1),
            city=some_words(chance, 1),
            notes=some_words(chance) if chance.random() < 0.3 else "",
        )
        for order, somebody in enumerate(chance.sample((*bodies, *people), chance.randrange(3)), start=10):
            column = "person" if isinstance(somebody, Person) else "organisation"
            PerformanceCredit.objects.create(performance=evening, order=order, **{column: somebody})
    for model in (Performance, Work, Venue, Organisation, Person):
        gone = [one.pk for one in model._base_manager.filter(composer=composer) if chance.random() < 0.15]
        model._base_manager.filter(pk__in=gone).update(deleted_at=NOW)


def texts_of(evening: Performance) -> list[str]:
    """Return all texts in which a word of an evening may stand, folded."""
    found: list[Any] = [evening, evening.venue, evening.presenter]
    found += [row.work for row in evening.programme.all() if row.work.deleted_at is None]
    for row in evening.credits.all():
        found += [row, row.person, row.organisation]
    columns = {type(one): one._meta.get_field("search_text").of for one in found if one is not None}
    return [fold("\n".join(getattr(one, name) for name in columns[type(one)])) for one in found if one is not None]


def read_through(composer: Composer, text: str) -> list[int]:
    """Return the keys of the evenings that hold every word, found by reading all of them."""
    words = fold(text).split()
    evenings = Performance.objects.filter(composer=composer).order_by("pk")
    held = {one.pk: texts_of(one) for one in evenings}
    return [key for key, texts in held.items() if all(any(word in one for one in texts) for word in words)]


@pytest.mark.parametrize("seed", range(6))
def test_what_is_found_is_what_is_there(seed: int) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    composer, other = make_composer(), make_composer("Ada Brook", sort_name="Brook, Ada")
    fill(composer, chance, 25)
    fill(other, chance, 6)
    found = 0
    for _ in range(40):
        text = a_question(chance)
        expected = read_through(composer, text)
        ours = Performance.objects.filter(composer=composer).order_by("pk")
        assert list(ours.matching(text, composer=composer).values_list("pk", flat=True)) == expected, text
        assert list(ours.matching(text).values_list("pk", flat=True)) == expected, text
        if words_of(text):
            assert sorted(evenings_with(ANEW, composer, words_of(text))) == expected, text
        found += len(expected)
    assert found > 40


@pytest.mark.parametrize("seed", range(4))
def test_works_that_are_found_are_those_that_hold_the_words(seed: int) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    composer = make_composer()
    fill(composer, chance, 3)
    for _ in range(30):
        text = a_question(chance)
        whole = Work.objects.filter(composer=composer).newest_first()
        held = [one.pk for one in whole if all(word in one.search_text for word in fold(text).split())]
        assert [one.pk for one in whole.matching(text)] == held, text


def asked(composer: Composer, query: str) -> Any:
    request: Any = RequestFactory().get(f"/?{query}")
    request.composer, request.GET = composer, QueryDict(query)
    return asked_performances(request, today=NOW.date()).table


@pytest.mark.parametrize(("few", "longest"), [(2_000, 20_000), (2, 20_000), (2, 9), (2, 1)])
@pytest.mark.parametrize("word", ["river", "庭", "etude", "x", "nowhere"])
def test_pages_together_are_the_whole_list_in_its_order(
    word: str, few: int, longest: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """However they are found: few put in order, many met by going through all, or met too seldom for that."""
    composer = make_composer()
    fill(composer, Random(3), 30)  # noqa: S311 - no secret hangs on it
    monkeypatch.setattr(lists, "PER_PAGE", 4)
    monkeypatch.setattr(performance_words, "FEW", few)
    monkeypatch.setattr(performance_words, "LONGEST", longest)
    pages = asked(composer, f"q={word}").pages()
    assert isinstance(pages, GroupedPaginator)
    whole = Performance.objects.filter(composer=composer).matching(word).latest_first()

    assert pages.count == whole.count()
    assert [key for number in pages.page_range for key in pages.keys((number - 1) * 4, min(number * 4, pages.count))] \
        == [one.pk for one in whole]  # fmt: skip
    assert (word == "nowhere") == (pages.count == 0)


def test_a_question_that_holds_no_word_is_none() -> None:
    composer = make_composer()
    evening = make_performance(composer=composer, event_title="Evening")

    assert [row.pk for row in asked(composer, "q=%CC%81").pages().page(1)] == [evening.pk]


def test_words_are_asked_with_as_many_questions_however_many_hold_them() -> None:
    composer = make_composer()
    make_performance(composer=composer, event_title="River")

    def questions() -> int:
        forget_all()
        with CaptureQueriesContext(connection) as seen:
            table = asked(composer, "q=river%20riv")
            table.turn_to("1")
        return len(seen)

    with_one = questions()
    for _ in range(3):
        make_performance(composer=composer, event_title="River")
    assert questions() == with_one
