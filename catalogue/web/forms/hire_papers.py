"""What the papers of a hire are asked: of which hire they are, or of which period."""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.gathering.hires import ALONG
from catalogue.making import Wish
from catalogue.models import Composer, Hire, Work
from catalogue.web.forms.document_base import DocumentForm, PeriodForm

OFFERED = 200  # hires to choose from, the latest ones
CHOOSE = _("Choose a hire")


class HirePaperForm(DocumentForm):
    """A paper of one hire."""

    field_order: tuple[str, ...] = ("hire",)

    def __init__(self, asked: Any, *, composer: Composer, today: datetime.date) -> None:
        super().__init__(asked, composer=composer, today=today)
        self.fields["hire"] = hire_field(composer)
        self.order_fields(self.field_order)

    def clean(self) -> dict[str, Any]:
        if not self.cleaned_data.get("hire") and not self.errors:
            raise ValidationError(_("Choose the hire that the paper is of."), code="unchosen")
        return self.cleaned_data

    @property
    def work(self) -> Work | None:
        hire: Hire | None = self.cleaned_data.get("hire")
        return hire.work if hire else None

    def wish(self) -> Wish:
        hire: Hire | None = self.cleaned_data["hire"]
        return replace(super().wish(), hire=hire.pk if hire else None)


def hire_field(composer: Composer, empty: Any = CHOOSE) -> forms.ModelChoiceField:
    ours = Hire.objects.filter(composer=composer).select_related(*ALONG)
    field = forms.ModelChoiceField(ours, label=_("Hire"), required=False)
    latest = ours.order_by("-out_on", "-pk")[:OFFERED]
    field.choices = [("", empty), *((one.pk, str(one)) for one in latest)]
    return field


class HireChecklistForm(HirePaperForm):
    word, title = "hire-checklist", _("Parts checklist of a hire")
    about = _("The list of the set as it was made up, to tick as it leaves and comes back.")
    any_kind = "parts-checklist"


class DeliveryNoteForm(HirePaperForm):
    word, title = "delivery-note", _("Delivery note")
    about = _("What is in the parcel and when it is due, to be checked in a minute.")
    any_kind = "delivery-note"


class ArrivalCheckForm(HirePaperForm):
    word, title = "arrival-check", _("Arrival check")
    about = _("Part by part, for whoever opens the parcel.")
    any_kind = "arrival-check"


class ReturnCheckForm(HirePaperForm):
    word, title = "return-check", _("Return check")
    about = _("Part by part, as the set comes back: condition, what is to be done, what is charged.")
    any_kind = "return-check"


class MissingPartsForm(HirePaperForm):
    word, title = "missing-parts-letter", _("Missing-parts letter")
    about = _("Which copies did not come back, until when they are awaited, what they cost.")
    any_kind = "missing-parts-letter"


class HireStatementForm(PeriodForm):
    word, title = "hire-statement", _("Hire statement")
    about = _("The account of one hire, or all hires of a period.")
    any_kind = "hire-statement"
    field_order: tuple[str, ...] = ("hire", "first", "last")

    def __init__(self, asked: Any, *, composer: Composer, today: datetime.date) -> None:
        super().__init__(asked, composer=composer, today=today)
        self.fields["hire"] = hire_field(composer, _("all of a period"))
        self.order_fields(self.field_order)

    def wish(self) -> Wish:
        hire: Hire | None = self.cleaned_data["hire"]
        return replace(super().wish(), hire=hire.pk if hire else None)


HIRE_PAPERS = (
    HireChecklistForm,
    DeliveryNoteForm,
    ArrivalCheckForm,
    ReturnCheckForm,
    MissingPartsForm,
    HireStatementForm,
)
