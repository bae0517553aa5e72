"""The sheet of questions for technical riders, asked of the text of their pages: what a stage manager looks for."""

from __future__ import annotations

import re
from itertools import chain

import pytest

from tests.reference.demo_papers.columns import heads_of, lines_of
from tests.reference.demo_papers.papers import Papers, Sheet

pytestmark = pytest.mark.django_db

CAUTIONS = ("Hearing", "Mains", "Rigging", "Cables and darkness")
CHANNEL = re.compile(r" {0,3}(\d{1,3})(?:–(\d{1,3}))? {2,}\S")
LED = re.compile(r"\d {2,}(?:ring|front left|front right|rear left|rear right) ")
ANGLES = re.compile(r"[+−]?\d[\d.]*° {2,}0°$")
HEAD = re.compile(r"(\d{1,2})\s+([A-Z][\w ,]+?)(?: continued)?$")


def section(sheet: Sheet, head: str) -> list[str]:
    """The lines of a section, over all pages that it stands on."""
    found: list[str] = []
    inside = False
    for line in lines_of(sheet.pdf):
        numbered = HEAD.fullmatch(line.strip())
        if numbered:
            inside = numbered[2] == head
        elif inside:
            found.append(line)
    return found


def channels(sheet: Sheet, head: str) -> list[int]:
    rows = [CHANNEL.match(line) for line in section(sheet, head)]
    spans = [range(int(row[1]), int(row[2] or row[1]) + 1) for row in rows if row]
    return list(chain.from_iterable(spans))


@pytest.fixture
def riders(papers: Papers) -> tuple[Sheet, ...]:
    assert len(papers.riders) >= 3
    return papers.riders


def test_no_channel_stands_twice(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        for head in ("Input list", "Output list"):
            found = channels(sheet, head)
            assert found, (sheet.name, head)
            assert (sheet.name, sorted(found)) == (sheet.name, sorted(set(found)))


def test_outputs_lead_to_as_many_loudspeakers_as_the_layout_has(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        led = [
            row for line in section(sheet, "Output list") if LED.search(line) for row in [CHANNEL.match(line)] if row
        ]
        angles = [line for line in section(sheet, "Loudspeakers") if ANGLES.search(line)]
        number = sum(int(row[2] or row[1]) - int(row[1]) + 1 for row in led)

        assert (sheet.name, number) == (sheet.name, len(angles))
        assert number >= 2


def test_every_item_has_somebody_who_brings_it(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        assert "to be agreed" not in sheet.text, sheet.name
        assert {"composer", "presenter"} <= set(re.findall(r"\w+", " ".join(section(sheet, "Who brings what"))))


def test_cautions_are_there_and_none_says_that_a_level_is_safe(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        assert [word for word in CAUTIONS if not re.search(rf"{word} [A-Z]", sheet.text)] == [], sheet.name
        assert "Nothing here says that a level is safe." in sheet.text


def test_a_click_comes_with_its_caution_and_goes_to_nobody_else(riders: tuple[Sheet, ...]) -> None:
    clicked = [sheet for sheet in riders if "a click" in sheet.text]
    assert clicked
    for sheet in clicked:
        assert "In-ears and click" in sheet.text
        assert "The click goes to the players alone, never to the audience." in sheet.text


def test_revision_date_and_contact_are_told(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        assert "Technical rider, revision 1, 9 March 2026" in sheet.text
        assert "Revision 1, 9 March 2026; replaces all earlier" in sheet.text
        contact = " ".join(section(sheet, "Contact"))
        assert "Nevena Haldoreva" in contact
        assert "nevena.haldoreva@example.org" in contact


def test_sections_are_numbered_without_a_gap_and_none_is_empty(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        lines = [[text for text, _place in line] for line in heads_of(sheet.pdf)]
        told = [int(text) for line in lines if line and line[0].isdecimal() for text in line if text.isdecimal()]
        numbers = list(dict.fromkeys(told))
        assert (sheet.name, numbers) == (sheet.name, list(range(1, len(numbers) + 1)))
        assert len(numbers) >= 9


def test_stage_plan_is_drawn_with_its_players_and_told_in_words(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        plan = " ".join(section(sheet, "Stage plan"))
        assert "front of stage, audience" in plan
        assert "Seen from above; one square is 1 m." in plan
        assert re.search(r"1\s+\S.*\d m back", plan)


def test_output_list_and_ring_stand_side_by_side(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        feet = {text: foot for line in heads_of(sheet.pdf) for text, foot in line}
        assert feet["Output"] == feet["Loudspeakers"], sheet.name


def test_rider_has_four_pages_and_the_last_one_is_no_remnant(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        lines = [len([line for line in page.splitlines() if line.strip()]) for page in sheet.pages]
        assert len(lines) <= 4, sheet.name
        assert lines[-1] >= 20, (sheet.name, lines)


def test_signatures_stand_with_what_they_sign(riders: tuple[Sheet, ...]) -> None:
    for sheet in riders:
        assert "Who brings what" in sheet.pages[-1]
        assert "Agreed for the presenter" in sheet.pages[-1]


# ---- on letter paper, in American English


def test_american_riders_tell_the_time_by_twelve_hours(papers: Papers) -> None:
    assert len(papers.american_riders) == len(papers.riders)
    for sheet in papers.american_riders:
        schedule = " ".join(section(sheet, "Schedule"))
        assert re.search(r"\d:\d\d\s[ap]\.m\.", schedule), sheet.name
        assert re.search(r"\b(?:1[3-9]|2[0-3]):[0-5]\d\b", schedule) is None, sheet.name


def test_riders_on_letter_paper_have_as_many_pages_as_on_a4(papers: Papers) -> None:
    more = [len(letter.pages) - len(a4.pages) for a4, letter in zip(papers.riders, papers.american_riders, strict=True)]
    assert set(more) == {0}


def test_riders_on_letter_paper_end_on_a_page_with_something_on_it(papers: Papers) -> None:
    for sheet in papers.american_riders:
        lines = [len([line for line in page.splitlines() if line.strip()]) for page in sheet.pages]
        assert len(lines) <= 4, sheet.name
        assert lines[-1] >= 10, (sheet.name, lines)
        assert "Who brings what" in sheet.pages[-1], sheet.name
        assert f"{len(lines)} of {len(lines)}" in sheet.pages[-1], sheet.name
