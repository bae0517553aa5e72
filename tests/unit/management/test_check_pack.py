from __future__ import annotations

import json
import struct
import zipfile
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from django.core.management import CommandError, call_command
from docx import Document
from reportlab.pdfgen.canvas import Canvas

from catalogue.models import Composer
from tests.makers import make_composer, make_work

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def known_composer(db: None) -> Composer:
    return make_composer(
        "Ilse Tárnow", sort_name="Tárnow, Ilse", original_name="Илзе Тарнов", email="ilse@tarnow.example",
        website="https://www.ilse-music.example/", telephone="+47 555 01 234",
    )  # fmt: skip


def checked(*paths: Path) -> dict[str, Any]:
    out = StringIO()
    call_command("check_pack", *map(str, paths), "--anonymous", "--json", stdout=out)
    return json.loads(out.getvalue())


def kinds(report: dict[str, Any]) -> list[tuple[str, str]]:
    return [(one["place"], one["kind"]) for one in report["findings"]]


def pdf_of(*pages: str, **properties: str) -> bytes:
    buffer = BytesIO()
    canvas = Canvas(buffer)
    for text in pages:
        canvas.drawString(72, 700, text)
        canvas.showPage()
    canvas.save()
    with pikepdf.open(BytesIO(buffer.getvalue())) as pdf:
        for key in list(pdf.docinfo):
            del pdf.docinfo[key]
        for key, value in properties.items():
            pdf.docinfo[f"/{key}"] = value
        out = BytesIO()
        pdf.save(out)
    return out.getvalue()


def test_a_score_without_a_name_is_clean(tmp_path: Path) -> None:
    path = tmp_path / "three-words.pdf"
    path.write_bytes(pdf_of("Slack Rope for wind", "Motto: three quiet words"))

    assert checked(path) == {"clean": True, "findings": [], "not_seen": []}


def test_the_name_is_found_on_every_page_and_in_the_properties(tmp_path: Path) -> None:
    path = tmp_path / "score.pdf"
    path.write_bytes(pdf_of("Slack Rope", "© I L S E  T A R N O W", Author="I. Tarnow", Title="Slack Rope"))

    report = checked(path)

    assert not report["clean"]
    assert {("page 2", "name"), ("properties, Author", "name")} <= set(kinds(report))
    assert not any(place == "page 1" for place, _ in kinds(report))


def test_a_name_is_found_in_xmp_and_in_a_file_inside_a_pdf(tmp_path: Path) -> None:
    path = tmp_path / "score.pdf"
    with pikepdf.open(BytesIO(pdf_of("Slack Rope"))) as pdf:
        with pdf.open_metadata() as data:
            data["dc:creator"] = ["Ilse Tarnow"]
        pdf.attachments["tarnow-notes.txt"] = pikepdf.AttachedFileSpec(pdf, b"nothing here")
        pdf.save(path)

    places = {one["place"] for one in checked(path)["findings"]}

    assert "XMP metadata" in places
    assert "file name" in places


def test_a_page_that_is_only_a_picture_is_told(tmp_path: Path) -> None:
    path = tmp_path / "scan.pdf"
    path.write_bytes(pdf_of(" "))

    report = checked(path)

    assert report["clean"]
    assert report["not_seen"] == ["scan.pdf: page 1 has no text; what is drawn or scanned on it cannot be read."]


def test_the_name_is_found_in_a_letter_its_properties_and_in_other_scripts(tmp_path: Path) -> None:
    path = tmp_path / "note.docx"
    document = Document()
    paragraph = document.add_paragraph("A note by Илзе ")
    paragraph.add_run("Тар").bold = True
    paragraph.add_run("нов")
    document.core_properties.author = "tarnow"
    document.save(path)

    found = checked(path)["findings"]

    assert {one["place"] for one in found} == {"word/document.xml", "docProps/core.xml"}


def test_the_name_is_found_in_the_tags_of_a_recording_and_its_voice_is_told(tmp_path: Path) -> None:
    path = tmp_path / "take.wav"
    info = b"IART" + struct.pack("<I", 12) + b"Ilse Tarnow\0"
    listed = b"LIST" + struct.pack("<I", 4 + len(info)) + b"INFO" + info
    sound = b"fmt " + struct.pack("<IHHIIHH", 16, 1, 1, 8000, 16000, 2, 16) + b"data" + struct.pack("<I", 4) + b"\0" * 4
    path.write_bytes(b"RIFF" + struct.pack("<I", 4 + len(sound) + len(listed)) + b"WAVE" + sound + listed)

    report = checked(path)

    assert {one["kind"] for one in report["findings"]} == {"name"}
    assert report["not_seen"] == ["take.wav: what is heard in the recording, such as a spoken name."]


def test_file_names_and_addresses_in_a_pack_are_found(tmp_path: Path) -> None:
    path = tmp_path / "pack.zip"
    with zipfile.ZipFile(path, "w") as file:
        file.writestr("01 Tarnow score.pdf", pdf_of("Slack Rope"))
        file.writestr("note.txt", "write to ilse@tarnow.example or see ilse-music.example")

    found = {(one["file"], one["kind"]) for one in checked(path)["findings"]}

    assert ("pack.zip › 01 Tarnow score.pdf", "name") in found
    assert {("pack.zip › note.txt", "e-mail"), ("pack.zip › note.txt", "website")} <= found


def test_who_gives_the_composer_away_is_found(tmp_path: Path) -> None:
    make_work(
        "Slack Rope", composer=Composer.objects.get(), dedication="for Odile Brisk", commissioned_by=("Tide House",)
    )
    path = tmp_path / "note.txt"
    path.write_text("For Odile Brisk, who asked for it; Tide House paid.", encoding="utf-8")

    assert kinds(checked(path)) == [("text", "giveaway"), ("text", "giveaway")]


def test_a_short_name_inside_a_longer_word_is_no_find(tmp_path: Path) -> None:
    Composer.objects.update(name="Bo Li", sort_name="Li, Bo", original_name="")
    path = tmp_path / "note.txt"
    path.write_text("A lively oboe line.", encoding="utf-8")

    assert checked(path)["clean"]


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="There is no file"):
        call_command("check_pack", str(tmp_path / "none.pdf"), "--anonymous")


def test_a_broken_pdf_is_told_and_searched_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "score.pdf"
    path.write_bytes(b"%PDF-1.7 by Ilse Tarnow")

    report = checked(path)

    assert not report["clean"]
    assert report["not_seen"] == ["score.pdf: it is no PDF that can be opened."]
