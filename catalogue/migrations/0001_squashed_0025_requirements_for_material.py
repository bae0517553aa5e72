"""All tables of 0001 to 0025 at once, for a database that has none of them; others go through those files."""

import uuid
from string import ascii_uppercase

from django.conf import settings
from django.core import validators
from django.core.serializers.json import DjangoJSONEncoder
from django.db import migrations, models
from django.db.models import functions, lookups
from simple_history.models import HistoricalChanges

from catalogue.migrations._at_once import CreateModels
from catalogue.models import conditions, fields, journeys, materials


def number():
    return models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")


def number_then():
    """What is the number of a record, in its history."""
    return models.BigIntegerField(auto_created=True, blank=True, db_index=True, verbose_name="ID")


def identity(**options):
    return models.UUIDField(default=uuid.uuid4, editable=False, **options)


def line(length):
    return models.CharField(blank=True, default="", max_length=length, validators=[fields.refuse_unprintable])


def prose():
    return models.TextField(blank=True, default="", max_length=50000, validators=[fields.refuse_unprintable])


def moment(**options):
    return models.DateTimeField(blank=True, editable=False, null=True, **options)


def counter():
    return models.PositiveIntegerField(default=0, editable=False)


def partial_date():
    return fields.PartialDateField(blank=True, max_length=64, null=True)


def former(to, **options):
    """Return a link of a history, which nothing has to be at the end of any more."""
    return models.ForeignKey(
        blank=True,
        db_constraint=False,
        null=True,
        on_delete=models.DO_NOTHING,
        related_name="+",
        to=to,
        **options,
    )


def history():
    """Return the columns that every history has."""
    return [
        ("history_id", models.AutoField(primary_key=True, serialize=False)),
        ("history_date", models.DateTimeField(db_index=True)),
        ("history_change_reason", models.CharField(max_length=100, null=True)),
        (
            "history_type",
            models.CharField(choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")], max_length=1),
        ),
        (
            "history_user",
            models.ForeignKey(null=True, on_delete=models.SET_NULL, related_name="+", to=settings.AUTH_USER_MODEL),
        ),
    ]


LETTERS = list(ascii_uppercase)

TABLES = [
    migrations.CreateModel(
        name="Composer",
        fields=[
            ("id", number()),
            ("saves", counter()),
            ("changed_at", moment()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("address", prose()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("sort_name", line(200)),
            ("original_name", line(200)),
            ("slug", models.SlugField(max_length=100, unique=True)),
            ("born", partial_date()),
            ("died", partial_date()),
            ("birthplace", line(200)),
            (
                "country",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=2,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_country],
                ),
            ),
            ("biography", prose()),
            ("short_biography", prose()),
            ("language", models.CharField(default="en-GB", max_length=35, validators=[fields.refuse_unprintable])),
            ("number_prefix", line(20)),
            ("string_strengths", fields.StrengthsField(blank=True, default=(), max_length=64)),
            (
                "house_style",
                models.CharField(
                    choices=[("classic", "Classic"), ("black", "Black"), ("clear", "Clear")],
                    default="classic",
                    max_length=20,
                ),
            ),
            ("ipi", line(100)),
            ("isni", line(100)),
            ("is_public", models.BooleanField(default=False)),
            ("feed_is_public", models.BooleanField(default=False)),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        ("country", ""),
                        models.Q(
                            lookups.Exact(functions.Length("country"), 2),
                            lookups.In(functions.Substr("country", 1, 1), LETTERS),
                            lookups.In(functions.Substr("country", 2, 1), LETTERS),
                        ),
                        _connector="OR",
                    ),
                    name="composer_country_two_capitals",
                ),
                models.CheckConstraint(
                    condition=models.Q(("house_style__in", ["classic", "black", "clear"])),
                    name="composer_house_style_known",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="HistoricalAward",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            ("result", line(200)),
            ("date", partial_date()),
            ("body_name", line(200)),
            ("place", line(200)),
            ("amount", line(50)),
            ("address", models.URLField(blank=True, default="", max_length=500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "result", "body_name", "place", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("body", former("catalogue.organisation")),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical award",
            "verbose_name_plural": "historical awards",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalBilledName",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("language", line(35)),
            ("since", partial_date()),
            ("until", partial_date()),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("name", "notes"))),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("person", former("catalogue.person")),
            ("organisation", former("catalogue.organisation")),
            *history(),
        ],
        options={
            "verbose_name": "historical billed name",
            "verbose_name_plural": "historical billed names",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalBiography",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("body", models.TextField(max_length=50000, validators=[fields.refuse_unprintable])),
            (
                "length",
                models.CharField(
                    choices=[("one line", "One line"), ("short", "Short"), ("medium", "Medium"), ("long", "Long")],
                    default="medium",
                    max_length=20,
                ),
            ),
            ("language", line(35)),
            ("as_of", partial_date()),
            ("author", line(200)),
            (
                "most_words",
                models.PositiveIntegerField(blank=True, null=True, validators=[validators.MinValueValidator(1)]),
            ),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("body", "author", "notes")),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("person", former("catalogue.person")),
            *history(),
        ],
        options={
            "verbose_name": "historical biography",
            "verbose_name_plural": "historical biographies",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalCall",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("title", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            (
                "kind",
                models.CharField(
                    choices=[
                        ("call", "Call"),
                        ("competition", "Competition"),
                        ("reading", "Reading"),
                        ("residency", "Residency"),
                        ("grant", "Grant"),
                        ("degree", "Degree"),
                    ],
                    default="call",
                    max_length=20,
                ),
            ),
            ("closes_on", models.DateField(blank=True, db_index=True, editable=False, null=True)),
            ("closes_at", moment()),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("full_text", prose()),
            ("terms", models.JSONField(blank=True, default=dict)),
            ("notes", prose()),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            *history(),
        ],
        options={
            "verbose_name": "historical call",
            "verbose_name_plural": "historical calls",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalCommission",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", line(200)),
            ("place", line(200)),
            ("funder", line(200)),
            ("agreed", partial_date()),
            ("due", partial_date()),
            ("delivered", partial_date()),
            ("fee", line(50)),
            ("reference", line(100)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "place", "funder", "reference", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            ("organisation", former("catalogue.organisation")),
            *history(),
        ],
        options={
            "verbose_name": "historical commission",
            "verbose_name_plural": "historical commissions",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalComposer",
        fields=[
            ("id", number_then()),
            ("saves", counter()),
            ("changed_at", moment()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("address", prose()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("sort_name", line(200)),
            ("original_name", line(200)),
            ("slug", models.SlugField(max_length=100)),
            ("born", partial_date()),
            ("died", partial_date()),
            ("birthplace", line(200)),
            (
                "country",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=2,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_country],
                ),
            ),
            ("biography", prose()),
            ("short_biography", prose()),
            ("language", models.CharField(default="en-GB", max_length=35, validators=[fields.refuse_unprintable])),
            ("number_prefix", line(20)),
            ("string_strengths", fields.StrengthsField(blank=True, default=(), max_length=64)),
            (
                "house_style",
                models.CharField(
                    choices=[("classic", "Classic"), ("black", "Black"), ("clear", "Clear")],
                    default="classic",
                    max_length=20,
                ),
            ),
            ("ipi", line(100)),
            ("isni", line(100)),
            ("is_public", models.BooleanField(default=False)),
            ("feed_is_public", models.BooleanField(default=False)),
            *history(),
        ],
        options={
            "verbose_name": "historical composer",
            "verbose_name_plural": "historical composers",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalContactPerson",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            (
                "role",
                models.CharField(
                    choices=[
                        ("production", "Production"),
                        ("librarian", "Librarian"),
                        ("technician", "Technician"),
                        ("press", "Press"),
                        ("artistic direction", "Artistic direction"),
                        ("rights", "Rights"),
                        ("other", "Other"),
                    ],
                    default="production",
                    max_length=20,
                ),
            ),
            ("position", line(200)),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("hours", line(200)),
            ("since", partial_date()),
            ("until", partial_date()),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("name", "position", "notes")),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("organisation", former("catalogue.organisation")),
            ("person", former("catalogue.person")),
            *history(),
        ],
        options={
            "verbose_name": "historical contact person",
            "verbose_name_plural": "historical contact persons",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalContributor",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", line(200)),
            (
                "role",
                models.CharField(
                    choices=[
                        ("co-composer", "Co-composer"),
                        ("librettist", "Librettist"),
                        ("author of the text", "Author of the text"),
                        ("translator", "Translator"),
                        ("arranger", "Arranger"),
                        ("orchestrator", "Orchestrator"),
                        ("electronics", "Electronics"),
                        ("editor", "Editor"),
                        ("publisher", "Publisher"),
                        ("other", "Other"),
                    ],
                    default="other",
                    max_length=30,
                ),
            ),
            ("contribution", line(200)),
            (
                "share",
                models.DecimalField(
                    blank=True,
                    decimal_places=3,
                    max_digits=6,
                    null=True,
                    validators=[validators.MinValueValidator(0), validators.MaxValueValidator(100)],
                ),
            ),
            ("society", line(200)),
            ("ipi", line(100)),
            ("isni", line(100)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "contribution", "society", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            ("person", former("catalogue.person")),
            ("organisation", former("catalogue.organisation")),
            *history(),
        ],
        options={
            "verbose_name": "historical contributor",
            "verbose_name_plural": "historical contributors",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalCue",
        fields=[
            ("id", number_then()),
            ("order", models.PositiveSmallIntegerField(default=1, validators=[validators.MinValueValidator(1)])),
            ("number", models.CharField(default="", max_length=10, validators=[fields.refuse_unprintable])),
            ("place", line(40)),
            ("action", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            ("media", line(200)),
            ("length", fields.DurationField(blank=True, max_length=64, null=True)),
            ("who", line(60)),
            ("notes", line(500)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical cue",
            "verbose_name_plural": "historical cues",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalEdition",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            (
                "kind",
                models.CharField(
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
            (
                "pitch",
                models.CharField(
                    blank=True, choices=[("in C", "In c"), ("transposed", "Transposed")], default="", max_length=20
                ),
            ),
            (
                "accidentals",
                models.CharField(
                    blank=True,
                    choices=[("for the bar", "For the bar"), ("for its note only", "For its note only")],
                    default="",
                    max_length=20,
                ),
            ),
            ("publisher_name", line(200)),
            ("number", line(50)),
            ("ismn", line(100)),
            ("published", partial_date()),
            (
                "pages",
                models.PositiveSmallIntegerField(blank=True, null=True, validators=[validators.MinValueValidator(1)]),
            ),
            ("paper", line(200)),
            ("binding", line(200)),
            (
                "stave_height",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=4,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(30)],
                ),
            ),
            ("on_hire", models.BooleanField(default=False)),
            ("version", line(50)),
            ("errata", prose()),
            ("errata_on", partial_date()),
            ("printing", line(500)),
            ("copyright_line", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("publisher_name", "number", "ismn", "version", "errata", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            ("publisher", former("catalogue.organisation")),
            ("replaces", former("catalogue.edition")),
            *history(),
        ],
        options={
            "verbose_name": "historical edition",
            "verbose_name_plural": "historical editions",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalHire",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", line(200)),
            (
                "purpose",
                models.CharField(
                    choices=[("hire", "Hire"), ("perusal", "Perusal"), ("sale", "Sale"), ("own use", "Own use")],
                    default="hire",
                    max_length=10,
                ),
            ),
            ("number", line(50)),
            ("attention", line(200)),
            ("address", prose()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("order_number", line(50)),
            ("out_on", models.DateField(blank=True, null=True)),
            ("due_on", models.DateField(blank=True, null=True)),
            ("extended_to", models.DateField(blank=True, null=True)),
            ("back_on", models.DateField(blank=True, null=True)),
            ("carrier", line(200)),
            ("enclosed", line(500)),
            (
                "fee",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "currency",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=3,
                    validators=[fields.refuse_unprintable, materials.refuse_unknown_currency],
                ),
            ),
            (
                "extension_fee",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "erasing_hours",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=5, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "paid",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("name", "number", "attention", "address", "order_number", "carrier", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("person", former("catalogue.person")),
            ("organisation", former("catalogue.organisation")),
            ("work", former("catalogue.work")),
            ("material_set", former("catalogue.materialset")),
            ("terms", former("catalogue.hireterms")),
            *history(),
        ],
        options={
            "verbose_name": "historical hire",
            "verbose_name_plural": "historical hires",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalHiredPerformance",
        fields=[
            ("id", number_then()),
            ("hire", former("catalogue.hire")),
            ("performance", former("catalogue.performance")),
            *history(),
        ],
        options={
            "verbose_name": "historical hired performance",
            "verbose_name_plural": "historical hired performances",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalHireItem",
        fields=[
            ("id", number_then()),
            ("position", models.PositiveSmallIntegerField(default=0)),
            ("part", models.JSONField(blank=True, default=dict)),
            ("name", line(200)),
            ("expected", models.PositiveSmallIntegerField(blank=True, default=1, null=True)),
            ("copy_numbers", line(50)),
            ("sent", models.PositiveSmallIntegerField(blank=True, null=True)),
            ("received", models.PositiveSmallIntegerField(blank=True, null=True)),
            ("back", models.PositiveSmallIntegerField(blank=True, null=True)),
            (
                "condition",
                models.CharField(
                    blank=True,
                    choices=[("good", "Good"), ("marked", "Marked"), ("damaged", "Damaged"), ("missing", "Missing")],
                    default="",
                    max_length=10,
                ),
            ),
            ("remark", line(500)),
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
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            ("hire", former("catalogue.hire")),
            *history(),
        ],
        options={
            "verbose_name": "historical hire item",
            "verbose_name_plural": "historical hire items",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalHireTerms",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("lender", line(200)),
            ("address", prose()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            (
                "period_days",
                models.PositiveSmallIntegerField(blank=True, null=True, validators=[validators.MinValueValidator(1)]),
            ),
            ("days_after", models.PositiveSmallIntegerField(blank=True, null=True)),
            (
                "currency",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=3,
                    validators=[fields.refuse_unprintable, materials.refuse_unknown_currency],
                ),
            ),
            (
                "extension_percent",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=6,
                    null=True,
                    validators=[validators.MinValueValidator(0), validators.MaxValueValidator(1000)],
                ),
            ),
            (
                "late_percent",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=6,
                    null=True,
                    validators=[validators.MinValueValidator(0), validators.MaxValueValidator(1000)],
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
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "score_charge",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "erasing_rate",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            ("marking", prose()),
            ("copying", prose()),
            ("returning", prose()),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("name", "lender", "address", "marking", "copying", "returning", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            *history(),
        ],
        options={
            "verbose_name": "historical hire terms",
            "verbose_name_plural": "historical hire termss",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalLeadTimes",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("contract", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("rider", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("parts", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("texts", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("stream", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("recording_request", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("travel", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("electronics", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("lasted", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("thanks", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("set_back", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("recording", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("review", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("filing", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("notes",))),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("organisation", former("catalogue.organisation")),
            *history(),
        ],
        options={
            "verbose_name": "historical lead times",
            "verbose_name_plural": "historical lead times",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalMaterialRequirements",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", line(200)),
            ("papers", line(200)),
            (
                "stave_least",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=4,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(30)],
                ),
            ),
            (
                "stave_most",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=4,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(30)],
                ),
            ),
            ("binding", line(200)),
            ("file_names", line(200)),
            ("bookmarks", models.BooleanField(default=False)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "papers", "binding", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("organisation", former("catalogue.organisation")),
            *history(),
        ],
        options={
            "verbose_name": "historical material requirements",
            "verbose_name_plural": "historical material requirementss",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalMaterialSet",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("number", models.CharField(default="", max_length=20, validators=[fields.refuse_unprintable])),
            (
                "form",
                models.CharField(
                    choices=[("printed", "Printed"), ("digital", "Digital")], default="printed", max_length=10
                ),
            ),
            ("strings", fields.StrengthsField(blank=True, default=(), max_length=64)),
            ("extra", models.PositiveSmallIntegerField(default=0, validators=[validators.MaxValueValidator(20)])),
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
            ("made", partial_date()),
            ("kept_at", line(200)),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("number", "kept_at", "notes")),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            ("edition", former("catalogue.edition")),
            *history(),
        ],
        options={
            "verbose_name": "historical material set",
            "verbose_name_plural": "historical material sets",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalMembership",
        fields=[
            ("id", number_then()),
            (
                "role",
                models.CharField(
                    choices=[("owner", "Owner"), ("editor", "Editor"), ("viewer", "Viewer")],
                    default="owner",
                    max_length=10,
                ),
            ),
            ("user", former(settings.AUTH_USER_MODEL)),
            ("composer", former("catalogue.composer")),
            *history(),
        ],
        options={
            "verbose_name": "historical membership",
            "verbose_name_plural": "historical memberships",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalMovement",
        fields=[
            ("id", number_then()),
            ("number", models.PositiveSmallIntegerField(validators=[validators.MinValueValidator(1)])),
            ("title", line(500)),
            ("duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("attacca", models.BooleanField(default=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical movement",
            "verbose_name_plural": "historical movements",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalNotationSign",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            (
                "group",
                models.CharField(
                    choices=[
                        ("accidental", "Accidental"),
                        ("notehead", "Notehead"),
                        ("technique", "Technique"),
                        ("electronics", "Electronics"),
                        ("time", "Time"),
                        ("graphic", "Graphic"),
                    ],
                    default="accidental",
                    max_length=20,
                ),
            ),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("smufl", line(200)),
            (
                "cents",
                models.DecimalField(
                    blank=True,
                    decimal_places=3,
                    max_digits=7,
                    null=True,
                    validators=[validators.MinValueValidator(-1200), validators.MaxValueValidator(1200)],
                ),
            ),
            ("meaning", prose()),
            ("concerns", line(200)),
            ("first_at", line(200)),
            ("system", line(200)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("name", "smufl", "meaning", "concerns", "system", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical notation sign",
            "verbose_name_plural": "historical notation signs",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalOrganisation",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("address", prose()),
            ("uid", identity(db_index=True)),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("kinds", fields.KindsField(blank=True, default=(), max_length=200)),
            ("city", line(200)),
            (
                "country",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=2,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_country],
                ),
            ),
            ("isni", line(100)),
            ("notes", prose()),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("name", "city"))),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            *history(),
        ],
        options={
            "verbose_name": "historical organisation",
            "verbose_name_plural": "historical organisations",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalPercussionInstrument",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            (
                "player",
                models.PositiveSmallIntegerField(
                    default=1, validators=[validators.MinValueValidator(1), validators.MaxValueValidator(99)]
                ),
            ),
            ("instrument", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            (
                "number",
                models.PositiveSmallIntegerField(
                    default=1, validators=[validators.MinValueValidator(1), validators.MaxValueValidator(999)]
                ),
            ),
            ("size", line(200)),
            ("compass", line(200)),
            ("pitches", line(200)),
            ("beaters", line(200)),
            ("shared_with", line(200)),
            ("needs_power", models.BooleanField(default=False)),
            ("provided_by", line(200)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("instrument", "size", "compass", "pitches", "beaters", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical percussion instrument",
            "verbose_name_plural": "historical percussion instruments",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalPerformance",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("sequence", counter()),
            ("date", partial_date()),
            ("first_day", models.DateField(blank=True, editable=False, null=True)),
            ("last_day", models.DateField(blank=True, editable=False, null=True)),
            ("time", models.TimeField(blank=True, null=True)),
            (
                "zone",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=64,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_zone],
                ),
            ),
            ("second_time", models.BooleanField(blank=True, null=True)),
            ("starts_at", moment()),
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
            ("event_title", line(500)),
            ("city", line(200)),
            (
                "country",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=2,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_country],
                ),
            ),
            ("country_then", line(200)),
            ("presenter_name", line(200)),
            ("series", line(200)),
            ("string_strengths", fields.StrengthsField(blank=True, default=(), max_length=64)),
            ("notes", prose()),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("event_title", "city", "country_then", "presenter_name", "series", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("venue", former("catalogue.venue")),
            ("presenter", former("catalogue.organisation")),
            *history(),
        ],
        options={
            "verbose_name": "historical performance",
            "verbose_name_plural": "historical performances",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalPerformanceCredit",
        fields=[
            ("id", number_then()),
            ("order", models.PositiveSmallIntegerField(default=1)),
            ("name", line(200)),
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
            ("plays", line(200)),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("name", "plays"))),
            ("performance", former("catalogue.performance")),
            ("person", former("catalogue.person")),
            ("organisation", former("catalogue.organisation")),
            *history(),
        ],
        options={
            "verbose_name": "historical performance credit",
            "verbose_name_plural": "historical performance credits",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalPerformanceNote",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("heading", line(200)),
            ("body", models.TextField(max_length=50000, validators=[fields.refuse_unprintable])),
            (
                "purpose",
                models.CharField(
                    choices=[
                        ("for playing", "For playing"),
                        ("for the sound operator", "For the sound operator"),
                        ("for practising", "For practising"),
                    ],
                    default="for playing",
                    max_length=30,
                ),
            ),
            ("concerns", line(200)),
            ("language", line(35)),
            ("first_at", line(200)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("heading", "body", "concerns", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical performance note",
            "verbose_name_plural": "historical performance notes",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalPerson",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("address", prose()),
            ("uid", identity(db_index=True)),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("sort_name", line(200)),
            ("plays", line(200)),
            ("ipi", line(100)),
            ("isni", line(100)),
            ("notes", prose()),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("name", "sort_name", "plays")),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            *history(),
        ],
        options={
            "verbose_name": "historical person",
            "verbose_name_plural": "historical people",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalPicture",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            (
                "kind",
                models.CharField(
                    choices=[
                        ("portrait", "Portrait"),
                        ("performance", "Performance"),
                        ("score page", "Score page"),
                        ("diagram", "Diagram"),
                        ("other", "Other"),
                    ],
                    default="portrait",
                    max_length=20,
                ),
            ),
            ("alternative", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            ("caption", line(500)),
            ("credit", line(200)),
            ("taken", partial_date()),
            (
                "permission",
                models.CharField(
                    choices=[
                        ("not asked", "Not asked"),
                        ("refused", "Refused"),
                        ("for applications", "For applications"),
                        ("public", "Public"),
                    ],
                    default="not asked",
                    max_length=20,
                ),
            ),
            ("sha256", models.CharField(editable=False, max_length=64)),
            ("suffix", models.CharField(editable=False, max_length=5)),
            ("width", models.PositiveIntegerField(editable=False)),
            ("height", models.PositiveIntegerField(editable=False)),
            ("byte_count", models.PositiveIntegerField(editable=False)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("alternative", "caption", "credit", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("work", former("catalogue.work")),
            ("performance", former("catalogue.performance")),
            ("person", former("catalogue.person")),
            *history(),
        ],
        options={
            "verbose_name": "historical picture",
            "verbose_name_plural": "historical pictures",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalProgrammedWork",
        fields=[
            ("id", number_then()),
            ("order", models.PositiveSmallIntegerField(default=1, validators=[validators.MinValueValidator(1)])),
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
            ("part", line(500)),
            ("billing", line(500)),
            ("note", line(500)),
            ("duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("claim_override", line(500)),
            ("claim_reason", line(500)),
            ("performance", former("catalogue.performance")),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical programmed work",
            "verbose_name_plural": "historical programmed works",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalProgrammeNote",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("body", models.TextField(max_length=50000, validators=[fields.refuse_unprintable])),
            (
                "length",
                models.CharField(
                    choices=[("one line", "One line"), ("short", "Short"), ("medium", "Medium"), ("long", "Long")],
                    default="medium",
                    max_length=20,
                ),
            ),
            ("language", line(35)),
            ("as_of", partial_date()),
            ("author", line(200)),
            (
                "most_words",
                models.PositiveIntegerField(blank=True, null=True, validators=[validators.MinValueValidator(1)]),
            ),
            ("heading", line(200)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("heading", "body", "author", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical programme note",
            "verbose_name_plural": "historical programme notes",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalRecording",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            (
                "kind",
                models.CharField(
                    choices=[
                        ("live", "Live"),
                        ("studio", "Studio"),
                        ("rehearsal", "Rehearsal"),
                        ("rendered", "Rendered"),
                    ],
                    default="studio",
                    max_length=20,
                ),
            ),
            (
                "form",
                models.CharField(
                    choices=[("audio", "Audio"), ("video", "Video"), ("release", "Release")],
                    default="release",
                    max_length=20,
                ),
            ),
            ("performers", line(500)),
            ("title", line(500)),
            ("label", line(200)),
            ("number", line(50)),
            ("released", partial_date()),
            ("duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("recorded", partial_date()),
            ("place", line(200)),
            ("isrc", line(100)),
            ("ean", line(100)),
            ("address", models.URLField(blank=True, default="", max_length=500)),
            ("file_name", line(500)),
            ("excerpt_from", models.PositiveIntegerField(blank=True, null=True)),
            ("excerpt_until", models.PositiveIntegerField(blank=True, null=True)),
            (
                "permission",
                models.CharField(
                    choices=[
                        ("not asked", "Not asked"),
                        ("refused", "Refused"),
                        ("for applications", "For applications"),
                        ("public", "Public"),
                    ],
                    default="not asked",
                    max_length=20,
                ),
            ),
            ("permission_note", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("performers", "title", "label", "number", "place", "file_name", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            ("performance", former("catalogue.performance")),
            *history(),
        ],
        options={
            "verbose_name": "historical recording",
            "verbose_name_plural": "historical recordings",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalReferee",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("address", prose()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("position", line(500)),
            ("institution", line(500)),
            ("knows_as", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "position", "institution", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            *history(),
        ],
        options={
            "verbose_name": "historical referee",
            "verbose_name_plural": "historical referees",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalReference",
        fields=[
            ("id", number_then()),
            ("asked_on", models.DateField(blank=True, null=True)),
            ("agreed_on", models.DateField(blank=True, null=True)),
            ("received_on", models.DateField(blank=True, null=True)),
            ("submission", former("catalogue.submission")),
            ("referee", former("catalogue.referee")),
            *history(),
        ],
        options={
            "verbose_name": "historical reference",
            "verbose_name_plural": "historical references",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalRetuning",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("instrument", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("tuned_to", line(500)),
            (
                "cents",
                models.DecimalField(
                    blank=True,
                    decimal_places=3,
                    max_digits=7,
                    null=True,
                    validators=[validators.MinValueValidator(-1200), validators.MaxValueValidator(1200)],
                ),
            ),
            ("written", line(500)),
            ("preparation", line(500)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("instrument", "tuned_to", "written", "preparation", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical retuning",
            "verbose_name_plural": "historical retunings",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalReturn",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("society", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("filed", partial_date()),
            ("reference", line(100)),
            ("until", partial_date()),
            ("rule_read", partial_date()),
            ("answer", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("society", "reference", "answer", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("performance", former("catalogue.performance")),
            *history(),
        ],
        options={
            "verbose_name": "historical return",
            "verbose_name_plural": "historical returns",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalReview",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("publication", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("author", line(200)),
            ("date", partial_date()),
            ("headline", line(500)),
            ("quotation", prose()),
            ("language", line(35)),
            ("address", models.URLField(blank=True, default="", max_length=500)),
            ("doi", line(100)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("publication", "author", "headline", "quotation", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("work", former("catalogue.work")),
            ("performance", former("catalogue.performance")),
            ("recording", former("catalogue.recording")),
            *history(),
        ],
        options={
            "verbose_name": "historical review",
            "verbose_name_plural": "historical reviews",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalRider",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("contact_name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("contact_email", models.EmailField(blank=True, default="", max_length=254)),
            ("contact_telephone", line(50)),
            ("contact_hours", line(200)),
            ("summary", prose()),
            ("equipment", prose()),
            ("schedule", prose()),
            ("travel", prose()),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("contact_name", "summary", "equipment", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("work", former("catalogue.work")),
            ("performance", former("catalogue.performance")),
            ("setup", former("catalogue.technicalsetup")),
            *history(),
        ],
        options={
            "verbose_name": "historical rider",
            "verbose_name_plural": "historical riders",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalSession",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
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
            ("title", line(200)),
            ("date", partial_date()),
            ("time", models.TimeField(blank=True, null=True)),
            ("until", models.TimeField(blank=True, null=True)),
            (
                "zone",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=64,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_zone],
                ),
            ),
            ("place", line(500)),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("title", "place", "notes")),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("performance", former("catalogue.performance")),
            *history(),
        ],
        options={
            "verbose_name": "historical session",
            "verbose_name_plural": "historical sessions",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalStep",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
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
            ("label", line(200)),
            (
                "state",
                models.CharField(
                    choices=[("open", "Open"), ("done", "Done"), ("not needed", "Not needed")],
                    default="open",
                    max_length=20,
                ),
            ),
            ("due", partial_date()),
            ("done_on", partial_date()),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("label", "notes"))),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("performance", former("catalogue.performance")),
            *history(),
        ],
        options={
            "verbose_name": "historical step",
            "verbose_name_plural": "historical steps",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalStoredFile",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
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
            ("name", line(200)),
            ("version", line(50)),
            (
                "original_name",
                models.CharField(default="", editable=False, max_length=500, validators=[fields.refuse_unprintable]),
            ),
            ("sha256", models.CharField(editable=False, max_length=64)),
            ("suffix", models.CharField(editable=False, max_length=5)),
            ("byte_count", models.PositiveBigIntegerField(editable=False)),
            ("found", models.JSONField(default=dict, editable=False)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "original_name", "version", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("work", former("catalogue.work")),
            ("edition", former("catalogue.edition")),
            ("recording", former("catalogue.recording")),
            ("setup", former("catalogue.technicalsetup")),
            *history(),
        ],
        options={
            "verbose_name": "historical stored file",
            "verbose_name_plural": "historical stored files",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalSubmission",
        fields=[
            ("id", number_then()),
            (
                "status",
                models.CharField(
                    choices=[
                        ("draft", "Draft"),
                        ("sent", "Sent"),
                        ("chosen", "Chosen"),
                        ("not chosen", "Not chosen"),
                        ("withdrawn", "Withdrawn"),
                    ],
                    default="draft",
                    max_length=12,
                ),
            ),
            ("sent_on", models.DateField(blank=True, null=True)),
            ("decided_on", models.DateField(blank=True, null=True)),
            ("outcome", line(500)),
            ("feedback", prose()),
            ("language", line(35)),
            ("motto", line(200)),
            ("statement", prose()),
            ("by_hand", models.JSONField(blank=True, default=list)),
            ("sent_files", models.JSONField(blank=True, default=list, editable=False)),
            ("call", former("catalogue.call")),
            *history(),
        ],
        options={
            "verbose_name": "historical submission",
            "verbose_name_plural": "historical submissions",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalSubmittedWork",
        fields=[
            ("id", number_then()),
            ("order", models.PositiveSmallIntegerField(default=1, validators=[validators.MinValueValidator(1)])),
            ("cover_pages", models.PositiveSmallIntegerField(default=0, validators=[validators.MaxValueValidator(20)])),
            ("submission", former("catalogue.submission")),
            ("work", former("catalogue.work")),
            ("note", former("catalogue.programmenote")),
            ("recording", former("catalogue.recording")),
            ("edition", former("catalogue.edition")),
            *history(),
        ],
        options={
            "verbose_name": "historical submitted work",
            "verbose_name_plural": "historical submitted works",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalTechnicalSetup",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            (
                "kind",
                models.CharField(
                    choices=[("full", "Full"), ("reduced", "Reduced"), ("fallback", "Fallback")],
                    default="full",
                    max_length=20,
                ),
            ),
            ("differs", prose()),
            ("fixed_media", models.BooleanField(default=False)),
            ("live_processing", models.BooleanField(default=False)),
            ("amplification", models.BooleanField(default=False)),
            ("sampler", models.BooleanField(default=False)),
            ("description", prose()),
            (
                "synchronisation",
                models.CharField(
                    choices=[
                        ("none", "None"),
                        ("click", "Click"),
                        ("by ear from the score", "By ear from the score"),
                        ("cues by pedal", "Cues by pedal"),
                        ("cues by an operator", "Cues by an operator"),
                        ("stopwatch", "Stopwatch"),
                    ],
                    default="none",
                    max_length=30,
                ),
            ),
            ("synchronisation_note", line(500)),
            ("inputs", prose()),
            ("outputs", prose()),
            (
                "layout",
                models.CharField(
                    choices=[
                        ("none", "None"),
                        ("stereo", "Stereo"),
                        ("quad", "Quad"),
                        ("5.1", "5.1"),
                        ("7.1", "7.1"),
                        ("octophonic, front pair", "Octophonic, front pair"),
                        ("octophonic, front centre", "Octophonic, front centre"),
                        ("dome of sixteen", "Dome of sixteen"),
                        ("own", "Own"),
                    ],
                    default="none",
                    max_length=30,
                ),
            ),
            ("speakers", prose()),
            ("equipment", prose()),
            ("software", prose()),
            ("media", prose()),
            (
                "sample_rate",
                models.PositiveIntegerField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(8000), validators.MaxValueValidator(384000)],
                ),
            ),
            (
                "bit_depth",
                models.PositiveSmallIntegerField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(8), validators.MaxValueValidator(64)],
                ),
            ),
            (
                "latency_ms",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=6, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            ("network", prose()),
            ("power", prose()),
            ("staff", prose()),
            ("schedule", prose()),
            ("rehearsal", prose()),
            (
                "stage_width",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=5,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(100)],
                ),
            ),
            (
                "stage_depth",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=5,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(100)],
                ),
            ),
            ("places", prose()),
            ("loudest", line(500)),
            ("flashing", line(500)),
            ("setting_up", prose()),
            ("when_it_fails", prose()),
            ("documented", partial_date()),
            ("tested", partial_date()),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("name", "description", "inputs", "outputs", "equipment", "software", "notes"),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical technical setup",
            "verbose_name_plural": "historical technical setups",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalTextSource",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("author", line(200)),
            ("title", line(500)),
            ("source", line(500)),
            ("language", line(35)),
            ("translator", line(200)),
            (
                "clearance",
                models.CharField(
                    choices=[
                        ("not asked", "Not asked"),
                        ("asked", "Asked"),
                        ("granted", "Granted"),
                        ("refused", "Refused"),
                        ("public domain", "Public domain"),
                        ("own text", "Own text"),
                    ],
                    default="not asked",
                    max_length=20,
                ),
            ),
            ("rights_holder", line(200)),
            ("contact", line(500)),
            ("asked", partial_date()),
            ("granted", partial_date()),
            ("expires", partial_date()),
            ("credit", line(500)),
            ("covers", line(500)),
            ("isbn", line(100)),
            ("body", prose()),
            ("translation", prose()),
            ("translation_language", line(35)),
            (
                "translation_clearance",
                models.CharField(
                    choices=[
                        ("not asked", "Not asked"),
                        ("asked", "Asked"),
                        ("granted", "Granted"),
                        ("refused", "Refused"),
                        ("public domain", "Public domain"),
                        ("own text", "Own text"),
                    ],
                    default="not asked",
                    max_length=20,
                ),
            ),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=(
                        "author",
                        "title",
                        "source",
                        "translator",
                        "rights_holder",
                        "credit",
                        "body",
                        "translation",
                        "notes",
                    ),
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical text source",
            "verbose_name_plural": "historical text sources",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalTuningSystem",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("notes", prose()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            (
                "divisions",
                models.PositiveSmallIntegerField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(1200)],
                ),
            ),
            ("reference_note", line(20)),
            (
                "reference_hertz",
                models.DecimalField(
                    blank=True, decimal_places=3, max_digits=8, null=True, validators=[validators.MinValueValidator(1)]
                ),
            ),
            ("description", prose()),
            ("source", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "description", "source", "notes")
                ),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("work", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical tuning system",
            "verbose_name_plural": "historical tuning systems",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalVenue",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("city", line(200)),
            (
                "country",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=2,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_country],
                ),
            ),
            ("region", line(200)),
            (
                "zone",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=64,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_zone],
                ),
            ),
            (
                "latitude",
                models.FloatField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(-90), validators.MaxValueValidator(90)],
                ),
            ),
            (
                "longitude",
                models.FloatField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(-180), validators.MaxValueValidator(180)],
                ),
            ),
            ("equipment", prose()),
            ("notes", prose()),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("name", "city", "region")),
            ),
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            *history(),
        ],
        options={
            "verbose_name": "historical venue",
            "verbose_name_plural": "historical venues",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="HistoricalWork",
        fields=[
            ("id", number_then()),
            ("deleted_at", moment(db_index=True)),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(db_index=True)),
            ("title", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            ("title_language", line(35)),
            ("original_title", line(500)),
            ("original_language", line(35)),
            ("transliteration", line(500)),
            ("translated_title", line(500)),
            ("subtitle", line(500)),
            ("catalogue_number", line(50)),
            ("begun", partial_date()),
            ("completed", fields.PartialDateField(blank=True, db_index=True, max_length=64, null=True)),
            ("revised", partial_date()),
            ("published", partial_date()),
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
            ("instrumentation", prose()),
            ("instrumentation_typed", prose()),
            ("least_players", models.PositiveIntegerField(blank=True, editable=False, null=True)),
            ("most_players", models.PositiveIntegerField(blank=True, editable=False, null=True)),
            (
                "electronics",
                models.CharField(
                    blank=True, default="", editable=False, max_length=20, validators=[fields.refuse_unprintable]
                ),
            ),
            ("duration", fields.DurationField(blank=True, db_index=True, max_length=64, null=True)),
            ("duration_typed", line(200)),
            ("least_duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("most_duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("tempo_map", prose()),
            ("tempo_map_dated", models.DateField(blank=True, editable=False, null=True)),
            ("cue_letters", line(500)),
            ("string_strengths", fields.StrengthsField(blank=True, default=(), max_length=64)),
            ("dedication", line(500)),
            ("text_author", line(500)),
            ("text_language", line(35)),
            ("version_label", line(200)),
            (
                "version_kind",
                models.CharField(
                    blank=True,
                    choices=[
                        ("revision", "Revision"),
                        ("arrangement", "Arrangement"),
                        ("orchestration", "Orchestration"),
                        ("reduction", "Reduction"),
                        ("transcription", "Transcription"),
                        ("suite", "Suite"),
                    ],
                    default="",
                    max_length=20,
                ),
            ),
            ("publisher", line(200)),
            ("iswc", line(100)),
            ("ismn", line(100)),
            ("parts_on_hire", models.BooleanField(default=False)),
            ("is_public", models.BooleanField(default=False)),
            ("programme_note", prose()),
            ("electronics_note", prose()),
            ("notes", prose()),
            (
                "search_text",
                fields.SearchTextField(
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
            ("deleted_by", former(settings.AUTH_USER_MODEL, editable=False)),
            ("composer", former("catalogue.composer")),
            ("version_of", former("catalogue.work")),
            *history(),
        ],
        options={
            "verbose_name": "historical work",
            "verbose_name_plural": "historical works",
            "ordering": ("-history_date", "-history_id"),
            "get_latest_by": ("history_date", "history_id"),
        },
        bases=(HistoricalChanges, models.Model),
    ),
    migrations.CreateModel(
        name="Organisation",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("address", prose()),
            (
                "composer",
                models.ForeignKey(on_delete=models.CASCADE, related_name="organisations", to="catalogue.composer"),
            ),
            ("uid", identity(unique=True)),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("kinds", fields.KindsField(blank=True, default=(), max_length=200)),
            ("city", line(200)),
            (
                "country",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=2,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_country],
                ),
            ),
            ("isni", line(100)),
            ("notes", prose()),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("name", "city"))),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        ("country", ""),
                        models.Q(
                            lookups.Exact(functions.Length("country"), 2),
                            lookups.In(functions.Substr("country", 1, 1), LETTERS),
                            lookups.In(functions.Substr("country", 2, 1), LETTERS),
                        ),
                        _connector="OR",
                    ),
                    name="organisation_country_two_capitals",
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="Work",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="works", to="catalogue.composer")),
            ("uid", identity(unique=True)),
            ("title", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            ("title_language", line(35)),
            ("original_title", line(500)),
            ("original_language", line(35)),
            ("transliteration", line(500)),
            ("translated_title", line(500)),
            ("subtitle", line(500)),
            ("catalogue_number", line(50)),
            ("begun", partial_date()),
            ("completed", fields.PartialDateField(blank=True, db_index=True, max_length=64, null=True)),
            ("revised", partial_date()),
            ("published", partial_date()),
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
            ("instrumentation", prose()),
            ("instrumentation_typed", prose()),
            ("least_players", models.PositiveIntegerField(blank=True, editable=False, null=True)),
            ("most_players", models.PositiveIntegerField(blank=True, editable=False, null=True)),
            (
                "electronics",
                models.CharField(
                    blank=True, default="", editable=False, max_length=20, validators=[fields.refuse_unprintable]
                ),
            ),
            ("duration", fields.DurationField(blank=True, db_index=True, max_length=64, null=True)),
            ("duration_typed", line(200)),
            ("least_duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("most_duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("tempo_map", prose()),
            ("tempo_map_dated", models.DateField(blank=True, editable=False, null=True)),
            ("cue_letters", line(500)),
            ("string_strengths", fields.StrengthsField(blank=True, default=(), max_length=64)),
            ("dedication", line(500)),
            ("text_author", line(500)),
            ("text_language", line(35)),
            (
                "version_of",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="versions", to="catalogue.work"
                ),
            ),
            ("version_label", line(200)),
            (
                "version_kind",
                models.CharField(
                    blank=True,
                    choices=[
                        ("revision", "Revision"),
                        ("arrangement", "Arrangement"),
                        ("orchestration", "Orchestration"),
                        ("reduction", "Reduction"),
                        ("transcription", "Transcription"),
                        ("suite", "Suite"),
                    ],
                    default="",
                    max_length=20,
                ),
            ),
            ("publisher", line(200)),
            ("iswc", line(100)),
            ("ismn", line(100)),
            ("parts_on_hire", models.BooleanField(default=False)),
            ("is_public", models.BooleanField(default=False)),
            ("programme_note", prose()),
            ("electronics_note", prose()),
            ("notes", prose()),
            (
                "search_text",
                fields.SearchTextField(
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
        ],
        options={
            "indexes": [
                models.Index(fields=["composer", "title"], name="work_by_title"),
                models.Index(fields=["composer", "-completed"], name="work_newest_first"),
            ],
            "constraints": [
                models.CheckConstraint(
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
                models.CheckConstraint(
                    condition=models.Q(("status__in", ["active", "in progress", "withdrawn", "juvenile"])),
                    name="work_status_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(("duration__isnull", True), ("duration__gte", "0000000001"), _connector="OR"),
                    name="work_duration_lasts",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("version_of__isnull", True),
                        models.Q(("version_of", models.F("id")), _negated=True),
                        _connector="OR",
                    ),
                    name="work_is_no_version_of_itself",
                ),
                models.UniqueConstraint(
                    condition=models.Q(
                        ("deleted_at__isnull", True),
                        ("version_of__isnull", True),
                        models.Q(("catalogue_number", ""), _negated=True),
                    ),
                    fields=("composer", "catalogue_number"),
                    name="work_catalogue_number_once",
                    violation_error_message="Another work has this catalogue number.",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("least_duration__isnull", True), ("least_duration__gte", "0000000001"), _connector="OR"
                    ),
                    name="work_least_duration_lasts",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("most_duration__isnull", True), ("most_duration__gte", "0000000001"), _connector="OR"
                    ),
                    name="work_most_duration_lasts",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        (
                            "version_kind__in",
                            ["", "revision", "arrangement", "orchestration", "reduction", "transcription", "suite"],
                        )
                    ),
                    name="work_version_kind_known",
                ),
            ],
        },
    ),
    migrations.CreateModel(
        name="Award",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("name", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            ("result", line(200)),
            ("date", partial_date()),
            (
                "body",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.organisation"
                ),
            ),
            ("body_name", line(200)),
            ("place", line(200)),
            ("amount", line(50)),
            ("address", models.URLField(blank=True, default="", max_length=500)),
            (
                "work",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.work"
                ),
            ),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "result", "body_name", "place", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("name", ""), _negated=True)), name="award_name_filled"
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="Person",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("address", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="people", to="catalogue.composer")),
            ("uid", identity(unique=True)),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("sort_name", line(200)),
            ("plays", line(200)),
            ("ipi", line(100)),
            ("isni", line(100)),
            ("notes", prose()),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("name", "sort_name", "plays")),
            ),
        ],
        options={"verbose_name_plural": "people"},
    ),
    migrations.CreateModel(
        name="BilledName",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            (
                "person",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.CASCADE, related_name="+", to="catalogue.person"
                ),
            ),
            (
                "organisation",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.CASCADE, related_name="+", to="catalogue.organisation"
                ),
            ),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("language", line(35)),
            ("since", partial_date()),
            ("until", partial_date()),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("name", "notes"))),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("name", ""), _negated=True)), name="billed_name_name_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        models.Q(("organisation__isnull", True), ("person__isnull", False)),
                        models.Q(("organisation__isnull", False), ("person__isnull", True)),
                        _connector="OR",
                    ),
                    name="billed_name_is_somebodys",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Biography",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("body", models.TextField(max_length=50000, validators=[fields.refuse_unprintable])),
            (
                "length",
                models.CharField(
                    choices=[("one line", "One line"), ("short", "Short"), ("medium", "Medium"), ("long", "Long")],
                    default="medium",
                    max_length=20,
                ),
            ),
            ("language", line(35)),
            ("as_of", partial_date()),
            ("author", line(200)),
            (
                "most_words",
                models.PositiveIntegerField(blank=True, null=True, validators=[validators.MinValueValidator(1)]),
            ),
            (
                "person",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.person"
                ),
            ),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("body", "author", "notes")),
            ),
        ],
        options={
            "verbose_name_plural": "biographies",
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("length__in", ["one line", "short", "medium", "long"])),
                    name="biography_length_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(models.Q(("body", ""), _negated=True)), name="biography_body_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("most_words__isnull", True),
                        models.Q(("most_words__gte", 1), ("most_words__lte", 100000)),
                        _connector="OR",
                    ),
                    name="biography_most_words_in_range",
                ),
            ],
        },
    ),
    migrations.CreateModel(
        name="CalendarAddress",
        fields=[
            ("id", number()),
            (
                "composer",
                models.ForeignKey(on_delete=models.CASCADE, related_name="calendar_addresses", to="catalogue.composer"),
            ),
            (
                "keeper",
                models.ForeignKey(
                    on_delete=models.CASCADE, related_name="calendar_addresses", to=settings.AUTH_USER_MODEL
                ),
            ),
            ("label", models.CharField(default="", max_length=60, validators=[fields.refuse_unprintable])),
            (
                "holds",
                models.CharField(
                    choices=[
                        ("everything", "Everything"),
                        ("performances", "Performances"),
                        ("deadlines", "Deadlines"),
                    ],
                    default="everything",
                    max_length=20,
                ),
            ),
            ("query", models.CharField(blank=True, max_length=2000, validators=[fields.refuse_unprintable])),
            ("token_sha256", models.CharField(editable=False, max_length=64, unique=True)),
            ("made_at", models.DateTimeField(editable=False)),
            ("read_on", models.DateField(blank=True, editable=False, null=True)),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("holds__in", ["everything", "performances", "deadlines"])),
                    name="calendar_address_holds_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(models.Q(("label", ""), _negated=True)), name="calendar_address_label_filled"
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Call",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="calls", to="catalogue.composer")),
            ("uid", identity(unique=True)),
            ("title", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            (
                "kind",
                models.CharField(
                    choices=[
                        ("call", "Call"),
                        ("competition", "Competition"),
                        ("reading", "Reading"),
                        ("residency", "Residency"),
                        ("grant", "Grant"),
                        ("degree", "Degree"),
                    ],
                    default="call",
                    max_length=20,
                ),
            ),
            ("closes_on", models.DateField(blank=True, db_index=True, editable=False, null=True)),
            ("closes_at", moment()),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("full_text", prose()),
            ("terms", models.JSONField(blank=True, default=dict)),
            ("notes", prose()),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        ("kind__in", ["call", "competition", "reading", "residency", "grant", "degree"])
                    ),
                    name="call_kind_known",
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="Commission",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="commissions", to="catalogue.work")),
            (
                "organisation",
                models.ForeignKey(
                    blank=True,
                    null=True,
                    on_delete=models.RESTRICT,
                    related_name="commissions",
                    to="catalogue.organisation",
                ),
            ),
            ("name", line(200)),
            ("place", line(200)),
            ("funder", line(200)),
            ("agreed", partial_date()),
            ("due", partial_date()),
            ("delivered", partial_date()),
            ("fee", line(50)),
            ("reference", line(100)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "place", "funder", "reference", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        ("organisation__isnull", False), models.Q(("name", ""), _negated=True), _connector="OR"
                    ),
                    name="commission_has_body",
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="ContactPerson",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            (
                "organisation",
                models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.organisation"),
            ),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            (
                "role",
                models.CharField(
                    choices=[
                        ("production", "Production"),
                        ("librarian", "Librarian"),
                        ("technician", "Technician"),
                        ("press", "Press"),
                        ("artistic direction", "Artistic direction"),
                        ("rights", "Rights"),
                        ("other", "Other"),
                    ],
                    default="production",
                    max_length=20,
                ),
            ),
            ("position", line(200)),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("hours", line(200)),
            (
                "person",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.person"
                ),
            ),
            ("since", partial_date()),
            ("until", partial_date()),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("name", "position", "notes")),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        (
                            "role__in",
                            ["production", "librarian", "technician", "press", "artistic direction", "rights", "other"],
                        )
                    ),
                    name="contact_role_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(models.Q(("name", ""), _negated=True)), name="contact_name_filled"
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Contributor",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            (
                "person",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.person"
                ),
            ),
            (
                "organisation",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.organisation"
                ),
            ),
            ("name", line(200)),
            (
                "role",
                models.CharField(
                    choices=[
                        ("co-composer", "Co-composer"),
                        ("librettist", "Librettist"),
                        ("author of the text", "Author of the text"),
                        ("translator", "Translator"),
                        ("arranger", "Arranger"),
                        ("orchestrator", "Orchestrator"),
                        ("electronics", "Electronics"),
                        ("editor", "Editor"),
                        ("publisher", "Publisher"),
                        ("other", "Other"),
                    ],
                    default="other",
                    max_length=30,
                ),
            ),
            ("contribution", line(200)),
            (
                "share",
                models.DecimalField(
                    blank=True,
                    decimal_places=3,
                    max_digits=6,
                    null=True,
                    validators=[validators.MinValueValidator(0), validators.MaxValueValidator(100)],
                ),
            ),
            ("society", line(200)),
            ("ipi", line(100)),
            ("isni", line(100)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "contribution", "society", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        (
                            "role__in",
                            [
                                "co-composer",
                                "librettist",
                                "author of the text",
                                "translator",
                                "arranger",
                                "orchestrator",
                                "electronics",
                                "editor",
                                "publisher",
                                "other",
                            ],
                        )
                    ),
                    name="contributor_role_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("share__isnull", True), models.Q(("share__gte", 0), ("share__lte", 100)), _connector="OR"
                    ),
                    name="contributor_share_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("person__isnull", False),
                        ("organisation__isnull", False),
                        models.Q(("name", ""), _negated=True),
                        _connector="OR",
                    ),
                    name="contributor_names_somebody",
                ),
                models.CheckConstraint(
                    condition=models.Q(("person__isnull", True), ("organisation__isnull", True), _connector="OR"),
                    name="contributor_is_person_or_organisation",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Cue",
        fields=[
            ("id", number()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="cues", to="catalogue.work")),
            ("order", models.PositiveSmallIntegerField(default=1, validators=[validators.MinValueValidator(1)])),
            ("number", models.CharField(default="", max_length=10, validators=[fields.refuse_unprintable])),
            ("place", line(40)),
            ("action", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            ("media", line(200)),
            ("length", fields.DurationField(blank=True, max_length=64, null=True)),
            ("who", line(60)),
            ("notes", line(500)),
        ],
        options={
            "constraints": [
                models.UniqueConstraint(
                    fields=("work", "order"),
                    name="cue_order_once",
                    violation_error_message="Another cue has this place in the list.",
                ),
                models.CheckConstraint(condition=models.Q(("order__gte", 1)), name="cue_order_from_one"),
                models.CheckConstraint(condition=models.Q(("number", ""), _negated=True), name="cue_has_number"),
                models.CheckConstraint(
                    condition=models.Q(("length__isnull", True), ("length__gte", "0000000001"), _connector="OR"),
                    name="cue_length_lasts",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Edition",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            (
                "kind",
                models.CharField(
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
            (
                "pitch",
                models.CharField(
                    blank=True, choices=[("in C", "In c"), ("transposed", "Transposed")], default="", max_length=20
                ),
            ),
            (
                "accidentals",
                models.CharField(
                    blank=True,
                    choices=[("for the bar", "For the bar"), ("for its note only", "For its note only")],
                    default="",
                    max_length=20,
                ),
            ),
            (
                "publisher",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.organisation"
                ),
            ),
            ("publisher_name", line(200)),
            ("number", line(50)),
            ("ismn", line(100)),
            ("published", partial_date()),
            (
                "pages",
                models.PositiveSmallIntegerField(blank=True, null=True, validators=[validators.MinValueValidator(1)]),
            ),
            ("paper", line(200)),
            ("binding", line(200)),
            (
                "stave_height",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=4,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(30)],
                ),
            ),
            ("on_hire", models.BooleanField(default=False)),
            ("version", line(50)),
            (
                "replaces",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="replaced_by", to="catalogue.edition"
                ),
            ),
            ("errata", prose()),
            ("errata_on", partial_date()),
            ("printing", line(500)),
            ("copyright_line", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("publisher_name", "number", "ismn", "version", "errata", "notes"),
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("pitch__in", ["", "in C", "transposed"])), name="edition_pitch_known"
                ),
                models.CheckConstraint(
                    condition=models.Q(("accidentals__in", ["", "for the bar", "for its note only"])),
                    name="edition_accidentals_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("pages__isnull", True), models.Q(("pages__gte", 1), ("pages__lte", 32767)), _connector="OR"
                    ),
                    name="edition_pages_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("stave_height__isnull", True),
                        models.Q(("stave_height__gte", 1), ("stave_height__lte", 30)),
                        _connector="OR",
                    ),
                    name="edition_stave_height_in_range",
                ),
                models.CheckConstraint(
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
            ]
        },
    ),
    migrations.CreateModel(
        name="EntryKey",
        fields=[
            ("id", number()),
            (
                "purpose",
                models.CharField(choices=[("owner", "Owner"), ("demo", "Demo"), ("member", "Member")], max_length=10),
            ),
            ("token_sha256", models.CharField(max_length=64, unique=True)),
            (
                "user",
                models.ForeignKey(null=True, on_delete=models.CASCADE, related_name="+", to=settings.AUTH_USER_MODEL),
            ),
            ("made_at", models.DateTimeField()),
            ("expires_at", models.DateTimeField()),
            ("used_at", models.DateTimeField(null=True)),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("purpose__in", ["owner", "demo", "member"])), name="entry_key_purpose_known"
                ),
                models.CheckConstraint(
                    condition=models.Q(("purpose", "owner"), ("user__isnull", False), _connector="OR"),
                    name="entry_key_has_user",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="HireTerms",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("lender", line(200)),
            ("address", prose()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            (
                "period_days",
                models.PositiveSmallIntegerField(blank=True, null=True, validators=[validators.MinValueValidator(1)]),
            ),
            ("days_after", models.PositiveSmallIntegerField(blank=True, null=True)),
            (
                "currency",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=3,
                    validators=[fields.refuse_unprintable, materials.refuse_unknown_currency],
                ),
            ),
            (
                "extension_percent",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=6,
                    null=True,
                    validators=[validators.MinValueValidator(0), validators.MaxValueValidator(1000)],
                ),
            ),
            (
                "late_percent",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=6,
                    null=True,
                    validators=[validators.MinValueValidator(0), validators.MaxValueValidator(1000)],
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
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "score_charge",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "erasing_rate",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            ("marking", prose()),
            ("copying", prose()),
            ("returning", prose()),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("name", "lender", "address", "marking", "copying", "returning", "notes"),
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("name", ""), _negated=True)), name="hire_terms_name_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(("late_step__in", ["once", "week", "month"])), name="hire_terms_late_step_known"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("period_days__isnull", True),
                        models.Q(("period_days__gte", 1), ("period_days__lte", 32767)),
                        _connector="OR",
                    ),
                    name="hire_terms_period_days_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("extension_percent__isnull", True),
                        models.Q(("extension_percent__gte", 0), ("extension_percent__lte", 9999999)),
                        _connector="OR",
                    ),
                    name="hire_terms_extension_percent_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("late_percent__isnull", True),
                        models.Q(("late_percent__gte", 0), ("late_percent__lte", 9999999)),
                        _connector="OR",
                    ),
                    name="hire_terms_late_percent_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("part_charge__isnull", True),
                        models.Q(("part_charge__gte", 0), ("part_charge__lte", 9999999)),
                        _connector="OR",
                    ),
                    name="hire_terms_part_charge_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("score_charge__isnull", True),
                        models.Q(("score_charge__gte", 0), ("score_charge__lte", 9999999)),
                        _connector="OR",
                    ),
                    name="hire_terms_score_charge_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("erasing_rate__isnull", True),
                        models.Q(("erasing_rate__gte", 0), ("erasing_rate__lte", 9999999)),
                        _connector="OR",
                    ),
                    name="hire_terms_erasing_rate_in_range",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="MaterialSet",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            ("number", models.CharField(default="", max_length=20, validators=[fields.refuse_unprintable])),
            (
                "form",
                models.CharField(
                    choices=[("printed", "Printed"), ("digital", "Digital")], default="printed", max_length=10
                ),
            ),
            (
                "edition",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.edition"
                ),
            ),
            ("strings", fields.StrengthsField(blank=True, default=(), max_length=64)),
            ("extra", models.PositiveSmallIntegerField(default=0, validators=[validators.MaxValueValidator(20)])),
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
            ("made", partial_date()),
            ("kept_at", line(200)),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("number", "kept_at", "notes")),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("number", ""), _negated=True)), name="material_set_number_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(("form__in", ["printed", "digital"])), name="material_set_form_known"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("condition__in", ["new", "good", "marked", "damaged", "incomplete", "withdrawn"])
                    ),
                    name="material_set_condition_known",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Hire",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            (
                "person",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.person"
                ),
            ),
            (
                "organisation",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.organisation"
                ),
            ),
            ("name", line(200)),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            (
                "material_set",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.materialset"
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
            ("number", line(50)),
            ("attention", line(200)),
            ("address", prose()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("order_number", line(50)),
            ("out_on", models.DateField(blank=True, null=True)),
            ("due_on", models.DateField(blank=True, null=True)),
            ("extended_to", models.DateField(blank=True, null=True)),
            ("back_on", models.DateField(blank=True, null=True)),
            ("carrier", line(200)),
            ("enclosed", line(500)),
            (
                "terms",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.hireterms"
                ),
            ),
            (
                "fee",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "currency",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=3,
                    validators=[fields.refuse_unprintable, materials.refuse_unknown_currency],
                ),
            ),
            (
                "extension_fee",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "erasing_hours",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=5, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "paid",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("name", "number", "attention", "address", "order_number", "carrier", "notes"),
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
                    name="hire_names_somebody",
                ),
                models.CheckConstraint(
                    condition=models.Q(("person__isnull", True), ("organisation__isnull", True), _connector="OR"),
                    name="hire_is_person_or_organisation",
                ),
                models.CheckConstraint(
                    condition=models.Q(("purpose__in", ["hire", "perusal", "sale", "own use"])),
                    name="hire_purpose_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("fee__isnull", True), models.Q(("fee__gte", 0), ("fee__lte", 9999999)), _connector="OR"
                    ),
                    name="hire_fee_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("extension_fee__isnull", True),
                        models.Q(("extension_fee__gte", 0), ("extension_fee__lte", 9999999)),
                        _connector="OR",
                    ),
                    name="hire_extension_fee_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("erasing_hours__isnull", True),
                        models.Q(("erasing_hours__gte", 0), ("erasing_hours__lte", 9999999)),
                        _connector="OR",
                    ),
                    name="hire_erasing_hours_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("paid__isnull", True), models.Q(("paid__gte", 0), ("paid__lte", 9999999)), _connector="OR"
                    ),
                    name="hire_paid_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("out_on__isnull", True),
                        ("due_on__isnull", True),
                        ("due_on__gte", models.F("out_on")),
                        _connector="OR",
                    ),
                    name="hire_out_on_before_due_on",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("due_on__isnull", True),
                        ("extended_to__isnull", True),
                        ("extended_to__gte", models.F("due_on")),
                        _connector="OR",
                    ),
                    name="hire_due_on_before_extended_to",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("out_on__isnull", True),
                        ("back_on__isnull", True),
                        ("back_on__gte", models.F("out_on")),
                        _connector="OR",
                    ),
                    name="hire_out_on_before_back_on",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="FileLink",
        fields=[
            ("id", number()),
            ("sent_at", models.DateTimeField()),
            ("token_sha256", models.CharField(max_length=64, unique=True)),
            ("expires_at", models.DateTimeField()),
            ("withdrawn_at", models.DateTimeField(null=True)),
            ("first_read_at", models.DateTimeField(null=True)),
            ("last_read_at", models.DateTimeField(null=True)),
            ("times_read", models.PositiveIntegerField(default=0)),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            (
                "work",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.CASCADE, related_name="+", to="catalogue.work"
                ),
            ),
            (
                "hire",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.hire"
                ),
            ),
            (
                "purpose",
                models.CharField(
                    choices=[("perusal", "Perusal"), ("delivery of parts", "Delivery of parts")],
                    default="perusal",
                    max_length=20,
                ),
            ),
            ("recipient", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("message", prose()),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("purpose__in", ["perusal", "delivery of parts"])),
                    name="file_link_purpose_known",
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="Venue",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="venues", to="catalogue.composer")),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("city", line(200)),
            (
                "country",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=2,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_country],
                ),
            ),
            ("region", line(200)),
            (
                "zone",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=64,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_zone],
                ),
            ),
            (
                "latitude",
                models.FloatField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(-90), validators.MaxValueValidator(90)],
                ),
            ),
            (
                "longitude",
                models.FloatField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(-180), validators.MaxValueValidator(180)],
                ),
            ),
            ("equipment", prose()),
            ("notes", prose()),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("name", "city", "region")),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        ("country", ""),
                        models.Q(
                            lookups.Exact(functions.Length("country"), 2),
                            lookups.In(functions.Substr("country", 1, 1), LETTERS),
                            lookups.In(functions.Substr("country", 2, 1), LETTERS),
                        ),
                        _connector="OR",
                    ),
                    name="venue_country_two_capitals",
                ),
                models.CheckConstraint(
                    condition=models.Q(("latitude__isnull", True), ("latitude__range", (-90, 90)), _connector="OR"),
                    name="venue_latitude_on_earth",
                ),
                models.CheckConstraint(
                    condition=models.Q(("longitude__isnull", True), ("longitude__range", (-180, 180)), _connector="OR"),
                    name="venue_longitude_on_earth",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Performance",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            (
                "composer",
                models.ForeignKey(on_delete=models.CASCADE, related_name="performances", to="catalogue.composer"),
            ),
            ("uid", identity(unique=True)),
            ("sequence", counter()),
            ("date", partial_date()),
            ("first_day", models.DateField(blank=True, editable=False, null=True)),
            ("last_day", models.DateField(blank=True, editable=False, null=True)),
            ("time", models.TimeField(blank=True, null=True)),
            (
                "zone",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=64,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_zone],
                ),
            ),
            ("second_time", models.BooleanField(blank=True, null=True)),
            ("starts_at", moment()),
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
            ("event_title", line(500)),
            (
                "venue",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="performances", to="catalogue.venue"
                ),
            ),
            ("city", line(200)),
            (
                "country",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=2,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_country],
                ),
            ),
            ("country_then", line(200)),
            (
                "presenter",
                models.ForeignKey(
                    blank=True,
                    null=True,
                    on_delete=models.RESTRICT,
                    related_name="presented_performances",
                    to="catalogue.organisation",
                ),
            ),
            ("presenter_name", line(200)),
            ("series", line(200)),
            ("string_strengths", fields.StrengthsField(blank=True, default=(), max_length=64)),
            ("notes", prose()),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("event_title", "city", "country_then", "presenter_name", "series", "notes"),
                ),
            ),
        ],
        options={
            "indexes": [
                models.Index(fields=["composer", "-first_day", "-id"], name="performance_latest_first"),
                models.Index(fields=["composer", "last_day"], name="performance_from_day"),
            ],
            "constraints": [
                models.CheckConstraint(
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
                models.CheckConstraint(
                    condition=models.Q(("audience__in", ["public", "private", "invited", "public rehearsal"])),
                    name="performance_audience_known",
                ),
                models.CheckConstraint(
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
                models.CheckConstraint(
                    condition=models.Q(
                        ("country", ""),
                        models.Q(
                            lookups.Exact(functions.Length("country"), 2),
                            lookups.In(functions.Substr("country", 1, 1), LETTERS),
                            lookups.In(functions.Substr("country", 2, 1), LETTERS),
                        ),
                        _connector="OR",
                    ),
                    name="performance_country_two_capitals",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        models.Q(("first_day__isnull", True), ("last_day__isnull", True)),
                        ("first_day__lte", models.F("last_day")),
                        _connector="OR",
                    ),
                    name="performance_days_in_order",
                ),
            ],
        },
    ),
    migrations.CreateModel(
        name="HiredPerformance",
        fields=[
            ("id", number()),
            ("hire", models.ForeignKey(on_delete=models.CASCADE, related_name="hired_for", to="catalogue.hire")),
            ("performance", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.performance")),
        ],
        options={
            "constraints": [models.UniqueConstraint(fields=("hire", "performance"), name="hired_performance_once")]
        },
    ),
    migrations.CreateModel(
        name="HireItem",
        fields=[
            ("id", number()),
            ("hire", models.ForeignKey(on_delete=models.CASCADE, related_name="items", to="catalogue.hire")),
            ("position", models.PositiveSmallIntegerField(default=0)),
            ("part", models.JSONField(blank=True, default=dict)),
            ("name", line(200)),
            ("expected", models.PositiveSmallIntegerField(blank=True, default=1, null=True)),
            ("copy_numbers", line(50)),
            ("sent", models.PositiveSmallIntegerField(blank=True, null=True)),
            ("received", models.PositiveSmallIntegerField(blank=True, null=True)),
            ("back", models.PositiveSmallIntegerField(blank=True, null=True)),
            (
                "condition",
                models.CharField(
                    blank=True,
                    choices=[("good", "Good"), ("marked", "Marked"), ("damaged", "Damaged"), ("missing", "Missing")],
                    default="",
                    max_length=10,
                ),
            ),
            ("remark", line(500)),
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
                    blank=True, decimal_places=2, max_digits=9, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
        ],
        options={
            "ordering": ("position", "pk"),
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("condition__in", ["", "good", "marked", "damaged", "missing"])),
                    name="hire_item_condition_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(("action__in", ["", "erase", "repair", "replace", "ask for it", "write off"])),
                    name="hire_item_action_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("charge__isnull", True),
                        models.Q(("charge__gte", 0), ("charge__lte", 9999999)),
                        _connector="OR",
                    ),
                    name="hire_item_charge_in_range",
                ),
            ],
        },
    ),
    migrations.CreateModel(
        name="ImportBatch",
        fields=[
            ("id", number()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="imports", to="catalogue.composer")),
            ("name", line(200)),
            (
                "source",
                models.CharField(
                    choices=[("file", "File"), ("pasted", "Pasted"), ("typed", "Typed")], default="file", max_length=10
                ),
            ),
            (
                "state",
                models.CharField(
                    choices=[("read", "Read"), ("kept", "Kept"), ("undone", "Undone")], default="read", max_length=10
                ),
            ),
            ("content", models.BinaryField(default=bytes)),
            ("reading", models.JSONField(default=dict)),
            ("report", models.JSONField(default=dict)),
            ("made_at", models.DateTimeField()),
            (
                "made_by",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to=settings.AUTH_USER_MODEL
                ),
            ),
            ("kept_at", models.DateTimeField(blank=True, null=True)),
            ("undone_at", models.DateTimeField(blank=True, null=True)),
        ],
        options={
            "indexes": [models.Index(fields=["composer", "-made_at"], name="import_latest_first")],
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("state__in", ["read", "kept", "undone"])), name="import_state_known"
                ),
                models.CheckConstraint(
                    condition=models.Q(("source__in", ["file", "pasted", "typed"])), name="import_source_known"
                ),
            ],
        },
    ),
    migrations.CreateModel(
        name="ImportedRecord",
        fields=[
            ("id", number()),
            ("batch", models.ForeignKey(on_delete=models.CASCADE, related_name="records", to="catalogue.importbatch")),
            ("sort", models.CharField(max_length=20)),
            ("record", models.BigIntegerField()),
            ("row", models.PositiveIntegerField(default=0)),
            ("label", line(500)),
            ("before", models.JSONField(encoder=DjangoJSONEncoder, null=True)),
            ("after", models.JSONField(encoder=DjangoJSONEncoder)),
            ("is_undone", models.BooleanField(default=False)),
            ("hindrance", line(500)),
        ],
        options={
            "constraints": [models.UniqueConstraint(fields=("batch", "sort", "record"), name="imported_record_once")]
        },
    ),
    migrations.CreateModel(
        name="InstrumentationLine",
        fields=[
            ("id", number()),
            (
                "work",
                models.ForeignKey(on_delete=models.CASCADE, related_name="instrumentation_lines", to="catalogue.work"),
            ),
            ("instrument", models.CharField(max_length=60)),
            ("family", models.CharField(max_length=30)),
            ("role", models.CharField(max_length=30)),
            ("least_players", models.PositiveIntegerField(null=True)),
            ("most_players", models.PositiveIntegerField(null=True)),
            ("is_doubling", models.BooleanField(default=False)),
        ],
        options={"indexes": [models.Index(fields=["instrument", "work"], name="line_by_instrument")]},
    ),
    migrations.CreateModel(
        name="LeadTimes",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            (
                "organisation",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.CASCADE, related_name="+", to="catalogue.organisation"
                ),
            ),
            ("contract", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("rider", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("parts", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("texts", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("stream", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("recording_request", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("travel", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("electronics", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("lasted", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("thanks", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("set_back", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("recording", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("review", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("filing", journeys.LeadField(blank=True, max_length=4, null=True)),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("notes",))),
        ],
        options={"verbose_name_plural": "lead times"},
    ),
    migrations.CreateModel(
        name="Recording",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="recordings", to="catalogue.work")),
            (
                "kind",
                models.CharField(
                    choices=[
                        ("live", "Live"),
                        ("studio", "Studio"),
                        ("rehearsal", "Rehearsal"),
                        ("rendered", "Rendered"),
                    ],
                    default="studio",
                    max_length=20,
                ),
            ),
            (
                "form",
                models.CharField(
                    choices=[("audio", "Audio"), ("video", "Video"), ("release", "Release")],
                    default="release",
                    max_length=20,
                ),
            ),
            ("performers", line(500)),
            ("title", line(500)),
            ("label", line(200)),
            ("number", line(50)),
            ("released", partial_date()),
            ("duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("recorded", partial_date()),
            ("place", line(200)),
            (
                "performance",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="+", to="catalogue.performance"
                ),
            ),
            ("isrc", line(100)),
            ("ean", line(100)),
            ("address", models.URLField(blank=True, default="", max_length=500)),
            ("file_name", line(500)),
            ("excerpt_from", models.PositiveIntegerField(blank=True, null=True)),
            ("excerpt_until", models.PositiveIntegerField(blank=True, null=True)),
            (
                "permission",
                models.CharField(
                    choices=[
                        ("not asked", "Not asked"),
                        ("refused", "Refused"),
                        ("for applications", "For applications"),
                        ("public", "Public"),
                    ],
                    default="not asked",
                    max_length=20,
                ),
            ),
            ("permission_note", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("performers", "title", "label", "number", "place", "file_name", "notes"),
                ),
            ),
        ],
        options={
            "abstract": False,
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("duration__isnull", True), ("duration__gte", "0000000001"), _connector="OR"),
                    name="recording_duration_lasts",
                ),
                models.CheckConstraint(
                    condition=models.Q(("kind__in", ["live", "studio", "rehearsal", "rendered"])),
                    name="recording_kind_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(("form__in", ["audio", "video", "release"])), name="recording_form_known"
                ),
                models.CheckConstraint(
                    condition=models.Q(("permission__in", ["not asked", "refused", "for applications", "public"])),
                    name="recording_permission_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("excerpt_from__isnull", True),
                        ("excerpt_until__isnull", True),
                        ("excerpt_from__lt", models.F("excerpt_until")),
                        _connector="OR",
                    ),
                    name="recording_excerpt_in_order",
                ),
            ],
        },
    ),
    migrations.CreateModel(
        name="TechnicalSetup",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            (
                "kind",
                models.CharField(
                    choices=[("full", "Full"), ("reduced", "Reduced"), ("fallback", "Fallback")],
                    default="full",
                    max_length=20,
                ),
            ),
            ("differs", prose()),
            ("fixed_media", models.BooleanField(default=False)),
            ("live_processing", models.BooleanField(default=False)),
            ("amplification", models.BooleanField(default=False)),
            ("sampler", models.BooleanField(default=False)),
            ("description", prose()),
            (
                "synchronisation",
                models.CharField(
                    choices=[
                        ("none", "None"),
                        ("click", "Click"),
                        ("by ear from the score", "By ear from the score"),
                        ("cues by pedal", "Cues by pedal"),
                        ("cues by an operator", "Cues by an operator"),
                        ("stopwatch", "Stopwatch"),
                    ],
                    default="none",
                    max_length=30,
                ),
            ),
            ("synchronisation_note", line(500)),
            ("inputs", prose()),
            ("outputs", prose()),
            (
                "layout",
                models.CharField(
                    choices=[
                        ("none", "None"),
                        ("stereo", "Stereo"),
                        ("quad", "Quad"),
                        ("5.1", "5.1"),
                        ("7.1", "7.1"),
                        ("octophonic, front pair", "Octophonic, front pair"),
                        ("octophonic, front centre", "Octophonic, front centre"),
                        ("dome of sixteen", "Dome of sixteen"),
                        ("own", "Own"),
                    ],
                    default="none",
                    max_length=30,
                ),
            ),
            ("speakers", prose()),
            ("equipment", prose()),
            ("software", prose()),
            ("media", prose()),
            (
                "sample_rate",
                models.PositiveIntegerField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(8000), validators.MaxValueValidator(384000)],
                ),
            ),
            (
                "bit_depth",
                models.PositiveSmallIntegerField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(8), validators.MaxValueValidator(64)],
                ),
            ),
            (
                "latency_ms",
                models.DecimalField(
                    blank=True, decimal_places=2, max_digits=6, null=True, validators=[validators.MinValueValidator(0)]
                ),
            ),
            ("network", prose()),
            ("power", prose()),
            ("staff", prose()),
            ("schedule", prose()),
            ("rehearsal", prose()),
            (
                "stage_width",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=5,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(100)],
                ),
            ),
            (
                "stage_depth",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=5,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(100)],
                ),
            ),
            ("places", prose()),
            ("loudest", line(500)),
            ("flashing", line(500)),
            ("setting_up", prose()),
            ("when_it_fails", prose()),
            ("documented", partial_date()),
            ("tested", partial_date()),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("name", "description", "inputs", "outputs", "equipment", "software", "notes"),
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("name", ""), _negated=True)), name="setup_name_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(("kind__in", ["full", "reduced", "fallback"])), name="setup_kind_known"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        (
                            "synchronisation__in",
                            [
                                "none",
                                "click",
                                "by ear from the score",
                                "cues by pedal",
                                "cues by an operator",
                                "stopwatch",
                            ],
                        )
                    ),
                    name="setup_synchronisation_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        (
                            "layout__in",
                            [
                                "none",
                                "stereo",
                                "quad",
                                "5.1",
                                "7.1",
                                "octophonic, front pair",
                                "octophonic, front centre",
                                "dome of sixteen",
                                "own",
                            ],
                        )
                    ),
                    name="setup_layout_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("sample_rate__isnull", True),
                        models.Q(("sample_rate__gte", 8000), ("sample_rate__lte", 384000)),
                        _connector="OR",
                    ),
                    name="setup_sample_rate_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("bit_depth__isnull", True),
                        models.Q(("bit_depth__gte", 8), ("bit_depth__lte", 64)),
                        _connector="OR",
                    ),
                    name="setup_bit_depth_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("stage_width__isnull", True),
                        models.Q(("stage_width__gte", 1), ("stage_width__lte", 100)),
                        _connector="OR",
                    ),
                    name="setup_stage_width_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("stage_depth__isnull", True),
                        models.Q(("stage_depth__gte", 1), ("stage_depth__lte", 100)),
                        _connector="OR",
                    ),
                    name="setup_stage_depth_in_range",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="StoredFile",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
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
            ("name", line(200)),
            ("version", line(50)),
            (
                "work",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.work"
                ),
            ),
            (
                "edition",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.edition"
                ),
            ),
            (
                "recording",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.recording"
                ),
            ),
            (
                "setup",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.technicalsetup"
                ),
            ),
            (
                "original_name",
                models.CharField(default="", editable=False, max_length=500, validators=[fields.refuse_unprintable]),
            ),
            ("sha256", models.CharField(editable=False, max_length=64)),
            ("suffix", models.CharField(editable=False, max_length=5)),
            ("byte_count", models.PositiveBigIntegerField(editable=False)),
            ("found", models.JSONField(default=dict, editable=False)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "original_name", "version", "notes")
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
            ]
        },
    ),
    migrations.CreateModel(
        name="LinkedFile",
        fields=[
            ("id", number()),
            ("link", models.ForeignKey(on_delete=models.CASCADE, related_name="files", to="catalogue.filelink")),
            ("file", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.storedfile")),
            ("position", models.PositiveSmallIntegerField()),
            ("times_taken", models.PositiveIntegerField(default=0)),
        ],
        options={
            "ordering": ("position",),
            "constraints": [models.UniqueConstraint(fields=("link", "position"), name="linked_file_position_once")],
        },
    ),
    migrations.CreateModel(
        name="MaterialRequirements",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            (
                "organisation",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.CASCADE, related_name="+", to="catalogue.organisation"
                ),
            ),
            ("name", line(200)),
            ("papers", line(200)),
            (
                "stave_least",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=4,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(30)],
                ),
            ),
            (
                "stave_most",
                models.DecimalField(
                    blank=True,
                    decimal_places=2,
                    max_digits=4,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(30)],
                ),
            ),
            ("binding", line(200)),
            ("file_names", line(200)),
            ("bookmarks", models.BooleanField(default=False)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "papers", "binding", "notes")
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
            ]
        },
    ),
    migrations.CreateModel(
        name="Membership",
        fields=[
            ("id", number()),
            (
                "user",
                models.ForeignKey(on_delete=models.CASCADE, related_name="memberships", to=settings.AUTH_USER_MODEL),
            ),
            (
                "composer",
                models.ForeignKey(on_delete=models.CASCADE, related_name="memberships", to="catalogue.composer"),
            ),
            (
                "role",
                models.CharField(
                    choices=[("owner", "Owner"), ("editor", "Editor"), ("viewer", "Viewer")],
                    default="owner",
                    max_length=10,
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
            ]
        },
    ),
    migrations.CreateModel(
        name="Merge",
        fields=[
            ("id", number()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="merges", to="catalogue.composer")),
            ("sort", models.CharField(max_length=20)),
            ("kept", line(500)),
            ("gone", line(500)),
            ("kept_name", line(500)),
            ("gone_name", line(500)),
            ("moved", models.JSONField(default=list)),
            ("filled", models.JSONField(default=dict)),
            ("made_at", models.DateTimeField()),
            (
                "made_by",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to=settings.AUTH_USER_MODEL
                ),
            ),
            ("undone_at", models.DateTimeField(blank=True, null=True)),
        ],
    ),
    migrations.CreateModel(
        name="Movement",
        fields=[
            ("id", number()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="movements", to="catalogue.work")),
            ("number", models.PositiveSmallIntegerField(validators=[validators.MinValueValidator(1)])),
            ("title", line(500)),
            ("duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("attacca", models.BooleanField(default=False)),
        ],
        options={
            "constraints": [
                models.UniqueConstraint(
                    fields=("work", "number"),
                    name="movement_number_once",
                    violation_error_message="Another movement has this number.",
                ),
                models.CheckConstraint(condition=models.Q(("number__gte", 1)), name="movement_number_from_one"),
                models.CheckConstraint(
                    condition=models.Q(("duration__isnull", True), ("duration__gte", "0000000001"), _connector="OR"),
                    name="movement_duration_lasts",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="NotationSign",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            (
                "group",
                models.CharField(
                    choices=[
                        ("accidental", "Accidental"),
                        ("notehead", "Notehead"),
                        ("technique", "Technique"),
                        ("electronics", "Electronics"),
                        ("time", "Time"),
                        ("graphic", "Graphic"),
                    ],
                    default="accidental",
                    max_length=20,
                ),
            ),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("smufl", line(200)),
            (
                "cents",
                models.DecimalField(
                    blank=True,
                    decimal_places=3,
                    max_digits=7,
                    null=True,
                    validators=[validators.MinValueValidator(-1200), validators.MaxValueValidator(1200)],
                ),
            ),
            ("meaning", prose()),
            ("concerns", line(200)),
            ("first_at", line(200)),
            ("system", line(200)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("name", "smufl", "meaning", "concerns", "system", "notes"),
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        ("group__in", ["accidental", "notehead", "technique", "electronics", "time", "graphic"])
                    ),
                    name="sign_group_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(models.Q(("name", ""), _negated=True)), name="sign_name_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("cents__isnull", True), models.Q(("cents__gte", -1200), ("cents__lte", 1200)), _connector="OR"
                    ),
                    name="sign_cents_in_range",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="PercussionInstrument",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            (
                "player",
                models.PositiveSmallIntegerField(
                    default=1, validators=[validators.MinValueValidator(1), validators.MaxValueValidator(99)]
                ),
            ),
            ("instrument", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            (
                "number",
                models.PositiveSmallIntegerField(
                    default=1, validators=[validators.MinValueValidator(1), validators.MaxValueValidator(999)]
                ),
            ),
            ("size", line(200)),
            ("compass", line(200)),
            ("pitches", line(200)),
            ("beaters", line(200)),
            ("shared_with", line(200)),
            ("needs_power", models.BooleanField(default=False)),
            ("provided_by", line(200)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("instrument", "size", "compass", "pitches", "beaters", "notes"),
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("instrument", ""), _negated=True)), name="percussion_instrument_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("player__isnull", True), models.Q(("player__gte", 1), ("player__lte", 99)), _connector="OR"
                    ),
                    name="percussion_player_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("number__isnull", True), models.Q(("number__gte", 1), ("number__lte", 999)), _connector="OR"
                    ),
                    name="percussion_number_in_range",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="PerformanceCredit",
        fields=[
            ("id", number()),
            (
                "performance",
                models.ForeignKey(on_delete=models.CASCADE, related_name="credits", to="catalogue.performance"),
            ),
            ("order", models.PositiveSmallIntegerField(default=1)),
            (
                "person",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.RESTRICT, related_name="credits", to="catalogue.person"
                ),
            ),
            (
                "organisation",
                models.ForeignKey(
                    blank=True,
                    null=True,
                    on_delete=models.RESTRICT,
                    related_name="credits",
                    to="catalogue.organisation",
                ),
            ),
            ("name", line(200)),
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
            ("plays", line(200)),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("name", "plays"))),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
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
                models.CheckConstraint(
                    condition=models.Q(
                        ("person__isnull", False),
                        ("organisation__isnull", False),
                        models.Q(("name", ""), _negated=True),
                        _connector="OR",
                    ),
                    name="credit_names_somebody",
                ),
                models.CheckConstraint(
                    condition=models.Q(("person__isnull", True), ("organisation__isnull", True), _connector="OR"),
                    name="credit_is_person_or_organisation",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="PerformanceNote",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            ("heading", line(200)),
            ("body", models.TextField(max_length=50000, validators=[fields.refuse_unprintable])),
            (
                "purpose",
                models.CharField(
                    choices=[
                        ("for playing", "For playing"),
                        ("for the sound operator", "For the sound operator"),
                        ("for practising", "For practising"),
                    ],
                    default="for playing",
                    max_length=30,
                ),
            ),
            ("concerns", line(200)),
            ("language", line(35)),
            ("first_at", line(200)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("heading", "body", "concerns", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("body", ""), _negated=True)), name="performance_note_body_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(("purpose__in", ["for playing", "for the sound operator", "for practising"])),
                    name="performance_note_purpose_known",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Picture",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            (
                "kind",
                models.CharField(
                    choices=[
                        ("portrait", "Portrait"),
                        ("performance", "Performance"),
                        ("score page", "Score page"),
                        ("diagram", "Diagram"),
                        ("other", "Other"),
                    ],
                    default="portrait",
                    max_length=20,
                ),
            ),
            ("alternative", models.CharField(default="", max_length=500, validators=[fields.refuse_unprintable])),
            ("caption", line(500)),
            ("credit", line(200)),
            ("taken", partial_date()),
            (
                "permission",
                models.CharField(
                    choices=[
                        ("not asked", "Not asked"),
                        ("refused", "Refused"),
                        ("for applications", "For applications"),
                        ("public", "Public"),
                    ],
                    default="not asked",
                    max_length=20,
                ),
            ),
            (
                "work",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.work"
                ),
            ),
            (
                "performance",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.performance"
                ),
            ),
            (
                "person",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.person"
                ),
            ),
            ("sha256", models.CharField(editable=False, max_length=64)),
            ("suffix", models.CharField(editable=False, max_length=5)),
            ("width", models.PositiveIntegerField(editable=False)),
            ("height", models.PositiveIntegerField(editable=False)),
            ("byte_count", models.PositiveIntegerField(editable=False)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("alternative", "caption", "credit", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("kind__in", ["portrait", "performance", "score page", "diagram", "other"])),
                    name="picture_kind_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(("permission__in", ["not asked", "refused", "for applications", "public"])),
                    name="picture_permission_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(models.Q(("alternative", ""), _negated=True)), name="picture_alternative_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("byte_count__gte", 1),
                        ("height__gte", 1),
                        ("suffix__in", ("png", "jpg", "webp")),
                        ("width__gte", 1),
                    ),
                    name="picture_is_kept",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="ProgrammedWork",
        fields=[
            ("id", number()),
            (
                "performance",
                models.ForeignKey(on_delete=models.CASCADE, related_name="programme", to="catalogue.performance"),
            ),
            ("work", models.ForeignKey(on_delete=models.RESTRICT, related_name="programmed", to="catalogue.work")),
            ("order", models.PositiveSmallIntegerField(default=1, validators=[validators.MinValueValidator(1)])),
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
            ("part", line(500)),
            ("billing", line(500)),
            ("note", line(500)),
            ("duration", fields.DurationField(blank=True, max_length=64, null=True)),
            ("claim_override", line(500)),
            ("claim_reason", line(500)),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("extent__in", ["complete", "partial", "excerpt", "suite"])),
                    name="programmed_extent_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(("duration__isnull", True), ("duration__gte", "0000000001"), _connector="OR"),
                    name="programmed_duration_lasts",
                ),
                models.UniqueConstraint(
                    fields=("performance", "order"),
                    name="programmed_order_once",
                    violation_error_message="Another work has this place in the programme.",
                ),
                models.CheckConstraint(condition=models.Q(("order__gte", 1)), name="programmed_order_from_one"),
                models.CheckConstraint(
                    condition=models.Q(
                        ("claim_override", ""), models.Q(("claim_reason", ""), _negated=True), _connector="OR"
                    ),
                    name="programmed_override_has_reason",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="ProgrammeNote",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            ("body", models.TextField(max_length=50000, validators=[fields.refuse_unprintable])),
            (
                "length",
                models.CharField(
                    choices=[("one line", "One line"), ("short", "Short"), ("medium", "Medium"), ("long", "Long")],
                    default="medium",
                    max_length=20,
                ),
            ),
            ("language", line(35)),
            ("as_of", partial_date()),
            ("author", line(200)),
            (
                "most_words",
                models.PositiveIntegerField(blank=True, null=True, validators=[validators.MinValueValidator(1)]),
            ),
            ("heading", line(200)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("heading", "body", "author", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("length__in", ["one line", "short", "medium", "long"])),
                    name="programme_note_length_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(models.Q(("body", ""), _negated=True)), name="programme_note_body_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("most_words__isnull", True),
                        models.Q(("most_words__gte", 1), ("most_words__lte", 100000)),
                        _connector="OR",
                    ),
                    name="programme_note_most_words_in_range",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Referee",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("email", models.EmailField(blank=True, default="", max_length=254)),
            ("telephone", line(50)),
            ("website", models.URLField(blank=True, default="", max_length=500)),
            ("address", prose()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("position", line(500)),
            ("institution", line(500)),
            ("knows_as", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "position", "institution", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("name", ""), _negated=True)), name="referee_name_filled"
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="Submission",
        fields=[
            ("id", number()),
            ("call", models.OneToOneField(on_delete=models.CASCADE, related_name="submission", to="catalogue.call")),
            (
                "status",
                models.CharField(
                    choices=[
                        ("draft", "Draft"),
                        ("sent", "Sent"),
                        ("chosen", "Chosen"),
                        ("not chosen", "Not chosen"),
                        ("withdrawn", "Withdrawn"),
                    ],
                    default="draft",
                    max_length=12,
                ),
            ),
            ("sent_on", models.DateField(blank=True, null=True)),
            ("decided_on", models.DateField(blank=True, null=True)),
            ("outcome", line(500)),
            ("feedback", prose()),
            ("language", line(35)),
            ("motto", line(200)),
            ("statement", prose()),
            ("by_hand", models.JSONField(blank=True, default=list)),
            ("sent_files", models.JSONField(blank=True, default=list, editable=False)),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(("status__in", ["draft", "sent", "chosen", "not chosen", "withdrawn"])),
                    name="submission_status_known",
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="Reference",
        fields=[
            ("id", number()),
            (
                "submission",
                models.ForeignKey(on_delete=models.CASCADE, related_name="references", to="catalogue.submission"),
            ),
            ("referee", models.ForeignKey(on_delete=models.CASCADE, related_name="references", to="catalogue.referee")),
            ("asked_on", models.DateField(blank=True, null=True)),
            ("agreed_on", models.DateField(blank=True, null=True)),
            ("received_on", models.DateField(blank=True, null=True)),
        ],
        options={"constraints": [models.UniqueConstraint(fields=("submission", "referee"), name="reference_once")]},
    ),
    migrations.CreateModel(
        name="Retuning",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            ("instrument", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("tuned_to", line(500)),
            (
                "cents",
                models.DecimalField(
                    blank=True,
                    decimal_places=3,
                    max_digits=7,
                    null=True,
                    validators=[validators.MinValueValidator(-1200), validators.MaxValueValidator(1200)],
                ),
            ),
            ("written", line(500)),
            ("preparation", line(500)),
            ("position", models.PositiveSmallIntegerField(default=0)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("instrument", "tuned_to", "written", "preparation", "notes"),
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("instrument", ""), _negated=True)), name="retuning_instrument_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("cents__isnull", True), models.Q(("cents__gte", -1200), ("cents__lte", 1200)), _connector="OR"
                    ),
                    name="retuning_cents_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        models.Q(("tuned_to", ""), _negated=True), ("cents__isnull", False), _connector="OR"
                    ),
                    name="retuning_says_how",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="Return",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("performance", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.performance")),
            ("society", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("filed", partial_date()),
            ("reference", line(100)),
            ("until", partial_date()),
            ("rule_read", partial_date()),
            ("answer", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("society", "reference", "answer", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("society", ""), _negated=True)), name="return_society_filled"
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="Review",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("publication", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("author", line(200)),
            ("date", partial_date()),
            ("headline", line(500)),
            ("quotation", prose()),
            ("language", line(35)),
            ("address", models.URLField(blank=True, default="", max_length=500)),
            ("doi", line(100)),
            (
                "work",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.work"
                ),
            ),
            (
                "performance",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.performance"
                ),
            ),
            (
                "recording",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.recording"
                ),
            ),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=("publication", "author", "headline", "quotation", "notes"),
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("publication", ""), _negated=True)), name="review_publication_filled"
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="Rider",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            ("performance", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.performance")),
            (
                "setup",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.technicalsetup"
                ),
            ),
            ("contact_name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("contact_email", models.EmailField(blank=True, default="", max_length=254)),
            ("contact_telephone", line(50)),
            ("contact_hours", line(200)),
            ("summary", prose()),
            ("equipment", prose()),
            ("schedule", prose()),
            ("travel", prose()),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("contact_name", "summary", "equipment", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("contact_name", ""), _negated=True)), name="rider_contact_name_filled"
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="RiderSending",
        fields=[
            ("id", number()),
            ("sent_at", models.DateTimeField()),
            ("token_sha256", models.CharField(max_length=64, unique=True)),
            ("expires_at", models.DateTimeField()),
            ("withdrawn_at", models.DateTimeField(null=True)),
            ("first_read_at", models.DateTimeField(null=True)),
            ("last_read_at", models.DateTimeField(null=True)),
            ("times_read", models.PositiveIntegerField(default=0)),
            ("rider", models.ForeignKey(on_delete=models.CASCADE, related_name="sendings", to="catalogue.rider")),
            ("revision", models.PositiveSmallIntegerField()),
            ("sent_to", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            ("language", line(35)),
            ("items", models.JSONField(default=list)),
            ("lists", models.JSONField(default=dict)),
            ("files", models.JSONField(default=dict)),
            ("answered_by", line(200)),
            ("answered_at", models.DateTimeField(null=True)),
            ("message", prose()),
        ],
        options={
            "constraints": [
                models.UniqueConstraint(fields=("rider", "revision"), name="rider_revision_once"),
                models.CheckConstraint(condition=models.Q(("revision__gte", 1)), name="rider_revision_from_one"),
            ]
        },
    ),
    migrations.CreateModel(
        name="RiderAnswer",
        fields=[
            ("id", number()),
            (
                "sending",
                models.ForeignKey(on_delete=models.CASCADE, related_name="answers", to="catalogue.ridersending"),
            ),
            ("item", models.CharField(max_length=16)),
            (
                "answer",
                models.CharField(
                    choices=[("yes", "Yes"), ("not quite", "Not quite"), ("no", "No"), ("question", "Question")],
                    max_length=10,
                ),
            ),
            ("remark", line(500)),
            ("answered_at", models.DateTimeField()),
        ],
        options={
            "constraints": [
                models.UniqueConstraint(fields=("sending", "item"), name="rider_item_answered_once"),
                models.CheckConstraint(
                    condition=models.Q(("answer__in", ["yes", "not quite", "no", "question"])),
                    name="rider_answer_answer_known",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="SavedView",
        fields=[
            ("id", number()),
            (
                "composer",
                models.ForeignKey(on_delete=models.CASCADE, related_name="saved_views", to="catalogue.composer"),
            ),
            ("table", models.CharField(max_length=20)),
            ("name", models.CharField(default="", max_length=60, validators=[fields.refuse_unprintable])),
            ("query", models.CharField(blank=True, max_length=2000, validators=[fields.refuse_unprintable])),
        ],
        options={
            "constraints": [models.UniqueConstraint(fields=("composer", "table", "name"), name="saved_view_name_once")]
        },
    ),
    migrations.CreateModel(
        name="Session",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("performance", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.performance")),
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
            ("title", line(200)),
            ("date", partial_date()),
            ("time", models.TimeField(blank=True, null=True)),
            ("until", models.TimeField(blank=True, null=True)),
            (
                "zone",
                models.CharField(
                    blank=True,
                    default="",
                    max_length=64,
                    validators=[fields.refuse_unprintable, conditions.refuse_unknown_zone],
                ),
            ),
            ("place", line(500)),
            (
                "search_text",
                fields.SearchTextField(blank=True, default="", editable=False, of=("title", "place", "notes")),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        ("kind__in", ["rehearsal", "dress rehearsal", "get-in", "line check", "talk", "other"])
                    ),
                    name="session_kind_known",
                )
            ]
        },
    ),
    migrations.CreateModel(
        name="SetApart",
        fields=[
            ("id", number()),
            (
                "composer",
                models.ForeignKey(on_delete=models.CASCADE, related_name="set_apart", to="catalogue.composer"),
            ),
            ("sort", models.CharField(max_length=20)),
            ("one", line(500)),
            ("other", line(500)),
        ],
        options={
            "constraints": [models.UniqueConstraint(fields=("composer", "sort", "one", "other"), name="set_apart_once")]
        },
    ),
    migrations.CreateModel(
        name="Step",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("composer", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.composer")),
            ("performance", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.performance")),
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
            ("label", line(200)),
            (
                "state",
                models.CharField(
                    choices=[("open", "Open"), ("done", "Done"), ("not needed", "Not needed")],
                    default="open",
                    max_length=20,
                ),
            ),
            ("due", partial_date()),
            ("done_on", partial_date()),
            ("search_text", fields.SearchTextField(blank=True, default="", editable=False, of=("label", "notes"))),
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
                    condition=models.Q(("state__in", ["open", "done", "not needed"])), name="step_state_known"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        models.Q(("kind", "other"), _negated=True),
                        models.Q(("label", ""), _negated=True),
                        _connector="OR",
                    ),
                    name="step_other_is_named",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="SubmittedWork",
        fields=[
            ("id", number()),
            (
                "submission",
                models.ForeignKey(on_delete=models.CASCADE, related_name="works", to="catalogue.submission"),
            ),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="submitted", to="catalogue.work")),
            ("order", models.PositiveSmallIntegerField(default=1, validators=[validators.MinValueValidator(1)])),
            (
                "note",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.programmenote"
                ),
            ),
            (
                "recording",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.recording"
                ),
            ),
            (
                "edition",
                models.ForeignKey(
                    blank=True, null=True, on_delete=models.SET_NULL, related_name="+", to="catalogue.edition"
                ),
            ),
            ("cover_pages", models.PositiveSmallIntegerField(default=0, validators=[validators.MaxValueValidator(20)])),
        ],
        options={
            "constraints": [
                models.UniqueConstraint(fields=("submission", "work"), name="submitted_work_once"),
                models.CheckConstraint(condition=models.Q(("order__gte", 1)), name="submitted_work_order_from_one"),
                models.CheckConstraint(
                    condition=models.Q(("cover_pages__lte", 20)), name="submitted_work_cover_pages_few"
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="TextSource",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            ("author", line(200)),
            ("title", line(500)),
            ("source", line(500)),
            ("language", line(35)),
            ("translator", line(200)),
            (
                "clearance",
                models.CharField(
                    choices=[
                        ("not asked", "Not asked"),
                        ("asked", "Asked"),
                        ("granted", "Granted"),
                        ("refused", "Refused"),
                        ("public domain", "Public domain"),
                        ("own text", "Own text"),
                    ],
                    default="not asked",
                    max_length=20,
                ),
            ),
            ("rights_holder", line(200)),
            ("contact", line(500)),
            ("asked", partial_date()),
            ("granted", partial_date()),
            ("expires", partial_date()),
            ("credit", line(500)),
            ("covers", line(500)),
            ("isbn", line(100)),
            ("body", prose()),
            ("translation", prose()),
            ("translation_language", line(35)),
            (
                "translation_clearance",
                models.CharField(
                    choices=[
                        ("not asked", "Not asked"),
                        ("asked", "Asked"),
                        ("granted", "Granted"),
                        ("refused", "Refused"),
                        ("public domain", "Public domain"),
                        ("own text", "Own text"),
                    ],
                    default="not asked",
                    max_length=20,
                ),
            ),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True,
                    default="",
                    editable=False,
                    of=(
                        "author",
                        "title",
                        "source",
                        "translator",
                        "rights_holder",
                        "credit",
                        "body",
                        "translation",
                        "notes",
                    ),
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(
                        ("clearance__in", ["not asked", "asked", "granted", "refused", "public domain", "own text"])
                    ),
                    name="text_source_clearance_known",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        models.Q(("author", ""), _negated=True), models.Q(("title", ""), _negated=True), _connector="OR"
                    ),
                    name="text_source_names_something",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        (
                            "translation_clearance__in",
                            ["not asked", "asked", "granted", "refused", "public domain", "own text"],
                        )
                    ),
                    name="text_source_translation_clearance_known",
                ),
            ]
        },
    ),
    migrations.CreateModel(
        name="TuningSystem",
        fields=[
            ("id", number()),
            ("deleted_at", moment(db_index=True)),
            (
                "deleted_by",
                models.ForeignKey(
                    blank=True,
                    editable=False,
                    null=True,
                    on_delete=models.SET_NULL,
                    related_name="+",
                    to=settings.AUTH_USER_MODEL,
                ),
            ),
            ("saves", counter()),
            ("changed_at", moment()),
            ("uid", identity(unique=True)),
            ("notes", prose()),
            ("work", models.ForeignKey(on_delete=models.CASCADE, related_name="+", to="catalogue.work")),
            ("name", models.CharField(default="", max_length=200, validators=[fields.refuse_unprintable])),
            (
                "divisions",
                models.PositiveSmallIntegerField(
                    blank=True,
                    null=True,
                    validators=[validators.MinValueValidator(1), validators.MaxValueValidator(1200)],
                ),
            ),
            ("reference_note", line(20)),
            (
                "reference_hertz",
                models.DecimalField(
                    blank=True, decimal_places=3, max_digits=8, null=True, validators=[validators.MinValueValidator(1)]
                ),
            ),
            ("description", prose()),
            ("source", line(500)),
            (
                "search_text",
                fields.SearchTextField(
                    blank=True, default="", editable=False, of=("name", "description", "source", "notes")
                ),
            ),
        ],
        options={
            "constraints": [
                models.CheckConstraint(
                    condition=models.Q(models.Q(("name", ""), _negated=True)), name="tuning_name_filled"
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("divisions__isnull", True),
                        models.Q(("divisions__gte", 1), ("divisions__lte", 1200)),
                        _connector="OR",
                    ),
                    name="tuning_divisions_in_range",
                ),
                models.CheckConstraint(
                    condition=models.Q(
                        ("reference_hertz__isnull", True),
                        models.Q(("reference_hertz__gte", 1), ("reference_hertz__lte", 99999)),
                        _connector="OR",
                    ),
                    name="tuning_reference_hertz_in_range",
                ),
            ]
        },
    ),
]


class Migration(migrations.Migration):
    initial = True
    replaces = [
        ("catalogue", "0001_initial"),
        ("catalogue", "0002_entry_keys"),
        ("catalogue", "0003_imports"),
        ("catalogue", "0004_tours"),
        ("catalogue", "0005_merges"),
        ("catalogue", "0006_claim_overrides"),
        ("catalogue", "0007_numbers_as_typed"),
        ("catalogue", "0008_member_keys"),
        ("catalogue", "0009_saves_of_halls_and_composers"),
        ("catalogue", "0010_tempo_maps_and_cues"),
        ("catalogue", "0011_records_around_works"),
        ("catalogue", "0012_calls"),
        ("catalogue", "0013_saved_views"),
        ("catalogue", "0014_house_styles"),
        ("catalogue", "0015_technical_needs"),
        ("catalogue", "0016_calendar_addresses"),
        ("catalogue", "0017_front_matter"),
        ("catalogue", "0018_stored_files"),
        ("catalogue", "0019_submissions"),
        ("catalogue", "0020_journeys"),
        ("catalogue", "0021_regions_of_halls"),
        ("catalogue", "0022_materials_and_hire"),
        ("catalogue", "0023_public_works"),
        ("catalogue", "0024_file_links"),
        ("catalogue", "0025_requirements_for_material"),
    ]
    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]
    operations = [
        CreateModels(TABLES),
    ]
