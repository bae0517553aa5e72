"""Score files: what a MusicXML file says of title, people, parts, bars and time, as an estimate to be confirmed.

``opening`` (container and limits), ``parsing`` with ``bars``, ``jumps``, ``words`` and ``figures`` (what is written),
``playing`` (the order of bars), ``lasting`` (seconds), ``forces`` with ``naming`` and ``doublings`` (instrumentation),
``tempo_text`` (a tempo map proposed), ``findings`` (all of it).
"""

from __future__ import annotations

from catalogue.exchange.scores.findings import Findings, read_in_steps, read_score, read_xml
from catalogue.exchange.scores.model import ScoreError

__all__ = ["Findings", "ScoreError", "read_in_steps", "read_score", "read_xml"]
