"""Two who do the same at the same moment: both are done one after the other, and nothing of either is lost.

SQLite lets one write at a time; where rows are locked, what counts is PostgreSQL.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from threading import Barrier, Thread
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.storage import default_storage
from django.db import connection

from catalogue.actions.calls import begin_call, choose_works, note_submission
from catalogue.actions.composers import create_composer
from catalogue.actions.deletion import delete_record, restore_record
from catalogue.actions.entry import Founder, NameTaken, found_catalogue, make_entry_key
from catalogue.actions.hires import make_up_list, save_hire
from catalogue.actions.houses import leave_house, save_house
from catalogue.actions.members import MemberError, add_member, remove_member
from catalogue.actions.merging import merge, undo_merge
from catalogue.actions.performances import save_venue
from catalogue.actions.riders import Package, Said, send_rider, take_answers
from catalogue.actions.saving import Overtaken
from catalogue.exchange.handover.arriving import take_over
from catalogue.exchange.handover.leaving import hand_over
from catalogue.gathering.likenesses import Alike
from catalogue.models import (
    Composer,
    EntryKey,
    EntryPurpose,
    Hire,
    House,
    Membership,
    Merge,
    Rider,
    RiderSending,
    Submission,
    SubmittedWork,
    Venue,
)  # fmt: skip
from catalogue.terms import Answer, Role, SubmissionStatus
from tests.makers import NOW, make_composer, make_venue, make_work
from tests.record_makers import make_record

LOCKING = pytest.mark.skipif(connection.vendor != "postgresql", reason="only PostgreSQL lets two write at once")
PACKAGE = Package([{"key": "d" * 16, "title": "Desk"}], {}, {}, "en-GB")


def at_once(*tasks: Callable[[], object]) -> list[Exception]:
    """Run the tasks at the same moment, each with a connection of its own; return what they raised."""
    start, raised = Barrier(len(tasks)), []

    def run(task: Callable[[], object]) -> None:
        try:
            start.wait(timeout=10)
            task()
        except Exception as fault:
            raised.append(fault)
        finally:
            connection.close()

    threads = [Thread(target=run, args=[task]) for task in tasks]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return raised


def a_rider() -> Rider:
    found: Rider = make_record(Rider, work=make_work("Ash Ferry"))
    return found


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_two_sendings_of_a_rider_have_two_revisions() -> None:
    rider = a_rider()

    raised = at_once(*[lambda: send_rider(rider=rider, to="Dock Hall", package=PACKAGE, now=NOW)] * 4)

    assert raised == []
    assert sorted(RiderSending.objects.values_list("revision", flat=True)) == [1, 2, 3, 4]


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_answers_sent_twice_answer_each_item_once() -> None:
    sending, _token = send_rider(rider=a_rider(), to="Dock Hall", package=PACKAGE, now=NOW)
    answers = {"d" * 16: Said(Answer.YES)}

    raised = at_once(*[lambda: take_answers(sending=sending, answers=answers, by="Kit", message="", now=NOW)] * 4)

    assert raised == []
    assert sending.answers.count() == 1


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_two_hires_that_are_saved_at_once_have_two_numbers_and_lists_are_made_once() -> None:
    work = make_work("Slack Rope", instrumentation="fl, pf")
    hires = [Hire(composer=work.composer, work=work, name="Two Bells Orchestra") for _number in range(4)]

    def saving(hire: Hire) -> Callable[[], object]:
        return lambda: save_hire(hire=hire, performances=(), now=NOW)

    raised = at_once(*map(saving, hires))
    raised += at_once(*[lambda: make_up_list(Hire.objects.get(pk=hires[0].pk))] * 2)

    assert raised == []
    assert sorted(Hire.objects.values_list("number", flat=True)) == [f"2026-00{number}" for number in (1, 2, 3, 4)]
    assert len({hire.items.count() for hire in hires}) == 1


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_works_chosen_twice_for_a_call_are_sent_once() -> None:
    work = make_work("Slack Rope")
    call = begin_call(composer=work.composer, title="A call", now=NOW)

    raised = at_once(*[lambda: choose_works(call=call, works=[work])] * 4)

    assert raised == []
    assert SubmittedWork.objects.count() == 1


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_composers_of_one_name_who_come_at_once_have_addresses_of_their_own() -> None:
    raised = at_once(*[lambda: create_composer(name="Ilka Marovand", owner=None, sort_name="Marovand, Ilka")] * 4)

    assert raised == []
    slugs = sorted(Composer.objects.values_list("slug", flat=True))
    assert slugs == ["ilka-marovand", *(f"ilka-marovand-{number}" for number in (2, 3, 4))]


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_catalogues_that_are_taken_over_at_once_have_addresses_of_their_own(tmp_path: Path) -> None:
    path = tmp_path / "catalogue.zip"
    hand_over(path, make_composer("Ilka Marovand"), to="Second House", now=NOW, storage=default_storage)
    owners = [User.objects.create_user(name) for name in ("rana", "tobiah")]

    raised = at_once(*[partial(take_over, path, owner=one, now=NOW, storage=default_storage) for one in owners])

    assert raised == []
    assert sorted(Composer.objects.values_list("slug", flat=True)) == [
        "ilka-marovand", "ilka-marovand-2", "ilka-marovand-3",
    ]  # fmt: skip


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_somebody_new_whom_several_let_in_at_once_is_one_user() -> None:
    """Of catalogues of different owners the first gives a way in; the others say that nobody can tell who it is."""
    composers = [make_composer(f"Composer {number}") for number in range(4)]
    names = ("kit", "Kit", "KIT", "kit")

    raised = at_once(
        *[
            partial(add_member, composer=composer, user_name=name, role=Role.EDITOR, now=NOW)
            for composer, name in zip(composers, names, strict=True)
        ]
    )

    assert [type(fault) for fault in raised] == [MemberError] * 3
    assert Membership.objects.get().user == User.objects.get()
    assert EntryKey.objects.count() == 1


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_somebody_who_is_let_into_one_catalogue_twice_at_once_is_a_member_once() -> None:
    composer = make_composer()

    raised = at_once(*[partial(add_member, composer=composer, user_name="kit", role=Role.EDITOR, now=NOW)] * 4)

    assert sorted(str(fault) for fault in raised) == ["“kit” is a member already."] * 3
    assert (User.objects.count(), Membership.objects.count(), EntryKey.objects.count()) == (1, 1, 1)


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_of_two_owners_who_are_taken_out_at_once_one_stays() -> None:
    composer = make_composer()
    for name in ("rana", "tobiah"):
        Membership.objects.create(user=User.objects.create_user(name), composer=composer, role=Role.OWNER)

    raised = at_once(*[partial(remove_member, membership=one) for one in Membership.objects.select_related("user")])

    assert [str(fault) for fault in raised] == ["A catalogue needs an owner; make somebody else one first."]
    assert Membership.objects.count() == 1


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_of_founders_who_choose_one_name_at_once_one_is_told_that_it_is_taken() -> None:
    tokens = [make_entry_key(EntryPurpose.OWNER, now=NOW) for _founder in range(3)]
    founders = [Founder(f"Composer {number}", name, "seven ropes") for number, name in enumerate(("kit", "Kit", "KIT"))]

    raised = at_once(*[partial(found_catalogue, *both, now=NOW) for both in zip(tokens, founders, strict=True)])

    assert [type(fault) for fault in raised] == [NameTaken] * 2
    assert (User.objects.count(), Composer.objects.count()) == (1, 1)
    assert EntryKey.objects.usable(EntryPurpose.OWNER, NOW).count() == 2


@LOCKING
@pytest.mark.django_db(transaction=True)
def test_of_two_notes_on_a_submission_one_is_told_of_the_other() -> None:
    call = begin_call(composer=make_composer(), title="A call", now=NOW)
    told = {"status": SubmissionStatus.SENT, "sent_on": None, "feedback": "", "saves": 0, "now": NOW}

    raised = at_once(*[partial(note_submission, call=call, outcome=one, **told) for one in ("Won", "Lost", "Open")])

    assert [type(fault) for fault in raised] == [Overtaken] * 2
    assert Submission.objects.get().saves == 1


@pytest.mark.django_db
def test_what_was_saved_meanwhile_outlasts_deleting_and_bringing_back() -> None:
    venue = make_venue("Dock Hall")
    seen, seen_later = (Venue.objects.get(pk=venue.pk) for _reader in range(2))
    venue.city = "Haldor"
    save_venue(venue=venue, now=NOW)

    delete_record(record=seen, by=None, now=NOW)
    restore_record(record=seen_later, now=NOW)

    stored = Venue.objects.get(pk=venue.pk)
    assert (stored.city, stored.deleted_at, stored.saves) == ("Haldor", None, venue.saves + 2)


@pytest.mark.django_db
def test_merge_that_is_undone_twice_is_undone_once() -> None:
    composer = make_composer()
    kept, gone = (make_venue(name, composer=composer) for name in ("Dock Hall", "Dockhall"))
    merge(composer=composer, sort=Alike.VENUE, kept=str(kept.pk), gone=str(gone.pk), by=None, now=NOW)
    first, second = (Merge.objects.get() for _reader in range(2))

    undo_merge(merged=first, now=NOW)
    saves = Venue.objects.get(pk=gone.pk).saves
    undo_merge(merged=second, now=NOW)

    assert Venue.objects.get(pk=gone.pk).saves == saves


@pytest.mark.django_db
def test_composer_who_leaves_a_house_keeps_what_was_saved_meanwhile() -> None:
    composers = [make_composer(name) for name in ("Ilka Marovand", "Joren Tarnow")]
    save_house(house=House(name="Quay Press"), composers=composers, now=NOW)
    seen: list[Any] = list(Composer.objects.order_by("pk"))
    Composer.objects.filter(pk=seen[0].pk).update(birthplace="Haldor")

    for composer in seen:
        leave_house(composer=composer, now=NOW)

    assert Composer.objects.get(pk=seen[0].pk).birthplace == "Haldor"
    assert not House.objects.exists()
