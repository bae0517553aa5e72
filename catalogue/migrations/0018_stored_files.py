import uuid

import django.db.models.deletion
import simple_history.models
from django.conf import settings
from django.db import migrations, models

import catalogue.models.fields


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0017_front_matter"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="HistoricalStoredFile",
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
                    "kind",
                    models.CharField(
                        choices=[
                            ("score", "Score"),
                            ("parts", "Parts"),
                            ("recording", "Recording"),
                            ("media", "Media"),
                            ("programs", "Programs"),
                            ("other", "Other"),
                        ],
                        default="score",
                        max_length=20,
                    ),
                ),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "version",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "original_name",
                    models.CharField(
                        default="",
                        editable=False,
                        max_length=500,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("sha256", models.CharField(editable=False, max_length=64)),
                ("suffix", models.CharField(editable=False, max_length=5)),
                ("byte_count", models.PositiveBigIntegerField(editable=False)),
                ("found", models.JSONField(default=dict, editable=False)),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "original_name", "version", "notes")
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
                    "edition",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.edition",
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
                    "recording",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.recording",
                    ),
                ),
                (
                    "setup",
                    models.ForeignKey(
                        blank=True,
                        db_constraint=False,
                        null=True,
                        on_delete=django.db.models.deletion.DO_NOTHING,
                        related_name="+",
                        to="catalogue.technicalsetup",
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
                "verbose_name": "historical stored file",
                "verbose_name_plural": "historical stored files",
                "ordering": ("-history_date", "-history_id"),
                "get_latest_by": ("history_date", "history_id"),
            },
            bases=(simple_history.models.HistoricalChanges, models.Model),
        ),
        migrations.CreateModel(
            name="StoredFile",
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
                    "kind",
                    models.CharField(
                        choices=[
                            ("score", "Score"),
                            ("parts", "Parts"),
                            ("recording", "Recording"),
                            ("media", "Media"),
                            ("programs", "Programs"),
                            ("other", "Other"),
                        ],
                        default="score",
                        max_length=20,
                    ),
                ),
                (
                    "name",
                    models.CharField(
                        blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "version",
                    models.CharField(
                        blank=True, default="", max_length=50, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "original_name",
                    models.CharField(
                        default="",
                        editable=False,
                        max_length=500,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("sha256", models.CharField(editable=False, max_length=64)),
                ("suffix", models.CharField(editable=False, max_length=5)),
                ("byte_count", models.PositiveBigIntegerField(editable=False)),
                ("found", models.JSONField(default=dict, editable=False)),
                (
                    "search_text",
                    catalogue.models.fields.SearchTextField(
                        blank=True, default="", editable=False, of=("name", "original_name", "version", "notes")
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
                    "edition",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="catalogue.edition",
                    ),
                ),
                (
                    "recording",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="catalogue.recording",
                    ),
                ),
                (
                    "setup",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="catalogue.technicalsetup",
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
                        condition=models.Q(("kind__in", ["score", "parts", "recording", "media", "programs", "other"])),
                        name="stored_file_kind_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(models.Q(("original_name", ""), _negated=True)),
                        name="stored_file_original_name_filled",
                    ),
                    models.CheckConstraint(condition=models.Q(("byte_count__gte", 1)), name="stored_file_is_kept"),
                ],
            },
        ),
    ]
