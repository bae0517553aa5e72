"""Questions that somebody at the desk asks of a cue sheet, answered from the sheet alone, in every form it is made in.

What a cue sheet has to say is common practice: number, place, time, what happens, which file and how long, who acts.
"""

from __future__ import annotations

import re
from io import BytesIO

import docx
import pytest
from docx.oxml.ns import qn
from lxml import html

from catalogue.documents.model import Document
from catalogue.documents.registry import render
from tests.reference.documents.house import cues

SHEETS = {"whole": cues(), "pocket": cues(pocket=True)}
QUESTIONS = [
    ("whose work it is", r"Ada Quill.*Ferrous Choir", True),
    ("how long it lasts by the map, and of which day the map is", r"Reckoned duration 3:41, tempo map of 20 Jan", True),
    ("who E and C are", r"E electronics, C conductor", True),
    ("what is done before the beginning", r"\bT\b\W+before\W+Open file, check eight channels", True),
    ("whether cue 2 comes on the third beat of bar 17, at 0:54", r"\b2\b\W+17\.3\W+0:54\W+Flute into slow delay", True),
    ("whether cue 2 comes at 0:53", r"\b2\b\W+17\.3\W+0:53", False),
    ("which file cue 1 plays, and how long it is", r"Drone fades in over 12 s\W+01-drone\.wav\W+2:58", True),
    ("who starts cue 3", r"Drone alone\W+(?:end on sign\W+)?continues\W+(?:end on sign\W+)?C\b", True),
    ("how long the free passage is", r"1:17\W+free, 45 s", True),
    ("which time of the repeat cue 4 belongs to", r"\b4\b\W+1@2\W+2:24", True),
    ("in which movement cue 4 stands", r"II\W+Static\W+4\b", True),
    ("whether cue 5 has a time", r"\b5\b\W+2:99\.1\W+[0-9]+:[0-9]{2}", False),
    ("why cue 5 has none", r"Cue 5: Bar 99 is not in the map, or is cut\.", True),
    ("whether bar or clock leads", r"between free passages the bar leads, not the clock", True),
    (
        "what to do before anyone puts on headphones",
        r"turn the volume right down before anyone puts on",
        True,
    ),
    ("whose rules count for the level", r"keep to the local rules on noise at work", True),
    ("whether a level is called safe", r"(?<!Nothing here says that a )level is safe", False),
]


def words_of_docx(made: bytes) -> str:
    opened = docx.Document(BytesIO(made))
    parts = (opened.element.body, opened.sections[0].first_page_footer._element, opened.sections[0].footer._element)
    paragraphs = [one for part in parts for one in part.iter(qn("w:p"))]
    return " ".join("".join(text.text or "" for text in one.iter(qn("w:t"))) for one in paragraphs)


READERS = {
    "txt": lambda made: made.decode(),
    "md": lambda made: made.decode().replace("\\", "").replace("*", "").replace("|", " ").replace("<br>", " "),
    "html": lambda made: " ".join(html.fromstring(made.decode()).itertext()),
    "docx": words_of_docx,
}


def said(document: Document, form: str) -> str:
    return " ".join(READERS[form](render(document, form)).split())


@pytest.mark.parametrize("form", READERS)
@pytest.mark.parametrize("sheet", SHEETS)
def test_a_cue_sheet_answers_what_is_asked_at_the_desk(sheet: str, form: str) -> None:
    words = said(SHEETS[sheet], form)

    answers = [(question, re.search(asked, words) is not None) for question, asked, _answer in QUESTIONS]

    assert answers == [(question, answer) for question, _asked, answer in QUESTIONS]
