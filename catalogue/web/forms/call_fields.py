"""The fields that conditions of a call are typed into: days, hours, lengths, numbers, one of several words."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Any

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from catalogue.timing import Duration, PartialDate, read_clock_time, read_duration, write_date, write_duration
from catalogue.web.forms.fields import DateField, ReadField
from catalogue.web.wording import page_language

MOST_PLAYERS = 999
WHOLE_DAY = timedelta(days=1)


def read_day(text: str) -> date:
    """Read a full date in the page's order. Raises ValueError."""
    found = DateField().clean(text)
    if found is None or found.exact is None:
        raise ValueError(_now("Write a full date, such as 12 February 2027."))
    return found.exact


def write_day(day: date) -> str:
    """Write a day as the page's readers do; it is read back as the same."""
    return write_date(PartialDate.of(day), page_language()).replace("\N{NO-BREAK SPACE}", " ")


def read_seconds(text: str) -> int:
    return read_duration(text, bare="minutes").seconds


def write_seconds(seconds: int) -> str:
    return write_duration(Duration(seconds))


def read_hour(text: str) -> timedelta:
    """Read an hour as the time since the day's beginning: 24:00 is its end. Raises ValueError."""
    if re.fullmatch(r"\s*24[:.]00\s*", text):
        return WHOLE_DAY
    at = read_clock_time(text)
    return timedelta(hours=at.hour, minutes=at.minute)


def write_hour(since: timedelta) -> str:
    minutes = int(since.total_seconds()) // 60
    return f"{minutes // 60:02}:{minutes % 60:02}"


def day_field(label: Promise, **options: Any) -> ReadField:
    return ReadField(
        read=read_day, write=write_day, label=label, widget=forms.TextInput(attrs={"class": "short"}), **options
    )


def length_field(label: Promise, **options: Any) -> ReadField:
    short = forms.TextInput(attrs={"class": "short"})
    return ReadField(read=read_seconds, write=write_seconds, label=label, widget=short, **options)


def number_field(label: Any, most: int = MOST_PLAYERS, **options: Any) -> forms.IntegerField:
    box = forms.NumberInput(attrs={"class": "short"})
    return forms.IntegerField(label=label, required=False, min_value=0, max_value=most, widget=box, **options)


def yes_or_no(label: Any, **options: Any) -> forms.BooleanField:
    return forms.BooleanField(label=label, required=False, **options)


def one_of(kinds: Any, label: Any, *, unsaid: bool = True, **options: Any) -> forms.ChoiceField:
    choices = [
        *([("", _("not said"))] if unsaid else []),
        *((one.value, one.value.capitalize()) for one in kinds if one),
    ]
    return forms.ChoiceField(label=label, choices=choices, required=not unsaid, **options)
