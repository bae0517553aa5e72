"""What many ask for at once is built by one of them, and everybody gets the same."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier, Event

import pytest

from catalogue.web.built_once import built_once

MANY = 8


def test_many_who_ask_at_once_get_what_one_of_them_has_built() -> None:
    built: list[object] = []
    asked = Barrier(MANY)

    def build() -> object:
        return built[0] if built else built.append(object()) or built[0]  # type: ignore[func-returns-value]

    def ask(_number: int) -> object:
        asked.wait(10)
        return built_once("page", build)

    with ThreadPoolExecutor(MANY) as crowd:
        given = set(crowd.map(ask, range(MANY)))

    assert given == set(built)
    assert len(built) == 1


def test_who_waits_builds_where_the_first_one_fails() -> None:
    begun, may_fail = Event(), Event()

    def fail() -> str:
        begun.set()
        may_fail.wait(10)
        raise ValueError("gone")

    with ThreadPoolExecutor(2) as crowd:
        first = crowd.submit(built_once, "page", fail)
        begun.wait(10)
        second = crowd.submit(built_once, "page", lambda: "built")
        may_fail.set()
        assert second.result(10) == "built"
        with pytest.raises(ValueError, match="gone"):
            first.result(10)


def test_what_is_built_of_another_state_is_not_waited_for() -> None:
    begun, may_end = Event(), Event()

    def slow() -> str:
        begun.set()
        may_end.wait(10)
        return "before"

    with ThreadPoolExecutor(1) as crowd:
        first = crowd.submit(built_once, ("page", 1), slow)
        begun.wait(10)
        assert built_once(("page", 2), lambda: "after") == "after"
        may_end.set()
        assert first.result(10) == "before"
