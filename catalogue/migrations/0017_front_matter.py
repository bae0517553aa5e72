from django.conf import settings
from django.db import migrations, models

import catalogue.models.fields


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0016_calendar_addresses"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.AddField(
            model_name="edition",
            name="copyright_line",
            field=models.CharField(
                blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="edition",
            name="printing",
            field=models.CharField(
                blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="historicaledition",
            name="copyright_line",
            field=models.CharField(
                blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="historicaledition",
            name="printing",
            field=models.CharField(
                blank=True, default="", max_length=500, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="historicalperformancenote",
            name="purpose",
            field=models.CharField(
                choices=[
                    ("for playing", "For playing"),
                    ("for the sound operator", "For the sound operator"),
                    ("for practising", "For practising"),
                ],
                default="for playing",
                max_length=30,
            ),
        ),
        migrations.AddField(
            model_name="historicaltextsource",
            name="translation",
            field=models.TextField(
                blank=True, default="", max_length=50000, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="historicaltextsource",
            name="translation_clearance",
            field=models.CharField(
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
        migrations.AddField(
            model_name="historicaltextsource",
            name="translation_language",
            field=models.CharField(
                blank=True, default="", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="performancenote",
            name="purpose",
            field=models.CharField(
                choices=[
                    ("for playing", "For playing"),
                    ("for the sound operator", "For the sound operator"),
                    ("for practising", "For practising"),
                ],
                default="for playing",
                max_length=30,
            ),
        ),
        migrations.AddField(
            model_name="textsource",
            name="translation",
            field=models.TextField(
                blank=True, default="", max_length=50000, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="textsource",
            name="translation_clearance",
            field=models.CharField(
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
        migrations.AddField(
            model_name="textsource",
            name="translation_language",
            field=models.CharField(
                blank=True, default="", max_length=35, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AlterField(
            model_name="historicaltextsource",
            name="search_text",
            field=catalogue.models.fields.SearchTextField(
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
        migrations.AlterField(
            model_name="textsource",
            name="search_text",
            field=catalogue.models.fields.SearchTextField(
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
        migrations.AddConstraint(
            model_name="performancenote",
            constraint=models.CheckConstraint(
                condition=models.Q(("purpose__in", ["for playing", "for the sound operator", "for practising"])),
                name="performance_note_purpose_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="textsource",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "translation_clearance__in",
                        ["not asked", "asked", "granted", "refused", "public domain", "own text"],
                    )
                ),
                name="text_source_translation_clearance_known",
            ),
        ),
    ]
