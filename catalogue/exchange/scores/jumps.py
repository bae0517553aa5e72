"""What a bar line, a sign or a ``sound`` element says of the order in which bars are played."""

from __future__ import annotations

import re
from typing import Any

from catalogue.exchange.scores import words as said
from catalogue.exchange.scores.figures import figure, text_of
from catalogue.exchange.scores.model import Bar

ENDING = re.compile(r"(\d{1,3})(?:\s*-\s*(\d{1,3}))?")

Element = Any  # lxml ships no types


def take_barline(element: Element, bar: Bar) -> None:
    right = element.get("location", "right") != "left"
    bar.final |= right and element.findtext("bar-style") == "light-heavy" and element.find("repeat") is None
    repeat, ending = element.find("repeat"), element.find("ending")
    if repeat is not None:
        if repeat.get("direction") == "forward":
            bar.opens_repeat = True
        else:
            times = figure(repeat.get("times"))
            bar.repeats = max(bar.repeats, min(int(times), 100) if times else 2, 2)
            bar.repeats_after_jump |= repeat.get("after-jump") == "yes"
    if ending is not None:
        if ending.get("type") == "start":
            bar.ending = bar.ending or times_of(ending.get("number") or text_of(ending))
        else:
            bar.ending_closes = True
    for sign in element.iterchildren("segno", "coda"):
        setattr(bar, sign.tag, getattr(bar, sign.tag) or "")


def times_of(text: str) -> tuple[int, ...]:
    """Return the times for which an ending is played: ``"1, 2"`` and ``"1-2"`` are 1 and 2; no figure is the first.

    >>> times_of("1-3, 5"), times_of("")
    ((1, 2, 3, 5), (1,))
    """
    found: set[int] = set()
    for first, last in ENDING.findall(text):
        found |= set(range(int(first), min(int(last or first), 100) + 1))
    return tuple(sorted(found)) or (1,)


def take_jumps(sound: Element, bar: Bar) -> bool:
    """Read the jumps of a ``sound`` element; say whether there was one."""
    given = {key: sound.get(key) for key in ("dacapo", "dalsegno", "fine", "tocoda", "segno", "coda") if sound.get(key)}
    bar.da_capo |= given.get("dacapo") == "yes"
    bar.dal_segno = given.get("dalsegno", bar.dal_segno)
    bar.fine |= "fine" in given
    bar.to_coda = given.get("tocoda", bar.to_coda)
    bar.segno = given.get("segno", bar.segno)
    bar.coda = given.get("coda", bar.coda)
    bar.opens_repeat |= sound.get("forward-repeat") == "yes"
    return bool(given)


def take_signs(marks: list[Element], text: str, bar: Bar) -> None:
    """Read jumps from signs and words where no ``sound`` element states them."""
    found = said.meaning(text)
    if found.to_coda:
        bar.to_coda = bar.to_coda or ""
    if found.jump == "da capo":
        bar.da_capo = True
    elif found.jump == "dal segno":
        bar.dal_segno = bar.dal_segno or ""
    elif found.jump == "fine":
        bar.fine = True
    for mark in marks:
        if mark.tag == "segno":
            bar.segno = bar.segno or ""
        elif mark.tag == "coda" and not found.to_coda:
            bar.coda = bar.coda or ""
