from __future__ import annotations

import pytest
from django.db import IntegrityError, transaction
from pytest_django import DjangoAssertNumQueries

from catalogue.gathering import gather_for_calls
from catalogue.gathering.marks import gather_marks
from catalogue.models import Composer, Recording, Work
from catalogue.rules.calls.choosing import Marks
from tests.makers import make_recording, make_work

pytestmark = pytest.mark.django_db


def test_the_best_mark_of_a_works_recordings_counts(
    composer: Composer, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    strong, plain, silent = (make_work(title, composer=composer) for title in ("Rope", "Lamp", "Tide"))
    Work.objects.filter(pk=strong.pk).update(strength=5)
    for work, quality in ((strong, 2), (strong, 4), (strong, None), (plain, None)):
        make_recording(work, quality=quality, form="audio")

    with django_assert_num_queries(2):
        marks = gather_marks(composer)

    assert marks == Marks({strong.pk: 5}, {strong.pk: 4, plain.pk: None})
    assert silent.pk not in marks.recordings


def test_marks_are_no_part_of_what_papers_feeds_and_public_pages_are_made_of(composer: Composer) -> None:
    make_recording(make_work(composer=composer))
    before = gather_for_calls(composer)

    Work.objects.update(strength=5)
    Recording.objects.update(quality=4)

    assert gather_for_calls(composer) == before


@pytest.mark.parametrize("mark", [0, 6])
def test_the_database_refuses_a_mark_that_is_none(composer: Composer, mark: int) -> None:
    make_recording(make_work(composer=composer))

    for records, column in ((Work.objects, "strength"), (Recording.objects, "quality")):
        with pytest.raises(IntegrityError), transaction.atomic():
            records.update(**{column: mark})
