from __future__ import annotations

import errno
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.core.exceptions import SuspiciousFileOperation
from django.core.files.base import ContentFile

from catalogue.exchange.stored_files import keep_upload
from catalogue.exchange.whole_files import WholeFiles


class BrokenOff(ContentFile):
    """What comes in until the disk is full."""

    def chunks(self, chunk_size: int | None = None) -> Iterator[bytes]:
        yield b"%PDF-1.7"
        raise OSError(errno.ENOSPC, "No space left on device")


def files_in(folder: Path) -> list[tuple[str, bytes]]:
    return [(path.name, path.read_bytes()) for path in sorted(folder.rglob("*")) if path.is_file()]


def test_a_file_that_could_not_be_written_to_the_end_leaves_nothing_and_can_be_sent_again(tmp_path: Path) -> None:
    storage = WholeFiles(tmp_path)

    with pytest.raises(OSError, match="No space"):
        storage.save("ab/file.pdf", BrokenOff(b"%PDF-1.7 and more"))
    left = files_in(tmp_path)
    digest = keep_upload(ContentFile(b"%PDF-1.7 and more", "a.pdf"), "pdf", storage)

    assert left == []
    assert files_in(tmp_path) == [(f"{digest}.pdf", b"%PDF-1.7 and more")]


def test_a_name_that_leads_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SuspiciousFileOperation):
        WholeFiles(tmp_path / "files").save("../elsewhere.pdf", ContentFile(b"x"))
    assert files_in(tmp_path) == []
