"""What a works list takes in, in which order, and what it leaves out."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.contents.movements import roman
from catalogue.documents.contents.works_list import works_list
from catalogue.documents.model import Document, Entry, Opening, Paper, Paragraph, Section, Table, plain
from catalogue.documents.reading_order import texts
from catalogue.facts import CatalogueFacts, TitleFacts, WorkFacts
from catalogue.instrumentation import read
from catalogue.terms import Category, WorkStatus
from catalogue.timing import Duration, PartialDate
from tests.reference.documents.house import CATALOGUE, TODAY, work


def listed(*works: WorkFacts, by: str = "category") -> Document:
    catalogue = CatalogueFacts(CATALOGUE.composer, works, ())
    return works_list(catalogue, by=by, language="en-GB", paper=Paper.A4, printed_on=TODAY, claims={})  # type: ignore[arg-type]


def entries(document: Document) -> list[Entry]:
    return [
        block for section in document.blocks if isinstance(section, Section) for block in section.blocks
        if isinstance(block, Entry)
    ]  # fmt: skip


def words(document: Document) -> str:
    return "\n".join(plain(text) for block in document.blocks for text in texts(block))


def test_withdrawn_and_juvenile_works_are_left_off_and_works_in_progress_are_not() -> None:
    document = listed(
        work(1, "Kept"),
        work(2, "Withdrawn", status=WorkStatus.WITHDRAWN),
        work(3, "Juvenile", status=WorkStatus.JUVENILE),
        work(4, "Growing", status=WorkStatus.IN_PROGRESS),
    )

    assert [plain(entry.title) for entry in entries(document)] == ["Growing", "Kept"]
    assert plain(document.blocks[0].subtitle).startswith("Two works.")  # type: ignore[union-attr]


def test_works_of_a_category_fall_by_year_then_by_number_and_undated_ones_come_last() -> None:
    document = listed(
        work(1, "Undated"),
        work(2, "Nine", completed=PartialDate(2020), catalogue_number="op. 9"),
        work(3, "Ten", completed=PartialDate(2020), catalogue_number="op. 10"),
        work(4, "Newest", completed=PartialDate(2024)),
    )

    assert [plain(entry.title) for entry in entries(document)] == ["Newest", "Ten", "Nine", "Undated"]


def test_a_span_of_years_stands_under_its_last_by_category_and_its_first_by_year() -> None:
    span = work(1, "Span", begun=PartialDate(2011), completed=PartialDate(2022))
    single = work(2, "Single", completed=PartialDate(2015))

    assert [plain(entry.title) for entry in entries(listed(span, single))] == ["Span", "Single"]
    table = listed(span, single, by="year").blocks[1]
    assert isinstance(table, Table)
    assert [plain(group.label) for group in table.groups] == ["2015", "2011"]


def test_what_is_unknown_leaves_neither_label_nor_line() -> None:
    (entry,) = entries(listed(work(1, "Bare")))

    assert (entry.details, entry.figure, entry.strip) == (((entry.details[0]),), (), None)
    assert plain(entry.details[0]) == "for orchestra"
    assert [plain(line) for line in entry.margin] == ["undated"]


def test_durations_are_said_to_be_approximate_once_or_where_they_are() -> None:
    about = work(1, "About", duration=Duration(600, True))
    exact = work(2, "Exact", duration=Duration(300))

    together = listed(about, replace(about, id=3), exact)
    apart = listed(about, exact)

    assert "Durations are approximate." in words(together)
    assert [plain(entry.figure) for entry in entries(together)] == ["10′", "10′", "5′"]
    assert "Durations are approximate." not in words(apart)
    assert [plain(entry.figure) for entry in entries(apart)] == ["c.\N{NO-BREAK SPACE}10′", "5′"]


def test_sigla_that_two_publishers_would_share_are_written_out() -> None:
    document = listed(
        work(1, "A", publisher="Lock Gate Editions"),
        work(2, "B", publisher="Long Game Editions"),
        work(3, "C", publisher="Quay Press"),
    )
    opening = document.blocks[0]
    assert isinstance(opening, Opening)

    assert plain(opening.subtitle) == "Three works. QP: Quay Press."
    assert [plain(entry.margin[-1]) for entry in entries(document)] == [
        "Lock Gate Editions",
        "Long Game Editions",
        "QP",
    ]


def test_an_empty_catalogue_is_a_list_without_entries() -> None:
    document = listed()

    assert entries(document) == []
    assert "No works." in words(document)


def test_roman_numerals_count_movements() -> None:
    assert [roman(number) for number in (1, 4, 9, 14, 40)] == ["I", "IV", "IX", "XIV", "XL"]


def test_a_work_with_a_title_alone_can_be_listed() -> None:
    document = listed(replace(work(1, "x"), title=TitleFacts("")))

    assert len(entries(document)) == 1


def test_a_work_is_told_once_and_referred_to_where_it_is_looked_for_too() -> None:
    document = listed(
        work(1, "Weir", category=Category.SOLOIST_AND_ORCHESTRA),
        work(2, "Sluice", category=Category.SOLO),
        work(3, "Ferrous", category=Category.CHAMBER, instrumentation=read("bass clarinet, live electronics")),
        work(4, "Tape", category=Category.ELECTRONICS),
    )

    assert [plain(entry.title) for entry in entries(document)] == ["Weir", "Ferrous", "Sluice", "Tape"]
    assert [plain(one.text) for one in notes(document)[:2]] == [
        "See also Weir (Soloist and orchestra).",
        "See also Ferrous (Chamber music).",
    ]


def test_nothing_is_referred_to_under_a_head_that_has_no_work_of_its_own() -> None:
    document = listed(work(1, "Weir", category=Category.SOLOIST_AND_ORCHESTRA))

    assert "See also" not in words(document)


def test_a_version_says_of_which_work_it_is_one_where_that_is_listed() -> None:
    first = work(1, "Slack Rope", category=Category.ORCHESTRA)
    version = work(2, "Slack Rope", category=Category.CHAMBER, version_of=1, version_label="for quintet")

    assert "Version of Slack Rope (Orchestra)" in words(listed(first, version))
    assert "Version of" not in words(listed(version))


def notes(document: Document) -> list[Paragraph]:
    return [
        block for section in document.blocks if isinstance(section, Section) for block in section.blocks
        if isinstance(block, Paragraph)
    ]  # fmt: skip
