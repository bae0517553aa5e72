"""Files of a pack that are searched: what cannot be read is told, and what can be is read"""

from __future__ import annotations

import pytest

from catalogue.exchange.pack_texts import Pack
from tests.unit.exchange.hostile_uploads import packed, pdf_with


@pytest.mark.parametrize(
    "content", [b"BT Tf ET", b"BT /F 12 Tf Tj ET", b"Do", b"BT /F 12 Tf TJ ET", b"BT (a) Tf 7 Tj ET"]
)
def test_a_page_that_says_too_little_is_told_or_read_as_empty(content: bytes) -> None:
    pack = Pack()

    list(pack.read("a.pdf", pdf_with(packed(content))))

    assert [told.partition(":")[0] for told in pack.not_seen] == ["a.pdf"]
    assert pack.not_seen[0].partition(": ")[2].startswith("page 1 ")
