"""The form of a performance: when, where, who and what was played; one of these is enough.

A hall that the catalogue knows is recognised by its name, another is added as it was typed. Whoever performed or
presented is told by name, and joined to the body or person of that name where the catalogue has one.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from functools import reduce
from operator import or_
from typing import Any

from django import forms
from django.db.models import Q
from django.forms.boundfield import BoundField
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from catalogue.exchange.performer_lists import (
    Performer,
    PerformersError,
    check_performers,
    read_performers,
    write_performer,
)
from catalogue.models import Organisation, Performance, PerformanceCredit, Person, Venue
from catalogue.models.conditions import choices_of, refuse_unknown_zone
from catalogue.models.fields import LINE, TEXT, refuse_unprintable
from catalogue.rules.search import fold
from catalogue.terms import PerformanceStatus, PerformerRole
from catalogue.timing import Occurs, PartialDate, read_clock_time, write_clock_time
from catalogue.web.forms.fields import DateField, ReadField, StrengthsTypedField
from catalogue.web.forms.works import Group
from catalogue.web.known import Known
from catalogue.web.places import Place, PlaceError, TypedPlace, place_of, read_country, write_country
from catalogue.web.wording import page_language

WHERE = ("venue", "city", "country", "zone")
MORE = (
    Group(_("The event"), ("event_title", "presenter", "series")),
    Group(_("What sort of event"), ("kind", "audience"), in_a_row=True),
    Group(_("More on the place"), ("zone", "country_then")),
    Group(_("More on the players"), ("keeps_names", "string_strengths")),
    Group(_("Notes"), ("notes",)),
)
USUAL = {"kind": "concert", "audience": "public", "keeps_names": True}
BY_DATE = ("", _("Given, or confirmed where it is to come"))


def line(label: Any, help_text: Any = "", **attrs: str) -> forms.CharField:
    return forms.CharField(
        label=label,
        help_text=help_text,
        required=False,
        max_length=LINE,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs=attrs),
    )


class PerformanceForm(forms.ModelForm):
    date = DateField(label=_("Date"), help_text=_("28 March 2026, March 2026 or 2026."))
    time = ReadField(
        read=read_clock_time,
        write=lambda at: write_clock_time(at, page_language()),
        label=_("Time"),
        help_text=_("By the clocks there: 19:30."),
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    second_time = forms.TypedChoiceField(
        label=_("Which of the two"),
        help_text=_("The clocks go back that night, and the hour comes twice."),
        choices=[("", _("Not said yet")), ("first", _("The first, before they go back")), ("second", _("The second"))],
        coerce=lambda told: told == "second",
        empty_value=None,
        required=False,
    )
    status = forms.ChoiceField(label=_("What has become of it"), choices=choices_of(PerformanceStatus))
    venue = line(_("Hall or place"), _("A hall that is known, or a new one."), list="halls", dir="auto")
    city = line(_("City"), _("Of a hall that is not known yet."), list="cities", dir="auto")
    country = ReadField(
        read=read_country,
        write=write_country,
        label=_("Country"),
        help_text=_("Its name, or two letters such as CH."),
        widget=forms.TextInput(attrs={"list": "countries"}),
    )
    zone = forms.CharField(
        label=_("Clocks"),
        help_text=_("Only where they cannot be told from the place, such as America/New_York."),
        required=False,
        max_length=64,
        validators=[refuse_unprintable, refuse_unknown_zone],
        widget=forms.TextInput(attrs={"list": "zones"}),
    )
    performers = forms.CharField(
        label=_("Performers"),
        help_text=_("One a line: conductor: Joren Voorhage, or clarinet: Ragna Tolv, or a name alone."),
        required=False,
        max_length=TEXT,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 3, "dir": "auto"}),
    )
    keeps_names = forms.BooleanField(
        label=_("Keep performers and a presenter who are new among people and organisations"),
        required=False,
        initial=True,
    )
    presenter = line(_("Presented by"), list="bodies", dir="auto")
    string_strengths = StrengthsTypedField(
        label=_("Strings that play"), help_text=_("Players from first violins to double basses: 14.12.10.8.6.")
    )
    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)
    uid = forms.UUIDField(widget=forms.HiddenInput, required=False)

    class Meta:
        model = Performance
        fields = [
            "date", "time", "second_time", "status", "kind", "audience", "event_title", "series", "string_strengths",
            "country_then", "notes",
        ]  # fmt: skip
        labels = {
            "kind": _("Kind"),
            "audience": _("Audience"),
            "event_title": _("Title of the event"),
            "series": _("Series or festival"),
            "country_then": _("State of the time"),
            "notes": _("Notes for yourself"),
        }
        help_texts = {
            "country_then": _("Where the place has changed countries since: Czechoslovakia."),
            "notes": _("Never printed, never public."),
        }
        widgets = {"notes": forms.Textarea(attrs={"rows": 4})}

    def __init__(self, *args: Any, known: Known, today: datetime.date, **options: Any) -> None:
        super().__init__(*args, **options)
        self.known, self.today = known, today
        self.venue_to_save: Venue | None = None
        self.initial.update({"uid": self.instance.uid, "saves": self.instance.saves})
        if self.instance.pk:
            self.initial.update(stored_texts(self.instance))
        else:
            self.fields["status"] = forms.ChoiceField(
                label=self.fields["status"].label, choices=[BY_DATE, *choices_of(PerformanceStatus)], required=False
            )
            self.initial["status"] = ""
        del self.fields["uid" if self.instance.pk else "saves"]
        self._read_live()

    def _read_live(self) -> None:
        """Ask for the reading whenever the typing pauses; without scripts it comes when the form is sent."""
        slug = self.instance.composer.slug
        besides = f"?besides={self.instance.pk}" if self.instance.pk else ""
        for names, reading in ((("date", "time"), "when"), (WHERE, "where"), (("performers",), "performers")):
            for name in names:
                self.fields[name].widget.attrs |= {
                    "data-hx-post": reverse(f"{reading}-reading", args=[slug]) + besides,
                    "data-hx-trigger": "input changed delay:400ms",
                    "data-hx-target": f"#{reading}-reading",
                    "data-hx-include": ", ".join(f"[name={one}]" for one in names),
                    "data-hx-params": ",".join(names),
                }

    # ---- reading what was typed

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.instance.saves = cleaned.get("saves") or 0
        self.instance.uid = cleaned.get("uid") or self.instance.uid
        cleaned["status"] = cleaned.get("status") or status_by(cleaned.get("date"), self.today)
        if not self.errors.keys() & {*WHERE} and self._is_touched(*WHERE, "time"):
            self._put_in_place(cleaned)
        if self._is_touched("presenter"):
            body = self.known.body_named(cleaned["presenter"]) if cleaned.get("presenter") else None
            self.instance.presenter, self.instance.presenter_name = body, "" if body else cleaned.get("presenter", "")
        return cleaned

    def _is_touched(self, *names: str) -> bool:
        return self.instance.pk is None or any(name in self.changed_data for name in names)

    def _put_in_place(self, cleaned: dict[str, Any]) -> None:
        try:
            place = place_of(
                typed_place(cleaned),
                self.known.venues,
                current=self.instance.venue,
                year=year_of(cleaned.get("date"), self.today),
                asks_zone=cleaned.get("time") is not None,
            )
        except PlaceError as mistake:
            self.add_error(mistake.field, mistake.reason)
        else:
            self._take_place(place, cleaned["zone"])

    def _take_place(self, place: Place, zone: str) -> None:
        """Put the performance there; what was typed of a hall and not known of it yet becomes known."""
        venue, performance = place.venue, self.instance
        performance.venue = venue
        performance.city, performance.country, performance.zone = ("", "", "") if venue else (
            place.city, place.country, place.zone,
        )  # fmt: skip
        if venue is None:
            return
        venue.composer = performance.composer
        news = [name for name in ("city", "country", "zone") if not getattr(venue, name) and getattr(place, name)]
        for name in news:
            setattr(venue, name, getattr(place, name))
        performance.zone = zone if zone != venue.zone else ""
        self.venue_to_save = venue if news or place.is_new else None

    def clean_performers(self) -> str:
        text: str = self.cleaned_data["performers"]
        try:
            check_performers(text)
        except PerformersError as mistake:
            raise forms.ValidationError(mistake.reason) from mistake
        return text

    def new_credits(self) -> list[PerformanceCredit] | None:
        """Return the performers that were typed, None where the list was not touched; one who stays keeps the row."""
        if not self._is_touched("performers"):
            return None
        typed = read_performers(self.cleaned_data["performers"], bodies=self.known.body_names)
        stored = list(self.instance.credits.select_related("person", "organisation")) if self.instance.pk else []
        begins = [Q(search_text__startswith=fold(one.name)) for one in typed]
        people = Person.objects.filter(reduce(or_, begins, Q(pk=None)), composer=self.instance.composer)
        named = {fold(person.name): person for person in people}
        return [credited(row_of(one, stored), one, self.known.body_named(one.name), named) for one in typed]

    @property
    def asks_which(self) -> bool:
        """Whether to ask which of two times is meant: it was asked before, or the clocks show the time twice."""
        return self.instance.second_time is not None or self.has_error("time", Occurs.TWICE)

    @property
    def says_anything(self) -> bool:
        """Whether any of when, where, who or what sort of evening is told."""
        told = ("date", "venue", "city", "country", "performers", "event_title", "presenter", "series", "notes")
        return any(self.cleaned_data.get(name) for name in told)

    # ---- how it is laid out

    def more_groups(self) -> Iterator[tuple[Group, list[BoundField]]]:
        return ((group, [self[name] for name in group.names]) for group in MORE)

    @property
    def more_is_filled(self) -> bool:
        """Whether something behind “more” is filled in or mistaken, so that it is better shown."""
        fields = [field for _group, fields in self.more_groups() for field in fields]
        return any(field.errors or field.value() not in {None, "", (), USUAL.get(field.name)} for field in fields)


def stored_texts(performance: Performance) -> dict[str, str]:
    """Return what the fields show that are no columns."""
    venue = performance.venue
    return {
        "venue": str(venue) if venue else "",
        "city": "" if venue else performance.city,
        "country": "" if venue else performance.country,
        "zone": performance.zone,
        "second_time": {None: "", False: "first", True: "second"}[performance.second_time],
        "presenter": performance.presented_by,
        "performers": "\n".join(write_performer(one) for one in performers_of(performance)),
    }


def performers_of(performance: Performance) -> Iterator[Performer]:
    for credit in sorted(performance.credits.all(), key=lambda credit: (credit.order, credit.pk)):
        yield Performer(credit.billed_name, PerformerRole(credit.role), credit.plays)


def status_by(when: PartialDate | None, today: datetime.date) -> str:
    """Return what becomes of a performance of which nothing else is said: given, or confirmed from today on."""
    if when is None:
        return PerformanceStatus.PLANNED
    return PerformanceStatus.GIVEN if when.first < today else PerformanceStatus.CONFIRMED


def typed_place(cleaned: dict[str, Any]) -> TypedPlace:
    return TypedPlace(cleaned["venue"], cleaned["city"], cleaned["country"] or "", cleaned["zone"])


def year_of(when: PartialDate | None, today: datetime.date) -> int:
    return when.year if when else today.year


def row_of(typed: Performer, stored: list[PerformanceCredit]) -> PerformanceCredit:
    """Take the row of the one who was typed out of the rows that are stored, or make one."""
    of_that_name = [row for row in stored if row.billed_name == typed.name]
    same = [row for row in of_that_name if (row.role, row.plays) == (typed.role, typed.plays)]
    found = next(iter(same or of_that_name), None)
    if found is None:
        return PerformanceCredit()
    stored.remove(found)
    return found


def credited(
    credit: PerformanceCredit, typed: Performer, body: Organisation | None, people: dict[str, Person]
) -> PerformanceCredit:
    """Put what was typed into a row; a new name is joined to whoever in the catalogue is called so."""
    credit.role, credit.plays = typed.role, typed.plays
    if credit.billed_name == typed.name:
        return credit
    person = people.get(fold(typed.name))
    if body is not None and (person is None or typed.role is PerformerRole.ENSEMBLE):
        person = None
    else:
        body = None
    credit.organisation, credit.person = body, person
    joined = body or person
    credit.name = "" if joined and joined.name == typed.name else typed.name
    return credit
