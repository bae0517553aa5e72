"""``fit WORK AVAILABLE``: can these players play this work, and what is missing."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from catalogue.instrumentation import Instrumentation, InstrumentationError, read
from catalogue.instrumentation.fit import Fit, fit

ANSWERS = {True: "Yes.", False: "No.", None: "It cannot be told."}


class Command(BaseCommand):
    """Both texts are instrumentations in any usual dress."""

    help = "Say whether these players can play a work, chair by chair, and what is missing."
    requires_system_checks = ()

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
        try:
            work, available = reading("work", options["work"]), reading("available forces", options["available"])
        except UnreadableForces as fault:
            if options["json"]:
                self.stdout.write(json.dumps({"error": fault.to_json()}, ensure_ascii=False))
            self.stderr.write(str(fault))
            sys.exit(2)
        found = fit(
            work,
            available,
            usual_doublings=options["usual_doublings"],
            timpani_among_percussion=options["timpani_among_percussion"],
            as_limits=options["as_limits"],
            strings_required=options["strings_required"],
        )
        if options["json"]:
            self.stdout.write(json.dumps(found.to_json(), ensure_ascii=False, indent=2))
        else:
            self.stdout.write("\n".join(told(found)))


class UnreadableForces(CommandError):
    """One of the two texts cannot be read; the message says which, why and where."""

    def __init__(self, which: str, fault: InstrumentationError) -> None:
        super().__init__(f"The {which} cannot be read: {fault.reason}", returncode=2)
        self.which = which
        self.fault = fault

    def to_json(self) -> dict[str, object]:
        return {
            "which": self.which,
            "text": self.fault.text,
            "start": self.fault.start,
            "end": self.fault.end,
            "message": self.fault.reason,
            "expected": list(self.fault.expected),
        }


def reading(which: str, text: str) -> Instrumentation:
    try:
        return read(text)
    except InstrumentationError as fault:
        raise UnreadableForces(which, fault) from fault


def told(found: Fit) -> Iterator[str]:
    """Give the answer for a reader: what is missing, what is open, then remarks."""
    yield ANSWERS[found.fits]
    yield from (f"  {one.why}" for one in found.missing)
    yield from (f"  {one}" for one in found.open)
    yield from (f"  {one}" for one in found.remarks)
