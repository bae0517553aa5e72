"""Which characters a file may hold: what no format can carry is left out or replaced, in every format alike.

Left out are control characters and noncharacters, which XML 1.0 (section 2.2) forbids; half of a surrogate pair becomes
the replacement character; breaks of lines become spaces, for a text is one paragraph.
"""

from __future__ import annotations

import re
import unicodedata

UNITS = "dBA? dBu dBV dBFS LUFS LU k?Hz m?s s min h [mck]?m k?g k?W k?VA m?A k?V lx px [kMG]B [kMG]bit bit % °C Min Std"
COUNTED = "No Nos no nos Nr op Op Opp c ca p pp n nn núm núms"
COUNTING = "|".join(rf"(?<=\b{word}\. )" for word in COUNTED.split())
KEPT = rf"(?:(?<=\d )(?=(?:{'|'.join(UNITS.split())})(?!\w))|(?=\d)(?:{COUNTING}))"
"""What stands around a space at which no line is broken: a figure and its unit (SI brochure, section 5.4.3), or what
counts (No., op., ca., p.) and its figure (common practice)."""
HELD = re.compile(f" {KEPT}")


def held(text: str) -> str:
    """The text with spaces that keep figures with their units, and with what counts them.

    >>> held("String Quartet No. 2, ca. 20 min at 48 kHz, 3 songs").split(" ")
    ['String', 'Quartet', 'No.\xa02,', 'ca.\xa020\xa0min', 'at', '48\xa0kHz,', '3', 'songs']
    """
    return HELD.sub("\N{NO-BREAK SPACE}", text)


def printable(text: str) -> str:
    """The text as every format can hold it.

    >>> printable("Slack\\x00 Tide\\n\\ud800")
    'Slack Tide \ufffd'
    """
    if text.isprintable():
        return text
    return "".join(map(printable_sign, text))


def printable_sign(sign: str) -> str:
    kind = unicodedata.category(sign)
    if kind == "Cc":
        return " " if sign in "\t\n\r" else ""
    if kind == "Cs":
        return "\N{REPLACEMENT CHARACTER}"
    return "" if ord(sign) & 0xFFFE == 0xFFFE or 0xFDD0 <= ord(sign) <= 0xFDEF else sign
