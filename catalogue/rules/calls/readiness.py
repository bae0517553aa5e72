"""When each thing that is sent has to be begun, counted back from the day on which a call closes.

The days are common practice of applicants and of those who advise them: a referee is asked a month before, an office
takes three weeks for a transcript, a portal is not left to its last day.
"""

from __future__ import annotations

from datetime import date, timedelta

from catalogue.rules.calls.packs import Piece

DAYS_BEFORE: dict[Piece, int] = {
    Piece.REFEREES: 30,
    Piece.CERTIFICATES: 21,
    Piece.RECORDING: 21,
    Piece.SCORE: 14,
    Piece.PARTS: 14,
    Piece.STATEMENT: 14,
    Piece.SAMPLE: 14,
    Piece.PHOTOGRAPH: 14,
    Piece.ENVELOPE: 7,
}
USUAL = 5
SOON = 31
"""Days before a call closes within which what lacks is told without being asked."""


def due_on(piece: Piece, closes: date | None) -> date | None:
    """Return the day by which something should be begun; None of a call that never closes.

    >>> due_on(Piece.REFEREES, date(2027, 3, 31)), due_on(Piece.NOTE, date(2027, 3, 31))
    (datetime.date(2027, 3, 1), datetime.date(2027, 3, 26))
    """
    return None if closes is None else closes - timedelta(days=DAYS_BEFORE.get(piece, USUAL))
