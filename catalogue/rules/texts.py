"""Texts for programmes: how many words they have, how many they may have, and whether they are still true.

The limits are common practice: calls and programme books ask for a line, a hundred words, or 100 to 250 words.
"""

from __future__ import annotations

import re
from datetime import date

from catalogue.terms import NoteLength
from catalogue.timing import PartialDate

# how many words a text of each length has at most
MOST_WORDS = {NoteLength.LINE: 30, NoteLength.SHORT: 100, NoteLength.MEDIUM: 250}
BIOGRAPHY_IS_FRESH = 365  # days; a season's brochure is made a year ahead (common practice)
QUOTED = ("“”", "„“", "„”", "””", "«»", "»«", '""', "‘’", "‚‘", "‹›", "›‹", "「」", "『』")
WITHOUT_SPACES = re.compile("[\u3040-\u30ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff]")


def count_words(text: str) -> int:
    """Return the number of words; of scripts that are written without spaces every character counts.

    >>> count_words("Seven radiators, nine clocks."), count_words("潮の満ち引き")
    (4, 6)
    """
    signs = len(WITHOUT_SPACES.findall(text))
    return signs + len(WITHOUT_SPACES.sub(" ", text).split())


def unquoted(text: str) -> str:
    """Return a quotation without the marks around the whole of it, which a paper puts there by its own language.

    >>> unquoted("“Salt on every page.”"), unquoted('"Salt"'), unquoted("« Du sel »")
    ('Salt on every page.', 'Salt', 'Du sel')
    >>> unquoted("“Salt” and “tides”"), unquoted("”")
    ('“Salt” and “tides”', '”')
    """
    text = text.strip()
    inner = text[1:-1]
    if len(text) > 2 and text[0] + text[-1] in QUOTED and not set(inner) & {text[0], text[-1]}:
        return inner.strip()
    return text


def length_of(text: str) -> NoteLength:
    """Return the shortest length that a text fits into."""
    words = count_words(text)
    return next((length for length, most in MOST_WORDS.items() if words <= most), NoteLength.LONG)


def too_long(text: str, length: NoteLength, limit: int | None = None) -> str:
    """Return a sentence where a text has more words than its length or a stated limit allows, else nothing.

    >>> too_long("one two three", NoteLength.LONG, 2)
    'It has 3 words, 1 more than the limit of 2.'
    """
    most, words = limit or MOST_WORDS.get(length), count_words(text)
    if most is None or words <= most:
        return ""
    what = f"the limit of {most}" if limit else f"a text of this length has ({most})"
    return f"It has {words} words, {words - most} more than {what}."


def stale_biography(as_of: PartialDate | None, today: date) -> str:
    """Return a sentence where a biography was last true more than a year ago, or does not say when it was."""
    if as_of is None:
        return "It does not say of what day it is true."
    age = (today - as_of.last).days
    return f"It is {years_old(age)} old; look whether it is still true." if age > BIOGRAPHY_IS_FRESH else ""


def stale_note(as_of: PartialDate | None, revised: PartialDate | None) -> str:
    """Return a sentence where a work was surely revised after a note on it was true."""
    if as_of is None or revised is None or revised.first <= as_of.last:
        return ""
    return "The work was revised after this was written; look whether it is still true."


def years_old(days: int) -> str:
    years = days // 365
    return "a year" if years == 1 else f"{years} years"
