"""Columns that hold a list as it was typed, and the readers that say whether it can be read."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models

from catalogue.rules.technical.lists import ListError
from catalogue.rules.technical.reading import (
    read_inputs,
    read_media,
    read_needs,
    read_outputs,
    read_places,
    read_schedule,
    read_software,
    read_speakers,
    read_staff,
)

READERS: dict[str, Callable[[str], tuple[Any, ...]]] = {
    "inputs": read_inputs,
    "outputs": read_outputs,
    "speakers": read_speakers,
    "equipment": read_needs,
    "software": read_software,
    "media": read_media,
    "staff": read_staff,
    "schedule": read_schedule,
    "places": read_places,
}


def refuse_unreadable(record: models.Model, columns: tuple[str, ...]) -> None:
    """Raise ValidationError with a sentence at each list that cannot be read."""
    mistakes = {}
    for column in columns:
        typed = getattr(record, column)
        try:
            READERS[column](typed)
        except ListError as mistake:
            row = typed.count("\n", 0, mistake.start) + 1
            mistakes[column] = f"Line {row}: {mistake.reason}"
    if mistakes:
        raise ValidationError(mistakes)
