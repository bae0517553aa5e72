"""Titles on a page: each in its language and direction, isolated so that scripts do not disturb each other."""

from __future__ import annotations

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from catalogue.models import Work


def in_language(text: str, language: str) -> SafeString:
    """Return the text, isolated and marked with its language (BCP 47) where that is known."""
    return format_html('<bdi lang="{}">{}</bdi>', language, text) if language else format_html("<bdi>{}</bdi>", text)


def second_line(work: Work) -> SafeString:
    """Return what stands under a title in a list: its other forms, and the number."""
    parts = [
        in_language(work.original_title, work.original_language) if work.original_title else "",
        in_language(work.transliteration, "") if work.transliteration not in {"", work.title} else "",
        work.translated_title,
        work.version_label,
        format_html('<span class="num">{}</span>', work.catalogue_number) if work.catalogue_number else "",
    ]
    return format_html_join(" · ", "{}", ((part,) for part in parts if part))
