"""The hires of the invented demo house (``fixtures/demo/hires.toml``), packed and brought back as they say."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

from catalogue.actions.hires import Counted, Stage, count_list, save_hire
from catalogue.demo.rows import Row, copied, identity
from catalogue.models import Composer, Hire, HireItem, HireTerms, MaterialSet, Organisation, Performance, Work
from catalogue.rules.hires.making_up import part_of
from catalogue.terms.hires import PartAction, PartCondition

COLUMNS = (
    "purpose", "name", "attention", "address", "order_number", "carrier", "enclosed", "fee", "currency", "paid",
    "erasing_hours", "notes",
)  # fmt: skip


def load_hires(
    path: Path,
    *,
    composer: Composer,
    works: dict[str, Work],
    organisations: Callable[[str], Organisation],
    today: date,
) -> int:
    """Add the hires of a composer that are missing; return how many. Days of the file are told from ``today``."""
    rows = [row for row in tomllib.loads(path.read_text(encoding="utf-8"))["hire"] if row["work"] in works]
    here = [row for row in rows if works[row["work"]].composer_id == composer.pk]
    known = set(Hire.with_deleted.filter(composer=composer).values_list("uid", flat=True))
    missing = [row for row in here if identity("hires", row["slug"]) not in known]
    for row in missing:
        load_hire(hire_of(row, composer, works[row["work"]], organisations, today), row, today)
    return len(missing)


def hire_of(
    row: Row, composer: Composer, work: Work, organisations: Callable[[str], Organisation], today: date
) -> Hire:
    found = {
        "organisation": organisations(row["organisation"]) if "organisation" in row else None,
        "material_set": MaterialSet.objects.filter(uid=identity("records", row.get("set", ""))).first(),
        "terms": HireTerms.objects.filter(uid=identity("records", row.get("terms", ""))).first(),
    }
    days = {column: day_of(row[column], today) for column in ("out_on", "due_on", "extended_to") if column in row}
    return Hire(
        uid=identity("hires", row["slug"]), composer=composer, work=work, **found, **days, **copied(row, *COLUMNS)
    )


def day_of(typed: str, today: date) -> date:
    """Return a day that stands in the file, or is told in days from today: ``-20``, ``+35``."""
    return today + timedelta(days=int(typed)) if typed[:1] in "+-" else date.fromisoformat(typed)


def load_hire(hire: Hire, row: Row, today: date) -> None:
    """Store a hire at noon of the day on which it went out, and count its list then and on its return."""
    sent = hire.out_on or today
    played = [identity("performances", slug) for slug in row.get("performances", ())]
    performances = list(Performance.objects.filter(uid__in=played).in_date_order())
    save_hire(hire=hire, performances=performances, now=noon(min(sent, today)))
    if sent > today:
        return
    count(hire, Stage.SENT, {}, sent, more=row.get("things", {}))
    if "received" in row:
        count(hire, Stage.RECEIVED, {}, day_of(row["received"], today))
    if "back_on" in row:
        back = day_of(row["back_on"], today)
        count(hire, Stage.BACK, row.get("differs", {}), back, back_on=back)


def noon(day: date) -> datetime:
    return datetime.combine(day, time(12), UTC)


def count(hire: Hire, stage: Stage, differs: dict[str, Row], day: date, **options: Any) -> None:
    items = list(hire.items.all())
    counted = {item.pk: counted_of(item, differs.get(label_of(item), {})) for item in items}
    count_list(hire=hire, stage=stage, counted=counted, now=noon(day), **options)


def label_of(item: HireItem) -> str:
    part = part_of(item.part)
    return part.label if part else item.name


def counted_of(item: HireItem, row: Row) -> Counted:
    """What was counted of a row: all of it, unless the file says otherwise."""
    copies = row.get("copies", item.sent if item.sent is not None else item.expected)
    return Counted(
        copies,
        PartCondition(row["condition"]) if "condition" in row else None,
        row.get("remark", ""),
        PartAction(row["action"]) if "action" in row else None,
        Decimal(row["charge"]) if "charge" in row else None,
    )
