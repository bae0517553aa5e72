"""``fit WORK AVAILABLE``: can these players play this work, and what is missing."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Iterator
from typing import Any

from catalogue.instrumentation import Instrumentation, InstrumentationError, read, write_shorthand
from catalogue.instrumentation.fit import Fit, fit
from catalogue.management.base import ReadingCommand, UnusableInput

ANSWERS = {True: "Yes.", False: "No.", None: "It cannot be told."}


class Command(ReadingCommand):
    """Both texts are instrumentations in any usual dress."""

    help = "Say whether these players can play a work, chair by chair, and what is missing."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("work", help="the instrumentation of the work")
        parser.add_argument("available", help="the players there are")
        parser.add_argument("--usual-doublings", action="store_true", help="every player takes the usual auxiliaries")
        parser.add_argument(
            "--timpani-among-percussion", action="store_true", help="a percussionist may play the timpani"
        )
        parser.add_argument(
            "--as-limits", action="store_true", help="the players are a call's limits: ranges are yours to choose from"
        )
        parser.add_argument(
            "--strings-required", action="store_true", help="the strengths of the strings are needed, not wished"
        )
        parser.add_argument("--json", action="store_true", help="answer as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        work, available = reading("work", options["work"]), reading("available forces", options["available"])
        found = fit(
            work,
            available,
            usual_doublings=options["usual_doublings"],
            timpani_among_percussion=options["timpani_among_percussion"],
            as_limits=options["as_limits"],
            strings_required=options["strings_required"],
        )
        if options["json"]:
            chosen = line_up(work, found)
            self.print_json(found.to_json() | ({"line_up": chosen} if chosen else {}))
        else:
            self.stdout.write("\n".join(told(found, line_up(work, found))))


def reading(which: str, text: str) -> Instrumentation:
    """Return the forces that a text names; says which of the two texts cannot be read, why and where."""
    try:
        return read(text)
    except InstrumentationError as fault:
        place = f" (characters {fault.start + 1} to {fault.end})" if fault.end > fault.start else ""
        raise UnusableInput(f"The {which} cannot be read: {fault.reason}{place}") from fault


def line_up(work: Instrumentation, found: Fit) -> str:
    """Return the line-up that the answer is about, nothing where the work has only one."""
    return write_shorthand(work.line_ups[found.line_up]) if work.alternatives else ""


def told(found: Fit, which: str) -> Iterator[str]:
    """Give the answer for a reader: for which line-up, what is missing, what is open, then remarks."""
    yield f"{ANSWERS[found.fits]} ({which})" if which else ANSWERS[found.fits]
    yield from (f"  {one.why}" for one in found.missing)
    yield from (f"  {one}" for one in found.open)
    yield from (f"  {one}" for one in found.remarks)
