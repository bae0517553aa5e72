"""What the pages of a hire, a set, an edition and a performance show: the list, the account, who has what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.documents.contents.hire_words import charge_text, item_asides, item_name, item_number, money
from catalogue.documents.labels import labels
from catalogue.documents.model import Text
from catalogue.drawings.ninety_days import DAYS
from catalogue.facts import WorkFacts
from catalogue.gathering.hires import (
    ALONG,
    facts_of_hire,
    gather_hire,
    holders_of,
    items_of,
    links_to,
    loans_of,
    still_out,
    with_due,
)
from catalogue.gathering.works import gather_work
from catalogue.models import Composer, Edition, FileLink, Hire, MaterialSet, Performance
from catalogue.rules.hires.reckoning import charges, days_late, state_of, total, total_missing, total_out
from catalogue.rules.hires.terms import Hire as HireFacts
from catalogue.rules.hires.terms import Item
from catalogue.terms.hires import HireState, Purpose
from catalogue.timing import PartialDate, write_date
from catalogue.web.days import how_far, short_day
from catalogue.web.forms.hire_papers import HIRE_PAPERS
from catalogue.web.programmes import when_and_where
from catalogue.web.wording import date_text, page_language

WRONG = frozenset({HireState.OVERDUE, HireState.INCOMPLETE})


@dataclass(frozen=True, slots=True)
class ListRow:
    """A row of the list in the words of the page."""

    item: Item
    number: str
    name: str
    aside: str

    @property
    def words(self) -> str:
        """The condition in which it came back, and what is to be done."""
        told = (self.item.condition, self.item.action, self.item.remark)
        return ", ".join(str(one) for one in told if one)


@dataclass(frozen=True, slots=True)
class HirePage:
    """A hire with its list and its account. ``state`` is in words; ``is_wrong`` where something is late or missing."""

    facts: HireFacts
    state: str
    is_wrong: bool
    rows: tuple[ListRow, ...]
    out: int
    missing: int
    performances: tuple[tuple[int, str], ...]
    account: tuple[tuple[Text, str], ...]
    total: str
    balance: str

    @property
    def papers(self) -> tuple[tuple[str, Any, Any], ...]:
        """The papers that can be made of it by now, each with its word, its title, and what it is for."""
        made = (form for form in HIRE_PAPERS if form.word not in self.not_yet)
        return tuple((form.word, form.title, form.about) for form in made)

    @property
    def not_yet(self) -> set[str]:
        words = set()
        if not self.missing and not any(row.item.short for row in self.rows):
            words.add("missing-parts-letter")
        if self.facts.purpose is Purpose.SALE:
            words.add("return-check")
        return words if self.account else {*words, "hire-statement"}

    @property
    def is_counted(self) -> bool:
        return any(row.item.sent is not None for row in self.rows)


def hire_page(hire: Hire, today: date) -> HirePage:
    facts, work, says = gather_hire(hire), gather_work(hire.work), labels(page_language())
    found = charges(facts, today)
    sum_of_all = total(found)
    rows = hire.hired_for.select_related("performance__venue").order_by("performance__first_day", "pk")
    return HirePage(
        facts=facts,
        state=state_words(facts, today),
        is_wrong=state_of(facts, today) in WRONG,
        rows=list_rows(facts, work),
        out=total_out(facts.items),
        missing=total_missing(facts.items),
        performances=tuple((row.performance_id, when_and_where(row.performance, says.language)) for row in rows),
        account=tuple((charge_text(one, facts, work, says), money(one.amount, facts.currency, says)) for one in found),
        total=money(sum_of_all, facts.currency, says) if found else "",
        balance=money(sum_of_all - facts.paid, facts.currency, says) if facts.paid is not None else "",
    )


def list_rows(facts: HireFacts, work: WorkFacts) -> tuple[ListRow, ...]:
    says = labels(page_language())
    return tuple(
        ListRow(item, item_number(item), item_name(item, work, says), item_asides(item, says)) for item in facts.items
    )


def state_words(facts: HireFacts, today: date) -> str:
    """How far a hire has come, in a sentence."""
    state, due = state_of(facts, today), facts.due
    day = write_date(PartialDate.of(due), page_language()) if due else ""
    if state is HireState.OVERDUE:
        late = days_late(facts, today)
        words = ngettext(
            "Overdue by one day; it was due on %(day)s.", "Overdue by %(late)s days; it was due on %(day)s.", late
        )
        return words % {"late": late, "day": day}
    if state is HireState.OUT:
        return _("Out, due back on %(day)s.") % {"day": day} if day else _("Out; no day is noted on which it is due.")
    if state is HireState.INCOMPLETE:
        missing = total_missing(facts.items)
        words = ngettext("Back; one copy is missing.", "Back; %(missing)s copies are missing.", missing)
        return words % {"missing": missing}
    return {HireState.BACK: _("Back."), HireState.KEPT: _("Sold.")}.get(state, _("Not sent yet."))


# ---- for a performance


@dataclass(frozen=True, slots=True)
class SentRow:
    """Material that goes out for a performance: to whom, what, and how far that has come."""

    hire: int
    who: str
    what: str
    state: str
    is_wrong: bool


def sent_for(performance: Performance, today: date) -> tuple[SentRow, ...]:
    """Return the hires for a performance, those that go out first before others; two queries."""
    found = Hire.objects.filter(hired_for__performance=performance).select_related(*ALONG).order_by("out_on", "pk")
    hires = list(found)
    items = items_of(hires) if hires else {}
    return tuple(sent_row(one, facts_of_hire(one, (), items.get(one.pk, ())), today) for one in hires)


def sent_row(hire: Hire, facts: HireFacts, today: date) -> SentRow:
    number = _("set %(number)s") % {"number": facts.set_number} if facts.set_number else ""
    purpose = "" if facts.purpose is Purpose.HIRE else str(hire.get_purpose_display())
    what = ", ".join(part for part in (hire.work.title, number, purpose) if part)
    return SentRow(hire.pk, hire.holder, what, state_words(facts, today), state_of(facts, today) in WRONG)


# ---- where a set is


@dataclass(frozen=True, slots=True)
class LoanRow:
    """A loan of a set: whose, when, and whether it is now."""

    hire: int
    who: str
    days: str
    is_now: bool


def loan_rows(lent: MaterialSet, today: date) -> tuple[LoanRow, ...]:
    """The loans of a set, the latest first."""
    language = page_language()
    rows = []
    for loan in loans_of(lent, today):
        first = write_date(PartialDate.of(loan.first), language)
        last = write_date(PartialDate.of(loan.last), language) if loan.last else ""
        days = f"{first} – {last}" if last else _("from %(day)s") % {"day": first}
        is_now = loan.first <= today and (loan.last is None or today <= loan.last)
        rows.append(LoanRow(loan.id or 0, loan.who, days, is_now))
    return tuple(reversed(rows))


# ---- what is due


@dataclass(frozen=True, slots=True)
class DueRow:
    """A set that is out: who has it, what, when it is due, how far off or late that is, and whose work it is."""

    address: str
    who: str
    what: str
    due: str
    day: str
    far: str
    is_late: bool
    whose: Composer


def hires_due(
    composers: Sequence[Composer], *, today: date, language: str, most: int | None = None
) -> tuple[DueRow, ...]:
    """The sets that are overdue or due in the coming days, the longest overdue first, ``most`` of them; one query."""
    last, whose = today + timedelta(days=DAYS), {one.pk: one for one in composers}
    near = with_due(still_out(*whose)).filter(Q(due_day__lte=last)).order_by(F("due_day"), "pk")[:most]
    return tuple(due_row(hire, hire.due, whose[hire.composer_id], today, language) for hire in near if hire.due)


def due_row(hire: Hire, due: date, whose: Composer, today: date, language: str) -> DueRow:
    when = PartialDate.of(due)
    number = _("set %(number)s") % {"number": hire.material_set.number} if hire.material_set else ""
    return DueRow(
        address=reverse("record-detail", args=[whose.slug, "hires", hire.pk]),
        who=hire.holder,
        what=", ".join(part for part in (hire.work.title, number) if part),
        due=write_date(when, language),
        day=short_day(when, language),
        far=how_late(due, today),
        is_late=today > due,
        whose=whose,
    )


def how_late(due: date, today: date) -> str:
    """Say how far off a day is on which something is due back, or by how many days it is overdue."""
    late = (today - due).days
    overdue = ngettext("overdue by one day", "overdue by %(late)s days", late) % {"late": late}
    return overdue if late > 0 else how_far(PartialDate.of(due), today)


# ---- who holds an edition


@dataclass(frozen=True, slots=True)
class Holder:
    """Who has a set, or bought one, or was sent files, and where to write to. Files need no hire and have no set."""

    hire: int | None
    who: str
    email: str
    set_number: str
    out: str
    is_sold: bool = False
    is_to_come: bool = False


@dataclass(frozen=True, slots=True)
class Held:
    """An edition with its sets, who has them now, and its known mistakes, one a line."""

    edition: Edition
    is_old: bool
    sets: tuple[MaterialSet, ...]
    holders: tuple[Holder, ...]
    errata: tuple[str, ...]
    errata_on: str


def held_editions(edition: Edition, language: str, today: date) -> tuple[Held, ...]:
    """The edition and those that it replaces, the newest first: who is to be told of mistakes and of the new one."""
    found: list[Edition] = []
    current: Edition | None = edition
    while current is not None and current not in found:
        found.append(current)
        current = current.replaces
    return tuple(held(one, language, today, is_old=one is not edition) for one in found)


def held(edition: Edition, language: str, today: date, *, is_old: bool) -> Held:
    sets = MaterialSet.objects.filter(edition=edition).select_related("work").order_by("number", "pk")
    lines = tuple(line.strip() for line in edition.errata.splitlines() if line.strip())
    hires = list(holders_of(edition))
    known = {hire.pk for hire in hires}
    links = (link for link in links_to(edition) if link.hire_id not in known)
    holders = (*(holder_of(hire, language, today) for hire in hires), *(holder_by(link, language) for link in links))
    return Held(edition, is_old, tuple(sets), holders, lines, date_text(edition.errata_on, language))


def holder_by(link: FileLink, language: str) -> Holder:
    sent = write_date(PartialDate.of(link.sent_at.date()), language)
    return Holder(link.hire_id, link.recipient, "", "", sent)


def holder_of(hire: Hire, language: str, today: date) -> Holder:
    out = write_date(PartialDate.of(hire.out_on), language) if hire.out_on else ""
    number = hire.material_set.number if hire.material_set else ""
    email = hire.email or (hire.organisation.email if hire.organisation else hire.person.email if hire.person else "")
    is_to_come = hire.out_on is not None and hire.out_on > today
    return Holder(hire.pk, hire.holder, email, number, out, hire.purpose == Purpose.SALE, is_to_come)
