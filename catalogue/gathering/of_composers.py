"""What is reckoned of each composer's records once, and again only after something of this composer's was saved.

A house of a thousand composers is saved to all the time, mostly to one of them. What a page of all of them shows is
therefore kept in pieces, each with the composer whose it is.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from typing import Any, Generic, TypeVar

from catalogue.gathering.changed import composers_with_new_lines
from catalogue.gathering.once import follows, let_go_with_all
from catalogue.gathering.versions import State

Key = TypeVar("Key", bound=Hashable)
Piece = TypeVar("Piece")


class OfComposers(Generic[Key, Piece]):
    """Pieces of the last ``most_askings`` ways of asking, of each at most ``most`` that were asked for last.

    ``held`` are the kinds of records whose newest lines the states hold with which pieces are asked for, in order.
    """

    def __init__(self, held: Sequence[Any], *, most_askings: int, most: int) -> None:
        self.held, self.most_askings, self.most = tuple(held), most_askings, most
        self.known: dict[Hashable, tuple[State, dict[Key, tuple[int, Piece]]]] = {}
        let_go_with_all(self)

    def to(
        self,
        state: State,
        owners: Mapping[Key, int],
        told: Hashable,
        reckon: Callable[[list[Key]], Mapping[Key, Piece]],
    ) -> dict[Key, Piece]:
        """Return the pieces in a state that was asked for before; ``owners`` says whose each is.

        ``told`` is what else they depend on. ``reckon`` is asked for those that are missing or no longer hold; what it
        leaves out is left out. Of a state that is not settled nothing is kept.
        """
        kept = self.still_true(state, told)
        missing = [key for key in owners if key not in kept]
        if missing:
            kept |= {key: (owners[key], piece) for key, piece in reckon(missing).items()}
        asked = {key: kept[key] for key in owners if key in kept}
        if state.is_settled:
            self.keep(state, told, kept, asked)
        return {key: piece for key, (_owner, piece) in asked.items()}

    def still_true(self, state: State, told: Hashable) -> dict[Key, tuple[int, Piece]]:
        """Return what was reckoned before of composers of whom nothing was saved since."""
        known = self.known.get(told)
        if known is None:
            return {}
        earlier, pieces = known
        if state.version == earlier.version:
            return dict(pieces)
        changed = composers_with_new_lines(state, self.held, earlier.version) if follows(state, earlier) else None
        if not changed:  # something else is different
            return {}
        return {key: one for key, one in pieces.items() if one[0] not in changed}

    def keep(
        self,
        state: State,
        told: Hashable,
        kept: dict[Key, tuple[int, Piece]],
        asked: dict[Key, tuple[int, Piece]],
    ) -> None:
        others = {key: one for key, one in kept.items() if key not in asked}
        room = max(0, self.most - len(asked))
        for key in list(others)[: max(0, len(others) - room)]:
            del others[key]
        self.known.pop(told, None)
        self.known[told] = state, others | asked
        for oldest in list(self.known)[: -self.most_askings]:
            self.known.pop(oldest, None)

    def cache_clear(self) -> None:
        self.known.clear()
