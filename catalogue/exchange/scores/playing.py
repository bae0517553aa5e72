"""The order in which a score's bars are played: repeats, endings, da capo and dal segno, al fine and al coda.

A repeat without a beginning goes back to the bar after the last repeat or final bar line, a da capo to the beginning of
its movement; repeats are not made again after a jump, and of endings the last is taken, unless the file says otherwise
(common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.exchange.scores.model import Bar

MOST_PLAYED = 200_000


@dataclass(frozen=True, slots=True)
class Ending:
    """An ending: its first and last bar, the times for which it is played, and how many times its group counts."""

    first: int
    last: int
    times: tuple[int, ...]
    is_last: bool
    group_times: int


def endings_of(bars: Sequence[Bar]) -> dict[int, Ending]:
    """Return for each bar the ending to which it belongs."""
    runs = ending_runs(bars)
    found: dict[int, Ending] = {}
    for group in grouped(runs):
        times = max(max(run_times) for _, _, run_times in group)
        for first, last, run_times in group:
            ending = Ending(first, last, run_times, len(group) > 1 and last == group[-1][1], times)
            found |= dict.fromkeys(range(first, last + 1), ending)
    return found


Run = tuple[int, int, tuple[int, ...]]


def ending_runs(bars: Sequence[Bar]) -> list[Run]:
    runs: list[Run] = []
    open_since: int | None = None
    for index, bar in enumerate(bars):
        if bar.ending:
            open_since = index
        closes = bar.ending_closes or bar.repeats or index + 1 == len(bars) or bars[index + 1].ending
        if open_since is not None and closes:
            times = bars[open_since].ending
            runs.append((open_since, end_of_ending(bars, index, times), times))
            open_since = None
    return runs


def end_of_ending(bars: Sequence[Bar], closed: int, times: tuple[int, ...]) -> int:
    """Return where an ending ends whose bracket closes here: at its repeat, where that stands before a later ending.

    A bracket may be drawn over the first bar alone (common practice).
    """
    at = closed
    while at + 1 < len(bars) and not (bars[at].repeats or bars[at + 1].ending or bars[at + 1].opens_repeat):
        at += 1
    follows = bars[at + 1].ending if at + 1 < len(bars) else ()
    return at if bars[at].repeats and follows and min(follows) > max(times) else closed


def grouped(runs: Sequence[Run]) -> list[list[Run]]:
    """Put together endings that follow one another without a bar between, each for later times than the one before."""
    groups: list[list[Run]] = []
    for run in runs:
        before = groups[-1][-1] if groups else None
        if before and before[1] + 1 == run[0] and min(run[2]) > min(before[2]):
            groups[-1].append(run)
        else:
            groups.append([run])
    return groups


class Player:
    """Walks through the bars as a player would, and remembers what has been played."""

    def __init__(self, bars: Sequence[Bar]) -> None:
        self.bars = bars
        self.endings = endings_of(bars)
        self.starts = frozenset(movement_starts(bars))
        self.order: list[int] = []
        self.at = self.start = 0
        self.time = 1
        self.jumped = False
        self.jumps_made: set[int] = set()

    def played(self) -> list[int]:
        while self.at < len(self.bars) and len(self.order) < MOST_PLAYED:
            bar = self.bars[self.at]
            ending = self.endings.get(self.at)
            if ending and not self.takes(ending):
                self.at = ending.last + 1
                continue
            if (bar.opens_repeat or self.at in self.starts) and self.at != self.start:
                self.start, self.time = self.at, 1
            self.order.append(self.at)
            self.at = self.after_fine() if self.jumped and bar.fine else self.next_of(bar, ending)
        return self.order

    def after_fine(self) -> int:
        """Go on after the jump that led to the end: what follows it is another movement."""
        self.jumped = False
        self.start, self.time = max(self.jumps_made) + 1, 1
        return self.start

    def takes(self, ending: Ending) -> bool:
        if self.jumped and not self.bars[ending.last].repeats_after_jump:
            return ending.is_last or not self.has_later(ending)
        return self.time in ending.times

    def has_later(self, ending: Ending) -> bool:
        """Whether another ending, or the music after this one, is there to be taken instead."""
        return ending.last + 1 < len(self.bars)

    def next_of(self, bar: Bar, ending: Ending | None) -> int:
        if self.jumped and bar.to_coda is not None:
            coda = self.sign_after("coda", self.at, bar.to_coda)
            if coda is not None:
                self.start, self.time = coda, 1
                return coda
        if self.goes_back(bar, ending):
            self.time += 1
            return self.start
        if bar.repeats or bar.final or (ending and self.at == ending.last and not bar.opens_repeat):
            self.start, self.time = self.at + 1, 1
        return self.jump(bar) if self.jumps(bar) else self.at + 1

    def goes_back(self, bar: Bar, ending: Ending | None) -> bool:
        if not bar.repeats or (self.jumped and not bar.repeats_after_jump):
            return False
        if ending and ending.is_last and bar.repeats <= 2:
            return False
        times = max(bar.repeats, ending.group_times, max(ending.times) + 1) if ending else bar.repeats
        return self.time < times

    def jumps(self, bar: Bar) -> bool:
        return (bar.da_capo or bar.dal_segno is not None) and self.at not in self.jumps_made

    def jump(self, bar: Bar) -> int:
        self.jumps_made.add(self.at)
        self.jumped = True
        to = self.beginning() if bar.da_capo else self.sign_before("segno", self.at, bar.dal_segno or "")
        self.start, self.time = to, 1
        return to

    def beginning(self) -> int:
        """Return where the movement begins: after the last final bar line, or where bars are numbered afresh."""
        for index in range(self.at, 0, -1):
            before = self.bars[index - 1]
            if (before.final and not before.fine) or counts_afresh(before, self.bars[index]):
                return index
        return 0

    def sign_before(self, sign: str, index: int, label: str) -> int:
        """Return the bar of a sign: the one with the label, else the nearest before, else the beginning."""
        places = [one for one, bar in enumerate(self.bars[: index + 1]) if getattr(bar, sign) is not None]
        labelled = [one for one in places if label and getattr(self.bars[one], sign) == label]
        return (labelled or places or [0])[-1]

    def sign_after(self, sign: str, index: int, label: str) -> int | None:
        places = [one for one in range(index + 1, len(self.bars)) if getattr(self.bars[one], sign) is not None]
        labelled = [one for one in places if label and getattr(self.bars[one], sign) == label]
        return next(iter(labelled or places), None)


def movement_starts(bars: Sequence[Bar]) -> list[int]:
    """Return where movements begin: at the first bar, and where bars are numbered afresh, from 0 with an upbeat."""
    afresh = [index for index in range(1, len(bars)) if counts_afresh(bars[index - 1], bars[index])]
    return [0, *afresh]


def counts_afresh(before: Bar, bar: Bar) -> bool:
    return bar.number in ("0", "1") and before.number not in ("", "0", "1")


def playing_order(bars: Sequence[Bar]) -> list[int]:
    """Return the indexes of bars in the order in which they sound, at most 200,000 of them."""
    return Player(settled(bars)).played()


def settled(bars: Sequence[Bar]) -> Sequence[Bar]:
    """Make the first of two coda signs the place to leave from, where no words say so and somebody jumps."""
    signs = [bar for bar in bars if bar.coda is not None]
    jumps = any(bar.da_capo or bar.dal_segno is not None for bar in bars)
    if jumps and len(signs) == 2 and all(bar.to_coda is None for bar in bars):
        signs[0].to_coda, signs[0].coda = signs[0].coda, None
    return bars
