import uuid

import django.core.validators
import django.db.models.deletion
import simple_history.models
from django.conf import settings
from django.db import migrations, models

import catalogue.models.fields
import catalogue.models.materials


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0021_regions_of_halls"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="Hire",
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
                    "purpose",
                    models.CharField(
                        choices=[("hire", "Hire"), ("perusal", "Perusal"), ("sale", "Sale"), ("own use", "Own use")],
                        default="hire",
                        max_length=10,
                    ),
                ),
                (
                    "number",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "attention",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "address",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "order_number",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("out_on", models.DateField(blank=True, null=True)),
                ("due_on", models.DateField(blank=True, null=True)),
                ("extended_to", models.DateField(blank=True, null=True)),
                ("back_on", models.DateField(blank=True, null=True)),
                (
                    "carrier",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "enclosed",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "fee",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "currency",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=3,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.materials.refuse_unknown_currency,
                        ],
                    ),
                ),
                (
                    "extension_fee",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "erasing_hours",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=5,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "paid",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True,
                        default="",
                        editable=False,
                        of=("name", "number", "attention", "address", "order_number", "carrier", "notes"),
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="HiredPerformance",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
            ],
        ),
        migrations.CreateModel(
            name="HireItem",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveSmallIntegerField(default=0)),
                ("part", models.JSONField(blank=True, default=dict)),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("expected", models.PositiveSmallIntegerField(blank=True, default=1, null=True)),
                (
                    "copy_numbers",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("sent", models.PositiveSmallIntegerField(blank=True, null=True)),
                ("received", models.PositiveSmallIntegerField(blank=True, null=True)),
                ("back", models.PositiveSmallIntegerField(blank=True, null=True)),
                (
                    "condition",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("good", "Good"),
                            ("marked", "Marked"),
                            ("damaged", "Damaged"),
                            ("missing", "Missing"),
                        ],
                        default="",
                        max_length=10,
                    ),
                ),
                (
                    "remark",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "action",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("erase", "Erase"),
                            ("repair", "Repair"),
                            ("replace", "Replace"),
                            ("ask for it", "Ask for it"),
                            ("write off", "Write off"),
                        ],
                        default="",
                        max_length=12,
                    ),
                ),
                (
                    "charge",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
            ],
            options={
                "ordering": ("position", "pk"),
            },
        ),
        migrations.CreateModel(
            name="HireTerms",
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
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "lender",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "address",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "telephone",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "period_days",
                    models.PositiveSmallIntegerField(
                        blank=True, null=True, validators=[django.core.validators.MinValueValidator(1)]
                    ),
                ),
                ("days_after", models.PositiveSmallIntegerField(blank=True, null=True)),
                (
                    "currency",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=3,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.materials.refuse_unknown_currency,
                        ],
                    ),
                ),
                (
                    "extension_percent",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=6,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(1000),
                        ],
                    ),
                ),
                (
                    "late_percent",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=6,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(1000),
                        ],
                    ),
                ),
                (
                    "late_step",
                    models.CharField(
                        choices=[("once", "Once"), ("week", "Week"), ("month", "Month")], default="week", max_length=10
                    ),
                ),
                (
                    "part_charge",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "score_charge",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "erasing_rate",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "marking",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "copying",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "returning",
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
                        of=("name", "lender", "address", "marking", "copying", "returning", "notes"),
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="HistoricalHire",
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
                    "purpose",
                    models.CharField(
                        choices=[("hire", "Hire"), ("perusal", "Perusal"), ("sale", "Sale"), ("own use", "Own use")],
                        default="hire",
                        max_length=10,
                    ),
                ),
                (
                    "number",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "attention",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "address",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "order_number",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("out_on", models.DateField(blank=True, null=True)),
                ("due_on", models.DateField(blank=True, null=True)),
                ("extended_to", models.DateField(blank=True, null=True)),
                ("back_on", models.DateField(blank=True, null=True)),
                (
                    "carrier",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "enclosed",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "fee",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "currency",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=3,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.materials.refuse_unknown_currency,
                        ],
                    ),
                ),
                (
                    "extension_fee",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "erasing_hours",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=5,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "paid",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True,
                        default="",
                        editable=False,
                        of=("name", "number", "attention", "address", "order_number", "carrier", "notes"),
                    ),
                ),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
                ),
            ],
            options={
                "verbose_name": "historical hire",
                "verbose_name_plural": "historical hires",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalHiredPerformance",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
                ),
            ],
            options={
                "verbose_name": "historical hired performance",
                "verbose_name_plural": "historical hired performances",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalHireItem",
            fields=[
                ("id", models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")),
                ("position", models.PositiveSmallIntegerField(default=0)),
                ("part", models.JSONField(blank=True, default=dict)),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("expected", models.PositiveSmallIntegerField(blank=True, default=1, null=True)),
                (
                    "copy_numbers",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("sent", models.PositiveSmallIntegerField(blank=True, null=True)),
                ("received", models.PositiveSmallIntegerField(blank=True, null=True)),
                ("back", models.PositiveSmallIntegerField(blank=True, null=True)),
                (
                    "condition",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("good", "Good"),
                            ("marked", "Marked"),
                            ("damaged", "Damaged"),
                            ("missing", "Missing"),
                        ],
                        default="",
                        max_length=10,
                    ),
                ),
                (
                    "remark",
                    models.CharField(
                        blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "action",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("erase", "Erase"),
                            ("repair", "Repair"),
                            ("replace", "Replace"),
                            ("ask for it", "Ask for it"),
                            ("write off", "Write off"),
                        ],
                        default="",
                        max_length=12,
                    ),
                ),
                (
                    "charge",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
                ),
            ],
            options={
                "verbose_name": "historical hire item",
                "verbose_name_plural": "historical hire items",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalHireTerms",
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
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "lender",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "address",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("email", models.EmailField(blank=True, default="", max_length=254)),
                (
                    "telephone",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "period_days",
                    models.PositiveSmallIntegerField(
                        blank=True, null=True, validators=[django.core.validators.MinValueValidator(1)]
                    ),
                ),
                ("days_after", models.PositiveSmallIntegerField(blank=True, null=True)),
                (
                    "currency",
                    models.CharField(
                        blank=True,
                        default="",
                        max_length=3,
                        validators=[
                            catalogue.models.fields.refuse_unprintable,
                            catalogue.models.materials.refuse_unknown_currency,
                        ],
                    ),
                ),
                (
                    "extension_percent",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=6,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(1000),
                        ],
                    ),
                ),
                (
                    "late_percent",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=6,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(1000),
                        ],
                    ),
                ),
                (
                    "late_step",
                    models.CharField(
                        choices=[("once", "Once"), ("week", "Week"), ("month", "Month")], default="week", max_length=10
                    ),
                ),
                (
                    "part_charge",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "score_charge",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "erasing_rate",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(0)],
                    ),
                ),
                (
                    "marking",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "copying",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                (
                    "returning",
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
                        of=("name", "lender", "address", "marking", "copying", "returning", "notes"),
                    ),
                ),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
                ),
            ],
            options={
                "verbose_name": "historical hire terms",
                "verbose_name_plural": "historical hire termss",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="HistoricalMaterialSet",
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
                    "number",
                    models.CharField(
                        default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "form",
                    models.CharField(
                        choices=[("printed", "Printed"), ("digital", "Digital")], default="printed", max_length=10
                    ),
                ),
                ("strings", catalogue.models.fields.StrengthsField(blank=True, default=(), max_length=64)),
                (
                    "extra",
                    models.PositiveSmallIntegerField(
                        default=0, validators=[django.core.validators.MaxValueValidator(20)]
                    ),
                ),
                (
                    "condition",
                    models.CharField(
                        choices=[
                            ("new", "New"),
                            ("good", "Good"),
                            ("marked", "Marked"),
                            ("damaged", "Damaged"),
                            ("incomplete", "Incomplete"),
                            ("withdrawn", "Withdrawn"),
                        ],
                        default="good",
                        max_length=12,
                    ),
                ),
                ("made", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "kept_at",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("number", "kept_at", "notes")
                    ),
                ),
                ("history_id", models.AutoField(primary_key=True, serialize=False)),
                ("history_date", models.DateTimeField(db_index=True)),
                ("history_change_reason", models.CharField(max_length=100, null=True)),
                (
                    "history_type",
                    models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
                ),
            ],
            options={
                "verbose_name": "historical material set",
                "verbose_name_plural": "historical material sets",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="MaterialSet",
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
                    "number",
                    models.CharField(
                        default="", max_length=20, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "form",
                    models.CharField(
                        choices=[("printed", "Printed"), ("digital", "Digital")], default="printed", max_length=10
                    ),
                ),
                ("strings", catalogue.models.fields.StrengthsField(blank=True, default=(), max_length=64)),
                (
                    "extra",
                    models.PositiveSmallIntegerField(
                        default=0, validators=[django.core.validators.MaxValueValidator(20)]
                    ),
                ),
                (
                    "condition",
                    models.CharField(
                        choices=[
                            ("new", "New"),
                            ("good", "Good"),
                            ("marked", "Marked"),
                            ("damaged", "Damaged"),
                            ("incomplete", "Incomplete"),
                            ("withdrawn", "Withdrawn"),
                        ],
                        default="good",
                        max_length=12,
                    ),
                ),
                ("made", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                (
                    "kept_at",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("number", "kept_at", "notes")
                    ),
                ),
            ],
        ),
        migrations.RemoveConstraint(
            model_name="edition",
            name="edition_kind_known",
        ),
        migrations.AddField(
            model_name="edition",
            name="errata",
            field=models.TextField(
                blank=True, default="", max_length=50000, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="edition",
            name="errata_on",
            field=catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True),
        ),
        migrations.AddField(
            model_name="edition",
            name="replaces",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.SET_NULL,
                related_name="replaced_by",
                to="catalogue.edition",
            ),
        ),
        migrations.AddField(
            model_name="edition",
            name="version",
            field=models.CharField(
                blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="historicaledition",
            name="errata",
            field=models.TextField(
                blank=True, default="", max_length=50000, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="historicaledition",
            name="errata_on",
            field=catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True),
        ),
        migrations.AddField(
            model_name="historicaledition",
            name="replaces",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.edition",
            ),
        ),
        migrations.AddField(
            model_name="historicaledition",
            name="version",
            field=models.CharField(
                blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AlterField(
            model_name="edition",
            name="kind",
            field=models.CharField(
                choices=[
                    ("full score", "Full score"),
                    ("study score", "Study score"),
                    ("vocal score", "Vocal score"),
                    ("piano reduction", "Piano reduction"),
                    ("parts", "Parts"),
                    ("score and parts", "Score and parts"),
                    ("playing score", "Playing score"),
                    ("electronics package", "Electronics package"),
                ],
                default="full score",
                max_length=20,
            ),
        ),
        migrations.AlterField(
            model_name="edition",
            name="search_text",
            field=catalogue.models.fields.SearchTextField(
                blank=True,
                default="",
                editable=False,
                of=("publisher_name", "number", "ismn", "version", "errata", "notes"),
            ),
        ),
        migrations.AlterField(
            model_name="historicaledition",
            name="kind",
            field=models.CharField(
                choices=[
                    ("full score", "Full score"),
                    ("study score", "Study score"),
                    ("vocal score", "Vocal score"),
                    ("piano reduction", "Piano reduction"),
                    ("parts", "Parts"),
                    ("score and parts", "Score and parts"),
                    ("playing score", "Playing score"),
                    ("electronics package", "Electronics package"),
                ],
                default="full score",
                max_length=20,
            ),
        ),
        migrations.AlterField(
            model_name="historicaledition",
            name="search_text",
            field=catalogue.models.fields.SearchTextField(
                blank=True,
                default="",
                editable=False,
                of=("publisher_name", "number", "ismn", "version", "errata", "notes"),
            ),
        ),
        migrations.AddConstraint(
            model_name="edition",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "kind__in",
                        [
                            "full score",
                            "study score",
                            "vocal score",
                            "piano reduction",
                            "parts",
                            "score and parts",
                            "playing score",
                            "electronics package",
                        ],
                    )
                ),
                name="edition_kind_known",
            ),
        ),
        migrations.AddField(
            model_name="hire",
            name="composer",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.CASCADE, related_name="+", to="catalogue.composer"
            ),
        ),
        migrations.AddField(
            model_name="hire",
            name="deleted_by",
            field=models.ForeignKey(
                blank=True,
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.SET_NULL,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="hire",
            name="organisation",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.RESTRICT,
                related_name="+",
                to="catalogue.organisation",
            ),
        ),
        migrations.AddField(
            model_name="hire",
            name="person",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.RESTRICT,
                related_name="+",
                to="catalogue.person",
            ),
        ),
        migrations.AddField(
            model_name="hire",
            name="work",
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name="+", to="catalogue.work"),
        ),
        migrations.AddField(
            model_name="hiredperformance",
            name="hire",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.CASCADE, related_name="hired_for", to="catalogue.hire"
            ),
        ),
        migrations.AddField(
            model_name="hiredperformance",
            name="performance",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.CASCADE, related_name="+", to="catalogue.performance"
            ),
        ),
        migrations.AddField(
            model_name="hireitem",
            name="hire",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.CASCADE, related_name="items", to="catalogue.hire"
            ),
        ),
        migrations.AddField(
            model_name="hireterms",
            name="composer",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.CASCADE, related_name="+", to="catalogue.composer"
            ),
        ),
        migrations.AddField(
            model_name="hireterms",
            name="deleted_by",
            field=models.ForeignKey(
                blank=True,
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.SET_NULL,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="hire",
            name="terms",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.RESTRICT,
                related_name="+",
                to="catalogue.hireterms",
            ),
        ),
        migrations.AddField(
            model_name="historicalhire",
            name="composer",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.composer",
            ),
        ),
        migrations.AddField(
            model_name="historicalhire",
            name="deleted_by",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="historicalhire",
            name="history_user",
            field=models.ForeignKey(
                null=True, on_delete=django.db.models.deletion.SET_NULL, related_name="+", to=settings.AUTH_USER_MODEL
            ),
        ),
        migrations.AddField(
            model_name="historicalhire",
            name="organisation",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.organisation",
            ),
        ),
        migrations.AddField(
            model_name="historicalhire",
            name="person",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.person",
            ),
        ),
        migrations.AddField(
            model_name="historicalhire",
            name="terms",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.hireterms",
            ),
        ),
        migrations.AddField(
            model_name="historicalhire",
            name="work",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.work",
            ),
        ),
        migrations.AddField(
            model_name="historicalhiredperformance",
            name="hire",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.hire",
            ),
        ),
        migrations.AddField(
            model_name="historicalhiredperformance",
            name="history_user",
            field=models.ForeignKey(
                null=True, on_delete=django.db.models.deletion.SET_NULL, related_name="+", to=settings.AUTH_USER_MODEL
            ),
        ),
        migrations.AddField(
            model_name="historicalhiredperformance",
            name="performance",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.performance",
            ),
        ),
        migrations.AddField(
            model_name="historicalhireitem",
            name="hire",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.hire",
            ),
        ),
        migrations.AddField(
            model_name="historicalhireitem",
            name="history_user",
            field=models.ForeignKey(
                null=True, on_delete=django.db.models.deletion.SET_NULL, related_name="+", to=settings.AUTH_USER_MODEL
            ),
        ),
        migrations.AddField(
            model_name="historicalhireterms",
            name="composer",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.composer",
            ),
        ),
        migrations.AddField(
            model_name="historicalhireterms",
            name="deleted_by",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="historicalhireterms",
            name="history_user",
            field=models.ForeignKey(
                null=True, on_delete=django.db.models.deletion.SET_NULL, related_name="+", to=settings.AUTH_USER_MODEL
            ),
        ),
        migrations.AddField(
            model_name="historicalmaterialset",
            name="deleted_by",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="historicalmaterialset",
            name="edition",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.edition",
            ),
        ),
        migrations.AddField(
            model_name="historicalmaterialset",
            name="history_user",
            field=models.ForeignKey(
                null=True, on_delete=django.db.models.deletion.SET_NULL, related_name="+", to=settings.AUTH_USER_MODEL
            ),
        ),
        migrations.AddField(
            model_name="historicalmaterialset",
            name="work",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.work",
            ),
        ),
        migrations.AddField(
            model_name="materialset",
            name="deleted_by",
            field=models.ForeignKey(
                blank=True,
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.SET_NULL,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="materialset",
            name="edition",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.SET_NULL,
                related_name="+",
                to="catalogue.edition",
            ),
        ),
        migrations.AddField(
            model_name="materialset",
            name="work",
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name="+", to="catalogue.work"),
        ),
        migrations.AddField(
            model_name="historicalhire",
            name="material_set",
            field=models.ForeignKey(
                blank=True,
                db_constraint=False,
                null=True,
                on_delete=django.db.models.deletion.DO_NOTHING,
                related_name="+",
                to="catalogue.materialset",
            ),
        ),
        migrations.AddField(
            model_name="hire",
            name="material_set",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.RESTRICT,
                related_name="+",
                to="catalogue.materialset",
            ),
        ),
        migrations.AddConstraint(
            model_name="hiredperformance",
            constraint=models.UniqueConstraint(fields=("hire", "performance"), name="hired_performance_once"),
        ),
        migrations.AddConstraint(
            model_name="hireitem",
            constraint=models.CheckConstraint(
                condition=models.Q(("condition__in", ["", "good", "marked", "damaged", "missing"])),
                name="hire_item_condition_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="hireitem",
            constraint=models.CheckConstraint(
                condition=models.Q(("action__in", ["", "erase", "repair", "replace", "ask for it", "write off"])),
                name="hire_item_action_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="hireitem",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("charge__isnull", True), models.Q(("charge__gte", 0), ("charge__lte", 9999999)), _connector="OR"
                ),
                name="hire_item_charge_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hireterms",
            constraint=models.CheckConstraint(
                condition=models.Q(models.Q(("name", ""), _negated=True)), name="hire_terms_name_filled"
            ),
        ),
        migrations.AddConstraint(
            model_name="hireterms",
            constraint=models.CheckConstraint(
                condition=models.Q(("late_step__in", ["once", "week", "month"])), name="hire_terms_late_step_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="hireterms",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("period_days__isnull", True),
                    models.Q(("period_days__gte", 1), ("period_days__lte", 32767)),
                    _connector="OR",
                ),
                name="hire_terms_period_days_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hireterms",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("extension_percent__isnull", True),
                    models.Q(("extension_percent__gte", 0), ("extension_percent__lte", 9999999)),
                    _connector="OR",
                ),
                name="hire_terms_extension_percent_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hireterms",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("late_percent__isnull", True),
                    models.Q(("late_percent__gte", 0), ("late_percent__lte", 9999999)),
                    _connector="OR",
                ),
                name="hire_terms_late_percent_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hireterms",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("part_charge__isnull", True),
                    models.Q(("part_charge__gte", 0), ("part_charge__lte", 9999999)),
                    _connector="OR",
                ),
                name="hire_terms_part_charge_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hireterms",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("score_charge__isnull", True),
                    models.Q(("score_charge__gte", 0), ("score_charge__lte", 9999999)),
                    _connector="OR",
                ),
                name="hire_terms_score_charge_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hireterms",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("erasing_rate__isnull", True),
                    models.Q(("erasing_rate__gte", 0), ("erasing_rate__lte", 9999999)),
                    _connector="OR",
                ),
                name="hire_terms_erasing_rate_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="materialset",
            constraint=models.CheckConstraint(
                condition=models.Q(models.Q(("number", ""), _negated=True)), name="material_set_number_filled"
            ),
        ),
        migrations.AddConstraint(
            model_name="materialset",
            constraint=models.CheckConstraint(
                condition=models.Q(("form__in", ["printed", "digital"])), name="material_set_form_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="materialset",
            constraint=models.CheckConstraint(
                condition=models.Q(("condition__in", ["new", "good", "marked", "damaged", "incomplete", "withdrawn"])),
                name="material_set_condition_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("person__isnull", False),
                    ("organisation__isnull", False),
                    models.Q(("name", ""), _negated=True),
                    _connector="OR",
                ),
                name="hire_names_somebody",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(("person__isnull", True), ("organisation__isnull", True), _connector="OR"),
                name="hire_is_person_or_organisation",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(("purpose__in", ["hire", "perusal", "sale", "own use"])), name="hire_purpose_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("fee__isnull", True), models.Q(("fee__gte", 0), ("fee__lte", 9999999)), _connector="OR"
                ),
                name="hire_fee_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("extension_fee__isnull", True),
                    models.Q(("extension_fee__gte", 0), ("extension_fee__lte", 9999999)),
                    _connector="OR",
                ),
                name="hire_extension_fee_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("erasing_hours__isnull", True),
                    models.Q(("erasing_hours__gte", 0), ("erasing_hours__lte", 9999999)),
                    _connector="OR",
                ),
                name="hire_erasing_hours_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("paid__isnull", True), models.Q(("paid__gte", 0), ("paid__lte", 9999999)), _connector="OR"
                ),
                name="hire_paid_in_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("out_on__isnull", True),
                    ("due_on__isnull", True),
                    ("due_on__gte", models.F("out_on")),
                    _connector="OR",
                ),
                name="hire_out_on_before_due_on",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("due_on__isnull", True),
                    ("extended_to__isnull", True),
                    ("extended_to__gte", models.F("due_on")),
                    _connector="OR",
                ),
                name="hire_due_on_before_extended_to",
            ),
        ),
        migrations.AddConstraint(
            model_name="hire",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("out_on__isnull", True),
                    ("back_on__isnull", True),
                    ("back_on__gte", models.F("out_on")),
                    _connector="OR",
                ),
                name="hire_out_on_before_back_on",
            ),
        ),
    ]
