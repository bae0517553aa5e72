"""An orchestra named without strings is asked for them; one of which only the woodwind is told keeps the rest open."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


@pytest.mark.parametrize(
    "text",
    [
        "3 flutes, 3 oboes, 3 clarinets, 3 bassoons, 4 horns, 3 trumpets, 3 trombones, timpani, 3 percussion, harp",
        "2.2.2.2 – 4.2.3.1 – timp.perc(2) – hp",
    ],
)
def test_an_orchestra_without_strings_is_remarked_on(text: str) -> None:
    reading = read(text)

    assert [one.code for one in reading.warnings] == ["no-strings"]
    assert not any(line.family == "strings" for line in reading.lines)
    assert text[reading.warnings[0].start] in "32"


@pytest.mark.parametrize(
    "text",
    [
        "2.2.2.2 – 4.2.3.1 – timp.perc(2) – hp – str",
        "2.2.2.2 – asax.tsax – 4.2.3.1 – timp.perc(2)",
        "2.2.2.2 – 4.2.3.1",
        "fl, ob, cl, bn, hn, timp, perc",
    ],
)
def test_other_winds_need_no_strings(text: str) -> None:
    assert "no-strings" not in [one.code for one in read(text).warnings]


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("double winds, orchestra", "2.2.2.2 – brass instrument(open) – str"),
        (
            "full orchestra with triple woodwind",
            "2.picc.2.corA.2.bcl.2.cbn – brass instrument(open) – str",
        ),
        ("großes Orchester, doppeltes Holz", "2.2.2.2 – brass instrument(open) – str"),
    ],
)
def test_an_orchestra_of_which_the_woodwind_is_told_keeps_brass_and_strings_open(text: str, written: str) -> None:
    reading = read(text)

    assert shorthand(reading) == written
    assert read(written).lines == reading.lines
    assert "orchestra" in [one.code for one in reading.warnings]
    assert reading.players is None


def test_an_orchestra_that_is_itemised_has_no_open_brass() -> None:
    assert shorthand(read("orchestra of double woodwind, 4 horns, strings")) == "2.2.2.2 – 4.0.0.0 – str"
