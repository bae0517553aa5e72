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
import ast
import copy
import gc
import os
import pickle
import signal
import sys
import time
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import coverage
import pytest
from _pytest.runner import runtestprotocol

ROOT = Path(__file__).resolve().parents[1]
GROUPS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "access": (
        ("catalogue/web/access.py", "catalogue/models/records.py"),
        ("tests/web/test_every_address_by_role.py", "tests/web/test_house.py", "tests/web/test_second_step.py",
         "tests/web/test_other_catalogues_stay_shut.py", "tests/web/test_librarian.py", "tests/unit/models"),
    ),
    "members": (
        ("catalogue/actions/members.py", "catalogue/actions/entry.py", "catalogue/actions/composers.py",
         "catalogue/actions/saving.py", "catalogue/web/views/members.py"),
        ("tests/unit/actions", "tests/web/test_member_list.py", "tests/web/test_join.py", "tests/web/test_start.py",
         "tests/web/test_house_members.py", "tests/web/test_profile.py"),
    ),
    "links": (
        ("catalogue/actions/file_links.py", "catalogue/actions/calendars.py", "catalogue/actions/riders.py",
         "catalogue/web/views/file_links.py"),
        ("tests/web/test_file_links.py", "tests/web/test_riders.py", "tests/web/test_feed.py",
         "tests/web/test_calendars.py", "tests/web/test_librarian.py", "tests/unit/actions/test_riders.py", "tests/unit/actions/test_calendars.py"),
    ),
    "importing": (
        ("catalogue/exchange/importing.py", "catalogue/exchange/work_import.py",
         "catalogue/exchange/performance_import.py", "catalogue/exchange/owners.py"),
        ("tests/unit/exchange/test_importing.py", "tests/web/test_import.py", "tests/unit/exchange/test_exporting.py",
         "tests/web/test_pasted.py"),
    ),
    "backups": (
        ("catalogue/exchange/backups/archive.py", "catalogue/exchange/backups/checking.py",
         "catalogue/exchange/backups/lines.py", "catalogue/exchange/backups/writing.py",
         "catalogue/exchange/backups/keeping.py", "catalogue/exchange/whole_files.py"),
        ("tests/unit/exchange/backups", "tests/unit/exchange/test_whole_files.py",
         "tests/unit/management/test_backup_and_restore.py", "tests/web/test_backup_list.py"),
    ),
}  # fmt: skip
PATIENCE = 20.0
"""Seconds that are granted to the tests of one fault beyond five times what they usually take."""


# ---- faults

OTHER: dict[type[ast.AST], type[ast.AST]] = {
    ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.And: ast.Or, ast.Or: ast.And,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Add, ast.FloorDiv: ast.Mult, ast.Div: ast.Mult,
    ast.Mod: ast.Add, ast.BitOr: ast.BitAnd, ast.BitAnd: ast.BitOr, ast.Break: ast.Continue, ast.Continue: ast.Break,
}  # fmt: skip


@dataclass(frozen=True)
class Fault:
    """A fault in one function of a file: the code that has it, how the place reads, and the lines of its statement."""

    file: str
    function: str
    lines: range
    before: str
    after: str
    code: CodeType


def faults_of(file: str, source: str) -> Iterator[Fault]:
    """Yield each fault that can be put into the functions of a file; every one of them changes one place."""
    whole = ast.parse(source)
    for path in function_paths(whole):
        function = steps(whole, path)[-1]
        name = ".".join(one.name for one in steps(whole, path))
        kept = {id(node) for node in left_alone(function)}
        for place in [one for one in places(function, function) if id(one.node) not in kept]:
            for other in instead(place.node):
                before = place.reads()
                place.put(other)
                code, after = compiled(whole, file, path), place.reads()
                place.put(place.node)
                if code is not None:
                    yield Fault(file, name, place.lines, before, after, code)


def function_paths(tree: Any) -> Iterator[tuple[int, ...]]:
    """Yield the way to each function of a module and to each method of its classes, as places in their bodies."""
    for place, node in enumerate(tree.body):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield (place,)
        elif isinstance(node, ast.ClassDef):
            yield from ((place, *rest) for rest in function_paths(node))


def steps(tree: Any, path: tuple[int, ...]) -> list[Any]:
    found = []
    for place in path:
        tree = tree.body[place]
        found.append(tree)
    return found


def left_alone(function: ast.FunctionDef) -> Iterator[ast.AST]:
    """Yield what is no part of the function's doing: how it is called, its types, its docstrings."""
    for node in (function.args, *function.decorator_list, *filter(None, [function.returns])):
        yield from ast.walk(node)
    for node in ast.walk(function):
        if isinstance(node, ast.AnnAssign):
            yield from ast.walk(node.annotation)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield from (node, node.value)
        if isinstance(node, ast.JoinedStr):
            yield from (part for part in node.values if isinstance(part, ast.Constant))


@dataclass(frozen=True)
class Place:
    """A node, what holds it, under which name and where in a list, and the statement that it is part of."""

    node: ast.AST
    holder: ast.AST
    name: str
    index: int | None
    statement: ast.stmt

    def put(self, node: ast.AST) -> None:
        if self.index is None:
            setattr(self.holder, self.name, node)
        else:
            getattr(self.holder, self.name)[self.index] = node

    def reads(self) -> str:
        shown = self.node if isinstance(self.node, ast.stmt) else self.holder
        held = getattr(self.holder, self.name) if self.index is None else getattr(self.holder, self.name)[self.index]
        return ast.unparse(held if shown is self.node else self.holder).splitlines()[0]

    @property
    def lines(self) -> range:
        last = getattr(self.node, "lineno", getattr(self.holder, "lineno", self.statement.lineno))
        return range(self.statement.lineno, last + 1)


def places(tree: ast.AST, statement: ast.stmt) -> Iterator[Place]:
    """Yield each node within a tree."""
    for name, value in ast.iter_fields(tree):
        for index, node in enumerate(value) if isinstance(value, list) else [(None, value)]:
            if isinstance(node, ast.AST):
                within = node if isinstance(node, ast.stmt) else statement
                yield Place(node, tree, name, index, within)
                yield from places(node, within)


def instead(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what may stand in the place of a node by mistake."""
    if type(node) in OTHER:
        yield OTHER[type(node)]()
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node.operand
    elif isinstance(node, ast.If | ast.While | ast.IfExp) and not isinstance(node.test, ast.Compare | ast.UnaryOp):
        turned = copy.copy(node)
        turned.test = ast.UnaryOp(ast.Not(), node.test)
        yield turned
    elif isinstance(node, ast.Constant) and not isinstance(node.value, bytes):
        yield from instead_of_value(node.value)
    elif isinstance(node, ast.Return) and node.value is not None:
        if not (isinstance(node.value, ast.Constant) and node.value.value is None):
            yield ast.Return(ast.Constant(None))
    elif isinstance(node, ast.Raise) or (isinstance(node, ast.Expr) and isinstance(node.value, ast.Call)):
        yield ast.Pass()
    elif isinstance(node, ast.keyword) and node.arg and not is_nothing(node.value):
        yield ast.keyword(node.arg, ast.Constant(None))


def is_nothing(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and node.value is None


def instead_of_value(value: object) -> Iterator[ast.AST]:
    if isinstance(value, bool):
        yield ast.Constant(not value)
    elif isinstance(value, int):
        yield ast.Constant(value + 1)
    elif isinstance(value, str):
        yield ast.Constant(f"x{value}")


def compiled(tree: ast.Module, file: str, path: tuple[int, ...]) -> CodeType | None:
    """Return the code of the function at a path, None where Python does not take it."""
    try:
        ast.fix_missing_locations(tree)
        code = compile(tree, str(ROOT / file), "exec", dont_inherit=True)
    except (SyntaxError, ValueError, TypeError):
        return None
    for step in steps(tree, path):
        code = next(one for one in code.co_consts if isinstance(one, CodeType) and begins(one, step))
    return code


def begins(code: CodeType, node: Any) -> bool:
    first = min([node.lineno, *(one.lineno for one in node.decorator_list)])
    return code.co_name == node.name and code.co_firstlineno == first


# ---- trying them


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
        functions = self.functions.get(key_of(fault.code), [])
        if not functions or functions[0].__code__.co_freevars != fault.code.co_freevars:
            return
        running = {one for line in fault.lines for one in lines.get((fault.code.co_filename, line), ())}
        chosen = [number for number in self.order if number in running][: self.most]
        usual = sum(seconds[number] for number in chosen)
        passes = parted(lambda: passed(fault, functions, [items[one] for one in chosen]), 5 * usual + PATIENCE)
        self.tried += 1
        self.noticed += not passes
        if passes:
            tests = f"{len(chosen)} tests" if chosen else "no test runs it"
            print(
                f"{fault.file}:{fault.lines[-1]} {fault.function} ({tests})\n  - {fault.before}\n  + {fault.after}",
                flush=True,
            )


def by_turns(items: list[pytest.Item], numbers: list[int]) -> list[int]:
    """Return tests in an order that takes one of each file before it takes a second of any."""
    places: dict[Path, int] = defaultdict(int)
    turns = {}
    for number in numbers:
        turns[number] = places[items[number].path]
        places[items[number].path] += 1
    return sorted(numbers, key=lambda one: turns[one])


def text_of(file: str) -> str:
    return (ROOT / file).read_text(encoding="utf-8")


def passed(fault: Fault, functions: list[FunctionType], chosen: list[pytest.Item]) -> bool:
    for function in functions:
        function.__code__ = fault.code
    return not any(failed_in(item, after) for item, after in with_next(chosen))


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
        os._exit(int(code))
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
