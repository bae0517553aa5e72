"""Reads an instrumentation and says what it means, or where it cannot be read."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from catalogue.instrumentation import Instrumentation, InstrumentationError, read, write_shorthand, write_words
from catalogue.instrumentation.chairs_dress import write_chairs
from catalogue.instrumentation.marc import write_marc
from catalogue.instrumentation.other_readings import other_readings
from catalogue.instrumentation.page import write_page
from catalogue.instrumentation.part_lines import write_parts
from catalogue.instrumentation.parts import PartsError
from catalogue.instrumentation.vocabulary import LANGUAGES
from catalogue.management.base import ReadingCommand, UnusableInput

LINE_ENDS = {ord(sign): f"\\u{ord(sign):04x}" for sign in "\x85\u2028\u2029"}
DRESSES = {"shorthand": write_shorthand, "chairs": write_chairs, "marc": write_marc}
WORDS = {"prose": write_words, "page": write_page, "parts": write_parts}


class Command(ReadingCommand):
    """``instrumentation TEXT`` or ``instrumentation --from FILE``."""

    help = "Reads an instrumentation and prints its lines, or where it cannot be read."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("text", nargs="?", help="the instrumentation")
        parser.add_argument("--from", dest="source", metavar="FILE", help="one text a line, - for standard input")
        parser.add_argument("--json", action="store_true", help="print the reading as JSON")
        parser.add_argument(
            "--language", choices=LANGUAGES, help="the language of the text, or of the words that --as writes"
        )
        parser.add_argument("--as", dest="dress", choices=[*DRESSES, *WORDS], help="write the forces in this form")
        parser.add_argument(
            "--convention", metavar="NAME", help="read the text in this convention, such as “other drums”"
        )
        parser.add_argument("--strings-are", choices=("players", "desks"), help="what string figures count")

    def handle(self, *args: Any, **options: Any) -> None:
        if options["source"] and options["text"] is not None:
            raise UnusableInput("Give an instrumentation or --from FILE, not both.")
        if options["source"]:
            for text in texts_of(options["source"]):
                self.stdout.write(self.answer(text, options))
            return
        if options["text"] is None:
            raise UnusableInput("Give an instrumentation, or --from FILE.")
        if not self.report(options["text"], options):
            sys.exit(2)

    def report(self, text: str, options: dict[str, Any]) -> bool:
        """Print the answer for one text; false where it could not be read or written."""
        try:
            reading = reading_of(text, options)
            self.stdout.write(shown(reading, options))
        except (InstrumentationError, PartsError) as error:
            if options["json"]:
                self.stdout.write(on_one_line(error_json(error)))
            self.stderr.write(pointed(error))
            return False
        if not options["json"] and options["dress"] in (None, *DRESSES):
            self.stdout.write("".join(f"  {remark.message}\n" for remark in reading.warnings), ending="")
        return True

    def answer(self, text: str, options: dict[str, Any]) -> str:
        """Return the answer for one text of many, on one line."""
        try:
            found = shown(reading_of(text, options), options)
        except (InstrumentationError, PartsError) as error:
            return on_one_line(error_json(error))
        return on_one_line(found) if len(found.splitlines()) > 1 else found


def on_one_line(value: object) -> str:
    """Return JSON on one line for every reader of lines: those of Unicode that end one (UAX 14) are written as escapes.

    >>> on_one_line("fl\\u2028cl")
    '"fl\\\\u2028cl"'
    """
    return json.dumps(value, ensure_ascii=False).translate(LINE_ENDS)


def shown(reading: Instrumentation, options: dict[str, Any]) -> str:
    """Return the reading in the form asked for, the canonical shorthand without one; with JSON beside the reading."""
    form = options["dress"] or "shorthand"
    written = DRESSES[form](reading) if form in DRESSES else WORDS[form](reading, options["language"] or "en-GB")
    if not options["json"]:
        return written
    shorthand = written if form == "shorthand" else write_shorthand(reading)
    printed = reading.to_json() | {"shorthand": shorthand, form: written}
    return on_one_line(printed | {"readings": others_json(reading)})


def others_json(reading: Instrumentation) -> list[dict[str, str]]:
    """Return the other readings of a text read with a remark: the option that chooses each, and its players."""
    others = other_readings(reading.text, reading) if any(remark.other for remark in reading.warnings) else ()
    return [
        {
            option_of(other.key): other.key.partition(":")[2],
            "says": other.says,
            "shorthand": write_shorthand(other.instrumentation),
        }
        for other in others
    ]


def option_of(key: str) -> str:
    """Return the option of this command that a way of reading stands for."""
    return {"strings": "strings-are"}.get(key.partition(":")[0], key.partition(":")[0])


def reading_of(text: str, options: dict[str, Any]) -> Instrumentation:
    """Read a text; the language asked for is the text's, unless words are to be written in it."""
    return read(
        text,
        language=None if options["dress"] in WORDS else options["language"],
        convention=options["convention"],
        strings_are=options["strings_are"],
    )


def error_json(error: InstrumentationError | PartsError) -> dict[str, object]:
    """Return the shape of an error."""
    return {
        "text": error.text,
        "error": {
            "start": error.start,
            "end": error.end,
            "message": error.reason,
            "expected": list(getattr(error, "expected", ())),
        },
    }


def pointed(error: InstrumentationError | PartsError) -> str:
    """Return the reason with a mark under its place, for a terminal."""
    line_start = error.text.rfind("\n", 0, error.start) + 1
    line = error.text[line_start:].split("\n")[0]
    return f"{error.reason}\n{line}\n{' ' * (error.start - line_start)}^"


def texts_of(source: str) -> Iterator[str]:
    """Give the texts of a file, one a line; a line that starts with a quote is a JSON string."""
    try:
        raw = sys.stdin.buffer.read() if source == "-" else Path(source).read_bytes()
        content = raw.decode("utf-8-sig")
    except OSError as fault:
        raise UnusableInput(f"“{source}” cannot be read: {fault.strerror}.") from fault
    except UnicodeDecodeError as fault:
        line = raw.count(b"\n", 0, fault.start) + 1
        named = "Standard input" if source == "-" else f"“{source}”"
        raise UnusableInput(f"{named} is no text in UTF-8 (line {line}).") from fault
    for line in content.replace("\r\n", "\n").replace("\r", "\n").split("\n"):
        if line.strip():
            yield text_of(line)


def text_of(line: str) -> str:
    if not line.startswith('"'):
        return line
    try:
        text = json.loads(line)
    except json.JSONDecodeError:
        return line
    return text if isinstance(text, str) else line
