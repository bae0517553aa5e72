"""The secrets of the second step are stored sealed; those that stood plain are sealed on the way, and opened back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.db import migrations, models

from catalogue.actions.sealed_secrets import sealed, unsealed


def change(each: Callable[[str], str]) -> Callable[[Any, Any], None]:
    def change_all(apps: Any, schema_editor: Any) -> None:
        database = schema_editor.connection.alias
        for factor in apps.get_model("catalogue", "SecondFactor").objects.using(database):
            factor.sealed_secret = each(factor.sealed_secret)
            factor.save(update_fields=["sealed_secret"])

    return change_all


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0031_hand_overs")]
    operations = [
        migrations.RenameField("secondfactor", "secret", "sealed_secret"),
        migrations.AlterField("secondfactor", "sealed_secret", models.CharField(max_length=128)),
        migrations.RunPython(change(sealed), change(unsealed)),
    ]
