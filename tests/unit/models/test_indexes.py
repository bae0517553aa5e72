"""Indexes of the texts that a search looks through: each database has its own kind, and uses it."""

from __future__ import annotations

import pytest
from django.conf import settings
from django.db import connection

from catalogue.models import Performance, Work, indexes
from catalogue.models.indexes import PLACE, TextIndex, ask_for_trigrams
from tests.makers import make_composer

pytestmark = pytest.mark.django_db
ON_POSTGRESQL = "postgresql" in settings.DATABASES["default"]["ENGINE"]
only_postgresql = pytest.mark.skipif(not ON_POSTGRESQL, reason="an index of PostgreSQL")


def made_of(model: type[Performance | Work]) -> str:
    (index,) = (one for one in model._meta.indexes if isinstance(one, TextIndex))
    with connection.schema_editor() as editor:
        return str(index.create_sql(model, editor))


@pytest.mark.skipif(ON_POSTGRESQL, reason="a plan of SQLite")
def test_sqlite_looks_through_the_texts_without_reading_a_row() -> None:
    composer = make_composer()
    works = Work.objects.filter(composer=composer).order_by().matching("weir").values_list("pk")

    assert "USING COVERING INDEX work_searched" in works.explain()
    evenings = Performance.objects.filter(composer=composer).matching("weir", composer=composer).values_list("pk")
    plan = evenings.explain()
    for name in ("programmed_of_work", "credit_of_person", "credit_of_organisation", "credit_searched"):
        assert f"USING COVERING INDEX {name}" in plan, plan
    assert "USING COVERING INDEX performance_searched (composer_id=? AND search_text>?)" in plan, plan


@only_postgresql
def test_postgresql_indexes_signs_and_trigrams_where_it_has_them(monkeypatch: pytest.MonkeyPatch) -> None:
    load_trigrams()
    assert f'USING gin (search_text "{PLACE}".gin_trgm_ops, (string_to_array(search_text, NULL)))' in made_of(Work)

    monkeypatch.setattr(indexes, "trigram_operators", lambda _editor: "")
    assert "USING gin ((string_to_array(search_text, NULL))) WITH" in made_of(Performance)


@only_postgresql
def test_trigrams_lie_outside_the_schema_of_the_tables_and_are_loaded_once() -> None:
    load_trigrams()
    load_trigrams()

    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT n.nspname FROM pg_extension e JOIN pg_namespace n ON n.oid = e.extnamespace "
            "WHERE e.extname = 'pg_trgm'"
        )
        assert cursor.fetchall() == [(PLACE,)]


def load_trigrams() -> None:
    with connection.schema_editor() as editor:
        ask_for_trigrams(None, editor)
