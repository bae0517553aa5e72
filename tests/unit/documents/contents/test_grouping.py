"""How a works list is parted, and which works are performable."""

from __future__ import annotations

from collections import Counter

import pytest

from catalogue.documents.contents.grouping import GROUPINGS, performable
from catalogue.documents.contents.selection import listed_works
from catalogue.documents.contents.works_list import Telling
from catalogue.documents.labels import labels
from catalogue.documents.model import Entry, Section, plain
from catalogue.documents.needs import DocumentNeeds
from catalogue.instrumentation import read
from catalogue.timing import Duration
from tests.fact_makers import make_work
from tests.reference.documents.house import CATALOGUE, works_by

WORKS = listed_works(CATALOGUE)


@pytest.mark.parametrize("order", GROUPINGS)
def test_every_work_stands_in_one_group(order: str) -> None:
    found = Counter(work.id for _head, works in GROUPINGS[order](WORKS, labels("en-GB")) for work in works)

    assert found == Counter(work.id for work in WORKS)


@pytest.mark.parametrize("order", ["forces", "duration"])
def test_heads_of_a_list_count_its_entries(order: str) -> None:
    sections = [one for one in works_by(order).blocks if isinstance(one, Section) and not one.key]

    assert sections
    for section in sections:
        entries = sum(isinstance(block, Entry) for block in section.blocks)
        assert int(plain(section.aside).split()[0]) == entries


@pytest.mark.parametrize(("seconds", "head"), [(300, "Up to 5"), (301, "Over 5 and up to 10"), (3601, "Over 60")])
def test_a_work_stands_under_the_minutes_that_it_does_not_exceed(seconds: int, head: str) -> None:
    work = make_work(1, duration=Duration(seconds))
    groups = {one: works for one, works in GROUPINGS["duration"]((work,), labels("en-GB")) if works}

    assert groups == {f"{head} minutes": (work,)}


def test_works_that_cannot_be_told_are_counted_and_left_off() -> None:
    works, unsure = performable(WORKS, read("2vn, va, vc"))

    assert [work.title.title for work in works] == ["String Quartet No. 2", "Sluice"]
    assert unsure == sum(work.instrumentation is None for work in WORKS)


def test_no_list_is_made_of_what_nobody_can_play() -> None:
    with pytest.raises(DocumentNeeds, match="No work on the list can be played by these players"):
        works_by("category", telling=Telling(available=read("tba")))
