"""/c/<composer>/works/<work>/timing/click/, the files made from there, and the Standard MIDI File."""

from __future__ import annotations

import io
import struct
import wave
import zipfile
from typing import Any

import mido
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.actions.works import save_work
from catalogue.documents.contents.cautions import Caution, words_of
from catalogue.documents.labels import labels
from catalogue.models import Composer, Cue, Work
from tests.makers import NOW, make_work
from tests.unit.exchange.waves import wave_file
from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("viewer")

MAP = "1-2 4/4 q=60\n3 free 5\n4 3/4 q=120\n"
GAP = "1 4/4 q=60\ngap 10\nmovement\n1 4/4 q=60\n"


@pytest.fixture
def work(composer: Composer) -> Work:
    work = make_work("Wéirs, high", composer=composer, tempo_map=MAP)
    cues = [
        Cue(number="T", place="", action="Check", media="tone.wav"),
        Cue(number="1", place="2", action="Drone in", media="Drone.WAV"),
        Cue(number="2", place="4.2", action="Bell", media="live"),
        Cue(number="3", place="4.3", action="Drone again", media="Drone.WAV"),
    ]
    return save_work(work=work, now=NOW, cues=cues)


def address(work: Work, end: str) -> str:
    return f"/c/ilka-marovand/works/{work.pk}/timing/{end}"


def samples(content: bytes) -> tuple[int, tuple[int, ...]]:
    """Return rate and samples of a WAV file of one channel, as the standard library reads it."""
    with wave.open(io.BytesIO(content)) as file:
        assert (file.getnchannels(), file.getsampwidth()) == (1, 2)
        return file.getframerate(), struct.unpack(f"<{file.getnframes()}h", file.readframes(file.getnframes()))


def test_page_says_how_to_listen_before_it_gives_anything(browser: Client, work: Work) -> None:
    page = Page(browser.get(address(work, "click/")))

    caution = page.text(with_class("caution"))
    assert words_of(Caution.IN_EAR, labels("en-GB")) in caution
    assert "in-ear monitor" in caution
    assert "keep to the local rules on noise at work" in caution
    assert page.tree.xpath(f"{with_class('caution')}/following::form")
    assert "tone.wav, Drone.WAV" in page.text("//section[contains(., 'Named at the cues')]")


def test_click_is_a_wav_file_of_the_asked_rate_with_its_count_in(browser: Client, work: Work) -> None:
    answer = browser.get(address(work, "click/file/"), {"count_in": "2", "rate": "44100", "between": ""})
    content = b"".join(answer.streaming_content)

    rate, values = samples(content)
    peak = round(32_767 * 10 ** (-12 / 20))  # -12 dB below full scale, by the definition of the decibel
    clicks = [place for place, value in enumerate(values) if value == peak]
    # two bars are counted in, two are played, five seconds are free, three beats at 120
    beats = [*range(16), 21, 21.5, 22]
    assert (rate, len(values)) == (44_100, round(22.5 * 44_100))
    assert clicks == [round(beat * 44_100) for beat in beats]
    assert max(map(abs, values)) == peak
    assert answer.headers["Content-Length"] == str(len(content))
    assert answer.headers["Content-Disposition"] == 'attachment; filename="weirs-high-click.wav"'


def test_softer_clicks_stand_between_the_beats_where_they_are_asked_for(browser: Client, work: Work) -> None:
    typed = {"count_in": "0", "rate": "48000", "between": "e"}
    _rate, values = samples(b"".join(browser.get(address(work, "click/file/"), typed).streaming_content))

    loud, soft = (round(32_767 * 10 ** (level / 20)) for level in (-12, -20))
    assert [values[round(beat * 48_000)] for beat in (0, 0.5, 1, 1.5, 7.5, 8, 13, 13.25)] == [
        loud, soft, loud, soft, soft, 0, loud, soft,
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ({"count_in": "9", "rate": "48000"}, "Ensure this value is less than or equal to 8."),
        ({"count_in": "x", "rate": "48000"}, "Enter a whole number."),
        ({"count_in": "1", "rate": "12"}, "Select a valid choice. 12 is not one of the available choices."),
    ],
)
def test_a_click_that_cannot_be_made_is_refused_beside_its_field(
    browser: Client, work: Work, typed: dict[str, str], reason: str
) -> None:
    assert Page(browser.get(address(work, "click/file/"), typed)).wrong == [reason]


def test_a_click_longer_than_a_wav_file_says_so(browser: Client, composer: Composer) -> None:
    work = make_work("Vigil", composer=composer, tempo_map="1 free 86400\n")

    page = Page(browser.get(address(work, "click/file/"), {"count_in": "0", "rate": "96000"}))

    assert page.texts(f"{with_class('summary')}//li") == [
        "The file would be longer than a WAV file can be; write it movement by movement."
    ]


def test_gaps_are_asked_about_where_the_map_has_one_and_are_silence(browser: Client, composer: Composer) -> None:
    work = make_work("Weirs", composer=composer, tempo_map=GAP)
    typed = {"count_in": "0", "rate": "44100"}
    page = Page(browser.get(address(work, "click/")))

    lengths = [
        len(samples(b"".join(browser.get(address(work, "click/file/"), sent).streaming_content))[1])
        for sent in (typed, {**typed, "gaps": "on"})
    ]

    assert len(page.tree.xpath("//input[@name='gaps']")) == 1
    assert lengths == [8 * 44_100, 18 * 44_100]


def test_midi_file_has_tempos_metres_and_a_marker_for_each_cue(browser: Client, work: Work) -> None:
    answer = browser.get(address(work, "midi/"))

    file = mido.MidiFile(file=io.BytesIO(answer.content), charset="utf-8")
    now, markers, metres = 0.0, [], []
    for message in file:
        now += message.time
        if message.type == "marker":
            markers.append((round(now, 6), message.text))
        if message.type == "time_signature":
            metres.append((round(now, 6), message.numerator, message.denominator))
    assert markers == [(4, "1: Drone in"), (13.5, "2: Bell"), (14, "3: Drone again")]
    assert [metre for metre in metres if metre[0] != 8] == [(0, 4, 4), (13, 3, 4)]
    assert answer.headers["Content-Type"] == "audio/midi"
    assert answer.headers["Content-Disposition"] == 'attachment; filename="weirs-high-timing.mid"'


# ---- click and media as one set


def sent(browser: Client, work: Work, *files: tuple[str, io.BytesIO], **typed: Any) -> Any:
    sounds = [SimpleUploadedFile(name, file.read(), "audio/wav") for name, file in files]
    return browser.post(address(work, "set/"), {"set-sounds": sounds, "set-count_in": "1", "set-between": "", **typed})


def test_set_lays_a_medium_at_each_of_its_cues_beside_the_click(browser: Client, work: Work) -> None:
    answer = sent(browser, work, ("drone.wav", wave_file(4_000, sample_rate=8_000)))

    with zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content))) as archive:
        names = archive.namelist()
        sounds = [samples(archive.read(name)) for name in names if name.endswith(".wav")]
    begun = [next(place for place, value in enumerate(values) if value) for _rate, values in sounds]
    # four seconds are counted in; bar 2 comes after 4 seconds, the third beat of bar 4 after 14
    assert names == ["set.txt", "00-click.wav", "01-cue-1-drone.wav", "02-cue-3-drone.wav"]
    assert [(rate, len(values)) for rate, values in sounds] == [(8_000, round(18.5 * 8_000))] * 3
    assert begun == [0, 8 * 8_000, 18 * 8_000]


@pytest.mark.parametrize(
    ("files", "reason"),
    [
        ([], "Choose the WAV files that the cues play."),
        ([("drone.wav", io.BytesIO(b"no sound"))], "“drone.wav” is no WAV file."),
        ([("other.wav", wave_file())], "“other.wav” is named at no cue that has a time."),
        ([("tone.wav", wave_file())], "“tone.wav” is named at no cue that has a time."),
    ],
)
def test_files_that_make_no_set_are_refused_beside_their_field(
    browser: Client, work: Work, files: list[tuple[str, io.BytesIO]], reason: str
) -> None:
    assert Page(sent(browser, work, *files)).wrong == [reason]


@pytest.mark.parametrize("end", ["click/", "click/file/", "midi/"])
@pytest.mark.parametrize("text", ["", "# nothing yet", "1-4 4/4"])
def test_without_a_map_that_can_be_read_the_timing_page_is_shown(
    browser: Client, composer: Composer, end: str, text: str
) -> None:
    work = make_work("Weirs", composer=composer, tempo_map=text)

    assert browser.get(address(work, end)).url == address(work, "")


def test_number_of_queries_does_not_grow_with_the_cues(browser: Client, composer: Composer) -> None:
    found = []
    for number in (1, 12):
        cues = tuple((str(one), "1", "Bell") for one in range(1, number + 1))
        work = make_work(f"Weirs {number}", composer=composer, tempo_map=MAP, cues=cues)
        for end in ("click/", "midi/"):
            with CaptureQueriesContext(connection) as queries:
                browser.get(address(work, end))
            found.append(len(queries))

    assert found[:2] == found[2:]
