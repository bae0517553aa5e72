"""Small files that mean harm, made anew for each test: entities, bombs, heads that lie, deep nesting, links, loops.

The sorts are those of common lists of attacks on uploads (OWASP, File Upload Cheat Sheet); no bomb is kept in the
repository, and none of these is larger than two megabytes.
"""

from __future__ import annotations

import stat
import struct
import zipfile
import zlib
from collections.abc import Callable
from io import BytesIO

import pikepdf

from tests.unit.exchange.spreadsheets import make_zip
from tests.unit.exchange.waves import wave_file

BOMB = b"\0" * 20_000_000
SCORE_HEAD = b'<?xml version="1.0"?>'


def laughs(levels: int = 9) -> bytes:
    """A billion laughs: entities that name ten of the one before."""
    lines = ['<!ENTITY a0 "ha">', *(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, levels + 1))]
    root = f"<score-partwise><work><work-title>&a{levels};</work-title></work></score-partwise>"
    return SCORE_HEAD + f"<!DOCTYPE score-partwise [{''.join(lines)}]>{root}".encode()


def quadratic() -> bytes:
    entity = f'<!DOCTYPE score-partwise [<!ENTITY a "{"x" * 50_000}">]>'.encode()
    return (
        SCORE_HEAD
        + entity
        + b"<score-partwise><work><work-title>"
        + b"&a;" * 20_000
        + b"</work-title></work></score-partwise>"
    )


def outside(address: str) -> bytes:
    entity = f'<!DOCTYPE score-partwise [<!ENTITY a SYSTEM "{address}">]>'.encode()
    return SCORE_HEAD + entity + b"<score-partwise><work><work-title>&a;</work-title></work></score-partwise>"


def parameter_entity() -> bytes:
    return SCORE_HEAD + b'<!DOCTYPE score-partwise [<!ENTITY % a SYSTEM "file:///etc/passwd"> %a;]><score-partwise/>'


def nested_xml(depth: int = 200_000) -> bytes:
    return b"<score-partwise>" + b"<part>" * depth


def svg_as_score() -> bytes:
    return SCORE_HEAD + b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>"


# ---- archives


def zip_with(name: str, content: bytes = b"x", *, mode: int = stat.S_IFREG | 0o600, flags: int = 0) -> bytes:
    target = BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        info = zipfile.ZipInfo(name)
        info.external_attr = mode << 16
        info.compress_type = zipfile.ZIP_DEFLATED
        archive.writestr(info, content)
    made = bytearray(target.getvalue())
    place = made.find(b"PK\x01\x02")
    made[place + 8] |= flags
    return bytes(made)


def zip_that_lies(entries: int = 65_000) -> bytes:
    """An archive whose last record tells of far more files than there are."""
    made = bytearray(make_zip({"a.txt": b"a"}))
    place = made.rfind(b"PK\x05\x06")
    made[place + 8 : place + 12] = struct.pack("<HH", entries, entries)
    return bytes(made)


def many_files(count: int = 10_001) -> bytes:
    return make_zip({f"{number}": b"" for number in range(count)})


def compressed_score(**members: bytes) -> bytes:
    container = b'<container><rootfiles><rootfile full-path="score.xml"/></rootfiles></container>'
    return make_zip(
        {"META-INF/container.xml": container, **{name.replace("_", "."): one for name, one in members.items()}}
    )


# ---- sound


def wave_with(channels: int = 2, rate: int = 48_000, told: int = 8, chunks: bytes = b"") -> bytes:
    head = struct.pack("<IHHIIHH", 16, 1, channels, rate, rate * channels * 2, channels * 2 & 0xFFFF, 16)
    return b"RIFF\xff\xff\xff\xffWAVE" + chunks + b"fmt " + head + b"data" + struct.pack("<I", told) + b"\0" * 8


def far_wave() -> bytes:
    """An RF64 file that tells of 2⁶³ bytes of sound."""
    far = b"ds64" + struct.pack("<IQQQI", 28, 2**63, 2**63, 2**62, 0)
    return b"RF64" + wave_with(told=0xFFFFFFFF, chunks=far)[4:]


def ogg_pages(count: int = 20_000) -> bytes:
    page = b"OggS\0\x02" + bytes(8) + b"\1\0\0\0" + bytes(8) + b"\0"
    return page * count


def flac_that_lies() -> bytes:
    return b"fLaC" + b"\x06\xff\xff\xff" + struct.pack(">II", 3, 0xFFFFFFFF) + b"x" * 1000


def boxes(depth: int = 5_000) -> bytes:
    """MPEG-4 boxes, each of which says that it holds the next."""
    return b"\0\0\0\x14ftypM4A \0\0\0\0M4A " + b"".join(
        struct.pack(">I", 8 * (depth - one)) + b"moov" for one in range(depth)
    )


# ---- PDF


def pdf_with(change: Callable[[pikepdf.Pdf], None]) -> bytes:
    target, pdf = BytesIO(), pikepdf.new()
    pdf.add_blank_page()
    change(pdf)
    pdf.save(target, compress_streams=False)
    return target.getvalue()


def packed(content: bytes) -> Callable[[pikepdf.Pdf], None]:
    """Return what puts a packed content on the first page."""

    def change(pdf: pikepdf.Pdf) -> None:
        stream = pdf.make_stream(zlib.compress(content, 9))
        stream.Filter = pikepdf.Name.FlateDecode
        pdf.pages[0].Contents = stream

    return change


def nested_array(pdf: pikepdf.Pdf) -> None:
    pdf.pages[0].Contents = pdf.make_stream(b"[" * 500_000)


def circling_outline(pdf: pikepdf.Pdf) -> None:
    one = pdf.make_indirect(pikepdf.Dictionary(Title="I"))
    one.Next = one
    pdf.Root.Outlines = pdf.make_indirect(pikepdf.Dictionary(First=one, Last=one))


def circling_forms(pdf: pikepdf.Pdf) -> None:
    form = pdf.make_stream(b"/F Do", Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Form)
    form.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(F=form))
    pdf.pages[0].Resources = form.Resources


def raw_pdf(*objects: bytes) -> bytes:
    """Return a PDF without a table of its objects, which a reader has to make for itself."""
    told = b"".join(b"%d 0 obj\n%s\nendobj\n" % (number, one) for number, one in enumerate(objects, start=1))
    return b"%PDF-1.7\n" + told + b"trailer << /Root 1 0 R /Size 9 >>\n%%EOF"


def circling_pages() -> bytes:
    return raw_pdf(b"<< /Type /Catalog /Pages 2 0 R >>", b"<< /Type /Pages /Count 1 /Kids [2 0 R 2 0 R] >>")


def counted_wrongly() -> bytes:
    return raw_pdf(b"<< /Type /Catalog /Pages 2 0 R >>", b"<< /Type /Pages /Count 2000000000 /Kids [] >>")


def deep_pdf() -> bytes:
    return raw_pdf(b"<< /Type /Catalog /Pages 2 0 R >>", b"[" * 200_000)


HARM: dict[str, tuple[str, Callable[[], bytes]]] = {
    "a billion laughs": ("a.musicxml", laughs),
    "quadratic entities": ("a.musicxml", quadratic),
    "a file from outside": ("a.xml", lambda: outside("file:///etc/passwd")),
    "an address from outside": ("a.xml", lambda: outside("http://127.0.0.1:9/x")),
    "a parameter entity": ("a.xml", parameter_entity),
    "deep XML": ("a.xml", nested_xml),
    "a drawing as a score": ("a.xml", svg_as_score),
    "a bomb as a score": ("a.mxl", lambda: compressed_score(score_xml=BOMB)),
    "laughs in a container": ("a.mxl", lambda: compressed_score(score_xml=laughs())),
    "an archive in a container": ("a.mxl", lambda: compressed_score(score_xml=make_zip({"b": b"b"}))),
    "a link in a container": ("a.mxl", lambda: zip_with("score.xml", b"/etc/passwd", mode=stat.S_IFLNK | 0o777)),
    "a bomb": ("a.zip", lambda: zip_with("bomb.bin", BOMB)),
    "a link": ("a.zip", lambda: zip_with("patch", b"/etc/passwd", mode=stat.S_IFLNK | 0o777)),
    "a way out": ("a.zip", lambda: zip_with("../../.profile")),
    "a way to the root": ("a.zip", lambda: zip_with("/etc/cron.d/x")),
    "a way to a drive": ("a.zip", lambda: zip_with("C:\\autoexec.bat")),
    "a password": ("a.zip", lambda: zip_with("patch", flags=1)),
    "too many files": ("a.zip", many_files),
    "a number of files that is a lie": ("a.zip", zip_that_lies),
    "half an archive": ("a.zip", lambda: make_zip({"a": b"a"})[:40]),
    "no channels": ("a.wav", lambda: wave_with(channels=0)),
    "no rate": ("a.wav", lambda: wave_with(rate=0)),
    "no sound": ("a.wav", lambda: b"RIFF\xff\xff\xff\xffWAVE" + b"junk\0\0\0\0" * 50_000),
    "half a MIDI file": ("a.mid", lambda: b"MThd\0\0"),
    "pages that hold themselves": ("a.pdf", circling_pages),
    "two thousand million pages": ("a.pdf", counted_wrongly),
    "a deep PDF": ("a.pdf", deep_pdf),
    "the head of a PDF": ("a.pdf", lambda: b"%PDF-1.7\n"),
    "a page in a PDF's coat": ("a.pdf", lambda: b"%PDF-1.7\n<script>alert(1)</script>"),
}
"""What is refused: the name with which it comes, and its content."""

HARMLESS: dict[str, tuple[str, Callable[[], bytes]]] = {
    "sound that is a lie": ("a.wav", lambda: wave_with(told=4_000_000_000)),
    "sound of 2⁶³ bytes": ("a.wav", far_wave),
    "256 channels": ("a.wav", lambda: wave_with(channels=256)),
    "a tag of 256 MB": ("a.mp3", lambda: b"ID3\x04\0\0\x7f\x7f\x7f\x7f" + b"TIT2\x7f\x7f\x7f\x7f\0\0" * 9),
    "tags without end": ("a.mp3", lambda: b"ID3\x03\0\0\0\x0f\x7f\x7f" + b"TIT2\0\0\0\0\0\0" * 20_000),
    "pages of Ogg without sound": ("a.ogg", ogg_pages),
    "a picture of 4 GB in FLAC": ("a.flac", flac_that_lies),
    "boxes in boxes": ("a.m4a", boxes),
    "AIFF that is a lie": ("a.aiff", lambda: b"FORM\xff\xff\xff\xffAIFFCOMM\xff\xff\xff\xff"),
    "a bomb on a page": ("a.pdf", lambda: pdf_with(packed(BOMB))),
    "an array in an array": ("a.pdf", lambda: pdf_with(nested_array)),
    "bookmarks that go round": ("a.pdf", lambda: pdf_with(circling_outline)),
    "forms that draw themselves": ("a.pdf", lambda: pdf_with(circling_forms)),
    "a PDF that is a ZIP archive": ("a.pdf", lambda: pdf_with(lambda pdf: None) + make_zip({"a": b"a"})),
    "sound with a page behind it": ("a.wav", lambda: wave_file().getvalue() + b"<script>alert(1)</script>"),
}
"""What is kept, since nothing of it does harm: it is never unpacked, run or shown as a page."""
