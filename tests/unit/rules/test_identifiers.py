from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.rules.identifiers import (
    Identifier,
    IdentifierError,
    is_same_number,
    read_identifier,
    sum_check,
    write_identifier,
)


@pytest.mark.parametrize(
    ("kind", "text", "reason", "pointed_at"),
    [
        ("ISWC", "", "No ISWC is given.", ""),
        ("ISWC", "034.524.680-1", "An ISWC begins with the letter T.", "0"),
        ("ISWC", "T-034.524.68", "An ISWC has ten digits after its T; this has 8.", "T-034.524.68"),
        ("ISWC", "T-123.456.789-C", "An ISWC has ten digits after its T; “C” is no digit.", "C"),
        (
            "ISWC",
            "T-034.524.680-2",
            "The check digit of this ISWC would be 1, not 2: a digit was mistyped.",
            "2",
        ),
        ("ISMN", "978-0-060-11561-5", "An ISMN begins with 979-0, or with M in its old form.", "978-0"),
        ("ISMN", "M-060-1156", "An ISMN in its old form has nine digits after its M; this has 7.", "M-060-1156"),
        ("ISMN", "979-0-1234-5678", "An ISMN has thirteen digits; this has 12.", "979-0-1234-5678"),
        (
            "ISNI",
            "0000 0001 2103 268",
            "An ISNI has sixteen digits, the last of which may be an X; this has 15.",
            "0000 0001 2103 268",
        ),
        ("ISRC", "US-SKG-19-123456", "An ISRC has twelve letters and digits; this has 13.", "US-SKG-19-123456"),
        ("ISRC", "US-SKG-19-1234*", "“*” cannot stand in an ISRC.", "*"),
        ("ISRC", "1S-SKG-19-12345", "An ISRC begins with two letters.", "1"),
        ("ISRC", "US-SKG-1A-12345", "The last seven places of an ISRC are digits.", "A"),
        ("ISRC", "XX-SKG-19-12345", "XX is not given out as the beginning of an ISRC.", "XX"),
        ("IPI", "123", "An IPI name number has eleven digits; this has 3.", "123"),
        ("IPI", "00014107339", "The check digits of this IPI would be 38, not 39: a digit was mistyped.", "39"),
        ("IPI", "I-001068130-7", "The check digit of this IPI would be 6, not 7: a digit was mistyped.", "7"),
    ],
)
def test_mistake_is_explained_at_its_place(kind: str, text: str, reason: str, pointed_at: str) -> None:
    with pytest.raises(IdentifierError) as caught:
        read_identifier(Identifier(kind), text)

    assert (caught.value.reason, text[caught.value.start : caught.value.end]) == (reason, pointed_at)


@pytest.mark.parametrize(
    ("kind", "text", "stored"),
    [
        ("ISWC", "iswc: t 034 524 680 1", "T-034.524.680-1"),
        ("ISWC", "T‑034.524.680‑1", "T-034.524.680-1"),
        ("ISMN", "ISMN 979–0–060–11561–5", "9790060115615"),
        ("ISNI", "ISNI 0000 0001 2146 438x", "000000012146438X"),
        ("ISRC", "isrc gbajy9041503", "GB-AJY-90-41503"),
        ("ISRC", "ISRC AA-6Q7-20-00047", "AA-6Q7-20-00047"),
        ("IPI", "14107338", "00014107338"),
        ("IPI", "IPI name number: 14107338", "00014107338"),
    ],
)
def test_number_is_read_in_the_dresses_people_type(kind: str, text: str, stored: str) -> None:
    assert read_identifier(Identifier(kind), text) == stored


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("M-060-11561-5", "9790060115615", True),
        ("M-060-11561-6", "M-060-11561-6", True),
        ("M-060-11561-6", "9790060115616", False),
        ("M-060-11561-5", "on request", False),
    ],
)
def test_numbers_are_the_same_in_any_dress_where_both_can_be_right(one: str, other: str, same: bool) -> None:
    assert is_same_number(Identifier.ISMN, one, other) is same


def test_what_is_no_number_is_printed_unchanged() -> None:
    assert write_identifier(Identifier.ISMN, "on request") == "on request"


def outcome_of(kind: Identifier, text: str) -> str | IdentifierError:
    try:
        return read_identifier(kind, text)
    except IdentifierError as error:
        return error


@given(st.sampled_from(Identifier), st.text(max_size=40))
def test_any_text_is_read_or_refused_at_a_place_in_it(kind: Identifier, text: str) -> None:
    outcome = outcome_of(kind, text)

    if isinstance(outcome, IdentifierError):
        assert 0 <= outcome.start <= outcome.end <= len(text)
        assert outcome.reason.endswith(".")
    else:
        assert read_identifier(kind, outcome) == outcome


@given(st.from_regex(r"[0-9]{9}", fullmatch=True))
def test_check_digit_of_an_iswc_is_read_back(nine: str) -> None:
    number = f"T{nine}{sum_check(nine, start=1)}"

    assert read_identifier(Identifier.ISWC, number).replace(".", "").replace("-", "") == number
