"""People and bodies that a performance is the first to name."""

from __future__ import annotations

from collections.abc import Iterable

from catalogue.actions.entry import sort_name_of
from catalogue.actions.saving import check
from catalogue.models import Organisation, Performance, PerformanceCredit, Person
from catalogue.rules.search import fold
from catalogue.terms import PerformerRole


def keep_names(*, performance: Performance, credits: Iterable[PerformanceCredit]) -> None:
    """Add a presenter, and performers whose row is not stored yet, to people and organisations where they are new.

    Ensembles become organisations, all others people. Raises ValidationError for a name that must not be stored.
    """
    bodies: dict[str, Organisation] = {}
    people: dict[str, Person] = {}
    if performance.presenter is None and performance.presenter_name:
        performance.presenter = body_for(performance.presenter_name, performance, bodies)
        performance.presenter_name = ""
    for credit in credits:
        if credit.pk is None and credit.name and credit.person is None and credit.organisation is None:
            if credit.role == PerformerRole.ENSEMBLE:
                credit.organisation = body_for(credit.name, performance, bodies)
            else:
                credit.person = person_for(credit.name, performance, people)
            credit.name = "" if str(credit.organisation or credit.person) == credit.name else credit.name


def body_for(name: str, performance: Performance, made: dict[str, Organisation]) -> Organisation:
    if fold(name) not in made:
        body = made[fold(name)] = Organisation(composer=performance.composer, name=name)
        check(body)
        body.save()
    return made[fold(name)]


def person_for(name: str, performance: Performance, made: dict[str, Person]) -> Person:
    if fold(name) not in made:
        person = made[fold(name)] = Person(composer=performance.composer, name=name, sort_name=sort_name_of(name))
        check(person)
        person.save()
    return made[fold(name)]
