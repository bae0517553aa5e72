"""Indexes in which performances stand in the orders of their list: by kind, status and place; days of those that live."""

from __future__ import annotations

from typing import Any

from django.db import migrations, models

from catalogue.models.indexes import LatestFirst

LIVING = models.Q(("deleted_at__isnull", True))


def measure_anew(_apps: Any, schema_editor: Any) -> None:
    """Where SQLite knows how the values of columns lie, from an ANALYZE, let it know that of the new indexes too.

    Of an index it knows nothing about, it expects too much beside those it knows.
    """
    if schema_editor.connection.vendor != "sqlite":
        return
    with schema_editor.connection.cursor() as cursor:
        cursor.execute("SELECT 1 FROM sqlite_master WHERE name = 'sqlite_stat1'")
        if cursor.fetchone():
            cursor.execute("ANALYZE catalogue_performance")


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0041_submissions_counted"),
    ]

    operations = [
        *(
            migrations.AddIndex(
                model_name="performance",
                index=LatestFirst(
                    fields=["composer", column, "-first_day", "-time", "-id"],
                    condition=LIVING,
                    name=f"performance_by_{column}",
                ),
            )
            for column in ("kind", "status")
        ),
        migrations.AddIndex(
            model_name="performance",
            index=models.Index(
                fields=["composer", "venue", "city", "country"], condition=LIVING, name="performance_by_place"
            ),
        ),
        migrations.RemoveIndex(model_name="performance", name="performance_from_day"),
        migrations.AddIndex(
            model_name="performance",
            index=models.Index(fields=["composer", "last_day"], condition=LIVING, name="performance_from_day"),
        ),
        migrations.RunPython(measure_anew, migrations.RunPython.noop),
    ]
