from __future__ import annotations

import pytest
from django.apps import apps
from django.db import models

from catalogue.models import (
    AskedMail,
    CalendarAddress,
    EntryKey,
    FileLink,
    HandOver,
    ImportBatch,
    ImportedRecord,
    InstrumentationLine,
    LinkedFile,
    Merge,
    RecoveryCode,
    RiderAnswer,
    RiderSending,
    SavedView,
    SecondFactor,
    SetApart,
    Work,
)
from catalogue.timing import Duration
from tests.makers import make_work

# derived from a work; used up or expired within a day; what they say is history already; how a list is looked at
WITHOUT_HISTORY = {
    RecoveryCode,
    SecondFactor,
    AskedMail,
    CalendarAddress,
    InstrumentationLine,
    LinkedFile,
    EntryKey,
    FileLink,
    HandOver,
    ImportBatch,
    ImportedRecord,
    Merge,
    RiderAnswer,
    RiderSending,
    SavedView,
    SetApart,
}
RECORDS = [
    model
    for model in apps.get_app_config("catalogue").get_models()
    if model not in WITHOUT_HISTORY and not hasattr(model, "history_id")
]


@pytest.mark.parametrize("model", RECORDS, ids=lambda model: model.__name__)
def test_every_record_keeps_its_history(model: type[models.Model]) -> None:
    kept = {field.name for field in model.history.model._meta.get_fields()}

    assert {field.name for field in model._meta.concrete_fields} <= kept


@pytest.mark.parametrize("model", sorted(WITHOUT_HISTORY, key=lambda model: model.__name__))
def test_what_is_no_record_keeps_none(model: type[models.Model]) -> None:
    assert not hasattr(model, "history")


@pytest.mark.django_db
def test_history_holds_values() -> None:
    work = make_work("Tides", duration="12 min")
    work.title, work.duration = "Ebb", Duration(600)
    work.save()

    assert [(past.title, past.duration) for past in Work.history.order_by("history_id")] == [
        ("Tides", Duration(720)),
        ("Ebb", Duration(600)),
    ]


@pytest.mark.django_db
def test_record_can_be_taken_back_to_what_it_was() -> None:
    work = make_work("Tides", duration="12 min")
    work.title = "Ebb"
    work.save()

    Work.history.earliest().instance.save()

    found = Work.objects.get(pk=work.pk)
    assert (found.title, found.duration) == ("Tides", Duration(720))
