"""The sheet of questions for papers in other languages: what of them is still English."""

from __future__ import annotations

import re

import pytest

from catalogue.documents.model import Document, plain
from catalogue.documents.reading_order import texts
from tests.reference.demo_papers.papers import Papers

pytestmark = pytest.mark.django_db

OTHERS = ("de", "fr", "it", "es")
WORD = re.compile(r"[A-Za-z]{4,}")
ALIKE = re.compile(
    r"ISMN|ISWC|SATB|Azimut|Material|Signal|Format|Notation|Total|Installation|VIII|Israel|Uruguay|Portugal|"
    r"Australia|Austria|Argentina|Bulgaria|Canada|ensemble|piano|viola|koto|soprano|Text|Japan|live|electronics|"
    r"Website|Contact|Date|Destination|France|Programme|Source|E-?mail|Media|[Oo]rchestra|Slovenia"
)
"""Wording that another language has in common with English: signs, names of countries and instruments, a few words."""
STAYS = (
    "Turned Collar",
    "Let Out, Taken In",
    "short studies",
    "opera scene",
    "music for a dance",
    "arranged for",
    "in different rooms",
    "chamber opera in six scenes",
)
"""Subtitles that say more than forces: they are told as they were written."""
FOR = re.compile(r"\bfor (?:an? )?[a-z-]+")


def worded(document: Document) -> set[str]:
    """What a paper says in its own words, values of records left out."""
    found = [text for block in document.blocks for text in texts(block)]
    found += [*document.running, document.dated]
    return {run.text for text in found for run in text if not run.value and WORD.search(run.text)}


@pytest.mark.parametrize("language", OTHERS)
def test_no_wording_is_the_same_as_in_english(papers: Papers, language: str) -> None:
    english = set().union(*map(worded, papers.abroad["en-GB"]))
    foreign = set().union(*map(worded, papers.abroad[language]))

    assert len(foreign) > 200
    left = sorted(one for one in english & foreign if not ALIKE.search(one))
    assert left == [], "; ".join(left)


@pytest.mark.parametrize("language", OTHERS)
def test_no_subtitle_that_says_forces_stays_english(papers: Papers, language: str) -> None:
    lists = [one for one in papers.abroad[language] if one.kind.startswith("works-list")]
    lines = {plain(text) for one in lists for block in one.blocks for text in texts(block)}
    english = {line for line in lines if FOR.match(line) or line.startswith("concerto for")}

    assert len(lists) == 2
    assert sorted(line for line in english if not any(more in line for more in STAYS)) == []
