"""A rider made ready to be sent, and what became of those that were: read by whom, answered how."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from django.core.files.storage import default_storage
from django.utils.translation import gettext as _

from catalogue.actions.riders import Package
from catalogue.documents.contents.rider import rider_lines
from catalogue.documents.contents.rider_items import rider_items
from catalogue.documents.labels import SOURCE, labels
from catalogue.documents.model import Document, Paper
from catalogue.documents.registry import render
from catalogue.documents.renderers.html import html_fragment
from catalogue.exchange.sent_files import keep_sent
from catalogue.gathering.technical import gather_rider
from catalogue.gathering.works import gather_work
from catalogue.making import Wish, make_document
from catalogue.models import Rider, RiderSending
from catalogue.rules.technical.checks import findings
from catalogue.rules.technical.halls import HOW_MANY, OURS, Stock, Verdict, held_against
from catalogue.rules.technical.items import Item
from catalogue.rules.technical.riders import RiderFacts
from catalogue.terms import Answer

FORMATS = ("pdf", "docx")
TOP = 2  # the level of the rider's first heading, below that of the page


@dataclass(frozen=True, slots=True)
class Answered:
    """An item as it was sent, with what was answered to it; ``answer`` is empty where nothing was."""

    key: str
    group: str
    title: str
    detail: str
    such_as: str
    provider: str
    answer: str = ""
    remark: str = ""

    @property
    def is_asked(self) -> bool:
        """Whether the presenter has to answer: what the composer and the players bring is told, not asked."""
        return self.provider not in OURS

    @property
    def is_open(self) -> bool:
        """Whether it was answered otherwise than with yes."""
        return self.answer not in ("", Answer.YES)

    @property
    def word(self) -> str:
        """The answer in the language of the page."""
        return answer_words()[self.answer] if self.answer else ""


def answer_words() -> dict[str, str]:
    return {
        Answer.YES.value: _("yes"),
        Answer.NOT_QUITE.value: _("not quite"),
        Answer.NO.value: _("no"),
        Answer.QUESTION.value: _("a question"),
    }


@dataclass(frozen=True, slots=True)
class Sending:
    """A revision that was sent, with its items; ``is_open`` says whether its address still leads somewhere."""

    record: RiderSending
    items: tuple[Answered, ...]
    is_open: bool

    @property
    def asked(self) -> tuple[Answered, ...]:
        return tuple(item for item in self.items if item.is_asked)

    @property
    def brought(self) -> tuple[Answered, ...]:
        """What the composer and the players bring."""
        return tuple(item for item in self.items if not item.is_asked)

    @property
    def answered(self) -> int:
        return sum(bool(item.answer) for item in self.asked)

    @property
    def unanswered(self) -> tuple[Answered, ...]:
        return tuple(item for item in self.asked if not item.answer)

    @property
    def is_carried(self) -> bool:
        """Whether all that is answered was answered to the revision before."""
        return self.record.answered_at is None and self.answered > 0

    @property
    def open_questions(self) -> tuple[Answered, ...]:
        """What was answered otherwise than with yes."""
        return tuple(item for item in self.asked if item.is_open)


# ---- before it is sent


def rider_document(rider: Rider, *, language: str, today: date) -> Document:
    works = (rider.work_id,)
    wish = Wish("rider", language, Paper.A4, today, works=works, performance=rider.performance_id)
    return make_document(rider.composer, wish)


def package_of(rider: Rider, *, language: str, now: datetime) -> Package:
    """Make the rider in this language, keep its files, and return what is sent. Raises DocumentNeeds."""
    document = rider_document(rider, language=language, today=now.date())
    files = {one: keep_sent(render(document, one), one, default_storage) for one in FORMATS}
    files["html"] = keep_sent(html_fragment(document, top=TOP).encode(), "html", default_storage)
    return Package(keyed_items(rider, document.language), rider_lines(document), files, document.language)


def keyed_items(rider: Rider, language: str) -> list[dict[str, Any]]:
    """The plain values of all items, keyed alike in every language: what was answered to one in German holds in French.

    Where a language says two of them in the same words, they have the keys of their own words.
    """
    told, plain = items_of(rider, language), items_of(rider, SOURCE)
    keyed = plain if len(plain) == len(told) else told
    return [item_values(one, of.key) for one, of in zip(told, keyed, strict=True)]


def items_of(rider: Rider, language: str) -> tuple[Item, ...]:
    work = rider.work
    return rider_items(gather_work(work), gather_rider(work, rider), labels(language))


def item_values(item: Item, key: str) -> dict[str, Any]:
    """The plain values of an item, with its title."""
    told = {name: getattr(item, name) for name in ("group", "detail", "such_as", "provider")}
    return {"key": key, "title": item.title, **told}


@dataclass(frozen=True, slots=True)
class Ready:
    """What is to be looked at before a rider is sent: what does not agree, and how it stands with this hall's list."""

    doubts: tuple[str, ...]
    stock: tuple[Stock, ...]
    hall: str

    @property
    def told(self) -> Iterator[tuple[str, str, bool]]:
        """Each thing with what the list says of it, those that lack first; true where it has to be asked after."""
        for one in sorted(self.stock, key=lambda one: ORDER.index(one.verdict)):
            yield one.item.title, told_stock(one), one.verdict is not Verdict.HAS


ORDER = (Verdict.LACKS, Verdict.CANNOT_TELL, Verdict.HAS)


def told_stock(one: Stock) -> str:
    """Say how it stands with a thing: it is there, so many lack, or what the list does not say."""
    if one.verdict is Verdict.HAS:
        return _("has: %(called)s") % {"called": one.called}
    if one.verdict is Verdict.LACKS:
        there = _("on the list: %(called)s") % {"called": one.called} if one.called else _("none on the list")
        return _("lacks %(number)s of %(wanted)s; %(there)s") % {
            "number": one.lacking, "wanted": one.number, "there": there
        }  # fmt: skip
    unsaid = ", ".join(_("how many") if word == HOW_MANY else word for word in one.unsaid)
    return _("cannot tell: %(called)s; not said: %(unsaid)s") % {"called": one.called, "unsaid": unsaid}


def ready(rider: Rider, *, language: str, today: date) -> Ready:
    facts: RiderFacts = gather_rider(rider.work, rider)
    doubts = findings(facts.setup, today=today) if facts.setup else ()
    stock = held_against(items_of(rider, language), facts.stock) if facts.stock else ()
    return Ready(tuple(one.sentence for one in doubts), stock, facts.hall)


# ---- once it has been sent


def sending_of(record: RiderSending, now: datetime) -> Sending:
    """A sending with its answers; one query."""
    answers = {one.item: one for one in record.answers.all()}
    items = tuple(answered(values, answers.get(values["key"])) for values in record.items)
    return Sending(record, items, record.withdrawn_at is None and record.expires_at > now)


def answered(values: dict[str, Any], answer: Any) -> Answered:
    told = {name: str(values.get(name, "")) for name in ("key", "group", "title", "detail", "such_as", "provider")}
    return Answered(**told, answer=answer.answer, remark=answer.remark) if answer else Answered(**told)


def sendings_of(rider: Rider, now: datetime) -> tuple[Sending, ...]:
    """What was sent of a rider, the latest first; two queries."""
    found = rider.sendings.prefetch_related("answers").order_by("-revision")
    return tuple(sending_of(one, now) for one in found)
