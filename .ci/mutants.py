#!/usr/bin/env python3
"""Says of how many small faults the tests notice: each is put into one function, and the tests that run its line run.

    LEDGERLINE_DATA=$(mktemp -d) .venv/bin/python .ci/mutants.py [GROUP …] [--most 1000] [--every 1] [--covered]

The groups are in ``GROUPS``; without one all are tried. For each fault that no test notices its place and its lines are
printed, at the end how many of how many were noticed. ``--most`` bounds how many tests are run against one fault,
by turns one of each file, those that run the fewest lines first; ``--every 5`` tries every fifth fault only. With
``--covered`` the tests of the groups run once, without faults, and what is told is which lines and branches they run.

Everything is loaded once. Each fault has a process of its own, split off from that, in which the code of one function
is exchanged, so that it costs no more than its tests take. What stands outside of functions is left alone.
"""

from __future__ import annotations

import argparse
import gc
import os
import pickle
import signal
import sys
import time
from collections import defaultdict
from collections.abc import Iterable, Iterator
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import coverage
import pytest
from _pytest.runner import runtestprotocol
from faults import ROOT, Fault, faults_of

GROUPS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "access": (
        ("catalogue/web/access.py", "catalogue/models/records.py"),
        ("tests/web/test_every_address_by_role.py", "tests/web/test_house.py", "tests/web/test_second_step.py",
         "tests/web/test_other_catalogues_stay_shut.py", "tests/web/test_librarian.py", "tests/unit/models"),
    ),
    "members": (
        (*(f"catalogue/actions/{name}.py" for name in ("members", "entry", "composers", "saving")),
         "catalogue/web/views/members.py"),
        ("tests/unit/actions", *(f"tests/web/test_{name}.py" for name in (
            "member_list", "join", "start", "house_members", "profile"))),
    ),
    "links": (
        (*(f"catalogue/actions/{name}.py" for name in ("file_links", "calendars", "riders")),
         "catalogue/web/views/file_links.py"),
        (*(f"tests/web/test_{name}.py" for name in ("file_links", "riders", "feed", "calendars", "librarian")),
         "tests/unit/actions/test_riders.py", "tests/unit/actions/test_calendars.py"),
    ),
    "importing": (
        tuple(f"catalogue/exchange/{name}.py" for name in ("importing", "work_import", "performance_import", "owners")),
        ("tests/unit/exchange/test_importing.py", "tests/web/test_import.py", "tests/unit/exchange/test_exporting.py",
         "tests/web/test_pasted.py"),
    ),
    "backups": (
        (*(f"catalogue/exchange/backups/{name}.py" for name in ("archive", "checking", "lines", "writing", "keeping")),
         "catalogue/exchange/whole_files.py"),
        ("tests/unit/exchange/backups", "tests/unit/exchange/test_whole_files.py",
         "tests/unit/management/test_backup_and_restore.py", "tests/web/test_backup_list.py"),
    ),
}  # fmt: skip
PATIENCE = 20.0
"""Seconds that are granted to the tests of one fault beyond five times what they usually take."""


def key_of(code: CodeType) -> tuple[str, int, str]:
    return code.co_filename, code.co_firstlineno, code.co_name


def live_functions() -> dict[tuple[str, int, str], list[FunctionType]]:
    """Return the loaded functions by where they stand, whatever wraps them."""
    found: dict[tuple[str, int, str], list[FunctionType]] = defaultdict(list)
    for one in gc.get_objects():
        if type(one) is FunctionType:  # to ask lazy objects what they are would make them
            found[key_of(one.__code__)].append(one)
    return found


class Trial:
    """A plugin of pytest: instead of running its tests it runs those that a fault concerns, for each fault."""

    def __init__(self, files: Iterable[str], *, most: int, every: int) -> None:
        self.files, self.most, self.every = tuple(files), most, every
        self.tried = self.noticed = 0
        self.functions: dict[tuple[str, int, str], list[FunctionType]] = {}
        self.order: list[int] = []

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        if session.testsfailed:
            raise session.Interrupted("The tests cannot be collected.")
        items = session.items
        first = next((one for one in items if "db" in getattr(one, "fixturenames", ())), items[0])
        runtestprotocol(first, nextitem=session, log=False)  # what is made once is made before the processes part
        lines, seconds = self.usual(items)
        self.functions = live_functions()
        for number, fault in enumerate(one for file in self.files for one in faults_of(file, text_of(file))):
            if number % self.every == 0:
                self.take(fault, items, lines, seconds)
        return True

    def usual(self, items: list[pytest.Item]) -> tuple[dict[tuple[str, int], list[int]], list[float]]:
        """Run every test as things are; return which of them run a line, and how long each takes."""
        told = parted(lambda: watched(items, [str(ROOT / file) for file in self.files]), 3600)
        if told is None:
            sys.exit("The tests were not run to their end.")
        failed, lines_of, seconds = told
        for number in failed:
            print(f"fails as things are, left out: {items[number].nodeid}")
        found = defaultdict(list)
        self.order = by_turns(items, sorted(set(lines_of) - failed, key=lambda one: (len(lines_of[one]), seconds[one])))
        for number in self.order:
            for line in lines_of[number]:
                found[line].append(number)
        return found, seconds

    def take(self, fault: Fault, items: list[pytest.Item], lines: dict[Any, list[int]], seconds: list[float]) -> None:
        if not self.fitting(fault.code):
            return
        running = {one for line in fault.lines for one in lines.get((fault.code.co_filename, line), ())}
        chosen = [number for number in self.order if number in running][: self.most]
        usual = sum(seconds[number] for number in chosen)
        passes = parted(lambda: self.passes(fault, [items[one] for one in chosen]), 5 * usual + PATIENCE)
        self.tried += 1
        self.noticed += not passes
        if passes:
            tests = f"{len(chosen)} tests" if chosen else "no test runs it"
            print(
                f"{fault.file}:{fault.lines[-1]} {fault.function} ({tests})\n  - {fault.before}\n  + {fault.after}",
                flush=True,
            )

    def fitting(self, code: CodeType) -> list[FunctionType]:
        """Return the loaded functions in whose place a code may run."""
        found = self.functions.get(key_of(code), [])
        return [one for one in found if one.__code__.co_freevars == code.co_freevars]

    def passes(self, fault: Fault, chosen: list[pytest.Item]) -> bool:
        """Put a fault in, also where a function that it is in has made others already, as decorators do; run tests."""
        for code in (fault.code, *inner(fault.code)):
            for function in self.fitting(code):
                function.__code__ = code
        return not any(failed_in(item, after) for item, after in with_next(chosen))


def by_turns(items: list[pytest.Item], numbers: list[int]) -> list[int]:
    """Return tests in an order that takes one of each file before it takes a second of any."""
    places: dict[Path, int] = defaultdict(int)
    turns = {}
    for number in numbers:
        turns[number] = places[items[number].path]
        places[items[number].path] += 1
    return sorted(numbers, key=lambda one: turns[one])


def inner(code: CodeType) -> Iterator[CodeType]:
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield one
            yield from inner(one)


def text_of(file: str) -> str:
    return (ROOT / file).read_text(encoding="utf-8")


def with_next(items: list[pytest.Item]) -> Iterator[tuple[pytest.Item, Any]]:
    """Yield each test with what comes after it; what is made once for all outlasts the last."""
    return zip(items, [*items[1:], *(one.session for one in items[:1])], strict=True)


def failed_in(item: pytest.Item, after: Any) -> bool:
    return any(report.failed for report in runtestprotocol(item, nextitem=after, log=False))


def watched(
    items: list[pytest.Item], files: list[str]
) -> tuple[set[int], dict[int, set[tuple[str, int]]], list[float]]:
    """Run the tests; return those that fail, the lines of the files that each runs, and the seconds of each."""
    watching = coverage.Coverage(include=files, data_file=None, config_file=False)
    failed, seconds = set(), []
    watching.start()
    for number, (item, after) in enumerate(with_next(items)):
        watching.switch_context(str(number))
        begun = time.monotonic()
        if failed_in(item, after):
            failed.add(number)
        seconds.append(time.monotonic() - begun)
    watching.stop()
    lines: dict[int, set[tuple[str, int]]] = defaultdict(set)
    for file in watching.get_data().measured_files():
        for line, numbers in watching.get_data().contexts_by_lineno(file).items():
            for number in filter(None, numbers):
                lines[int(number)].add((file, line))
    return failed, lines, seconds


def parted(task: Any, patience: float) -> Any:
    """Do something in a process of its own and return what it found, None where it did not come to its end."""
    reading, writing = os.pipe()
    process = os.fork()
    if process == 0:
        silence = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silence, 1)
        os.dup2(silence, 2)
        signal.alarm(int(patience) + 1)
        with os.fdopen(writing, "wb") as pipe:
            pickle.dump(task(), pipe)
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        told = pipe.read()
    os.waitpid(process, 0)
    return pickle.loads(told) if told else None  # noqa: S301 - written by ourselves a moment ago


def try_group(name: str, *, most: int, every: int) -> int:
    """Try the faults of a group in a process of its own, which has its own settings; return 0 if it went."""
    process = os.fork()
    if process == 0:
        files, tests = GROUPS[name]
        trial = Trial(files, most=most, every=every)
        code = pytest.main(["-q", "-s", "-p", "no:cacheprovider", "-m", "not slow", *tests], plugins=[trial])
        noticed = f"{trial.noticed} of {trial.tried} faults noticed"
        print(f"{name}: {noticed}, {100 * trial.noticed / max(trial.tried, 1):.1f} %", flush=True)
        os._exit(0 if trial.tried else int(code) or 1)  # to pytest itself no test has run here
    return os.waitstatus_to_exitcode(os.waitpid(process, 0)[1])


def cover_group(name: str) -> int:
    """Run the tests of a group in a process of its own and say which lines and branches of its files they run."""
    process = os.fork()
    if process == 0:
        files, tests = GROUPS[name]
        watched = coverage.Coverage(
            branch=True, include=[str(ROOT / one) for one in files], data_file=None, config_file=False
        )
        watched.start()
        code = pytest.main(["-q", "-p", "no:cacheprovider", "-m", "not slow", *tests])
        watched.stop()
        watched.report(show_missing=True)
        os._exit(int(code))
    return os.waitstatus_to_exitcode(os.waitpid(process, 0)[1])


def main() -> int:
    asked = argparse.ArgumentParser(description="Of how many small faults do the tests notice?")
    asked.add_argument("groups", nargs="*", help=", ".join(GROUPS))
    asked.add_argument("--most", type=int, default=1_000, help="tests that are run against one fault")
    asked.add_argument("--every", type=int, default=1, help="try every so many-th fault")
    asked.add_argument("--covered", action="store_true", help="run the tests and say what they run, without any fault")
    told = asked.parse_args()
    os.chdir(ROOT)
    sys.path.insert(0, str(ROOT))
    if told.covered:
        return max(cover_group(name) for name in told.groups or GROUPS)
    return max(try_group(name, most=told.most, every=told.every) for name in told.groups or GROUPS)


if __name__ == "__main__":
    sys.exit(main())
