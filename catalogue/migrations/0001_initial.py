"""The first tables of the catalogue."""

import uuid

import django.core.validators
import django.db.models.deletion
import django.db.models.functions.text
import django.db.models.lookups
import simple_history.models
from django.conf import settings
from django.db import migrations, models

import catalogue.models.conditions
import catalogue.models.fields


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="Composer",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "telephone",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("website", models.URLField(blank=True, default="", max_length=500)),
                (
                    "address",
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
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "sort_name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "original_name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("slug", models.SlugField(max_length=100, unique=True)),
                ("born", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                ("died", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "birthplace",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                    "biography",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "short_biography",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "language",
                    models.CharField(
                        default="en-GB", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "number_prefix",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("string_strengths", catalogue.models.fields.StrengthsField(blank=True, default=(), max_length=64)),
                (
                    "ipi",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "isni",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "feed_token_sha256",
                    models.CharField(blank=True, db_index=True, default="", editable=False, max_length=64),
                ),
                ("is_public", models.BooleanField(default=False)),
                ("feed_is_public", models.BooleanField(default=False)),
            ],
            options={
                "constraints": [
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
                        name="composer_country_two_capitals",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("feed_token_sha256", ""), _negated=True),
                        fields=("feed_token_sha256",),
                        name="composer_feed_token_unique",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="HistoricalComposer",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "telephone",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("website", models.URLField(blank=True, default="", max_length=500)),
                (
                    "address",
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
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "sort_name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "original_name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("slug", models.SlugField(max_length=100)),
                ("born", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                ("died", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "birthplace",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                    "biography",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "short_biography",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "language",
                    models.CharField(
                        default="en-GB", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "number_prefix",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("string_strengths", catalogue.models.fields.StrengthsField(blank=True, default=(), max_length=64)),
                (
                    "ipi",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "isni",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "feed_token_sha256",
                    models.CharField(blank=True, db_index=True, default="", editable=False, max_length=64),
                ),
                ("is_public", models.BooleanField(default=False)),
                ("feed_is_public", models.BooleanField(default=False)),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
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
                "verbose_name": "historical composer",
                "verbose_name_plural": "historical composers",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalMembership",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                (
                    "role",
                    models.CharField(
                        choices=[("owner", "Owner"), ("editor", "Editor"), ("viewer", "Viewer")],
                        default="owner",
                        max_length=10,
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
                    "history_user",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "user",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "verbose_name": "historical membership",
                "verbose_name_plural": "historical memberships",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalOrganisation",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "telephone",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("website", models.URLField(blank=True, default="", max_length=500)),
                (
                    "address",
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
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("kinds", catalogue.models.fields.KindsField(blank=True, default=(), max_length=200)),
                (
                    "city",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                    "notes",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "city")
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
                "verbose_name": "historical organisation",
                "verbose_name_plural": "historical organisations",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalPerson",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "telephone",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("website", models.URLField(blank=True, default="", max_length=500)),
                (
                    "address",
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
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "sort_name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "plays",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
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
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "sort_name", "plays")
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
                "verbose_name": "historical person",
                "verbose_name_plural": "historical people",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalVenue",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                (
                    "name",
                    models.CharField(
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "city",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                    "zone",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=64,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.conditions.refuse_unknown_zone,
                        ],
                    ),
                ),
                (
                    "latitude",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(-90),
                            django.core.validators.MaxValueValidator(90),
                        ],
                    ),
                ),
                (
                    "longitude",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(-180),
                            django.core.validators.MaxValueValidator(180),
                        ],
                    ),
                ),
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
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "city")
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
                "verbose_name": "historical venue",
                "verbose_name_plural": "historical venues",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="Organisation",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "telephone",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("website", models.URLField(blank=True, default="", max_length=500)),
                (
                    "address",
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
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("kinds", catalogue.models.fields.KindsField(blank=True, default=(), max_length=200)),
                (
                    "city",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                    "notes",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "city")
                    ),
                ),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="organisations",
                        to="catalogue.composer",
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
        ),
        migrations.CreateModel(
            name="Performance",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("saves", models.PositiveIntegerField(default=0, editable=False)),
                ("changed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("uid", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("sequence", models.PositiveIntegerField(default=0, editable=False)),
                ("date", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                ("first_day", models.DateField(blank=True, editable=False, null=True)),
                ("last_day", models.DateField(blank=True, editable=False, null=True)),
                ("time", models.TimeField(blank=True, null=True)),
                (
                    "zone",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=64,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.conditions.refuse_unknown_zone,
                        ],
                    ),
                ),
                ("starts_at", models.DateTimeField(blank=True, editable=False, null=True)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("concert", "Concert"),
                            ("stage", "Stage"),
                            ("broadcast", "Broadcast"),
                            ("preview", "Preview"),
                            ("reading", "Reading"),
                            ("workshop", "Workshop"),
                            ("student recital", "Student recital"),
                            ("recording session", "Recording session"),
                            ("installation", "Installation"),
                        ],
                        default="concert",
                        max_length=30,
                    ),
                ),
                (
                    "audience",
                    models.CharField(
                        choices=[
                            ("public", "Public"),
                            ("private", "Private"),
                            ("invited", "Invited"),
                            ("public rehearsal", "Public rehearsal"),
                        ],
                        default="public",
                        max_length=20,
                    ),
                ),
                (
                    "status",
                    models.CharField(
                        choices=[
                            ("planned", "Planned"),
                            ("confirmed", "Confirmed"),
                            ("given", "Given"),
                            ("postponed", "Postponed"),
                            ("cancelled", "Cancelled"),
                            ("withdrawn", "Withdrawn"),
                            ("old-style date", "Old-style date"),
                            ("duplicate", "Duplicate"),
                        ],
                        default="given",
                        max_length=20,
                    ),
                ),
                (
                    "event_title",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "city",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                    "country_then",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "presenter_name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "series",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("string_strengths", catalogue.models.fields.StrengthsField(blank=True, default=(), max_length=64)),
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
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True,
                        default="",
                        editable=False,
                        of=("event_title", "city", "country_then", "presenter_name", "series", "notes"),
                    ),
                ),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="performances",
                        to="catalogue.composer",
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
                    "presenter",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.RESTRICT,
                        related_name="presented_performances",
                        to="catalogue.organisation",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="Person",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "telephone",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("website", models.URLField(blank=True, default="", max_length=500)),
                (
                    "address",
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
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "sort_name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "plays",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
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
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "sort_name", "plays")
                    ),
                ),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="people", to="catalogue.composer"
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
                "verbose_name_plural": "people",
            },
        ),
        migrations.CreateModel(
            name="PerformanceCredit",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("order", models.PositiveSmallIntegerField(default=1)),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("ensemble", "Ensemble"),
                            ("conductor", "Conductor"),
                            ("soloist", "Soloist"),
                            ("performer", "Performer"),
                            ("chorus master", "Chorus master"),
                            ("director", "Director"),
                            ("electronics", "Electronics"),
                            ("narrator", "Narrator"),
                        ],
                        default="performer",
                        max_length=20,
                    ),
                ),
                (
                    "plays",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "plays")
                    ),
                ),
                (
                    "organisation",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.RESTRICT,
                        related_name="credits",
                        to="catalogue.organisation",
                    ),
                ),
                (
                    "performance",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="credits", to="catalogue.performance"
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.RESTRICT,
                        related_name="credits",
                        to="catalogue.person",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="HistoricalPerformanceCredit",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("order", models.PositiveSmallIntegerField(default=1)),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("ensemble", "Ensemble"),
                            ("conductor", "Conductor"),
                            ("soloist", "Soloist"),
                            ("performer", "Performer"),
                            ("chorus master", "Chorus master"),
                            ("director", "Director"),
                            ("electronics", "Electronics"),
                            ("narrator", "Narrator"),
                        ],
                        default="performer",
                        max_length=20,
                    ),
                ),
                (
                    "plays",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "plays")
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
            ],
            options={
                "verbose_name": "historical performance credit",
                "verbose_name_plural": "historical performance credits",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="Venue",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                (
                    "name",
                    models.CharField(
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "city",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                    "zone",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=64,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.conditions.refuse_unknown_zone,
                        ],
                    ),
                ),
                (
                    "latitude",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(-90),
                            django.core.validators.MaxValueValidator(90),
                        ],
                    ),
                ),
                (
                    "longitude",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(-180),
                            django.core.validators.MaxValueValidator(180),
                        ],
                    ),
                ),
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
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "city")
                    ),
                ),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="venues", to="catalogue.composer"
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
        ),
        migrations.AddField(
            model_name="performance",
            name="venue",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.RESTRICT,
                related_name="performances",
                to="catalogue.venue",
            ),
        ),
        migrations.CreateModel(
            name="HistoricalPerformance",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("saves", models.PositiveIntegerField(default=0, editable=False)),
                ("changed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("uid", models.UUIDField(db_index=True, default=uuid.uuid4, editable=False)),
                ("sequence", models.PositiveIntegerField(default=0, editable=False)),
                ("date", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                ("first_day", models.DateField(blank=True, editable=False, null=True)),
                ("last_day", models.DateField(blank=True, editable=False, null=True)),
                ("time", models.TimeField(blank=True, null=True)),
                (
                    "zone",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=64,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.conditions.refuse_unknown_zone,
                        ],
                    ),
                ),
                ("starts_at", models.DateTimeField(blank=True, editable=False, null=True)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("concert", "Concert"),
                            ("stage", "Stage"),
                            ("broadcast", "Broadcast"),
                            ("preview", "Preview"),
                            ("reading", "Reading"),
                            ("workshop", "Workshop"),
                            ("student recital", "Student recital"),
                            ("recording session", "Recording session"),
                            ("installation", "Installation"),
                        ],
                        default="concert",
                        max_length=30,
                    ),
                ),
                (
                    "audience",
                    models.CharField(
                        choices=[
                            ("public", "Public"),
                            ("private", "Private"),
                            ("invited", "Invited"),
                            ("public rehearsal", "Public rehearsal"),
                        ],
                        default="public",
                        max_length=20,
                    ),
                ),
                (
                    "status",
                    models.CharField(
                        choices=[
                            ("planned", "Planned"),
                            ("confirmed", "Confirmed"),
                            ("given", "Given"),
                            ("postponed", "Postponed"),
                            ("cancelled", "Cancelled"),
                            ("withdrawn", "Withdrawn"),
                            ("old-style date", "Old-style date"),
                            ("duplicate", "Duplicate"),
                        ],
                        default="given",
                        max_length=20,
                    ),
                ),
                (
                    "event_title",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "city",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                    "country_then",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "presenter_name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "series",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("string_strengths", catalogue.models.fields.StrengthsField(blank=True, default=(), max_length=64)),
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
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True,
                        default="",
                        editable=False,
                        of=("event_title", "city", "country_then", "presenter_name", "series", "notes"),
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
                    "presenter",
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
                    "venue",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.venue",
                    ),
                ),
            ],
            options={
                "verbose_name": "historical performance",
                "verbose_name_plural": "historical performances",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="Work",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("saves", models.PositiveIntegerField(default=0, editable=False)),
                ("changed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("uid", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                (
                    "title",
                    models.CharField(
                        default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "title_language",
                    models.CharField(
                        blank=True, default="", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "original_title",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "original_language",
                    models.CharField(
                        blank=True, default="", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "transliteration",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "translated_title",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "subtitle",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "catalogue_number",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("begun", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "completed",
                    catalogue.models.fields.PartialDateField(blank=True, db_index=True, max_length=64, null=True),
                ),
                ("revised", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                ("published", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "category",
                    models.CharField(
                        choices=[
                            ("stage", "Stage"),
                            ("orchestra", "Orchestra"),
                            ("soloist and orchestra", "Soloist and orchestra"),
                            ("large ensemble", "Large ensemble"),
                            ("chamber", "Chamber"),
                            ("solo", "Solo"),
                            ("choir", "Choir"),
                            ("voice", "Voice"),
                            ("electronics", "Electronics"),
                            ("installation", "Installation"),
                            ("other", "Other"),
                        ],
                        default="other",
                        max_length=30,
                    ),
                ),
                (
                    "status",
                    models.CharField(
                        choices=[
                            ("active", "Active"),
                            ("in progress", "In progress"),
                            ("withdrawn", "Withdrawn"),
                            ("juvenile", "Juvenile"),
                        ],
                        default="active",
                        max_length=20,
                    ),
                ),
                (
                    "instrumentation",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "instrumentation_typed",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("least_players", models.PositiveIntegerField(blank=True, editable=False, null=True)),
                ("most_players", models.PositiveIntegerField(blank=True, editable=False, null=True)),
                (
                    "electronics",
                    models.CharField(
                        blank=True,
                        default="",
                        editable=False,
                        max_length=20,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "duration",
                    catalogue.models.fields.DurationField(blank=True, db_index=True, max_length=64, null=True),
                ),
                (
                    "duration_typed",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("string_strengths", catalogue.models.fields.StrengthsField(blank=True, default=(), max_length=64)),
                (
                    "dedication",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "text_author",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "text_language",
                    models.CharField(
                        blank=True, default="", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "version_label",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "publisher",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "iswc",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "ismn",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("parts_on_hire", models.BooleanField(default=False)),
                (
                    "programme_note",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "electronics_note",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
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
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True,
                        default="",
                        editable=False,
                        of=(
                            "title",
                            "original_title",
                            "transliteration",
                            "translated_title",
                            "subtitle",
                            "catalogue_number",
                            "version_label",
                            "dedication",
                            "text_author",
                            "publisher",
                            "instrumentation_typed",
                            "notes",
                        ),
                    ),
                ),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="works", to="catalogue.composer"
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
                    "version_of",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.RESTRICT,
                        related_name="versions",
                        to="catalogue.work",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="Recording",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "performers",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "label",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "number",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("released", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="recordings", to="catalogue.work"
                    ),
                ),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="ProgrammedWork",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "order",
                    models.PositiveSmallIntegerField(
                        default=1, validators=[django.core.validators.MinValueValidator(1)]
                    ),
                ),
                (
                    "extent",
                    models.CharField(
                        choices=[
                            ("complete", "Complete"),
                            ("partial", "Partial"),
                            ("excerpt", "Excerpt"),
                            ("suite", "Suite"),
                        ],
                        default="complete",
                        max_length=10,
                    ),
                ),
                (
                    "part",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "billing",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "note",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("duration", catalogue.models.fields.DurationField(blank=True, max_length=64, null=True)),
                (
                    "performance",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="programme",
                        to="catalogue.performance",
                    ),
                ),
                (
                    "work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.RESTRICT, related_name="programmed", to="catalogue.work"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="Movement",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("number", models.PositiveSmallIntegerField(validators=[django.core.validators.MinValueValidator(1)])),
                (
                    "title",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("duration", catalogue.models.fields.DurationField(blank=True, max_length=64, null=True)),
                ("attacca", models.BooleanField(default=False)),
                (
                    "work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="movements", to="catalogue.work"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="InstrumentationLine",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("instrument", models.CharField(max_length=60)),
                ("family", models.CharField(max_length=30)),
                ("role", models.CharField(max_length=30)),
                ("least_players", models.PositiveIntegerField(null=True)),
                ("most_players", models.PositiveIntegerField(null=True)),
                ("is_doubling", models.BooleanField(default=False)),
                (
                    "work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="instrumentation_lines",
                        to="catalogue.work",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="HistoricalWork",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("deleted_at", models.DateTimeField(blank=True, db_index=True, editable=False, null=True)),
                ("saves", models.PositiveIntegerField(default=0, editable=False)),
                ("changed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("uid", models.UUIDField(db_index=True, default=uuid.uuid4, editable=False)),
                (
                    "title",
                    models.CharField(
                        default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "title_language",
                    models.CharField(
                        blank=True, default="", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "original_title",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "original_language",
                    models.CharField(
                        blank=True, default="", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "transliteration",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "translated_title",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "subtitle",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "catalogue_number",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("begun", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "completed",
                    catalogue.models.fields.PartialDateField(blank=True, db_index=True, max_length=64, null=True),
                ),
                ("revised", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                ("published", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "category",
                    models.CharField(
                        choices=[
                            ("stage", "Stage"),
                            ("orchestra", "Orchestra"),
                            ("soloist and orchestra", "Soloist and orchestra"),
                            ("large ensemble", "Large ensemble"),
                            ("chamber", "Chamber"),
                            ("solo", "Solo"),
                            ("choir", "Choir"),
                            ("voice", "Voice"),
                            ("electronics", "Electronics"),
                            ("installation", "Installation"),
                            ("other", "Other"),
                        ],
                        default="other",
                        max_length=30,
                    ),
                ),
                (
                    "status",
                    models.CharField(
                        choices=[
                            ("active", "Active"),
                            ("in progress", "In progress"),
                            ("withdrawn", "Withdrawn"),
                            ("juvenile", "Juvenile"),
                        ],
                        default="active",
                        max_length=20,
                    ),
                ),
                (
                    "instrumentation",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "instrumentation_typed",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("least_players", models.PositiveIntegerField(blank=True, editable=False, null=True)),
                ("most_players", models.PositiveIntegerField(blank=True, editable=False, null=True)),
                (
                    "electronics",
                    models.CharField(
                        blank=True,
                        default="",
                        editable=False,
                        max_length=20,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "duration",
                    catalogue.models.fields.DurationField(blank=True, db_index=True, max_length=64, null=True),
                ),
                (
                    "duration_typed",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("string_strengths", catalogue.models.fields.StrengthsField(blank=True, default=(), max_length=64)),
                (
                    "dedication",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "text_author",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "text_language",
                    models.CharField(
                        blank=True, default="", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "version_label",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "publisher",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "iswc",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "ismn",
                    models.CharField(
                        blank=True, default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("parts_on_hire", models.BooleanField(default=False)),
                (
                    "programme_note",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "electronics_note",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
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
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True,
                        default="",
                        editable=False,
                        of=(
                            "title",
                            "original_title",
                            "transliteration",
                            "translated_title",
                            "subtitle",
                            "catalogue_number",
                            "version_label",
                            "dedication",
                            "text_author",
                            "publisher",
                            "instrumentation_typed",
                            "notes",
                        ),
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
                    "version_of",
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
                "verbose_name": "historical work",
                "verbose_name_plural": "historical works",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalRecording",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                (
                    "performers",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "label",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "number",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("released", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
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
                "verbose_name": "historical recording",
                "verbose_name_plural": "historical recordings",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalProgrammedWork",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                (
                    "order",
                    models.PositiveSmallIntegerField(
                        default=1, validators=[django.core.validators.MinValueValidator(1)]
                    ),
                ),
                (
                    "extent",
                    models.CharField(
                        choices=[
                            ("complete", "Complete"),
                            ("partial", "Partial"),
                            ("excerpt", "Excerpt"),
                            ("suite", "Suite"),
                        ],
                        default="complete",
                        max_length=10,
                    ),
                ),
                (
                    "part",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "billing",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "note",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("duration", catalogue.models.fields.DurationField(blank=True, max_length=64, null=True)),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
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
                "verbose_name": "historical programmed work",
                "verbose_name_plural": "historical programmed works",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalMovement",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("number", models.PositiveSmallIntegerField(validators=[django.core.validators.MinValueValidator(1)])),
                (
                    "title",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("duration", catalogue.models.fields.DurationField(blank=True, max_length=64, null=True)),
                ("attacca", models.BooleanField(default=False)),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
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
                "verbose_name": "historical movement",
                "verbose_name_plural": "historical movements",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalCommission",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "place",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "funder",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
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
                "verbose_name": "historical commission",
                "verbose_name_plural": "historical commissions",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="Commission",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "place",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "funder",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "organisation",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.RESTRICT,
                        related_name="commissions",
                        to="catalogue.organisation",
                    ),
                ),
                (
                    "work",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="commissions", to="catalogue.work"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="Membership",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "role",
                    models.CharField(
                        choices=[("owner", "Owner"), ("editor", "Editor"), ("viewer", "Viewer")],
                        default="owner",
                        max_length=10,
                    ),
                ),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="memberships", to="catalogue.composer"
                    ),
                ),
                (
                    "user",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="memberships",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(
                        fields=("user", "composer"),
                        name="membership_once",
                        violation_error_message="This person is a member already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("role__in", ["owner", "editor", "viewer"])), name="membership_role_known"
                    ),
                ],
            },
        ),
        migrations.AddConstraint(
            model_name="organisation",
            constraint=models.CheckConstraint(
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
                name="organisation_country_two_capitals",
            ),
        ),
        migrations.AddConstraint(
            model_name="performancecredit",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "role__in",
                        [
                            "ensemble",
                            "conductor",
                            "soloist",
                            "performer",
                            "chorus master",
                            "director",
                            "electronics",
                            "narrator",
                        ],
                    )
                ),
                name="credit_role_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="performancecredit",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("person__isnull", False),
                    ("organisation__isnull", False),
                    models.Q(("name", ""), _negated=True),
                    _connector="OR",
                ),
                name="credit_names_somebody",
            ),
        ),
        migrations.AddConstraint(
            model_name="performancecredit",
            constraint=models.CheckConstraint(
                condition=models.Q(("person__isnull", True), ("organisation__isnull", True), _connector="OR"),
                name="credit_is_person_or_organisation",
            ),
        ),
        migrations.AddConstraint(
            model_name="venue",
            constraint=models.CheckConstraint(
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
                name="venue_country_two_capitals",
            ),
        ),
        migrations.AddConstraint(
            model_name="venue",
            constraint=models.CheckConstraint(
                condition=models.Q(("latitude__isnull", True), ("latitude__range", (-90, 90)), _connector="OR"),
                name="venue_latitude_on_earth",
            ),
        ),
        migrations.AddConstraint(
            model_name="venue",
            constraint=models.CheckConstraint(
                condition=models.Q(("longitude__isnull", True), ("longitude__range", (-180, 180)), _connector="OR"),
                name="venue_longitude_on_earth",
            ),
        ),
        migrations.AddIndex(
            model_name="performance",
            index=models.Index(fields=["composer", "-first_day", "-id"], name="performance_latest_first"),
        ),
        migrations.AddIndex(
            model_name="performance",
            index=models.Index(fields=["composer", "last_day"], name="performance_from_day"),
        ),
        migrations.AddConstraint(
            model_name="performance",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "kind__in",
                        [
                            "concert",
                            "stage",
                            "broadcast",
                            "preview",
                            "reading",
                            "workshop",
                            "student recital",
                            "recording session",
                            "installation",
                        ],
                    )
                ),
                name="performance_kind_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="performance",
            constraint=models.CheckConstraint(
                condition=models.Q(("audience__in", ["public", "private", "invited", "public rehearsal"])),
                name="performance_audience_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="performance",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "status__in",
                        [
                            "planned",
                            "confirmed",
                            "given",
                            "postponed",
                            "cancelled",
                            "withdrawn",
                            "old-style date",
                            "duplicate",
                        ],
                    )
                ),
                name="performance_status_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="performance",
            constraint=models.CheckConstraint(
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
                name="performance_country_two_capitals",
            ),
        ),
        migrations.AddConstraint(
            model_name="performance",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("first_day__isnull", True), ("last_day__isnull", True)),
                    ("first_day__lte", models.F("last_day")),
                    _connector="OR",
                ),
                name="performance_days_in_order",
            ),
        ),
        migrations.AddIndex(
            model_name="work",
            index=models.Index(fields=["composer", "title"], name="work_by_title"),
        ),
        migrations.AddIndex(
            model_name="work",
            index=models.Index(fields=["composer", "-completed"], name="work_newest_first"),
        ),
        migrations.AddConstraint(
            model_name="work",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "category__in",
                        [
                            "stage",
                            "orchestra",
                            "soloist and orchestra",
                            "large ensemble",
                            "chamber",
                            "solo",
                            "choir",
                            "voice",
                            "electronics",
                            "installation",
                            "other",
                        ],
                    )
                ),
                name="work_category_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="work",
            constraint=models.CheckConstraint(
                condition=models.Q(("status__in", ["active", "in progress", "withdrawn", "juvenile"])),
                name="work_status_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="work",
            constraint=models.CheckConstraint(
                condition=models.Q(("duration__isnull", True), ("duration__gte", "0000000001"), _connector="OR"),
                name="work_duration_lasts",
            ),
        ),
        migrations.AddConstraint(
            model_name="work",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("version_of__isnull", True),
                    models.Q(("version_of", models.F("id")), _negated=True),
                    _connector="OR",
                ),
                name="work_is_no_version_of_itself",
            ),
        ),
        migrations.AddConstraint(
            model_name="work",
            constraint=models.UniqueConstraint(
                condition=models.Q(
                    ("deleted_at__isnull", True),
                    ("version_of__isnull", True),
                    models.Q(("catalogue_number", ""), _negated=True),
                ),
                fields=("composer", "catalogue_number"),
                name="work_catalogue_number_once",
                violation_error_message="Another work has this catalogue number.",
            ),
        ),
        migrations.AddConstraint(
            model_name="programmedwork",
            constraint=models.CheckConstraint(
                condition=models.Q(("extent__in", ["complete", "partial", "excerpt", "suite"])),
                name="programmed_extent_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="programmedwork",
            constraint=models.CheckConstraint(
                condition=models.Q(("duration__isnull", True), ("duration__gte", "0000000001"), _connector="OR"),
                name="programmed_duration_lasts",
            ),
        ),
        migrations.AddConstraint(
            model_name="programmedwork",
            constraint=models.UniqueConstraint(
                fields=("performance", "order"),
                name="programmed_order_once",
                violation_error_message="Another work has this place in the programme.",
            ),
        ),
        migrations.AddConstraint(
            model_name="programmedwork",
            constraint=models.CheckConstraint(condition=models.Q(("order__gte", 1)), name="programmed_order_from_one"),
        ),
        migrations.AddConstraint(
            model_name="movement",
            constraint=models.UniqueConstraint(
                fields=("work", "number"),
                name="movement_number_once",
                violation_error_message="Another movement has this number.",
            ),
        ),
        migrations.AddConstraint(
            model_name="movement",
            constraint=models.CheckConstraint(condition=models.Q(("number__gte", 1)), name="movement_number_from_one"),
        ),
        migrations.AddConstraint(
            model_name="movement",
            constraint=models.CheckConstraint(
                condition=models.Q(("duration__isnull", True), ("duration__gte", "0000000001"), _connector="OR"),
                name="movement_duration_lasts",
            ),
        ),
        migrations.AddIndex(
            model_name="instrumentationline",
            index=models.Index(fields=["instrument", "work"], name="line_by_instrument"),
        ),
        migrations.AddConstraint(
            model_name="commission",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("organisation__isnull", False), models.Q(("name", ""), _negated=True), _connector="OR"
                ),
                name="commission_has_body",
            ),
        ),
    ]
