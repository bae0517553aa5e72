"""The command ``document``: what it makes, where it writes, and how it refuses."""

from __future__ import annotations

from datetime import date
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

from catalogue.actions.hires import save_hire
from catalogue.management.base import UnusableInput
from catalogue.models import Composer, Edition, Hire, Work
from tests.makers import NOW, make_composer, make_work
from tests.record_makers import make_record

pytestmark = pytest.mark.django_db


@pytest.fixture
def composer(db: None) -> Composer:
    return make_composer("Ilka Marovand", slug="ilka-marovand")


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work(
        "Rope Tables",
        composer=composer,
        completed="2024",
        instrumentation="2.2.2.2 – 2.2.0.0 – timp – str(8.6.4.4.2)",
        catalogue_number="IM 7",
    )


def made(tmp_path: Path, *words: str) -> str:
    path = tmp_path / "out.txt"
    call_command("document", *words, "--out", str(path), stderr=StringIO())
    return path.read_text(encoding="utf-8")


def test_document_takes_its_format_from_the_name_of_the_file(tmp_path: Path, work: Work) -> None:
    assert "Rope Tables" in made(tmp_path, "works-list")

    call_command("document", "works-list", "--out", str(tmp_path / "list.pdf"), stderr=StringIO())
    assert (tmp_path / "list.pdf").read_bytes().startswith(b"%PDF-")


def test_works_list_stands_in_the_order_that_is_asked_for(tmp_path: Path, work: Work) -> None:
    assert "Works by year" in made(tmp_path, "works-list", "--by", "year")
    assert "Works by category" in made(tmp_path, "works-list")


def test_a_work_is_named_by_its_catalogue_number_or_by_the_number_in_its_address(tmp_path: Path, work: Work) -> None:
    by_address = made(tmp_path, "parts-checklist", "--work", str(work.pk))

    assert made(tmp_path, "parts-checklist", "--work", "IM 7") == by_address


def test_a_work_that_is_named_says_whose_catalogue_is_meant(tmp_path: Path, work: Work) -> None:
    other = make_composer("Tove Brandal", slug="tove-brandal")
    theirs = make_work("Rope Tables", composer=other, instrumentation="fl", catalogue_number="IM 7")

    assert "Ilka Marovand" in made(tmp_path, "parts-checklist", "--work", str(work.pk))
    assert "Tove Brandal" in made(tmp_path, "parts-checklist", "--work", str(theirs.pk))
    for words in (("--work", "IM 7"), ("--work", str(work.pk), str(theirs.pk))):
        with pytest.raises(UnusableInput, match="Say which composer"):
            made(tmp_path, "parts-checklist", *words)


def test_same_records_give_the_same_file(tmp_path: Path, work: Work) -> None:
    files = [tmp_path / "one.pdf", tmp_path / "two.pdf"]

    for file in files:
        call_command("document", "works-list", "--out", str(file), stderr=StringIO())

    assert files[0].read_bytes() == files[1].read_bytes()


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (
            ("concordance",),
            "There is no document “concordance”; there are: works-list, cv-section, parts-checklist, press-sheet, "
            "programme-entry, performance-history, performance-return, delivery-note, arrival-check, return-check, "
            "missing-parts-letter, hire-statement, rider, front-matter, cue-sheet, cue-sheet-pocket, "
            "application-pack.",
        ),
        (("works-list", "--composer", "nobody"), "There is no composer “nobody”; there are: ilka-marovand."),
        (("parts-checklist",), "Name the work that the document is of."),
        (("parts-checklist", "--work", "IM 99"), "--work: there is no work “IM 99” in this catalogue."),
        (("parts-checklist", "--performance", "99"), "This performance is not in the catalogue."),
        (("delivery-note",), "Choose the hire of which this paper is."),
        (("delivery-note", "--hire", "99"), "This hire is not in the catalogue."),
        (
            ("works-list", "--language", "xx"),
            "--language: documents are printed in en-GB, en-US, de, fr, it, es, not in “xx”.",
        ),
        (("hire-statement",), "No set went out in this period."),
        (("cv-section", "--from", "2025", "--to", "2020"), "--from is after --to."),
        (
            ("works-list", "--paper", "b4"),
            "--paper: only the front matter of a score is made on b4; use a4 or letter.",
        ),
    ],
)
def test_what_cannot_be_made_is_said_in_one_sentence(work: Work, words: tuple[str, ...], reason: str) -> None:
    with pytest.raises(UnusableInput) as refused:
        call_command("document", *words)

    assert (str(refused.value), refused.value.returncode) == (reason, 2)


def test_papers_of_a_hire_name_it_by_its_number_or_by_its_work(tmp_path: Path, work: Work) -> None:
    hire = Hire(composer=work.composer, work=work, name="Harbour Band", due_on=date(2026, 6, 5))
    save_hire(hire=hire, performances=(), now=NOW)

    note = made(tmp_path, "delivery-note", "--hire", str(hire.pk))

    assert "Addressee\tHarbour\u00a0Band" in note
    assert "Total\t\t26\t\t[]" in note
    assert made(tmp_path, "delivery-note", "--work", "IM 7") == note
    assert "[]" in made(tmp_path, "arrival-check", "--hire", str(hire.pk))
    assert "Due back\t5\N{NO-BREAK SPACE}June\N{NO-BREAK SPACE}2026" in made(
        tmp_path, "parts-checklist", "--hire", str(hire.pk)
    )


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (("parts-checklist", "--work", "IM 99"), "--work: there is no work “IM 99” in this catalogue."),
        (("programme-entry", "--performance", "99"), "This performance is not in the catalogue."),
        (("delivery-note", "--hire", "99"), "This hire is not in the catalogue."),
    ],
)
def test_among_several_composers_too_a_record_that_is_not_there_is_named(
    work: Work, words: tuple[str, ...], reason: str
) -> None:
    """The reason for exit 2 is the input at its place, not a question that would not help."""
    make_composer("Pell Tarrowick", slug="pell-tarrowick")

    with pytest.raises(UnusableInput) as refused:
        call_command("document", *words)

    assert str(refused.value) == reason


@pytest.mark.parametrize(("tag", "heading"), [("de", "Werke"), ("DE", "Werke"), ("de-AT", "Werke"), ("en", "Works")])
def test_the_language_of_a_document_is_told_by_any_tag_of_it(
    tmp_path: Path, work: Work, tag: str, heading: str
) -> None:
    assert heading in made(tmp_path, "works-list", "--language", tag)


def test_several_composers_ask_which(work: Work) -> None:
    make_composer("Pell Tarrowick", slug="pell-tarrowick")

    with pytest.raises(UnusableInput, match="Say which composer with --composer: ilka-marovand, pell-tarrowick"):
        call_command("document", "works-list")


def test_folder_that_cannot_be_written_is_named_and_leaves_nothing(tmp_path: Path, work: Work) -> None:
    (tmp_path / "file").touch()

    with pytest.raises(UnusableInput, match="cannot be written"):
        call_command("document", "works-list", "--out", str(tmp_path / "file" / "list.pdf"))
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_list_names_each_kind_with_its_formats() -> None:
    out = StringIO()

    call_command("document", "--list", stdout=out)

    assert [line.partition(":")[0] for line in out.getvalue().splitlines()] == [
        "works-list",
        "cv-section",
        "parts-checklist",
        "press-sheet",
        "programme-entry",
        "performance-history",
        "performance-return",
        "delivery-note",
        "arrival-check",
        "return-check",
        "missing-parts-letter",
        "hire-statement",
        "rider",
        "front-matter",
        "cue-sheet",
        "cue-sheet-pocket",
        "application-pack",
    ]


def test_front_matter_is_written_on_the_paper_of_the_score_and_what_lacks_is_said(tmp_path: Path, work: Work) -> None:
    make_record(Edition, work=work, pitch="in C")
    err = StringIO()
    words = ("front-matter", "--work", str(work.pk), "--paper", "b4", "--without-cover")

    call_command("document", *words, "--out", str(tmp_path / "front.txt"), stderr=err)

    assert (tmp_path / "front.txt").read_text(encoding="utf-8").startswith("Ilka Marovand\n")
    assert "Not in the records: The title page has no copyright line. (common practice)" in err.getvalue()
