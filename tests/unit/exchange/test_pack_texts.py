"""Files of a pack that are searched: what cannot be read is told, and what can be is read"""

from __future__ import annotations

import zipfile
from io import BytesIO

import pytest

from catalogue.exchange.pack_texts import AT_ONCE, Pack
from tests.unit.exchange.hostile_uploads import packed, pdf_with


@pytest.mark.parametrize(
    "content", [b"BT Tf ET", b"BT /F 12 Tf Tj ET", b"Do", b"BT /F 12 Tf TJ ET", b"BT (a) Tf 7 Tj ET"]
)
def test_a_page_that_says_too_little_is_told_or_read_as_empty(content: bytes) -> None:
    pack = Pack()

    list(pack.read("a.pdf", pdf_with(packed(content))))

    assert [told.partition(":")[0] for told in pack.not_seen] == ["a.pdf"]
    assert pack.not_seen[0].partition(": ")[2].startswith("page 1 ")


class Short(BytesIO):
    """A file that gives less than it is asked for, as what comes over a network does."""

    def read(self, size: int | None = -1, /) -> bytes:
        return super().read(size if size is None or size < 0 else min(size, 1000))


@pytest.mark.parametrize("place", [0, AT_ONCE - 8, AT_ONCE - 1, AT_ONCE, 2 * AT_ONCE - 150, 2 * AT_ONCE + 5])
def test_name_is_found_wherever_it_stands_in_a_long_recording_and_in_pieces(place: int) -> None:
    content = bytearray(2 * AT_ONCE + 100)
    content[place : place + 13] = b"Ilka Marovand"

    for file in (BytesIO(content), Short(content)):
        texts = [one.text for one in Pack().read_from("take.wav", file) if one.stored]
        assert any("Ilka Marovand" in text for text in texts)


def test_what_is_read_from_a_file_is_what_is_read_of_its_bytes() -> None:
    sheet = BytesIO()
    with zipfile.ZipFile(sheet, "w") as archive:
        archive.writestr("word/document.xml", "<w:p><w:r>Ilka</w:r> <w:r>Marovand</w:r></w:p>")
    for name, content in (
        ("a.docx", sheet.getvalue()), ("b.pdf", b"%PDF-1.7 damaged"), ("c.txt", b"Ilka\n" * 5000), ("d.mp3", b"ID3"),
        ("e", b""), ("f.txt", "Ilka".encode("utf-16")), ("g.bin", b"\0Marovand\0" * 2000),
    ):  # fmt: skip
        first, second = Pack(), Pack()
        assert list(first.read(name, content)) == list(second.read_from(name, Short(content)))
        assert first.not_seen == second.not_seen
