import django.db.models.deletion
from django.db import migrations, models

import catalogue.models.fields


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0023_public_works"),
    ]

    operations = [
        migrations.CreateModel(
            name="FileLink",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "purpose",
                    models.CharField(
                        choices=[("perusal", "Perusal"), ("delivery of parts", "Delivery of parts")],
                        default="perusal",
                        max_length=20,
                    ),
                ),
                (
                    "recipient",
                    models.CharField(
                        default="", max_length=200, validators=[catalogue.models.fields.refuse_unprintable]
                    ),
                ),
                (
                    "message",
                    models.TextField(
                        blank=True,
                        default="",
                        max_length=50000,
                        validators=[catalogue.models.fields.refuse_unprintable],
                    ),
                ),
                ("sent_at", models.DateTimeField()),
                ("token_sha256", models.CharField(max_length=64, unique=True)),
                ("expires_at", models.DateTimeField()),
                ("withdrawn_at", models.DateTimeField(null=True)),
                ("first_read_at", models.DateTimeField(null=True)),
                ("last_read_at", models.DateTimeField(null=True)),
                ("times_read", models.PositiveIntegerField(default=0)),
                (
                    "composer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="+", to="catalogue.composer"
                    ),
                ),
                (
                    "hire",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="catalogue.hire",
                    ),
                ),
                (
                    "work",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to="catalogue.work",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="LinkedFile",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("position", models.PositiveSmallIntegerField()),
                ("times_taken", models.PositiveIntegerField(default=0)),
                (
                    "file",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="+", to="catalogue.storedfile"
                    ),
                ),
                (
                    "link",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="files", to="catalogue.filelink"
                    ),
                ),
            ],
            options={
                "ordering": ("position",),
            },
        ),
        migrations.AddConstraint(
            model_name="filelink",
            constraint=models.CheckConstraint(
                condition=models.Q(("purpose__in", ["perusal", "delivery of parts"])), name="file_link_purpose_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="linkedfile",
            constraint=models.UniqueConstraint(fields=("link", "position"), name="linked_file_position_once"),
        ),
    ]
