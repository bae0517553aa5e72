"""Pictures as files, made for tests."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

from PIL import Image


def picture_file(kind: str = "PNG", size: tuple[int, int] = (4, 3), *, mode: str = "RGB", **options: object) -> bytes:
    """Return the bytes of a plain picture."""
    written = BytesIO()
    Image.new(mode, size, 128 if mode in {"L", "P"} else None).save(written, kind, **options)
    return written.getvalue()


def png_that_claims(width: int, height: int) -> bytes:
    """Return a small PNG whose head claims a size, with rows that never come."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 64)) + chunk(b"IEND", b"")


def chunk(kind: bytes, content: bytes) -> bytes:
    check = zlib.crc32(kind + content)
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", check)
