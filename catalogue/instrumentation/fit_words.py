"""The sentences of ``fit``: what is missing, what is open, what falls short of a wish."""

from __future__ import annotations

from catalogue.instrumentation.model import Line
from catalogue.instrumentation.seats import Seats
from catalogue.instrumentation.vocabulary import called

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def number(count: int) -> str:
    """Return a number as a word up to twelve, as the trade writes it in a sentence."""
    return NUMBERS[count] if count < len(NUMBERS) else str(count)


def name(slug: str, count: int = 1) -> str:
    names = called(slug)
    return names.singular if count == 1 else names.plural


def capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]


def chair(seats: Seats, count: int) -> str:
    """Return what a seat is called, its doublings with it: ``flute 2 doubling piccolo``, ``horns 3 and 4``."""
    first, doublings = seats.needs[0], seats.needs[1:]
    alone = seats.line.players in (None, (1, 1))
    last = seats.first + count - 1
    place = (
        "" if alone else f" {seats.first}" if count == 1 else f" {seats.first} {'and' if count == 2 else 'to'} {last}"
    )
    doubling = f" doubling {' and '.join(name(one) for one in doublings)}" if doublings else ""
    others = [name(choice[0]) for choice in seats.choices[1:]]
    return f"{name(first, count)}{place}{doubling}{' or ' if others else ''}{' or '.join(others)}"


def nobody_there(seats: Seats, count: int, near: bool) -> str:
    """Return why a seat is empty; ``near`` tells whether there is anybody at all who plays the instrument."""
    if seats.line.role == "soloist":
        return f"No soloist is available: {name(seats.needs[0], count)}."
    if seats.section and count == seats.count:
        there = "there are single players" if near else "there is none"
        return f"A section of {name(seats.line.instrument, 2)} is needed; {there}."
    if not near:
        many = f"{number(count)} {name(seats.needs[0], count)}" if count > 1 else chair(seats, 1)
        return capital(f"{many}: no player available.")
    if seats.count > count:
        return capital(f"{name(seats.needs[0], 2)}: {number(count)} too few.")
    return capital(f"{chair(seats, count)}: no player left.")


def doubling_missing(seats: Seats, lacking: str, count: int) -> str:
    """Return the sentence for a seat that somebody takes who lacks a doubling."""
    return capital(f"{chair(seats, count)}: the player who is free does not play {name(lacking)}.")


def open_line(line: Line) -> str:
    """Return the sentence for a line of which the work does not say how many players it needs."""
    return f"The work does not say how many players of {name(line.instrument)} it needs."


def perhaps(seats: Seats, count: int) -> str:
    """Return the sentence for a seat of which it is open whether somebody is there for it."""
    return capital(f"{chair(seats, count)}: the available forces leave open whether there is a player.")


def short_strength(line: Line, there: int) -> str:
    """Return the remark on a section that is smaller than the work wishes."""
    wanted = line.players[0] if line.players else 0
    how = "preferred" if line.strength == "preferred" else "written"
    return capital(f"{name(line.instrument, 2)}: {there} players for the {wanted} {how}.")
