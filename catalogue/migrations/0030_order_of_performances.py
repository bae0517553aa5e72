from django.db import migrations, models

from catalogue.models.indexes import LatestFirst


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0029_adjusted_looks")]

    operations = [
        migrations.RemoveIndex(model_name="performance", name="performance_latest_first"),
        migrations.AddIndex(
            model_name="performance",
            index=LatestFirst(
                fields=["composer", "-first_day", "-time", "-id"],
                condition=models.Q(("deleted_at__isnull", True)),
                name="performance_latest_first",
            ),
        ),
    ]
