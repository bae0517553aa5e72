"""Columns whose Python value is a core value, and the text columns of every record.

A value is stored as text that sorts as the value does, so that one column can be shown, sorted, compared and indexed.
Stored text that can no longer be read becomes ``Unreadable``: a page shows it as it is, saving keeps it, and
``check_catalogue`` lists it.
"""

from __future__ import annotations

import re
import unicodedata
from datetime import date
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models.lookups import Contains

from catalogue.models.indexes import signs_of
from catalogue.rules.search import fold
from catalogue.terms import OrganisationKind
from catalogue.timing import Duration, PartialDate, read_date, read_duration

LINE, LONG_LINE, TEXT = 200, 500, 50_000
IDENTIFIER = 100  # the number of a registry, as typed


def refuse_unprintable(text: str) -> None:
    """Raise ValidationError where a text holds what no document can print: control characters, half characters."""
    for place, letter in enumerate(text):
        if letter not in "\t\n\r" and (unicodedata.category(letter) in {"Cc", "Cs"} or letter in "\ufffe\uffff"):
            raise ValidationError(f"Character {place + 1} is a control character and cannot be printed; delete it.")


def line(length: int = LINE, **options: Any) -> models.CharField[str, str]:
    """Make a column for one line of text, empty where nothing is known."""
    options = {"blank": True, "default": "", **options}
    return models.CharField(
        max_length=length, validators=[refuse_unprintable, *options.pop("validators", [])], **options
    )


def text() -> models.TextField[str, str]:
    """Make a column for paragraphs, empty where nothing is known."""
    return models.TextField(max_length=TEXT, blank=True, default="", validators=[refuse_unprintable])


MARKS = [(mark, f"{mark} of 5") for mark in range(1, 6)]


def mark() -> models.PositiveSmallIntegerField[int | None, int | None]:
    """Make a column for a composer's own mark, from 1 to 5, empty where none is given."""
    return models.PositiveSmallIntegerField(null=True, blank=True, choices=MARKS)


class Unreadable(str):
    """Stored text that is no longer read; it is kept as it stands."""

    __slots__ = ()


class ValueField(models.Field):
    """A text column with a value behind it; empty text is no value.

    ``parse`` reads what ``write`` has stored, ``typed`` what a person wrote; both raise ValueError.
    """

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **{"max_length": 64, "blank": True, **options})

    def get_internal_type(self) -> str:
        return "CharField"

    def parse(self, stored: str) -> Any:
        raise TypeError(f"{type(self).__name__} does not say how it is read.")

    def write(self, value: Any) -> str:
        raise TypeError(f"{type(self).__name__} does not say how it is written.")

    def typed(self, text: str) -> Any:
        """Read what a person typed; the same as what is stored unless a column says otherwise."""
        return self.parse(text)

    def nothing(self) -> Any:
        return None if self.null else ()

    def from_db_value(self, stored: str | None, expression: Any, connection: Any) -> Any:
        if not stored:
            return self.nothing()
        try:
            return self.parse(stored)
        except ValueError:
            return Unreadable(stored)

    def to_python(self, value: Any) -> Any:
        if value is None or value == "":
            return self.nothing()
        if not isinstance(value, str) or isinstance(value, Unreadable):
            return value
        try:
            return self.parse(value)
        except ValueError:
            return self._read_as_typed(value)

    def _read_as_typed(self, text: str) -> Any:
        try:
            return self.typed(text)
        except ValueError as mistake:
            raise ValidationError(getattr(mistake, "reason", str(mistake))) from mistake

    def get_prep_value(self, value: Any) -> str | None:
        if value is None or isinstance(value, Unreadable):
            return value
        value = self.to_python(value)
        return self.write(value) if value != self.nothing() else (None if self.null else "")

    def value_to_string(self, obj: models.Model) -> str:
        return self.get_prep_value(self.value_from_object(obj)) or ""

    def validate(self, value: Any, model_instance: models.Model | None) -> None:
        if value == self.nothing() and not self.blank:
            raise ValidationError(self.error_messages["blank"], code="blank")


class DurationField(ValueField):
    """A Duration: ten figures of whole seconds, then ``~`` where it is approximate (``0000000750~``)."""

    _pyi_private_set_type: Duration | Unreadable | None
    _pyi_private_get_type: Duration | Unreadable | None

    STORED = re.compile(r"(\d{10})(~?)", re.ASCII)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **{"null": True, **options})

    def parse(self, stored: str) -> Duration:
        match = self.STORED.fullmatch(stored)
        if match is None:
            raise ValueError(f"“{stored}” is no stored duration.")
        return Duration(int(match[1]), approximate=bool(match[2]))

    def typed(self, text: str) -> Duration:
        return read_duration(text)

    def validate(self, value: Any, model_instance: models.Model | None) -> None:
        super().validate(value, model_instance)
        if value == Duration(0) or value == Duration(0, approximate=True):
            raise ValidationError("A duration is longer than nothing; leave it empty where it is not known.")

    def write(self, value: Duration) -> str:
        return f"{value.seconds:010}{'~' if value.approximate else ''}"


class PartialDateField(ValueField):
    """A PartialDate: the first and the last day it may mean, then ``~`` for about (``1998-01-01/1998-12-31``)."""

    _pyi_private_set_type: PartialDate | Unreadable | None
    _pyi_private_get_type: PartialDate | Unreadable | None

    STORED = re.compile(r"(\d{4}-\d\d-\d\d)/(\d{4}-\d\d-\d\d)(~?)", re.ASCII)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **{"null": True, **options})

    def parse(self, stored: str) -> PartialDate:
        match = self.STORED.fullmatch(stored)
        if match is None:
            raise ValueError(f"“{stored}” is no stored date.")
        first, last = date.fromisoformat(match[1]), date.fromisoformat(match[2])
        when = narrowest(first, last, circa=bool(match[3]))
        if when.sort_key != stored:
            raise ValueError(f"“{stored}” is neither a day, a month, a year nor a span of years.")
        return when

    def typed(self, text: str) -> PartialDate:
        return read_date(text)

    def write(self, value: PartialDate) -> str:
        return value.sort_key


def narrowest(first: date, last: date, *, circa: bool) -> PartialDate:
    """Return the day, month, year or span of years that reaches from the first day to the last."""
    if first == last:
        return PartialDate(first.year, first.month, first.day, circa)
    if (first.year, first.month) == (last.year, last.month):
        return PartialDate(first.year, first.month, circa=circa)
    return PartialDate(first.year, circa=circa, until=last.year if last.year > first.year else None)


class TupleField(ValueField):
    """Several values in one column; none of them is an empty tuple."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **{"default": (), **options})


class StrengthsField(TupleField):
    """The numbers of string players from first violins to basses, as they are written: ``14.12.10.8.6``."""

    _pyi_private_set_type: tuple[int, ...] | Unreadable
    _pyi_private_get_type: tuple[int, ...] | Unreadable

    STORED = re.compile(r"\d{1,2}([.]\d{1,2}){4}", re.ASCII)

    def parse(self, stored: str) -> tuple[int, ...]:
        if not self.STORED.fullmatch(stored):
            raise ValueError("Write five numbers of string players with dots between them, such as 14.12.10.8.6.")
        return tuple(int(number) for number in stored.split("."))

    def typed(self, text: str) -> tuple[int, ...]:
        return self.parse(re.sub(r"[\s,./-]+", ".", text.strip()))

    def write(self, value: tuple[int, ...]) -> str:
        return ".".join(str(number) for number in value)


class KindsField(TupleField):
    """What an organisation is, several words between bars in the order of the list: ``|choir|festival|``."""

    _pyi_private_set_type: tuple[OrganisationKind, ...] | Unreadable
    _pyi_private_get_type: tuple[OrganisationKind, ...] | Unreadable

    def parse(self, stored: str) -> tuple[OrganisationKind, ...]:
        named = {OrganisationKind(word) for word in stored.strip("|").split("|")}
        return tuple(kind for kind in OrganisationKind if kind in named)

    def typed(self, text: str) -> tuple[OrganisationKind, ...]:
        words = [word.strip().casefold() for word in text.split(",")]
        unknown = [word for word in words if word not in set(OrganisationKind)]
        if unknown:
            raise ValueError(f"“{unknown[0]}” is none of: {', '.join(OrganisationKind)}.")
        return self.parse("|".join(words))

    def to_python(self, value: Any) -> Any:
        """Take a list, as a group of tick boxes gives it, as well."""
        return super().to_python("|".join(value) if isinstance(value, list | tuple) else value)

    def write(self, value: tuple[OrganisationKind, ...]) -> str:
        return f"|{'|'.join(value)}|"


class SearchTextField(models.TextField):
    """What a search looks through: the record's own words, folded whenever the record is saved."""

    def __init__(self, *, of: tuple[str, ...] = (), **options: Any) -> None:
        self.of = of
        super().__init__(**{"blank": True, "default": "", "editable": False, **options})

    def deconstruct(self) -> Any:
        name, path, args, options = super().deconstruct()
        return name, path, args, {**options, "of": self.of}

    def pre_save(self, model_instance: models.Model, add: bool) -> str:
        folded = fold("\n".join(getattr(model_instance, column) for column in self.of))
        setattr(model_instance, self.attname, folded)
        return folded


@SearchTextField.register_lookup
class Holds(Contains):
    """Whether a text holds a word: the usual question, which PostgreSQL answers by trigrams where it has them indexed.

    Words of one or two signs have no trigram. They are asked for so that an index of signs finds what may hold them,
    and that no index of trigrams is gone through as a whole.
    """

    lookup_name = "contains"

    def as_postgresql(self, compiler: Any, connection: Any) -> tuple[str, list[Any]]:
        if not self.rhs_is_direct_value() or len(self.rhs) > 2:
            told, values = super().as_sql(compiler, connection)
            return told, list(values)
        text, values = self.process_lhs(compiler, connection)
        told = f"({signs_of(text)} @> {signs_of('%s')} AND STRPOS({text}, %s) > 0)"
        return told, [*values, self.rhs, *values, self.rhs]
