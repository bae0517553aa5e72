"""Which characters a file may hold: what no format can carry is left out or replaced, in every format alike.

Left out are control characters and noncharacters, which XML 1.0 (section 2.2) forbids; half of a surrogate pair becomes
the replacement character; breaks of lines become spaces, for a text is one paragraph.
"""

from __future__ import annotations

import unicodedata


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
