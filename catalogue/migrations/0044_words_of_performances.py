"""Indexes of the words that a search looks for, and of what leads from where they stand to the performances."""

from __future__ import annotations

from typing import Any

import django.db.models.deletion
from django.db import migrations, models

from catalogue.models.indexes import TextIndex, ask_for_trigrams

LIVING = models.Q(("deleted_at__isnull", True))
WRITTEN = models.Q(("search_text__gt", ""))
LED_BY = {"programmedwork": ("work",), "performancecredit": ("person", "organisation")}


def measure_anew(_apps: Any, schema_editor: Any) -> None:
    """Where SQLite knows how the values of columns lie, from an ANALYZE, let it know that of the new indexes too.

    Of an index it knows nothing about, it expects too much beside those it knows.
    """
    if schema_editor.connection.vendor != "sqlite":
        return
    with schema_editor.connection.cursor() as cursor:
        cursor.execute("SELECT 1 FROM sqlite_master WHERE name = 'sqlite_stat1'")
        if cursor.fetchone():
            for table in ("work", "performance", *LED_BY):
                cursor.execute(f"ANALYZE catalogue_{table}")


def led_by(model: str, name: str, **options: Any) -> migrations.AlterField:
    """Take the index of a key away, which the index that begins with it replaces."""
    related = "programmed" if name == "work" else "credits"
    key = models.ForeignKey(
        on_delete=django.db.models.deletion.RESTRICT,
        related_name=related,
        to=f"catalogue.{name}",
        db_index=False,
        **options,
    )
    return migrations.AlterField(model_name=model, name=name, field=key)


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0043_latest_at_each_place"),
    ]

    operations = [
        migrations.RunPython(ask_for_trigrams, migrations.RunPython.noop),
        led_by("programmedwork", "work"),
        led_by("performancecredit", "person", null=True, blank=True),
        led_by("performancecredit", "organisation", null=True, blank=True),
        migrations.AddIndex(
            model_name="programmedwork",
            index=models.Index(fields=["work", "performance"], name="programmed_of_work"),
        ),
        *(
            migrations.AddIndex(
                model_name="performancecredit",
                index=models.Index(
                    fields=[somebody, "performance"],
                    condition=models.Q((f"{somebody}__isnull", False)),
                    name=f"credit_of_{somebody}",
                ),
            )
            for somebody in ("person", "organisation")
        ),
        migrations.AddIndex(
            model_name="performancecredit",
            index=TextIndex(fields=["search_text", "performance"], condition=WRITTEN, name="credit_searched"),
        ),
        migrations.AddIndex(
            model_name="performance",
            index=TextIndex(
                fields=["composer", "search_text", "deleted_at"],
                condition=models.Q(("deleted_at__isnull", True), ("search_text__gt", "")),
                name="performance_searched",
            ),
        ),
        migrations.AddIndex(
            model_name="performance",
            index=models.Index(
                fields=["composer"], condition=models.Q(("deleted_at__isnull", False)), name="performance_deleted"
            ),
        ),
        migrations.AddIndex(
            model_name="work",
            index=TextIndex(fields=["composer", "search_text", "deleted_at"], condition=LIVING, name="work_searched"),
        ),
        migrations.RunPython(measure_anew, migrations.RunPython.noop),
    ]
