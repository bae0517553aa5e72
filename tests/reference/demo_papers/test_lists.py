"""The sheet of questions that a librarian asks of every paper, answered on the text of the printed PDF."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from itertools import pairwise
from unicodedata import bidirectional

import pytest

from catalogue.documents.contents.grouping import CATEGORY_HEADS as HEADS
from catalogue.documents.labels import labels
from catalogue.facts import PerformanceFacts, ProgrammedFacts, WorkFacts
from tests.reference.demo_papers.papers import SINCE, TODAY, Papers, Sheet

pytestmark = pytest.mark.django_db

MONTHS = "January|February|March|April|May|June|July|August|September|October|November|December"
DAY = re.compile(rf"(?P<d>\d{{1,2}}) (?P<m>{MONTHS}) (?P<y>\d{{4}})|(?P<M>{MONTHS}) (?P<D>\d{{1,2}}), (?P<Y>\d{{4}})")
YEAR = re.compile(r"(?:c\. )?(\d{4})(?:–(\d\d(?:\d\d)?))?(?= {2})")
SLIPS = re.compile(
    r"\bNone\b(?! [a-z])|[{}\[\]]|\(\s*\)|,\s*,|;\s*[;,]|(?<!\.)\.\.(?!\.)"
    r"|\b1 (?:works|performances|players|desks|parts)\b"
)
UNITS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
TENS = {20: "twenty", 30: "thirty", 40: "forty", 50: "fifty", 60: "sixty", 70: "seventy"}


def in_words(number: int) -> str:
    ten, one = divmod(number, 10)
    words = UNITS[number - 1] if number <= 12 else TENS[10 * ten] + (f"-{UNITS[one - 1]}" if one else "")
    return words.capitalize()


def days_in(text: str) -> list[date]:
    found = ([part for part in match.groups() if part] for match in DAY.finditer(text))
    read = ((f"{one} {two} {year}" if one.isdecimal() else f"{two} {one} {year}") for one, two, year in found)
    return [datetime.strptime(text, "%d %B %Y").date() for text in read]


# ---- every paper


def test_pages_are_counted(papers: Papers) -> None:
    for sheet in papers.all:
        told = [re.findall(r"(\d+) of (\d+)$", page.rstrip())[-1] for page in sheet.pages]
        number = len(sheet.pages)

        assert (sheet.name, told) == (sheet.name, [(str(page), str(number)) for page in range(1, number + 1)])


def test_nothing_is_left_over_from_the_making(papers: Papers) -> None:
    found = [(sheet.name, SLIPS.findall(sheet.text)) for sheet in papers.all]

    assert [one for one in found if one[1]] == []


def test_no_withdrawn_or_juvenile_work_is_on_a_list(papers: Papers) -> None:
    left_off = 0
    for sheet in papers.lists:
        for work in sheet.catalogue.works:
            if work not in sheet.public:
                left_off += 1
                assert (sheet.name, work.title.title in sheet.text) == (sheet.name, False)
    assert left_off > 10


# ---- works by category


def entry_years(sheet: Sheet) -> list[list[int]]:
    """Give the last years of the entries, section by section."""
    heads = {labels(sheet.document.language).word(head) for head in HEADS.values()}
    sections: list[list[int]] = []
    for line in sheet.lines:
        if line.strip() in heads:
            sections.append([])
        elif found := YEAR.match(line):
            first, last = found.groups()
            sections[-1].append(int(first[: 4 - len(last or "")] + (last or "")))
        elif line.startswith("undated"):
            sections[-1].append(0)
    return sections


def test_number_that_is_stated_is_the_number_of_entries(papers: Papers) -> None:
    for sheet in papers.of_kind("works-list-by-category"):
        number = sum(len(years) for years in entry_years(sheet))

        assert (sheet.name, number) == (sheet.name, len(sheet.public))
        assert f"{in_words(number)} works, " in sheet.text


def test_no_section_is_empty_and_years_fall_in_each(papers: Papers) -> None:
    for sheet in papers.of_kind("works-list-by-category"):
        for years in entry_years(sheet):
            assert years
            assert (sheet.name, years) == (sheet.name, sorted(years, reverse=True))


def test_every_public_work_has_one_entry(papers: Papers) -> None:
    for sheet in papers.of_kind("works-list-by-category"):
        beginnings = Counter(re.split(r" {2,}", line)[0] for line in sheet.lines)
        numbers = [work.catalogue_number for work in sheet.public if work.catalogue_number]

        assert len(numbers) >= 5
        assert (sheet.name, {number: beginnings[number] for number in numbers}) == (sheet.name, Counter(numbers))


def test_what_is_still_to_come_is_not_told_as_done(papers: Papers) -> None:
    for sheet in papers.of_kind("works-list-by-category"):
        told = re.sub(r"To (\d+ \w+ \d+|\w+ \d+, \d+)", "", sheet.text)

        assert (sheet.name, [day for day in days_in(told) if day > TODAY]) == (sheet.name, [])


# ---- works by year


def beginning(work: WorkFacts) -> str:
    """The first letters of a title as they stand on one line, in Latin letters."""
    title = work.title.transliteration or work.title.title
    return title[:16]


def test_every_public_work_is_in_the_table_once(papers: Papers) -> None:
    for sheet in papers.of_kind("works-list-by-year"):
        expected = Counter(beginning(work) for work in sheet.public)

        assert (sheet.name, {title: sheet.text.count(title) for title in expected}) == (sheet.name, expected)
        assert f"{in_words(len(sheet.public))} works. Full entries" in sheet.text


def test_years_of_the_table_fall(papers: Papers) -> None:
    for sheet in papers.of_kind("works-list-by-year"):
        years = [int(found[1]) for line in sheet.lines if (found := YEAR.match(line))]
        told_again = [one for one in pairwise(years) if one[0] < one[1]]

        assert len(years) > 3
        assert (sheet.name, told_again) == (sheet.name, [])


# ---- the CV


HEAD = re.compile(
    r"(?:Selected )?(works|commissions|performances|recordings|awards)(?: continued)?(?= {2}|$)", re.IGNORECASE
)


def cv_sections(sheet: Sheet) -> dict[str, list[tuple[int, str]]]:
    """Give for each section its lines, each whole, with the year under which it stands."""
    sections: dict[str, list[tuple[int, str]]] = {}
    edge, lines, year = len(sheet.lines[0]) - len(sheet.lines[0].lstrip()), [], 0
    for line in sheet.lines:
        margin, rest = line[:edge].strip(), line[edge:]
        if rest.startswith(sheet.composer) or margin.startswith("To "):
            continue
        if found := HEAD.match(rest):
            lines = sections.setdefault(found[1].lower(), [])
        elif rest.startswith(" ") and not margin and bidirectional(rest.lstrip()[0]) not in {"R", "AL"}:
            lines[-1] = (year, f"{lines[-1][1]} {rest.strip()}")
        elif rest != "composer" and not rest.startswith("composer  "):
            year = int(margin) if margin else year
            lines.append((year, rest.lstrip()))
    return sections


def heard(sheet: Sheet) -> Iterator[tuple[PerformanceFacts, ProgrammedFacts]]:
    """Give what counts as a performance of a work: dated, public, given or certain, of a work on public lists."""
    public = {work.id for work in sheet.public}
    for event in sheet.catalogue.performances:
        is_certain = event.status in {"given", "confirmed"} and event.audience == "public" and event.date
        if is_certain and event.kind in {"concert", "stage", "broadcast", "student recital", "installation"}:
            yield from ((event, one) for one in event.programme if one.work_id in public)


def times(line: str) -> int:
    """How many performances a line tells: those it counts, else its dates."""
    counted = re.search(rf", ({'|'.join(UNITS)}) performances\b", line)
    if counted:
        return UNITS.index(counted[1]) + 1
    return 2 if re.search(rf"\d (?:{MONTHS}) and \d|\d and \d+ (?:{MONTHS})|(?:{MONTHS}) \d+ and ", line) else 1


def test_sections_of_a_cv_have_lines_and_their_years_fall(papers: Papers) -> None:
    for sheet in papers.of_kind("cv-section"):
        sections = cv_sections(sheet)

        assert set(sections) >= {"works", "performances"}
        for head, lines in sections.items():
            years = [year for year, _line in lines]
            assert (sheet.name, head, years) == (sheet.name, head, sorted(years, reverse=True))
            assert years


def test_what_is_to_come_is_said_to_be_forthcoming_and_nothing_else_is(papers: Papers) -> None:
    seen: Counter[str] = Counter()
    for sheet in papers.of_kind("cv-section"):
        for year, line in cv_sections(sheet)["performances"]:
            days = days_in(line)

            assert (line, {day.year for day in days}) == (line, {year} if days else set())
            assert (line, "forthcoming" in line) == (line, bool(days) and min(days) > TODAY)
            seen.update({"dated": bool(days), "forthcoming": "forthcoming" in line})
    assert seen["dated"] > 100
    assert seen["forthcoming"] > 10


def test_numbers_in_the_heads_of_a_cv_are_those_of_its_lines(papers: Papers) -> None:
    for sheet in papers.of_kind("cv-section"):
        sections = cv_sections(sheet)
        all_heard = list(heard(sheet))
        chosen = [event for event, _one in all_heard if event.date and event.date.last >= SINCE]
        shown = sum(times(line) for _year, line in sections["performances"])
        works = [work for work in sheet.public if (day := work.completed or work.begun) and day.last >= SINCE]

        assert (sheet.name, shown) == (sheet.name, len(chosen))
        assert f"{len(chosen)} of {len(all_heard)} performances" in sheet.text or len(chosen) == len(all_heard)
        assert (sheet.name, len(sections["works"])) == (sheet.name, len(works))
        assert f"{len(works)} of {len(sheet.public)} works" in sheet.text or len(works) == len(sheet.public)


def countries(events: Iterable[PerformanceFacts]) -> set[str]:
    return {event.country for event in events if event.country}


def test_countries_of_a_cv_are_those_of_its_performances(papers: Papers) -> None:
    for sheet in papers.of_kind("cv-section"):
        number = len(countries(event for event, _one in heard(sheet)))

        assert (sheet.name, re.findall(r"performances in (\d+) countries", sheet.text)) == (sheet.name, [str(number)])
