"""Writes a map as a click: 16-bit WAV, one channel, a click on each beat, a higher one on the first of each bar.

Count-in bars come before the music, in the metre and at the tempo of its first bar; free bars and gaps are silent. A
subdivision, a note value in whole notes, puts softer clicks between the beats of a bar, counted from its beginning. The
first sample of a click is the one nearest to its beat. The level is that of the peaks in the file, in dB below full
scale; it says nothing about the loudness at an ear, which the volume decides.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import chain, pairwise
from math import cos, exp, floor, pi

from catalogue.timing.timeline import Bar, Timeline

SAMPLE_RATE = 48_000
PEAK_DB = -12.0
LENGTH = Fraction(30, 1000)  # seconds of one click
PITCHES = (1600.0, 1000.0, 700.0)  # Hz: first beat, other beats, between the beats
SOFTER_DB = -8.0  # between the beats, beside the beats
AT_ONCE = 786_432  # bytes of clicks with their silence, or of silence, that are written together
SILENCE = bytes(AT_ONCE)
REMEMBERED = 16  # runs of clicks: in a steady tempo they are all alike
PCM = 1  # format of whole-number samples in a WAV file
HEADER = 44  # bytes before the samples
LARGEST = 2**32 - 1  # bytes: a WAV file counts them in 32 bits

Run = tuple[tuple[int, int], ...]
"""Clicks one after another: the place of the sound of each among the three, and its samples until the next."""


class ClickError(ValueError):
    """A click that cannot be written; ``reason`` is one sentence."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


@dataclass(frozen=True, slots=True)
class Beat:
    """A beat of the click: when, counted from the beginning of the file, and whether it begins a bar.

    ``within`` marks one that stands between the beats.
    """

    seconds: Fraction
    accented: bool
    within: bool = False


def beats_of(line: Timeline, *, count_in: int = 1, subdivision: Fraction | None = None) -> tuple[Beat, ...]:
    """Return all beats of the click in order, the count-in first; an upbeat has no accent."""
    return tuple(
        Beat(begins + beat.seconds, beat.accented, beat.within)
        for begins, inside in _beats_by_bar(line, count_in, subdivision)
        for beat in inside
    )


def _beats_by_bar(
    line: Timeline, count_in: int, subdivision: Fraction | None
) -> Iterator[tuple[Fraction, Sequence[Beat]]]:
    """Give when the count-in and each bar begin, in seconds of the file, and the beats counted from there."""
    yield Fraction(0), _counted_in(line, count_in)
    before = count_in_seconds(line, count_in)
    bar: Bar | None = None
    inside: list[Beat] = []
    for played in line.bars:
        if bar is None or not _alike(bar, played.bar):
            bar = played.bar
            inside = _beats_of_bar(bar, subdivision)
        yield before + played.start if before else played.start, inside


def _alike(one: Bar, other: Bar) -> bool:
    """Whether the clicks of two bars come at the same moments: those of a steady passage, but for its hold."""
    if one is other:
        return True
    same = one.motion is not None and one.motion is other.motion and one.motion.steady
    return same and not one.hold and not other.hold


def _beats_of_bar(bar: Bar, subdivision: Fraction | None) -> list[Beat]:
    """Return the beats of a bar, counted from its beginning."""
    is_bar = bar.number > 0
    positions = _positions(bar, subdivision)
    return [Beat(bar.moment(position), is_bar and position == 0, within) for position, within in positions]


def count_in_seconds(line: Timeline, count_in: int) -> Fraction:
    """Return how long the count-in lasts: full bars and, before an upbeat, the rest of its bar.

    Nothing is counted in before a free bar.
    """
    return _seconds_at_first_tempo(line, _count_in_length(line, count_in))


def _count_in_length(line: Timeline, count_in: int) -> Fraction:
    """Return the length of the count-in in whole notes."""
    bar = _first_full_bar(line)
    if bar is None or count_in <= 0:
        return Fraction(0)
    upbeat = line.bars[0].bar
    rest = bar.length - upbeat.length if upbeat is not bar and upbeat.length < bar.length else Fraction(0)
    return bar.length * count_in + rest


def _first_full_bar(line: Timeline) -> Bar | None:
    """Return the bar whose metre is counted in: the first, or the one after the upbeat."""
    if not line.bars or line.bars[0].bar.metre is None:
        return None
    first = line.bars[0].bar
    following = line.bars[1].bar if len(line.bars) > 1 else first
    return following if first.number == 0 and following.metre else first


def _seconds_at_first_tempo(line: Timeline, length: Fraction) -> Fraction:
    motion = line.bars[0].bar.motion if line.bars else None
    return 60 * length / motion.start if motion else Fraction(0)


def _counted_in(line: Timeline, count_in: int) -> list[Beat]:
    bar, length = _first_full_bar(line), _count_in_length(line, count_in)
    if bar is None or length == 0:
        return []
    each = _seconds_at_first_tempo(line, bar.beat)
    return [Beat(each * index, index % bar.beats == 0) for index in range(-floor(-length / bar.beat))]


def _positions(bar: Bar, subdivision: Fraction | None) -> list[tuple[Fraction, bool]]:
    """Return where clicks stand in a bar, in whole notes, and whether each stands between the beats."""
    beats = [bar.beat * index for index in range(bar.beats)]
    if subdivision is None or not beats:
        return [(beat, False) for beat in beats]
    parts = {subdivision * index for index in range(-floor(-bar.length / subdivision))}
    return [(position, position not in beats) for position in sorted(parts.union(beats))]


def click_length(line: Timeline, *, count_in: int = 1, sample_rate: int = SAMPLE_RATE) -> int:
    """Return how many samples the click has: the count-in and the music, to the nearest sample."""
    return _sample(count_in_seconds(line, count_in) + line.end, sample_rate)


def click_wav(line: Timeline, *, count_in: int = 1, sample_rate: int = SAMPLE_RATE, peak_db: float = PEAK_DB) -> bytes:
    """Return the click of a timeline as the bytes of a WAV file. Raises ClickError where it would be too long."""
    return b"".join(click_chunks(line, count_in=count_in, sample_rate=sample_rate, peak_db=peak_db))


def click_chunks(
    line: Timeline,
    *,
    count_in: int = 1,
    sample_rate: int = SAMPLE_RATE,
    peak_db: float = PEAK_DB,
    subdivision: Fraction | None = None,
    samples: int | None = None,
) -> Iterator[bytes]:
    """Return the same bytes part by part, for files that are too large to be held at once. Raises ClickError at once.

    ``samples`` is how long the file is where that is more than the music: what follows is silent.
    """
    if peak_db > 0:
        raise ClickError("A peak above 0 dB would be clipped.")
    total = max(click_length(line, count_in=count_in, sample_rate=sample_rate), samples or 0)
    header = _header(total, sample_rate)
    clicks = _clicks(line, count_in, subdivision, sample_rate)
    return _chunks(header, clicks, total, sample_rate, peak_db)


def click_bytes(line: Timeline, *, count_in: int = 1, sample_rate: int = SAMPLE_RATE) -> int:
    """Return how long the file is, in bytes."""
    return HEADER + 2 * click_length(line, count_in=count_in, sample_rate=sample_rate)


def _clicks(line: Timeline, count_in: int, subdivision: Fraction | None, sample_rate: int) -> Iterator[tuple[int, int]]:
    """Give the first sample of each click and the place of its sound among the three.

    The sums are those of ``beats_of`` over a common denominator, without reducing each fraction: a click has
    thousands of beats.
    """
    for begins, inside in _beats_by_bar(line, count_in, subdivision):
        bar, of_bar = begins.as_integer_ratio()
        for beat in inside:
            offset, of_offset = beat.seconds.as_integer_ratio()
            yield _nearest(bar * of_offset + offset * of_bar, of_bar * of_offset, sample_rate), _kind(beat)


def _chunks(
    header: bytes, clicks: Iterator[tuple[int, int]], total: int, sample_rate: int, peak_db: float
) -> Iterator[bytes]:
    yield header
    sounds = _sounds(sample_rate, peak_db)
    first = next(clicks, (total, 0))
    yield from _silence(first[0])
    made: dict[Run, bytes] = {}
    for run in _runs(chain([first], clicks), total):
        block = made.get(run)
        if block is None:
            block = b"".join(_block(sounds[kind], length) for kind, length in run)
            made = {**made, run: block} if len(made) < REMEMBERED else {run: block}
        yield block
        yield from _silence(sum(length for _kind, length in run) - len(block) // 2)


def _runs(clicks: Iterator[tuple[int, int]], total: int) -> Iterator[Run]:
    """Gather clicks that are written together, each as its sound and how many samples it has until the next."""
    run: Run = ()
    size = 0
    for (start, kind), (until, _kind) in pairwise(chain(clicks, [(total, 0)])):
        run += ((kind, until - start),)
        size += 2 * (until - start)
        if size >= AT_ONCE:
            yield run
            run, size = (), 0
    if run:
        yield run


def _kind(beat: Beat) -> int:
    """Return the place of a beat's sound among the three."""
    return 0 if beat.accented else 2 if beat.within else 1


def _block(sound: bytes, samples: int) -> bytes:
    """Return a click with the silence after it, as far as they are written together."""
    size = min(2 * samples, AT_ONCE)
    return sound[:size].ljust(size, b"\0")


@lru_cache(maxsize=8)
def _sounds(sample_rate: int, peak_db: float) -> tuple[bytes, bytes, bytes]:
    """Return the click of a first beat, of another, and of what stands between."""
    first, other, between = PITCHES
    return (
        _sound(first, sample_rate, peak_db),
        _sound(other, sample_rate, peak_db),
        _sound(between, sample_rate, peak_db + SOFTER_DB),
    )


def _sample(seconds: Fraction, sample_rate: int) -> int:
    """Return the sample nearest to a time, the later of two: floor(seconds · rate + ½) in whole numbers."""
    return _nearest(*seconds.as_integer_ratio(), sample_rate)


def _nearest(above: int, below: int, sample_rate: int) -> int:
    return (2 * above * sample_rate + below) // (2 * below)


def _header(samples: int, sample_rate: int) -> bytes:
    """Return the head of a WAV file (RIFF, format chunk of PCM, data chunk)."""
    return wav_head(2 * samples, channels=1, sample_rate=sample_rate, bytes_a_sample=2)


def wav_head(size: int, *, channels: int, sample_rate: int, bytes_a_sample: int, format: int = PCM) -> bytes:
    """Return the head of a WAV file with so many bytes of samples. Raises ClickError where a file cannot be so long."""
    if size + size % 2 + 36 > LARGEST:
        raise ClickError("The file would be longer than a WAV file can be; write it movement by movement.")
    frame = channels * bytes_a_sample
    told = struct.pack(
        "<4sIHHIIHH", b"fmt ", 16, format, channels, sample_rate, frame * sample_rate, frame, 8 * bytes_a_sample
    )
    return struct.pack("<4sI4s", b"RIFF", 36 + size + size % 2, b"WAVE") + told + struct.pack("<4sI", b"data", size)


def _sound(pitch: float, sample_rate: int, peak_db: float) -> bytes:
    """Return one click: it begins at its peak, so that its first sample is its moment, and dies away."""
    peak = 32_767 * 10 ** (peak_db / 20)
    samples = int(LENGTH * sample_rate)
    values = (peak * cos(2 * pi * pitch * i / sample_rate) * exp(-6 * i / samples) for i in range(samples))
    return struct.pack(f"<{samples}h", *(round(value) for value in values))


def _silence(samples: int) -> Iterator[bytes]:
    whole, rest = divmod(2 * samples, AT_ONCE)
    yield from (SILENCE for _ in range(whole))
    if rest:
        yield SILENCE[:rest]
