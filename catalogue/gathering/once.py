"""What is reckoned once for each state of a catalogue, since reckoning it anew for every page takes long.

The state is an argument; a function remembers its last answers by all its arguments. Nothing is remembered of a state
that is not settled.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import Any, TypeVar

from catalogue.gathering.versions import State

Answer = TypeVar("Answer")

_remembered: list[Any] = []


def once_for_each_state(most: int) -> Callable[[Callable[..., Answer]], Callable[..., Answer]]:
    """Have a function that takes a State first answer once for each, and remember its last ``most`` answers."""

    def wrap(reckon: Callable[..., Answer]) -> Callable[..., Answer]:
        remembering = lru_cache(maxsize=most)(reckon)
        _remembered.append(remembering)

        @wraps(reckon)
        def answer(state: State, *told: Any) -> Answer:
            return remembering(state, *told) if state.is_settled else reckon(state, *told)

        return answer

    return wrap


def forget_all() -> None:
    """Let every answer go, as after a start."""
    for function in _remembered:
        function.cache_clear()
