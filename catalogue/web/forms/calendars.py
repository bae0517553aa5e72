"""The form that makes an address at which a program reads the calendar."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.models.calendars import LONGEST
from catalogue.models.fields import refuse_unprintable
from catalogue.terms import CalendarHolds

HOLDS = [
    (CalendarHolds.EVERYTHING.value, _("performances, rehearsals and what is due")),
    (CalendarHolds.PERFORMANCES.value, _("performances and rehearsals")),
    (CalendarHolds.DEADLINES.value, _("what is due: deadlines of calls, steps around performances, sets to come back")),
]


class AddressForm(forms.Form):
    """``query`` is what the list of performances was asked when it was to be subscribed to."""

    label = forms.CharField(
        label=_("What it is for"),
        help_text=_("The program or the person that reads it: telephone, Ilka’s desk, the orchestra’s office."),
        max_length=60,
        validators=[refuse_unprintable],
    )
    holds = forms.ChoiceField(label=_("What stands in it"), choices=HOLDS, initial=CalendarHolds.EVERYTHING.value)
    query = forms.CharField(
        required=False, max_length=LONGEST, validators=[refuse_unprintable], widget=forms.HiddenInput
    )
