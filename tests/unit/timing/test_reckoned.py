from __future__ import annotations

import pytest

from catalogue.timing import Duration, TempoError, reckon


def test_comments_alone_are_no_map() -> None:
    assert [reckon(text) for text in ("", "  \n", "# later\n")] == [None, None, None]


def test_movements_are_added_exactly_and_rounded_once() -> None:
    # Three movements of 10.4 s: 31.2 s in all, though each alone rounds to 10 s (arithmetic).
    found = reckon("movement\n1 free 10.4\nmovement\n1 free 10.4\nmovement\n1 free 10.4\n")

    assert found is not None
    assert found.duration == Duration(31)
    assert found.has_several_movements


def test_a_mistake_names_its_line_and_column() -> None:
    with pytest.raises(TempoError) as caught:
        reckon("1-4 4/4 q=60\n5-8 4/4 fast\n")

    assert (caught.value.line, caught.value.column) == (2, 9)
