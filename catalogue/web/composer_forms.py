"""Saving what a form says of a composer: kept, or shown again with what somebody else has saved meanwhile."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.core.exceptions import ValidationError
from django.forms import ModelForm
from django.utils import timezone

from catalogue.actions.composers import save_composer
from catalogue.actions.saving import Overtaken
from catalogue.web.conflicts import Conflict
from catalogue.web.forms.errors import add_errors


@dataclass(frozen=True, slots=True)
class Kept:
    """The form as it is to be shown, the conflict if there is one, and whether all of it is saved."""

    form: Any
    conflict: Conflict | None = None
    is_saved: bool = False


def keep(form: ModelForm[Any]) -> Kept:
    """Save the composer of a valid form that was sent."""
    composer = form.instance
    try:
        save_composer(composer=composer, now=timezone.now())
    except Overtaken as overtaken:
        conflict = Conflict.between(overtaken, form, type(form)(instance=overtaken.latest))
        sent = {**form.data.dict(), "saves": overtaken.latest.saves}  # type: ignore[attr-defined]
        return Kept(type(form)(sent, instance=composer), conflict)
    except ValidationError as refused:
        add_errors(form, refused)
        return Kept(form)
    return Kept(form, is_saved=True)
