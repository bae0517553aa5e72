from __future__ import annotations

import pytest
from django.apps import apps
from django.contrib.auth.models import AnonymousUser, User
from django.db import models

from catalogue.actions.calendars import make_address
from catalogue.actions.calls import choose_works, propose_call
from catalogue.actions.file_links import open_link
from catalogue.actions.handovers import note_taken
from catalogue.actions.riders import Package, Said, send_rider, take_answers
from catalogue.actions.submissions import LetterDays, ask_referee
from catalogue.models import (
    AskedMail,
    CalendarAddress,
    Call,
    Commission,
    Composer,
    Cue,
    EntryKey,
    FileLink,
    HandOver,
    Hire,
    HiredPerformance,
    HireItem,
    House,
    ImportBatch,
    ImportedRecord,
    InstrumentationLine,
    LinkedFile,
    Membership,
    Merge,
    Movement,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    ProgrammedWork,
    Recording,
    RecoveryCode,
    Referee,
    Reference,
    Rider,
    RiderAnswer,
    RiderSending,
    SavedView,
    SecondFactor,
    SetApart,
    StoredFile,
    Submission,
    SubmittedWork,
    Venue,
    Work,
)
from catalogue.terms import Answer, Role
from catalogue.terms.hires import LinkPurpose
from tests.makers import (
    NOW,
    make_composer,
    make_member,
    make_performance,
    make_recording,
    make_user,
    make_venue,
    make_work,
)
from tests.record_makers import OF_COMPOSER, OF_WORK, make_one_of_each

pytestmark = pytest.mark.django_db

RECORDS: tuple[type[models.Model], ...] = (
    CalendarAddress,
    Call,
    Commission,
    Composer,
    Cue,
    FileLink,
    HandOver,
    HiredPerformance,
    HireItem,
    House,
    ImportBatch,
    ImportedRecord,
    InstrumentationLine,
    LinkedFile,
    Membership,
    Merge,
    Movement,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    ProgrammedWork,
    Recording,
    Reference,
    RiderAnswer,
    RiderSending,
    SavedView,
    SetApart,
    Submission,
    SubmittedWork,
    Venue,
    Work,
    *OF_WORK,
    *OF_COMPOSER,
)
OF_NO_COMPOSER = {
    EntryKey,
    AskedMail,
    SecondFactor,
    RecoveryCode,
}  # they let somebody in, whatever catalogues there are


@pytest.fixture
def owner() -> User:
    return make_user("ilse")


@pytest.fixture
def full_catalogue(owner: User) -> Composer:
    """One record of every kind, and a second composer with the same, whom nobody of the first may see."""
    for name, user in (("Ilse Tarnow", owner), ("Bruno Vey", make_user("bruno"))):
        composer = make_composer(name, owner=user)
        composer.house = House.objects.create(name="Two Quays Music")
        composer.save()
        work = make_work(
            composer=composer,
            instrumentation="pf",
            movements=("I",),
            commissioned_by=("A hall",),
            cues=(("1", "1", "Click"),),
        )
        venue = make_venue(composer=composer)
        performance = make_performance(work, venue=venue, performers=("Kestrel Ensemble",))
        make_recording(work)
        made = make_one_of_each(work)
        package = Package([{"key": "0" * 16}], {}, {}, "en-GB")
        sending, _token = send_rider(rider=made[Rider], to="A hall", package=package, now=NOW)
        take_answers(sending=sending, answers={"0" * 16: Said(Answer.YES)}, by="Kit", message="", now=NOW)
        HiredPerformance.objects.create(hire=made[Hire], performance=performance)
        purpose = LinkPurpose.PERUSAL
        open_link(composer=composer, recipient="A hall", files=[made[StoredFile]], purpose=purpose, days=9, now=NOW)
        HireItem.objects.create(hire=made[Hire], name="Errata list")
        call = propose_call(composer=composer, text="A call for scores", now=NOW)
        choose_works(call=call, works=[work])
        ask_referee(call=call, referee=made[Referee], days=LetterDays())
        batch = ImportBatch.objects.create(composer=composer, name="works.csv", made_at=NOW)
        note_taken(composer=composer, sha256="0" * 64, records=1, by=user, now=NOW)
        Merge.objects.create(composer=composer, sort="name", made_at=NOW)
        make_address(composer=composer, keeper=user, label="Telephone", now=NOW)
        SavedView.objects.create(composer=composer, table="works", name="Short", query="length=-10")
        SetApart.objects.create(composer=composer, sort="name", one="Iva", other="Ivo")
        ImportedRecord.objects.create(batch=batch, sort="work", record=work.pk, label="Tides", after={})
    return Composer.objects.get(slug="ilse-tarnow")


def test_every_model_of_the_catalogue_is_asked() -> None:
    models_here = {model for model in apps.get_app_config("catalogue").get_models() if not hasattr(model, "history_id")}

    assert models_here - OF_NO_COMPOSER == set(RECORDS)


def test_user_sees_and_edits_the_records_of_their_own_composer_only(owner: User, full_catalogue: Composer) -> None:
    managers = {model.__name__: model._default_manager for model in RECORDS}

    assert {name: manager.count() for name, manager in managers.items()} == dict.fromkeys(managers, 2)
    for question in ("visible_to", "editable_by"):
        answers = {name: getattr(manager, question)(owner) for name, manager in managers.items()}
        seen = {name: [composer_of(record) for record in answer] for name, answer in answers.items()}
        assert seen == {name: [full_catalogue] for name in managers}


@pytest.mark.usefixtures("full_catalogue")
def test_strangers_see_nothing() -> None:
    stranger = make_user("stranger", is_superuser=True)

    for person in (stranger, AnonymousUser()):
        assert [model for model in RECORDS if model._default_manager.visible_to(person)] == []


@pytest.mark.parametrize(
    ("role", "sees", "edits", "owns"),
    [
        (Role.OWNER, True, True, True),
        (Role.EDITOR, True, True, False),
        (Role.VIEWER, True, False, False),
        (Role.LIBRARIAN, False, False, False),
    ],
)
def test_role_says_what_a_member_may_do(role: Role, sees: bool, edits: bool, owns: bool) -> None:
    work = make_work(composer=make_composer(owner=make_user()))
    member = make_member(work.composer, "member", role)

    assert Work.objects.visible_to(member).exists() is sees
    assert Work.objects.editable_by(member).exists() is edits
    assert Composer.objects.owned_by(member).exists() is owns


def test_members_of_several_catalogues_see_each_record_once(owner: User) -> None:
    first, second = make_composer(owner=owner), make_composer("Bruno Vey", owner=owner)
    make_member(first, "other", Role.EDITOR)
    works = [make_work(composer=first), make_work(composer=second)]

    assert list(Work.objects.visible_to(owner).order_by("pk")) == works


def composer_of(record: models.Model) -> Composer:
    if isinstance(record, Composer):
        return record
    if isinstance(record, House):
        return record.composers.get()
    if isinstance(record, RiderAnswer):
        return record.sending.rider.composer
    for way in ("link", "hire", "work", "performance", "batch", "call", "rider", "referee"):
        if hasattr(record, way) and not hasattr(record, "composer"):
            return getattr(record, way).composer
    return record.composer
