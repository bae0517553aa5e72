"""What the page of one record shows, and what a work's page shows of the records around it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any, cast

from django.db.models import Exists, OuterRef, Q
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from catalogue.gathering.prepared import values_about
from catalogue.models import (
    Biography,
    Commission,
    Contributor,
    NotationSign,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    Picture,
    ProgrammeNote,
    StoredFile,
    TechnicalSetup,
    TextSource,
    Venue,
    Work,
)
from catalogue.models.writings import Writing
from catalogue.rules.clearances import doubt_about_permission
from catalogue.rules.commissions import due_too_early
from catalogue.rules.shares import shares_disagree
from catalogue.rules.texts import stale_biography, stale_note, too_long
from catalogue.terms import Clearance, NoteLength
from catalogue.timing import PartialDate
from catalogue.web.changes import Change, changes_of
from catalogue.web.records.files import Upload, doubts_about_files, found_rows, is_heard, said_of_file, upload_for
from catalogue.web.records.kinds import Kind, Words
from catalogue.web.records.of_catalogue import BILLED_NAMES, CONTACTS
from catalogue.web.records.of_files import FILES
from catalogue.web.records.of_sendings import SENDINGS
from catalogue.web.records.registry import AROUND_A_WORK
from catalogue.web.records.shown import Row, rows_of, shown, sign_svg
from catalogue.web.setups import doubts_about_setup, drawings_of

ON_A_WORKS_PAGE = 20


@dataclass(frozen=True, slots=True)
class Around:
    """The records of a kind around something else: each with its key, its name, what else is told, and its sign.

    ``upload`` is the form with which one more is sent, where it comes as a file.
    """

    kind: Kind
    lines: tuple[tuple[int, str, SafeString, SafeString], ...]
    more: int
    doubt: str = ""
    upload: Upload | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """One saving of the record, with the fields that changed in words."""

    moment: datetime
    who: str
    fields: str
    is_first: bool


@dataclass(frozen=True, slots=True)
class RecordPage:
    """A record as it is shown.

    ``times`` is how many performances take place in a hall or name somebody; ``doubts`` are of the record at large,
    ``placed`` is how many more stand at their rows.
    """

    record: Any
    kind: Kind
    groups: list[tuple[Words, list[Row]]]
    sign: SafeString
    drawings: tuple[tuple[SafeString, str], ...]
    remarks: tuple[str, ...]
    doubts: tuple[str, ...]
    placed: int
    around: tuple[Around, ...]
    changes: tuple[Told, ...]
    is_heard: bool
    times: int


def record_page(
    record: Any, kind: Kind, *, today: date, slug: str, language: str, opens: Collection[Kind] | None = None
) -> RecordPage:
    """Return what a record's page shows; ``opens`` are the kinds to which links lead, all where none are named."""
    wrong = doubts_about_setup(record, today) if isinstance(record, TechnicalSetup) else {}
    groups = at_their_rows(rows_of(record, kind, slug, language, opens), wrong)
    shown_names = {row.name for _heading, rows in groups for row in rows}
    unplaced = tuple(one for name, doubts in wrong.items() if name not in shown_names for one in doubts)
    return RecordPage(
        record=record,
        kind=kind,
        groups=[*found_group(record), *groups],
        sign=sign_svg(record) if isinstance(record, NotationSign) else SafeString(),
        drawings=drawings_of(record, language) if isinstance(record, TechnicalSetup) else (),
        remarks=remarks_on(record),
        doubts=tuple(one for one in (*doubts_about(record, today), *unplaced, *doubts_about_files(record)) if one),
        placed=sum(len(doubts) for name, doubts in wrong.items() if name in shown_names),
        around=around_record(record, slug, language),
        changes=tuple(told_change(change, kind) for change in changes_of(record)),
        is_heard=is_heard(record),
        times=times_named(record),
    )


def at_their_rows(
    groups: list[tuple[Words, list[Row]]], wrong: Mapping[str, tuple[str, ...]]
) -> list[tuple[Words, list[Row]]]:
    """Return the rows with what does not agree in them."""
    return [
        (heading, [replace(row, doubts=(*row.doubts, *wrong.get(row.name, ()))) for row in rows])
        for heading, rows in groups
    ]


def times_named(record: Any) -> int:
    """Return in how many performances a hall, a person or an organisation is named."""
    if not isinstance(record, Venue | Person | Organisation):
        return 0
    ours = Performance.objects.filter(composer=record.composer)
    if isinstance(record, Venue):
        return ours.filter(venue=record).count()
    name = "person" if isinstance(record, Person) else "organisation"
    named = Q(pk__in=PerformanceCredit.objects.filter(**{name: record}).values("performance"))
    return ours.filter(named | Q(presenter=record) if isinstance(record, Organisation) else named).count()


def found_group(record: Any) -> list[tuple[Words, list[Row]]]:
    """Return what was found in a file."""
    rows = found_rows(record) if isinstance(record, StoredFile) else []
    return [(_("What is in it"), rows)] if rows else []


def told_change(change: Change, kind: Kind) -> Told:
    fields = (
        _("deleted or brought back") if name == "deleted_at" else column_label(name, kind) for name in change.fields
    )
    return Told(change.moment, change.who, ", ".join(fields), is_first=change.is_first)


def column_label(attname: str, kind: Kind) -> str:
    return str(kind.label(kind.model._meta.get_field(attname).name))


def remarks_on(record: Any) -> tuple[str, ...]:
    if isinstance(record, Writing):
        return (_("%(number)s words") % {"number": record.words},)
    if isinstance(record, Picture):
        size = {"wide": record.width, "high": record.height, "kind": record.suffix.upper()}
        return (_("%(wide)s × %(high)s pixels, %(kind)s") % size, f"SHA-256 {record.sha256}")
    return said_of_file(record) if isinstance(record, StoredFile) else ()


def doubts_about(record: Any, today: date) -> tuple[str, ...]:
    """Return what wants another look: shares beyond the whole, days out of their order, a text that may be outdated."""
    if isinstance(record, Contributor):
        return (shares_disagree(one.share for one in Contributor.objects.filter(work=record.work_id)),)
    if isinstance(record, Commission):
        return (due_too_early(known(record.agreed), known(record.due)),)
    if isinstance(record, TextSource):
        granted, expires = known(record.granted), known(record.expires)
        return (doubt_about_permission(Clearance(record.clearance), granted, expires, today),)
    if not isinstance(record, Writing):
        return ()
    length = too_long(record.body, NoteLength(record.length), record.most_words)
    as_of = known(record.as_of)
    if isinstance(record, ProgrammeNote):
        return (length, stale_note(as_of, known(record.work.revised)))
    return (length, stale_biography(as_of, today) if isinstance(record, Biography) else "")


def known(when: Any) -> PartialDate | None:
    return when if isinstance(when, PartialDate) else None


# ---- around a work, around a body


def around_work(work: Work, slug: str, language: str) -> tuple[Around, ...]:
    """Return the records around a work, kind by kind; kinds without any have no lines.

    One query, and one for each kind of which there are any: most works have records of few.
    """
    ((_work, *filled),) = values_about(asked_around, work.pk)
    return tuple(
        around(kind, kind.around(work) if any_of_it else (), slug, language)
        for kind, any_of_it in zip(AROUND_A_WORK, filled, strict=True)
    )


def asked_around(told: Sequence[Any]) -> Any:
    """Ask of which kinds there are records around a work."""
    (work,) = told
    kinds = [Exists(cast(Any, kind.model).objects.filter(work=OuterRef("pk"))) for kind in AROUND_A_WORK]
    return Work.with_deleted.filter(pk=work).values_list("pk", *kinds)


def around_record(record: Any, slug: str, language: str) -> tuple[Around, ...]:
    """Return what belongs to a record: the files of an edition, a recording or a setup, the names of a body."""
    upload = upload_for(record)
    if upload is None:
        return around_body(record, slug, language)
    files = FILES.around(record.work).filter(**{upload.column: record})
    return (replace(around(FILES, files, slug, language), upload=upload),)


def around_body(record: Any, slug: str, language: str) -> tuple[Around, ...]:
    """Return the contacts and the names of an organisation, the names of a person, and the papers that they got."""
    if not isinstance(record, Person | Organisation):
        return ()
    column = "person" if isinstance(record, Person) else "organisation"
    kinds = (BILLED_NAMES, SENDINGS) if isinstance(record, Person) else (CONTACTS, BILLED_NAMES, SENDINGS)
    return tuple(
        around(kind, kind.of(record.composer).filter(**{column: record}), slug, language, without=(column, "recipient"))
        for kind in kinds
    )


def around(kind: Kind, records: Any, slug: str, language: str, *, without: tuple[str, ...] = ("work",)) -> Around:
    found = list(records)
    if kind.look_up is not None:
        kind.look_up(found[:ON_A_WORKS_PAGE])
    told = [name for name in kind.columns[1:] if name not in without]
    lines = [
        (one.pk, shown_name(one, kind), told_of(one, kind, told, slug, language), drawn_of(one))
        for one in found[:ON_A_WORKS_PAGE]
    ]
    return Around(kind, tuple(lines), max(0, len(found) - ON_A_WORKS_PAGE), doubt=doubt_about_all(kind, found))


def shown_name(record: Any, kind: Kind) -> str:
    name = kind.columns[0]
    return str(record) if name == "__str__" else str(getattr(record, name))


def told_of(record: Any, kind: Kind, names: list[str], slug: str, language: str) -> SafeString:
    """Return the other columns of the list in one line, each in words that stand without its heading."""
    found = ((shown(record, name, slug, language), kind.tells.get(name)) for name in names if not is_idle(record, name))
    return format_html_join(
        ", ", "{}", ((format_html(str(words), text) if words else text,) for text, words in found if text)
    )


def is_idle(record: Any, name: str) -> bool:
    """Whether a column tells nothing: that there is none of what it is about, or one instrument as usual."""
    value = getattr(record, name, None)
    return value == "none" or (name == "number" and value == 1)


def drawn_of(record: Any) -> SafeString:
    return sign_svg(record) if isinstance(record, NotationSign) else SafeString()


def doubt_about_all(kind: Kind, records: list[Any]) -> str:
    if kind.model is not Contributor:
        return ""
    return shares_disagree(record.share for record in records)
