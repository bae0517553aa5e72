import uuid

import django.db.models.deletion
import simple_history.models
from django.conf import settings
from django.db import migrations, models

import catalogue.models.conditions
import catalogue.models.fields
import catalogue.models.journeys
from catalogue.migrations._at_once import CreateModels


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0019_submissions"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        CreateModels(
            [
                migrations.CreateModel(
                    name="HistoricalLeadTimes",
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
                        ("contract", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("rider", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("parts", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("texts", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("stream", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("recording_request", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("travel", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("electronics", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("lasted", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("thanks", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("set_back", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("recording", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("review", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("filing", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        (
                            "search_text",
                            catalogue.models.fields.SearchTextField(
                                blank=True, default="", editable=False, of=("notes",)
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1
                            ),
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
                        "verbose_name": "historical lead times",
                        "verbose_name_plural": "historical lead times",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalReturn",
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
                        ("filed", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        (
                            "reference",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=100,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        ("until", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        ("rule_read", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        (
                            "answer",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=500,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        (
                            "search_text",
                            catalogue.models.fields.SearchTextField(
                                blank=True, default="", editable=False, of=("society", "reference", "answer", "notes")
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1
                            ),
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
                    ],
                    options={
                        "verbose_name": "historical return",
                        "verbose_name_plural": "historical returns",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalSession",
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
                                    ("rehearsal", "Rehearsal"),
                                    ("dress rehearsal", "Dress rehearsal"),
                                    ("get-in", "Get-in"),
                                    ("line check", "Line check"),
                                    ("talk", "Talk"),
                                    ("other", "Other"),
                                ],
                                default="rehearsal",
                                max_length=20,
                            ),
                        ),
                        (
                            "title",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=200,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        ("date", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        ("time", models.TimeField(blank=True, null=True)),
                        ("until", models.TimeField(blank=True, null=True)),
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
                            "place",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=500,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        (
                            "search_text",
                            catalogue.models.fields.SearchTextField(
                                blank=True, default="", editable=False, of=("title", "place", "notes")
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1
                            ),
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
                    ],
                    options={
                        "verbose_name": "historical session",
                        "verbose_name_plural": "historical sessions",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalStep",
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
                                    ("contract", "Contract"),
                                    ("rider", "Rider"),
                                    ("parts", "Parts"),
                                    ("note and biography", "Note and biography"),
                                    ("stream permission", "Stream permission"),
                                    ("recording request", "Recording request"),
                                    ("travel", "Travel"),
                                    ("electronics test", "Electronics test"),
                                    ("duration as played", "Duration as played"),
                                    ("thanks", "Thanks"),
                                    ("set back", "Set back"),
                                    ("recording received", "Recording received"),
                                    ("review", "Review"),
                                    ("return", "Return"),
                                    ("other", "Other"),
                                ],
                                default="other",
                                max_length=30,
                            ),
                        ),
                        (
                            "label",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=200,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        (
                            "state",
                            models.CharField(
                                choices=[("open", "Open"), ("done", "Done"), ("not needed", "Not needed")],
                                default="open",
                                max_length=20,
                            ),
                        ),
                        ("due", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        ("done_on", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        (
                            "search_text",
                            catalogue.models.fields.SearchTextField(
                                blank=True, default="", editable=False, of=("label", "notes")
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1
                            ),
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
                    ],
                    options={
                        "verbose_name": "historical step",
                        "verbose_name_plural": "historical steps",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="LeadTimes",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                        ("contract", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("rider", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("parts", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("texts", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("stream", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("recording_request", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("travel", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("electronics", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("lasted", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("thanks", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("set_back", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("recording", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("review", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        ("filing", catalogue.models.journeys.LeadField(blank=True, max_length=4, null=True)),
                        (
                            "search_text",
                            catalogue.models.fields.SearchTextField(
                                blank=True, default="", editable=False, of=("notes",)
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
                        "verbose_name_plural": "lead times",
                    },
                ),
                migrations.CreateModel(
                    name="Return",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                        ("filed", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        (
                            "reference",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=100,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        ("until", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        ("rule_read", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        (
                            "answer",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=500,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        (
                            "search_text",
                            catalogue.models.fields.SearchTextField(
                                blank=True, default="", editable=False, of=("society", "reference", "answer", "notes")
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
                            "performance",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="catalogue.performance",
                            ),
                        ),
                    ],
                    options={
                        "constraints": [
                            models.CheckConstraint(
                                condition=models.Q(models.Q(("society", ""), _negated=True)),
                                name="return_society_filled",
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Session",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                    ("rehearsal", "Rehearsal"),
                                    ("dress rehearsal", "Dress rehearsal"),
                                    ("get-in", "Get-in"),
                                    ("line check", "Line check"),
                                    ("talk", "Talk"),
                                    ("other", "Other"),
                                ],
                                default="rehearsal",
                                max_length=20,
                            ),
                        ),
                        (
                            "title",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=200,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        ("date", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        ("time", models.TimeField(blank=True, null=True)),
                        ("until", models.TimeField(blank=True, null=True)),
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
                            "place",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=500,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        (
                            "search_text",
                            catalogue.models.fields.SearchTextField(
                                blank=True, default="", editable=False, of=("title", "place", "notes")
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
                            "performance",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="catalogue.performance",
                            ),
                        ),
                    ],
                    options={
                        "constraints": [
                            models.CheckConstraint(
                                condition=models.Q(
                                    (
                                        "kind__in",
                                        ["rehearsal", "dress rehearsal", "get-in", "line check", "talk", "other"],
                                    )
                                ),
                                name="session_kind_known",
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="Step",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                            ),
                        ),
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
                                    ("contract", "Contract"),
                                    ("rider", "Rider"),
                                    ("parts", "Parts"),
                                    ("note and biography", "Note and biography"),
                                    ("stream permission", "Stream permission"),
                                    ("recording request", "Recording request"),
                                    ("travel", "Travel"),
                                    ("electronics test", "Electronics test"),
                                    ("duration as played", "Duration as played"),
                                    ("thanks", "Thanks"),
                                    ("set back", "Set back"),
                                    ("recording received", "Recording received"),
                                    ("review", "Review"),
                                    ("return", "Return"),
                                    ("other", "Other"),
                                ],
                                default="other",
                                max_length=30,
                            ),
                        ),
                        (
                            "label",
                            models.CharField(
                                blank=True,
                                default="",
                                max_length=200,
                                validators=[catalogue.models.fields.refuse_unprintable],
                            ),
                        ),
                        (
                            "state",
                            models.CharField(
                                choices=[("open", "Open"), ("done", "Done"), ("not needed", "Not needed")],
                                default="open",
                                max_length=20,
                            ),
                        ),
                        ("due", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        ("done_on", catalogue.models.fields.PartialDateField(blank=True, max_length=64, null=True)),
                        (
                            "search_text",
                            catalogue.models.fields.SearchTextField(
                                blank=True, default="", editable=False, of=("label", "notes")
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
                            "performance",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="catalogue.performance",
                            ),
                        ),
                    ],
                    options={
                        "constraints": [
                            models.CheckConstraint(
                                condition=models.Q(
                                    (
                                        "kind__in",
                                        [
                                            "contract",
                                            "rider",
                                            "parts",
                                            "note and biography",
                                            "stream permission",
                                            "recording request",
                                            "travel",
                                            "electronics test",
                                            "duration as played",
                                            "thanks",
                                            "set back",
                                            "recording received",
                                            "review",
                                            "return",
                                            "other",
                                        ],
                                    )
                                ),
                                name="step_kind_known",
                            ),
                            models.CheckConstraint(
                                condition=models.Q(("state__in", ["open", "done", "not needed"])),
                                name="step_state_known",
                            ),
                            models.CheckConstraint(
                                condition=models.Q(
                                    models.Q(("kind", "other"), _negated=True),
                                    models.Q(("label", ""), _negated=True),
                                    _connector="OR",
                                ),
                                name="step_other_is_named",
                            ),
                        ],
                    },
                ),
            ]
        )
    ]
