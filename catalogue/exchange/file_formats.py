"""What a file is by its first bytes, whatever its name or a browser says, and how large one of its kind may be.

The first bytes are those of the formats' own descriptions: PDF (ISO 32000-1, 7.5.2), RIFF, RF64 and BW64 (EBU Tech
3306, Recommendation ITU-R BS.2088), AIFF, FLAC (RFC 9639), Ogg (RFC 3533), MPEG audio (ISO 11172-3) with or without an
ID3 tag, ISO base media (ISO 14496-12), Standard MIDI Files, ZIP. MPEG layer 1 and free-format rates are not taken.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import PurePath

from catalogue.exchange.archives import MEGABYTE
from catalogue.rules.refused import Refused

HEAD = 512
"""How many bytes are looked at."""
BLANK_OR_MARK = re.compile(rb"(?:\xef\xbb\xbf)?\s*")
SCORE_ROOT = re.compile(rb"<(?:\?xml\s|!DOCTYPE\s+score-|score-partwise|score-timewise)")
WAVES = (b"RIFF", b"RF64", b"BW64")
SOUND_BRANDS = (b"M4A ", b"M4B ", b"M4P ")
PLAIN_BYTES = "application/octet-stream"


class FormatError(Refused):
    """A file of a kind that is not kept, or named as what it is not; ``reason`` is one sentence."""


@dataclass(frozen=True, slots=True)
class FileFormat:
    """A kind of file. ``suffix`` is the ending under which it is kept, ``endings`` are those that say the same.

    ``media_type`` is sent with it; markup is sent as plain bytes, so that no browser reads it as a page.
    """

    suffix: str
    name: str
    media_type: str
    most: int
    endings: tuple[str, ...]
    sounds: bool = False


def sound(suffix: str, name: str, media_type: str, *endings: str) -> FileFormat:
    return FileFormat(suffix, name, media_type, 400 * MEGABYTE, (suffix, *endings), sounds=True)


PDF = FileFormat("pdf", "PDF", "application/pdf", 100 * MEGABYTE, ("pdf",))
XML = FileFormat("xml", "MusicXML", PLAIN_BYTES, 20 * MEGABYTE, ("xml", "musicxml"))
MXL = FileFormat("mxl", "compressed MusicXML", PLAIN_BYTES, 20 * MEGABYTE, ("mxl",))
MIDI = FileFormat("mid", "MIDI file", "audio/midi", 5 * MEGABYTE, ("mid", "midi"))
ZIP = FileFormat("zip", "ZIP archive", "application/zip", 400 * MEGABYTE, ("zip",))
WAV = sound("wav", "WAV", "audio/wav", "wave", "bwf", "rf64", "bw64")
AIFF = sound("aiff", "AIFF", "audio/aiff", "aif", "aifc")
FLAC = sound("flac", "FLAC", "audio/flac")
OGG = sound("ogg", "Ogg", "audio/ogg", "oga", "opus")
MP3 = sound("mp3", "MP3", "audio/mpeg")
M4A = sound("m4a", "MPEG-4 audio", "audio/mp4", "m4b")
MP4 = FileFormat("mp4", "MPEG-4 video", "video/mp4", 400 * MEGABYTE, ("mp4", "m4v", "mov"))

FORMATS: dict[str, FileFormat] = {
    one.suffix: one for one in (PDF, XML, MXL, MIDI, ZIP, WAV, AIFF, FLAC, OGG, MP3, M4A, MP4)
}
BY_ENDING = {ending: one for one in FORMATS.values() for ending in one.endings}
ACCEPTED = ",".join(f".{ending}" for ending in BY_ENDING)
SAID = "PDF, MusicXML, MIDI, WAV, AIFF, FLAC, Ogg, MP3, MPEG-4 or ZIP"


def ending_of(name: str) -> str:
    """Return what stands behind the last dot of a name.

    >>> ending_of("Ash Ferry.Full Score.PDF"), ending_of("README")
    ('pdf', '')
    """
    return PurePath(name.replace("\\", "/")).suffix.removeprefix(".").casefold()


def format_of(head: bytes, name: str = "") -> FileFormat | None:
    """Return what a file is by its first bytes; the name decides only what a ZIP archive holds.

    >>> format_of(b"%PDF-1.7").suffix, format_of(b"<!DOCTYPE html>"), format_of(b"PK\\x03\\x04", "a.mxl").suffix
    ('pdf', None, 'mxl')
    """
    if head.startswith(b"PK\x03\x04"):
        return MXL if ending_of(name) == "mxl" else ZIP
    if head[:4] in WAVES and head[8:12] == b"WAVE":
        return WAV
    if head[:4] == b"FORM" and head[8:12] in (b"AIFF", b"AIFC"):
        return AIFF
    if head[4:8] == b"ftyp":
        return M4A if head[8:12] in SOUND_BRANDS else MP4
    if SCORE_ROOT.match(head, BLANK_OR_MARK.match(head).end()):  # type: ignore[union-attr]
        return XML
    plain = ((b"%PDF-", PDF), (b"MThd", MIDI), (b"fLaC", FLAC), (b"OggS", OGG), (b"ID3", MP3))
    return next((one for begins, one in plain if head.startswith(begins)), MP3 if is_mpeg_frame(head) else None)


def is_mpeg_frame(head: bytes) -> bool:
    """Whether a frame of MPEG audio, layer 2 or 3, begins here: its sync, and no reserved version, rate or layer."""
    if len(head) < 4 or head[0] != 0xFF or head[1] & 0xE0 != 0xE0:
        return False
    version, layer = head[1] >> 3 & 3, head[1] >> 1 & 3
    rate, frequency = head[2] >> 4, head[2] >> 2 & 3
    return version != 1 and layer in (1, 2) and rate not in (0, 15) and frequency != 3


def refuse_other(head: bytes, name: str) -> FileFormat:
    """Return the format of a file that is kept. Raises FormatError for others and for false names."""
    if not head:
        raise FormatError("This file is empty.")
    found, told = format_of(head, name), BY_ENDING.get(ending_of(name))
    if found is None:
        raise FormatError(f"This is none of the files that are kept here; send {SAID}.")
    if told is not None and told is not found:
        raise FormatError(f"By its name this file is {told.name}, by its content {found.name}; name it as what it is.")
    return found
