from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, models, transaction

from catalogue.models import (
    Award,
    BilledName,
    Contributor,
    Edition,
    NotationSign,
    PercussionInstrument,
    PerformanceNote,
    Picture,
    ProgrammeNote,
    Recording,
    Retuning,
    TextSource,
)
from tests.makers import make_composer, make_organisation, make_person, make_work
from tests.record_makers import OF_WORK, make_record

pytestmark = pytest.mark.django_db

# model, columns that must not be stored, the column that the sentence stands at
WRONG: tuple[tuple[type[models.Model], dict[str, Any], str], ...] = (
    (Contributor, {"name": ""}, "name"),
    (Contributor, {"share": Decimal("100.5")}, "share"),
    (Contributor, {"role": "friend"}, "role"),
    (ProgrammeNote, {"body": ""}, "body"),
    (ProgrammeNote, {"length": "endless"}, "length"),
    (PerformanceNote, {"purpose": "for dancing"}, "purpose"),
    (PercussionInstrument, {"instrument": ""}, "instrument"),
    (PercussionInstrument, {"player": 0}, "player"),
    (NotationSign, {"cents": Decimal(1201)}, "cents"),
    (Retuning, {"tuned_to": ""}, "tuned_to"),
    (Edition, {"pitch": "in D"}, "pitch"),
    (TextSource, {"author": "", "title": ""}, "author"),
    (TextSource, {"clearance": "perhaps"}, "clearance"),
    (TextSource, {"translation_clearance": "perhaps"}, "translation_clearance"),
    (Award, {"name": ""}, "name"),
    (BilledName, {"person": None}, "person"),
    (Picture, {"alternative": ""}, "alternative"),
    (Recording, {"excerpt_from": 60, "excerpt_until": 60}, "excerpt_until"),
    (Recording, {"permission": "perhaps"}, "permission"),
)


def wrong_record(model: type[models.Model], columns: dict[str, Any]) -> models.Model:
    work = make_work()
    if model is Recording:
        return Recording(work=work, **columns)
    record = make_record(model, work=work)
    record.pk = None
    record.uid = type(record)._meta.get_field("uid").get_default()
    for name, value in columns.items():
        setattr(record, name, value)
    record._state.adding = True
    return record


@pytest.mark.parametrize(("model", "columns", "place"), WRONG)
def test_what_must_not_be_stored_is_told_at_its_column(
    model: type[models.Model], columns: dict[str, Any], place: str
) -> None:
    with pytest.raises(ValidationError) as refused:
        wrong_record(model, columns).full_clean(validate_constraints=False)

    assert list(refused.value.message_dict) == [place]


@pytest.mark.parametrize(("model", "columns", "place"), WRONG)
def test_the_database_refuses_the_same(model: type[models.Model], columns: dict[str, Any], place: str) -> None:
    record = wrong_record(model, columns)

    with pytest.raises(IntegrityError), transaction.atomic():
        record.save()


def test_record_names_nobody_of_another_catalogue() -> None:
    work, other = make_work(), make_composer("Bruno Vey")
    record = make_record(Contributor, work=work)
    record.person = make_person("Ada Lunn", composer=other)

    with pytest.raises(ValidationError) as refused:
        record.full_clean()

    assert refused.value.message_dict == {"person": ["“Ada Lunn” stands in another composer’s catalogue."]}


def test_one_line_is_for_a_person_or_for_an_organisation() -> None:
    record = make_record(Contributor, work=make_work())
    record.person, record.organisation = make_person(), make_organisation()

    with pytest.raises(ValidationError) as refused:
        record.full_clean()

    assert list(refused.value.message_dict) == ["organisation"]


def test_billed_name_is_the_one_typed_or_that_of_the_record() -> None:
    work, person = make_work(), make_person("Noor Halvorsen")

    typed = make_record(Contributor, work=work, person=person)
    known = make_record(Contributor, work=work, person=person, name="")

    assert (typed.billed_name, known.billed_name) == ("Mira Oxley", "Noor Halvorsen")


@pytest.mark.parametrize("model", OF_WORK, ids=lambda model: model.__name__)
def test_records_of_a_deleted_work_are_out_of_sight_and_come_back_with_it(model: type[models.Model]) -> None:
    work = make_work()
    record = make_record(model, work=work)
    manager: Any = model._default_manager

    type(work)._base_manager.filter(pk=work.pk).update(deleted_at="2026-01-15T12:00Z")
    hidden = list(manager.all())
    type(work)._base_manager.filter(pk=work.pk).update(deleted_at=None)

    assert (hidden, list(manager.all())) == ([], [record])
