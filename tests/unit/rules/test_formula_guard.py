from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.rules.formula_guard import guarded, unguarded


@pytest.mark.parametrize(
    "text", ["=1+1", "+1+1", "@SUM(A1)", "-cmd", "\t1", "\r1", "＝1", "＠x", "  =1", "'=1", '"=1', "-"]
)
def test_what_a_program_would_take_for_a_formula_begins_with_an_apostrophe(text: str) -> None:
    assert guarded(text) == f"'{text}"


@pytest.mark.parametrize(
    "text",
    ["-5", "+3.5", "-1,5", "Slack Rope", "'tis", "", "2-1", "a=b", "a; b", "I\nII", "2;-5;3", "right; +45°", "a\n- b"],
)
def test_numbers_and_plain_texts_are_left_alone(text: str) -> None:
    assert guarded(text) == text


@pytest.mark.parametrize(
    ("text", "expected"),
    [("a;=1", "a;'=1"), ("a\n -2+cmd|x", "a\n' -2+cmd|x"), ("\t=1", "'\t'=1"), (';"@x;=y', ";'\"@x;'=y")],
)
def test_no_cell_begins_a_formula_where_semicolons_part_them(text: str, expected: str) -> None:
    assert guarded(text) == expected


@given(st.text(st.sampled_from("'\"=+-@＝ \t\r\n1.,;ab("), max_size=8) | st.text())
def test_reading_undoes_guarding(text: str) -> None:
    assert unguarded(guarded(text)) == text


@given(st.text(st.sampled_from("'\"=+-@＝ \t1.,;ab("), max_size=8))
def test_no_guarded_text_begins_a_formula(text: str) -> None:
    first, *later = re.split(r"[;\t]", guarded(text))

    assert not guarded(text).startswith("\t")
    assert re.match(r"[ \"]*[=@＝]| *[+-](?![0-9]+([.,][0-9]+)?$)", first) is None
    assert [cell for cell in later if re.match(r"[ \"]*([=@＝]|[+-].*\()", cell)] == []
