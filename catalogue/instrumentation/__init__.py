"""Instrumentation: which players a work needs, read from every usual dress of the trade's shorthand.

=====================  ====================================================================
``model``              the values: Instrumentation, Line, Chair, Remark, and the error
``vocabulary``         instruments by name: spellings, families, score order, outside codes
``reading``            text in any usual dress to Instrumentation, by the modules it calls
``orchestras``         the families of orchestral texts, each remembered once it has been read
``lists``              the pieces of plain lists, remembered likewise
``line_ups``           texts that name one set of players or another, ``…; or 2 vn, pf``
``writing``            the canonical shorthand
``wording``            the forces in words, in six languages (``grammar``: gender, ordinals, lists)
``page``               the instrumentation page of a score, a line for each chair
``parts``              the set of parts, in score order
``fit``                whether a body of players can play a work (``seats``, ``playing``, ``matching``)
``building``           forces put together step by step
``marc``, ``sounds``   library and score codes
``bodies``             which lines are a section and which single players
=====================  ============================================================="""

from __future__ import annotations

from catalogue.instrumentation.model import Chair, Instrumentation, InstrumentationError, Line, Remark
from catalogue.instrumentation.reading import read
from catalogue.instrumentation.vocabulary import Instrument, called, family_of, instrument, instruments, score_order
from catalogue.instrumentation.wording import write_sentence, write_words
from catalogue.instrumentation.writing import shorthand
from catalogue.instrumentation.writing import shorthand as write_shorthand

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
    "write_sentence",
    "write_shorthand",
    "write_words",
]
