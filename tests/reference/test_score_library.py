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
