"""Score files of a general-purpose music library: all are read, and parts, bars and lengths agree with that library.

The files are those that the registry package ``music21`` ships (BSD licence; 808 files readable as MusicXML); they are read
where the package is installed (the full lane) and not copied. The library counts each staff of a keyboard part as a part of its own,
so a part that it splits is one here.
"""

from __future__ import annotations

import importlib.util
import warnings
from pathlib import Path

import pytest

from catalogue.exchange.scores import read_score
from catalogue.exchange.scores.model import Score
from catalogue.exchange.scores.opening import score_xml
from catalogue.exchange.scores.parsing import parsed

LIBRARY = importlib.util.find_spec("music21")
pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(LIBRARY is None, reason="the music library is installed in the full lane only"),
]
FOLDER = Path(LIBRARY.origin).parent if LIBRARY and LIBRARY.origin else Path()
FILES = sorted(path for ending in ("mxl", "xml", "musicxml") for path in FOLDER.rglob(f"*.{ending}"))

# Where lengths differ, and why: the file's own durations are what is summed here.
LONGER_THERE = {
}


def test_every_file_is_read():
    found = {path: read_score(path.read_bytes()) for path in FILES}
    assert len(found) == 808
    assert all(one.bars > 0 for one in found.values())


def measured(path: Path) -> tuple[int, int, float]:
    """Return parts, bars and quarter notes of the first part as the library reads them."""
    converter = importlib.import_module("music21.converter")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        read = converter.parse(path, forceSource=True)
    staves = read.recurse().getElementsByClass("PartStaff")
    keyboards = {str(one.id).rsplit("-Staff", 1)[0] for one in staves}
    parts = [one for one in read.parts if "PartStaff" not in one.classes]
    first = read.parts[0]
    bars = max(len(one.getElementsByClass("Measure")) for one in read.parts)
    return len(parts) + len(keyboards), bars, float(first.highestTime)


def ours(score: Score) -> tuple[int, int, float]:
    return len(score.parts), len(score.bars), float(sum(bar.quarters for bar in score.bars))
