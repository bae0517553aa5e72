"""What is reckoned once for each state of a catalogue, since reckoning it anew for every page takes long.

The state is an argument; a function remembers its last answers by all its arguments. Nothing is remembered of a state
that is not settled.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import Any, Generic, Protocol, TypeVar

from catalogue.gathering.versions import State, Version

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


class Brought(Generic[Answer]):
    """What is reckoned of a whole catalogue once, and afterwards brought forward from the last state to the next.

    ``reckon`` is asked for a catalogue by its key; ``bring`` brings the answer of a version to what is now, or returns
    nothing where it cannot. The answers of the ``most`` catalogues that were asked last are kept.
    """

    def __init__(
        self, reckon: Callable[[int], Answer], bring: Callable[[Answer, Version, int], Answer | None], most: int
    ) -> None:
        self.reckon, self.bring, self.most = reckon, bring, most
        self.known: dict[int, tuple[State, Answer]] = {}
        _remembered.append(self)

    def to(self, state: State, key: int) -> Answer:
        """Return the answer in a state, which was asked for before; of one that is not settled nothing is kept."""
        known = self.known.get(key)
        if known and known[0] == state:
            return known[1]
        found = self.bring(known[1], known[0].version, key) if known and follows(state, known[0]) else None
        answer = self.reckon(key) if found is None else found
        if state.is_settled:
            self.known.pop(key, None)
            self.known[key] = state, answer
            for oldest in list(self.known)[: -self.most]:
                self.known.pop(oldest, None)
        return answer

    def cache_clear(self) -> None:
        self.known.clear()


def follows(state: State, earlier: State) -> bool:
    """Whether a state can have come from an earlier one: every line of it has the same number, or a higher one."""
    pairs = list(zip(earlier.version, state.version, strict=True))
    numbers = [(before, now) for before, now in pairs if isinstance(before, int) and isinstance(now, int)]
    gone = any(before is not None and now is None for before, now in pairs)
    return not gone and pairs[-1][0] == pairs[-1][1] and all(before <= now for before, now in numbers)


class Holder(Protocol):
    """Something that remembers answers of its own."""

    def cache_clear(self) -> None: ...


Held = TypeVar("Held", bound=Holder)


def let_go_with_all(holder: Held) -> Held:
    """Have something let go of what it remembers where everything is let go of."""
    _remembered.append(holder)
    return holder


def forget_all() -> None:
    """Let every answer go, as after a start."""
    for function in _remembered:
        function.cache_clear()
