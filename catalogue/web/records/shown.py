"""How a value of a record reads on its page and in a list."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal
from functools import partial
from typing import Any

from django.db import models
from django.template.defaultfilters import filesizeformat, linebreaks_filter
from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from catalogue.drawings.signs import sign_drawing, to_svg
from catalogue.models import Performance, Work
from catalogue.models.fields import StrengthsField
from catalogue.models.typed_lists import READERS
from catalogue.rules.identifiers import doubt_about
from catalogue.timing import Duration, PartialDate, write_clock_time, write_duration
from catalogue.web.forms.columns import IDENTIFIERS, write_seconds
from catalogue.web.pictures import drawn
from catalogue.web.places import write_country
from catalogue.web.programmes import when_and_where
from catalogue.web.records.kinds import BESIDES, Kind, Words
from catalogue.web.records.registry import of_models
from catalogue.web.wording import date_text, page_language

PIXELS_TO_A_SPACE = 10
NAMES = {"__str__", "billed_name", "given_by", "published_by", "holder", "recipient", "since"}
"""What is told of a record in a line of its own and stands in no column."""
LANGUAGE_OF = {
    "body": "language", "headline": "language", "quotation": "language", "translation": "translation_language",
}  # fmt: skip
"""The column that says in which language another one is; what stands in no such column is in the reader's own."""


@dataclass(frozen=True, slots=True)
class Row:
    """A field with its value; ``doubts`` tell what cannot be right with it, ``is_long`` that it is prose."""

    label: Words
    value: SafeString | str
    doubts: tuple[str, ...]
    is_long: bool
    name: str = ""


def rows_of(
    record: Any, kind: Kind, slug: str, language: str, opens: Collection[Kind] | None = None
) -> list[tuple[Words, list[Row]]]:
    """Return the fields of a record that are filled, in the groups of its form; ``opens`` as of ``shown``."""
    telling = partial(shown, record, slug=slug, language=language, opens=opens)
    groups = [
        (group.heading, list(filled_rows(record, kind, group.names, telling))) for group in (*kind.main, *kind.more)
    ]
    return [(heading, rows) for heading, rows in groups if rows]


def filled_rows(record: Any, kind: Kind, names: tuple[str, ...], telling: Callable[[str], str]) -> Iterator[Row]:
    for name in names:
        value = telling(name) if name not in BESIDES else ""
        if value:
            text = getattr(record, name)
            doubt = doubt_about(IDENTIFIERS[name], text) if name in IDENTIFIERS else ""
            yield Row(kind.label(name), value, (doubt,) if doubt else (), is_prose(record, name), name)


def is_prose(record: Any, name: str) -> bool:
    return isinstance(record._meta.get_field(name), models.TextField)


def shown(record: Any, name: str, slug: str, language: str, opens: Collection[Kind] | None = None) -> SafeString | str:
    """Return a column or a property of a record as it reads; nothing where nothing is known.

    Another record is named with the way to it where its kind is among ``opens``, or none are named.
    """
    value = value_of(record, name)
    if is_nothing(value, name):
        return ""
    if is_record(value):
        return linked(value, slug, opens)
    if name == "strings" and isinstance(value, tuple):
        return StrengthsField().write(value)
    if name in {"excerpt_from", "excerpt_until"} and isinstance(value, int):
        return write_seconds(value)
    if name == "byte_count":
        return filesizeformat(value)
    if has_choices(record, name) and not isinstance(value, tuple):
        return str(getattr(record, f"get_{name}_display")())
    return written(value, language) if not isinstance(value, str) else worded(record, name, value)


def told(record: Any, name: str, language: str) -> str:
    """Return a column or a property as plain words, for a list that is taken along."""
    value = value_of(record, name)
    if is_nothing(value, name):
        return ""
    if is_record(value):
        return name_of(value)
    if isinstance(value, str) and name != "country" and not has_choices(record, name):
        return value
    return str(shown(record, name, "", language))


def value_of(record: Any, name: str) -> Any:
    return str(record) if name == "__str__" else getattr(record, name)


def is_nothing(value: Any, name: str) -> bool:
    """Whether there is nothing to tell: no value, or no place in a list."""
    return value in (None, "", ()) or value is False or (name == "position" and value == 0)


def is_record(value: Any) -> bool:
    return isinstance(value, Work | Performance) or type(value) in of_models()


def has_choices(record: Any, name: str) -> bool:
    return hasattr(record, f"get_{name}_display")


def name_of(other: Any) -> str:
    return when_and_where(other, page_language()) if isinstance(other, Performance) else str(other)


def written(value: Any, language: str) -> str:
    """Return a value that is no text as it is written."""
    if isinstance(value, date):
        return date_text(PartialDate.of(value), language)
    if isinstance(value, PartialDate):
        return date_text(value, language)
    if isinstance(value, Duration):
        return write_duration(value, language=language)
    if isinstance(value, time):
        return write_clock_time(value, language)
    if isinstance(value, tuple):
        return ", ".join(str(one) for one in value)
    if isinstance(value, Decimal):
        return f"{value.normalize():f}".replace("-", "−")
    return _("yes") if value is True else str(value)


def worded(record: Any, name: str, text: str) -> SafeString | str:
    """Return a text: prose in paragraphs, an address to be followed, a country by its name."""
    if name == "country":
        return write_country(text)
    if name in NAMES or not text.strip():
        return text
    field = next((one for one in record._meta.concrete_fields if one.name == name), None)
    if isinstance(field, models.TextField) and name in READERS:
        rows = ((line.strip(),) for line in text.splitlines() if line.strip())
        return format_html('<ul class="lines" dir="auto">{}</ul>', format_html_join("", "<li>{}</li>", rows))
    if isinstance(field, models.TextField):
        return format_html('<div dir="auto"{}>{}</div>', language_mark(record, name), linebreaks_filter(text))
    if isinstance(field, models.EmailField):
        return format_html('<a href="mailto:{}">{}</a>', text, text)
    if isinstance(field, models.URLField):
        return format_html('<a href="{}" rel="noreferrer">{}</a>', text, text)
    return format_html("<bdi{}>{}</bdi>", language_mark(record, name), text)


def language_mark(record: Any, name: str) -> SafeString:
    """Return the attribute that tells the language of a text, so that it is read aloud as what it is."""
    language = getattr(record, LANGUAGE_OF.get(name, ""), "")
    return format_html(' lang="{}"', language) if language else SafeString()


def linked(other: Any, slug: str, opens: Collection[Kind] | None = None) -> SafeString:
    """Return another record by name, with the way to its page where it may be opened."""
    if other.deleted_at is not None:
        return format_html("<bdi>{}</bdi> ({})", name_of(other), _("deleted"))
    if isinstance(other, Work):
        address = reverse("work-detail", args=[slug, other.pk])
    elif isinstance(other, Performance):
        address = reverse("performance-detail", args=[slug, other.pk])
    elif opens is not None and of_models()[type(other)] not in opens:
        return format_html("<bdi>{}</bdi>", other)
    else:
        address = reverse("record-detail", args=[slug, of_models()[type(other)].slug, other.pk])
    return format_html('<a href="{}"><bdi>{}</bdi></a>', address, name_of(other))


def sign_svg(record: Any) -> SafeString:
    """Draw the sign of a row of the notation key; nothing where it cannot be drawn."""
    drawing = sign_drawing(getattr(record, "smufl", ""))
    return drawn(to_svg(drawing, scale=PIXELS_TO_A_SPACE, title=record.name)) if drawing else SafeString()
