"""What no template and no form may hold, found by reading the sources."""

from __future__ import annotations

import re
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules

import pytest
from django import forms as django_forms

from catalogue.web import forms
from catalogue.web.forms.uploads import KINDS, form_for

ROOT = Path(__file__).resolve().parents[2]
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
MODULES = sorted((ROOT / "catalogue").rglob("*.py"))
FORBIDDEN = {
    "a style of its own": re.compile(r"\sstyle\s*=|<style"),
    "a script of its own": re.compile(r"<script(?![^>]*\ssrc=)|\son[a-z]+\s*=|javascript:"),
    "text that is not escaped": re.compile(r"\|\s*safe\b|autoescape off|safeseq"),
    "something from another site": re.compile(r"(?:src|href|action)=[\"'](?:https?:)?//"),
}


@pytest.mark.parametrize("fault", FORBIDDEN)
def test_no_template_holds(fault: str) -> None:
    found = [str(path.relative_to(ROOT)) for path in TEMPLATES if FORBIDDEN[fault].search(path.read_text())]

    assert len(TEMPLATES) > 20
    assert found == []


@pytest.mark.parametrize(
    ("fault", "planted"),
    [
        ("a style of its own", '<p style="color: red">'),
        ("a script of its own", "<script>x()</script>"),
        ("a script of its own", '<a onclick="x()">'),
        ("text that is not escaped", "{{ title|safe }}"),
        ("something from another site", '<img src="https://elsewhere.example/x.png">'),
    ],
)
def test_planted_fault_is_found(fault: str, planted: str) -> None:
    assert FORBIDDEN[fault].search(planted)


def test_text_is_declared_safe_in_three_places_at_most() -> None:
    found = [path.name for path in MODULES if re.search(r"\bmark_safe\(", path.read_text())]

    assert len(found) <= 3


def model_forms() -> list[type[django_forms.ModelForm]]:
    for module in iter_modules(forms.__path__):
        import_module(f"{forms.__name__}.{module.name}")
    declared = [each for each in django_forms.ModelForm.__subclasses__() if each.__module__.startswith("catalogue.web")]
    return [each for each in declared if each._meta.model] + [form_for(slug) for slug in KINDS]


def test_every_form_of_a_record_names_its_fields() -> None:
    found = {each.__name__: (each._meta.fields, each._meta.exclude) for each in model_forms()}

    assert "WorkForm" in found
    assert [name for name, (fields, exclude) in found.items() if not isinstance(fields, list) or exclude] == []
