"""Forms are drawn by the site's own templates: label, hint, error, field, one below the other."""

from __future__ import annotations

from django.forms.renderers import TemplatesSetting


class FormRenderer(TemplatesSetting):
    form_template_name = "forms/form.html"
    field_template_name = "forms/field.html"
