"""Hires as facts, with the lists that go with them; sets, and who has which."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from django.db.models import Case, DateField, Q, QuerySet, When
from django.db.models.functions import Coalesce

from catalogue.facts import PerformanceFacts
from catalogue.gathering.among import among
from catalogue.gathering.columns import facts_of
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.readings import readable
from catalogue.models import (
    Composer,
    Edition,
    FileLink,
    Hire,
    HiredPerformance,
    HireItem,
    HireTerms,
    MaterialSet,
    Performance,
    StoredFile,
)
from catalogue.rules.hires.clashes import Loan, days_of
from catalogue.rules.hires.making_up import part_of
from catalogue.rules.hires.terms import Hire as HireFacts
from catalogue.rules.hires.terms import Item, Terms
from catalogue.terms import FileKind
from catalogue.terms.hires import HireState, MaterialForm, Purpose

ALONG = ("work", "person", "organisation", "terms", "material_set__edition__publisher")


def gather_hire(hire: Hire) -> HireFacts:
    """Return a hire with its performances and its list; a few queries."""
    return facts_of_hire(hire, performances_of([hire]).get(hire.pk, ()), hire.items.all())


def gather_hires(composer: Composer) -> tuple[HireFacts, ...]:
    """Return every hire of a catalogue by the day on which it went out; six queries, however many hires."""
    found = list(Hire.objects.filter(composer=composer).select_related(*ALONG).order_by("out_on", "pk"))
    played, items = performances_of(found), items_of(found)
    return tuple(facts_of_hire(one, played.get(one.pk, ()), items.get(one.pk, ())) for one in found)


def performances_of(hires: Iterable[Hire]) -> dict[int, tuple[PerformanceFacts, ...]]:
    """Return the performances of each hire in their order; four queries."""
    rows = list(HiredPerformance.objects.filter(hire__in=list(hires)).values_list("hire", "performance"))
    wanted = Performance.objects.filter(pk__in={key for _hire, key in rows})
    in_order = [gather_performance(one) for one in wanted.with_everything_printed().in_date_order()] if rows else []
    named = {(hire, key) for hire, key in rows}
    return {hire: tuple(one for one in in_order if (hire, one.id) in named) for hire in {hire for hire, _key in rows}}


def items_of(hires: Iterable[Hire]) -> dict[int, list[HireItem]]:
    """Return the rows of the lists of hires, by the hire's id; one query."""
    found: dict[int, list[HireItem]] = {}
    for item in HireItem.objects.filter(hire__in=list(hires)):
        found.setdefault(item.hire_id, []).append(item)
    return found


def facts_of_hire(hire: Hire, performances: tuple[PerformanceFacts, ...], items: Iterable[HireItem]) -> HireFacts:
    """Return the facts of a hire from what was fetched with it."""
    lent, terms = hire.material_set, hire.terms
    edition = lent.edition if lent else None
    return HireFacts(
        id=hire.pk,
        number=hire.number,
        purpose=Purpose(hire.purpose),
        work=hire.work_id,
        hirer=hire.holder,
        attention=hire.attention,
        address=hire.address or (hire.organisation.address if hire.organisation else ""),
        order=hire.order_number,
        set_number=lent.number if lent else "",
        strings=readable(lent.strings, ()) if lent else (),
        form=MaterialForm(lent.form) if lent else None,
        edition=edition.number or edition.published_by if edition else "",
        paper=edition.paper if edition else "",
        errata_on=readable(edition.errata_on, None) if edition and edition.errata.strip() else None,
        out_on=hire.out_on,
        due_on=hire.due_on,
        extended_to=hire.extended_to,
        back_on=hire.back_on,
        carrier=hire.carrier,
        enclosed=hire.enclosed,
        fee=hire.fee,
        currency=hire.currency,
        extension_fee=hire.extension_fee,
        erasing_hours=hire.erasing_hours,
        paid=hire.paid,
        performances=performances,
        items=tuple(gather_item(item) for item in items),
        terms=gather_terms(terms) if terms else Terms(),
    )


def gather_terms(terms: HireTerms) -> Terms:
    return facts_of(Terms, terms)


def gather_item(item: HireItem) -> Item:
    return facts_of(Item, item, part=part_of(item.part))


# ---- how far hires have come


def hires_that_are(found: QuerySet[Hire], state: HireState, today: date) -> QuerySet[Hire]:
    """Return those of some hires that have come so far, as ``state_of`` says it of one.

    ``BACK`` are all that came back, whatever is missing of them.
    """
    back, gone = Q(back_on__isnull=False), Q(out_on__lte=today)
    sold, late = Q(purpose=Purpose.SALE.value), Q(due_day__lt=today)
    asked = {
        HireState.PLANNED: ~back & (Q(out_on__isnull=True) | Q(out_on__gt=today)),
        HireState.OUT: ~back & gone & ~sold & (Q(due_day__isnull=True) | Q(due_day__gte=today)),
        HireState.OVERDUE: ~back & gone & ~sold & late,
        HireState.BACK: back,
        HireState.KEPT: ~back & gone & sold,
    }
    return with_due(found).filter(asked[state])


def hires_under_way(found: QuerySet[Hire], today: date) -> QuerySet[Hire]:
    """Return those of some hires that are out or are to go out, and are to come back."""
    sold_already = Q(purpose=Purpose.SALE.value, out_on__lte=today)
    return with_due(found).filter(back_on__isnull=True).exclude(sold_already)


def with_due(found: QuerySet[Hire]) -> QuerySet[Hire]:
    """Name the day by which each hire is to be back ``due_day``, to be asked for."""
    agreed = Coalesce("extended_to", "due_on")
    return found.alias(
        due_day=Case(When(purpose=Purpose.SALE.value, then=None), default=agreed, output_field=DateField())
    )


# ---- who has which set


def still_out(*composers: int) -> QuerySet[Hire]:
    """Return what some composers lent, is to come back and has not, with what names each hire; one query."""
    lent = [Purpose.HIRE.value, Purpose.PERUSAL.value, Purpose.OWN_USE.value]
    ours = Hire.objects.filter(among("composer_id", composers))
    found = ours.filter(out_on__isnull=False, back_on__isnull=True, purpose__in=lent)
    return found.select_related("person", "organisation", "work", "material_set").order_by("pk")


def loan_of(hire: Hire, played: Iterable[Performance], today: date) -> Loan | None:
    """Return on which days a hire has its set, ``None`` where no day is known."""
    days = [day for one in played for day in (one.first_day, one.last_day) if day is not None]
    found = days_of(out_on=hire.out_on, due=hire.due, back_on=hire.back_on, played=days, today=today)
    return Loan(hire.pk, hire.holder, *found) if found else None


def loans_of(lent: MaterialSet, today: date) -> tuple[Loan, ...]:
    """Return the loans of a set, by the day on which each begins; three queries."""
    hires = Hire.objects.filter(material_set=lent).select_related("person", "organisation")
    hires = hires.prefetch_related("hired_for__performance")
    loans = (loan_of(one, [row.performance for row in one.hired_for.all()], today) for one in hires)
    return tuple(sorted((one for one in loans if one is not None), key=lambda one: (one.first, one.id or 0)))


def holders_of(edition: Edition) -> QuerySet[Hire]:
    """Return the hires of sets of an edition that have not come back, and what was sold of it; one query."""
    gone = Hire.objects.filter(material_set__edition=edition, material_set__deleted_at__isnull=True, back_on=None)
    return gone.select_related("person", "organisation", "work", "material_set").order_by("out_on", "pk")


def links_to(edition: Edition) -> QuerySet[FileLink]:
    """Return the links by which scores and parts of an edition went to somebody; one query.

    What was shut before anybody opened it went to nobody.
    """
    of_edition = StoredFile.objects.filter(edition=edition, kind__in=(FileKind.SCORE, FileKind.PARTS))
    sent = FileLink.objects.filter(files__file__in=of_edition).exclude(withdrawn_at__isnull=False, times_read=0)
    return sent.distinct().order_by("sent_at", "pk")
