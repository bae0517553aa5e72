"""Forms are drawn by the site's own templates: label, hint, error, field, one below the other."""

from __future__ import annotations

from typing import Any

from django.forms.renderers import TemplatesSetting
from django.http import HttpRequest
from django.utils.safestring import SafeString

from catalogue.web.forms.drawing import drawn


class FormRenderer(TemplatesSetting):
    form_template_name = "forms/form.html"
    field_template_name = "forms/field.html"

    def render(self, template_name: str, context: dict[str, Any], request: HttpRequest | None = None) -> SafeString:
        """Draw a form, a field or a widget; the usual widgets without a template."""
        at_once = drawn(template_name, context["widget"]) if "widget" in context else None
        return SafeString(super().render(template_name, context, request) if at_once is None else at_once)
