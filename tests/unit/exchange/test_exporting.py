from __future__ import annotations

import csv
from datetime import UTC, datetime, time
from io import StringIO

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from catalogue.exchange.columns import Kind
from catalogue.exchange.exporting import ExportError, export_csv, export_ods, export_xlsx
from catalogue.exchange.importing import Wish, import_table
from catalogue.exchange.outcomes import Outcome, Report
from catalogue.exchange.tables import read_table
from catalogue.models import (
    Commission,
    Composer,
    Movement,
    Performance,
    PerformanceCredit,
    ProgrammedWork,
    Venue,
    Work,
)
from catalogue.timing import Duration, PartialDate

pytestmark = pytest.mark.django_db

NOW = datetime(2026, 3, 9, 10, 0, tzinfo=UTC)
WRITERS = {"csv": export_csv, "xlsx": export_xlsx, "ods": export_ods}


def take(composer: Composer, content: bytes, kind: Kind) -> Report:
    return import_table(read_table(content), Wish(composer, NOW, kind=kind))


def fill(composer: Composer) -> None:
    """Store works and performances with everything that a spreadsheet has a column for."""
    first = Work.objects.create(
        composer=composer, title="=Ebb", subtitle="+3", original_title="Ebbe", translated_title="Ebb",
        catalogue_number="Op. 1",
        completed=PartialDate(1998, circa=True), revised=PartialDate(2001, 5), category="chamber", status="withdrawn",
        instrumentation="2fl", instrumentation_typed="two flutes", duration=Duration(755, approximate=True),
        dedication="'tis; for you", publisher="own", iswc="T-034.524.680-1", ismn="9790060115615",
        text_author="A. Poet", text_language="de", notes="one\ntwo: three",
    )  # fmt: skip
    Movement.objects.create(work=first, number=1, title="Slow; slower", duration=Duration(240), attacca=True)
    Commission.objects.create(work=first, name="Pier Trust")
    unread = Work.objects.create(
        composer=composer, title="Unread", instrumentation_typed="seven zithertrons", duration_typed="two rivers"
    )
    Movement.objects.create(work=unread, number=1, title="I")
    Movement.objects.create(work=unread, number=2, title="II", duration=Duration(60))
    revised = Work.objects.create(composer=composer, title="=Ebb", version_of=first, version_label="revised")
    venue = Venue.objects.create(composer=composer, name="Hall, great", city="Linz", country="AT", zone="Europe/Vienna")
    evening = Performance.objects.create(
        composer=composer, date=PartialDate(2020, 3, 12), first_day="2020-03-12", last_day="2020-03-12", venue=venue,
        time=time(19, 30), presenter_name="Brücke", series="Summer", country_then="Austria", notes="sold\nout",
    )  # fmt: skip
    for order, (work, extent, part) in enumerate([(first, "partial", "Slow: one"), (revised, "complete", "")], start=1):
        ProgrammedWork.objects.create(
            performance=evening, work=work, order=order, extent=extent, part=part, billing="@x"
        )
    PerformanceCredit.objects.create(performance=evening, order=1, name="Iva; Dorn", role="soloist", plays="viola")
    PerformanceCredit.objects.create(performance=evening, order=2, name="Players: X", role="conductor")
    undated = Performance.objects.create(composer=composer, city="Graz", audience="invited", status="duplicate")
    ProgrammedWork.objects.create(performance=undated, work=unread, order=1, extent="suite", part="No. 1")


@pytest.mark.parametrize("kind", list(Kind))
@pytest.mark.parametrize("form", WRITERS)
def test_importing_an_export_changes_nothing(composer: Composer, kind: Kind, form: str) -> None:
    fill(composer)
    content = WRITERS[form]([composer], kind)

    report = take(composer, content, kind)

    assert (report.errors, report.unknown_columns) == ((), ())
    assert {one.outcome for one in report.done} == {Outcome.SAME}
    assert report.rows == 3
    assert WRITERS[form]([composer], kind) == content


@pytest.mark.parametrize("form", WRITERS)
def test_an_export_fills_an_empty_catalogue(composer: Composer, other_composer: Composer, form: str) -> None:
    fill(composer)
    contents = {kind: WRITERS[form]([composer], kind) for kind in Kind}
    other_composer.name = composer.name

    for kind in Kind:
        assert take(other_composer, contents[kind], kind).errors == ()

    assert {kind: WRITERS[form]([other_composer], kind) for kind in Kind} == contents


def test_same_catalogue_gives_the_same_bytes(composer: Composer) -> None:
    fill(composer)

    for write in WRITERS.values():
        assert write([composer], Kind.WORKS) == write([composer], Kind.WORKS)


def test_no_cell_of_csv_begins_a_formula(composer: Composer) -> None:
    fill(composer)

    rows = list(csv.reader(StringIO(export_csv([composer], Kind.WORKS).decode("utf-8-sig"), newline="")))

    assert rows[1][1:5] == ["'=Ebb", "Ebbe", "Ebb", "+3"]
    assert [cell for row in rows for cell in row if cell[:1] in tuple("=@＝")] == []


def test_text_longer_than_a_cell_is_refused_for_xlsx(composer: Composer) -> None:
    Work.objects.create(composer=composer, title="Ebb", notes="n" * 32_768)

    with pytest.raises(ExportError) as caught:
        export_xlsx([composer], Kind.WORKS)

    assert caught.value.reason == "Row 2, notes: this text is longer than a cell of XLSX takes; export as CSV instead."


def test_empty_catalogue_is_its_header(composer: Composer) -> None:
    assert export_csv([composer], Kind.PERFORMANCES).decode("utf-8-sig").count("\n") == 1


lines = st.text(st.characters(exclude_categories=["Cs", "Cc", "Zl", "Zp"]), max_size=20).map(str.strip)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(title=lines.filter(bool), more=st.tuples(lines, lines, lines, lines), form=st.sampled_from(sorted(WRITERS)))
def test_any_text_comes_back_as_it_was(composer: Composer, title: str, more: tuple[str, ...], form: str) -> None:
    Work.objects.all().delete()
    subtitle, dedication, publisher, author = more
    Work.objects.create(
        composer=composer,
        title=title,
        subtitle=subtitle,
        dedication=dedication,
        publisher=publisher,
        text_author=author,
    )

    report = take(composer, WRITERS[form]([composer], Kind.WORKS), Kind.WORKS)

    assert (report.errors, [one.outcome for one in report.done]) == ((), [Outcome.SAME])


# What spreadsheet programs change or run where it is not told as text, beside what nobody expects.
HOSTILE = (
    "=1+1", "'=1+1", "@SUM(A1)", "+49 30", "-5", "0012", "1e5", "TRUE", "1/2", "12:30", "2020-03-12", "#N/A", '"q"',
    "“q”", "a; b", "a: b", "a, b", "a (b)", "\u202eabc\u202c", "שלום (1)", "two\nlines", "tab\there", "'", "''x",
    "sep=;",
)  # fmt: skip
hostile = st.sampled_from(HOSTILE) | lines
one_line = hostile.map(lambda text: " ".join(text.split()))
dates = st.sampled_from(
    [None, PartialDate(1913), PartialDate(1913, 5), PartialDate(1913, 5, 29), PartialDate(1913, circa=True)]
)


@pytest.mark.slow
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    texts=st.tuples(*[one_line] * 7), names=st.lists(one_line.filter(bool), max_size=2, unique=True),
    notes=hostile, date=dates, form=st.sampled_from(sorted(WRITERS)),
)  # fmt: skip
def test_any_performance_comes_back_as_it_was(
    composer: Composer, texts: tuple[str, ...], names: list[str], notes: str, date: PartialDate | None, form: str
) -> None:
    for model in (Performance, Work, Venue):
        model.objects.all().delete()
    title, hall, city, presenter, series, billing, part = texts
    work = Work.objects.create(composer=composer, title=title or "Ebb")
    venue = Venue.objects.create(composer=composer, name=hall, city=city, country="AT") if hall else None
    evening = Performance.objects.create(
        composer=composer, date=date, venue=venue, city="" if hall else city, country="" if hall else "AT",
        presenter_name=presenter, series=series, notes=notes.strip(),
    )  # fmt: skip
    ProgrammedWork.objects.create(performance=evening, work=work, order=1, extent="partial", part=part, billing=billing)
    for order, name in enumerate(names, start=1):
        PerformanceCredit.objects.create(performance=evening, order=order, name=name, role="conductor")
    content = WRITERS[form]([composer], Kind.PERFORMANCES)

    report = take(composer, content, Kind.PERFORMANCES)

    assert (report.errors, [one.outcome for one in report.done]) == ((), [Outcome.SAME])
    assert WRITERS[form]([composer], Kind.PERFORMANCES) == content
