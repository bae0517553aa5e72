"""What must hold for every stored row, said twice: for the database, and in a sentence for the person who typed.

The database guards the truth in every way of writing; the validators explain.
"""

from __future__ import annotations

from enum import StrEnum
from string import ascii_uppercase

from django.core.exceptions import ValidationError
from django.db.models import CheckConstraint, Q
from django.db.models.functions import Length, Substr
from django.db.models.lookups import Exact, In
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from catalogue.rules.countries import is_country
from catalogue.rules.inks import InkError, read_ink
from catalogue.timing import MomentError, zone_named


def choices_of(terms: type[StrEnum]) -> list[tuple[str, Promise]]:
    """Return the words of a list to be chosen from, spelled as whoever reads does."""
    return [(term.value, gettext_lazy(term.value[:1].upper() + term.value[1:])) for term in terms]


def known(model: str, column: str, terms: type[StrEnum]) -> CheckConstraint:
    """Allow only the words of a list in a column."""
    return CheckConstraint(
        condition=Q(**{f"{column}__in": [term.value for term in terms]}), name=f"{model}_{column}_known"
    )


def known_or_empty(model: str, column: str, terms: type[StrEnum]) -> CheckConstraint:
    """Allow only the words of a list in a column, or nothing."""
    return CheckConstraint(
        condition=Q(**{f"{column}__in": ["", *(term.value for term in terms)]}), name=f"{model}_{column}_known"
    )


def names_somebody(model: str) -> tuple[CheckConstraint, CheckConstraint]:
    """Ask for a person, an organisation or a name in three columns, and allow one of the first two only."""
    someone = Q(person__isnull=False) | Q(organisation__isnull=False) | ~Q(name="")
    return (
        CheckConstraint(condition=someone, name=f"{model}_names_somebody"),
        CheckConstraint(
            condition=Q(person__isnull=True) | Q(organisation__isnull=True), name=f"{model}_is_person_or_organisation"
        ),
    )


def between(model: str, column: str, least: int, most: int) -> CheckConstraint:
    """Allow an unknown number, or one in a range."""
    within = Q(**{f"{column}__gte": least, f"{column}__lte": most})
    return CheckConstraint(condition=Q(**{f"{column}__isnull": True}) | within, name=f"{model}_{column}_in_range")


def filled(model: str, *columns: str) -> CheckConstraint:
    """Ask for text in each of these columns."""
    said = Q(*(~Q(**{column: ""}) for column in columns))
    return CheckConstraint(condition=said, name=f"{model}_{columns[0]}_filled")


def country_code(model: str, column: str = "country") -> CheckConstraint:
    """Allow two capital letters or nothing; which codes exist changes, so the database does not list them."""
    letters = list(ascii_uppercase)
    two_letters = (
        Q(Exact(Length(column), 2)) & Q(In(Substr(column, 1, 1), letters)) & Q(In(Substr(column, 2, 1), letters))
    )
    return CheckConstraint(condition=Q(**{column: ""}) | two_letters, name=f"{model}_{column}_two_capitals")


COLOUR = "^#[0-9a-f]{6}$"
PATTERNS = frozenset({COLOUR})
"""All that constraints ask the database to match."""


def ink(model: str, column: str) -> CheckConstraint:
    """Allow a hash with six hexadecimal digits, or nothing."""
    return CheckConstraint(
        condition=Q(**{column: ""}) | Q(**{f"{column}__regex": COLOUR}), name=f"{model}_{column}_is_a_colour"
    )


def lasts(model: str, column: str = "duration") -> CheckConstraint:
    """Allow an unknown duration, or one above nought."""
    return CheckConstraint(
        condition=Q(**{f"{column}__isnull": True}) | Q(**{f"{column}__gte": "0000000001"}),
        name=f"{model}_{column}_lasts",
    )


def refuse_unknown_country(code: str) -> None:
    """Raise ValidationError for what is no country code of ISO 3166."""
    if not is_country(code):
        raise ValidationError(f"“{code}” is no country code; write the two capital letters of ISO 3166, such as CH.")


def refuse_pale_ink(text: str) -> None:
    """Raise ValidationError for a colour that cannot be read, is too pale for text, or is not spelled as it is kept."""
    try:
        ink = read_ink(text)
    except InkError as mistake:
        raise ValidationError(mistake.reason) from mistake
    if ink != text:
        raise ValidationError(f"A colour is kept as {ink}.")


def refuse_unknown_zone(name: str) -> None:
    """Raise ValidationError for what is no time zone of the IANA database."""
    try:
        zone_named(name)
    except MomentError as mistake:
        raise ValidationError(mistake.reason) from mistake
