"""What a score file says, put together for a page or a command: facts, an estimate of the duration, and doubts."""

from __future__ import annotations

from collections.abc import Generator, Iterator
from dataclasses import dataclass

from catalogue.exchange.scores.forces import Forces, forces_of
from catalogue.exchange.scores.lasting import first_tempo, seconds_of_bars
from catalogue.exchange.scores.model import Creator, Score
from catalogue.exchange.scores.opening import score_xml
from catalogue.exchange.scores.parsing import parsed_in_steps, result_of
from catalogue.exchange.scores.playing import MOST_PLAYED, movement_starts, playing_order
from catalogue.exchange.scores.tempo_text import tempo_map_of
from catalogue.rules.phrases import listed
from catalogue.timing.tempo_reading import HIGHEST_BAR


@dataclass(frozen=True, slots=True)
class FoundPart:
    """A part as the file names it, with the slug of its instrument, ``None`` where it is not known."""

    name: str
    instrument: str | None


@dataclass(frozen=True, slots=True)
class Findings:
    """All that a score file says.

    ``bars`` counts the bars on paper, ``played`` those that sound. Seconds are estimates from the tempo marks, ``None``
    without one. ``instrumentation`` is canonical shorthand; ``tempo_map`` is text of the tempo-map language.
    """

    title: str
    creators: tuple[Creator, ...]
    movements: tuple[str, ...]
    parts: tuple[FoundPart, ...]
    instrumentation: str
    bars: int
    played: int
    seconds: float | None
    seconds_unrepeated: float | None
    has_tempo_marks: bool
    tempo_map: str
    warnings: tuple[str, ...]

    def to_json(self) -> dict[str, object]:
        """Return the shape that the ``score`` command prints."""
        return {
            "title": self.title,
            "creators": [{"name": one.name, "type": one.kind} for one in self.creators],
            "movements": list(self.movements),
            "parts": [{"name": one.name, "instrument": one.instrument} for one in self.parts],
            "instrumentation": self.instrumentation,
            "bars": self.bars,
            "bars_played": self.played,
            "seconds": self.seconds,
            "seconds_unrepeated": self.seconds_unrepeated,
            "has_tempo_marks": self.has_tempo_marks,
            "tempo_map": self.tempo_map,
            "warnings": list(self.warnings),
        }


def read_score(content: bytes) -> Findings:
    """Read a MusicXML file (``.musicxml``, ``.xml``, ``.mxl``). Raises ScoreError.

    >>> read_score(b"<score-partwise><part id='P1'><measure number='1'/></part></score-partwise>").bars
    1
    """
    return read_xml(score_xml(content))


def read_xml(xml: bytes) -> Findings:
    """Read the XML of a score, taken out of its container. Raises ScoreError."""
    return result_of(read_in_steps(xml))


def read_in_steps(xml: bytes) -> Generator[int, None, Findings]:
    """Read the XML of a score, giving how many bytes have been read; return what it says. Raises ScoreError."""
    score = yield from parsed_in_steps(xml)
    order = playing_order(score.bars)
    seconds = seconds_of_bars(score.bars)
    forces = forces_of(score.parts)
    return Findings(
        title=score.title or score.movement,
        creators=tuple(dict.fromkeys(score.creators)),
        movements=(movement,) if (movement := movement_of(score)) else (),
        parts=tuple(FoundPart(one.name, one.instrument) for one in forces.parts),
        instrumentation=forces.text,
        bars=len(score.bars),
        played=len(order),
        seconds=None if seconds is None else round(float(sum(seconds[index] for index in order)), 3),
        seconds_unrepeated=None if seconds is None else round(float(sum(seconds)), 3),
        has_tempo_marks=seconds is not None,
        tempo_map=tempo_map_of(score.bars) if len(score.bars) <= HIGHEST_BAR else "",
        warnings=tuple(warnings_of(score, forces, order)),
    )


def movement_of(score: Score) -> str:
    """Return the title of the movement that a file is of, "" where it is of a whole work."""
    return score.movement if score.title and score.movement != score.title else ""


def warnings_of(score: Score, forces: Forces, order: list[int]) -> Iterator[str]:
    if movement := movement_of(score):
        yield f"The file is of one movement, “{movement}”: its bars and its duration are that movement’s."
    yield from forces.warnings
    yield from tempo_warnings(score)
    movements = len(movement_starts(score.bars))
    if movements > 1:
        yield f"Its bars are numbered afresh: the file is read as {movements} movements."
    if score.fermatas:
        noun = "fermata" if score.fermatas == 1 else "fermatas"
        yield f"{score.fermatas} {noun} in the first part; the time they add is not in the file."
    if len(score.bars) > HIGHEST_BAR:
        yield f"A tempo map may have {HIGHEST_BAR:,} bars; none is proposed for this score."
    if len(order) >= MOST_PLAYED:
        yield f"The repeats do not come to an end; {MOST_PLAYED:,} bars were counted."


def tempo_warnings(score: Score) -> Iterator[str]:
    words = listed([f"“{one}”" for one in score.tempo_words[:5]])
    if first_tempo(score.bars) is None:
        said = f" It says {words}, which is no figure." if words else ""
        yield f"The file has no tempo mark with a figure, so it gives no duration.{said}"
        return
    before = next(index for index, bar in enumerate(score.bars) if any(mark.tempo for mark in bar.tempi))
    if before:
        bar = score.bars[before].number
        yield f"The first tempo mark stands in bar {bar}; the bars before it are taken at its tempo."
    if words:
        yield f"Tempo words without a figure, taken at the tempo before them: {words}."
    if score.gradual_words:
        gradual = listed([f"“{one}”" for one in score.gradual_words[:5]])
        yield f"Gradual changes of tempo are not reckoned: {gradual}."
