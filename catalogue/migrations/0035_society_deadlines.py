"""Until when societies take returns, with the index by which the newest line of its history is found."""

from __future__ import annotations

import uuid
from typing import Any

import django.db.models.deletion
import django.db.models.functions.text
import django.db.models.lookups
import simple_history.models
from django.conf import settings
from django.db import migrations, models

import catalogue.models.conditions
import catalogue.models.fields
import catalogue.models.journeys

OF_COMPOSER = ("societydeadline",)


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
    dependencies = [
        ("catalogue", "0034_houses"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="HistoricalSocietyDeadline",
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
                    "society",
                    models.CharField(
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("rule", catalogue.models.journeys.FilingRuleField(max_length=80, null=True)),
                (
                    "what",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "scope",
                    models.CharField(
                        choices=[
                            ("everywhere", "Everywhere"),
                            ("in this country", "In this country"),
                            ("outside this country", "Outside this country"),
                        ],
                        default="everywhere",
                        max_length=20,
                    ),
                ),
                (
                    "country",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=2,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.conditions.refuse_unknown_country,
                        ],
                    ),
                ),
                (
                    "source",
                    models.CharField(
                        default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("read_on", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("society", "what", "source", "notes")
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
                    "history_user",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "verbose_name": "historical society deadline",
                "verbose_name_plural": "historical society deadlines",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="SocietyDeadline",
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
                    "society",
                    models.CharField(
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("rule", catalogue.models.journeys.FilingRuleField(max_length=80, null=True)),
                (
                    "what",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "scope",
                    models.CharField(
                        choices=[
                            ("everywhere", "Everywhere"),
                            ("in this country", "In this country"),
                            ("outside this country", "Outside this country"),
                        ],
                        default="everywhere",
                        max_length=20,
                    ),
                ),
                (
                    "country",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=2,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.conditions.refuse_unknown_country,
                        ],
                    ),
                ),
                (
                    "source",
                    models.CharField(
                        default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("read_on", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("society", "what", "source", "notes")
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
            ],
            options={
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("society", ""), _negated=True), models.Q(("source", ""), _negated=True)
                        ),
                        name="deadline_society_filled",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("scope__in", ["everywhere", "in this country", "outside this country"])),
                        name="deadline_scope_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("country", ""),
                            models.Q(
                                django.db.models.lookups.Exact(django.db.models.functions.text.Length("country"), 2),
                                django.db.models.lookups.In(
                                    django.db.models.functions.text.Substr("country", 1, 1),
                                    [
                                        "A",
                                        "B",
                                        "C",
                                        "D",
                                        "E",
                                        "F",
                                        "G",
                                        "H",
                                        "I",
                                        "J",
                                        "K",
                                        "L",
                                        "M",
                                        "N",
                                        "O",
                                        "P",
                                        "Q",
                                        "R",
                                        "S",
                                        "T",
                                        "U",
                                        "V",
                                        "W",
                                        "X",
                                        "Y",
                                        "Z",
                                    ],
                                ),
                                django.db.models.lookups.In(
                                    django.db.models.functions.text.Substr("country", 2, 1),
                                    [
                                        "A",
                                        "B",
                                        "C",
                                        "D",
                                        "E",
                                        "F",
                                        "G",
                                        "H",
                                        "I",
                                        "J",
                                        "K",
                                        "L",
                                        "M",
                                        "N",
                                        "O",
                                        "P",
                                        "Q",
                                        "R",
                                        "S",
                                        "T",
                                        "U",
                                        "V",
                                        "W",
                                        "X",
                                        "Y",
                                        "Z",
                                    ],
                                ),
                            ),
                            _connector="OR",
                        ),
                        name="deadline_country_two_capitals",
                    ),
                ],
            },
        ),
        migrations.RunPython(add_newest, remove_newest),
    ]
