"""What does not agree in a setup, what has to be there, what a hall has of it, what is different since."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from catalogue.rules.technical.checks import findings
from catalogue.rules.technical.halls import held_against
from catalogue.rules.technical.items import Item, together
from catalogue.rules.technical.layouts import LAYOUTS, speakers_of
from catalogue.rules.technical.media import bit_rate, file_bytes, megabytes_a_minute, most_seconds_in_wav
from catalogue.rules.technical.reading import (
    read_inputs,
    read_media,
    read_needs,
    read_outputs,
    read_places,
    read_software,
    read_speakers,
    read_staff,
)
from catalogue.rules.technical.revisions import Difference, differences
from catalogue.rules.technical.terms import Media, Setup
from catalogue.terms import LayoutName, Synchronisation
from catalogue.timing import PartialDate

TODAY = date(2026, 11, 25)
SOUND = Setup(
    1,
    "As meant",
    inputs=read_inputs("1; Violin; clip condenser; 48 V; composer\n2; Computer; line; composer"),
    outputs=read_outputs("1-2; Main left and right; electronics; presenter"),
    layout=LayoutName.STEREO,
    documented=PartialDate(2026, 3, 1),
)


def told(setup: Setup) -> list[str]:
    return [one.sentence for one in findings(setup, today=TODAY)]


def test_each_finding_is_about_the_list_in_which_it_is_mended() -> None:
    setup = replace(
        SOUND,
        inputs=read_inputs("1; Violin; clip condenser; 48 V\n1; Computer; line; composer"),
        tested=PartialDate(2019, 5, 1),
        stage_width=Decimal(8),
        stage_depth=Decimal(6),
        places=read_places("piano; 9; 2.4\nmixing desk; 0; -12\nrack; 1; 7"),
    )

    assert [(one.about, one.sentence) for one in findings(setup, today=TODAY)] == [
        ("inputs", "Input 1 is used twice."),
        ("places", "“piano” is 9 m from the middle of a stage that is 8 m wide."),
        ("places", "“rack” is 7 m from the front edge of a stage that is 6 m deep."),
        ("inputs", "Nobody is said to provide: input 1, Violin."),
        ("tested", "This setup was last tested more than 24 months ago; try it once more before it is sent."),
    ]


def test_a_setup_that_agrees_has_no_findings() -> None:
    assert told(SOUND) == []


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"inputs": read_inputs("1-2; A; DI; hall\n2; B; DI; hall")}, "Input 2 is used twice."),
        (
            {"inputs": read_inputs("3; Computer; line; 48 V; composer")},
            "Input 3, Computer: phantom power on a line source can damage it.",
        ),
        (
            {"inputs": read_inputs("3; Horn; ribbon; 48 V; composer")},
            "Input 3, Horn: phantom power can damage a ribbon microphone.",
        ),
        (
            {"inputs": read_inputs("3; Harp; small condenser; composer")},
            "Input 3, Harp: a condenser microphone wants phantom power; say 48 V.",
        ),
        ({"layout": LayoutName.QUAD}, "The layout has 4 loudspeakers, the output list 2."),
        ({"layout": LayoutName.FIVE_ONE}, "The layout has 1 low channels, the output list 0."),
        ({"layout": LayoutName.NONE}, "Outputs lead to loudspeakers, but nothing says how those stand."),
        ({"layout": LayoutName.OWN}, "The layout is an own one; write out its loudspeakers."),
        (
            {"synchronisation": Synchronisation.CLICK},
            "The players follow a click, but no output carries one.",
        ),
        (
            {"outputs": read_outputs("1-2; Main left and right; music and click; hall")},
            "Output 1–2, Main left and right: a click goes to the players alone, never to the audience.",
        ),
        (
            {"media": read_media("a.wav; stereo; 44.1 kHz"), "sample_rate": 48_000},
            "“a.wav” has 44.1 kHz, the setup 48 kHz.",
        ),
        (
            {"media": read_media("a.wav; 44.1 kHz\nb.wav; 48 kHz")},
            "The media files have 2 sample rates; say which one is played.",
        ),
        ({"media": read_media("a.wav; 8 channels")}, "“a.wav” has 8 channels, the layout 2."),
        (
            {"software": read_software("Player; composer")},
            "“Player” has no version; another one may not open the work.",
        ),
        (
            {"places": read_places("viola; 1; 1; 9")},
            "“viola” on the stage plan has channel 9, which is not in the input list.",
        ),
        ({"staff": read_staff("engineer; whole day")}, "Nobody is said to provide: engineer."),
        ({"documented": None}, "Nothing says when this setup was documented."),
        (
            {"documented": PartialDate(2024, 10, 1)},
            "This setup was last documented more than 24 months ago; try it once more before it is sent.",
        ),
    ],
)
def test_what_does_not_agree_is_told(changed: dict, sentence: str) -> None:
    assert sentence in told(replace(SOUND, **changed))


def test_a_file_that_outgrows_a_wav_is_told_with_the_time_at_which_it_ends() -> None:
    long = Setup(1, "x", media=(Media("ring.wav", 8, 48_000, 24, 3729),), documented=PartialDate(2026))
    assert told(long) == [
        "“ring.wav” would have 4295.8 MB: a WAV file ends at 4 GiB, here after 62:08; "
        "write RF64 or BW64, or several files."
    ]


def test_an_age_can_be_chosen() -> None:
    assert [one.about for one in findings(replace(SOUND, good_for=6), today=TODAY)] == ["documented"]


@pytest.mark.parametrize(
    ("channels", "bits", "rate", "a_minute", "seconds"),
    # stereo 24/48, 8 × 24/48, 8 × 24/96: reckoned from bits a second = channels × bits × rate, MB = 10⁶ bytes
    [(2, 24, 48_000, 17.28, 14_913), (8, 24, 48_000, 69.12, 3_728), (8, 24, 96_000, 138.24, 1_864)],
)
def test_rates_sizes_and_the_limit_of_wav(channels: int, bits: int, rate: int, a_minute: float, seconds: int) -> None:
    assert float(megabytes_a_minute(channels, bits, rate)) == a_minute
    assert most_seconds_in_wav(channels, bits, rate) == seconds


def test_a_file_whose_figures_are_not_known_has_no_size() -> None:
    assert file_bytes(Media("a.wav", 2, 48_000)) is None
    assert file_bytes(Media("a.wav", 2, 48_000, 24, 60)) == bit_rate(2, 24, 48_000) * 60 // 8


@pytest.mark.parametrize(
    ("layout", "angles"),
    # ITU-R BS.775-3 for stereo and 5.1, common practice for the rings
    [
        (LayoutName.STEREO, [-30, 30]),
        (LayoutName.QUAD, [-45, 45, -135, 135]),
        (LayoutName.FIVE_ONE, [-30, 30, 0, 0, -110, 110]),
        (LayoutName.OCTO_PAIR, [-22.5, 22.5, -67.5, 67.5, -112.5, 112.5, -157.5, 157.5]),
        (LayoutName.OCTO_CENTRE, [0, 45, 90, 135, 180, -135, -90, -45]),
    ],
)
def test_layouts_are_named_channels_with_angles(layout: LayoutName, angles: list[float]) -> None:
    assert [float(one.azimuth) for one in LAYOUTS[layout]] == angles


def test_an_own_layout_is_the_one_that_is_written_out() -> None:
    own = read_speakers("door; 100; 10")
    assert speakers_of(Setup(1, "x", layout=LayoutName.OWN, own_speakers=own)) == own


def test_the_key_of_an_item_changes_with_what_it_says() -> None:
    item = Item("Sound", "loudspeakers", 8)
    assert item.key == Item("Sound", "loudspeakers", 8).key
    assert item.key != replace(item, number=6).key


def test_a_hall_is_held_against_what_is_asked_of_it() -> None:
    items = (
        Item("Sound", "loudspeakers", 8, provider="presenter"),
        Item("Sound", "mixing desk", provider="hall"),
        Item("Light", "music stand lights", 12, provider="presenter"),
        Item("Sound", "audio interface", provider="composer"),
    )
    stock = read_needs("6 full-range loudspeakers\ndesk; 32 channels\n40 music stands")
    assert [(one.item.name, one.there, one.lacking) for one in held_against(items, stock)] == [
        ("loudspeakers", 6, 2),
        ("mixing desk", 1, 0),
        ("music stand lights", 0, 12),
    ]


def test_differences_are_told_head_by_head() -> None:
    before = {"Inputs": ["1 violin"], "Schedule": ["14:00 rehearsal"]}
    now = {"Inputs": ["1 violin", "2 cello"], "Schedule": []}
    assert differences(before, now) == (
        Difference("Inputs", ("2 cello",), ()),
        Difference("Schedule", (), ("14:00 rehearsal",)),
    )


def test_items_stand_head_by_head_and_once() -> None:
    first, second, third = Item("A", "one"), Item("B", "two"), Item("A", "three")
    assert together((first, second, third, first)) == (first, third, second)
