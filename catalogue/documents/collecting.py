"""A pause for Python's collector of cycles while a document is made.

A long list makes a hundred thousand small objects that all stay until it is written; the collector would walk over all
of them again and again and find nothing (a third of the time of a list of a thousand works).
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from threading import Lock
from typing import ParamSpec, TypeVar

Told = ParamSpec("Told")
Made = TypeVar("Made")


class Pause:
    """How many documents are being made just now, in every thread; with the last the collector goes on."""

    def __init__(self) -> None:
        self.lock = Lock()
        self.making = 0
        self.was_on = False

    @contextmanager
    def held(self) -> Iterator[None]:
        with self.lock:
            if not self.making:
                self.was_on = gc.isenabled()
                gc.disable()
            self.making += 1
        try:
            yield
        finally:
            with self.lock:
                self.making -= 1
                if not self.making and self.was_on:
                    gc.enable()

    def around(self, make: Callable[Told, Made]) -> Callable[Told, Made]:
        """The same function, during whose work the collector pauses."""

        @wraps(make)
        def made(*told: Told.args, **named: Told.kwargs) -> Made:
            with self.held():
                return make(*told, **named)

        return made


PAUSE = Pause()
