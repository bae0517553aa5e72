"""Titles on a page: each in its language and direction, isolated so that scripts do not disturb each other."""

from __future__ import annotations

from django.utils.safestring import SafeString

from catalogue.models import Work
from catalogue.web.markup import escaped


def in_language(text: str, language: str) -> SafeString:
    """Return the text, isolated and marked with its language (BCP 47) where that is known."""
    marked = f' lang="{escaped(language)}"' if language else ""
    return SafeString(f"<bdi{marked}>{escaped(text)}</bdi>")


def second_line(work: Work) -> SafeString:
    """Return what stands under a title in a list: its other forms, and the number."""
    parts = [
        in_language(work.original_title, work.original_language) if work.original_title else "",
        in_language(work.transliteration, "") if work.transliteration not in {"", work.title} else "",
        work.translated_title,
        work.version_label,
        SafeString(f'<span class="num">{escaped(work.catalogue_number)}</span>') if work.catalogue_number else "",
    ]
    return SafeString(" · ".join([escaped(part) for part in parts if part]))
