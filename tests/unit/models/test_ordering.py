"""Texts are sorted without case and marks, the same on both databases."""

from __future__ import annotations

import pytest

from catalogue.models import Composer, Performance, Work
from catalogue.models.ordering import Folded
from tests.makers import make_performance, make_work

pytestmark = pytest.mark.django_db

NAMES = ["Aachen", "Évora", "évry", "Łódź", "Lund", "Oslo", "Østersund", "São Paulo", "Ústí", "Zürich", "Żory"]
"""Written as a reader looks for them: by letter, whatever their marks."""
SORTED = ["Aachen", "Évora", "évry", "Łódź", "Lund", "Oslo", "Østersund", "São Paulo", "Ústí", "Żory", "Zürich"]


def test_marks_and_case_do_not_move_a_name(composer: Composer) -> None:
    for name in reversed(NAMES):
        make_work(name, composer=composer)

    assert list(Work.objects.order_by(Folded("title")).values_list("title", flat=True)) == SORTED


def test_equal_names_keep_what_follows_in_the_order(composer: Composer) -> None:
    made = [make_work(name, composer=composer).pk for name in ("Étude", "etude", "ETUDE", "Straße", "Strasse")]

    assert list(Work.objects.in_title_order().values_list("pk", flat=True)) == made


def test_signs_of_sql_in_a_name_are_signs(composer: Composer) -> None:
    make_work("100 % ‘Quote’; --", composer=composer)

    assert Work.objects.order_by(Folded("title")).count() == Work.objects.in_title_order().count() == 1


def test_nothing_has_its_place(composer: Composer) -> None:
    ebb = make_work("Ebb", composer=composer)
    for city in ("", "Évora", "zeist"):
        make_performance(ebb, city=city)

    found = Performance.objects.order_by(Folded("city").asc(nulls_last=True)).values_list("city", flat=True)

    assert list(found) == ["", "Évora", "zeist"]
