"""Cells that a spreadsheet program would take for a formula, written so that it takes them for text.

An apostrophe is put before a text that begins, after apostrophes and spaces, with ``= + - @``, their full-width forms,
a tab, a line break or NUL (OWASP ASVS 5.0, 1.2.10); a plain number is left alone. Reading takes exactly this apostrophe
away again.
"""

from __future__ import annotations

import re

RISKY = re.compile(r"[' ]*[=+\-@＝＋－＠\t\r\n\0]")
NUMBER = re.compile(r"[+-]?[0-9]+(?:[.,][0-9]+)?")


def is_risky(text: str) -> bool:
    return RISKY.match(text) is not None and NUMBER.fullmatch(text) is None


def guarded(text: str) -> str:
    """
    >>> guarded("=1+1"), guarded("-5"), guarded("'=x")
    ("'=1+1", '-5', "''=x")
    """
    return f"'{text}" if is_risky(text) else text


def unguarded(text: str) -> str:
    """Undo :func:`guarded`; any other text stays as it is."""
    return text[1:] if text.startswith("'") and is_risky(text[1:]) else text
