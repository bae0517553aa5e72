"""What a record refuses, shown in the form that it came from."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.forms import BaseForm


def add_errors(form: BaseForm, refused: ValidationError) -> None:
    """Show what the record refused beside its field, or above the form where it has no field there."""
    if not hasattr(refused, "error_dict"):
        form.add_error(None, refused)
        return
    for name, errors in refused.error_dict.items():
        form.add_error(name if name in form.fields else None, ValidationError(errors))
