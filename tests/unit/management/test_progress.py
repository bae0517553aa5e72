from __future__ import annotations

from io import StringIO

from django.core.management.base import OutputWrapper

from catalogue.management.progress import Progress


class Terminal(StringIO):
    def isatty(self) -> bool:
        return True


def shown_on(stream: StringIO, *, quiet_for: float) -> str:
    with Progress(OutputWrapper(stream), "Rebuilding", total=4) as progress:
        progress.next_at += quiet_for - 2.0
        progress.step()
    return stream.getvalue()


def test_long_job_shows_how_far_it_has_come_and_clears_the_line() -> None:
    shown = shown_on(Terminal(), quiet_for=-60.0)

    assert shown.startswith("\rRebuilding [#######.......................] 1 of 4\r")
    assert shown.endswith(" \r")


def test_short_job_shows_nothing() -> None:
    assert shown_on(Terminal(), quiet_for=60.0) == ""


def test_what_is_no_terminal_stays_quiet() -> None:
    assert shown_on(StringIO(), quiet_for=-60.0) == ""


def test_nothing_to_do_is_no_division_by_nought() -> None:
    assert Progress(StringIO(), "Rebuilding", total=0).line() == "Rebuilding [..............................] 0 of 0"
