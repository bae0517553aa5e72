"""The papers that the demo has sent, made as the catalogue stands: ``fixtures/demo/papers_sent.toml``."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

from django.http import QueryDict

from catalogue.actions.records import save_record
from catalogue.demo.loading import FOLDER
from catalogue.demo.rows import identity
from catalogue.making import make_document
from catalogue.models import Composer, Organisation, Sending, Work
from catalogue.web.forms.documents import FORMS
from catalogue.web.sent_papers import begin, keep_paper


def send_demo_papers(now: datetime) -> int:
    """Keep the papers that are not kept yet; return how many."""
    return sum(sent(row, now) for row in papers())


def papers() -> Iterator[dict[str, Any]]:
    yield from tomllib.loads((FOLDER / "papers_sent.toml").read_text(encoding="utf-8"))["sending"]


def sent(row: dict[str, Any], now: datetime) -> bool:
    uid, composer = identity("papers", row["slug"]), Composer.objects.filter(slug=row["composer"]).first()
    if composer is None or Sending.with_deleted.filter(uid=uid).exists():
        return False
    left = now + timedelta(days=row["days"])
    form = FORMS[row["document"]](asked_of(row, composer), composer=composer, today=left.date())
    if not form.is_valid():
        raise ValueError(f"{row['slug']}: {form.errors.as_text()}")
    sending = begin(form)
    sending.uid, sending.notes, sending.name = uid, row["notes"], row["to"]
    sending.organisation = Organisation.objects.filter(composer=composer, name=row["to"]).first()
    name = "-".join((composer.slug, form.kind))
    keep_paper(sending, make_document(composer, form.wish()), row["format"], name)
    save_record(record=sending, now=left)
    return True


def asked_of(row: dict[str, Any], composer: Composer) -> QueryDict:
    asked = QueryDict(mutable=True)
    asked.update(row["asked"])
    if "work" in row:
        work = Work.objects.get(composer=composer, uid=identity("works", row["work"]))
        asked["work"] = str(work.pk)
    return asked
