"""The form of a tour: several dates with one programme, a line each."""

from __future__ import annotations

from typing import Any
from uuid import UUID, uuid4, uuid5

from django import forms
from django.core.exceptions import ValidationError
from django.urls import reverse
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from catalogue.exchange.event_lines import EventLine, lines_of, read_event_line
from catalogue.exchange.performer_lists import PerformersError, check_performers
from catalogue.models.conditions import choices_of
from catalogue.models.fields import TEXT, refuse_unprintable
from catalogue.terms import Audience, PerformanceKind, PerformanceStatus
from catalogue.web.forms.performances import BY_DATE, line
from catalogue.web.forms.programme import MOST, rows_typed
from catalogue.web.known import Known
from catalogue.web.wording import page_language
from catalogue.web.work_names import UnknownWork

MOST_DATES = 100
SAME_FOR_ALL = ("event_title", "presenter", "series", "kind", "audience", "status")


def lines(label: Any, help_text: Any, rows: int, **attrs: str) -> forms.CharField:
    return forms.CharField(
        label=label,
        help_text=help_text,
        required=False,
        max_length=TEXT,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": rows, "dir": "auto", **attrs}),
    )


class TourForm(forms.Form):
    dates = lines(_("Dates and places"), _("One a line: 12 May 2027 19:30 Hall, City, Country."), 6)
    works = lines(_("Works"), _("One a line, in the order in which they are played."), 3)
    performers = lines(
        _("Performers"), _("One a line: conductor: Joren Voorhage, or clarinet: Sunniva Brekk, or a name alone."), 3
    )
    event_title = line(_("Title of the event"))
    presenter = line(_("Presented by"), dir="auto")
    series = line(_("Series or festival"))
    status = forms.ChoiceField(
        label=_("What has become of it"), choices=[BY_DATE, *choices_of(PerformanceStatus)], required=False
    )
    kind = forms.ChoiceField(label=_("Kind"), choices=choices_of(PerformanceKind), required=False)
    audience = forms.ChoiceField(label=_("Audience"), choices=choices_of(Audience), required=False)
    uid = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, known: Known, slug: str, **options: Any) -> None:
        super().__init__(*args, **options)
        self.known = known
        usual = {"kind": PerformanceKind.CONCERT.value, "audience": Audience.PUBLIC.value}
        self.initial.update({"uid": uuid4(), **usual})
        self.fields["dates"].widget.attrs |= {
            "data-hx-post": reverse("tour-reading", args=[slug]),
            "data-hx-trigger": "input changed delay:400ms",
            "data-hx-target": "#tour-reading",
            "data-hx-params": "dates",
        }

    def clean_dates(self) -> str:
        text: str = self.cleaned_data["dates"]
        number = sum(1 for _line in lines_of(text))
        if not number:
            raise ValidationError(_now("Write a date and a place in each line."))
        if number > MOST_DATES:
            raise ValidationError(
                _now("These are more than %(most)s dates; enter them in parts.") % {"most": MOST_DATES}
            )
        return text

    def clean_works(self) -> str:
        text: str = self.cleaned_data["works"]
        for _number, name in lines_of(text):
            try:
                self.known.works.find(name)
            except UnknownWork as mistake:
                raise ValidationError(mistake.reason) from mistake
        return text

    def clean_performers(self) -> str:
        text: str = self.cleaned_data["performers"]
        try:
            check_performers(text)
        except PerformersError as mistake:
            raise ValidationError(mistake.reason) from mistake
        return text

    # ---- each date as the form of a performance has it

    def uid_of(self, number: int) -> UUID:
        """Return the identity of the performance in a line, the same however often the form is sent."""
        return uuid5(self.cleaned_data.get("uid") or uuid4(), str(number))

    def typed_in(self, number: int, text: str) -> dict[str, str]:
        """Return what would have been typed into the form of a performance for a line."""
        said = line_said(text, self.known)
        typed: dict[str, str] = {name: self.cleaned_data[name] for name in SAME_FOR_ALL}
        works = [*said.works, *(name for _number, name in lines_of(self.cleaned_data["works"]))][:MOST]
        performers = "\n".join([*said.performers, self.cleaned_data["performers"]])
        place = {"venue": said.hall, "city": said.city, "country": said.country}
        when = {"date": said.date, "time": said.time, "uid": str(self.uid_of(number))}
        return {**typed, **place, **when, "performers": performers.strip(), **rows_typed(works)}


def line_said(text: str, known: Known) -> EventLine:
    return read_event_line(text, language=page_language(), is_work=known.works.knows, halls=known.hall_names)
