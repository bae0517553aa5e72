"""Questions that librarians and players ask of the front of a score, answered from its pages in every form.

What is asked is what MOLA's *Guidelines for Music Preparation* want to find there (as the Yale School of Music gives
them), the score guidelines of the Society for the Promotion of New Music (score in C or transposed, sung words), and
the course on the documentation of mixed music of the Manhattan School of Music (what the electronics need, with a
date); that the folio is at the outer edge and right-hand pages are odd is in the first.
"""

from __future__ import annotations

import re
import subprocess
from datetime import date
from io import BytesIO

import pikepdf
import pytest

from catalogue.documents.model import Document, Paper
from catalogue.documents.needs import DocumentNeeds
from catalogue.documents.registry import render
from catalogue.documents.sheets.paper import MM
from catalogue.record_facts import WorkRecords
from catalogue.rules.anonymity import Person, finds, sought_of
from catalogue.terms import Clearance
from catalogue.timing import PartialDate
from tests.reference.documents.scores import score, song
from tests.reference.test_cue_sheet_questions import READERS

QUESTIONS = [
    ("whose work it is, and for whom", r"Ada Quill\W+Herring Roads\W+for orchestra", True),
    ("who publishes it, and where", r"Lock Gate Editions\W+4 Ropewalk\W+Wapping", True),
    ("which number, which ISMN", r"LG 21\W+ISMN 979-0-9999901-3-0", True),
    ("where the parts are hired", r"Parts on hire from the publisher: hire@lockgate\.example", True),
    ("which printing it is", r"Second printing, February 2026", True),
    ("whose copyright it is", r"© 2024 Ada Quill", True),
    ("where more is to be read", r"https://quill\.example", True),
    ("at which pitch the score is", r"Transposed score", True),
    ("how long the first movement lasts", r"I\W+Nets Out\W+8′10″", True),
    ("how long it lasts together", r"together\W+c\. 21′", True),
    ("what follows without a break", r"Waiting\W+attacca", True),
    ("what the third flute also plays", r"Flute 3\W+doubling piccolo", True),
    ("how many horns there are", r"Horn 1–4", True),
    ("what the first percussionist plays", r"bass drum \(shared with player 2\); 3 triangles \(15 to 25 cm\)", True),
    ("which instrument needs power", r"vibraphone \(3 octaves, bow, needs a socket\)", True),
    ("how many players there are", r"63 players", True),
    ("to which pitch is tuned", r"A4 = 442 Hz", True),
    ("which string is tuned otherwise", r"double bass, string IV; tuned to B0; −500 cents", True),
    ("what the electronics need", r"2 loudspeakers \(full range; such as any eight-inch two-way\)", True),
    ("how all keep together", r"Kept together by\W+cues by an operator", True),
    ("of when the requirements are", r"Documented\W+January 2026", True),
    ("what is said of hearing", r"Offer hearing protection to players, staff and audience", True),
    ("how long an accidental holds", r"An accidental holds to the end of the bar, in its own octave only", True),
    ("how much the sign alters", r"quarter-tone sharp\W+\+50 cents", True),
    ("what the crossed stem asks for", r"crossed stem\W+(?:from bar 31\W+)?strings\W+Strike the string", True),
    ("where percussion stands", r"Placing\W+Two percussionists stand apart", True),
    ("how to practise", r"On practising\W+Silver\W+violins\W+Play the silver passages slowly", True),
    ("what the sound operator does", r"For the sound operator\W+Drone\W+Bring the drone in", True),
    ("what the work is about", r"The roads are of water.*The nets do\.\W+A\.Q\.", True),
    ("who commissioned it and paid", r"Commissioned by Dock Sinfonia, Leith, with funds from Slipway Trust", True),
    ("who played it first", r"First performed by Dock Sinfonia, Dock Hall, Leith, 21 September 2024", True),
    ("what every programme has to print", r"commission credit and the first performance are to be printed", True),
    ("whether a note in another language is among them", r"Aufstellung", False),
    ("whether something unknown is told as unknown", r"\b(?:None|n/a|unknown|TBA)\b", False),
]  # fmt: skip


def words_of_pdf(made: bytes) -> str:
    read = subprocess.run(
        ["pdftotext", "-layout", "-enc", "UTF-8", "-", "-"], input=made, capture_output=True, check=True
    ).stdout
    return read.decode().translate(dict.fromkeys(range(0x202A, 0x202F)))


FORMS = {**READERS, "pdf": words_of_pdf}


def said(document: Document, form: str) -> str:
    return " ".join(FORMS[form](render(document, form)).split())


@pytest.mark.parametrize("form", FORMS)
def test_the_front_of_a_score_answers_what_is_asked(form: str) -> None:
    words = said(score(), form)

    answers = [(question, re.search(asked, words) is not None) for question, asked, _answer in QUESTIONS]

    assert answers == [(question, answer) for question, _asked, answer in QUESTIONS]


def pages_of(document: Document) -> list[str]:
    read = subprocess.run(
        ["pdftotext", "-layout", "-enc", "UTF-8", "-", "-"],
        input=render(document, "pdf"),
        capture_output=True,
        check=True,
    ).stdout
    return read.decode().removesuffix("\f").split("\f")


def last_line(page: str) -> str:
    return page.rstrip().rpartition("\n")[2].strip()


def test_pages_are_a_cover_a_blank_then_numbered_from_the_title_page_at_the_outer_edge() -> None:
    pages = pages_of(score())

    assert "Ada Quill" in pages[0]
    assert pages[1].strip() == ""
    assert "Transposed score" in pages[2]
    assert last_line(pages[2]) == "https://quill.example"
    assert [last_line(page).split()[0] for page in pages[3:9:2]] == ["ii", "iv", "vi"]
    assert [last_line(page).split()[-1] for page in pages[4:9:2]] == ["iii", "v", "vii"]


def test_pages_are_even_in_number_so_that_the_music_begins_on_the_right() -> None:
    assert len(pages_of(score())) % 2 == 0
    assert len(pages_of(score(has_cover=False))) % 2 == 0


def test_without_a_cover_it_begins_with_the_title_page() -> None:
    assert "© 2024 Ada Quill" in pages_of(score(has_cover=False))[0]


@pytest.mark.parametrize(
    ("paper", "size"),
    [
        (Paper.A3, (297, 420)),
        (Paper.B4, (250, 353)),
        (Paper.A4, (210, 297)),
        (Paper.TABLOID, (279.4, 431.8)),
        (Paper.TEN_BY_THIRTEEN, (254, 330.2)),
        (Paper.NINE_BY_TWELVE, (228.6, 304.8)),
        (Paper.LETTER, (215.9, 279.4)),
    ],
)
def test_every_paper_of_scores_has_its_size_and_holds_every_line(paper: Paper, size: tuple[float, float]) -> None:
    """Sizes in millimetres: ISO 216, and inches of American music printing (common practice)."""
    made = render(score(paper=paper), "pdf")
    with pikepdf.open(BytesIO(made)) as pdf:
        box = [float(edge) for edge in pdf.pages[0].mediabox]

    assert (box[2] / MM, box[3] / MM) == pytest.approx(size, abs=0.02)
    assert outside(made, box[2], box[3]) == []


def outside(made: bytes, wide: float, high: float) -> list[str]:
    """The words that reach into the margins, which are nowhere narrower than 15 mm."""
    read = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=made, capture_output=True, check=True).stdout.decode()
    found = re.findall(r'xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)<', read)
    edge = 15 * MM
    return [
        word
        for x, y, end, foot, word in found
        if float(x) < edge or float(end) > wide - edge or float(y) < edge or float(foot) > high - 11 * MM
    ]


# ---- words that are sung


@pytest.mark.parametrize(
    ("changed", "words", "translated"),
    [
        ({}, True, True),
        ({"translation_clearance": Clearance.NOT_ASKED}, True, False),
        ({"clearance": Clearance.ASKED}, False, False),
        ({"clearance": Clearance.PUBLIC_DOMAIN}, True, True),
        ({"expires": PartialDate(2025)}, False, False),
    ],
)
def test_words_are_printed_once_they_are_cleared(changed: dict[str, object], words: bool, translated: bool) -> None:
    told = said(song(**changed), "txt")

    assert ("Ingen ser det mer." in told, "Nobody sees it again." in told) == (words, translated)


def test_the_last_day_of_a_permission_still_counts() -> None:
    assert "Ingen ser" in said(song(today=date(2026, 3, 14), expires=PartialDate(2026, 3, 14)), "txt")


# ---- what is refused, what is told


def test_a_score_that_does_not_say_its_pitch_is_refused() -> None:
    with pytest.raises(DocumentNeeds) as refused:
        score(records=WorkRecords(21))

    assert refused.value.reason == "Say in an edition of “Herring Roads” whether its score is in C or transposed."
    assert refused.value.missing == ("edition",)


def test_what_librarians_expect_and_nobody_has_told_is_named_with_who_expects_it() -> None:
    assert score(heard=()).lacking == (
        "Clarinets, horns or trumpets are named without the key they are written in. (MOLA, Guidelines for Music "
        "Preparation)",
    )
    expired = song(expires=PartialDate(2025)).lacking
    assert "The sung words are not there, or may not be printed yet." in " ".join(expired)
    assert song().lacking == (
        "The cover names no publisher. (MOLA, Guidelines for Music Preparation)",
        "The title page has no copyright line. (common practice)",
    )


# ---- for a call that is judged blind


@pytest.mark.parametrize("form", FORMS)
def test_an_anonymous_front_names_neither_composer_nor_publisher_nor_players(form: str) -> None:
    sought = sought_of(
        Person(("Ada Quill",), website="https://quill.example"), ("Lock Gate", "Dock", "lockgate", "LG 21")
    )
    made = score(is_anonymous=True)

    assert finds(said(made, form), sought) == []
    assert "Herring Roads" in said(made, form)
    assert finds(said(score(), form), sought) != []


def test_an_anonymous_file_has_no_author() -> None:
    with pikepdf.open(BytesIO(render(score(is_anonymous=True), "pdf"))) as pdf, pdf.open_metadata() as metadata:
        assert "Quill" not in str(metadata)
        assert "Quill" not in str(pdf.docinfo.get("/Author", ""))
