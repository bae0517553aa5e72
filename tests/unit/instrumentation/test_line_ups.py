"""Works that one line-up or another may play."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, write_shorthand, write_words
from catalogue.instrumentation.chairs_dress import write_chairs
from catalogue.instrumentation.fit import fit
from catalogue.instrumentation.page import write_page
from catalogue.instrumentation.part_lines import write_parts
from catalogue.instrumentation.vocabulary import LANGUAGES

TWO = [
    ("fl, va, hp; or 2 vn, pf", "fl – va – hp; or 2vn – pf"),
    ("flute and piano or violin and piano", "fl – pf; or vn – pf"),
    ("string quartet or string orchestra", "vnI.vnII.va.vc; or str"),
    ("fl.ob.cl or hn.2tpt.tbn", "fl.ob.cl; or hn.2tpt.tbn"),
    ("Flöte, Viola und Harfe; oder Violine, Viola und Klavier", "fl – va – hp; or vn.va – pf"),
    ("fl, va, hp\nou\ncl, va, pf\nou\nvn, va, pf", "fl – va – hp; or cl – va – pf; or vn.va – pf"),
    (
        "2.2.2.2 - 4.2.3.1 - timp - str; or 1.1.1.1 - 1.1.1.0 - pf",
        "2.2.2.2 – 4.2.3.1 – timp – str; or fl.ob.cl.bn – hn.tpt.tbn – pf",
    ),
]
ONE = ["piano or harp, 2 voices", "2 flutes and piano or harp", "flute or oboe and piano or organ", "harp or piano"]


@pytest.mark.parametrize(("text", "written"), TWO)
def test_each_line_up_is_read_and_written_by_itself(text: str, written: str) -> None:
    assert write_shorthand(read(text)) == written


@pytest.mark.parametrize("text", ONE)
def test_one_name_after_or_stands_in_for_one_line(text: str) -> None:
    assert read(text).alternatives == ()


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("text", [text for text, _ in TWO])
def test_line_ups_read_back_from_every_dress(text: str, language: str) -> None:
    forces = read(text)

    assert read(write_shorthand(forces)) == read(write_chairs(forces)) == forces
    assert read(write_words(forces, language), language=language) == forces
    assert read(write_page(forces, language), language=language) == forces


def test_a_line_up_is_told_with_its_place_and_printed_with_the_reading() -> None:
    found = read("fl, va, hp; or 2 vn, pf").to_json()

    assert [(one["text"], one["players"]) for one in found["alternatives"]] == [("2 vn, pf", [3, 3])]
    assert [(one["code"], one["start"], one["end"]) for one in found["warnings"]] == [("alternative", 15, 23)]


@pytest.mark.parametrize(
    ("available", "fits", "line_up"),
    [("2 vn, pf", True, 1), ("fl, va, hp, pf", True, 0), ("vn, va, hp", False, 0), ("2 vn, va", False, 1)],
)
def test_a_work_fits_if_one_of_its_line_ups_does(available: str, fits: bool, line_up: int) -> None:
    found = fit(read("fl, va, hp; or 2 vn, pf"), read(available))

    assert (found.fits, found.line_up) == (fits, line_up)


def test_each_line_up_has_its_set_of_parts() -> None:
    assert write_parts(read("fl, hp; or 2 vn, pf")) == (
        "00  Score\n01  Flute\n02  Harp\n\nOr:\n00  Score\n01  Piano\n02  Violin 1\n03  Violin 2"
    )
