"""What templates ask of the cores: pictures and wordings. Each tag calls one function and adds nothing."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime

from django import template
from django.db import models
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from catalogue.documents.model import Run, Style, Text
from catalogue.documents.renderers.web_faces import release
from catalogue.instrumentation import Instrumentation
from catalogue.timing import Duration, PartialDate, write_date, write_duration
from catalogue.web.days import moment_text
from catalogue.web.forms.works import WorkForm
from catalogue.web.kept import typed_by_hand
from catalogue.web.pictures import strip_key, strip_svg
from catalogue.web.records.registry import of_models
from catalogue.web.titles import in_language
from catalogue.web.wording import page_language

register = template.Library()

ELEMENTS = {Style.TITLE: "i", Style.EMPHASIS: "em", Style.STRONG: "b"}


@register.simple_tag
def strip(instrumentation: Instrumentation | None, scale: float, title: str = "") -> SafeString:
    """Draw the players; ``title`` is read to those who cannot see them."""
    return strip_svg(instrumentation, scale, title) if instrumentation else SafeString()


@register.inclusion_tag("parts/strip_key.html")
def key_to_strips() -> dict[str, object]:
    """Explain the marks of the player strip."""
    return {"signs": strip_key(page_language())}


@register.filter
def typeset(text: Text) -> SafeString:
    """Set a text of a document in a page: titles in italics, values isolated, each in its language."""
    return format_html_join("", "{}", ((run_html(run),) for run in text))


def run_html(run: Run) -> SafeString | str:
    words = in_language(run.text, run.language) if run.value else run.text
    element = ELEMENTS.get(run.style)
    return format_html("<{}>{}</{}>", element, words, element) if element else words


@register.filter
def lasting(duration: Duration | None) -> str:
    """Write a duration in primes."""
    return write_duration(duration, language=page_language()) if duration else ""


@register.filter
def kind_of(record: models.Model) -> str:
    """Return what the kind of a record is called in addresses."""
    return of_models()[type(record)].slug


@register.filter
def moment(when: datetime | None) -> SafeString:
    """Set a moment, by the clock of whoever reads."""
    if when is None:
        return SafeString()
    exact = when.astimezone(UTC).isoformat(timespec="seconds")
    return format_html('<time datetime="{}">{}</time>', exact, moment_text(when, page_language()))


@register.filter
def moment_words(when: datetime | None) -> str:
    """Write a moment where no element may stand."""
    return moment_text(when, page_language()) if when else ""


@register.filter
def day(when: date | datetime | None) -> str:
    """Write a day; of a moment the one on which it was by the clock of whoever reads."""
    if when is None:
        return ""
    here = timezone.localtime(when).date() if isinstance(when, datetime) else when
    return write_date(PartialDate.of(here), page_language())


@register.filter
def by_hand(fields: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    return typed_by_hand(fields)


@register.simple_tag
def face_sheet() -> str:
    """Return the address of the sheet that names the typefaces of East Asia."""
    return reverse("face-sheet", args=[release()])


@register.simple_tag
def column_name(name: str) -> str:
    """Return what a form calls a column of a work."""
    return str(WorkForm.base_fields[name].label) if name in WorkForm.base_fields else name.replace("_", " ")
