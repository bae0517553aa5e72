"""Which way a duration in a sentence bounds: a comparing word, a negation and a number in whatever order they stand.

``no fewer than 8 nor more than 14 minutes``, ``durata massima di 12 minuti e minima di 7`` and ``acht Minuten nicht
unter- und zwölf nicht überschreiten`` each bound twice.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from catalogue.rules.calls.refusals import NEGATION

MORE = (
    r"over|more than|longer|exceed\w*|above|mehr als|langer als|uber\w*|plus de|superieure?s?|exce[dt]\w*|depass\w*|"
    r"piu di|superior[ei]?|super(?:a|are|i|ino|era|eranno)|eccede\w*|oltre|mas de|superar|superen?|superara|"
    r"sobrepas\w+|rebas\w+|pas(?:ar|ara|e|en) de"
)
LESS = (
    r"baj(?:ar|e|en) de|descend\w+ (?:de|sous)|scend\w+ sotto|"
    r"under|less than|fewer than|shorter(?: than)?|below|weniger als|kurzer als|unter\w*|moins de|inferieure?s?|"
    r"meno di|inferior[ei]?|menos de"
)
MOST = (
    r"maximum|maximal\w*|maximaldauer|max|maxim[aoe]|massim[aoe]|hochst\w*|langstens|au plus|au maximum|at most|up to|"
    r"bis zu|al massimo|como maximo|limit\w* (?:a|to|auf)"
)
LEAST = (
    r"minimum|minimal\w*|min|minim[aoe]|mindest\w*|wenigstens|au moins|at least|almeno|al menos|como minimo|al minimo"
)
COMPARED = re.compile(rf"(?<![a-z])(?:(?P<more>{MORE})|(?P<less>{LESS})|(?P<most>{MOST})|(?P<least>{LEAST}))(?![a-z])")
FILLING = re.compile(
    r"(?:[\s,:.(=-]|(?<![a-z])(?:the|of|an?|as|than|als|ai|i|gli|les?|los|las|la|de|des|d'|di|da|dei|du|que|che|is|are|"
    r"est|ist|e|es|sera|shall|be|length|duration|time|dauer|spieldauer|lange|duree|durata|duracion|von|betragt|about|"
    r"circa|ca|in|minutes|minuten)(?![a-z]))*"
)
BEHIND = re.compile(
    r"[\s,]*(?:\(?(?P<least>nicht unter\b|nicht unterschr\w+|ou plus\b|nicht unter-)|"
    r"(?P<most>nicht uberschr\w+|nicht ubersteig\w+))"
)
OF_THE_LAST = re.compile(rf"^(?:\s*(?:minut\w*|'))?\s*(?:{MOST}|{LEAST})\s*[,;]")
"""A word that stands behind the number before it and ends with it: *huit minutes au moins, quatorze au plus*."""
TURNS = re.compile(r"(?<![a-z])(?:but|aber|mais|ma|pero|sondern)(?![a-z])")


@dataclass(frozen=True, slots=True)
class Bound:
    """One bound in seconds: ``most`` or least, ``strict`` where the figure itself is left out."""

    seconds: int
    most: bool
    strict: bool = False


def compared(before: str, after: str, carried: str = "") -> bool | None:
    """Return whether a number is the most, false where it is the least, by the words around it.

    ``before`` are the words since the number before it, ``carried`` those of its clause before that, whose negation
    holds on after *nor*. A bare *more than* or *under* is left to those who know what is refused.

    >>> compared("no fewer than ", " "), compared(" ni mas de ", " minutos", "no duraran menos de ")
    (False, True)
    """
    before = OF_THE_LAST.sub(",", before)
    behind = BEHIND.match(after)
    if behind:
        return behind["most"] is not None
    found = None
    for match in COMPARED.finditer(before):
        if FILLING.fullmatch(before, match.end()):
            found = match
            break
    if found is None:
        return None
    if found["most"] or found["least"]:
        return found["most"] is not None
    denied = re.search(NEGATION, before[: found.start()]) or (
        re.match(r"[\s,]*(?:or|o|oder|ou|and|und|et|e|y)\b", before) and re.search(NEGATION, TURNS.split(carried)[-1])
    )
    return (found["more"] is not None) if denied else None
