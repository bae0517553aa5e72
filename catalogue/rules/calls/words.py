"""Words of calls, and text as it is searched for them."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17,
    "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "ninety": 90,
    "ein": 1, "eine": 1, "einen": 1, "einer": 1, "eines": 1, "zwei": 2, "drei": 3, "vier": 4, "funf": 5, "sechs": 6,
    "sieben": 7, "acht": 8,
    "neun": 9, "zehn": 10, "elf": 11, "zwolf": 12, "funfzehn": 15, "zwanzig": 20, "dreissig": 30, "vierzig": 40,
    "un": 1, "une": 1, "deux": 2, "trois": 3, "quatre": 4, "cinq": 5, "sept": 7, "huit": 8, "neuf": 9, "dix": 10,
    "onze": 11, "douze": 12, "quinze": 15, "vingt": 20, "trente": 30,
    "due": 2, "tre": 3, "quattro": 4, "cinque": 5, "sei": 6, "sette": 7, "otto": 8, "nove": 9, "dieci": 10,
    "dodici": 12, "quindici": 15, "venti": 20,
    "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9, "diez": 10, "doce": 12,
    "veinte": 20, "twee": 2, "drie": 3, "vijf": 5, "zes": 6, "zeven": 7, "negen": 9, "tien": 10, "twaalf": 12,
    "vijftien": 15, "twintig": 20, "una": 1, "uno": 1, "sola": 1, "quarante": 40, "cinquante": 50, "undici": 11,
    "quattordici": 14, "sedici": 16, "diciotto": 18, "trenta": 30, "quaranta": 40, "cinquanta": 50, "catorce": 14,
    "quince": 15, "dieciocho": 18, "treinta": 30, "cuarenta": 40, "cincuenta": 50, "dreizehn": 13, "vierzehn": 14,
    "sechzehn": 16, "einem": 1, "siebzehn": 17, "achtzehn": 18, "neunzehn": 19, "funfzig": 50,
    "treize": 13, "quatorze": 14, "seize": 16, "soixante": 60, "tredici": 13, "diciassette": 17, "diciannove": 19,
    "sessanta": 60, "trece": 13, "dieciseis": 16, "diecisiete": 17, "diecinueve": 19, "sesenta": 60,
    "sechzig": 60, "dreisig": 30,
}  # fmt: skip


def joined_numbers() -> dict[str, int]:
    """Return the numbers that German, Italian and Spanish write in one word: 21 to 69, in plain letters."""
    german = {"zwanzig": 20, "dreissig": 30, "dreisig": 30, "vierzig": 40, "funfzig": 50, "sechzig": 60}
    units = ("ein", "zwei", "drei", "vier", "funf", "sechs", "sieben", "acht", "neun")
    found = {f"{unit}und{ten}": tens + one for ten, tens in german.items() for one, unit in enumerate(units, 1)}
    italian = {"venti": 20, "trenta": 30, "quaranta": 40, "cinquanta": 50, "sessanta": 60}
    units = ("uno", "due", "tre", "quattro", "cinque", "sei", "sette", "otto", "nove")
    for ten, tens in italian.items():
        found |= {(ten[:-1] if unit[0] in "uo" else ten) + unit: tens + one for one, unit in enumerate(units, 1)}
    units = ("uno", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve")
    return found | {f"veinti{unit}": 20 + one for one, unit in enumerate(units, 1)}


NUMBERS |= joined_numbers()
TENS = "twenty|thirty|forty|fifty|sixty|vingt|trente|quarante|cinquante|soixante|treinta|cuarenta|cincuenta|sesenta"
UNITS = (
    "one|two|three|four|five|six|seven|eight|nine|un|deux|trois|quatre|cinq|sept|huit|neuf|uno|dos|tres|cuatro|cinco|"
    "seis|siete|ocho|nueve"
)
WORD = (
    rf"(?:(?:{TENS})[- ](?:(?:et|y)[- ])?(?:{UNITS})(?![a-z])|"
    rf"{'|'.join(sorted(NUMBERS, key=lambda one: (-len(one), one)))})"
)
NUMBER = rf"(?:\d{{1,3}}|{WORD})"


def plain(text: str) -> str:
    """Return the text in small letters without accents, with straight marks; each sign stays one sign.

    >>> plain("Höchstens 10’")
    "hochstens 10'"
    """
    if text.isascii():
        return text.lower().replace("\n", " ")
    return "".join(map(plain_sign, text))


SAME = {
    "’": "'",
    "‘": "'",
    "′": "'",
    "″": '"',
    "”": '"',
    "“": '"',
    "–": "-",
    "—": "-",
    "‑": "-",
    "ß": "s",
    "œ": "o",
    "Œ": "o",
    "æ": "a",
    "ø": "o",
    "Ø": "o",
    "\n": " ",
}


@lru_cache(maxsize=4096)
def plain_sign(sign: str) -> str:
    if sign in SAME:
        return SAME[sign]
    base = unicodedata.normalize("NFKD", sign)[:1].casefold()
    return base if len(base) == 1 else sign


def number_of(text: str) -> int:
    """Return the value of a number in figures or words, as ``NUMBER`` matches it.

    >>> number_of("thirty-two"), number_of("12"), number_of("treinta y cinco"), number_of("funfundvierzig")
    (32, 12, 35, 45)
    """
    if text.isdecimal():
        return int(text)
    parts = re.split(r"[- ]", text)
    return sum(NUMBERS[part] for part in parts if part not in ("et", "y"))


def has(pattern: str, text: str) -> bool:
    """Whether one of the words stands in a plain text; patterns begin at the beginning of a word."""
    return beginning(pattern).search(text) is not None


@lru_cache(maxsize=2048)
def beginning(pattern: str) -> re.Pattern[str]:
    """Return a pattern that begins at the beginning of a word; kept, since a call is held against hundreds."""
    return re.compile(rf"(?<![a-z])(?:{pattern})")
