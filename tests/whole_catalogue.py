"""A catalogue with one record of every kind in it, and a way to write into every text of it. All names are invented."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime
from typing import Any

from django.apps import apps
from django.contrib.auth.models import User
from django.db import models

from catalogue.actions.calendars import make_address
from catalogue.actions.file_links import open_link
from catalogue.actions.handovers import note_given
from catalogue.models import (
    Call,
    Commission,
    Composer,
    Hire,
    HireItem,
    PerformanceCredit,
    SavedView,
    StoredFile,
    Submission,
    SubmittedWork,
    Work,
)
from catalogue.models.fields import SearchTextField
from catalogue.models.typed_lists import READERS
from catalogue.terms.hires import LinkPurpose
from tests.makers import make_organisation, make_performance, make_person, make_recording, make_venue, make_work
from tests.record_makers import make_one_of_each

TEXTS = {models.CharField, models.TextField, models.EmailField, models.URLField}
CODES = {
    "slug", "smufl", "zone", "country", "language", "instrumentation", "tempo_map", "currency", "sha256", "suffix",
    "title_language", "original_language", "text_language", "translation_language", "electronics", "cue_letters",
    "claim_override", "number", "place", "layout", "table", "query", "item", "paper_ink", *READERS,
}  # fmt: skip
"""Columns whose text is read: what stands there has a form of its own, which the forms ask for."""
NOT_WRITTEN = ("Historical", "EntryKey", "Import", "InstrumentationLine", "Merge", "SetApart")


def make_whole_catalogue(composer: Composer) -> Work:
    """Store one record of each kind, linked as they would be, and return the work that they hang on."""
    work = make_work(
        "Rope Tables",
        composer=composer,
        duration="12'",
        completed="2021",
        movements=("I", "II"),
        cues=(("1", "12", "go"),),
        instrumentation="2.2.2.2 – 4.2.3.1 – timp, 2 perc – str",
        tempo_map="1-12 4/4 q=60",
    )
    venue = make_venue("Dock Hall", composer=composer)
    presenter = make_organisation("Kestrel Festival", composer=composer)
    player = make_person("Noor Halvorsen", composer=composer)
    performance = make_performance(work, venue=venue, date="2026-05-16", status="confirmed", presenter=presenter)
    PerformanceCredit.objects.create(performance=performance, person=player)
    PerformanceCredit.objects.create(performance=performance, name="Kestrel Ensemble")
    Commission.objects.create(work=work, name="Harbour Fund")
    make_recording(work)
    call = Call(composer=composer, title="A reading", full_text="A reading.\nLength: up to 20 minutes.")
    call.full_clean()
    call.save()
    SubmittedWork.objects.create(submission=Submission.objects.create(call=call), work=work)
    SavedView.objects.create(composer=composer, table="works", name="Short")
    make_one_of_each(work)
    return work


def give_away(composer: Composer, keeper: User, *, now: datetime) -> str:
    """Add what a whole catalogue has once something of it went to others; return where a file is shared."""
    hire = Hire.objects.filter(composer=composer).earliest("pk")
    HireItem.objects.create(hire=hire, name="Violin I")
    note_given(composer=composer, to="Second House", sha256="0" * 64, records=1, by=None, now=now)
    make_address(composer=composer, keeper=keeper, label="A telephone", now=now)
    files = list(StoredFile.objects.filter(composer=composer))
    told = {"recipient": "A hall", "message": "As agreed.", "purpose": LinkPurpose.PERUSAL, "days": 30, "hire": hire}
    return open_link(composer=composer, files=files, now=now, **told)[1]


def text_columns() -> Iterator[tuple[type[models.Model], Any]]:
    """Yield every column of the catalogue in which somebody writes freely, with its model."""
    for model in apps.get_app_config("catalogue").get_models():
        if model.__name__.startswith(NOT_WRITTEN):
            continue
        for column in model._meta.concrete_fields:
            if type(column) in TEXTS and not column.choices and not is_code(column):
                yield model, column


def is_code(column: Any) -> bool:
    return isinstance(column, SearchTextField) or column.name in CODES or column.unique


def fill_texts(text_for: Callable[[type[models.Model], Any], str]) -> None:
    """Write into every text column of every stored record, past the forms and what they refuse."""
    written: dict[type[models.Model], dict[str, str]] = {}
    for model, column in text_columns():
        written.setdefault(model, {})[column.name] = text_for(model, column)[: column.max_length]
    for model, columns in written.items():
        model._base_manager.update(**columns)
