from django.db import migrations, models

import catalogue.models.fields


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0020_journeys"),
    ]

    operations = [
        migrations.AddField(
            model_name="historicalvenue",
            name="region",
            field=models.CharField(
                blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AddField(
            model_name="venue",
            name="region",
            field=models.CharField(
                blank=True, default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
            ),
        ),
        migrations.AlterField(
            model_name="historicalvenue",
            name="search_text",
            field=catalogue.models.fields.SearchTextField(
                blank=True, default="", editable=False, of=("name", "city", "region")
            ),
        ),
        migrations.AlterField(
            model_name="venue",
            name="search_text",
            field=catalogue.models.fields.SearchTextField(
                blank=True, default="", editable=False, of=("name", "city", "region")
            ),
        ),
    ]
