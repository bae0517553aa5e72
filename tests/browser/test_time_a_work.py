"""An errand with electronics: tempo map and cues typed, a mistake mended, click and markers taken along."""

from __future__ import annotations

import re
import wave
from pathlib import Path

import mido
import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Open
from tests.browser.errands import add_work, begin_catalogue, save

pytestmark = pytest.mark.slow

FAULTY = "1-16 4/4 q=120\n18-20 3/4 q=60"
MENDED = "1-16 4/4 q=120\n17-20 3/4 q=60"


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_tempo_map_and_cues_give_click_markers_and_sheet(
    open_browser: Open, founder_address: str, tmp_path: Path, scripts: bool
) -> None:
    page = open_browser(scripts=scripts)
    begin_catalogue(page, founder_address)
    add_work(page, Title="Slow Ferry", Instrumentation="vn, live electronics")
    page.get_by_role("link", name="Timing and cues").first.click()
    page.get_by_role("link", name="Change tempo map and cues").click()

    page.get_by_label("Tempo map", exact=True).fill(FAULTY)
    type_cue(page)
    if scripts:
        expect(page.locator("#tempo-reading")).to_contain_text("17")
    save(page)
    expect(page.get_by_role("alert").first).to_contain_text("17")
    page.get_by_label("Tempo map", exact=True).fill(MENDED)
    save(page)

    expect(page.locator("main")).to_contain_text("44″")
    with page.expect_download() as midi:
        page.get_by_role("link", name=re.compile("Download.*Standard MIDI File")).click()
    midi.value.save_as(tmp_path / "map.mid")
    page.get_by_role("link", name=re.compile("Choose.*Click")).click()
    expect(page.locator("main")).to_contain_text("headphones")
    with page.expect_download() as click:
        page.get_by_role("button", name="Download the click").click()
    click.value.save_as(tmp_path / "click.wav")

    markers = [event.text for event in mido.MidiFile(tmp_path / "map.mid").tracks[0] if event.type == "marker"]
    assert len(markers) == 1
    assert "freeze" in markers[0]
    assert mido.MidiFile(tmp_path / "map.mid").length == pytest.approx(44, abs=0.01)
    with wave.open(str(tmp_path / "click.wav")) as sound:
        assert sound.getnframes() / sound.getframerate() == pytest.approx(46, abs=0.001)  # with one bar counted in


def type_cue(page: Page) -> None:
    row = page.locator(".cue").first
    row.get_by_label("Bar and beat, or time").fill("17")
    row.get_by_label("What happens").fill("freeze the last sound")
    row.get_by_label("Who").fill("operator")
