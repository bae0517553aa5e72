"""Facts in, words out: every document of the house against the text that was read and found right.

To renew the expected texts after a deliberate change, run
``python -m tests.reference.documents.test_documents`` and read the difference.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.documents.renderers.plain import render_plain
from tests.reference.documents.house import DOCUMENTS

FOLDER = Path(__file__).parent


def test_every_expected_text_has_a_document() -> None:
    assert {path.stem for path in FOLDER.glob("*.txt")} == set(DOCUMENTS)


@pytest.mark.parametrize("case", DOCUMENTS)
def test_document_says_what_is_expected(case: str) -> None:
    assert render_plain(DOCUMENTS[case]()).decode() == (FOLDER / f"{case}.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    for name, make in DOCUMENTS.items():
        (FOLDER / f"{name}.txt").write_bytes(render_plain(make()))
