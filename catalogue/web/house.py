"""What is shown of all composers together: whose catalogues somebody keeps, and which sets are where."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.contrib.auth.models import User
from django.core.paginator import Page, Paginator
from django.urls import reverse
from django.utils.translation import gettext as _

from catalogue.gathering.among import among
from catalogue.gathering.hires import still_out
from catalogue.models import Composer, Hire, Membership
from catalogue.terms import Role
from catalogue.timing import PartialDate
from catalogue.web.access import EDITORS, HouseRequest
from catalogue.web.days import short_day
from catalogue.web.forms.composer_field import WhoseForm
from catalogue.web.hires import how_late
from catalogue.web.wording import day_text

HOUSE = "house"  # begins the names of files taken along
SIDE_BY_SIDE = 8  # catalogues in one table of who keeps them


@dataclass(frozen=True, slots=True)
class Whose:
    """Of whom a page tells: the composers one may choose from, and those that were chosen."""

    all: tuple[Composer, ...]
    chosen: tuple[Composer, ...]
    form: WhoseForm


def whose(request: HouseRequest, roles: Collection[Role]) -> Whose:
    """Return the composers whom somebody keeps in one of these roles; the address may choose one of them."""
    ours = composers_as(request, roles)
    form = WhoseForm(request.GET, composers=ours)
    asked = form.cleaned_data["composer"] if form.is_valid() else ""
    return Whose(ours, tuple(one for one in ours if one.slug == asked) or ours, form)


def composers_as(request: HouseRequest, roles: Collection[Role]) -> tuple[Composer, ...]:
    return tuple(seat.composer for seat in request.seats if seat.role in roles)


def theirs(composers: Collection[Composer]) -> Any:
    """Return the condition that a record is of one of these composers."""
    return among("composer_id", [one.pk for one in composers])


def edited(request: HouseRequest) -> tuple[Composer, ...]:
    return composers_as(request, EDITORS)


# ---- who keeps what


@dataclass(frozen=True, slots=True)
class Keeper:
    """A member of some catalogues: for each of them the membership's number and role, empty where there is none."""

    user: int
    name: str
    roles: tuple[tuple[Composer, int | None, str], ...]


@dataclass(frozen=True, slots=True)
class KeepersPage:
    """Who keeps the catalogues that somebody owns, as many of these as stand side by side.

    ``people`` are who may be chosen, by number and name, where there are more catalogues than that; ``member`` who was.
    """

    whose: Whose
    page: Page[Composer]
    keepers: tuple[Keeper, ...]
    people: tuple[tuple[int, str], ...] = ()
    member: int | None = None


def keepers_page(request: HouseRequest) -> KeepersPage:
    """Return the catalogues and the members that the address asks for; two queries, with many catalogues four."""
    asked = whose(request, (Role.OWNER,))
    people = people_of(asked.all) if len(asked.all) > SIDE_BY_SIDE else ()
    member = next((number for number, _name in people if str(number) == request.GET.get("member")), None)
    found = asked.chosen if member is None else kept_by(member, asked.chosen)
    page = Paginator(found, SIDE_BY_SIDE).get_page(request.GET.get("page"))
    keepers = keepers_of(tuple(page))
    return KeepersPage(asked, page, tuple(one for one in keepers if member in {None, one.user}), people, member)


def people_of(composers: Sequence[Composer]) -> tuple[tuple[int, str], ...]:
    keepers = Membership.objects.filter(theirs(composers)).values("user")
    found = User.objects.filter(pk__in=keepers).order_by("username")
    return tuple((user.pk, name_of(user)) for user in found)


def kept_by(user: int, composers: Sequence[Composer]) -> tuple[Composer, ...]:
    kept = set(Membership.objects.filter(theirs(composers), user=user).values_list("composer", flat=True))
    return tuple(one for one in composers if one.pk in kept)


def name_of(user: User) -> str:
    return user.get_full_name() or user.get_username()


def keepers_of(composers: Sequence[Composer]) -> tuple[Keeper, ...]:
    """Return everybody who keeps one of these catalogues, in the order in which they came; one query."""
    found = Membership.objects.filter(theirs(composers)).select_related("user").order_by("pk")
    seats = {(seat.user_id, seat.composer_id): seat for seat in found}
    users = dict.fromkeys(seat.user for seat in found)
    return tuple(Keeper(user.pk, name_of(user), roles_of(user.pk, composers, seats)) for user in users)


def roles_of(
    user: int, composers: Sequence[Composer], seats: Mapping[tuple[int, int], Membership]
) -> tuple[tuple[Composer, int | None, str], ...]:
    found = ((composer, seats.get((user, composer.pk))) for composer in composers)
    return tuple((composer, seat.pk if seat else None, seat.role if seat else "") for composer, seat in found)


# ---- where the sets are


@dataclass(frozen=True, slots=True)
class SetRow:
    """A set that is out, or is to go out. Texts are ready to print."""

    address: str
    whose: Composer
    who: str
    what: str
    set_number: str
    out: str
    day: str
    due: str
    far: str
    is_late: bool


@dataclass(frozen=True, slots=True)
class SetsPage:
    """``late`` are overdue, the longest first; ``out`` are elsewhere, ``waiting`` have not been sent."""

    late: tuple[SetRow, ...]
    out: tuple[SetRow, ...]
    waiting: tuple[SetRow, ...]


def sets_page(composers: Sequence[Composer], *, today: date, language: str) -> SetsPage:
    """Return which sets are where; two queries, however many composers."""
    names = {composer.pk: composer for composer in composers}
    out = sorted(still_out(*names), key=lambda hire: (hire.due or date.max, hire.pk))
    rows = [set_row(hire, names[hire.composer_id], today, language) for hire in out]
    return SetsPage(
        late=tuple(row for row in rows if row.is_late),
        out=tuple(row for row in rows if not row.is_late),
        waiting=tuple(set_row(hire, names[hire.composer_id], today, language) for hire in not_sent(composers)),
    )


def not_sent(composers: Sequence[Composer]) -> list[Hire]:
    """Return the hires of which nothing has gone out yet, in the order in which they were noted; one query."""
    found = Hire.objects.filter(theirs(composers), out_on__isnull=True, back_on__isnull=True)
    return list(found.select_related("person", "organisation", "work", "material_set").order_by("pk"))


def set_row(hire: Hire, composer: Composer, today: date, language: str) -> SetRow:
    late = (today - hire.due).days if hire.due and hire.out_on else 0
    number = _("set %(number)s") % {"number": hire.material_set.number} if hire.material_set else ""
    return SetRow(
        address=reverse("record-detail", args=[composer.slug, "hires", hire.pk]),
        whose=composer,
        who=hire.holder,
        what=hire.work.title,
        set_number=number,
        out=day_text(hire.out_on, language),
        day=short_day(PartialDate.of(hire.due), language) if hire.due else "–",
        due=day_text(hire.due, language),
        far=how_late(hire.due, today) if hire.due and hire.out_on else "",
        is_late=late > 0,
    )
