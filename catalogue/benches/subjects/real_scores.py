"""Reading the score files of a general-purpose music library, beside the parser's own walk and beside that library.

The files are those that the registry package ``music21`` ships; they are read where it is installed (the full lane),
and measured nowhere else. Of so many files every so-manieth is taken, so that a few are as various as all.
"""

from __future__ import annotations

import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

from catalogue.benches.measuring import Bench, Heading, Pair, Unmeasurable
from catalogue.benches.subjects.scores import walked
from catalogue.exchange.scores import read_score
from catalogue.exchange.scores.opening import score_xml

LIBRARY = "music21"
SHIPPED = 808


def shipped(number: int) -> list[Path]:
    """Return so many of the library's files, from one end of them to the other."""
    found = find_spec(LIBRARY)
    if found is None or found.origin is None:
        raise Unmeasurable("The music library whose files are read is not installed.")
    folder = Path(found.origin).parent
    files = sorted(path for ending in ("mxl", "xml", "musicxml") for path in folder.rglob(f"*.{ending}"))
    return [files[place * len(files) // number] for place in range(number)]


def read_all(contents: list[bytes]) -> int:
    return sum(read_score(content).bars for content in contents)


def walk_all(contents: list[bytes]) -> int:
    return sum(walked(score_xml(content)) for content in contents)


def parse_all(paths: list[Path]) -> int:
    """Have the library parse files, and nothing that it has kept of them before."""
    converter = import_module(f"{LIBRARY}.converter")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return sum(len(converter.parse(path, forceSource=True).parts) for path in paths)


@contextmanager
def beside_parser(number: int) -> Iterator[Pair]:
    contents = [path.read_bytes() for path in shipped(number)]
    yield Pair(ours=partial(read_all, contents), bare=partial(walk_all, contents))


@contextmanager
def beside_library(number: int) -> Iterator[Pair]:
    paths = shipped(number)
    import_module(f"{LIBRARY}.converter")
    parse: Callable[[], int] = partial(parse_all, paths)
    yield Pair(ours=lambda: read_all([path.read_bytes() for path in paths]), bare=parse)


HEADING = Heading.RECKONING
BENCHES = (
    Bench(
        "read a score, files of a music library",
        "the parser gives each bar of each part of the same files once and lets it go unread",
        (10, 100, SHIPPED),
        beside_parser,
        aim=1.5,
    ),
    Bench(
        "read a score beside a music library, files",
        "the general-purpose music library parses the same files",
        (5, 20),
        beside_library,
        aim=0.1,
    ),
)
