"""The migration that makes all tables at once makes those that the single steps make, and those of the models."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from django.apps import apps
from django.db import connection, connections
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder
from django.db.migrations.state import ModelState, ProjectState

from catalogue.exchange.backups.databases import fresh_schema, fresh_sqlite, migrate_to
from catalogue.exchange.backups.lines import (
    Model,
    applied_migrations,
    apps_at,
    kept_models,
    known_migrations,
    label_of,
    newest_of,
)

pytestmark = pytest.mark.usefixtures("with_migrations")
SQUASH = ("catalogue", "0001_squashed_0025_requirements_for_material")
LAST_STEP = ("catalogue", "0025_requirements_for_material")
OTHERS = [("axes", "0010_accessattemptexpiration"), ("sessions", "0001_initial")]
POSTGRESQL_COLUMNS = """
    SELECT concat_ws(' ', column_name, data_type, character_maximum_length, is_nullable, is_identity)
    FROM information_schema.columns WHERE table_schema = current_schema() AND table_name = %s"""
POSTGRESQL_RULES = """
    SELECT pg_get_constraintdef(oid) FROM pg_constraint WHERE conrelid = %s::regclass
    UNION ALL SELECT indexdef FROM pg_indexes WHERE schemaname = current_schema() AND tablename = %s"""

Tables = dict[str, list[str]]


@contextmanager
def fresh(folder: Path) -> Iterator[str]:
    with fresh_sqlite(folder) if connection.vendor == "sqlite" else fresh_schema("of_the_squash") as alias:
        yield alias


def tables_of(alias: str) -> Tables:
    """Return each of the catalogue's tables with what it is made of, sorted, since columns may stand in any order."""
    told = told_by_sqlite if connections[alias].vendor == "sqlite" else told_by_postgresql
    with connections[alias].cursor() as cursor:
        names = connections[alias].introspection.table_names(cursor)
    return {name: sorted(told(alias, name)) for name in names if name.startswith("catalogue_")}


def told_by_sqlite(alias: str, table: str) -> Iterator[str]:
    with connections[alias].cursor() as cursor:
        cursor.execute("SELECT type, sql FROM sqlite_master WHERE tbl_name = %s AND sql IS NOT NULL", [table])
        for kind, statement in cursor.fetchall():
            yield from parts_of(statement) if kind == "table" else [statement]


def parts_of(statement: str) -> list[str]:
    """Return what stands between the outer brackets of a CREATE TABLE, parted at the commas that no bracket holds."""
    body, depth, parts = statement[statement.index("(") + 1 : statement.rindex(")")], 0, [""]
    for piece in re.findall(r"'(?:[^']|'')*'|[(),]|[^'(),]+", body):
        depth += {"(": 1, ")": -1}.get(piece, 0)
        if piece == "," and not depth:
            parts.append("")
        else:
            parts[-1] += piece
    return [part.strip() for part in parts]


def told_by_postgresql(alias: str, table: str) -> Iterator[str]:
    with connections[alias].cursor() as cursor:
        cursor.execute(POSTGRESQL_COLUMNS, [table])
        yield from (row[0] for row in cursor.fetchall())
        cursor.execute(POSTGRESQL_RULES, [table, table])
        for (rule,) in cursor.fetchall():
            yield re.sub(r"^(CREATE (?:UNIQUE )?INDEX) \S+ ON [^.]+\.", r"\1 ON ", rule)


def catalogue_in(state: ProjectState) -> dict[str, tuple[object, ...]]:
    return {name: told(model) for (app, name), model in state.models.items() if app == "catalogue"}


def told(model: ModelState) -> tuple[object, ...]:
    columns = {name: column.deconstruct()[1:] for name, column in model.fields.items()}
    options = {**model.options, "indexes": [], "constraints": []}
    rules = sorted(repr(one.deconstruct()) for kind in ("indexes", "constraints") for one in model.options[kind])
    return columns, options, rules, model.bases, model.managers


def test_the_squash_leaves_the_state_that_the_single_steps_leave() -> None:
    squashed = known_migrations().project_state([SQUASH])
    by_steps = known_migrations(by_steps=True).project_state([LAST_STEP])

    assert catalogue_in(squashed) == catalogue_in(by_steps)


@pytest.mark.slow
@pytest.mark.django_db(transaction=True)
def test_a_fresh_database_has_the_tables_of_the_models(tmp_path: Path) -> None:
    with fresh(tmp_path) as alias:
        migrate_to(alias, None)

        made, seen = tables_of(alias), applied_migrations(alias)["catalogue"]
        recorded = MigrationRecorder(connections[alias]).applied_migrations()

    assert made == tables_of("default")
    assert len(made) >= len(apps.get_app_config("catalogue").models) > 60
    assert SQUASH in recorded
    assert (seen[0], SQUASH[1] in seen) == ("0001_initial", False)


@pytest.mark.slow
@pytest.mark.django_db(transaction=True)
def test_the_single_steps_and_what_follows_make_the_tables_of_the_models(tmp_path: Path) -> None:
    with fresh(tmp_path) as alias:
        migrate_to(alias, [("catalogue", "0010_tempo_maps_and_cues"), *OTHERS])
        part = MigrationRecorder(connections[alias]).applied_migrations()
        migrate_to(alias, None)

        assert tables_of(alias) == tables_of("default")
        assert SQUASH in MigrationRecorder(connections[alias]).applied_migrations()
    assert SQUASH not in part


def test_backups_of_any_step_name_a_state_that_is_known() -> None:
    names = [name for _app, name in MigrationLoader(None).disk_migrations[SQUASH].replaces]

    assert newest_of({"catalogue": names}) == [SQUASH]
    assert newest_of({"catalogue": names[:10]}) == [("catalogue", "0010_tempo_maps_and_cues")]
    assert apps_at(newest_of({"catalogue": names[:1]})).get_model("catalogue", "Work")._meta.pk.name == "id"


@pytest.mark.django_db
def test_a_backup_of_today_is_read_by_the_models_themselves_which_have_the_columns_of_the_migrations() -> None:
    newest = newest_of(applied_migrations("default"))
    made_once_more = known_migrations().project_state(newest).apps

    assert apps_at(newest) is apps
    assert list(map(columns_of, kept_models(apps))) == list(map(columns_of, kept_models(made_once_more)))


def columns_of(model: Model) -> tuple[str, list[tuple[str, str]]]:
    return label_of(model), sorted((one.attname, type(one).__name__) for one in model._meta.concrete_fields)
