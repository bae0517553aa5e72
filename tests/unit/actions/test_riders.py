"""Riders that are sent: numbered, kept, opened by a token that nobody can read back, answered item by item."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from catalogue.actions.riders import Package, Said, find_sending, mark_read, send_rider, take_answers, withdraw_sending
from catalogue.models import Performance, Rider, RiderSending
from catalogue.terms import Answer
from tests.conftest import NOW
from tests.makers import make_work
from tests.record_makers import make_record
from tests.stored import everything_stored

pytestmark = pytest.mark.django_db

DESK, LAMP = "d" * 16, "e" * 16


@pytest.fixture
def rider() -> Rider:
    found: Rider = make_record(Rider, work=make_work("Ash Ferry"))
    return found


def sent(rider: Rider, *keys: str, **options: Any) -> tuple[RiderSending, str]:
    package = Package([{"key": key, "title": key} for key in keys], {"Inputs": ["1 violin"]}, {}, "en-GB")
    return send_rider(rider=rider, to="Dock Hall", package=package, now=options.get("now", NOW))


def test_the_token_opens_the_sending_and_is_kept_nowhere(rider: Rider) -> None:
    sending, token = sent(rider, DESK)

    assert len(token) == 43  # 256 bits, six to a sign
    assert find_sending(token, now=NOW) == sending
    assert token not in everything_stored()
    assert find_sending(token + "x", now=NOW) is None


def test_an_address_is_shut_when_it_is_withdrawn_runs_out_or_its_rider_is_deleted(rider: Rider) -> None:
    first, one = sent(rider)
    second, two = sent(rider)
    withdraw_sending(sending=first, now=NOW)

    assert find_sending(one, now=NOW) is None
    assert find_sending(two, now=second.expires_at - timedelta(seconds=1)) == second
    assert find_sending(two, now=second.expires_at) is None
    rider.deleted_at = NOW
    rider.save()
    assert find_sending(two, now=NOW) is None


def test_an_address_stays_open_for_two_weeks_after_a_late_performance(rider: Rider) -> None:
    sending, _token = sent(rider, now=NOW - timedelta(days=900))

    assert rider.performance.last_day is not None
    assert (sending.expires_at.date() - rider.performance.last_day).days == 14


def test_an_address_for_an_evening_without_a_day_is_open_for_four_months(rider: Rider) -> None:
    Performance.objects.filter(pk=rider.performance.pk).update(first_day=None, last_day=None)
    rider = Rider.objects.get(pk=rider.pk)

    assert rider.performance.last_day is None
    assert sent(rider)[0].expires_at == NOW + timedelta(days=120)


def test_an_answer_that_says_the_same_again_keeps_its_moment(rider: Rider) -> None:
    sending, _token = sent(rider, DESK, LAMP)
    take_answers(sending=sending, answers={DESK: Said(Answer.YES)}, by="Kit", message="", now=NOW)
    later = NOW + timedelta(hours=1)

    answers = {DESK: Said(Answer.YES), LAMP: Said(Answer.NO)}
    take_answers(sending=sending, answers=answers, by="Kit", message="", now=later)

    assert sorted(sending.answers.values_list("item", "answered_at")) == [(DESK, NOW), (LAMP, later)]


def test_an_answer_holds_in_the_next_revision_while_the_item_says_the_same(rider: Rider) -> None:
    first, _token = sent(rider, DESK, LAMP)
    answers = {DESK: Said(Answer.YES), LAMP: Said(Answer.NO, "three"), "f" * 16: Said(Answer.YES)}
    take_answers(sending=first, answers=answers, by="Kit", message="See you", now=NOW)
    second, _token = sent(rider, DESK)

    assert sorted(first.answers.values_list("item", "answer", "remark")) == [(DESK, "yes", ""), (LAMP, "no", "three")]
    assert second.revision == 2
    assert list(second.answers.values_list("item", "answer")) == [(DESK, "yes")]


def test_an_answer_can_be_changed_and_the_others_stay(rider: Rider) -> None:
    sending, _token = sent(rider, DESK, LAMP)
    take_answers(
        sending=sending, answers={DESK: Said(Answer.NO), LAMP: Said(Answer.YES)}, by="Kit", message="", now=NOW
    )
    take_answers(sending=sending, answers={DESK: Said(Answer.YES, "found one")}, by="Bo", message="", now=NOW)

    assert sorted(sending.answers.values_list("item", "answer", "remark")) == [
        (DESK, "yes", "found one"),
        (LAMP, "yes", ""),
    ]
    assert sending.answered_by == "Bo"


def test_what_cannot_be_printed_is_refused(rider: Rider) -> None:
    sending, _token = sent(rider, DESK)

    with pytest.raises(ValidationError):
        take_answers(sending=sending, answers={DESK: Said(Answer.NO, "\x07")}, by="Kit", message="", now=NOW)


def test_reading_is_counted(rider: Rider) -> None:
    sending, _token = sent(rider)
    for hours in (1, 2):
        mark_read(sending=sending, now=NOW + timedelta(hours=hours))
    sending.refresh_from_db()

    assert (sending.times_read, sending.first_read_at, sending.last_read_at) == (
        2,
        NOW + timedelta(hours=1),
        NOW + timedelta(hours=2),
    )
