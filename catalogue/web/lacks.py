"""What the records lack, as a page says it: how many, for example which, and the way to mend it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.core.paginator import Page, Paginator
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext_lazy

from catalogue.gathering.lacks import OF_WORKS, Lack, gather_lacks
from catalogue.models import Commission, Composer, Performance, Work
from catalogue.rules.identifiers import Identifier, doubt_about
from catalogue.timing import PartialDate, write_date
from catalogue.web.programmes import called
from catalogue.web.tables.lists import PER_PAGE
from catalogue.web.titles import in_language


@dataclass(frozen=True, slots=True)
class Wording:
    """A lack in words: of one and of several records, why it matters, what mends it, and in which field."""

    says: Promise
    because: Promise
    mend: Promise
    field: str


WORDINGS = {
    Lack.DURATION: Wording(
        ngettext_lazy("work has no duration", "works have no duration"),
        gettext_lazy("a call that states a limit cannot be screened"),
        gettext_lazy("Add durations"),
        "id_duration_typed",
    ),
    Lack.FORCES: Wording(
        ngettext_lazy("work does not say who plays", "works do not say who plays"),
        gettext_lazy("nobody finds it by its instruments, and no parts can be listed"),
        gettext_lazy("Name the players"),
        "id_instrumentation_typed",
    ),
    Lack.READING: Wording(
        ngettext_lazy("instrumentation cannot be read", "instrumentations cannot be read"),
        gettext_lazy("it prints as typed, and no players are counted"),
        gettext_lazy("Look at it"),
        "id_instrumentation_typed",
    ),
    Lack.NUMBER: Wording(
        ngettext_lazy(
            "work has a number with a wrong check digit or form", "works have numbers with a wrong check digit or form"
        ),
        gettext_lazy("no registry knows it"),
        gettext_lazy("Look at it"),
        "id_iswc",
    ),
    Lack.DELIVERY: Wording(
        ngettext_lazy("commission was to be delivered by now", "commissions were to be delivered by now"),
        gettext_lazy("nobody has said that it was"),
        gettext_lazy("Say when it was delivered"),
        "id_delivered",
    ),
    Lack.COUNTRY: Wording(
        ngettext_lazy("performance names no country", "performances name no country"),
        gettext_lazy("it proves no first performance there"),
        gettext_lazy("Name the country"),
        "id_country",
    ),
    Lack.DATE: Wording(
        ngettext_lazy("performance has no date", "performances have no date"),
        gettext_lazy("its place in the order is unknown, so it proves no first performance"),
        gettext_lazy("Add the date"),
        "id_date",
    ),
    Lack.PROGRAMME: Wording(
        ngettext_lazy("performance names no work", "performances name no work"),
        gettext_lazy("it stands in no work’s history"),
        gettext_lazy("Name the works"),
        "programme",
    ),
    Lack.OUTCOME: Wording(
        ngettext_lazy("performance was expected and is over", "performances were expected and are over"),
        gettext_lazy("nobody has said whether it took place"),
        gettext_lazy("Say what became of it"),
        "id_status",
    ),
    Lack.BILLING: Wording(
        ngettext_lazy("billing is contradicted by the records", "billings are contradicted by the records"),
        gettext_lazy("one of the two is wrong"),
        gettext_lazy("Compare"),
        "",
    ),
    Lack.OWN_NUMBER: Wording(
        ngettext_lazy(
            "profile has a number with a wrong check digit or form",
            "profiles have numbers with a wrong check digit or form",
        ),
        gettext_lazy("no registry knows it"),
        gettext_lazy("Look at it"),
        "id_ipi",
    ),
}


@dataclass(frozen=True, slots=True)
class Lacking:
    """A lack on the first page: how many records, for example which, and the one link to what mends it."""

    number: int
    says: str
    because: str
    example: SafeString | str
    others: int
    mend: str
    address: str


@dataclass(frozen=True, slots=True)
class ToMend:
    """A record that lacks something, and where it is mended."""

    name: SafeString
    beside: str
    address: str


def lacking(composer: Composer, *, today: date) -> tuple[Lacking, ...]:
    """Return what the catalogue lacks; eight queries."""
    found = gather_lacks(composer, today=today)
    examples = records_of(composer, {lack: keys[:1] for lack, keys in found.items()})
    return tuple(told(composer, lack, keys, examples[lack, keys[0]]) for lack, keys in found.items())


def told(composer: Composer, lack: Lack, keys: tuple[int, ...], example: ToMend) -> Lacking:
    wording, number = WORDINGS[lack], len(keys)
    return Lacking(
        number=number,
        says=str(wording.says % number),
        because=str(wording.because),
        example=example.name,
        others=number - 1,
        mend=str(wording.mend),
        address=example.address if number == 1 else reverse("lack-list", args=[composer.slug, lack]),
    )


def all_lacking(composer: Composer, lack: Lack, number: str | None, *, today: date) -> tuple[Page, tuple[ToMend, ...]]:
    """Return a page of the keys of records that lack this, and these records; eight queries."""
    page = Paginator(gather_lacks(composer, today=today).get(lack, ()), PER_PAGE).get_page(number)
    keys = tuple(page.object_list)
    found = records_of(composer, {lack: keys})
    return page, tuple(found[lack, key] for key in keys)


Keys = dict[Lack, tuple[int, ...]]


def records_of(composer: Composer, wanted: Keys) -> dict[tuple[Lack, int], ToMend]:
    """Fetch the records by what they lack and by key."""
    works = keys_of(wanted, OF_WORKS)
    performances = keys_of(wanted, set(wanted) - {*OF_WORKS, Lack.OWN_NUMBER, Lack.DELIVERY})
    commissions = keys_of(wanted, (Lack.DELIVERY,))
    ordered = Commission.objects.filter(pk__in=commissions).select_related("work", "organisation")
    overdue = {one.pk: one for one in ordered} if commissions else {}
    named = {("work", work.pk): work for work in Work.objects.filter(pk__in=works)} if works else {}
    events = Performance.objects.filter(pk__in=performances).with_everything_printed() if performances else ()
    told = {("performance", event.pk): event for event in events}

    def to_mend(lack: Lack, key: int) -> ToMend:
        if lack is Lack.OWN_NUMBER:
            return profile_to_mend(composer)
        if lack is Lack.DELIVERY:
            return commission_to_mend(composer, overdue[key])
        if lack in OF_WORKS:
            return work_to_mend(composer, lack, named["work", key])
        return performance_to_mend(composer, lack, told["performance", key])

    return {(lack, key): to_mend(lack, key) for lack, keys in wanted.items() for key in keys}


def keys_of(wanted: Keys, lacks: Iterable[Lack]) -> set[int]:
    return {key for lack in lacks for key in wanted.get(lack, ())}


def work_to_mend(composer: Composer, lack: Lack, work: Work) -> ToMend:
    address = reverse("work-edit", args=[composer.slug, work.pk])
    beside, field = work.catalogue_number, WORDINGS[lack].field
    if lack is Lack.READING:
        beside = work.instrumentation_typed
    if lack is Lack.NUMBER:
        beside, field = doubted(("id_iswc", Identifier.ISWC, work.iswc), ("id_ismn", Identifier.ISMN, work.ismn))
    title = format_html("<i>{}</i>", in_language(work.title, work.title_language))
    return ToMend(title, beside, f"{address}#{field}")


def commission_to_mend(composer: Composer, commission: Commission) -> ToMend:
    address = reverse("record-edit", args=[composer.slug, "commissions", commission.pk])
    name = format_html("<i>{}</i>", in_language(commission.work.title, commission.work.title_language))
    return ToMend(name, commission.body, f"{address}#{WORDINGS[Lack.DELIVERY].field}")


def doubted(*numbers: tuple[str, Identifier, str]) -> tuple[str, str]:
    """Return what was typed for the first number that cannot be right, and the field it stands in."""
    found = ((f"{kind} {text}", field) for field, kind, text in numbers if text and doubt_about(kind, text))
    return next(found, ("", numbers[0][0]))


def profile_to_mend(composer: Composer) -> ToMend:
    beside, field = doubted(("id_ipi", Identifier.IPI, composer.ipi), ("id_isni", Identifier.ISNI, composer.isni))
    name = format_html("<bdi>{}</bdi>", composer.name)
    return ToMend(name, beside, f"{reverse('profile-edit', args=[composer.slug])}#{field}")


def performance_to_mend(composer: Composer, lack: Lack, performance: Performance) -> ToMend:
    field = WORDINGS[lack].field
    page = "performance-edit" if field else "performance-detail"
    address = reverse(page, args=[composer.slug, performance.pk]) + (f"#{field}" if field else "")
    day = write_date(performance.date) if isinstance(performance.date, PartialDate) else _("no date")
    return ToMend(called(performance), day, address)
