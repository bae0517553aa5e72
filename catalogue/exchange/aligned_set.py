"""Click and media of a work as one aligned set: every file begins at the same zero, is as long, and has the same rate.

Zero is the beginning of the count-in. Each cue that plays a file has one of its own in the set, silent until its cue;
the click has its own, of one channel. The set is a ZIP archive that is written while it is sent.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import floor
from pathlib import PurePosixPath

from catalogue.exchange.media_files import MediaError, Wave
from catalogue.facts import CueFacts
from catalogue.rules.phrases import listed
from catalogue.timing import Timeline, click_chunks, count_in_seconds
from catalogue.timing.click import click_length, wav_head

FIXED = (2000, 1, 1, 0, 0, 0)
CHUNK = 65_536
CAUTION = (
    "A click is a sharp, loud sound. Turn the volume right down before anyone puts on headphones or in-ear monitors, "
    "then raise it; let everybody set their own level. The level of a file says nothing about the level at an ear: "
    "keep to the local rules on noise at work, and ask those who are responsible for them."
)


@dataclass(frozen=True, slots=True)
class Laid:
    """A file as its cue plays it: from which second of the work."""

    cue: CueFacts
    seconds: Fraction
    wave: Wave


@dataclass(frozen=True, slots=True)
class Plan:
    """What the set holds: the work's bars, what is laid where, and how the click goes."""

    line: Timeline
    laid: tuple[Laid, ...]
    count_in: int = 1
    subdivision: Fraction | None = None

    @property
    def sample_rate(self) -> int:
        return self.laid[0].wave.sample_rate

    @property
    def zero(self) -> Fraction:
        """The seconds of the count-in, by which the music comes later than the files begin."""
        return count_in_seconds(self.line, self.count_in)

    def begins(self, one: Laid) -> int:
        """The sample at which a file sets in."""
        return floor((self.zero + one.seconds) * self.sample_rate + Fraction(1, 2))

    @property
    def samples(self) -> int:
        """How long every file of the set is."""
        click = click_length(self.line, count_in=self.count_in, sample_rate=self.sample_rate)
        return max(click, *(self.begins(one) + one.wave.frames for one in self.laid))


def plan_of(plan: Plan) -> Plan:
    """Return the plan where it can be written. Raises MediaError, ClickError."""
    rates = sorted({one.wave.sample_rate for one in plan.laid})
    if not rates:
        raise MediaError("None of the files is named at a cue that has a time.")
    if len(rates) > 1:
        told = listed([str(rate) for rate in rates])
        raise MediaError(f"The files have several rates ({told} Hz); bring them to one first.")
    for one in plan.laid:
        head_of(plan, one.wave)
    return replace(plan, laid=tuple(sorted(plan.laid, key=lambda one: one.seconds)))


def head_of(plan: Plan, wave: Wave) -> bytes:
    return wav_head(
        plan.samples * wave.frame,
        channels=wave.channels,
        sample_rate=wave.sample_rate,
        bytes_a_sample=wave.bytes_a_sample,
        format=wave.format,
    )


# ---- writing


class Outlet(io.RawIOBase):
    """Where an archive is written that nobody can go back in; what has come is taken out part by part."""

    def __init__(self) -> None:
        super().__init__()
        self.written = bytearray()

    def writable(self) -> bool:
        return True

    def write(self, part: object) -> int:
        view = memoryview(part)  # type: ignore[arg-type]
        self.written += view
        return len(view)

    def taken(self) -> bytes:
        taken = bytes(self.written)
        self.written.clear()
        return taken


def set_chunks(plan: Plan) -> Iterator[bytes]:
    """Give the archive part by part."""
    outlet = Outlet()
    with zipfile.ZipFile(outlet, "w", zipfile.ZIP_STORED) as archive:
        files = [(file_name(place, one), media_chunks(plan, one)) for place, one in enumerate(plan.laid, start=1)]
        click = click_chunks(
            plan.line,
            count_in=plan.count_in,
            sample_rate=plan.sample_rate,
            subdivision=plan.subdivision,
            samples=plan.samples,
        )
        for name, parts in (("set.txt", iter([told(plan)])), ("00-click.wav", click), *files):
            with archive.open(zipfile.ZipInfo(name, FIXED), "w", force_zip64=True) as entry:
                for part in parts:
                    entry.write(part)
                    yield outlet.taken()
        yield outlet.taken()
    yield outlet.taken()


def media_chunks(plan: Plan, one: Laid) -> Iterator[bytes]:
    """Give a file of the set: its head, silence until its cue, its samples, silence to the end."""
    wave, begins = one.wave, plan.begins(one)
    yield head_of(plan, wave)
    yield from silence(begins * wave.frame)
    yield from wave.samples()
    rest = (plan.samples - begins - wave.frames) * wave.frame
    yield from silence(rest + plan.samples * wave.frame % 2)


def silence(size: int) -> Iterator[bytes]:
    while size > 0:
        yield bytes(min(CHUNK, size))
        size -= CHUNK


def file_name(place: int, one: Laid) -> str:
    """Return a file's name in the set: in order, with its cue and what it was called."""
    cue = "".join(letter if letter.isalnum() else "-" for letter in one.cue.number)
    return f"{place:02}-cue-{cue}-{PurePosixPath(one.wave.name).name}"


def told(plan: Plan) -> bytes:
    """Say what is in the set, for whoever opens it."""
    seconds = float(Fraction(plan.samples, plan.sample_rate))
    lines = [
        f"Every file begins at the same zero, lasts {seconds:.3f} s ({plan.samples} samples) "
        f"and is sampled at {plan.sample_rate} Hz.",
        f"The music begins at {float(plan.zero):.3f} s, after the count-in.",
        "",
        "00-click.wav: the click, mono, peaks at -12 dBFS",
    ]
    for place, one in enumerate(plan.laid, start=1):
        at = float(Fraction(plan.begins(one), plan.sample_rate))
        channels = "one channel" if one.wave.channels == 1 else f"{one.wave.channels} channels"
        lines.append(f"{file_name(place, one)}: cue {one.cue.number} at {at:.3f} s, {channels}")
    return "\n".join([*lines, "", CAUTION, ""]).encode()
