"""What things in a works list look like: years, durations, opus numbers, commissions, premieres, publishers, titles.

The wordings are those of printed and web works lists in English, German, French, Italian and Spanish: common practice.
"""

from __future__ import annotations

import re

YEAR = r"(?:1[4-9]|20)[0-9]{2}"
YEARS = rf"(?:c\. ?|ca\.? ?)?{YEAR}(?:[-–/][0-9]{{2,4}})?"
FIRST_YEAR = re.compile(rf"^(?P<said>{YEARS})(?=\s*[:,.|–—-]?\s)(?!\s*[(\[]{YEARS})[\s:,.|–—-]*")
LATER_YEAR = re.compile(rf"(?:^|(?<=[,;–—\s\0]))(?P<said>{YEARS})(?=\s*(?:[,;–—\0]|\.(?:\s|$)|$))")
WRITTEN_IN = re.compile(rf"(?:^|\s)(?:was |were )?(?:written|composed|completed) in (?P<said>{YEARS})", re.IGNORECASE)
REVISED = re.compile(
    rf"\b(?:rev(?:ised|id\.|is\.|\.)?|revidiert|révisée?|riveduto|revisad[ao])(?: in| en)? (?P<said>{YEARS})",
    re.IGNORECASE,
)

# ---- how long

ABOUT = r"(?:(?:c|ca|approx|aprox|about|circa|etwa|rund|ungefähr|env|environ|unos)\.? ?|[~≈] ?)?"
LASTING = r"(?:(?:and )?(?:duration|dur\.|(?:spiel)?dauer|durée|durata|duración|length|lasting|lasts)\s?[: ]\s*)?"
MINUTES = (
    r"(?:(?:minute[ns]?|minuti|minutos|seconds|hours?|stunden?|mn)\b"
    r"|(?:mins?|sec|hrs?|h|std)\b\.?|['′’´](?![^\W\d]))"
)
LASTS = (
    rf"{ABOUT}[0-9][0-9½¼¾.,:–-]*\s?{MINUTES}"
    r"(?:\s?[0-9]{1,2}\s?(?:(?:sec(?:onds)?|s|min)\b\.?|[\"″”]|''|′′|’’)?)?(?:\s?env(?:\.|iron\b))?"
)
LENGTH = re.compile(rf"{LASTING}(?P<said>{LASTS})", re.IGNORECASE)
RANGE = re.compile(rf"{ABOUT}[0-9]{{1,3}}['′’]?[–-][0-9]{{1,3}}\s?{MINUTES}", re.IGNORECASE)
CLOCK = re.compile(r"(?<=[,;–—\s\0])(?P<said>(?:[0-9]{1,2}:)?[0-9]{1,3}:[0-9]{2})(?=\s*$|\s*[,;–—\0]|\.\s)")

# ---- numbers

# A number of a list of one's own ("W14"), which is one where most works begin with such.
CODE = re.compile(r"^(?P<said>(?P<letters>[A-Z]{1,5})[. -]?[0-9]{1,4}[a-z]?)[.:)]?\s+(?=\S)")
BULLET = re.compile(r"^\s*(?:[•·*‣▪–—-]|[0-9]{1,3}[.)])\s+")
OPUS = re.compile(r"\b(?:op|opus)\.? ?[0-9]{1,4}[a-z]?(?:[,/]? ?(?:no|nr)\.? ?[0-9]{1,3})?", re.IGNORECASE)
NUMBERS = {
    "ismn": re.compile(r"\bISMN:?\s*(?P<said>(?:979[- ]?0|M)(?:[- ]?[0-9]){8,10})", re.IGNORECASE),
    "iswc": re.compile(r"\bISWC:?\s*(?P<said>T(?:[-. ]?[0-9]){10})", re.IGNORECASE),
}

# ---- names and phrases

NAME = r"(?:(?!\s[–—-]\s)[^.;,()\n\0]|(?<=\b[A-Z])\.)+"  # a full stop belongs to an initial only
NAMES = NAME.replace(",", "")
OF = r"(?:de (?=la\b|l['’])|del(?:la|l['’]|lo)?\s?|du |des |de |d['’])"
PHRASES = {
    "commissioned_by": re.compile(
        r"\b(?:commissioned (?:by|for)\s|commission (?:of|from|by)\s|auftragswerk (?:von|des|der|für)\s"
        rf"|im auftrag (?:von|des|der)\s|commande {OF}|commissionat[ao] da(?:l(?:la|l['’]|lo)?)?\s?"
        rf"|commissione {OF}|encargo {OF})\s*(?P<said>{NAMES})",
        re.IGNORECASE,
    ),
    "dedication": re.compile(
        rf"\b(?:dedicated to|gewidmet|dédiée? (?:à|au|aux)|dedicat[ao] a(?:l(?:la)?|i)?|dedicad[ao] al?)\s+"
        rf"(?P<said>{NAMES})",
        re.IGNORECASE,
    ),
    "text_author": re.compile(
        rf"\b(?:(?:after|to|on|nach|auf|über|sur|d[’']après|su|da|con|sobre) )?(?:(?:des|de|einem|einer|a|un|una) )?"
        r"(?:texts?|words|poems?|libretto|livret|gedicht(?:en?)?|texten?|worten?|poèmes?|textes?|paroles|test[io]|poesie"
        rf"|textos?|poemas?|letra) (?:(?:by|of|von|de|di|del) |d['’]|(?=trad|anon))(?P<said>{NAME})",
        re.IGNORECASE,
    ),
}  # fmt: skip
# What tells of a first performance goes on to the next dash or semicolon: its day, its place and players with it.
PREMIERE = re.compile(
    r"(?:^|(?<=[,;.(–—\0] )|(?<=[(\0]))(?:(?:[Ww]orld )?[Pp]remiered?\b|(?:[Ww]orld )?[Pp]remière(?:d\b|\s?:)"
    r"|(?:[Ff]irst|[Ww]orld) (?:public )?perform(?:ed|ance)\b|UA\b|[Uu]raufführung\b|[Uu]raufgeführt\b"
    r"|[Cc]réation(?: mondiale)?(?=\s?:| (?:le|en|à|par|au)\b)|[Cc]réée? (?=le|en|à|par|au)"
    r"|[Pp]rima (?:esecuzione|assoluta)\b|[Ee]stren(?:o|ad[ao])(?=\s?:| (?:el|en|por)\b))"
    rf"(?:(?!\s[–—]\s|[,.]\s{LASTS})[^;\0\n])*"
)
FOR = re.compile(r"(?:^|[\s,])(?:(?:is )?(?:scored )?for(?: the)?|für|pour|per|para)\s+", re.IGNORECASE)
DEDICATED_AFTER = re.compile(r"(?P<said>.+?) (?:gewidmet|zugeeignet)")
DEDICATED_LINE = re.compile(r"(?:to|à|an|für|al|alla|all['’]|a|in memoriam|in memory of) ?(?P<said>[A-ZÀ-Þ].*)")
WRITTEN_FOR = re.compile(
    r"(?:written|composed|geschrieben|écrite?|scritt[ao]|escrit[ao]) (?:for|für|pour|per|para)\b", re.IGNORECASE
)
PUBLISHER = re.compile(
    r"(?:[Pp]ublished by\s+|[Ee]rschienen bei\s+)?"
    r"(?P<said>(?:Éditions?|Editions?|Edizioni|Ediciones|Editorial|Verlag)\s+\w.*|(?:[\w’'&.-]+ ){1,5}"
    r"(?:Press|Publishing|Publishers|Publications|Editions|Verlag|Musikverlag|Edizioni|Éditions|Ediciones))"
)  # fmt: skip
MOVEMENT = re.compile(r"(?:[IVX]{1,6}|[ivx]{1,6}|[0-9]{1,2})[.)]\s+\S.*")

# ---- titles and their parts

LABEL = re.compile(r"(?P<label>[^\W\d_][\w .]{0,30}?)\s*:\s+(?P<said>\S.*)")
IN_BRACKETS = re.compile(r"[(\[](?P<said>[^()\[\]]*)[)\]]")
GENRE = (
    r"(?:(?:an? )?(?:[a-z-]+ ){0,2}(?:opera|cantata|oratorio|ballet|cycle|melodrama|ritual)"
    r"|(?:[a-zäöüß]+ )?\w*(?:[Oo]per|kantate|zyklus|ballett|[Oo]ratorium)"
    r"|(?:opéra|cantate|opera|ópera|cantata|oratorio|ballet|cycle|ciclo)(?: (?:de|da) [\w]+)?"
    r"|[Dd]uos?|[Cc]on[cz]ert[oi]?|[Ss]onata|[Ss]uite|[Tt]rios?|[Qq]uart[eé]t[to]?|[Qq]uint[eé]t[to]?)"
    r"(?: (?:in|en|di|à|of) [\w ]+)?"
)
SUBTITLED = re.compile(rf"(?P<title>.+?)[,:.] (?P<said>{GENRE})")
ARRANGED = re.compile(
    r"(?P<title>.+?)[,:.(] ?(?P<said>(?:arr|arranged|transcribed|arrangement|bearbeitet|bearbeitung|transcription)\.?)",
    re.IGNORECASE,
)
BETWEEN = re.compile(r"[,:]\s+|\s[–—-]\s")
BARS = re.compile(r"\s*\|\s*|\s+[·•]\s+|\s{3,}")
LEADERS = re.compile(r"\s*(?:\.{3,}|…+|(?:\. ){3,}\.?|_{3,})\s*|;\s+")
QUOTED = re.compile(r"[“\"„«‘](?P<said>[^“”\"„«»]+)[”\"“»’]")
# Bodies of which only the size is named; their players are asked of the composer.
BODIES = re.compile(
    r"(?:(?:large|small|mixed|variable|open) )?(?:ensemble|sextet|septet|octet|nonet)"
    r"|(?:zwei|drei|vier|fünf|sechs|sieben|acht|neun|zehn|[0-9]{1,2}) instrumente"
    r"|(?:[a-z]+|[0-9]{1,2}) instruments(?: à cordes)?|(?:[a-z]+|[0-9]{1,2}) (?:strumenti|instrumentos)",
    re.IGNORECASE,
)
EDGES = " \t\n,;:.–—-|·•"
