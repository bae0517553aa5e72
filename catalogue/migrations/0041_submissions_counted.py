"""Submissions count their saves, so that none is written over unseen."""

from __future__ import annotations

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0040_papers_sent"),
    ]

    operations = [
        migrations.AddField(
            model_name="historicalsubmission",
            name="changed_at",
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddField(
            model_name="historicalsubmission",
            name="saves",
            field=models.PositiveIntegerField(default=0, editable=False),
        ),
        migrations.AddField(
            model_name="submission",
            name="changed_at",
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddField(
            model_name="submission",
            name="saves",
            field=models.PositiveIntegerField(default=0, editable=False),
        ),
    ]
