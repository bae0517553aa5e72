"""What a file is by its first bytes; these are those of the formats' own descriptions."""

from __future__ import annotations

import pytest

from catalogue.exchange.archives import MEGABYTE
from catalogue.exchange.file_formats import FORMATS, FormatError, format_of, refuse_other

WHAT_IS_KEPT = "This is none of the files that are kept here; send PDF, MusicXML, MIDI, WAV, AIFF, FLAC, Ogg, MP3, "


@pytest.mark.parametrize(
    ("head", "name", "suffix"),
    [
        (b"%PDF-1.7\n", "score.pdf", "pdf"),
        (b"RIFF\x24\0\0\0WAVEfmt ", "tape.wav", "wav"),
        (b"RF64\xff\xff\xff\xffWAVEds64", "tape.wav", "wav"),
        (b"BW64\xff\xff\xff\xffWAVEds64", "tape.bwf", "wav"),
        (b"FORM\0\0\0\x2eAIFFCOMM", "tape.aif", "aiff"),
        (b"fLaC\0\0\0\x22", "take.flac", "flac"),
        (b"OggS\0\x02", "take.opus", "ogg"),
        (b"ID3\x04\0\0", "take.mp3", "mp3"),
        (b"\xff\xfb\x90\x64", "take.mp3", "mp3"),
        (b"\0\0\0\x20ftypM4A \0\0", "take.m4a", "m4a"),
        (b"\0\0\0\x20ftypisom\0\0", "film.mov", "mp4"),
        (b"MThd\0\0\0\x06", "click.MID", "mid"),
        (b"PK\x03\x04\x14\0", "patch.zip", "zip"),
        (b"PK\x03\x04\x14\0", "score.mxl", "mxl"),
        (b'\xef\xbb\xbf<?xml version="1.0"?>', "score.musicxml", "xml"),
        (b'\n<score-partwise version="4.0">', "score.xml", "xml"),
    ],
)
def test_file_is_known_by_its_first_bytes(head: bytes, name: str, suffix: str) -> None:
    assert refuse_other(head, name).suffix == suffix
    assert refuse_other(head, "without an ending").suffix == ("zip" if suffix == "mxl" else suffix)


@pytest.mark.parametrize(
    "head",
    [
        b"<!DOCTYPE html><script>alert(1)</script>",
        b"<html>",
        b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>",
        b"GIF89a/*",
        b"\x89PNG\r\n\x1a\n",
        b" %PDF-1.7",
        b"MZ\x90\0",
        b"\x7fELF",
        b"#!/bin/sh",
        b"\xff\xfe<\0s\0",
        b"\xff\xff\xff\xff",
        b"RIFF\x24\0\0\0AVI ",
    ],
)
@pytest.mark.parametrize("name", ["take.mp3", "score.pdf", "x"])
def test_other_files_are_refused_whatever_they_are_called(head: bytes, name: str) -> None:
    with pytest.raises(FormatError) as refused:
        refuse_other(head, name)

    assert refused.value.reason.startswith(WHAT_IS_KEPT)


def test_file_named_as_what_it_is_not_is_refused() -> None:
    with pytest.raises(FormatError) as refused:
        refuse_other(b"PK\x03\x04", "score.pdf")

    assert refused.value.reason == "By its name this file is PDF, by its content ZIP archive; name it as what it is."


def test_empty_file_is_refused() -> None:
    with pytest.raises(FormatError, match="empty"):
        refuse_other(b"", "score.pdf")


def test_no_format_is_sent_as_a_page_and_each_is_kept_under_a_short_ending() -> None:
    pages = ("text/", "image/svg")

    assert [one for one in FORMATS.values() if one.media_type.startswith(pages) or one.media_type.endswith("xml")] == []
    assert all(2 <= len(suffix) <= 5 and suffix.isalnum() for suffix in FORMATS)
    assert all(format_of(b"", f"x.{suffix}") is None for suffix in FORMATS)


def test_no_kind_may_be_larger_than_this() -> None:
    """What a score, a recording and a set of pictures need, and no machine is filled by; megabytes."""
    most = {one.suffix: one.most // MEGABYTE for one in FORMATS.values()}

    assert max(most.values()) == 400
    assert {suffix: most[suffix] for suffix in ("pdf", "xml", "mxl", "mid", "wav", "mp3", "zip")} == {
        "pdf": 100, "xml": 20, "mxl": 20, "mid": 5, "wav": 400, "mp3": 400, "zip": 400,
    }  # fmt: skip
