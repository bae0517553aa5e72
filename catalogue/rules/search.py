"""What two texts have in common for somebody who searches: letters without case, marks or dress.

A text is decomposed (Unicode NFKD), case-folded and freed of its combining marks; a table adds the letters that
Unicode does not decompose and the punctuation that keyboards write in one way and printers in another.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache

PLAIN = str.maketrans(
    {
        "ł": "l", "ø": "o", "đ": "d", "ð": "d", "æ": "ae", "œ": "oe", "þ": "th", "ħ": "h", "ı": "i", "ŧ": "t", "ŋ": "n",
        "’": "'", "‘": "'", "ʼ": "'", "´": "'", "′": "'", "“": '"', "”": '"', "„": '"', "«": '"', "»": '"', "″": '"',
        "‐": "-", "‑": "-", "–": "-", "—": "-", "−": "-",
    }
)  # fmt: skip


@lru_cache(maxsize=8192)
def fold(text: str) -> str:
    """Return the text as it is searched: no case, no marks, single spaces.

    >>> fold("Étude  Nº 3: Łódź, ‘Größe’")
    "etude no 3: lodz, 'grosse'"
    """
    lowered = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    bare = "".join(letter for letter in lowered if unicodedata.category(letter) != "Mn")
    return " ".join(bare.translate(PLAIN).split())
