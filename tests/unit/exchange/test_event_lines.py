from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.exchange.event_lines import EventLine, read_event_line
from catalogue.rules.search import fold

TITLES = {"ash ferry", "rope, lamp, bank", "op. 4"}


def read(line: str, language: str = "en-GB") -> EventLine:
    return read_event_line(line, language=language, is_work=lambda text: fold(text) in TITLES, halls={"old granary"})


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("", EventLine()),
        (
            "12 May 2027 19:30 Old Granary, Zurich: Kestrel Ensemble, Ash Ferry",
            EventLine("12 May 2027", "19:30", "Old Granary", "Zurich", "", ("Kestrel Ensemble",), ("Ash Ferry",)),
        ),
        (
            "Saturday 12 May 2027, at 7.30 pm, Grainhall, Linz, Austria: Ash Ferry",
            EventLine("Saturday 12 May 2027", "7.30 pm", "Grainhall", "Linz", "Austria", (), ("Ash Ferry",)),
        ),
        ("2027-05-12 Linz", EventLine(date="2027-05-12", city="Linz")),
        ("12.5.2027, 20 Uhr, Linz", EventLine(date="12.5.2027", time="20 Uhr", city="Linz")),
        ("May 2027 – Old Granary", EventLine(date="May 2027", hall="Old Granary")),
        ("2027 Old Granary, Switzerland", EventLine(date="2027", hall="Old Granary", country="Switzerland")),
        (
            "12 May 2027 Linz: Iva Dorn (viola), Per Lund, Rope, Lamp, Bank, Op. 4",
            EventLine(
                "12 May 2027", city="Linz", performers=("Iva Dorn (viola)", "Per Lund"),
                works=("Rope, Lamp, Bank", "Op. 4"),
            ),
        ),
        (
            "12 May 2027 Linz: Kestrel Ensemble, Something New",
            EventLine("12 May 2027", city="Linz", performers=("Kestrel Ensemble",), works=("Something New",)),
        ),
        ("Linz: Kestrel Ensemble", EventLine(city="Linz", performers=("Kestrel Ensemble",))),
        ("some evening in spring", EventLine(city="some evening in spring")),
    ],
)  # fmt: skip
def test_line_is_read(line: str, said: EventLine) -> None:
    assert read(line) == said


def test_figures_of_a_date_are_read_in_the_order_of_the_language() -> None:
    assert (read("3/28/2027 Linz", "en-US").date, read("3/28/2027 Linz").date) == ("3/28/2027", "")


@given(st.text(max_size=120))
def test_any_text_is_read_as_something(text: str) -> None:
    assert isinstance(read(text), EventLine)
