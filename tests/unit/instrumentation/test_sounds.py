"""MusicXML sound ids. Source of the ids: MusicXML 4.0, sounds.xml (W3C Music Notation Community Group)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation.sounds import instrument_of_sound, sound_of


@pytest.mark.parametrize(
    ("slug", "sound"),
    [
        ("flute", "wind.flutes.flute"),
        ("e-flat-clarinet", "wind.reed.clarinet.eflat"),
        ("horn", "brass.french-horn"),
        ("timpani", "drum.timpani"),
        ("piano", "keyboard.piano"),
        ("violin", "strings.violin"),
    ],
)
def test_an_id_goes_both_ways(slug: str, sound: str) -> None:
    assert (sound_of(slug), instrument_of_sound(sound)) == (sound, slug)


def test_an_unknown_kind_is_the_instrument_above_it() -> None:
    assert instrument_of_sound("wind.reed.clarinet.bflat") == "clarinet"
    assert instrument_of_sound("nothing.of.the.kind") is None


def test_of_several_instruments_with_one_id_the_plain_one_is_meant() -> None:
    assert instrument_of_sound("voice.soprano") == "voice-soprano"
    assert instrument_of_sound("drum.group.set") == "percussion"
    assert sound_of("voice-treble") == "voice.soprano"
