import uuid

import django.core.validators
import django.db.models.deletion
import simple_history.models
from django.conf import settings
from django.db import migrations, models

import catalogue.models.fields


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0024_file_links"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="HistoricalMaterialRequirements",
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
                (
                    "papers",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "stave_least",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=4,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(30),
                        ],
                    ),
                ),
                (
                    "stave_most",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=4,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(30),
                        ],
                    ),
                ),
                (
                    "binding",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "file_names",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("bookmarks", models.BooleanField(default=False)),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "papers", "binding", "notes")
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
            ],
            options={
                "verbose_name": "historical material requirements",
                "verbose_name_plural": "historical material requirementss",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="MaterialRequirements",
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
                (
                    "papers",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "stave_least",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=4,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(30),
                        ],
                    ),
                ),
                (
                    "stave_most",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=4,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(30),
                        ],
                    ),
                ),
                (
                    "binding",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "file_names",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("bookmarks", models.BooleanField(default=False)),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "papers", "binding", "notes")
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
                    "organisation",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to="catalogue.organisation",
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("organisation__isnull", False), models.Q(("name", ""), _negated=True), _connector="OR"
                        ),
                        name="material_requirements_name_somebody",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("stave_least__isnull", True),
                            models.Q(("stave_least__gte", 1), ("stave_least__lte", 30)),
                            _connector="OR",
                        ),
                        name="material_requirements_stave_least_in_range",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("stave_most__isnull", True),
                            models.Q(("stave_most__gte", 1), ("stave_most__lte", 30)),
                            _connector="OR",
                        ),
                        name="material_requirements_stave_most_in_range",
                    ),
                ],
            },
        ),
    ]
