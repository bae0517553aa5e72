"""Every reader of what comes from outside, given damaged and senseless inputs: it reads, or says why not, and soon.

Full lane: 2,000 inputs a reader; ``INPUTS=10000`` in the environment asks for more, and for a million as well. The same
inputs come each time. Where a file is packed, what is in it is damaged too, and packed again.
"""

from __future__ import annotations

import os
import struct
import time
import zipfile
from collections.abc import Callable, Iterator
from functools import partial
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pytest

from catalogue.exchange.archives import ArchiveError
from catalogue.exchange.backups.archive import BackupError, manifest_from, opened
from catalogue.exchange.drafts import drafts_of
from catalogue.exchange.electronics_package import PackageError, check_package, package_chunks
from catalogue.exchange.event_lines import read_event_line
from catalogue.exchange.file_formats import HEAD, FormatError, refuse_other
from catalogue.exchange.media_files import MediaError, read_wave
from catalogue.exchange.movement_lists import read_movements
from catalogue.exchange.pack_texts import Pack
from catalogue.exchange.pdf_files import PdfError, read_pdf
from catalogue.exchange.performer_lists import read_performers
from catalogue.exchange.pictures import PictureError, probe_picture
from catalogue.exchange.score_covers import CoverError, with_cover
from catalogue.exchange.scores.findings import read_score
from catalogue.exchange.scores.model import ScoreError
from catalogue.exchange.tables import TableError, read_table
from catalogue.exchange.upload_reading import read_upload
from catalogue.exchange.word_text import text_of_file
from catalogue.instrumentation import InstrumentationError, read
from catalogue.models.typed_lists import READERS
from catalogue.rules.calls.reading import CallError, read_call
from catalogue.rules.identifiers import Identifier, read_identifier
from catalogue.rules.technical.reading import read_needs
from catalogue.rules.technical.things import things_in
from catalogue.timing import Mistake, read_date, read_duration
from catalogue.timing.moments import read_clock_time
from catalogue.timing.places import read_place
from catalogue.timing.tempo_reading import read_tempo_map
from tests.picture_files import picture_file
from tests.unit.exchange.backups.parcels import NEWEST
from tests.unit.exchange.hostile_uploads import HARMLESS, compressed_score, packed, pdf_with
from tests.unit.exchange.spreadsheets import make_ods, make_xlsx, make_zip
from tests.unit.exchange.test_word_text import docx, paragraph

INPUTS = int(os.environ.get("INPUTS", "2000"))
SLOWEST = 1.0
"""Seconds of this program's own time."""

REFUSALS = (
    ArchiveError, BackupError, CallError, CoverError, FormatError, InstrumentationError, MediaError, Mistake,
    PackageError, PdfError, PictureError, ScoreError, TableError,
)  # fmt: skip
ODD = (
    "\0", "\ud800", "\u202e", "\u2028", "\ufeff", "\U0010ffff", "é" * 50, "((((", "))))", "9" * 40, "-", "=", "'", '"',
    "½", "٣", "²", "\t", "\n", "\r\n", ";", ",", "/", "…", "<", "&", "%s", "{}", "\\", "’", "–", "0", "(", "x" * 300,
)  # fmt: skip
ODD_BYTES = (b"\0", b"\xff\xff\xff\xff", b"PK\x03\x04", b"<!ENTITY a 'b'>", b"\x80", b"A" * 500, b"<a>" * 50, b"-1")
SCORE = b"""<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
<score-partwise version="4.0"><work><work-title>Slack Rope</work-title></work>
<part-list><score-part id="P1"><part-name>Flute</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>2</divisions>
<time><beats>3</beats><beat-type>4</beat-type></time>
</attributes><direction><sound tempo="72"/></direction><note><rest/><duration>6</duration></note></measure></part>
</score-partwise>"""
WAVE = b"RIFF" + struct.pack("<I", 44) + b"WAVEfmt " + struct.pack("<IHHIIHH", 16, 1, 1, 8000, 16000, 2, 16) + b"data" \
    + struct.pack("<I", 8) + b"\0" * 8  # fmt: skip
SHEET = [["title", "year", "duration"], ["Slack Rope", 1998, "12 min"], ["Ebb", 2001, "c. 9′"]]

TEXTS: dict[str, tuple[Callable[[str], object], tuple[str, ...]]] = {
    "instrumentation": (read, (
        "2(II=picc).2(2=ca).2.2(II=bcl) – 4.2.3.1 – timp.perc(2) – hp – str(8.6.4.4.2)", "fl(=picc), cl, vn, vc, pf",
        "two flutes, the second doubling piccolo, and piano", "3[1.2.pic] 2 2 2 - 4 2 3 1 - tmp+2 - hp - str",
    )),
    "duration": (read_duration, ("c. 12½ min", "12'30\"", "1h 05", "0:12:30", "ca. 10–12 Minuten")),
    "date": (read_date, ("12 March 1998", "1998-03", "c. 1998", "1998–2001", "März 2019", "2019/03/05")),
    "clock time": (read_clock_time, ("19:30", "7.30 pm", "noon", "20h15")),
    "place": (read_place, ("b. 37", "37.3", "reh. C + 2", "1:23")),
    "tempo map": (read_tempo_map, ("1-8 4/4 q=72\n9-12 3/4 q=72..60\n", "1-40 5/8 e=120")),
    "movements": (read_movements, ("I. Spring 4:05\nII. Weir 5:15 attacca", "1 Slow\n2 Fast 3'")),
    "performers": (read_performers, ("conductor: Noor Halvorsen; Kestrel Ensemble", "piano: A; B (violin)")),
    "evening in a line": (partial(read_event_line, language="en-GB"), (
        "12 May 2026 19:30, Old Granary, Zurich: Tides", "3.5.2026 Linz",
    )),
    "call": (read_call, ("Call for works. For string quartet, 8 to 12 minutes. Deadline: 1 March 2027. Fee 20 EUR.",)),
    "pasted list": (drafts_of, (
        "Orchestra\n\nTides (1998) 12'\n2222 4231 timp str\n    first performed 3 May 1998, Linz\nEbb, 2001, fl, pf",
    )),
    "list of things": (lambda text: [things_in(need) for need in read_needs(text)], (
        "2 x 18\" monitor; presenter\nmixer 32 in, 16 out; 4 large-diaphragm condensers\n",
    )),
    **{f"list of {name}": (reader, (
        "1; piano; condenser; 48 V; presenter\n2; laptop L; DI; composer", "tape.wav; 4 ch; 48 kHz; 24 bit; 12'30\"",
        "front left; -30°; 0°\nsub; low", "10:00; 2 h; setting up; 2 technicians", "A; 3.5 m; 2 m\n", "Follower; 4.2",
    )) for name, reader in READERS.items()},
    **{f"number {kind}": (partial(read_identifier, kind), (
        "T-034.524.680-1", "979-0-2600-0043-8", "ISNI 0000 0001 2103 2683", "GB-A1B-98-00001", "00052210040",
    )) for kind in Identifier},
}  # fmt: skip
UPLOADS = (
    WAVE, compressed_score(score_xml=SCORE), pdf_with(lambda pdf: None), HARMLESS["a picture of 4 GB in FLAC"][1](),
    HARMLESS["boxes in boxes"][1]()[:4000], HARMLESS["AIFF that is a lie"][1](),
    HARMLESS["tags without end"][1]()[:900], HARMLESS["pages of Ogg without sound"][1]()[:900],
    b"MThd\0\0\0\6\0\1\0\1\1\xe0MTrk\0\0\0\4\0\xff\x2f\0",
)  # fmt: skip


PDFS = tuple(make for name, (ending, make) in HARMLESS.items() if ending == "a.pdf" and name != "a bomb on a page")


def member(content: bytes, name: str) -> bytes:
    with zipfile.ZipFile(BytesIO(content)) as archive:
        return archive.read(name)


def take_upload(content: bytes) -> object:
    return read_upload(BytesIO(content), refuse_other(content[:HEAD], ""))


def repacked(reader: Callable[[bytes], object], name: str) -> Callable[[bytes], object]:
    """Read a damaged file as a sound archive would hold it."""
    return lambda content: reader(make_zip({"META-INF/container.xml": CONTAINER, name: content}))


def read_pack(content: bytes) -> object:
    return [list(Pack().read(name, content)) for name in ("a", "a.pdf", "a.mp3")]


CONTAINER = b'<container><rootfiles><rootfile full-path="score.xml"/></rootfiles></container>'
PAGES = pdf_with(packed(b"BT /F 12 Tf (Slack Rope) Tj ET"))
DOCUMENT = docx(paragraph("Ash ", "Ferry (2019)") + paragraph() + paragraph("Copper &amp; Hymn"))
PACKAGE = b"".join(package_chunks((), {"setup": "As meant", "channels": []}))
FILES: dict[str, tuple[Callable[[bytes], object], tuple[bytes, ...]]] = {
    "CSV": (read_table, (b"title;year\nSlack Rope;1998\n", "title,ort\nÉbb,Łódź\n".encode("utf-16"))),
    "XLSX": (read_table, (make_xlsx({"S": SHEET}),)),
    "ODS": (read_table, (make_ods([[str(cell) for cell in row] for row in SHEET]),)),
    "score": (read_score, (SCORE,)),
    "compressed score": (read_score, (compressed_score(score_xml=SCORE),)),
    "score in an archive": (repacked(read_score, "score.xml"), (SCORE,)),
    "container": (lambda content: read_score(make_zip({"META-INF/container.xml": content})), (CONTAINER,)),
    "PDF": (lambda content: read_pdf(BytesIO(content)), (PAGES, *(make()[:20_000] for make in PDFS))),
    "score to be covered": (lambda content: with_cover(BytesIO(content), PAGES, without=0), (PAGES,)),
    "picture": (probe_picture, tuple(picture_file(kind) for kind in ("PNG", "JPEG", "WEBP"))),
    "text of a word processor": (text_of_file, (DOCUMENT, b"Ash Ferry (2019)\n")),
    "its document": (repacked(text_of_file, "word/document.xml"), (member(DOCUMENT, "word/document.xml"),)),
    "files of a pack": (read_pack, (PAGES, DOCUMENT, compressed_score(score_xml=SCORE), *UPLOADS)),
    "package of electronics": (lambda content: check_package(BytesIO(content)), (PACKAGE,)),
    "wave": (lambda content: read_wave("a.wav", BytesIO(content)), (WAVE,)),
    "upload": (take_upload, UPLOADS),
    "manifest": (lambda content: manifest_from(list(content)), (b"{}",)),
}


class Chance:
    """Numbers that look like chance and are the same each time."""

    def __init__(self, name: str) -> None:
        self.name, self.drawn = name, 0

    def below(self, limit: int) -> int:
        self.drawn += 1
        digest = sha256(f"{self.name} {self.drawn}".encode()).digest()
        return int.from_bytes(digest[:6], "big") % max(limit, 1)


def damaged(whole: tuple, odd: tuple, name: str) -> Iterator:
    """Give inputs that were whole once: pieces cut out, doubled, moved, bits turned, oddities put in."""
    chance = Chance(name)
    for _number in range(INPUTS):
        text = whole[chance.below(len(whole))]
        for _change in range(1 + chance.below(4)):
            start = chance.below(len(text) + 1)
            end = start + chance.below(min(len(text) - start, 40) + 1)
            put = (odd[chance.below(len(odd))], text[start:end] * 2, text[:0], text[::-1][:20])[chance.below(4)]
            text = text[:start] + put + text[end:]
        yield text


def read_each(reader: Callable, inputs: Iterator) -> tuple[float, object]:
    """Read everything and return the longest time and what took it."""
    slowest: tuple[float, object] = (0.0, None)
    for given in inputs:
        begun = time.process_time()
        try:
            reader(given)
        except REFUSALS as refused:
            reason = getattr(refused, "reason", str(refused))
            assert reason.strip(), f"{given!r} is refused without a reason"
        slowest = max(slowest, (time.process_time() - begun, repr(given)[:2000]))
    return slowest


@pytest.mark.slow
@pytest.mark.parametrize("name", TEXTS)
def test_senseless_text_is_read_or_refused_with_a_reason(name: str) -> None:
    reader, whole = TEXTS[name]

    seconds, given = read_each(reader, damaged(whole, ODD, name))

    assert seconds < SLOWEST, given


@pytest.mark.slow
@pytest.mark.parametrize("name", FILES)
def test_a_damaged_file_is_read_or_refused_with_a_reason(name: str) -> None:
    reader, whole = FILES[name]

    seconds, given = read_each(reader, damaged(whole, ODD_BYTES, name))

    assert seconds < SLOWEST, given


@pytest.mark.slow
def test_a_damaged_backup_is_never_opened(tmp_path: Path) -> None:
    path, whole = tmp_path / "damaged.zip", NEWEST.read_bytes()
    for content in damaged((whole,), ODD_BYTES, "backup"):
        path.write_bytes(content)
        if content != whole:
            with pytest.raises(BackupError), opened(path):
                pass
