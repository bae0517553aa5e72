"""Lists, lines and boxes of forms, drawn straight away, letter by letter as the framework's templates draw them.

A template is carried out anew for each option of a list and again for what the option wears, which takes longer than
all the rest of a page that lets a work be picked. What is drawn here is what a widget's template is told (its
``context["widget"]``); tests hold it against the templates.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from html import escape
from typing import Any

from django.utils.formats import localize
from django.utils.html import conditional_escape
from django.utils.safestring import SafeString

Told = Mapping[str, Any]

WIDGETS = "django/forms/widgets/"
OPTION = f"{WIDGETS}select_option.html"
INPUTS = ("checkbox", "color", "date", "datetime", "email", "file", "hidden", "number", "password", "search", "tel",
          "text", "time", "url")  # fmt: skip


def drawn(template: str, widget: Told) -> str | None:
    """Return a widget as its template would draw it; nothing where that is none of those that are drawn here."""
    draw = DRAWN.get(template)
    return draw(widget) if draw is not None else None


def input_of(widget: Told) -> str:
    value = widget["value"]
    held = "" if value is None else f' value="{as_written(value)}"'
    return f'<input type="{shown(widget["type"])}" name="{shown(widget["name"])}"{held}{worn(widget["attrs"])}>'


def area_of(widget: Told) -> str:
    held = shown(widget["value"]) if widget["value"] else ""
    return f'<textarea name="{shown(widget["name"])}"{worn(widget["attrs"])}>\n{held}</textarea>'


def select_of(widget: Told) -> str | None:
    """A list; nothing where an option has a template of its own."""
    groups = widget["optgroups"]
    if any(option["template_name"] != OPTION for _name, options, _place in groups for option in options):
        return None
    lines = "".join(line for name, options, _place in groups for line in lines_of(name, options))
    return f'<select name="{shown(widget["name"])}"{worn(widget["attrs"])}>{lines}\n</select>'


def lines_of(group: Any, options: Iterable[Told]) -> Iterator[str]:
    if group:
        yield f'\n  <optgroup label="{shown(group)}">'
    for option in options:
        yield (
            f'\n  <option value="{as_written(option["value"])}"{worn(option["attrs"])}>{shown(option["label"])}'
            "</option>\n"
        )
    if group:
        yield "\n  </optgroup>"


def worn(attributes: Mapping[str, Any]) -> str:
    """The attributes of an element; of one that is true the name alone, of one that is false nothing."""
    return "".join(
        f" {shown(name)}" if value is True else f' {shown(name)}="{as_written(value)}"'
        for name, value in attributes.items()
        if value is not False
    )


def as_written(value: Any) -> str:
    """A value as it comes back when the form is sent: numbers in figures alone."""
    return value if type(value) is SafeString else escape(str(value))


def shown(value: Any) -> str:
    """A value as people read it."""
    if type(value) is str:
        return escape(value)
    return conditional_escape(value if isinstance(value, str) else str(localize(value)))


DRAWN: dict[str, Callable[[Told], str | None]] = {
    f"{WIDGETS}select.html": select_of,
    f"{WIDGETS}textarea.html": area_of,
    **dict.fromkeys((f"{WIDGETS}{name}.html" for name in INPUTS), input_of),
}
