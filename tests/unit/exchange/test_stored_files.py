from __future__ import annotations

import re
from hashlib import sha256

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import InMemoryStorage
from django.utils.http import content_disposition_header

from catalogue.exchange.pictures import stored_name
from catalogue.exchange.stored_files import (
    keep_upload,
    name_to_take_away,
    pieces_from,
    plain_name,
)

NAMES = (
    "../../etc/passwd", "C:\\scores\\a.pdf", "CON", "a\0b.pdf", "x" * 400 + ".pdf", "evil\u202efdp.exe", "a\r\nb.pdf",
    '"quoted".pdf', "Übung für Flöte.pdf", "...", "", "  .pdf  ", "序曲.pdf", "a/b/../c.pdf", "semi;colon.pdf",
)  # fmt: skip


def test_file_is_kept_once_under_its_content_and_read_from_any_place() -> None:
    storage, content = InMemoryStorage(), b"%PDF-1.7 and more"

    digests = {keep_upload(ContentFile(content, "a.pdf"), "pdf", storage) for _each in range(2)}

    digest = sha256(content).hexdigest()
    assert digests == {digest}
    assert storage.listdir(digest[:2]) == ([], [f"{digest}.pdf"])
    assert list(pieces_from(storage, stored_name(digest, "pdf"), 5, 7, at_once=4)) == [b"1.7 ", b"and"]


@pytest.mark.parametrize("name", NAMES)
def test_name_of_a_file_is_plain_and_says_what_it_holds(name: str) -> None:
    plain, taken = plain_name(name), name_to_take_away(name, "pdf")
    header = content_disposition_header(True, taken)

    assert 1 <= len(plain) <= 100
    assert not re.search(r"[\x00-\x1f\x7f/\\\"\u202a-\u202e]", taken)
    assert taken.endswith(".pdf")
    assert header is not None
    assert len(header.splitlines()) == 1
