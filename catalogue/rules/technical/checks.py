"""What does not agree in a technical setup: sentences for whoever wrote it, none of which keeps it from being saved.

That condenser microphones want phantom power, ribbons and line sources do not, and that a click never goes to the
audience, are common practice.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from catalogue.rules.technical.layouts import speakers_of
from catalogue.rules.technical.media import file_bytes, megabytes, most_seconds_in_wav
from catalogue.rules.technical.terms import Channels, Feed, Input, Media, Output, Place, Send, Setup
from catalogue.terms import LayoutName, Synchronisation
from catalogue.timing import PartialDate

USUAL_AGE = 24
"""Months after which a documentation or a test wants to be done again, unless the setup names another age."""
CLICK = re.compile(r"\bclick", re.IGNORECASE)
RIBBON = re.compile(r"\bribbon\b", re.IGNORECASE)
CONDENSER = re.compile(r"\bcondensers?\b", re.IGNORECASE)
WAV = re.compile(r"\.wave?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Finding:
    """What does not agree, in one sentence, and the list in which it is mended."""

    about: str
    sentence: str


def findings(setup: Setup, *, today: date) -> tuple[Finding, ...]:
    """All that does not agree, and what was tried or documented too long ago for the setup."""
    return (
        *(Finding("inputs", one) for one in of_inputs(setup)),
        *(Finding("outputs", one) for one in of_outputs(setup)),
        *(Finding("media", one) for one in of_media(setup)),
        *(Finding("software", one) for one in of_software(setup)),
        *(Finding("places", one) for one in of_places(setup)),
        *without_provider(setup),
        *of_age(setup, today, setup.good_for or USUAL_AGE),
    )


# ---- channels


def twice(rows: tuple[Input, ...] | tuple[Output, ...]) -> list[int]:
    """The channels that more than one row has."""
    count = Counter(channel for row in rows for channel in numbered(row.channels))
    return sorted(channel for channel, times in count.items() if times > 1)


def numbered(channels: Channels) -> range:
    return range(channels.first, channels.last + 1)


def of_inputs(setup: Setup) -> Iterator[str]:
    for channel in twice(setup.inputs):
        yield f"Input {channel} is used twice."
    for one in setup.inputs:
        if one.phantom and one.feed in {Feed.LINE, Feed.DIGITAL}:
            yield f"Input {one.channels}, {one.source}: phantom power on a {one.feed} source can damage it."
        elif one.phantom and RIBBON.search(one.line):
            yield f"Input {one.channels}, {one.source}: phantom power can damage a ribbon microphone."
        elif not one.phantom and CONDENSER.search(one.line):
            yield f"Input {one.channels}, {one.source}: a condenser microphone wants phantom power; say 48 V."


def of_outputs(setup: Setup) -> Iterator[str]:
    for channel in twice(setup.outputs):
        yield f"Output {channel} is used twice."
    yield from against_layout(setup)
    clicked = [one for one in setup.outputs if CLICK.search(f"{one.signal} {one.destination}")]
    for one in clicked:
        if one.send in {Send.LOUDSPEAKER, Send.SUBWOOFER}:
            yield f"Output {one.channels}, {one.destination}: a click goes to the players alone, never to the audience."
    if setup.synchronisation is Synchronisation.CLICK and not clicked:
        yield "The players follow a click, but no output carries one."


def against_layout(setup: Setup) -> Iterator[str]:
    """Whether as many outputs lead to loudspeakers as the layout has channels."""
    if setup.layout is LayoutName.NONE:
        if any(one.send is Send.LOUDSPEAKER for one in setup.outputs):
            yield "Outputs lead to loudspeakers, but nothing says how those stand."
        return
    if setup.layout is LayoutName.OWN and not setup.own_speakers:
        yield "The layout is an own one; write out its loudspeakers."
        return
    speakers = speakers_of(setup)
    for sends, is_low, what in ((Send.LOUDSPEAKER, False, "loudspeakers"), (Send.SUBWOOFER, True, "low channels")):
        wanted = sum(speaker.is_low is is_low for speaker in speakers)
        there = sum(len(one.channels) for one in setup.outputs if one.send is sends)
        if there != wanted and (not is_low or there < wanted):
            yield f"The layout has {wanted} {what}, the output list {there}."


# ---- files and programs


def of_media(setup: Setup) -> Iterator[str]:
    rates = sorted({one.rate for one in setup.media if one.rate})
    meant = setup.sample_rate or (rates[0] if len(rates) == 1 else None)
    if meant is None and rates:
        yield f"The media files have {len(rates)} sample rates; say which one is played."
    channels = len(speakers_of(setup))
    for one in setup.media:
        if meant and one.rate and one.rate != meant:
            yield f"“{one.name}” has {kilohertz(one.rate)}, the setup {kilohertz(meant)}."
        if channels and one.channels and one.channels > channels:
            yield f"“{one.name}” has {one.channels} channels, the layout {channels}."
        yield from of_size(one)


def of_size(media: Media) -> Iterator[str]:
    size = file_bytes(media)
    if size is None or not WAV.search(media.name):
        return
    longest = most_seconds_in_wav(media.channels or 0, media.bits or 0, media.rate or 0)
    if (media.seconds or 0) > longest:
        minutes, seconds = divmod(longest, 60)
        yield (
            f"“{media.name}” would have {megabytes(size)} MB: a WAV file ends at 4 GiB, here after "
            f"{minutes}:{seconds:02}; write RF64 or BW64, or several files."
        )


def kilohertz(rate: int) -> str:
    """A sample rate as it is said.

    >>> kilohertz(44_100), kilohertz(48_000)
    ('44.1 kHz', '48 kHz')
    """
    return f"{rate / 1000:g} kHz"


def of_software(setup: Setup) -> Iterator[str]:
    for one in setup.software:
        if not one.version:
            yield f"“{one.name}” has no version; another one may not open the work."


def of_places(setup: Setup) -> Iterator[str]:
    known = {channel for one in setup.inputs for channel in numbered(one.channels)}
    for place in setup.places:
        for number in map(int, re.findall(r"\d{1,3}", place.channels)):
            if known and number not in known:
                yield f"“{place.name}” on the stage plan has channel {number}, which is not in the input list."
        yield from off_the_stage(place, setup)


def off_the_stage(place: Place, setup: Setup) -> Iterator[str]:
    """Whether a place lies beside or behind a stage of the size that is asked for; before it is the hall."""
    width, depth = setup.stage_width, setup.stage_depth
    if width and place.y >= 0 and abs(place.x) > width / 2:
        yield f"“{place.name}” is {abs(place.x):g} m from the middle of a stage that is {width:g} m wide."
    if depth and place.y > depth:
        yield f"“{place.name}” is {place.y:g} m from the front edge of a stage that is {depth:g} m deep."


# ---- who, and when


def without_provider(setup: Setup) -> Iterator[Finding]:
    told = (
        *(("inputs", f"input {one.channels}, {one.source}", one.provider) for one in setup.inputs),
        *(("outputs", f"output {one.channels}, {one.destination}", one.provider) for one in setup.outputs),
        *(("equipment", one.name, one.provider) for one in setup.equipment),
        *(("software", one.name, one.provider) for one in setup.software),
        *(("staff", one.role, one.provider) for one in setup.staff),
    )
    for about, name, provider in told:
        if not provider:
            yield Finding(about, f"Nobody is said to provide: {name}.")


def of_age(setup: Setup, today: date, oldest: int) -> Iterator[Finding]:
    for word, when in (("documented", setup.documented), ("tested", setup.tested)):
        if when is not None and months_between(when, today) > oldest:
            sentence = f"This setup was last {word} more than {oldest} months ago; try it once more before it is sent."
            yield Finding(word, sentence)
    if setup.documented is None:
        yield Finding("documented", "Nothing says when this setup was documented.")


def months_between(when: PartialDate, today: date) -> int:
    """Whole months from the last day that is meant."""
    last = when.last
    return (today.year - last.year) * 12 + today.month - last.month - (today.day < last.day)
