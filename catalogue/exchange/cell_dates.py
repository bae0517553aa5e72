"""A date in a cell of a table, also where the words beside its year say more than a date of the catalogue holds.

Works lists write “Spring 2019”, “early 1998”, “winter 2019/20”, “[2004]” and “2012 (rev. 2015)” (common practice). A
season or a part of a year is kept as the year, and what was written as a note; a revision is a date of its own.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from catalogue.rules.search import fold
from catalogue.timing import DateError, PartialDate, read_date

# Folded; seasons and parts of a year in English, German, French, Italian and Spanish.
NARROWING = frozenset(
    (
        "spring", "summer", "autumn", "fall", "winter", "early", "mid", "late", "christmas", "easter",
        "fruhjahr", "fruhling", "sommer", "herbst", "anfang", "mitte", "ende", "weihnachten", "ostern",
        "printemps", "ete", "automne", "hiver", "debut", "milieu", "fin", "noel", "paques",
        "primavera", "estate", "autunno", "inverno", "inizio", "meta", "fine",
        "verano", "otono", "invierno", "principios", "mediados", "finales",
    )
)  # fmt: skip
JOINING = frozenset(
    (
        "the", "of", "in", "to", "and", "im", "bis", "und", "der", "des", "du", "de", "l", "au", "en", "a", "et",
        "del", "di", "e", "y", "los",
    )
)  # fmt: skip
LETTERS = re.compile(r"[^\W\d_]+['’.]?")
REVISED = re.compile(
    r"(?P<year>.*[0-9?])\s*[,;/(\[]?\s*"
    r"(?:r[ée]v(?:is(?:ed|ion|ión|ione|é|ée|ado|ada)|idiert)?|riv(?:ist[oa])?)(?![^\W\d_])\.?\s*"
    r"(?:(?:in|im|en|nel)\s+)?(?P<revised>[^()\[\]]*[0-9])\s*[)\]]?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class CellDate:
    """``says_more`` where what was written has to be kept beside the date."""

    date: PartialDate
    says_more: bool = False


def read_cell_date(text: str, language: str) -> CellDate:
    """Return the date that a cell tells. Raises DateError.

    >>> read_cell_date("Spring 2019", "en-GB")
    CellDate(date=PartialDate(year=2019, month=None, day=None, circa=False, until=None), says_more=True)
    """
    try:
        return CellDate(read_date(text, language=language))
    except DateError:
        figures = figures_of(text)
        if not figures:
            raise
    return CellDate(read_date(figures, language=language), says_more=True)


def figures_of(text: str) -> str:
    """Return what is left of “winter 2019/20” or “[2004]” for a date, nothing where other words stand there."""
    inside = re.fullmatch(r"\s*\[([^\[\]]+)\]\s*", text)
    if inside:
        return inside[1]
    words = {word.strip("'’.") for word in LETTERS.findall(fold(text))}
    if not words & NARROWING or words - NARROWING - JOINING:
        return ""
    return LETTERS.sub(" ", text).strip(" ,-–—")


def without_revision(text: str) -> tuple[str, str]:
    """Return the two parts of a cell that tells when a work was written and when it was revised, else the text alone.

    >>> without_revision("2012 (rev. 2015)"), without_revision("2012")
    (('2012', '2015'), ('2012', ''))
    """
    found = REVISED.fullmatch(text.strip())
    return (found["year"].strip(), found["revised"].strip()) if found else (text, "")
