"""What was found in files of sound and of scores, and what of it does not agree with what is said of them.

Lengths are in milliseconds, pages in millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import PurePath

from catalogue.rules.phrases import listed
from catalogue.rules.technical.checks import kilohertz
from catalogue.rules.technical.layouts import speakers_of
from catalogue.rules.technical.terms import Media, Setup

CLOSE = 2
"""Seconds by which a file and what is said of it may differ: silence at the ends is counted or not."""
ROUGHLY = 20
"""One part in so many by which a length that is said to be approximate may be another."""
MOST_TOLD = 8


@dataclass(frozen=True, slots=True)
class SoundFacts:
    """A file of sound by its own head; ``bits`` are those of a sample, none where it is packed with loss.

    ``is_cut`` where the file ends before its samples do; ``tags`` are names and texts as they stand in it.
    """

    milliseconds: int | None = None
    channels: int | None = None
    rate: int | None = None
    bits: int | None = None
    tags: tuple[tuple[str, str], ...] = ()
    is_cut: bool = False

    @property
    def seconds(self) -> int | None:
        """Its length to the second."""
        return None if self.milliseconds is None else (self.milliseconds + 500) // 1000


@dataclass(frozen=True, slots=True)
class PageSize:
    """So many pages of one size, as they are looked at: a page that is turned is as wide as it was high."""

    width: int
    height: int
    pages: int


@dataclass(frozen=True, slots=True)
class PdfFacts:
    """A PDF: its pages by number, from 1. ``loose_fonts`` are those that it names and does not hold.

    ``seen`` is how many pages were looked at closely; ``is_locked`` where nothing more is told without a password;
    ``is_damaged`` where the file was cut off or broken, and what is left of it was put together to be read.
    """

    pages: int = 0
    sizes: tuple[PageSize, ...] = ()
    fonts: int = 0
    loose_fonts: tuple[str, ...] = ()
    blank: tuple[int, ...] = ()
    turned: tuple[int, ...] = ()
    bookmarks: tuple[str, ...] = ()
    seen: int = 0
    is_locked: bool = False
    is_damaged: bool = False


@dataclass(frozen=True, slots=True)
class SaidOfRecording:
    """What the record of a recording says: seconds, and whether they are approximate; where the excerpt ends."""

    seconds: int | None = None
    is_approximate: bool = False
    excerpt_until: int | None = None


def clock(seconds: int) -> str:
    """Minutes and seconds, hours where there are any.

    >>> clock(178), clock(3723)
    ('2:58', '1:02:03')
    """
    hours, rest = divmod(seconds, 3600)
    return f"{hours}:{rest // 60:02}:{rest % 60:02}" if hours else f"{rest // 60}:{rest % 60:02}"


# ---- sound


def against_setup(sound: SoundFacts, *, name: str, sha256: str, setup: Setup) -> Iterator[str]:
    """What of a file does not agree with the setup that it belongs to, or with the line there that names it."""
    line = line_of(name, sha256, setup.media)
    said = line or Media(name)
    whose = "the list of media files" if line else "the setup"
    yield from unlike(sound, said, setup, whose)
    if line is None and setup.media:
        yield "No line of the setup’s media files names this file."
    if said.sha256 and said.sha256 != sha256:
        yield "The list of media files has another SHA-256: this is not the file that it means."


def line_of(name: str, sha256: str, media: tuple[Media, ...]) -> Media | None:
    """The line of a list that means a file: by its SHA-256, else by its name."""
    by_content = (one for one in media if one.sha256 == sha256)
    return next(by_content, None) or next((one for one in media if plain(one.name) == plain(name)), None)


def plain(name: str) -> str:
    """Return the name of a file without its folder, in small letters, to be compared."""
    return PurePath(name.replace("\\", "/")).name.strip().casefold()


def unlike(sound: SoundFacts, said: Media, setup: Setup, whose: str) -> Iterator[str]:
    rate, bits = said.rate or setup.sample_rate, said.bits or setup.bit_depth
    if sound.rate and rate and sound.rate != rate:
        yield f"The file has {kilohertz(sound.rate)}, {whose if said.rate else 'the setup'} {kilohertz(rate)}."
    if sound.bits and bits and sound.bits != bits:
        yield f"The file has {sound.bits} bits, {whose if said.bits else 'the setup'} {bits}."
    yield from unlike_channels(sound, said, setup, whose)
    if sound.seconds is not None and said.seconds and abs(sound.seconds - said.seconds) > CLOSE:
        yield f"The file lasts {clock(sound.seconds)}, {whose} says {clock(said.seconds)}."


def unlike_channels(sound: SoundFacts, said: Media, setup: Setup, whose: str) -> Iterator[str]:
    layout = len(speakers_of(setup))
    if sound.channels and said.channels and sound.channels != said.channels:
        yield f"The file has {counted(sound.channels, 'channel')}, {whose} {said.channels}."
    elif sound.channels and layout and sound.channels > layout and not said.channels:
        yield f"The file has {counted(sound.channels, 'channel')}, the layout {layout}."


def counted(number: int, thing: str) -> str:
    return f"1 {thing}" if number == 1 else f"{number} {thing}s"


def against_recording(sound: SoundFacts, said: SaidOfRecording) -> Iterator[str]:
    """What of a file does not agree with the record of the recording."""
    if sound.seconds is None:
        return
    if said.seconds:
        allowed = max(CLOSE, said.seconds // ROUGHLY) if said.is_approximate else CLOSE
        if abs(sound.seconds - said.seconds) > allowed:
            yield f"The file lasts {clock(sound.seconds)}, the record of the recording says {clock(said.seconds)}."
    if said.excerpt_until and said.excerpt_until > sound.seconds + CLOSE:
        yield f"The excerpt ends at {clock(said.excerpt_until)}, the file at {clock(sound.seconds)}."


def doubts_about_sound(sound: SoundFacts) -> Iterator[str]:
    """Say what is wrong with a sound file by itself."""
    if sound.is_cut:
        yield "The file ends before its sound does: it was cut off on its way; send it again."
    if sound.milliseconds is None and sound.channels is None:
        yield "Neither length nor channels could be read in this file."


# ---- scores


def doubts_about_pdf(pdf: PdfFacts, pages: int | None = None) -> Iterator[str]:
    """What somebody who prints this would ask; ``pages`` are those that the edition is said to have."""
    if pdf.is_locked:
        yield "This PDF is locked with a password; whoever is to print it needs one without."
        return
    if pdf.is_damaged:
        yield "This PDF is damaged, as one that was cut off on its way; send it again before anybody prints it."
    if pdf.loose_fonts:
        yield f"These fonts are not in the file, so that other printers take others: {told(pdf.loose_fonts)}."
    if pdf.blank:
        yield f"{numbered_pages(pdf.blank)} blank; say so to whoever prints it, or leave blanks out."
    if len(pdf.sizes) > 1:
        sizes = told(tuple(f"{one.width} × {one.height} mm ({one.pages})" for one in pdf.sizes))
        yield f"The pages are of {len(pdf.sizes)} sizes: {sizes}."
    if pages and pages != pdf.pages:
        yield f"The file has {counted(pdf.pages, 'page')}, the edition {pages}."


def numbered_pages(numbers: tuple[int, ...]) -> str:
    """Say which pages.

    >>> numbered_pages((2,)), numbered_pages((2, 4))
    ('Page 2 is', 'Pages 2 and 4 are')
    """
    return f"Page {numbers[0]} is" if len(numbers) == 1 else f"Pages {told(tuple(map(str, numbers)))} are"


def told(words: tuple[str, ...]) -> str:
    """Return the first few of many, and how many more there are."""
    return listed(words, most=MOST_TOLD)
