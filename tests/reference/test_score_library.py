"""Score files of a general-purpose music library: all are read, and parts, bars and lengths agree with that library.

The files are those that the registry package ``music21`` ships (BSD licence; 808 files readable as MusicXML); they are
read where the package is installed (the full lane) and not copied. The library makes each staff of a keyboard part a
part of its own, so a part that it splits is one here.
"""

from __future__ import annotations

import importlib
import importlib.util
import statistics
import warnings
from pathlib import Path
from typing import Any

import pytest

from catalogue.exchange.scores import read_score
from catalogue.exchange.scores.opening import score_xml
from catalogue.exchange.scores.parsing import parsed
from catalogue.timing import read_tempo_map, timeline

LIBRARY = importlib.util.find_spec("music21")
pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(LIBRARY is None, reason="the music library is installed in the full lane only"),
]
FOLDER = Path(LIBRARY.origin).parent if LIBRARY and LIBRARY.origin else Path()
FILES = sorted(path for ending in ("mxl", "xml", "musicxml") for path in FOLDER.rglob(f"*.{ending}"))

# Where parts or lengths (by more than half a per cent) differ, and why: what the file says is what is told here.
EXPLAINED = {
    "corpus/mozart/k458/movement4.mxl": "tuplets come out longer there than the durations in the file",
    "musicxml/lilypondTestSuite/21f-Chord-ElementInBetween.xml": "a direction within a chord splits it there",
    "musicxml/lilypondTestSuite/41g-PartNoId.xml": "a part without an id is left out there",
    "musicxml/lilypondTestSuite/41h-TooManyParts.xml": "parts that the list does not name are left out there",
    "omr/k525OMRMvt1.xml": "recognised from paper: parts differ within a bar, which lasts as long as the longest",
    "omr/k525OMRshort.xml": "recognised from paper: parts differ within a bar, which lasts as long as the longest",
}
COMPARED = [path for path in FILES if path.relative_to(FOLDER).as_posix() not in EXPLAINED]


def test_every_file_is_read() -> None:
    found = {path: read_score(path.read_bytes()) for path in FILES}
    assert len(found) == 808
    assert all(one.bars > 0 for one in found.values())


def measured(path: Path) -> tuple[int, int, set[float]]:
    """Return parts, bars, and the quarter notes of the whole as the library reads them.

    Parts differ there where a rest for a whole bar stands in a bar of another length: the length of each part is given,
    and that of all bars as most parts have them.
    """
    converter = importlib.import_module("music21.converter")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        read = converter.parse(path, forceSource=True)
    keyboards = {str(one.id).rsplit("-Staff", 1)[0] for one in read.parts if "PartStaff" in one.classes}
    parts = [one for one in read.parts if "PartStaff" not in one.classes]
    bars = [[length_of(bar) for bar in one.getElementsByClass("Measure")] for one in read.parts]
    usual = sum(max(statistics.multimode(together)) for together in zip(*bars, strict=False))
    return len(parts) + len(keyboards), max(map(len, bars)), {usual, *map(sum, bars)}


def length_of(bar: Any) -> float:
    return float(bar.highestTime or bar.barDuration.quarterLength)


@pytest.mark.parametrize("path", COMPARED, ids=lambda path: path.stem)
def test_parts_and_bars_and_lengths_agree_with_the_library(path: Path) -> None:
    score = parsed(score_xml(path.read_bytes()))
    parts, bars, lengths = measured(path)
    assert (len(score.parts), len(score.bars)) == (parts, bars)
    ours = float(sum(bar.quarters for bar in score.bars))
    assert any(ours == pytest.approx(one, rel=0.005) for one in lengths)


# How many bars sound, counted by hand from the signs on the page: each passage with how often it is played.
HAND_COUNTED = {
    # The strains A A B B A C C D D of sixteen bars each, as the rag's form is usually told, and an upbeat.
    "corpus/joplin/maple_leaf_rag.mxl": 1 + 9 * 16,
    "corpus/bach/bwv113.8.mxl": 2 * 5 + 9,
    "corpus/haydn/opus1no1/movement2.mxl": 2 * 10 + 2 * 24 + 2 * 28,
    "corpus/haydn/opus1no1/movement5.mxl": 2 * 27 + 2 * 41,
    # Endings of several bars under brackets over the first of them, and da capo without repeats.
    "corpus/beethoven/opus59no2/movement3.mxl": 9 + 6 + 46 + 40 + 87 + (7 + 42 + 87),
    # Dal segno al fine: all, then from the sign to the end of the first part.
    "corpus/handel/rinaldo/Lascia_chio_pianga.mxl": 54 + 30,
    # Da capo al fine, without repeats.
    "corpus/schumann_clara/polonaise_op1n1.mxl": 2 * 8 + 2 * 20 + 12 + 20,
    "corpus/schumann_clara/polonaise_op1n2.mxl": 2 * 8 + 2 * 8 + 2 * 8 + 2 * 8 + 16,
    "corpus/schumann_clara/polonaise_op1n3.mxl": 2 * 8 + 16 + 16 + 2 * 8 + 24,
    "corpus/schumann_clara/polonaise_op1n4.mxl": 2 * 8 + 2 * 8 + 2 * 16 + 2 * 8 + 16,
}


@pytest.mark.parametrize("name", HAND_COUNTED)
def test_repeats_and_jumps_are_played_as_they_were_counted_by_hand(name: str) -> None:
    assert read_score((FOLDER / name).read_bytes()).played == HAND_COUNTED[name]


def test_a_proposed_tempo_map_can_be_read_and_lasts_as_long_as_the_score() -> None:
    """Where a repeat takes the upbeat again, or bars are jumped to, the map says that it does not hold it."""
    found = {path: read_score(path.read_bytes()) for path in FILES}
    mapped = {path: one for path, one in found.items() if one.tempo_map and "#" not in one.tempo_map}
    assert len(mapped) > 100
    for path, one in mapped.items():
        seconds = float(timeline(read_tempo_map(one.tempo_map)).seconds)
        assert seconds == pytest.approx(one.seconds, rel=0.001), path
    assert all(read_tempo_map(one.tempo_map) for one in found.values() if "#" in one.tempo_map)
