"""Degree applications side by side: what each programme asks for and what of it there is, from one set of records."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.models import Call, Composer
from catalogue.packing.lines import Line, State
from catalogue.packing.plan import Plan
from catalogue.rules.calls.figures_of_works import clock, wanted
from catalogue.rules.calls.packs import OF_EACH_WORK, Piece, in_megabytes
from catalogue.rules.calls.terms import Call as Terms
from catalogue.rules.calls.terms import CallKind
from catalogue.timing import PartialDate
from catalogue.web.call_page import closes_text, number_text
from catalogue.web.days import how_far
from catalogue.web.pack_page import plans_of

DONE = (State.IN, State.READY, State.LEFT_OUT)


@dataclass(frozen=True, slots=True)
class Cell:
    """What a programme asks for and what there is; ``is_done`` is None where nothing is to be done."""

    asked: str = ""
    there: str = ""
    is_done: bool | None = None


@dataclass(frozen=True, slots=True)
class Row:
    label: str
    cells: tuple[tuple[str, Cell], ...]


@dataclass(frozen=True, slots=True)
class Programme:
    """A column: a programme with its pack."""

    title: str
    address: str
    plan: Plan


@dataclass(frozen=True, slots=True)
class DegreePage:
    programmes: tuple[Programme, ...]
    rows: tuple[Row, ...]


def degree_page(composer: Composer, *, now: datetime, language: str) -> DegreePage:
    """Return the programmes that are open, the next to close first."""
    today = timezone.localdate(now)
    calls = list(
        Call.objects.filter(composer=composer, kind=CallKind.DEGREE.value).open_at(now, today).undecided().next_first()
    )
    plans = plans_of(composer, calls, today)
    programmes = tuple(
        Programme(call.title, reverse("call-pack", args=[composer.slug, call.pk]), plans[call.pk]) for call in calls
    )
    rows = [
        row(_("Closes"), programmes, [closing(one.plan, today, language) for one in programmes]),
        row(_("Works"), programmes, [works(one.plan) for one in programmes]),
        row(_("Minutes"), programmes, [minutes(one.plan) for one in programmes]),
        *(
            row(str(piece).capitalize(), programmes, [of_piece(piece, one.plan) for one in programmes])
            for piece in pieces(programmes)
        ),
        row(_("Sizes"), programmes, [sizes(one.plan.submission.call) for one in programmes]),
        row(_("Missing"), programmes, [lacks(one.plan) for one in programmes]),
    ]
    return DegreePage(programmes, tuple(one for one in rows if any(cell != Cell() for _title, cell in one.cells)))


def row(label: str, programmes: tuple[Programme, ...], cells: Iterable[Cell]) -> Row:
    return Row(label, tuple((one.title, cell) for one, cell in zip(programmes, cells, strict=True)))


def pieces(programmes: tuple[Programme, ...]) -> list[Piece]:
    """Return what any of the programmes asks for, in the usual order."""
    asked = {line.piece for one in programmes for line in one.plan.lines} - {Piece.COVER}
    return [piece for piece in Piece if piece in asked]


def closing(plan: Plan, today: date, language: str) -> Cell:
    terms = plan.submission.call
    far = how_far(PartialDate.of(terms.closes), today) if terms.closes else ""
    return Cell(closes_text(terms, language), far)


def works(plan: Plan) -> Cell:
    terms, chosen = plan.submission.call, len(plan.submission.works)
    least, most = terms.works_min or 1, terms.works_max or chosen
    return Cell(number_text(terms), _("%d chosen") % chosen, least <= chosen <= max(most, least))


def minutes(plan: Plan) -> Cell:
    terms = plan.submission.call
    asked = wanted(terms.total_min, terms.total_max)
    lengths = [one.work.duration.seconds for one in plan.submission.works if one.work.duration]
    total = sum(lengths)
    inside = (terms.total_min or 0) <= total and (terms.total_max is None or total <= terms.total_max)
    return Cell(asked, clock(total) if lengths else "", inside if asked else None)


def of_piece(piece: Piece, plan: Plan) -> Cell:
    lines = [line for line in plan.lines if line.piece is piece]
    if not lines:
        return Cell()
    done = sum(line.state in DONE for line in lines)
    if piece in OF_EACH_WORK and plan.submission.works:
        there = _("%(done)d of %(all)d") % {"done": done, "all": len(lines)}
        return Cell(asked_of(piece, plan.submission.call), there + kinds_of(piece, plan), done == len(lines))
    return Cell(asked_of(piece, plan.submission.call), state_of(lines), done == len(lines))


def asked_of(piece: Piece, terms: Terms) -> str:
    """Return in words how long or how many it may be."""
    portal = terms.portal
    words = {Piece.NOTE: terms.note_words, Piece.BIOGRAPHY: portal.life_words, Piece.STATEMENT: portal.statement_words}
    pages = {Piece.CV: portal.cv_pages, Piece.SAMPLE: portal.sample_pages}
    if most := words.get(piece):
        least = f"{portal.statement_least}–" if piece is Piece.STATEMENT and portal.statement_least else ""
        return _("%s words") % f"{least}{most}"
    if most := pages.get(piece):
        return ngettext("%d page", "%d pages", most) % most
    if piece is Piece.RECORDING and terms.recording_live:
        return _("live")
    if piece is Piece.FEE:
        return terms.fee
    return str(portal.referees) if piece is Piece.REFEREES and portal.referees else ""


def kinds_of(piece: Piece, plan: Plan) -> str:
    """Return how the recordings came about: live, rendered."""
    if piece is not Piece.RECORDING:
        return ""
    kinds = [str(one.recording.kind) for one in plan.submission.works if one.recording]
    counted = (f"{kinds.count(kind)} {kind}" for kind in dict.fromkeys(kinds))
    return f" ({', '.join(counted)})" if kinds else ""


def state_of(lines: list[Line]) -> str:
    return " ".join(line.told for line in lines)


def sizes(terms: Terms) -> Cell:
    portal = terms.portal
    each = _("a file %s") % in_megabytes(portal.file_bytes) if portal.file_bytes else ""
    all_of_them = _("together %s") % in_megabytes(portal.pack_bytes) if portal.pack_bytes else ""
    return Cell("; ".join(one for one in (each, all_of_them) if one))


def lacks(plan: Plan) -> Cell:
    number = len(plan.lacking) + len(plan.broken)
    return Cell("", ngettext("%d thing", "%d things", number) % number if number else _("nothing"), not number)
