from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.rules.search import fold


@pytest.mark.parametrize(
    ("text", "folded"),
    [
        ("Étude", "etude"),
        ("ÉTUDE", "etude"),
        ("e\u0301tude", "etude"),
        ("Strauß", "strauss"),
        ("Łódź", "lodz"),
        ("Sørlie", "sorlie"),
        ("Đorđe", "dorde"),
        ("Æsir, Þing", "aesir, thing"),
        ("Œuvre", "oeuvre"),
        ("İstanbul ırmak", "istanbul irmak"),
        ("l’après-midi", "l'apres-midi"),
        ("2019–2021", "2019-2021"),
        ("ﬁnale", "finale"),
        ("Ἀντιγόνη", "αντιγονη"),
        ("  two\n lines ", "two lines"),
        ("", ""),
    ],
)
def test_fold_leaves_what_is_searched(text: str, folded: str) -> None:
    assert fold(text) == folded


@given(st.text())
def test_folding_twice_is_folding_once(text: str) -> None:
    assert fold(fold(text)) == fold(text)


@given(st.text())
def test_folding_does_not_see_case(text: str) -> None:
    assert fold(text.casefold()) == fold(text)
