"""``duration TEXT``: reads a duration and says what it reads as."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser

from catalogue.management.base import ReadingCommand, UnusableInput
from catalogue.timing import Duration, DurationError, read_duration, write_duration


class Command(ReadingCommand):
    help = "Read a duration such as 12′30″, 12:30, 1h 5m, ca. 12½ min or PT12M30S."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("text", help="the duration, as written")
        parser.add_argument("--bare", choices=("minutes", "seconds"), help="what a number without a unit means")
        parser.add_argument("--json", action="store_true", help="answer as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            duration = read_duration(options["text"], bare=options["bare"])
        except DurationError as fault:
            raise UnusableInput(str(fault)) from fault
        if options["json"]:
            self.print_json({"seconds": duration.seconds, "approximate": duration.approximate})
        else:
            self.stdout.write(in_words(duration))


def in_words(duration: Duration) -> str:
    return f"{write_duration(duration)} ({duration.seconds} seconds, {write_duration(duration, 'iso')})"
