"""What stands around forces on a page is left aside, and told where it names an instrument."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import InstrumentationError, read, shorthand

AROUND = (
    ("2.2.2.2 – 4.2.3.1 – timp – str\nDuration: 14 minutes", "2.2.2.2 – 4.2.3.1 – timp – str"),
    ("fl, cl, pf (12 min)", "fl.cl – pf"),
    ("flute, harp – ca. 7'", "fl – hp"),
    ("string quartet no. 3", "vnI.vnII.va.vc"),
    ("for guitar and piano. Duration: 8 minutes. Score available from the composer.", "gtr – pf"),
    ("Parts available for hire: 2.1.2.1 – 2.2.1.0 – timp – str", "2.1.2.1 – 2.2.1.0 – timp – str"),
    ("Bläserquintett\nDauer: 12 Minuten\nUraufführung: 2019", "fl.ob.cl.hn.bn"),
    ("2 violins, viola\n© 2020", "2vn.va"),
)


@pytest.mark.parametrize(("text", "written"), AROUND)
def test_words_around_the_forces_are_left_aside(text: str, written: str) -> None:
    reading = read(text)

    assert shorthand(reading) == written
    assert (reading.text, reading.warnings) == (text, ())


def test_an_instrument_in_the_margin_is_told() -> None:
    warnings = read("flute and piano.\nCommissioned by the harp society").warnings

    assert [(one.code, one.start, one.end) for one in warnings] == [("not-read", 17, 49)]


def test_a_text_that_is_all_margin_is_refused_at_its_place() -> None:
    with pytest.raises(InstrumentationError) as caught:
        read("Duration: 12 minutes")

    assert (caught.value.start, caught.value.end) == (0, 8)
