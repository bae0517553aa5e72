"""What a list says of firsts: known and brought forward it is what reckoning the whole catalogue gives."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from random import Random
from typing import Any

import pytest

from catalogue.actions.performances import (
    delete_performance,
    restore_performance,
    save_performance,
    save_venue,
)
from catalogue.actions.works import save_work
from catalogue.exchange.calendar_files import let_go_of_all
from catalogue.gathering import claims_kept, once
from catalogue.gathering.claims_kept import claims_in_list
from catalogue.gathering.families import gather_families
from catalogue.gathering.once import forget_all
from catalogue.gathering.versions import state_of_lists
from catalogue.models import Composer, Performance, ProgrammedWork, Venue, Work
from catalogue.rules.premieres import Claim, claims_by_programmed
from catalogue.timing import read_date
from catalogue.web.claims import briefly, is_doubted
from tests.makers import NOW, make_composer, make_performance, make_venue, make_work

pytestmark = pytest.mark.django_db

DATES = ("2024-05-16", "2025-03", "2025", "", "2023-05-16", "2026-02-02", "2027-01-02", "2024/25")
STANDING = ("given", "given", "given", "confirmed", "planned", "cancelled")
BILLINGS = ("", "", "World premiere", "Austrian premiere", "First concert performance")
PARTS = (("complete", ""), ("complete", ""), ("excerpt", "movements 1-2"))


@pytest.fixture
def composer() -> Composer:
    return make_composer()


@pytest.fixture
def kept_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(claims_kept, "FEWEST_KEPT", 0)
    monkeypatch.setattr(claims_kept, "MOST_LATER", 3)
    monkeypatch.setattr(once, "MOST_BEHIND", 2)


def columns_by(chance: Random, composer: Composer) -> dict[str, Any]:
    return {
        "kind": chance.choice(("concert", "concert", "stage", "reading")),
        "status": chance.choice(STANDING),
        "audience": chance.choice(("public", "public", "public", "private")),
        "venue": chance.choice([None, *Venue.objects.filter(composer=composer).order_by("pk")]),
        "city": chance.choice(("", "Lyon")),
        "country": chance.choice(("", "FR")),
    }


def rows_by(chance: Random, composer: Composer) -> list[ProgrammedWork]:
    works = list(Work.objects.filter(composer=composer).order_by("pk"))
    rows = []
    for work in chance.sample(works, chance.choice((1, 1, 2))):
        extent, part = chance.choice(PARTS)
        by_hand = ("first in these parts", "the programme says so") if chance.random() < 0.1 else ("", "")
        rows.append(
            ProgrammedWork(
                work=work, extent=extent, part=part, billing=chance.choice(BILLINGS),
                claim_override=by_hand[0], claim_reason=by_hand[1],
            )
        )  # fmt: skip
    return rows


def a_date(chance: Random) -> Any:
    text = chance.choice(DATES)
    return read_date(text) if text else None


def an_evening(chance: Random, composer: Composer) -> Any:
    return chance.choice(list(Performance.with_deleted.filter(composer=composer).order_by("pk")))


def add_one(chance: Random, composer: Composer) -> None:
    evening = Performance(composer=composer, date=a_date(chance), **columns_by(chance, composer))
    save_performance(performance=evening, programme=rows_by(chance, composer), now=NOW)


def change_one(chance: Random, composer: Composer) -> None:
    evening = an_evening(chance, composer)
    evening.date = a_date(chance)
    for name, value in columns_by(chance, composer).items():
        setattr(evening, name, value)
    save_performance(performance=evening, now=NOW)


def note_something(chance: Random, composer: Composer) -> None:
    evening = an_evening(chance, composer)
    evening.notes = str(chance.random())
    save_performance(performance=evening, now=NOW)


def set_another_programme(chance: Random, composer: Composer) -> None:
    save_performance(performance=an_evening(chance, composer), programme=rows_by(chance, composer), now=NOW)


def delete_or_restore(chance: Random, composer: Composer) -> None:
    evening = an_evening(chance, composer)
    if evening.deleted_at:
        restore_performance(performance=evening, now=NOW)
    else:
        delete_performance(performance=evening, by=None, now=NOW)


def take_away(chance: Random, composer: Composer) -> None:
    an_evening(chance, composer).delete()
    add_one(chance, composer)


def move_hall(chance: Random, composer: Composer) -> None:
    hall = chance.choice(list(Venue.objects.filter(composer=composer).order_by("pk")))
    hall.city, hall.country = chance.choice((("Linz", "AT"), ("Zurich", "CH"), ("Lyon", "FR")))
    save_venue(venue=hall, now=NOW)


def change_versions(chance: Random, composer: Composer) -> None:
    first, *others = Work.objects.filter(composer=composer).order_by("pk")
    work = chance.choice(others)
    work.version_of = None if work.version_of else first
    work.version_label = "reduced" if work.version_of else ""
    save_work(work=work, now=NOW)


def start(chance: Random, _composer: Composer) -> None:
    forget_all()
    if chance.random() < 0.3:
        let_go_of_all()


DEEDS: tuple[Callable[[Random, Composer], None], ...] = (
    add_one, change_one, change_one, note_something, set_another_programme, delete_or_restore, take_away, move_hall,
    change_versions, start,
)  # fmt: skip


def said(composer: Composer, today: date, shown: frozenset[int] | None = None) -> dict[int, Any]:
    """Return what a list says of each row of the performances that it shows, which are all unless some are named."""
    living = shown or frozenset(Performance.objects.filter(composer=composer).values_list("pk", flat=True))
    claims = claims_in_list(state_of_lists([composer.pk]), composer, living, today)
    return words_of(claims, living)


def right(composer: Composer, today: date, shown: frozenset[int] | None = None) -> dict[int, Any]:
    works = Work.objects.filter(composer=composer).values_list("pk", flat=True)
    return words_of(claims_by_programmed(gather_families(composer, works), today=today), shown)


def words_of(claims: Mapping[int, Claim], shown: frozenset[int] | None) -> dict[int, Any]:
    rows = ProgrammedWork.objects.filter(performance__in=shown) if shown else ProgrammedWork.objects
    told = {
        key: (briefly(claims[key]), is_doubted(claims[key]))
        for key in rows.values_list("pk", flat=True)
        if key in claims
    }
    return {row: words for row, words in told.items() if any(words)}


@pytest.mark.usefixtures("kept_at_once")
@pytest.mark.parametrize("seed", range(10))
def test_brought_forward_it_is_what_reckoning_all_gives(seed: int, composer: Composer, clock: Any) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    today = NOW.date()
    for title in ("Tides", "Weirs", "Ebb"):
        make_work(title, composer=composer)
        make_venue(f"Hall {title}", composer=composer)
    for _evening in range(12):
        add_one(chance, composer)
    for _step in range(25):
        clock.goes_on(seconds=1)
        chance.choice(DEEDS)(chance, composer)
        if chance.random() < 0.1:
            today = date(2026, chance.randint(1, 12), 2)
        living = list(Performance.objects.filter(composer=composer).order_by("pk").values_list("pk", flat=True))
        if chance.random() < 0.8 and living:
            shown = frozenset(chance.sample(living, min(len(living), chance.randint(1, 6))))
            assert said(composer, today, shown) == right(composer, today, shown)
    assert said(composer, today) == right(composer, today)


@pytest.mark.usefixtures("kept_at_once")
def test_after_a_save_that_changes_no_first_no_playings_are_looked_through(
    composer: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    work = make_work("Tides", composer=composer)
    for day in ("2023-05-16", "2024-05-16", "2025-05-16"):
        evening = make_performance(work, date=day)
    said(composer, NOW.date())
    monkeypatch.setattr(claims_kept, "not_later", lambda _playings: pytest.fail("looked through all playings"))

    evening.date = read_date("2025-06-01")
    save_performance(performance=evening, now=NOW)
    make_performance(work, date="2022-01-01")
    assert said(composer, NOW.date()) == right(composer, NOW.date())
    forget_all()
    assert said(composer, NOW.date()) == right(composer, NOW.date())


def test_claims_come_back_from_a_file_as_they_were(composer: Composer) -> None:
    chance = Random(3)  # noqa: S311 - no secret hangs on it
    make_work("Tides", composer=composer)
    make_work("Weirs", composer=composer)
    make_venue("Hall", composer=composer)
    for _evening in range(20):
        add_one(chance, composer)
    said(composer, NOW.date())
    known = claims_kept._brought.known[composer.pk].answer

    assert claims_kept.written(known) is None
    enough = replace(known, first={**known.first, 0: list(range(claims_kept.FEWEST_KEPT))})
    back = claims_kept.read(claims_kept.written(enough) or b"")
    assert replace(back, held={family: claims_kept.by_row(claims) for family, claims in back.held.items()}) == enough
    assert claims_kept.written(back) == claims_kept.written(enough)
