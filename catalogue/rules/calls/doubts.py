"""What a reading leaves open: two sentences that differ on one limit, sentences that nothing was taken from."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.entrants import NO_LIMIT
from catalogue.rules.calls.forces import FREE_KINDS
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.player_lists import names_players
from catalogue.rules.calls.refusals import NEGATION
from catalogue.rules.calls.subjects import untaken
from catalogue.rules.calls.terms import Evidence, Found
from catalogue.rules.calls.words import has

ONE_VALUE = {
    "duration_min": "the least duration",
    "duration_max": "the most a work may last",
    "total_min": "the least minutes together",
    "total_max": "the most minutes together",
    "works_min": "the least number of works",
    "works_max": "the most works",
    "channels_max": "the channels",
    "note_words": "the words of the note",
    "composed_from": "the date of composition",
}


def differing(found: Sequence[Found], text: str) -> Iterator[Found]:
    """Yield what two sentences say differently of one limit; the first is taken."""
    for name, told in ONE_VALUE.items():
        of_field = [one for one in found if one.field == name]
        surest = [one for one in of_field if one.rank == max(each.rank for each in of_field)]
        other = next((one for one in surest if one.value != surest[0].value and one.start != surest[0].start), None)
        if other:
            first, second = (text[one.start : one.end].strip() for one in (surest[0], other))
            reason = f"Two sentences differ on {told}: “{first}” and “{second}”; the first was taken."
            yield Found("contradictions", reason, other.start, other.end)


ASKING = (
    r"must|may\b(?! \d)|can\b|only|not\b|no\b|please|should|required|eligib|exclud|limit|maxim|minim|at least|at most|"
    r"muss|darf|durfen|mussen|nur\b|kein|nicht|bitte|hochstens|mindestens|doi\w+|peu\w+|pas\b|seul|"
    r"dev\w+|posson\w+|non\b|solo\b|deb\w+|puede|podra"
)


FREE = (
    r"no anonymity|not (?:be )?anonymous|nicht anonym|anonymity is not|keine anonymitat|pas d'anonymat|"
    r"no (?:\w+ )?(?:limits?|restrictions?|limitations?)\b|as many (?:\w+ )?as (?:you|they)|keine (?:begrenzung|"
    r"beschrankung)|(?:sans|senza|sin) limit\w*|"
    r"any (?:age|nationality|style)|spiel(?:t|en) keine rolle|(?:gibt es|besteht|bestehen) (?:\w+ )?(?:nicht|keine)|"
    r"no importan?\b|pas de condition|cualquier (?:nacionalidad|edad)|n'importe\b|peu importe"
)
PRIZES = (
    r"prizes?\b|winners?\b|award(?:s|ed)?\b|receives?\b|we (?:offer|pay)|gives\b|(?:\w*preis\w*|preisgeld)\b|erhalt\w*|"
    r"dotation|dotiert|prix\b|laureat\w*|recoi\w+|premi[oi]?\b|vincit\w+|ricev\w+|ganador\w*|recibi\w+|dotad\w+"
)
MONEY = re.compile(r"[£€$]\s?\d|\d[\d.,]*\s?(?:[€£]|euros?\b|eur\b)", re.IGNORECASE)


def is_prize(one: Passage) -> bool:
    """Whether a passage only says what is to be won."""
    said = one.plain
    won = MONEY.search(one.text) is not None and has(PRIZES, said)
    return won and not has(r"fees?\b|must|gebuhr\w*|frais|quota|cuota", said)


def asks_nothing(one: Passage) -> bool:
    """Whether a passage frees of a limit or is only a heading over the lines that follow."""
    said = one.plain
    if has(rf"{NO_LIMIT}|{FREE}", said):
        return True
    short = not one.label and len(one.text.split()) <= HEADING
    return short and not re.search(rf"[\d.!?;:]|{NEGATION}", said)


HEADING = 4  # words
YEARS = re.compile(r"(?:19|20)\d\d(?:\s?[-/–]\s?\d{2,4})?")


def is_free_of_forces(found: Sequence[Found]) -> bool:
    """Whether the call is of a kind to which works for any forces are sent."""
    return any(one.field == "kind" and one.value in FREE_KINDS for one in found)


def unread_in(passages: Sequence[Passage], evidence: Sequence[Evidence], found: Sequence[Found]) -> Iterator[str]:
    """Yield the passages that ask for something or name a figure and from which no field was taken.

    A passage from which something else was taken is told too where it makes a condition of a subject that none of the
    fields ``found`` in it answers, or lists players of a call of which no forces were read.
    """
    without_forces = not any(each.field == "forces" for each in found) and not is_free_of_forces(found)
    for one in passages:
        taken = any(each.start < one.end and one.start < each.end for each in evidence if each.field != "title")
        said = one.plain
        asks = re.search(r"\d", YEARS.sub(" ", one.text)) or has(ASKING, said)
        silent = not taken and asks and not asks_nothing(one)
        if (
            len(one.text.split()) > 1
            and not is_prize(one)
            and (silent or untaken(one, found) or (without_forces and not taken and names_players(one)))
        ):
            yield f"{one.label}: {one.text}" if one.label else one.text
