"""Indexes by which a long history is counted, and the newest lines of each composer's histories are found."""

from __future__ import annotations

from typing import Any

from django.db import migrations, models

OF_COMPOSER = (
    "call", "hire", "leadtimes", "organisation", "performance", "person", "return", "review", "rider", "session",
    "step", "venue", "work",
)  # fmt: skip


def add_newest(apps: Any, schema_editor: Any) -> None:
    """Let PostgreSQL read the end of a composer's history; SQLite's index of the composer ends in the line's number."""
    if schema_editor.connection.vendor == "postgresql":
        for name in OF_COMPOSER:
            table = apps.get_model("catalogue", f"historical{name}")._meta.db_table
            schema_editor.execute(f"CREATE INDEX historical{name}_newest ON {table} (composer_id, history_id)")


def remove_newest(apps: Any, schema_editor: Any) -> None:
    if schema_editor.connection.vendor == "postgresql":
        for name in OF_COMPOSER:
            schema_editor.execute(f"DROP INDEX historical{name}_newest")


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0032_sealed_second_factors")]

    operations = [
        migrations.AddIndex(
            model_name="performance",
            index=models.Index(
                condition=models.Q(("deleted_at__isnull", True)),
                fields=["composer", "first_day", "last_day", "status", "venue", "country"],
                name="performance_counted",
            ),
        ),
        migrations.RunPython(add_newest, remove_newest),
    ]
