"""When music sounds and how long it lasts: plain values, standard library only.

``durations``        Duration: whole seconds, exact or about; reads and writes 12′30″, 12:30, words, ISO 8601
``dates``            PartialDate: a day, a month, a year, about a year, a span of years; order, reading, wording
``moments``          the clock at a place and the moment in universal time
``patterns``         regular expressions that are compiled when they are first asked
``words``            what these print and read, by language (``words.toml``)
``mistakes``         an error that knows its place in what was typed

``tempo_maps``       TempoMap: passages, repeats, cuts, movements as values
``tempo_reading``    text → TempoMap; its docstring is the grammar
``tempo_structure``  whether the lines fit together, and in which order the bars are played
``tempo_writing``    TempoMap → canonical text
``motion``           the seconds of a steady or changing tempo: the formulas
``timeline``         every bar as it sounds, with its time
``reckoned``         Reckoned: a map with its timeline, from the text
``places``           37.3.5, 7.1@2, 2:7.1 or 12:30 → seconds, and back
``comparison``       durations that ought to agree and do not

``midi``             timeline → Standard MIDI File
``click``            timeline → WAV
"""

from __future__ import annotations

from catalogue.timing.click import ClickError, click_bytes, click_chunks, click_wav, count_in_seconds
from catalogue.timing.comparison import Disagreement, map_disagrees, movements_disagree
from catalogue.timing.dates import DateError, Order, PartialDate, read_date, write_date
from catalogue.timing.durations import Duration, DurationError, read_duration, write_duration
from catalogue.timing.midi import Marker, midi_file
from catalogue.timing.mistakes import Mistake
from catalogue.timing.moments import (
    MomentError,
    Occurs,
    clock_at,
    moment_at,
    occurs,
    print_clock_time,
    read_clock_time,
    steady_clocks,
    write_clock_time,
    zone_named,
)
from catalogue.timing.places import Place, PlaceError, place_at, read_place, seconds_of
from catalogue.timing.reckoned import Reckoned, reckon
from catalogue.timing.tempo_maps import TempoMap
from catalogue.timing.tempo_reading import TempoError, read_tempo_map
from catalogue.timing.tempo_writing import write_tempo_map
from catalogue.timing.timeline import Timeline, duration_of, timeline

__all__ = [
    "ClickError",
    "DateError",
    "Disagreement",
    "Duration",
    "DurationError",
    "Marker",
    "Mistake",
    "MomentError",
    "Occurs",
    "Order",
    "PartialDate",
    "Place",
    "PlaceError",
    "Reckoned",
    "TempoError",
    "TempoMap",
    "Timeline",
    "click_bytes",
    "click_chunks",
    "click_wav",
    "clock_at",
    "count_in_seconds",
    "duration_of",
    "map_disagrees",
    "midi_file",
    "moment_at",
    "movements_disagree",
    "occurs",
    "place_at",
    "print_clock_time",
    "read_clock_time",
    "read_date",
    "read_duration",
    "read_place",
    "read_tempo_map",
    "reckon",
    "seconds_of",
    "steady_clocks",
    "timeline",
    "write_clock_time",
    "write_date",
    "write_duration",
    "write_tempo_map",
    "zone_named",
]
