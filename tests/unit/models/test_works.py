from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError

from catalogue.actions.works import delete_work
from catalogue.models import Commission, Movement, Work
from catalogue.timing import Duration
from tests.makers import NOW, make_composer, make_organisation, make_work

pytestmark = pytest.mark.django_db


def test_title_alone_is_enough() -> None:
    work = Work(composer=make_composer(), title="Tides")

    work.full_clean()
    work.save()

    assert Work.objects.get() == work


def test_matching_finds_every_word_without_case_or_marks() -> None:
    work = make_work("Étude for Łucja", subtitle="after a map")
    make_work("Another étude")

    assert list(Work.objects.matching("ETUDE map lucja")) == [work]
    assert list(Work.objects.matching("etude sea")) == []


def test_matching_takes_signs_of_the_query_language_as_letters() -> None:
    work = make_work("100% _")
    make_work("100 ways")

    assert list(Work.objects.matching("100%")) == [work]
    assert list(Work.objects.matching("_")) == [work]


def test_search_text_follows_the_title() -> None:
    work = make_work("Tides")
    work.title = "Étude"
    work.save()

    assert list(Work.objects.matching("etude")) == [work]
    assert list(Work.objects.matching("tides")) == []


def test_lasting_takes_both_bounds_and_approximate_durations_in() -> None:
    make_work("Short", duration="11:59")
    least = make_work("Least", duration="12:00")
    about = make_work("About", duration="c. 15:00")
    make_work("Long", duration="15:01")
    make_work("Unknown")

    assert list(Work.objects.lasting(least=720, most=900).order_by("pk")) == [least, about]


def test_newest_first_puts_unknown_dates_last() -> None:
    unknown = make_work("Unknown")
    old = make_work("Old", completed="1999")
    month = make_work("Month", completed="2019-05")
    later = make_work("Later", completed="2019-06-01")

    assert list(Work.objects.newest_first()) == [later, month, old, unknown]


def test_in_title_order_does_not_see_case() -> None:
    works = [make_work("birch"), make_work("Ash"), make_work("Cedar")]

    assert list(Work.objects.in_title_order()) == [works[1], works[0], works[2]]


def test_catalogue_number_is_given_once_by_a_composer() -> None:
    make_work("Tides", catalogue_number="12")
    other = Work(composer=make_composer("Bruno Vey"), title="Elsewhere", catalogue_number="12")
    second = Work(composer=make_work("Third").composer, title="Second", catalogue_number="12")

    other.full_clean()
    with pytest.raises(ValidationError) as caught:
        second.full_clean()

    assert caught.value.message_dict == {"catalogue_number": ["“Tides” has this catalogue number."]}
    with pytest.raises(IntegrityError):
        second.save()


def test_version_may_carry_the_number_of_its_first_version_and_no_other() -> None:
    first = make_work("Tides", catalogue_number="12")
    make_work("Ash", catalogue_number="13")
    version = make_work("Tides", catalogue_number="12", version_of=first, version_label="for strings")

    version.full_clean()
    version.catalogue_number = "13"
    with pytest.raises(ValidationError):
        version.full_clean()


def test_number_of_a_deleted_work_is_free_again() -> None:
    delete_work(work=make_work("Tides", catalogue_number="12"), by=None, now=NOW)

    again = make_work("Tides again", catalogue_number="12")

    assert list(Work.objects.all()) == [again]
    assert Work.with_deleted.count() == 2


def test_work_is_no_version_of_itself() -> None:
    work = make_work()
    work.version_of = work

    with pytest.raises(ValidationError) as caught:
        work.full_clean()

    assert caught.value.message_dict == {"version_of": ["A work cannot be a version of itself."]}
    with pytest.raises(IntegrityError):
        work.save()


def test_version_belongs_to_the_composer_of_its_first_version() -> None:
    version = make_work(composer=make_composer("Bruno Vey"))
    version.version_of = make_work(composer=make_composer("Ilse Tarnow"))

    with pytest.raises(ValidationError) as caught:
        version.full_clean()

    assert list(caught.value.message_dict) == ["version_of"]


def test_version_names_the_first_version_not_another() -> None:
    first = make_work("First")
    second = make_work("Second", version_of=first)
    third = Work(composer=first.composer, title="Third", version_of=second)

    with pytest.raises(ValidationError) as caught:
        third.full_clean()
    first.version_of = make_work("Else")
    with pytest.raises(ValidationError) as tangled:
        first.full_clean()

    assert caught.value.message_dict == {"version_of": ["“Second” is a version itself; name the first version."]}
    assert tangled.value.message_dict == {
        "version_of": ["This work has versions of its own, so it is the first version."]
    }


@pytest.mark.parametrize("columns", [{"category": "opera buffa"}, {"status": "lost"}, {"duration": Duration(0)}])
def test_database_refuses_what_is_no_work(columns: dict[str, object]) -> None:
    with pytest.raises(IntegrityError):
        Work.objects.create(composer=make_composer(), title="Tides", **columns)


def test_movement_numbers_are_given_once_and_begin_at_one() -> None:
    work = make_work(movements=("Slow", "Fast"))

    for number in (0, 2):
        with pytest.raises(ValidationError):
            Movement(work=work, number=number, title="Again").full_clean()
    with pytest.raises(IntegrityError):
        Movement.objects.create(work=work, number=2, title="Again")


def test_commission_names_a_body_in_one_way_or_the_other() -> None:
    work = make_work()
    body = make_organisation("Harbour Fund")

    assert Commission(work=work, organisation=body).body == "Harbour Fund"
    assert Commission(work=work, organisation=body, name="the Harbour Fund").body == "the Harbour Fund"
    with pytest.raises(ValidationError) as caught:
        Commission(work=work).full_clean()
    assert caught.value.message_dict == {"name": ["Name who commissioned the work."]}
    with pytest.raises(IntegrityError):
        Commission.objects.create(work=work)
