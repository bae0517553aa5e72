from __future__ import annotations

import pytest

from catalogue.instrumentation import InstrumentationError, read


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("xx", "xx"),
        ("2.2.2.2 – 4.2.3.1 – foo – str", "foo"),
        ("fl, qz, vc", "qz"),
        ("2.2.2.2.2.2.2 – 4.2.3.1", "2.2.2"),
        ("str(8.6.4.4.2.1)", "str(8.6.4.4.2.1)"),
    ],
)
def test_error_names_the_place_that_cannot_be_read(text, place):
    with pytest.raises(InstrumentationError) as caught:
        read(text)

    error = caught.value
    assert error.text == text
    assert error.text[error.start : error.end] == place
    assert error.reason.endswith(".")
    assert str(error) == error.reason


@pytest.mark.parametrize("text", ["", "   ", "))((", "–", "...", "0, 0, 0, 0"])
def test_text_without_players_is_refused(text):
    with pytest.raises(InstrumentationError, match="No instrument or voice is named here"):
        read(text)


def test_lone_number_is_refused():
    with pytest.raises(InstrumentationError, match="A number stands here without an instrument"):
        read("42!")


def test_text_that_is_too_long_is_refused_at_once():
    with pytest.raises(InstrumentationError, match="longer than"):
        read("fl, " * 5000)


def test_unknown_convention_is_refused_with_those_that_there_are():
    with pytest.raises(InstrumentationError, match="Roman chairs") as caught:
        read("2.2.2.2", convention="baroque")

    assert "numbered chairs" in caught.value.expected
