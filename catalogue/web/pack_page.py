"""What the page of a pack shows: what is in, what lacks, what breaks which rule, and who would be named."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from django.core.files.storage import default_storage
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.text import slugify
from django.utils.translation import gettext_lazy as _

from catalogue.documents.contents.cover_sheet import Setting
from catalogue.documents.model import Paper
from catalogue.exchange.pack_texts import Finding
from catalogue.facts import CatalogueFacts
from catalogue.gathering.names import gather_sought
from catalogue.gathering.submissions import gather_submission, gather_submissions
from catalogue.models import Call, Composer
from catalogue.packing.lines import Line, State
from catalogue.packing.making import MadePack, make_pack
from catalogue.packing.plan import Plan, plan_pack
from catalogue.rules.calls.handing_in import unanswering
from catalogue.rules.calls.packs import Breach, in_megabytes
from catalogue.rules.calls.readiness import due_on
from catalogue.rules.calls.screening import screen
from catalogue.rules.calls.submissions import SubmissionFacts
from catalogue.rules.search import fold
from catalogue.web.call_page import in_words
from catalogue.web.wording import day_text

STATES: dict[State, Promise] = {
    State.IN: _("In the pack"),
    State.READY: _("Ready"),
    State.LACKS: _("Missing"),
    State.TO_DO: _("To be done"),
    State.LEFT_OUT: _("Left out"),
}
RECORDS = ("programme-notes", "recordings", "editions", "biographies", "pictures", "riders")
ON_THE_PAGE = {"motto": "#id_motto", "statement": "#id_statement", "referees": "#referees"}


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the pack on the page; ``address`` is where what lacks is mended, ``due`` the day by which to begin."""

    line: Line
    state: Promise
    size: str
    address: str
    due: str = ""
    is_late: bool = False


@dataclass(frozen=True, slots=True)
class PackPage:
    """``made`` says whether the files have been made and looked through; texts are ready to print."""

    rows: tuple[Row, ...]
    broken: tuple[Breach, ...]
    made: bool
    findings: tuple[Finding, ...]
    not_seen: tuple[str, ...]
    files: int
    size: str
    lacking: int


def plan_of(call: Call, today: date) -> Plan:
    """Return the pack of a call as the records have it now."""
    return planned(gather_submission(call), call.composer, today)


def plans_of(composer: Composer, calls: Sequence[Call], today: date) -> dict[int, Plan]:
    """Return the packs of several calls by their ids; the same queries for any number."""
    found = gather_submissions(composer, calls)
    return {key: planned(one, composer, today) for key, one in found.items()}


def planned(submission: SubmissionFacts, composer: Composer, today: date) -> Plan:
    setting = Setting(submission.language or composer.language, paper_of(submission), today)
    return plan_pack(composer, submission, setting, default_storage)


def paper_of(submission: SubmissionFacts) -> Paper:
    """Return the paper that is usual where the papers' language is spoken."""
    return Paper.LETTER if (submission.language or submission.composer.language) == "en-US" else Paper.A4


def made_pack(plan: Plan, call: Call) -> MadePack:
    return make_pack(plan, gather_sought(call.composer) if plan.submission.call.anonymous else ())


def pack_page(
    call: Call, plan: Plan, catalogue: CatalogueFacts, *, made: MadePack | None, today: date, language: str
) -> PackPage:
    sizes = {one.line.file: one.size for one in made.files} if made else {}
    return PackPage(
        rows=tuple(row_of(line, call, sizes, today, language) for line in plan.lines),
        broken=(*unfit_works(plan, catalogue, language), *(made.broken if made else plan.broken)),
        made=made is not None,
        findings=made.findings if made else (),
        not_seen=made.not_seen if made else (),
        files=len(plan.files),
        size=in_megabytes(made.size) if made else "",
        lacking=len(plan.lacking),
    )


def unfit_works(plan: Plan, catalogue: CatalogueFacts, language: str) -> Iterator[Breach]:
    """Yield the chosen works that do not answer the call."""
    chosen = {one.work.id for one in plan.submission.works}
    for one in unanswering(screen(plan.submission.call, catalogue), chosen) if chosen else ():
        yield replace(one, reason=in_words(one.reason, language))


def row_of(line: Line, call: Call, sizes: dict[str, int], today: date, language: str) -> Row:
    due = due_on(line.piece, call.closes_on) if line.is_open else None
    told = day_text(due, language) if due else ""
    return Row(line, STATES[line.state], size_of(line, sizes), mend_at(line, call), told, bool(due and due < today))


def size_of(line: Line, sizes: dict[str, int]) -> str:
    return in_megabytes(sizes[line.file]) if line.file in sizes else ""


def mend_at(line: Line, call: Call) -> str:
    """Return where what lacks is mended; empty where it is not on a page of its own."""
    slug, place = call.composer.slug, line.place
    if place in RECORDS:
        work = f"?work={line.work_id}" if line.work_id else ""
        return reverse("record-new", args=[slug, place]) + work
    kind, _slash, record = place.partition("/")
    if record:
        return reverse("record-detail", args=[slug, kind, int(record)])
    if place == "choose":
        return reverse("call-detail", args=[slug, call.pk]) + "#answers"
    return ON_THE_PAGE.get(place, "")


def archive_name(call: Call) -> str:
    """Return the name of the archive: the call's title alone, which names nobody."""
    return f"{slugify(fold(call.title))[:60] or 'submission'}.zip"


def told_files(made: MadePack) -> Iterator[dict[str, object]]:
    for one in made.files:
        yield {"name": one.member.name, "bytes": one.size, "sha256": one.sha256}
