"""The technical rider on the page: tables of channels over the whole width, a stage plan, a ring of loudspeakers."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.sheets.geometry import (
    FOOT_NOTE,
    KIND,
    ColumnSheet,
    Look,
    Margins,
    NoteSheet,
    OpeningSheet,
    PairsSheet,
    RuledTableSheet,
    SectionSheet,
    Sheet,
    SignaturesSheet,
    U,
)
from catalogue.documents.sheets.paper import MM

WIDE = 481.9
HALF = 228
LABEL, VALUE = Look("serif", 8.25, 11.25, italic=True), Look("serif", 8.25, 11.25)
TEXT = Look("sans", 8, 10.5, emphasis=7.25)

RIDER = Sheet(
    margins=Margins(left=22 * MM, right=18 * MM, first=62, later=66, last=58, foot=13 * MM, running_x=0),
    opening=OpeningSheet(x=0, subtitle=KIND, subtitle_lead=1.4 * U, aside=Look("serif", 8.25, italic=True)),
    section=SectionSheet(x=0, lead=1.8 * U, first_lead=1.8 * U, after=1.2 * U, whole=0.45, word_lead=6),
    pairs=PairsSheet(columns=((0, 72, 236), (252, 324, WIDE)), alone=(0, 92, WIDE), label=LABEL, value=VALUE),
    ruled_table=RuledTableSheet(
        columns={
            "item": ColumnSheet(0, 136),
            "what": ColumnSheet(142, 368),
            "from": ColumnSheet(374, 430),
            "agreed": ColumnSheet(434, WIDE),
            "lack": ColumnSheet(0, 300),
            "wanted": ColumnSheet(310, 360, right=True),
            "there": ColumnSheet(370, 440, right=True),
            "input": ColumnSheet(0, 26),
            "source": ColumnSheet(30, 150),
            "line": ColumnSheet(154, 270),
            "stand": ColumnSheet(274, 316),
            "phantom": ColumnSheet(318, 340),
            "insert": ColumnSheet(342, 382),
            "to": ColumnSheet(384, 426),
            "in-from": ColumnSheet(428, WIDE),
            "output": ColumnSheet(0, 26),
            "destination": ColumnSheet(30, 180),
            "signal": ColumnSheet(184, 330),
            "heard": ColumnSheet(334, 422),
            "out-from": ColumnSheet(428, WIDE),
            "speaker": ColumnSheet(0, 150),
            "azimuth": ColumnSheet(160, 240, right=True),
            "elevation": ColumnSheet(250, 360, right=True),
            "file": ColumnSheet(0, 124),
            "file-channels": ColumnSheet(128, 166, right=True),
            "rate": ColumnSheet(170, 216, right=True),
            "bits": ColumnSheet(218, 240, right=True),
            "length": ColumnSheet(244, 280, right=True),
            "size": ColumnSheet(284, 330, right=True),
            "use": ColumnSheet(342, WIDE),
            "cue": ColumnSheet(0, 30),
            "bar": ColumnSheet(34, 74),
            "time": ColumnSheet(78, 116),
            "action": ColumnSheet(122, 350),
            "media": ColumnSheet(356, WIDE),
            "place": ColumnSheet(0, 26),
            "player": ColumnSheet(30, 200),
            "where": ColumnSheet(206, 360),
            "place-channels": ColumnSheet(366, WIDE),
            "when": ColumnSheet(0, 110),
            "then": ColumnSheet(116, WIDE),
            "change": ColumnSheet(0, 60),
            "change-line": ColumnSheet(66, WIDE),
            "who": ColumnSheet(0, 110),
            "things": ColumnSheet(116, WIDE),
        },
        halved={
            "output": ColumnSheet(0, 27),
            "destination": ColumnSheet(31, 82),
            "signal": ColumnSheet(85, 138),
            "heard": ColumnSheet(141, 184),
            "out-from": ColumnSheet(187, HALF),
            "speaker": ColumnSheet(0, 96),
            "azimuth": ColumnSheet(100, 146, right=True),
            "elevation": ColumnSheet(150, HALF, right=True),
            "when": ColumnSheet(0, 62),
            "then": ColumnSheet(66, HALF),
        },
        head=Look("sans", 7, 10.5),
        row=14,
        baseline=4.2,
        family_baseline=3.9,
        cell=TEXT,
        head_lead=1.3 * U,
        family_column="item",
    ),
    prose=NoteSheet(x=0, short=60, look=Look("serif", 9.25, 12.5), lead=1.1 * U, indent=U),
    note=NoteSheet(look=Look("serif", 7.75, 10.125), lead=1.3 * U, word_air=(1, 6)),
    signatures=SignaturesSheet(lead=2.6 * U),
    foot_note=FOOT_NOTE,
)

LETTER = replace(
    RIDER,
    margins=replace(RIDER.margins, last=50, foot=11 * MM),
    section=replace(RIDER.section, word_lead=2),
    figure=replace(RIDER.figure, half_share=0.78, smaller=0.86),
    ruled_table=replace(RIDER.ruled_table, row=13.6, baseline=4, family_baseline=3.7),
)
"""Letter is 18 mm shorter than A4: rows, foot, ring are smaller, so that most riders have as many pages on either."""
