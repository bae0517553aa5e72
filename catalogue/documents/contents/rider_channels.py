"""The tables of a rider: what comes in, what goes out, how the loudspeakers stand, what is played, and the cues."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from catalogue.documents.contents.cue_sheet import clock
from catalogue.documents.contents.rider_words import usual, usual_text
from catalogue.documents.contents.stage import ring_of
from catalogue.documents.labels import Labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Figure,
    Group,
    Pair,
    Pairs,
    Paragraph,
    Style,
    Table,
    Text,
    Voice,
    joined,
    plain,
    value,
    wording,
)
from catalogue.facts import TimingFacts
from catalogue.rules.cues import placed_cues
from catalogue.rules.technical.checks import CLICK, kilohertz
from catalogue.rules.technical.layouts import angle_text, speakers_of
from catalogue.rules.technical.media import file_bytes, megabytes
from catalogue.rules.technical.terms import Media, Output, Setup
from catalogue.terms import LayoutName, Synchronisation
from catalogue.timing import Duration, Reckoned, TempoError, duration_of, reckon

PROVIDERS = ("composer", "presenter", "hall", "player", "players", "technician", "publisher", "ensemble")
"""Those whose word is printed in the language of the rider; everybody else as typed."""
MOST_CUES = 20
RING = 0.36
"""The share of the page that a ring of loudspeakers is drawn in."""
Heads = tuple[tuple[str, str], ...]


def table_of(heads: Heads, rows: Iterable[tuple[Text, ...]], says: Labels) -> Table:
    """A table of texts; a column in which nothing stands is left out."""
    told = list(rows)
    kept = [place for place in range(len(heads)) if any(row[place] for row in told)]
    columns = tuple(Column(heads[place][0], wording(says.word(heads[place][1]))) for place in kept)
    cells = tuple(tuple(Cell((row[place],)) if row[place] else Cell() for place in kept) for row in told)
    return Table(columns, (Group((), cells),))


def provider_text(provider: str, says: Labels) -> Text:
    """Who provides something; to be agreed where nobody has been said."""
    if not provider:
        return wording(says.word("to be agreed"), Style.EMPHASIS)
    return wording(says.word(provider)) if provider in PROVIDERS else value(provider)


# ---- in and out


INPUT_HEADS: Heads = (
    ("input", "Ch."),
    ("source", "Source"),
    ("line", "Microphone or line"),
    ("stand", "Stand"),
    ("phantom", "48 V"),
    ("insert", "Insert"),
    ("to", "To"),
    ("in-from", "Brought by"),
)
OUTPUT_HEADS: Heads = (
    ("output", "Output"),
    ("destination", "Destination"),
    ("signal", "Signal"),
    ("heard", "Heard by"),
    ("out-from", "Brought by"),
)


def input_table(setup: Setup, says: Labels) -> Iterator[Block]:
    if not setup.inputs:
        return
    rows = (
        (
            wording(str(one.channels)),
            usual_text(one.source, says),
            value(says.parted((usual(one.line, says), one.remark))),
            usual_text(one.stand, says),
            wording(says.word("yes")) if one.phantom else (),
            usual_text(one.insert, says),
            usual_text(one.to, says),
            provider_text(one.provider, says),
        )
        for one in setup.inputs
    )
    yield table_of(INPUT_HEADS, rows, says)


def output_table(setup: Setup, says: Labels) -> Iterator[Block]:
    if not setup.outputs:
        return
    rows = (
        (
            wording(str(one.channels)),
            usual_text(one.destination, says),
            value(says.parted((usual(one.signal, says), one.remark))),
            usual_text(one.heard_by, says),
            provider_text(one.provider, says),
        )
        for one in setup.outputs
    )
    yield table_of(OUTPUT_HEADS, rows, says)
    if any(carries_click(one) for one in setup.outputs):
        yield Paragraph(wording(says.word("The click goes to the players alone, never to the audience.")), Voice.NOTE)


def carries_click(output: Output) -> bool:
    return CLICK.search(f"{output.signal} {output.destination}") is not None


# ---- loudspeakers


SPEAKER_HEADS: Heads = (("speaker", "Loudspeaker"), ("azimuth", "Azimuth"), ("elevation", "Elevation"))
LAYOUTS = {
    LayoutName.STEREO: "Stereo",
    LayoutName.QUAD: "Four in a square",
    LayoutName.FIVE_ONE: "5.1 (Recommendation ITU-R BS.775)",
    LayoutName.SEVEN_ONE: "7.1",
    LayoutName.OCTO_PAIR: "Eight in a ring, a pair in front",
    LayoutName.OCTO_CENTRE: "Eight in a ring, one in front",
    LayoutName.DOME: "A dome of sixteen",
    LayoutName.OWN: "A layout of its own",
}


def layout_blocks(setup: Setup, says: Labels) -> Iterator[Block]:
    """The ring as a picture, each loudspeaker with its angles, and how the angles are meant."""
    speakers = speakers_of(setup)
    ring = ring_of(speakers, says)
    if ring is None:
        return
    name = says.word(LAYOUTS[setup.layout])
    yield Figure(ring, says.say("{layout}, seen from above", layout=name), RING)
    rows = (
        (
            usual_text(one.name, says),
            wording(says.word("anywhere") if one.is_low else says.figure(angle_text(one.azimuth))),
            wording(says.word("low frequencies alone") if one.is_low else says.figure(angle_text(one.elevation))),
        )
        for one in speakers
    )
    yield table_of(SPEAKER_HEADS, rows, says)
    order = says.say("Channels in this order: {order}.", order=", ".join(usual(one.name, says) for one in speakers))
    rule = wording(
        says.word(
            "0° is the stage, minus is left seen from the audience; all at one distance or delayed to the furthest one."
        )
    )
    yield Paragraph((*order, *wording(" "), *rule), Voice.NOTE)


# ---- what is played


FILE_HEADS: Heads = (
    ("file", "File"),
    ("file-channels", "Channels"),
    ("rate", "Rate"),
    ("bits", "Bit"),
    ("length", "Length"),
    ("size", "Size"),
    ("use", "What for"),
)
SYNCHRONISATION = {
    Synchronisation.CLICK: "a click",
    Synchronisation.EAR: "ear, from the score",
    Synchronisation.PEDAL: "cues by pedal",
    Synchronisation.OPERATOR: "cues by an operator",
    Synchronisation.STOPWATCH: "a stopwatch",
}


def playback_blocks(setup: Setup, says: Labels) -> Iterator[Block]:
    facts = tuple(Pair(wording(says.word(label)), text) for label, text in playback_facts(setup, says) if text)
    if facts:
        yield Pairs((facts,))
    if setup.media:
        yield table_of(FILE_HEADS, (file_row(one, says) for one in setup.media), says)
        sums = [f"{one.name}: {one.sha256}" for one in setup.media if one.sha256]
        if sums:
            yield Paragraph(says.say("SHA-256 of the files: {sums}.", sums=says.semicolon.join(sums)), Voice.NOTE)


def playback_facts(setup: Setup, says: Labels) -> Iterator[tuple[str, Text]]:
    kept = SYNCHRONISATION.get(setup.synchronisation, "")
    by = wording(says.word(kept) if kept else "")
    yield "Kept together by", joined((by, value(setup.synchronisation_note)), says.semicolon)
    clicks = [one for one in setup.outputs if carries_click(one)]
    yield "Click", value(says.parted(f"{one.channels} {usual(one.destination, says)}" for one in clicks))
    rate = says.figure(kilohertz(setup.sample_rate)) if setup.sample_rate else ""
    bits = f"{setup.bit_depth} bit" if setup.bit_depth else ""
    yield "Format", value(", ".join(part for part in (rate, bits) if part))
    yield "Latency", value(says.figure(f"{setup.latency_ms.normalize():f} ms") if setup.latency_ms is not None else "")
    sizes = [file_bytes(one) or 0 for one in setup.media]
    together = says.figure(megabytes(sum(sizes)))
    yield "Files together", says.say("{size} MB (10⁶ bytes)", size=together) if sum(sizes) else ()


def file_row(media: Media, says: Labels) -> tuple[Text, ...]:
    size = file_bytes(media)
    return (
        value(media.name, exact=True),
        value(str(media.channels or "")),
        value(says.figure(kilohertz(media.rate)) if media.rate else ""),
        value(str(media.bits or "")),
        wording(clock(Duration(media.seconds), says) if media.seconds else ""),
        says.say("{size} MB", size=says.figure(megabytes(size))) if size else (),
        value(media.use),
    )


# ---- cues


CUE_HEADS: Heads = (
    ("cue", "Cue"),
    ("bar", "Bar"),
    ("time", "Time"),
    ("action", "What happens"),
    ("media", "Media"),
)


def cue_blocks(timing: TimingFacts, says: Labels) -> Iterator[Block]:
    """The first cues, and how many there are where the sheet has more."""
    if not timing.cues:
        return
    placed = placed_cues(timing.cues, reckoned_or_none(timing))
    rows = (
        (
            value(one.cue.number, Style.STRONG),
            value(one.bar),
            wording(clock(duration_of(one.seconds), says)) if one.seconds is not None else (),
            value(one.cue.action),
            value(one.cue.media, exact=True),
        )
        for one in placed[:MOST_CUES]
    )
    yield table_of(CUE_HEADS, rows, says)
    if len(placed) > MOST_CUES:
        more = says.count(
            "{n} more cue stands in the cue sheet, a document of its own.",
            "{n} more cues stand in the cue sheet, a document of its own.",
            len(placed) - MOST_CUES,
        )
        yield Paragraph(wording(more), Voice.NOTE)


def reckoned_or_none(timing: TimingFacts) -> Reckoned | None:
    try:
        return reckon(timing.tempo_map)
    except TempoError:
        return None


def lines_of(table: Table) -> tuple[str, ...]:
    """The rows of a table, each as one line of text."""
    rows = (row for group in table.groups for row in group.rows)
    return tuple("; ".join(plain(line) for cell in row for line in cell.lines if line) for row in rows)
