"""The form of a hall: one that is there already is not entered twice."""

from __future__ import annotations

from typing import Any, ClassVar

from django.utils.translation import gettext as _

from catalogue.models import Venue
from catalogue.rules.search import fold
from catalogue.web.forms.records import RecordForm
from catalogue.web.records.kinds import Kind
from catalogue.web.records.registry import KINDS


class HallForm(RecordForm):
    kind: ClassVar[Kind] = KINDS["halls"]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if self.instance.pk is None and cleaned.get("name") and "city" in cleaned:
            there = Venue.objects.filter(composer=self.composer).only("name", "city")
            wanted = (fold(cleaned["name"]), fold(cleaned["city"]))
            if any((fold(hall.name), fold(hall.city)) == wanted for hall in there):
                self.add_error("name", _("This hall is in the catalogue already."))
        return cleaned
