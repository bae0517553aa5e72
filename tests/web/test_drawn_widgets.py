"""Widgets that are drawn without a template are drawn as the framework's own templates draw them, letter by letter."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import django
import pytest
from django import forms
from django.forms.renderers import DjangoTemplates, TemplatesSetting
from django.utils.safestring import mark_safe
from django.utils.translation import gettext_lazy as _
from django.utils.translation import override

from catalogue.web.forms.drawing import DRAWN, WIDGETS
from catalogue.web.forms.renderer import FormRenderer

NASTY = "a <b> & \"c\" 'd' é\nعود"
SAFE = mark_safe("<i>x</i> & y")
CHOICES: list[Any] = [
    ("", "any"),
    (None, "none"),
    (0, _("Works")),
    (1234567, 1234567),
    (NASTY, NASTY),
    (SAFE, SAFE),
    ("a <group>", [("in", "Inside"), (2.5, 2.5)]),
    (_("Works"), [(True, "yes"), (date(2026, 3, 28), date(2026, 3, 28))]),
]
ATTRIBUTES: list[dict[str, Any]] = [
    {},
    {"id": "id_of_it", "class": NASTY, "required": True, "disabled": False, "maxlength": 1000},
    {"data-said": SAFE, "aria-label": _("Works"), "size": None, "data-<x>": "y"},
]
VALUES: list[Any] = [None, "", 0, 1234567, NASTY, SAFE, True, False, "in", ["in", "0"], _("Works"), 2.5, (1, 2)]
ONES = (
    forms.CheckboxInput, forms.ColorInput, forms.DateInput, forms.DateTimeInput, forms.EmailInput, forms.FileInput,
    forms.HiddenInput, forms.NumberInput, forms.PasswordInput, forms.SearchInput, forms.TelInput, forms.TextInput,
    forms.Textarea, forms.TimeInput, forms.URLInput,
)  # fmt: skip
OF_CHOICES = (forms.Select, forms.SelectMultiple, forms.RadioSelect, forms.CheckboxSelectMultiple)


def both(widget: forms.Widget, value: Any, attributes: dict[str, Any]) -> tuple[str, str]:
    return (
        widget.render("na<me", value, attributes, renderer=FormRenderer()),
        widget.render("na<me", value, attributes, renderer=DjangoTemplates()),
    )


@pytest.mark.parametrize("language", ["en-gb", "de"])
@pytest.mark.parametrize("value", VALUES, ids=repr)
@pytest.mark.parametrize("attributes", ATTRIBUTES, ids=["bare", "worn", "said"])
def test_a_line_is_drawn_as_by_the_template(language: str, value: Any, attributes: dict[str, Any]) -> None:
    with override(language):
        for kind in ONES:
            ours, theirs = both(kind(attrs={"lang": "la"}), value, attributes)
            assert ours == theirs, kind


@pytest.mark.parametrize("language", ["en-gb", "de"])
@pytest.mark.parametrize("value", VALUES, ids=repr)
@pytest.mark.parametrize("attributes", ATTRIBUTES, ids=["bare", "worn", "said"])
def test_a_list_is_drawn_as_by_the_template(language: str, value: Any, attributes: dict[str, Any]) -> None:
    with override(language):
        for kind in OF_CHOICES:
            ours, theirs = both(kind(attrs={"lang": "la"}, choices=CHOICES), value, attributes)
            assert ours == theirs, kind


@pytest.mark.parametrize("value", [None, True, False, "2"])
def test_yes_no_or_not_known_is_drawn_as_by_the_template(value: Any) -> None:
    ours, theirs = both(forms.NullBooleanSelect(), value, {"id": "x"})
    assert ours == theirs


def test_a_list_whose_options_have_a_template_of_their_own_is_drawn_with_it() -> None:
    class Radios(forms.Select):
        option_template_name = "django/forms/widgets/radio_option.html"

    ours, theirs = both(Radios(choices=CHOICES), 0, {})
    assert ours == theirs
    assert "<input" in ours


def test_every_drawn_widget_has_a_template_and_that_is_the_one_that_was_copied() -> None:
    """The site's own folder may not hold another template of the same name, which would never be used."""
    folder = Path(django.__file__).parent / "forms" / "templates"
    setting = TemplatesSetting()
    for name in (*DRAWN, f"{WIDGETS}input.html", f"{WIDGETS}attrs.html", f"{WIDGETS}select_option.html"):
        assert Path(setting.get_template(name).origin.name) == folder / name
