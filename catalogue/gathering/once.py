"""What is reckoned once for each state of a catalogue, since reckoning it anew for every page takes long.

The state is an argument; a function remembers its last answers by all its arguments. Nothing is remembered of a state
that is not settled.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, wraps
from typing import Any, Generic, NamedTuple, Protocol, TypeVar

from catalogue.gathering.kept_counts import Keeper, generation
from catalogue.gathering.versions import State, Version, state_of_lists

Answer = TypeVar("Answer")

MOST_BEHIND = 200
"""How many lines may be new since a file was written before it is written again."""

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


class Step(NamedTuple, Generic[Answer]):
    """An answer that was brought forward, by so many lines of history.

    It is exact where it follows from lines alone; else from what stood in the tables too, perhaps a moment later.
    """

    answer: Answer
    lines: int
    is_exact: bool = True


@dataclass(frozen=True, slots=True)
class Following(Generic[Answer]):
    """How an answer follows the state of the lists.

    ``reckon`` is asked for a catalogue by its key; ``bring`` brings the answer of a version to another version of that
    catalogue, or returns nothing where it cannot. ``written`` makes bytes of an answer, of one that is not worth a file
    nothing; ``read`` makes the answer of these again, and raises ValueError where it cannot. An answer that
    ``begins_empty`` is learned bit by bit.
    """

    reckon: Callable[[int], Answer]
    bring: Callable[[Answer, Version, Version, int], Step[Answer] | None]
    written: Callable[[Answer], bytes | None]
    read: Callable[[bytes], Answer]
    begins_empty: bool = False


@dataclass(frozen=True, slots=True)
class Known(Generic[Answer]):
    """An answer with its state, and how many lines ``behind`` it the file is; of which generation of files it is."""

    state: State
    answer: Answer
    behind: int
    generation: int


class Brought(Generic[Answer]):
    """What is reckoned of a whole catalogue once, and afterwards brought forward from the last state to the next.

    It is kept as a file, by which a process that starts knows what another one has reckoned. The answers of the
    ``most`` catalogues that were asked last are remembered as well.
    """

    def __init__(self, following: Following[Answer], keeper: Keeper, most: int) -> None:
        self.following, self.keeper, self.most = following, keeper, most
        self.known: dict[int, Known[Answer]] = {}
        _remembered.append(self)

    def to(self, state: State, key: int) -> Answer:
        """Return the answer in a state of the lists of a composer, which was asked for before.

        Nothing is kept of a state that is not settled, or that has passed while something was reckoned: a line that
        came in between would be reckoned twice.
        """
        known = self.remembered(key) or self.filed(key)
        if known and known.state == state:
            return known.answer
        follow = self.following
        step = (
            follow.bring(known.answer, known.state.version, state.version, key)
            if known and follows(state, known.state)
            else None
        )
        if known is not None and step is not None:
            if state.is_settled and (step.is_exact or is_still(state, key)):
                self.keep(key, Known(state, step.answer, known.behind + step.lines, known.generation))
            return step.answer
        answer = follow.reckon(key)
        if state.is_settled and (follow.begins_empty or is_still(state, key)):
            self.keep(key, Known(state, answer, MOST_BEHIND + 1, generation()))
        return answer

    def learned(self, state: State, key: int, answer: Answer, *, is_costly: bool, is_exact: bool = False) -> None:
        """Keep an answer of which more is known than was told in this state; in a file where that was costly.

        It is exact where it does not matter that it was found a moment later.
        """
        known = self.known.get(key)
        if state.is_settled and known and known.state == state and (is_exact or is_still(state, key)):
            behind = MOST_BEHIND + 1 if is_costly else known.behind + 1
            self.keep(key, Known(state, answer, behind, known.generation))

    def remembered(self, key: int) -> Known[Answer] | None:
        known = self.known.get(key)
        return known if known and known.generation == generation() else None

    def filed(self, key: int) -> Known[Answer] | None:
        """Return what another process has kept; of a version that was settled, else it would not have been."""
        found, now = self.keeper.found(key), generation()
        if found is None:
            return None
        version, content = found
        try:
            known = Known(State(version, is_settled=True), self.following.read(content), 0, now)
        except (ValueError, TypeError, KeyError, IndexError):
            return None
        self.remember(key, known)
        return known

    def keep(self, key: int, known: Known[Answer]) -> None:
        if known.behind > MOST_BEHIND:
            content = self.following.written(known.answer)
            if content is not None:
                self.keeper.keep(key, known.state.version, content)
                known = Known(known.state, known.answer, 0, generation())
        self.remember(key, known)

    def remember(self, key: int, known: Known[Answer]) -> None:
        self.known.pop(key, None)
        self.known[key] = known
        for oldest in list(self.known)[: -self.most]:
            self.known.pop(oldest, None)

    def cache_clear(self) -> None:
        self.known.clear()


def is_still(state: State, key: int) -> bool:
    """Whether the lists of a composer are in this state still: then what was read since is of this state as well."""
    return state_of_lists([key]) == state


def follows(state: State, earlier: State) -> bool:
    """Whether a state can have come from an earlier one: every line of it has the same number, or a higher one."""
    if len(earlier.version) != len(state.version):
        return False
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
    """Let every answer go, as after a start; what is kept in files stays."""
    for function in _remembered:
        function.cache_clear()
