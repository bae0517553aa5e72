"""``tempo FILE``: reads a tempo map and says how long it lasts and when its bars and cues come."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser

from catalogue.management.base import ReadingCommand, UnusableInput
from catalogue.timing import (
    ClickError,
    DurationError,
    Marker,
    PlaceError,
    TempoError,
    TempoMap,
    Timeline,
    click_chunks,
    count_in_seconds,
    duration_of,
    map_disagrees,
    midi_file,
    read_duration,
    read_tempo_map,
    seconds_of,
    timeline,
    write_duration,
)

MOST_BYTES = 1_000_000

CLICK_HELP = (
    "write the click as a WAV file. A click is a sharp, loud sound: before anyone puts on headphones, turn the volume "
    "right down, then raise it; never send a click to an in-ear monitor unheard. The level of the file (peaks at -12 "
    "dBFS) says nothing about the level at the ear: keep within local rules on noise at work and ask those "
    "who are responsible for them"
)


class Command(ReadingCommand):
    help = "Read a tempo map: how long it lasts, when its bars and cues come, as a MIDI file, as a click."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", help="the file with the map, or - for standard input")
        parser.add_argument("--json", action="store_true", help="answer as JSON")
        parser.add_argument(
            "--cue",
            action="append",
            default=[],
            metavar="PLACE",
            help="a bar (37), beat (37.3, 37.3.5), time through a repeat (7.1@2), movement (2:7.1) or time (12:30)",
        )
        parser.add_argument("--published", metavar="DURATION", help="warn where the map differs by more than 10 %%")
        parser.add_argument(
            "--gaps", action="store_true", help="count the gaps between movements in all times and files"
        )
        parser.add_argument("--midi", metavar="OUT", help="write a Standard MIDI File with a marker for each cue")
        parser.add_argument("--click", metavar="OUT", help=CLICK_HELP)
        parser.add_argument("--count-in", type=int, default=1, metavar="BARS", help="bars before the click (default 1)")

    def handle(self, *args: Any, **options: Any) -> None:
        tempo_map = map_in(options["file"])
        line = timeline(tempo_map, gaps=options["gaps"])
        cues = [(place, cue_seconds(place, tempo_map, line)) for place in options["cue"]]
        warnings = warnings_about(line, options["published"])
        if options["midi"]:
            write_parts(options["midi"], [midi_file(line, [Marker(seconds, place) for place, seconds in cues])])
        if options["click"]:
            write_click(options["click"], line, options["count_in"])
        if options["json"]:
            self.print_json(as_json(tempo_map, line, cues, warnings))
        else:
            self.stdout.write("\n".join(in_words(tempo_map, line, cues, options)))
            for warning in warnings:
                self.stderr.write(warning)


Cue = tuple[str, Fraction]


def map_in(name: str) -> TempoMap:
    """Read the map in a file, or from standard input for “-”."""
    try:
        raw = bytes_in(name)
        if len(raw) > MOST_BYTES:
            raise UnusableInput(f"{name} is too long for a tempo map.")
        return read_tempo_map(raw.decode("utf-8-sig"))
    except OSError as fault:
        raise UnusableInput(f"{name} cannot be read: {fault.strerror}.") from fault
    except UnicodeDecodeError as fault:
        raise UnusableInput(f"{name} is no text in UTF-8.") from fault
    except TempoError as fault:
        raise UnusableInput(str(fault)) from fault


def bytes_in(name: str) -> bytes:
    if name == "-":
        return sys.stdin.buffer.read(MOST_BYTES + 1)
    with Path(name).open("rb") as file:
        return file.read(MOST_BYTES + 1)


def cue_seconds(place: str, tempo_map: TempoMap, line: Timeline) -> Fraction:
    try:
        return seconds_of(place, tempo_map, line)
    except PlaceError as fault:
        raise UnusableInput(str(fault)) from fault


def warnings_about(line: Timeline, published: str | None) -> list[str]:
    if published is None:
        return []
    try:
        found = map_disagrees(read_duration(published), duration_of(line.seconds))
    except DurationError as fault:
        raise UnusableInput(str(fault)) from fault
    return [found.in_words("the tempo map")] if found else []


def write_click(name: str, line: Timeline, count_in: int) -> None:
    if not 0 <= count_in <= 16:
        raise UnusableInput("A count-in has between 0 and 16 bars.")
    try:
        write_parts(name, click_chunks(line, count_in=count_in))
    except ClickError as fault:
        raise UnusableInput(fault.reason) from fault


def write_parts(name: str, parts: Iterable[bytes]) -> None:
    """Write a file that is whole or not there."""
    unfinished = Path(f"{name}.part")
    try:
        with unfinished.open("wb") as file:
            for part in parts:
                file.write(part)
        unfinished.replace(name)
    except OSError as fault:
        raise UnusableInput(f"{name} cannot be written: {fault.strerror}.") from fault
    finally:
        unfinished.unlink(missing_ok=True)


def as_json(tempo_map: TempoMap, line: Timeline, cues: list[Cue], warnings: list[str]) -> dict[str, Any]:
    """Return what is printed as JSON; all times in seconds, bars in the order in which they sound."""
    lengths = zip(tempo_map.movements, line.movements, strict=True)
    return {
        "seconds": float(line.seconds),
        "movements": [{"name": movement.name, "seconds": float(seconds)} for movement, seconds in lengths],
        "bars": [
            {
                "movement": played.movement,
                "bar": played.bar.number,
                "time": played.time,
                "start": float(played.start),
                "seconds": float(played.bar.seconds),
            }
            for played in line.bars
        ],
        "cues": [{"place": place, "seconds": float(seconds)} for place, seconds in cues],
        "warnings": warnings,
    }


def in_words(tempo_map: TempoMap, line: Timeline, cues: list[Cue], options: dict[str, Any]) -> list[str]:
    """Return what is printed for a reader."""
    lasts = f"{write_duration(duration_of(line.seconds))} ({float(line.seconds):.3f} seconds)"
    lines = [f"{lasts}, {len(line.bars)} bars played"]
    if len(tempo_map.movements) > 1:
        for number, seconds in enumerate(line.movements, start=1):
            name = tempo_map.movements[number - 1].name
            lines.append(f"  {number}. {name}  {write_duration(duration_of(seconds))}".rstrip())
    lines += [f"{place:<10} {clock(seconds)}" for place, seconds in cues]
    lines += [f"{options[kind]} written" for kind in ("midi", "click") if options[kind]]
    if options["click"]:
        lines.append(
            f"count-in: {float(count_in_seconds(line, options['count_in'])):.3f} seconds; turn the volume down first"
        )
    return lines


def clock(seconds: Fraction) -> str:
    """Return 1:02:30.500 for a reader of a stop-watch."""
    thousandths = round(seconds * 1000)
    minutes, rest = divmod(thousandths, 60_000)
    hours, minutes = divmod(minutes, 60)
    figures = f"{rest // 1000:02}.{rest % 1000:03}"
    return f"{hours}:{minutes:02}:{figures}" if hours else f"{minutes}:{figures}"
