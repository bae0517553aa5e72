"""Numbers as they are written in the trade: figures, Roman numerals, words and ordinals of six languages.

A Roman numeral is one in capitals, or in small letters where nothing else can be meant; ``C``, ``D``, ``M`` and ``L``
are keys and voices, never numbers.
"""

from __future__ import annotations

import re

from catalogue.instrumentation.tokens import Token
from catalogue.instrumentation.vocabulary import key_of

MOST = 999
ROMAN = re.compile(r"^(X{0,3})(IX|IV|V?I{0,3})$")
VALUES = {"I": 1, "V": 5, "X": 10}

WORDS = {
    0: "no zero kein keine aucun aucune nessun",
    1: "one a an single ein eine einen einer eines un une uno una l'un l'une l'uno l'una",
    2: "two zwei deux due dos pair couple",
    3: "three drei trois tre tres",
    4: "four vier quatre quattro cuatro",
    5: "five fünf cinq cinque cinco",
    6: "six sechs sei seis",
    7: "seven sieben sept sette siete",
    8: "eight acht huit otto ocho",
    9: "nine neun neuf nove nueve",
    10: "ten zehn dix dieci diez",
    11: "eleven elf onze undici once",
    12: "twelve zwölf douze dodici doce dozen",
    13: "thirteen dreizehn treize tredici trece",
    14: "fourteen vierzehn quatorze quattordici catorce",
    15: "fifteen fünfzehn quinze quindici quince",
    16: "sixteen sechzehn seize sedici dieciséis",
    17: "seventeen siebzehn diciassette diecisiete",
    18: "eighteen achtzehn diciotto dieciocho",
    20: "twenty zwanzig vingt venti veinte",
    24: "twenty-four",
    30: "thirty dreissig trente trenta treinta",
}
ORDINALS = {
    1: "first firsts 1st erste ersten erster erstes premier première premiers premières primo prima primi prime "
    "primero primera primer primeros 1er 1ère 1re 1a 1o",
    2: "second seconds 2nd zweite zweiten zweiter zweites deuxième deuxièmes seconde secondes secondo seconda secondi "
    "segundo segunda segundos 2e 2ème 2de 2d 2ds 2a 2o 2do",
    3: "third thirds 3rd dritte dritten dritter drittes troisième troisièmes terzo terza terzi terze tercero tercera "
    "tercer terceros terceras "
    "3e 3ème 3d 3a 3o 3ro 3er",
    4: "fourth fourths 4th vierte vierten vierter viertes quatrième quatrièmes quarto quarta quarti cuarto cuarta "
    "cuartos 4e 4ème 4a 4o",
    5: "fifth 5th fünfte fünften fünfter cinquième quinto quinta 5e 5ème 5a 5o",
    6: "sixth 6th sechste sechsten sechster sixième sesto sesta sexto sexta 6e 6ème 6a 6o",
    7: "seventh 7th siebte siebten siebter septième settimo settima séptimo séptima 7e 7ème 7a 7o",
    8: "eighth 8th achte achten achter huitième ottavo ottava octavo octava 8e 8ème 8a 8o",
}
BOTH = {key_of(one) for one in ["both", "beide", "beiden", "ambos", "ambas", "entrambe", "entrambi", "ambedue"]}
ALL = {
    key_of(one)
    for one in ["all", "alle", "tous", "toutes", "tutti", "tutte", "todos", "todas", "each", "jeder", "jede"]
}
LAST = {key_of(one) for one in ["last", "letzte", "dernier", "dernière", "ultimo", "ultima", "último"]}
CARDINAL = {key_of(word): value for value, words in WORDS.items() for word in words.split()}
ORDINAL = {key_of(word): value for value, words in ORDINALS.items() for word in words.split()}
SUFFIXES = {
    "st",
    "nd",
    "rd",
    "th",
    "e",
    "er",
    "re",
    "ere",
    "eme",
    "de",
    "d",
    "ds",
    "ers",
    "a",
    "o",
    "do",
    "ro",
    "ter",
    "te",
}


ENDINGS = SUFFIXES - {"d"}


def roman(word: str) -> int | None:
    """Return the value of a Roman numeral up to 39, or ``None``.

    >>> roman("III"), roman("iv"), roman("C"), roman("x")
    (3, 4, None, None)
    """
    if not word or not (word.isupper() or word in ("i", "ii", "iii", "iv", "vi", "vii", "viii")):
        return None
    found = ROMAN.match(word.upper())
    if not found:
        return None
    letters = word.upper()
    value = 0
    for one, following in zip(letters, [*letters[1:], ""], strict=True):
        value += -VALUES[one] if following and VALUES[following] > VALUES[one] else VALUES[one]
    return value


def cardinal(word: str) -> int | None:
    """Return the value of a number word such as ``two`` or ``drei``, or ``None``."""
    return CARDINAL.get(key_of(word))


def ordinal(word: str) -> int | None:
    """Return the value of an ordinal such as ``second``, ``zweite`` or ``l'ottavo``, or ``None``."""
    return ORDINAL.get(key_of(word[2:] if word[:2].lower() == "l'" else word))


def is_suffix(token: Token) -> bool:
    """Whether the word is the ending of an ordinal in figures, the ``nd`` of ``2nd``."""
    return token.kind == "word" and not token.spaced and key_of(token.text) in ENDINGS
