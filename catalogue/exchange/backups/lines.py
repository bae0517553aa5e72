"""Records as lines of JSON, for the tables as they were at any migration, so that an old backup is read as it was.

A line has the columns by name. A column with a value of our own behind it is told as it is stored, bytes in Base64;
search texts are left out, since saving makes them.
"""

from __future__ import annotations

import json
from base64 import b64decode, b64encode
from collections.abc import Callable, Iterable, Iterator
from datetime import date, time
from decimal import Decimal
from functools import lru_cache
from itertools import islice
from typing import Any
from uuid import UUID

from django.apps.registry import Apps, apps
from django.core.exceptions import ValidationError
from django.core.management.color import no_style
from django.db import connections, models
from django.db.migrations.loader import MigrationLoader

from catalogue.exchange.archives import MEGABYTE
from catalogue.exchange.backups.archive import BackupError
from catalogue.models.fields import SearchTextField, ValueField

Model = type[models.Model]
Step = Callable[[], None]
AT_ONCE = 200
END = b"\n"
TRIPLES = 3 << 16  # bytes that are told in Base64 together, in threes so that nothing is filled up between
USERS = ("auth", "user")


def nothing() -> None:
    """Take a step that nobody watches."""


# ---- which tables


def applied_migrations(alias: str) -> dict[str, list[str]]:
    """Return the names of the migrations that the database has seen, by app; one that replaces others goes unnamed."""
    loader = MigrationLoader(connections[alias])
    steps = loader.disk_migrations.keys() - loader.replacements.keys()
    known = sorted(key for key in loader.applied_migrations if key in steps)
    return {app: [name for of, name in known if of == app] for app in sorted({app for app, _name in known})}


def newest_of(migrations: dict[str, list[str]]) -> list[tuple[str, str]]:
    """Return the migrations that no other of these builds on. Raises BackupError for one that is not known here."""
    keys = at_once({(app, name) for app, names in migrations.items() for name in names})
    graph = loader_of(keys).graph
    unknown = sorted(key for key in keys if key not in graph.nodes)
    if unknown:
        raise BackupError("This backup was made by a newer version of the program; use that one.")
    return sorted(key for key in keys if not any(child.key in keys for child in graph.node_map[key].children))


def at_once(keys: set[tuple[str, str]]) -> set[tuple[str, str]]:
    """Return the migrations with the one that replaces others in the place of those others, where all are there."""
    for key, migration in known_migrations().replacements.items():
        if keys.issuperset(migration.replaces):
            keys = keys.difference(migration.replaces) | {key}
    return keys


def loader_of(keys: Iterable[tuple[str, str]]) -> MigrationLoader:
    """Return the migrations with those that replace others, or each step alone where one of these is such a step."""
    whole = known_migrations()
    return whole if all(key in whole.graph.nodes for key in keys) else known_migrations(by_steps=True)


@lru_cache(2)
def known_migrations(*, by_steps: bool = False) -> MigrationLoader:
    """Return the migrations that this program has, squashed ones whole or in their steps."""
    return MigrationLoader(None, ignore_no_migrations=True, replace_migrations=not by_steps)


def apps_at(newest: list[tuple[str, str]]) -> Apps:
    """Return the models as they were when these migrations were the newest."""
    return apps_of(tuple(newest))


@lru_cache(4)
def apps_of(newest: tuple[tuple[str, str], ...]) -> Apps:
    """Return the models of the program itself where no migration is newer or lacks, as in most backups."""
    nodes = known_migrations().graph.node_map
    if all(key in nodes for key in newest) and all(node.children or key in newest for key, node in nodes.items()):
        return apps
    return loader_of(newest).project_state(list(newest)).apps


def kept_models(held: Apps) -> list[Model]:
    """Return every model that a backup holds, in the order of their names: the catalogue's, and the users."""
    ours = [model for model in held.get_models(include_auto_created=True) if model._meta.app_label == "catalogue"]
    return sorted([*ours, held.get_model(*USERS)], key=label_of)


def label_of(model: Model) -> str:
    """Return the name by which a backup tells a model."""
    return f"{model._meta.app_label}.{model._meta.model_name}"


# ---- to lines


def lines_of(model: Model, alias: str) -> Iterator[bytes]:
    """Give every record of a model as a line of JSON, in the order of their keys."""
    begun: list[bytes] = []
    for piece in lines_in_pieces(model, alias):
        begun.append(piece)
        if piece.endswith(END):
            line, begun = b"".join(begun), []
            yield line


def lines_in_pieces(model: Model, alias: str) -> Iterator[bytes]:
    """Give the same, a line that holds a file in several pieces, the last of them with the end of the line."""
    columns = sorted(told_columns(model), key=lambda column: column.attname)
    holds_files = any(isinstance(column, models.BinaryField) for column in columns)
    for record in model._base_manager.using(alias).order_by("pk").iterator(1 if holds_files else AT_ONCE):
        if holds_files:
            yield from pieces_of_line(columns, record)
        else:
            told = {column.attname: told_value(column, record) for column in columns}
            yield as_json(told).encode() + END


def as_json(told: Any) -> str:
    return json.dumps(told, default=written, ensure_ascii=False, sort_keys=True)


def pieces_of_line(columns: list[Any], record: models.Model) -> Iterator[bytes]:
    """Give the same line piece by piece: all of a file in Base64, in a text, in a line would be four times its size."""
    before = "{"
    for column in columns:
        value = getattr(record, column.attname)
        yield f"{before}{as_json(column.attname)}: ".encode()
        if isinstance(column, models.BinaryField) and value is not None:
            yield b'"'
            yield from in_base64(memoryview(value))
            yield b'"'
        else:
            yield as_json(told_value(column, record)).encode()
        before = ", "
    yield b"}" + END


def in_base64(content: memoryview) -> Iterator[bytes]:
    return (b64encode(content[start : start + TRIPLES]) for start in range(0, len(content), TRIPLES))


def told_columns(model: Model) -> list[Any]:
    return [column for column in model._meta.concrete_fields if not isinstance(column, SearchTextField)]


def told_value(column: Any, record: models.Model) -> Any:
    value = getattr(record, column.attname)
    if isinstance(column, ValueField):
        return column.get_prep_value(value)
    if isinstance(column, models.BinaryField):
        return None if value is None else b64encode(bytes(value)).decode("ascii")
    return value


def written(value: object) -> str:
    """Write what JSON has no form for; moments to the microsecond, which Django's own encoder would cut."""
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, UUID | Decimal):
        return str(value)
    raise TypeError(f"{type(value).__name__} has no form in a backup.")


# ---- from lines


def store_lines(model: Model, alias: str, lines: Iterable[bytes], step: Step = nothing) -> int:
    """Store the records of the lines under their own keys and return how many. Raises BackupError."""
    columns = {column.attname: column for column in told_columns(model)}
    count, waiting = 0, iter(lines)
    while stored := store_portion(model, alias, columns, waiting, step):
        count += stored
    return count


def store_portion(model: Model, alias: str, columns: dict[str, Any], lines: Iterator[bytes], step: Step) -> int:
    records = [record_of(model, columns, line) for line in portion(lines)]
    model._base_manager.using(alias).bulk_create(records)
    for _record in records:
        step()
    return len(records)


def portion(lines: Iterator[bytes]) -> Iterator[bytes]:
    """Give the next lines that are stored together, fewer where they are long: one may hold a whole table."""
    held = 0
    for line in islice(lines, AT_ONCE):
        yield line
        held += len(line)
        if held > MEGABYTE:
            return


def record_of(model: Model, columns: dict[str, Any], line: bytes) -> models.Model:
    try:
        told = json.loads(line)
        return model(**{name: value_of(columns[name], value) for name, value in told.items()})
    except (ValueError, KeyError, TypeError, AttributeError, ValidationError) as fault:
        raise BackupError(f"A line of “{label_of(model)}” in this backup cannot be read.") from fault


def value_of(column: Any, told: Any) -> Any:
    if isinstance(column, ValueField):
        return column.from_db_value(told, None, None)
    if isinstance(column, models.BinaryField):
        return None if told is None else b64decode(told, validate=True)
    return told if isinstance(column, models.JSONField) else column.to_python(told)


def set_counters(stored: list[Model], alias: str) -> None:
    """Let new records get keys after those that were stored under their own."""
    connection = connections[alias]
    with connection.cursor() as cursor:
        for statement in connection.ops.sequence_reset_sql(no_style(), stored):
            cursor.execute(statement)
