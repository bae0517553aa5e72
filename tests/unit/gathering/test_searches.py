"""Performances that hold words: brought forward they are those that are found anew, whatever was done in between."""

from __future__ import annotations

from random import Random
from typing import Any

import pytest
from django.apps import apps

from catalogue.gathering import once, searches
from catalogue.gathering.once import forget_all
from catalogue.gathering.searches import evenings_with, words_of
from catalogue.gathering.versions import state_of_lists
from catalogue.models import Composer, Organisation, Performance, PerformanceCredit, Person, ProgrammedWork, Venue, Work
from catalogue.models.performances import evenings_holding
from tests.makers import NOW, make_composer, make_organisation, make_performance, make_person, make_venue, make_work
from tests.web.test_words_of_performances import fill, read_through, some_words

pytestmark = pytest.mark.django_db
ASKED = ("river", "x", "庭", "etude", "river x", "gros", "fin 100%")
BORNE = {Work: "title", Venue: "name", Person: "name", Organisation: "name"}


@pytest.fixture
def composer() -> Composer:
    forget_all()
    return make_composer()


@pytest.fixture
def kept_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(searches, "FEWEST_KEPT", 0)
    monkeypatch.setattr(once, "MOST_BEHIND", 2)


def now(composer: Composer, text: str) -> list[int]:
    return sorted(evenings_with(state_of_lists([composer.pk]), composer, words_of(text)))


def any_of(model: Any, chance: Random, **owner: Any) -> Any:
    return chance.choice(list(model._base_manager.filter(**owner).order_by("pk")))


def change_an_evening(composer: Composer, chance: Random) -> None:
    """Write, move, delete, bring back, take away or add an evening."""
    evening = any_of(Performance, chance, composer=composer)
    match chance.randrange(6):
        case 0:
            evening.event_title, evening.notes = some_words(chance, 1), some_words(chance)
        case 1:
            evening.venue = chance.choice((None, any_of(Venue, chance, composer=composer)))
        case 2:
            evening.presenter = chance.choice((None, any_of(Organisation, chance, composer=composer)))
        case 3:
            evening.deleted_at = None if evening.deleted_at else NOW
        case 4:
            evening.delete()
            return
        case _:
            work = make_work(f"{some_words(chance)}.", composer=composer)
            hall = make_venue(f"{some_words(chance)}.", composer=composer)
            make_performance(work, composer=composer, venue=hall, performers=(f"{some_words(chance)}.",))
            return
    evening.save()


def change_a_row(composer: Composer, chance: Random) -> None:
    """Put, move, take away or give another work or performer to a row of an evening."""
    evening = any_of(Performance, chance, composer=composer)
    row = chance.choice([*ProgrammedWork.objects.filter(performance__composer=composer).order_by("pk"), None])
    credit = chance.choice([*PerformanceCredit.objects.filter(performance__composer=composer).order_by("pk"), None])
    match chance.randrange(7):
        case 0 if row:
            row.work = any_of(Work, chance, composer=composer)
            row.save()
        case 1 if row:
            row.performance, row.order = evening, chance.randrange(100, 30_000)
            row.save()
        case 2 if row:
            row.delete()
        case 3 if credit:
            credit.name = f"{some_words(chance)}."
            credit.save()
        case 4 if credit:
            credit.delete()
        case 5:
            person = make_person(f"{some_words(chance)}.", composer=composer)
            PerformanceCredit.objects.create(performance=evening, order=99, person=person)
        case _:
            body = make_organisation(f"{some_words(chance)}.", composer=composer)
            PerformanceCredit.objects.create(performance=evening, order=99, organisation=body)


def change_a_name(composer: Composer, chance: Random) -> None:
    """Rename, delete or bring back what many evenings may bear."""
    model, column = chance.choice(list(BORNE.items()))
    one = any_of(model, chance, composer=composer)
    if chance.random() < 0.5:
        one.deleted_at = None if one.deleted_at else NOW
    else:
        setattr(one, column, f"{some_words(chance)}.")
    one.save()


@pytest.mark.usefixtures("kept_at_once")
@pytest.mark.parametrize("seed", range(8))
def test_brought_forward_and_after_starts_they_are_those_that_are_found_anew(
    seed: int, composer: Composer, clock: Any
) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    other = make_composer("Noor Halvorsen", sort_name="Halvorsen, Noor")
    fill(composer, chance, 12)
    fill(other, chance, 3)
    found = 0
    for _step in range(40):
        clock.goes_on(seconds=1)
        do = chance.choice((change_an_evening, change_a_row, change_an_evening, change_a_row, change_a_name))
        do(chance.choice((composer, composer, composer, other)), chance)
        if chance.random() < 0.2:
            forget_all()
        for text in chance.sample(ASKED, 2):
            if chance.random() < 0.7:
                assert now(composer, text) == read_through(composer, text), text
                found += len(now(composer, text))
    assert [now(composer, text) for text in ASKED] == [read_through(composer, text) for text in ASKED]
    assert found > 40


@pytest.mark.parametrize("what", ["venue", "presenter", "event_title", "work", "person", "organisation", "name"])
def test_each_place_where_a_word_can_come_to_stand_is_followed(what: str, composer: Composer) -> None:
    """And where it goes from there again."""
    borne: dict[str, Any] = {
        "venue": make_venue("River Hall", composer=composer),
        "presenter": make_organisation("River Society", composer=composer),
        "work": make_work("Rivers", composer=composer),
        "person": make_person("Ida River", composer=composer),
        "event_title": "River",
        "name": "River Trio",
    }
    evening = make_performance(make_work("Tides", composer=composer), composer=composer, performers=("Weir Trio",))
    rows = {"work": evening.programme.get()} | dict.fromkeys(("person", "name", "organisation"), evening.credits.get())
    row = rows.get(what, evening)
    before = {column: getattr(row, column) for column in (what, *({"name"} & {one.name for one in row._meta.fields}))}
    assert now(composer, "river") == []

    setattr(row, what, borne.get(what, borne["presenter"]))
    row.save()
    assert now(composer, "river") == [evening.pk]

    for column, value in before.items():
        setattr(row, column, value)
    row.save()
    assert now(composer, "river") == []


def test_only_evenings_that_were_touched_are_looked_at_again(
    composer: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    evening, other = (make_performance(composer=composer, event_title=title) for title in ("River", "Tides"))
    assert now(composer, "river") == [evening.pk]
    looked_at: list[Any] = []
    look_for = searches.look_for
    monkeypatch.setattr(
        searches, "look_for", lambda *told: looked_at.append(told[2] if len(told) > 2 else None) or look_for(*told)
    )

    other.event_title = "Riverside"
    other.save()
    assert now(composer, "river") == [evening.pk, other.pk]
    other.status = "cancelled"
    other.save()
    assert now(composer, "river") == [evening.pk, other.pk]

    assert looked_at == [{other.pk}]


def test_every_kind_of_record_that_words_stand_in_is_followed(composer: Composer) -> None:
    asked, _values = evenings_holding("river", composer).query.sql_with_params()
    tables = {model._meta.db_table for model in apps.get_models() if f'"{model._meta.db_table}"' in asked}
    followed = (Performance, ProgrammedWork, PerformanceCredit, *searches.OF_BEARERS)

    assert tables == {model._meta.db_table for model in followed}


def test_name_that_many_bear_has_all_looked_at_again(composer: Composer) -> None:
    hall = make_venue("Weir Hall", composer=composer)
    evenings = [make_performance(composer=composer, venue=hall) for _ in range(3)]
    assert now(composer, "river") == []

    hall.name = "River Hall"
    hall.save()

    assert now(composer, "river") == [one.pk for one in evenings]


def test_what_was_found_comes_back_from_its_file(composer: Composer, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(searches, "FEWEST_KEPT", 1)
    evenings = [make_performance(composer=composer, event_title="River 庭") for _ in range(3)]
    state = state_of_lists([composer.pk])
    first = [now(composer, text) for text in ("river", "庭 river", "tides")]
    forget_all()
    monkeypatch.setattr(searches, "look_for", lambda *_told: pytest.fail("looked for again"))

    assert state_of_lists([composer.pk]) == state
    assert [now(composer, text) for text in ("river", "庭 river")] == first[:2] == [[one.pk for one in evenings]] * 2


def test_as_many_answers_are_known_as_come_to_few_keys(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(searches, "MOST_KEYS", 5)
    one, two, three = (("a",), {1, 2, 3}), (("b",), {1}), (("c",), {1, 2, 3, 4})
    known: Any = {}
    for words, found in (one, two):
        known = searches.with_found(known, words, found)
    assert list(known.items()) == [one, two]

    known = searches.with_found(known, *three)
    assert list(known.items()) == [two, three]
    assert searches.with_found(known, ("d",), set(range(9))) == {("d",): set(range(9))}
