"""The faults that are put into functions: each changes one place, and a test that looks at it notices."""

from __future__ import annotations

import importlib
from collections.abc import Iterator
from pathlib import Path
from types import FunctionType, ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[3]
SOURCE = '''
LIMIT = 3

class Door:
    @staticmethod
    def opens(age: int, name: str = "nobody") -> bool:
        """Says who comes in."""
        if name == "kit" or not age:
            raise ValueError(f"never {name}")
        return age >= 18

def count(doors):
    doors.sort(key=len, reverse=True)
    return [door for door in doors if door in "abc"]
'''


@pytest.fixture(scope="module")
def mutants() -> Iterator[ModuleType]:
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(ROOT / ".ci")
        yield importlib.import_module("mutants")


def test_each_fault_changes_one_place_of_a_functions_doing(mutants: ModuleType) -> None:
    faults = list(mutants.faults_of("door.py", SOURCE))

    told = {(one.function, one.before, one.after) for one in faults}
    assert told == {
        ("Door.opens", "if name == 'kit' or not age:", "if not (name == 'kit' or not age):"),
        ("Door.opens", "name == 'kit' or not age", "name == 'kit' and (not age)"),
        ("Door.opens", "name == 'kit'", "name != 'kit'"),
        ("Door.opens", "name == 'kit'", "name == 'xkit'"),
        ("Door.opens", "name == 'kit' or not age", "name == 'kit' or age"),
        ("Door.opens", "raise ValueError(f'never {name}')", "pass"),
        ("Door.opens", "return age >= 18", "return None"),
        ("Door.opens", "age >= 18", "age > 18"),
        ("Door.opens", "age >= 18", "age >= 19"),
        ("count", "doors.sort(key=len, reverse=True)", "pass"),
        ("count", "doors.sort(key=len, reverse=True)", "doors.sort(key=None, reverse=True)"),
        ("count", "doors.sort(key=len, reverse=True)", "doors.sort(key=len, reverse=None)"),
        ("count", "reverse=True", "reverse=False"),
        ("count", "return [door for door in doors if door in 'abc']", "return None"),
        ("count", "door in 'abc'", "door not in 'abc'"),
        ("count", "door in 'abc'", "door in 'xabc'"),
    }
    assert len(faults) == len(told)


def test_a_fault_runs_in_the_place_of_the_function(mutants: ModuleType) -> None:
    loaded: dict[str, FunctionType] = {}
    exec(compile(SOURCE, str(ROOT / "door.py"), "exec"), loaded)  # noqa: S102 - the source above
    opens = loaded["Door"].opens
    (fault,) = [one for one in mutants.faults_of("door.py", SOURCE) if one.after == "age > 18"]

    assert mutants.key_of(opens.__code__) == mutants.key_of(fault.code)
    assert opens(18)
    opens.__code__ = fault.code
    assert not opens(18)
    assert opens(19)


DECORATOR = """
def grown_up(least):
    def guard(view):
        def guarded(age):
            return view(age) if age >= least else "no"
        return guarded
    return guard

@grown_up(18)
def door(age):
    return "yes"
"""


def test_a_fault_runs_also_in_what_a_decorator_has_made_before(mutants: ModuleType) -> None:
    loaded: dict[str, FunctionType] = {}
    exec(compile(DECORATOR, str(ROOT / "door.py"), "exec"), loaded)  # noqa: S102 - the source above
    (fault,) = [one for one in mutants.faults_of("door.py", DECORATOR) if one.after == "age > least"]
    trial = mutants.Trial(["door.py"], most=1, every=1)
    trial.functions = mutants.live_functions()
    assert loaded["door"](18) == "yes"

    assert trial.passes(fault, [])

    assert [loaded["door"](age) for age in (18, 19)] == ["no", "yes"]


def test_every_group_names_files_and_tests_that_are_there(mutants: ModuleType) -> None:
    named = [path for files, tests in mutants.GROUPS.values() for path in (*files, *tests)]

    assert [path for path in named if not (ROOT / path).exists()] == []
