"""Cells that a spreadsheet program would take for a formula, written so that it takes them for text.

An apostrophe is put before a text that begins, after apostrophes, quotes and spaces, with ``= + - @``, their full-width
forms, a tab, a line break or NUL (OWASP ASVS 5.0, 1.2.10); a plain number is left alone. It is also done behind each
semicolon, tab and line break within a text: a program that expects semicolons between cells, as in much of Europe,
begins a cell there, whatever quotes stand around. There ``+`` and ``-`` are left alone (lists, angles, numbers) unless
a call or another program is named behind them. Reading takes exactly these apostrophes away again.
"""

from __future__ import annotations

import re

PIECE = re.compile(r"[^;\t\r\n]*[;\t\r\n]?")
"""What one cell would hold where each of these signs began another, with the sign."""
FIRST = re.compile(r"[' \"]*[=+\-@＝＋－＠\t\r\n\0]")
LATER = re.compile(r"[' \"]*(?:[=@＝＠]|[+\-＋－].*[(|!])")
NUMBER = re.compile(r"[+-]?[0-9]+(?:[.,][0-9]+)?[;\t\r\n]?")


def is_risky(piece: str, *, first: bool) -> bool:
    if not first:
        return LATER.match(piece) is not None
    return FIRST.match(piece) is not None and NUMBER.fullmatch(piece) is None


def guarded(text: str) -> str:
    """
    >>> guarded("=1+1"), guarded("-5"), guarded("'=x"), guarded("a;=1")
    ("'=1+1", '-5', "''=x", "a;'=1")
    """
    return "".join(f"'{piece}" if is_risky(piece, first=place == 0) else piece for place, piece in pieces(text))


def unguarded(text: str) -> str:
    """Undo :func:`guarded`; any other text stays as it is."""
    return "".join(piece[1:] if was_guarded(piece, first=place == 0) else piece for place, piece in pieces(text))


def pieces(text: str) -> enumerate[str]:
    return enumerate(PIECE.findall(text))


def was_guarded(piece: str, *, first: bool) -> bool:
    return piece.startswith("'") and is_risky(piece[1:], first=first)
