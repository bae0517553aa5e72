"""/c/<composer>/works/<work>/electronics/ — the package of a work's electronics, out and in again."""

from __future__ import annotations

import zipfile
from io import BytesIO
from typing import Any

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from catalogue.exchange.stored_files import keep_upload
from catalogue.models import Composer, StoredFile, TechnicalSetup, Work
from tests.makers import make_work
from tests.record_makers import make_record
from tests.unit.exchange.waves import wave_file
from tests.web.pages import Page

pytestmark = pytest.mark.signed_in_as("viewer")

SOFTWARE = "Patch player; 4.2; composer"


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Rope Tables", composer=composer, instrumentation="pf, fixed media")


@pytest.fixture
def setup(work: Work) -> Any:
    media = "tone.wav; mono; 48 kHz\nabsent.wav; stereo"
    return make_record(TechnicalSetup, work=work, software=SOFTWARE, media=media, setting_up="Turn it on.")


def keep(setup: Any, name: str = "tone.wav", frames: int = 10) -> StoredFile:
    content = wave_file(frames).getvalue()
    digest = keep_upload(ContentFile(content), "wav", default_storage)
    return StoredFile.objects.create(
        composer=setup.work.composer, work=setup.work, setup=setup, kind="media", original_name=name, suffix="wav",
        sha256=digest, byte_count=len(content),
    )  # fmt: skip


def root(work: Work) -> str:
    return f"/c/ilka-marovand/works/{work.pk}/electronics/"


def package(browser: Client, work: Work) -> bytes:
    return b"".join(browser.get(f"{root(work)}package/").streaming_content)


def checked(browser: Client, work: Work, content: bytes) -> Page:
    sent = SimpleUploadedFile("package.zip", content)
    return Page(browser.post(f"{root(work)}check/", {"package": sent}))


def test_page_says_what_is_in_the_package_and_what_is_not_kept(browser: Client, work: Work, setup: Any) -> None:
    keep(setup)
    keep(setup, frames=11)

    page = Page(browser.get(f"{root(work)}?setup={setup.pk}"))

    assert page.texts("//section[@id='package']//li/span/bdi") == ["media/tone.wav", "media/tone-2.wav"]
    assert page.wrong == ["“absent.wav” is named in the setup, but no file of it is kept."]


def test_work_without_a_setup_says_what_a_package_is_made_of(browser: Client, work: Work) -> None:
    assert "has no technical setup yet" in Page(browser.get(root(work))).text()


def test_package_comes_back_whole_and_the_same(browser: Client, work: Work, setup: Any) -> None:
    keep(setup)
    content = package(browser, work)

    page = checked(browser, work, content)

    with zipfile.ZipFile(BytesIO(content)) as archive:
        assert archive.read("media/tone.wav") == wave_file().getvalue()
    assert page.texts("//section[@id='checked']//p") == [
        "4 files are as they were when the package was made.",
        "Loudspeakers, programs and files are still the same here.",
    ]


def test_package_that_is_old_says_what_is_different_now(browser: Client, work: Work, setup: Any) -> None:
    before = keep(setup)
    content = package(browser, work)
    before.delete()
    keep(setup, frames=11)
    keep(setup, "more.wav")
    setup.software, setup.layout = "Patch player; 4.3; composer", "quad"
    setup.save()

    page = checked(browser, work, content)

    assert page.texts("//section[@id='checked']//li") == [
        "The loudspeakers or their angles are others now.",
        "“Patch player” was 4.2 and is 4.3 now.",
        "Another “media/tone.wav” is kept here now.",
        "“media/more.wav” has come since.",
    ]


def test_damaged_package_and_one_of_another_work_are_told(
    browser: Client, work: Work, setup: Any, composer: Composer
) -> None:
    keep(setup)
    content = package(browser, work)
    other = make_record(TechnicalSetup, work=make_work("Salt", composer=composer)).work

    damaged = checked(browser, work, content.replace(b"Turn it on.", b"Turn it up."))
    none, foreign = checked(browser, work, b"%PDF-1.7"), checked(browser, other, content)

    assert damaged.texts("//section[@id='checked']//li") == [
        f"“{name}” is not as it was when the package was made." for name in ("rider.txt", "setup.txt")
    ]
    assert none.texts("//*[@id='id_package_error']/p") == ["This is no package of electronics, or it is damaged."]
    assert foreign.texts("//section[@id='checked']//li") == ["This package is of “Rope Tables”, not of this work."]


def test_what_does_not_agree_in_a_setup_is_said_at_its_list(browser: Client, work: Work) -> None:
    setup = make_record(
        TechnicalSetup, work=work, inputs="1; Violin; line; 48 V; composer\n1; Harp; DI; hall", documented="2024"
    )

    page = Page(browser.get(f"/c/ilka-marovand/records/setups/{setup.pk}/"))

    (listed,) = page.tree.xpath("//div[@class='prose'][h3='Input list']")
    assert [one.text_content() for one in listed.xpath(".//p[@class='wrong']")] == [
        "Input 1 is used twice.",
        "Input 1, Violin: phantom power on a line source can damage it.",
    ]
    assert "things do not agree; each is said at its place below." in page.wrong[0]
