"""When music sounds and how long it lasts: plain values, standard library only.

``durations``     Duration: whole seconds, exact or about; reads and writes 12′30″, 12:30, words, ISO 8601
``dates``         PartialDate: a day, a month, a year, about a year, a span of years; order, reading, wording
``moments``       the clock at a place and the moment in universal time
``words``         what all of these print and read, by language (``words.toml``)
``mistakes``      an error that knows its place in what was typed
"""

from __future__ import annotations

from catalogue.timing.dates import DateError, Order, PartialDate, read_date, write_date
from catalogue.timing.durations import Duration, DurationError, read_duration, write_duration
from catalogue.timing.mistakes import Mistake
from catalogue.timing.moments import MomentError, Occurs, clock_at, moment_at, occurs, read_clock_time, zone_named

__all__ = [
    "DateError",
    "Duration",
    "DurationError",
    "Mistake",
    "MomentError",
    "Occurs",
    "Order",
    "PartialDate",
    "clock_at",
    "moment_at",
    "occurs",
    "read_clock_time",
    "read_date",
    "read_duration",
    "write_date",
    "write_duration",
    "zone_named",
]
