"""Instrumentation: which players a work needs, read from every usual dress of the trade's shorthand.

=====================  ====================================================================
``model``              the values: Instrumentation, Line, Chair, Remark, and the error
``vocabulary``         instruments by name: spellings, families, score order, outside codes
=====================  ====================================================================
"""

from __future__ import annotations

from catalogue.instrumentation.model import Chair, Instrumentation, InstrumentationError, Line, Remark
from catalogue.instrumentation.reading import read
from catalogue.instrumentation.vocabulary import Instrument, called, family_of, instrument, instruments, score_order
from catalogue.instrumentation.writing import shorthand

__all__ = [
    "Chair",
    "Instrument",
    "Instrumentation",
    "InstrumentationError",
    "Line",
    "Remark",
    "called",
    "family_of",
    "instrument",
    "instruments",
    "read",
    "score_order",
    "shorthand",
]
