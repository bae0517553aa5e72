import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models
from django.utils import timezone

import catalogue.models.fields


def keep_addresses(apps, schema_editor):
    """An address that is in use stays in use: it becomes the first owner's."""
    Composer, Membership = apps.get_model("catalogue", "Composer"), apps.get_model("catalogue", "Membership")
    CalendarAddress = apps.get_model("catalogue", "CalendarAddress")
    database = schema_editor.connection.alias
    for composer in Composer.objects.using(database).exclude(feed_token_sha256=""):
        owner = Membership.objects.using(database).filter(composer=composer, role="owner").order_by("pk").first()
        if owner is not None:
            CalendarAddress.objects.using(database).create(
                composer=composer,
                keeper_id=owner.user_id,
                label="Calendar",
                token_sha256=composer.feed_token_sha256,
                made_at=timezone.now(),
            )


def leave(apps, schema_editor):
    """Going back, no address is in use."""


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0015_technical_needs"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="CalendarAddress",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "label",
                    models.CharField(
                        default="", max_length=60, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
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
                (
                    "query",
                    models.CharField(
                        blank=True, max_length=2000, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                ("token_sha256", models.CharField(editable=False, max_length=64, unique=True)),
                ("made_at", models.DateTimeField(editable=False)),
                ("read_on", models.DateField(blank=True, editable=False, null=True)),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="calendar_addresses",
                        to="catalogue.composer",
                    ),
                ),
                (
                    "keeper",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="calendar_addresses",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
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
        migrations.RunPython(keep_addresses, leave),
        migrations.RemoveConstraint(model_name="composer", name="composer_feed_token_unique"),
        migrations.RemoveField(model_name="composer", name="feed_token_sha256"),
        migrations.RemoveField(model_name="historicalcomposer", name="feed_token_sha256"),
        migrations.AddField(
            model_name="performance", name="second_time", field=models.BooleanField(blank=True, null=True)
        ),
        migrations.AddField(
            model_name="historicalperformance", name="second_time", field=models.BooleanField(blank=True, null=True)
        ),
    ]
