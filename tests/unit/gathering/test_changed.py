"""Whose records were saved since a state, and what is kept of composers until then."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest

from catalogue.gathering.among import among
from catalogue.gathering.changed import composers_with_new_lines
from catalogue.gathering.of_composers import OfComposers
from catalogue.gathering.once import forget_all
from catalogue.gathering.versions import (
    HELD_BY_DUES,
    held_by_everything,
    kinds_of_everything,
    state_of_dues,
    state_of_everything,
)
from catalogue.models import Composer, House, Rider, RiderSending, Venue, Work
from tests.makers import NOW, make_composer, make_performance, make_venue, make_work
from tests.whole_catalogue import make_whole_catalogue

pytestmark = pytest.mark.django_db


@pytest.fixture
def composer() -> Composer:
    forget_all()
    return make_composer()


def changed_since(version: Any) -> Any:
    return composers_with_new_lines(state_of_everything(), held_by_everything(), version)


def test_every_record_leads_to_its_composer(composer: Composer) -> None:
    make_whole_catalogue(make_composer("Osk Verrin"))
    make_whole_catalogue(composer)
    told = {}
    for kind in kinds_of_everything():
        one: Any = kind._base_manager.order_by("pk").last()
        if one is not None and kind is not House:
            before = state_of_everything().version
            one.save()
            told[kind] = changed_since(before)

    last = Composer.objects.order_by("pk").last()
    assert told.pop(Composer) == {last.pk if last else None}
    assert told == dict.fromkeys(told, frozenset({composer.pk}))
    assert len(told) > 40


def test_of_what_is_nobodys_nothing_is_told(composer: Composer) -> None:
    before = state_of_everything().version
    House.objects.create(name="Slate & Wren")

    assert composer.pk
    assert changed_since(before) is None


def test_rider_that_is_sent_is_its_composers(composer: Composer) -> None:
    work = make_whole_catalogue(composer)
    before = state_of_dues()
    rider = Rider.objects.filter(work=work)[0]
    RiderSending.objects.create(
        rider=rider, revision=1, sent_to="Dock Hall", sent_at=NOW, expires_at=NOW, token_sha256="0" * 64
    )

    assert composers_with_new_lines(state_of_dues(), HELD_BY_DUES, before.version) == {composer.pk}


def test_pieces_are_reckoned_again_of_composers_who_were_saved_to(composer: Composer) -> None:
    other, asked = make_composer("Osk Verrin"), []
    titles: OfComposers[int, tuple[str, ...]] = OfComposers(held_by_everything(), most_askings=2, most=2)

    def reckon(keys: Iterable[int]) -> dict[int, tuple[str, ...]]:
        asked.append(sorted(keys))
        return {key: tuple(Work.objects.filter(composer=key).values_list("title", flat=True)) for key in keys}

    def now() -> dict[int, tuple[str, ...]]:
        return titles.to(state_of_everything(), {composer.pk: composer.pk, other.pk: other.pk}, "", reckon)

    work = make_work("Tides", composer=composer)
    first = now()
    make_work("Weirs", composer=other)
    second = now()
    Work.objects.get(pk=work.pk).delete()
    third = now()

    assert first == {composer.pk: ("Tides",), other.pk: ()}
    assert second == {composer.pk: ("Tides",), other.pk: ("Weirs",)}
    assert third == {composer.pk: (), other.pk: ("Weirs",)}
    assert now() == third
    assert asked == [sorted([composer.pk, other.pk]), [other.pk], [composer.pk]]


def test_of_pieces_those_that_were_asked_for_last_are_kept(composer: Composer) -> None:
    asked: list[list[int]] = []
    pieces: OfComposers[int, int] = OfComposers(held_by_everything(), most_askings=1, most=3)

    def ask(*keys: int, told: str = "") -> None:
        pieces.to(state_of_everything(), dict.fromkeys(keys, composer.pk), told, reckon)

    def reckon(keys: list[int]) -> dict[int, int]:
        asked.append(keys)
        return {key: key for key in keys}

    ask(1, 2)
    ask(3, 4)
    ask(2, 4)
    ask(1)
    ask(1, told="otherwise")
    ask(2)

    assert asked == [[1, 2], [3, 4], [1], [1], [2]]


@pytest.mark.parametrize("number", [0, 1, 2, 2_500])
def test_many_numbers_are_one_value(composer: Composer, number: int) -> None:
    keys = [composer.pk, *range(10_000_000, 10_000_000 + number)][:number]
    make_performance(make_work("Tides", composer=composer), venue=make_venue("Dock Hall", composer=composer))
    make_venue("Salt House", composer=make_composer("Osk Verrin"))
    asked = Venue.objects.filter(among("composer_id", keys)).exclude(name="Nowhere")

    assert [one.name for one in asked] == ["Dock Hall"][:number]
    _text, values = asked.query.sql_with_params()
    assert len(values) == 2
    assert hash(values)  # by which answers are remembered
