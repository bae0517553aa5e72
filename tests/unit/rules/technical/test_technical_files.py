from __future__ import annotations

from catalogue.rules.technical.files import (
    PageSize,
    PdfFacts,
    SaidOfRecording,
    SoundFacts,
    against_recording,
    against_setup,
    doubts_about_pdf,
    doubts_about_sound,
)
from catalogue.rules.technical.terms import Media, Setup
from catalogue.terms import LayoutName

TAPE = SoundFacts(178_400, channels=8, rate=48_000, bits=24)
DIGEST = "a" * 64


def setup(*media: Media, **columns: object) -> Setup:
    return Setup(1, "As meant", media=media, **columns)  # type: ignore[arg-type]


def against(sound: SoundFacts, meant: Setup, name: str = "tape.wav") -> list[str]:
    return list(against_setup(sound, name=name, sha256=DIGEST, setup=meant))


def test_file_that_is_as_the_setup_says_gives_no_word() -> None:
    line = Media("Media/TAPE.wav", channels=8, rate=48_000, bits=24, seconds=178, sha256=DIGEST)

    assert against(TAPE, setup(line)) == []
    assert against(TAPE, setup(sample_rate=48_000, bit_depth=24, layout=LayoutName.OCTO_PAIR)) == []
    assert against(SoundFacts(), setup(line)) == []


def test_file_is_held_against_the_line_that_names_it() -> None:
    line = Media("tape.wav", channels=4, rate=44_100, bits=16, seconds=190, sha256="b" * 64)

    assert against(TAPE, setup(line)) == [
        "The file has 48 kHz, the list of media files 44.1 kHz.",
        "The file has 24 bits, the list of media files 16.",
        "The file has 8 channels, the list of media files 4.",
        "The file lasts 2:58, the list of media files says 3:10.",
        "The list of media files has another SHA-256: this is not the file that it means.",
    ]


def test_file_is_found_by_its_content_where_it_is_called_otherwise() -> None:
    assert against(TAPE, setup(Media("electronics.wav", sha256=DIGEST))) == []


def test_file_that_no_line_names_is_held_against_the_setup() -> None:
    meant = setup(Media("other.wav"), sample_rate=44_100, bit_depth=16, layout=LayoutName.QUAD)

    assert against(TAPE, meant) == [
        "The file has 48 kHz, the setup 44.1 kHz.",
        "The file has 24 bits, the setup 16.",
        "The file has 8 channels, the layout 4.",
        "No line of the setup’s media files names this file.",
    ]


def test_recording_is_held_against_its_record() -> None:
    assert list(against_recording(TAPE, SaidOfRecording(180, excerpt_until=150))) == []
    assert list(against_recording(TAPE, SaidOfRecording(185, is_approximate=True))) == []
    assert list(against_recording(TAPE, SaidOfRecording(185, excerpt_until=240))) == [
        "The file lasts 2:58, the record of the recording says 3:05.",
        "The excerpt ends at 4:00, the file at 2:58.",
    ]
    assert list(against_recording(SoundFacts(), SaidOfRecording(185))) == []


def test_sound_that_is_cut_or_cannot_be_read_is_doubted() -> None:
    assert len(list(doubts_about_sound(SoundFacts(9, 1, is_cut=True)))) == 1
    assert len(list(doubts_about_sound(SoundFacts()))) == 1
    assert list(doubts_about_sound(TAPE)) == []


def test_score_is_doubted_for_what_a_printer_would_ask() -> None:
    sizes = (PageSize(210, 297, 46), PageSize(297, 420, 2))
    pdf = PdfFacts(48, sizes, fonts=2, loose_fonts=("Helvetica",), blank=(2, 48), turned=(3,), seen=48)

    assert list(doubts_about_pdf(pdf, 46)) == [
        "These fonts are not in the file, so that other printers take others: Helvetica.",
        "Pages 2 and 48 are blank; say so to whoever prints it, or leave blanks out.",
        "The pages are of 2 sizes: 210 × 297 mm (46) and 297 × 420 mm (2).",
        "The file has 48 pages, the edition 46.",
    ]
    assert list(doubts_about_pdf(PdfFacts(48, sizes[:1], fonts=2, seen=48), 48)) == []
    assert len(list(doubts_about_pdf(PdfFacts(is_locked=True)))) == 1
