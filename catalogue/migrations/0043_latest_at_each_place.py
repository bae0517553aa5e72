"""The performances at each place, the latest first: the index by which they are counted has them in that order too."""

from __future__ import annotations

from importlib import import_module

from django.db import migrations, models

from catalogue.models.indexes import LatestFirst

MEASURE_ANEW = import_module("catalogue.migrations.0042_indexes_of_listed_performances").measure_anew


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0042_indexes_of_listed_performances"),
    ]

    operations = [
        migrations.RemoveIndex(model_name="performance", name="performance_by_place"),
        migrations.AddIndex(
            model_name="performance",
            index=LatestFirst(
                fields=["composer", "venue", "city", "country", "-first_day", "-time", "-id"],
                condition=models.Q(("deleted_at__isnull", True)),
                name="performance_by_place",
            ),
        ),
        migrations.RunPython(MEASURE_ANEW, migrations.RunPython.noop),
    ]
