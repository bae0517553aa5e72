"""Finds what stands around forces on a publisher's or a composer's page: durations, hire, dedications, prices.

It is blanked before the text is read, so that places stay what they are. A line or a sentence goes where it says one
of these things and no figures of an orchestra stand in it; where it names an instrument that is told in a remark.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.tokens import nodes_of

PARTING = re.compile(
    r"\n|\s\|\s|(?<=[a-zà-ÿ)]{3}[.!])\s+(?=[A-ZÀ-Þ])|(?<=[)\d][.!])\s+(?=[A-ZÀ-Þ][a-zà-ÿ]{3,})"
    r"|(?<=[.,;])\s+(?=(?:Duration|Dauer|Durée|Durata|Duración)\b)"
)
LABEL = re.compile(
    r"\s*(?:duration|dauer|spieldauer|aufführungsdauer|durée|durata|duración|length|timing|commissioned|commission|"
    r"premi[eè]red?|first performed|first performance|world premi[eè]re|uraufführung|création|prima esecuzione|estreno|"
    r"composed|written in|komponiert|dedicat(?:ed|ion)|gewidmet|dédié|texts?|words|libretto|language|year|jahr|année|"
    r"anno|año|publisher|published|verlag|verlegt|éditions|edizioni|price|preis|prix|prezzo|precio|difficulty|grade|"
    r"genre|category|isbn|ismn|catalogue no|cat\. no|order no|programme note|program note|perusal|copyright)\b|\s*©",
    re.IGNORECASE,
)
MINUTES = (
    r"(?:(?:ca?|approx|env)\.?|approximately|about|circa|etwa|environ)?\s{0,3}\d{1,3}(?:[.,:½]\d{0,2})?"
    r"(?:\s{0,3}(?:-|–|to|bis|à)\s{0,3}\d{1,3})?\s{0,3}(?:min(?:s|utes?|uten|uti|utos)?\b\.?|[’'′](?!\w))"
    r"(?:\s{0,3}\d{1,2}\s{0,3}(?:[\"”″]|sec\w{0,6}\.?))?"
)
TIME = re.compile(rf"\(?{MINUTES}\)?[.,;]?", re.IGNORECASE)
TIME_BESIDE = re.compile(rf"\(\s{{0,3}}{MINUTES}\s{{0,3}}\)|[,;–]\s{{0,3}}{MINUTES}$", re.IGNORECASE)
PAPER = re.compile(
    r"\b(?:scores?|parts|materials?|partitur|stimmen|leihmaterial|aufführungsmaterial|matériel|partitions?|"
    r"partitur[ae]s?|materiale|partes|parti|download)\b",
    re.IGNORECASE,
)
NUMBERED = re.compile(r"(?<=tet |rio |ett |uor |eto |tto )n[or°º]\.?\s?\d{1,2}\b", re.IGNORECASE)
TRADE = re.compile(
    r"\b(?:available (?:on|for|from|to)|(?:on|for) (?:sale|hire|rental|loan)|for (?:purchase|rent)|to (?:order|buy)|"
    r"leihmaterial|käuflich|auf anfrage|leihweise|à louer|en location|"
    r"en vente|sur demande|a noleggio|noleggio|in vendita|en alquiler|en venta|download)\b",
    re.IGNORECASE,
)
LEADING = re.compile(r"\s*[^\d:\n]{0,60}:(?=\s*\d)")
FIGURES = re.compile(
    r"\d\s?[.,(\[]\s?\d|(?<!\d)(?!1[5-9]\d\d(?!\d)|20\d\d(?!\d))\d{3,}|\b(?:str|strings|archi|cordes|streicher|cuerda)\b",
    re.IGNORECASE,
)


def margins_of(text: str) -> Iterator[tuple[int, int]]:
    """Yield the stretches of a text that say nothing of its forces.

    >>> [text[start:end] for text in ["fl, pf. Duration: 12 minutes"] for start, end in margins_of(text)]
    ['Duration: 12 minutes']
    >>> [text[start:end] for text in ["2 flutes, piano\\nDuration: 12 minutes"] for start, end in margins_of(text)]
    ['Duration: 12 minutes']
    """
    start = 0
    pieces: list[tuple[int, int]] = []
    for mark in PARTING.finditer(text):
        pieces.append((start, mark.start()))
        start = mark.end()
    pieces.append((start, len(text)))
    yield from filter(None, (margin(text, *piece) for piece in pieces))


def margin(text: str, start: int, end: int) -> tuple[int, int] | None:
    """Return what of one line or sentence is no part of the forces, ``None`` where all of it may be."""
    piece = text[start:end]
    if TIME.fullmatch(piece.strip()):
        return start, end
    labelled, traded = LABEL.match(piece), PAPER.search(piece) and TRADE.search(piece)
    if not (labelled or traded):
        return None
    if not FIGURES.search(piece.partition(":")[2] if labelled else piece):
        return start, end
    leading = LEADING.match(piece) if traded and not labelled else None
    return (start, start + leading.end()) if leading else None


def without_margins(text: str) -> tuple[str, tuple[tuple[int, int], ...]]:
    """Return a text with blanks for what is no part of the forces, and the blanked places that name an instrument.

    A text that would be left empty stays as it is.
    """
    beside = (mark.span() for mark in TIME_BESIDE.finditer(text.rstrip()))
    numbers = (mark.span() for mark in NUMBERED.finditer(text))
    found = (*(margins_of(text) if may_have_margins(text) else ()), *beside, *numbers)
    left = text
    for start, end in found:
        left = left[:start] + " " * (end - start) + left[end:]
    if not found or not left.strip(" \n|"):
        return text, ()
    return left, tuple(place for place in found if names_instrument(text[slice(*place)]))


def may_have_margins(text: str) -> bool:
    """Whether the text has more than one line or sentence, or says something of hire or sale."""
    return PARTING.search(text) is not None or TRADE.search(text) is not None


def names_instrument(piece: str) -> bool:
    nodes = nodes_of(piece)
    found = (name_at(nodes, at) for at in range(len(nodes)))
    return any(name is not None and len(name.written) > 3 for name in found)
