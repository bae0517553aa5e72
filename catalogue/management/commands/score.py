"""``score FILE``: says what a MusicXML score says of its title, people, parts, bars and time."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser

from catalogue.exchange.scores import Findings, ScoreError, read_in_steps
from catalogue.exchange.scores.opening import LARGEST, score_xml
from catalogue.exchange.scores.parsing import PORTION, result_of
from catalogue.management.base import ReadingCommand, UnusableInput
from catalogue.management.progress import Progress
from catalogue.timing import Duration, write_duration


class Command(ReadingCommand):
    help = "Read a score file (.musicxml, .xml, .mxl): title, people, parts, instrumentation, bars, duration."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", help="the score, or - for standard input")
        parser.add_argument("--json", action="store_true", help="answer as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            found = self.read(score_xml(content_of(options["file"])))
        except ScoreError as fault:
            raise UnusableInput(f"{options['file']}: {fault.reason}") from fault
        if options["json"]:
            self.print_json(found.to_json())
            return
        self.stdout.write("\n".join(in_words(found)))
        for warning in found.warnings:
            self.stderr.write(warning)

    def read(self, xml: bytes) -> Findings:
        """Read a score; one that takes long shows how far it has come."""
        with Progress(self.stderr, "Reading the score, MB", total=-(-len(xml) // PORTION)) as progress:
            return result_of(read_in_steps(xml), lambda _done: progress.step())


def content_of(name: str) -> bytes:
    """Read the file, one byte more than is taken at most."""
    try:
        if name == "-":
            return sys.stdin.buffer.read(LARGEST + 1)
        with Path(name).open("rb") as file:
            return file.read(LARGEST + 1)
    except OSError as fault:
        raise UnusableInput(f"{name} cannot be read: {fault.strerror}.") from fault


def in_words(found: Findings) -> list[str]:
    """Return what is printed for a reader."""
    lines = [found.title or "(no title)"]
    lines += [f"{one.name} ({one.kind})" if one.kind else one.name for one in found.creators]
    lines += [f"movement: {one}" for one in found.movements]
    if found.instrumentation:
        lines.append(found.instrumentation)
    repeats = f", {found.played} played with repeats" if found.played != found.bars else ""
    lines.append(f"{found.bars} {'bar' if found.bars == 1 else 'bars'}{repeats}")
    if found.seconds is not None and found.seconds_unrepeated is not None:
        once = f", {lasting(found.seconds_unrepeated)} without repeats" if found.played != found.bars else ""
        lines.append(f"about {lasting(found.seconds)} by its tempo marks{once}: an estimate to confirm")
    return lines


def lasting(seconds: float) -> str:
    return write_duration(Duration(round(seconds)))
