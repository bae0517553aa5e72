"""The records around the works of the invented demo house (``fixtures/demo/records.toml``)."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from django.apps import apps
from django.core.files.storage import default_storage
from django.db import models

from catalogue.actions.records import save_record
from catalogue.demo.rows import Row, identity
from catalogue.exchange.pictures import keep_picture, probe_picture
from catalogue.models import Composer, Edition, Performance, Picture, TechnicalSetup, Work
from catalogue.models.kept import KeptOfWork
from catalogue.timing import PartialDate

Finder = Callable[[str], models.Model]


def load_records(
    path: Path,
    *,
    composer: Composer,
    works: dict[str, Work],
    people: Finder,
    organisations: Finder,
    now: datetime,
) -> int:
    """Add the records of a composer that are missing; return how many. ``people`` and the other find by slug."""
    named: dict[str, Finder] = {
        "person": people,
        "organisation": organisations,
        "publisher": organisations,
        "body": organisations,
        "performance": lambda slug: Performance.objects.get(uid=identity("performances", slug)),
        "setup": lambda slug: TechnicalSetup.objects.get(uid=identity("records", slug)),
        "edition": lambda slug: Edition.objects.get(uid=identity("records", slug)),
        "replaces": lambda slug: Edition.objects.get(uid=identity("records", slug)),
    }
    added = 0
    for kind, rows in tomllib.loads(path.read_text(encoding="utf-8")).items():
        model: Any = apps.get_model("catalogue", kind.replace("_", ""))
        here = [row for row in rows if belongs(row, model, composer, works)]
        known = set(model.with_deleted.filter(uid__in=[uid_of(row) for row in here]).values_list("uid", flat=True))
        for row in here:
            if uid_of(row) not in known:
                save_record(record=record_of(model, row, composer, works, named, path.parent), now=now)
                added += 1
    return added


def uid_of(row: Row) -> Any:
    return identity("records", row["slug"])


def belongs(row: Row, model: Any, composer: Composer, works: dict[str, Work]) -> bool:
    """Say whether a row is one of the composer's whose work and performance, if it names them, are loaded."""
    if "work" in row and row["work"] not in works:
        return False
    if "performance" in row and not Performance.objects.filter(uid=identity("performances", row["performance"])):
        return False
    return issubclass(model, KeptOfWork) or row["composer"] == composer.slug


def record_of(
    model: Any, row: Row, composer: Composer, works: dict[str, Work], named: dict[str, Finder], folder: Path
) -> Any:
    """Make the record of a row; dates and numbers stay as they are typed until it is checked."""
    record = model(uid=uid_of(row)) if issubclass(model, KeptOfWork) else model(uid=uid_of(row), composer=composer)
    for column, value in row.items():
        if column == "work":
            record.work = works[value]
        elif column not in {"slug", "composer", "days", "file"}:
            setattr(record, column, named[column](value) if column in named and not is_text(model, column) else value)
    if "file" in row:
        keep_file(record, (folder / row["file"]).read_bytes())
    for column, number in row.get("days", {}).items():
        setattr(record, column, PartialDate.of(record.performance.first_day + timedelta(days=number)))
    return record


def keep_file(picture: Picture, content: bytes) -> None:
    """Keep the file of a picture as one that is sent to a page is kept."""
    probed = probe_picture(content)
    picture.sha256, picture.suffix = keep_picture(probed, default_storage), probed.suffix
    picture.width, picture.height, picture.byte_count = probed.width, probed.height, len(probed.content)


def is_text(model: Any, column: str) -> bool:
    return not model._meta.get_field(column).is_relation
