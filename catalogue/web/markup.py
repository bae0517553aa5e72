"""Markup of which a page has hundreds of pieces, put together without asking of each argument what it is.

The framework's ``format_html`` does that for any arguments; for a list of fifty rows that is most of the work.
"""

from __future__ import annotations

from html import escape
from typing import cast

from django.utils.html import conditional_escape
from django.utils.safestring import SafeString


def escaped(text: object) -> str:
    """Return a text as it stands in a page: what is markup already as it is.

    >>> escaped("a & b"), escaped(SafeString("a &amp; b"))
    ('a &amp; b', 'a &amp; b')
    """
    if type(text) is SafeString:
        return text
    return escape(text) if type(text) is str else conditional_escape(cast(str, text))
