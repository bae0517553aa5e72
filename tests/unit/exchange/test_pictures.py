from __future__ import annotations

from io import BytesIO

import pytest
from django.core.files.storage import InMemoryStorage
from PIL import Image

from catalogue.exchange import pictures
from catalogue.exchange.pictures import PictureError, keep_picture, probe_picture, stored_name
from tests.picture_files import picture_file, png_that_claims

NO_PICTURE = "This is no picture that can be read; send a PNG, JPEG or WebP file."


@pytest.mark.parametrize(("kind", "suffix"), [("PNG", "png"), ("JPEG", "jpg"), ("WEBP", "webp")])
def test_picture_is_written_anew_in_its_own_format(kind: str, suffix: str) -> None:
    probed = probe_picture(picture_file(kind, (8, 6)))

    again = Image.open(BytesIO(probed.content))
    assert (probed.suffix, probed.width, probed.height) == (suffix, 8, 6)
    assert (again.format, again.size) == (kind, (8, 6))


def test_what_was_hidden_in_the_file_is_gone_and_the_picture_stands_upright() -> None:
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = 6, "A camera"  # turned by a quarter; maker
    probed = probe_picture(picture_file("JPEG", (8, 6), exif=exif) + b"trailing")

    again = Image.open(BytesIO(probed.content))
    assert again.size == (6, 8)
    assert dict(again.getexif()) == {}
    assert b"camera" not in probed.content
    assert b"trailing" not in probed.content


@pytest.mark.parametrize("mode", ["RGBA", "LA", "P", "L", "1"])
def test_every_sort_of_pixels_is_taken(mode: str) -> None:
    assert probe_picture(picture_file("PNG", mode=mode)).suffix == "png"


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\x89PNG\r\n\x1a\n<script>alert(1)</script>",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"%PDF-1.7",
        picture_file("GIF", mode="P"),
        picture_file("BMP"),
        picture_file("PNG")[:40],
    ],
)
def test_other_files_are_refused_whatever_they_claim_to_be(content: bytes) -> None:
    with pytest.raises(PictureError) as refused:
        probe_picture(content)

    assert refused.value.reason == NO_PICTURE


@pytest.mark.parametrize(("width", "height"), [(9000, 10000), (20000, 20000), (65000, 65000)])
def test_size_is_refused_before_anything_is_unpacked(width: int, height: int) -> None:
    with pytest.raises(PictureError):
        probe_picture(png_that_claims(width, height))


def test_one_pixel_too_many_is_refused_and_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_PIXELS", 11)

    with pytest.raises(PictureError) as refused:
        probe_picture(picture_file())

    assert refused.value.reason == "The picture has 4 × 3 pixels; 0 million are the most."


def test_file_is_kept_once_under_its_content() -> None:
    storage, probed = InMemoryStorage(), probe_picture(picture_file())

    digests = {keep_picture(probed, storage), keep_picture(probed, storage)}

    assert digests == {probed.sha256}
    assert storage.listdir(probed.sha256[:2]) == ([], [f"{probed.sha256}.png"])
    assert storage.open(stored_name(probed.sha256, "png")).read() == probed.content
