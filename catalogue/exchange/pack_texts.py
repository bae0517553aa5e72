"""Every text in the files of a pack, with its place: pages, properties, tags, the files inside files, and file names.

What no program can see here is told: a page that is only a picture, a voice in a recording, a file under a password.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from itertools import count
from pathlib import PurePath
from typing import BinaryIO

import pikepdf
from tinytag import TinyTag
from tinytag.tinytag import TinyTagException

from catalogue.exchange.pdf_text import attachments, carried_texts, page_text
from catalogue.rules.anonymity import Sought, finds, finds_as_stored

AUDIO = {".mp3", ".wav", ".flac", ".m4a", ".mp4", ".ogg", ".oga", ".opus", ".aif", ".aiff", ".aac", ".wma"}
PICTURES = {".png", ".jpg", ".jpeg", ".gif", ".tif", ".tiff", ".webp", ".bmp"}
ZIPS = (b"PK\x03\x04", b"PK\x05\x06")
DEEPEST = 4
LARGEST_INSIDE = 300_000_000
MOST_INSIDE = 5_000
HEAD = 8192
AT_ONCE, ACROSS = 4_000_000, 200
"""How much of a file is searched at once, and how much of what stood before it again: a name may stand across both."""


@dataclass(frozen=True, slots=True)
class PackText:
    """A text of a file: which file, where in it; ``stored`` where it is the file's bytes and mostly noise."""

    file: str
    place: str
    text: str
    stored: bool = False


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that gives the composer away: in which file, where, the words, and what they are."""

    file: str
    place: str
    text: str
    kind: str


@dataclass(slots=True)
class Pack:
    """What was read of the files: ``texts`` as they come, and ``not_seen`` for what is to be looked at by a person."""

    not_seen: list[str] = field(default_factory=list)

    def read(self, name: str, data: bytes, depth: int = 0) -> Iterator[PackText]:
        """Yield every text of a file that is at hand, its name first."""
        yield from self.read_from(name, BytesIO(data), depth)

    def read_from(self, name: str, file: BinaryIO, depth: int = 0) -> Iterator[PackText]:
        """Yield the same of a file that can be read from any place; of a recording only pieces are held."""
        yield PackText(name, "file name", PurePath(name).name)
        suffix = PurePath(name).suffix.casefold()
        head = piece_of(file, 0, HEAD)
        if head.startswith(b"%PDF") or suffix == ".pdf":
            yield from self.pdf(name, file, depth)
        elif head.startswith(ZIPS):
            yield from self.archive(name, file, depth)
        elif suffix in AUDIO:
            yield from self.audio(name, file)
        else:
            if suffix in PICTURES:
                self.not_seen.append(f"{name}: what the picture shows.")
            elif is_text(head):
                yield PackText(name, "text", text_of(head + file.read()))
                return
            yield from raw(name, file)

    def pdf(self, name: str, file: BinaryIO, depth: int) -> Iterator[PackText]:
        file.seek(0)
        try:
            pdf = pikepdf.open(file)
        except pikepdf.PasswordError:
            self.not_seen.append(f"{name}: it is locked with a password.")
            yield from raw(name, file)
            return
        except pikepdf.PdfError:
            self.not_seen.append(f"{name}: it is no PDF that can be opened.")
            yield from raw(name, file)
            return
        with pdf:
            yield from self.pages(name, pdf)
            yield from self.beside_pages(name, pdf, depth)
        yield from raw(name, file)

    def beside_pages(self, name: str, pdf: pikepdf.Pdf, depth: int) -> Iterator[PackText]:
        try:
            yield from (PackText(name, place, text) for place, text in carried_texts(pdf))
            for inside, content in attachments(pdf):
                if depth < DEEPEST:
                    yield from self.read(f"{name} › {inside}", content, depth + 1)
        except Exception:  # whatever a damaged file makes its reader raise
            self.not_seen.append(f"{name}: what it carries besides its pages cannot be read.")

    def pages(self, name: str, pdf: pikepdf.Pdf) -> Iterator[PackText]:
        for number, page in enumerate(pdf.pages, start=1):
            try:
                text = page_text(page)
            except Exception:  # whatever a damaged page makes its reader raise
                self.not_seen.append(f"{name}: page {number} cannot be read.")
                continue
            if not text.strip():
                self.not_seen.append(
                    f"{name}: page {number} has no text; what is drawn or scanned on it cannot be read."
                )
            yield PackText(name, f"page {number}", text)

    def archive(self, name: str, file: BinaryIO, depth: int) -> Iterator[PackText]:
        """Yield the texts of a ZIP file, which Word, spreadsheet and compressed MusicXML files are too."""
        try:
            with zipfile.ZipFile(file) as packed:
                yield from self.entries(name, packed, depth)
        except Exception:  # damaged archives raise nine kinds and more
            self.not_seen.append(f"{name}: it cannot be unpacked.")

    def entries(self, name: str, file: zipfile.ZipFile, depth: int) -> Iterator[PackText]:
        infos = [info for info in file.infolist() if not info.is_dir()]
        if len(infos) > MOST_INSIDE or sum(info.file_size for info in infos) > LARGEST_INSIDE or depth >= DEEPEST:
            self.not_seen.append(f"{name}: it holds too much to be unpacked here.")
            return
        for info in infos:
            content = file.read(info)
            if info.filename.casefold().endswith((".xml", ".rels", ".musicxml", ".html", ".xhtml")):
                yield PackText(name, info.filename, running_text(content))
            else:
                yield from self.read(f"{name} › {info.filename}", content, depth + 1)

    def audio(self, name: str, file: BinaryIO) -> Iterator[PackText]:
        self.not_seen.append(f"{name}: what is heard in the recording, such as a spoken name.")
        file.seek(0)
        try:
            tag = TinyTag.get(filename=name, file_obj=file)
            for key, value in tag.as_dict().items():
                if isinstance(value, str | list):
                    yield PackText(name, f"tag {key}", value if isinstance(value, str) else " ".join(map(str, value)))
        except (TinyTagException, ValueError, KeyError, IndexError):
            self.not_seen.append(f"{name}: its tags cannot be read as such; the whole file was searched instead.")
        yield from raw(name, file)


def findings_in(pack: Pack, name: str, file: BinaryIO, sought: tuple[Sought, ...]) -> list[Finding]:
    """Return what of the sought stands in a file; of its bytes as they are stored only what was not found before."""
    found: list[Finding] = []
    for one in pack.read_from(name, file):
        for find in finds_as_stored(one.text, sought) if one.stored else finds(one.text, sought):
            if one.stored and any(other.file == one.file and other.kind == find.clue for other in found):
                continue
            found.append(Finding(one.file, one.place, find.text, str(find.clue)))
    return found


def running_text(data: bytes) -> str:
    """Return an XML part's words with the runs of a word joined, then its attributes."""
    text = data.decode("utf-8", errors="replace")
    joined = re.sub(r"</(?:w:p|text:p|p|row|si|credit-words|creator|rights)>", " ", text)
    return re.sub(r"<[^>]*>", "", joined) + " " + " ".join(re.findall(r'="([^"]*)"', text))


def piece_of(file: BinaryIO, first: int, size: int) -> bytes:
    """Return so many bytes of a file from a place on, fewer only at its end."""
    file.seek(first)
    pieces = []
    while size > 0 and (piece := file.read(size)):
        pieces.append(piece)
        size -= len(piece)
    return b"".join(pieces)


def is_text(head: bytes) -> bool:
    """Whether a file that begins so is plain text of any kind: a note, a score in MusicXML, a page."""
    if head[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return True
    return b"\x00" not in head and all(sign >= 32 or sign in b"\t\n\r\f" for sign in head)


def text_of(data: bytes) -> str:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


PRINTABLE = re.compile(rb"[\x20-\x7e\x80-\xff]{4,}")
WIDE = re.compile(rb"(?:[\x20-\x7e\xa0-\xff]\x00){4,}|(?:\x00[\x20-\x7e\xa0-\xff]){4,}")


def raw(name: str, file: BinaryIO) -> Iterator[PackText]:
    """Yield the texts that stand uncompressed in a file, in UTF-8, Latin 1 or UTF-16: what no reader of tags shows."""
    for start in count(0, AT_ONCE):
        before = min(start, ACROSS)
        block = piece_of(file, start - before, AT_ONCE + before)
        if len(block) <= before:
            return
        narrow = b" ".join(PRINTABLE.findall(block))
        yield PackText(name, "the file as it is stored", narrow.decode("utf-8", errors="replace"), stored=True)
        yield PackText(name, "the file as it is stored", narrow.decode("latin-1"), stored=True)
        wide = b" ".join(one.replace(b"\x00", b"") for one in WIDE.findall(block))
        if wide:
            yield PackText(name, "the file as it is stored", wide.decode("latin-1"), stored=True)
