"""What premieres are reckoned from."""

from __future__ import annotations

from datetime import date
from random import Random
from typing import Any

import pytest

from catalogue.gathering import gather_catalogue
from catalogue.gathering.families import gather_claims, gather_families
from catalogue.models import Composer, Performance, ProgrammedWork, Work
from catalogue.rules.premieres import claims_by_programmed
from tests.makers import make_composer, make_performance, make_venue, make_work

pytestmark = pytest.mark.django_db
TODAY = date(2026, 3, 9)


@pytest.fixture
def composer() -> Composer:
    return make_composer()


def test_claims_of_a_family_are_those_of_the_whole_catalogue(composer: Composer) -> None:
    first, other = make_work("Tides"), make_work("Weirs")
    second = make_work("Tides", version_of=first, version_label="reduced version")
    hall, elsewhere = make_venue(), make_venue("Salle", city="Lyon", country="FR")
    for works, day, columns in (
        ((first, other), "2024-05-16", {"venue": hall}),
        ((other, second), "2024-06", {"venue": elsewhere}),
        ((second,), "2025-01-01", {"city": "Lyon", "country": "FR"}),
        ((first,), "2027-01-01", {"venue": elsewhere, "status": "confirmed"}),
        ((first,), "", {"venue": hall}),
    ):
        make_performance(*works, date=day, **columns)

    ProgrammedWork.objects.filter(work=second).update(claim_override="no first performance", claim_reason="A try-out.")

    whole = claims_by_programmed(gather_catalogue(composer), today=TODAY)
    family = claims_by_programmed(gather_families(composer, [second.pk]), today=TODAY)

    assert len(family) == 5
    assert family == {key: whole[key] for key in family}


def test_family_takes_two_queries_however_large(composer: Composer, django_assert_num_queries: Any) -> None:
    work = make_work("Tides")
    for day in ("2024-05-16", "2024-05-17", "2024-05-18"):
        make_performance(work, make_work(f"Other {day}"), date=day)

    with django_assert_num_queries(2):
        gather_families(composer, [work.pk])


def test_works_of_somebody_else_and_deleted_performances_are_left_out(composer: Composer) -> None:
    foreign = make_work("Serenade", composer=make_composer("Pell Tarrowick", sort_name="Tarrowick"))
    work = make_work("Tides", composer=composer)
    performance = make_performance(work)
    make_performance(foreign)
    performance.deleted_at = performance.changed_at
    performance.save()

    found = gather_families(composer, [work.pk, foreign.pk])

    assert ([one.id for one in found.works], found.performances) == ([work.pk], ())


VAGUE = ("{year}", "{year}-{month:02}", "{year}-{month:02}-{day:02}", "{year}-{month:02}-{day:02}", "")
STANDING = ("given", "given", "confirmed", "planned", "cancelled")
PLACES = (("Lyon", "FR"), ("Nantes", "FR"), ("Linz", "AT"))
BILLINGS = ("", "", "World premiere", "Austrian premiere", "First concert performance")
PARTS = (("complete", ""), ("complete", ""), ("excerpt", "movements 1-2"), ("partial", ""))


def any_evening(chance: Random, works: list[Work]) -> None:
    """Make a performance in the years around today, of the sorts that premieres depend on."""
    date = chance.choice(VAGUE).format(
        year=chance.randint(2024, 2027), month=chance.randint(1, 12), day=chance.randint(1, 28)
    )
    (city, country), (extent, part) = chance.choice(PLACES), chance.choice(PARTS)
    performance = make_performance(
        chance.choice(works), date=date, city=city, country=country, status=chance.choice(STANDING),
        audience=chance.choice(("public", "public", "private")), kind=chance.choice(("concert", "stage", "reading")),
    )  # fmt: skip
    performance.programme.update(extent=extent, part=part, billing=chance.choice(BILLINGS))


@pytest.mark.parametrize("seed", range(3))
def test_claims_of_what_is_shown_are_those_of_the_whole_catalogue(composer: Composer, seed: int) -> None:
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    first = make_work("Tides")
    works = [first, make_work("Tides", version_of=first, version_label="reduced version")]
    for _ in range(60):
        any_evening(chance, works)
    shown = chance.sample(list(Performance.objects.values_list("pk", flat=True)), 12)

    whole = claims_by_programmed(gather_families(composer, [first.pk]), today=TODAY)
    claims = gather_claims([composer], [first.pk], today=TODAY, shown=shown)

    wanted = ProgrammedWork.objects.filter(performance__in=shown).values_list("pk", flat=True)
    assert {key: claims[key] for key in wanted} == {key: whole[key] for key in wanted}
    assert len(claims) < len(whole) == 60


def test_claims_are_reckoned_once_while_nothing_changes(composer: Composer, django_assert_num_queries: Any) -> None:
    work = make_work("Tides", composer=composer)
    shown = [make_performance(work, date="2024-05-16").pk]
    first = gather_claims([composer], [work.pk], today=TODAY, shown=shown)

    with django_assert_num_queries(1):
        again = gather_claims([composer], [work.pk], today=TODAY, shown=shown)
    make_performance(work, date="2023-05-16")
    changed = gather_claims([composer], [work.pk], today=TODAY, shown=shown)

    assert again == first
    assert [claim.wording for claim in changed.values()] != [claim.wording for claim in first.values()]
