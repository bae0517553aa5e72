"""Papers kept as they were sent."""

from __future__ import annotations

import uuid
from typing import Any

import django.db.models.deletion
import simple_history.models
from django.conf import settings
from django.db import migrations, models

import catalogue.models.fields

OF_COMPOSER = ("sending",)


def add_newest(apps: Any, schema_editor: Any) -> None:
    """Let PostgreSQL read the end of a composer's history; SQLite's index of the composer ends in the line's number."""
    if schema_editor.connection.vendor == "postgresql":
        table = apps.get_model("catalogue", "historicalsending")._meta.db_table
        schema_editor.execute(f"CREATE INDEX historicalsending_newest ON {table} (composer_id, history_id)")


def remove_newest(apps: Any, schema_editor: Any) -> None:
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute("DROP INDEX historicalsending_newest")


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0039_publishers_numbers"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="HistoricalSending",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("saves", models.PositiveIntegerField(default=0, editable=False)),
                ("changed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("uid", models.UUIDField(db_index=True, default=uuid.uuid4, editable=False)),
                (
                    "notes",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("sent_on", models.DateField()),
                ("document", models.CharField(editable=False, max_length=40)),
                (
                    "title",
                    models.CharField(
                        default="",
                        editable=False,
                        max_length=500,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("asked", models.JSONField(default=dict, editable=False)),
                ("made_on", models.DateField(editable=False)),
                (
                    "file_name",
                    models.CharField(
                        default="",
                        editable=False,
                        max_length=500,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("suffix", models.CharField(editable=False, max_length=5)),
                ("sha256", models.CharField(editable=False, max_length=64)),
                ("byte_count", models.PositiveBigIntegerField(editable=False)),
                ("facts_sha256", models.CharField(blank=True, default="", editable=False, max_length=64)),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "title", "file_name", "notes")
                    ),
                ),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
                ),
                (
                    "composer",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.composer",
                    ),
                ),
                (
                    "deleted_by",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "hire",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.hire",
                    ),
                ),
                (
                    "history_user",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "organisation",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.organisation",
                    ),
                ),
                (
                    "performance",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.performance",
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.person",
                    ),
                ),
                (
                    "work",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.work",
                    ),
                ),
            ],
            options={
                "verbose_name": "historical sending",
                "verbose_name_plural": "historical sendings",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="Sending",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("saves", models.PositiveIntegerField(default=0, editable=False)),
                ("changed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("uid", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                (
                    "notes",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("sent_on", models.DateField()),
                ("document", models.CharField(editable=False, max_length=40)),
                (
                    "title",
                    models.CharField(
                        default="",
                        editable=False,
                        max_length=500,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("asked", models.JSONField(default=dict, editable=False)),
                ("made_on", models.DateField(editable=False)),
                (
                    "file_name",
                    models.CharField(
                        default="",
                        editable=False,
                        max_length=500,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("suffix", models.CharField(editable=False, max_length=5)),
                ("sha256", models.CharField(editable=False, max_length=64)),
                ("byte_count", models.PositiveBigIntegerField(editable=False)),
                ("facts_sha256", models.CharField(blank=True, default="", editable=False, max_length=64)),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "title", "file_name", "notes")
                    ),
                ),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="+", to="catalogue.composer"
                    ),
                ),
                (
                    "deleted_by",
                    models.ForeignKey(
                        blank=True,
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "hire",
                    models.ForeignKey(
                        blank=True,
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="catalogue.hire",
                    ),
                ),
                (
                    "organisation",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.RESTRICT,
                        related_name="+",
                        to="catalogue.organisation",
                    ),
                ),
                (
                    "performance",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="catalogue.performance",
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.RESTRICT,
                        related_name="+",
                        to="catalogue.person",
                    ),
                ),
                (
                    "work",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="catalogue.work",
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("person__isnull", False),
                            ("organisation__isnull", False),
                            models.Q(("name", ""), _negated=True),
                            _connector="OR",
                        ),
                        name="sending_names_somebody",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("person__isnull", True), ("organisation__isnull", True), _connector="OR"),
                        name="sending_is_person_or_organisation",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(models.Q(("title", ""), _negated=True)), name="sending_title_filled"
                    ),
                    models.CheckConstraint(condition=models.Q(("byte_count__gte", 1)), name="sending_is_kept"),
                ],
            },
        ),
        migrations.RunPython(add_newest, remove_newest),
    ]
