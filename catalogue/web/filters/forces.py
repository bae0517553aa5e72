"""Which works so many players can play: the question of whoever has an ensemble, or a call with a limit, in hand."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import django_filters as filters
from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Q, QuerySet

from catalogue.gathering import reading_of
from catalogue.instrumentation import Instrumentation, InstrumentationError, read
from catalogue.instrumentation.fit import fit
from catalogue.models import InstrumentationLine, Work

LONGEST = 500


class ForcesField(forms.CharField):
    """An instrumentation in any dress; its value is what was read, ``None`` where nothing is typed."""

    def clean(self, value: Any) -> Instrumentation | None:
        text = super().clean(value)
        try:
            return read(text) if text.strip() else None
        except InstrumentationError as mistake:
            raise ValidationError(mistake.reason) from mistake


class ForcesFilter(filters.Filter):
    field_class = ForcesField


@dataclass(frozen=True, slots=True)
class Playable:
    """The works that surely can be played, and those of which it cannot be told, since they are open."""

    surely: tuple[int, ...]
    perhaps: tuple[int, ...]


def playable(works: QuerySet[Work], forces: Instrumentation) -> Playable:
    """Ask of each work that comes into question whether these players can play it; one query."""
    found: dict[bool | None, list[int]] = {True: [], None: [], False: []}
    for pk, text in likely(works, forces).values_list("pk", "instrumentation"):
        found[can_be_played(text, forces)].append(pk)
    return Playable(tuple(found[True]), tuple(found[None]))


def likely(works: QuerySet[Work], forces: Instrumentation) -> QuerySet[Work]:
    """Leave out by the index what is too large, or needs a family of instruments that is not there at all."""
    families = {line.family for line in forces.lines} | {"electronics", "other"}
    needed = InstrumentationLine.objects.filter(least_players__gt=0, is_doubling=False).exclude(family__in=families)
    found = works.exclude(instrumentation="").exclude(pk__in=needed.values("work"))
    if forces.players is None:
        return found
    return found.filter(Q(least_players__isnull=True) | Q(least_players__lte=forces.players[1]))


@lru_cache(maxsize=16_384)
def can_be_played(text: str, forces: Instrumentation) -> bool | None:
    """Whether these players, with the usual doublings, can play what a text calls for."""
    work = reading_of(text)
    return fit(work, forces, usual_doublings=True, as_limits=True).fits if work else None
