"""What a condition of a call makes of a work: yes, no or cannot tell, with the reason and the record it rests on."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from typing import NamedTuple


class Verdict(StrEnum):
    """What a condition makes of a work."""

    YES = "yes"
    NO = "no"
    CANNOT_TELL = "cannot tell"


class Record(NamedTuple):
    """A record that a reason rests on: a ``work``, a ``performance``, the ``composer`` or the ``call``."""

    kind: str
    id: int = 0


class Judged(NamedTuple):
    """One condition: a slug, the verdict, one sentence why, the record, and what would mend it."""

    condition: str
    verdict: Verdict
    reason: str
    record: Record = Record("call")
    mend: str = ""


def together(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the verdict of several conditions: a no beats a cannot tell."""
    found = set(verdicts)
    for verdict in (Verdict.NO, Verdict.CANNOT_TELL):
        if verdict in found:
            return verdict
    return Verdict.YES
