"""Composers, the users who keep their catalogues, and the people and bodies that a catalogue names."""

from __future__ import annotations

from hashlib import sha256
from typing import Self
from uuid import uuid4

from django.conf import settings
from django.db import models

from catalogue.models.conditions import choices_of, country_code, known, refuse_unknown_country
from catalogue.models.fields import (
    IDENTIFIER,
    KindsField,
    PartialDateField,
    SearchTextField,
    StrengthsField,
    line,
    text,
)
from catalogue.models.houses import Dressing, House, dressing_holds
from catalogue.models.ordering import Folded
from catalogue.models.records import (
    AnyUser,
    Contact,
    Deletable,
    Guarded,
    LivingManager,
    Record,
    SearchableQuerySet,
    TenantQuerySet,
)
from catalogue.terms import OrganisationKind, Role


def sha256_of(token: str) -> str:
    """Return the hash by which a secret token is kept, in hexadecimal."""
    return sha256(token.encode()).hexdigest()


class ComposerQuerySet(TenantQuerySet["Composer"]):
    memberships_path = "memberships"

    def owned_by(self, user: AnyUser) -> Self:
        return self._of_members(user, (Role.OWNER,))

    def in_name_order(self) -> Self:
        return self.order_by(Folded("sort_name"), "pk")


class Composer(Record, Contact, Dressing, Guarded):
    """Whose catalogue it is: the tenant to which every other record belongs.

    ``number_prefix`` stands before the numbers of the composer's own list ("Op."); ``string_strengths`` serve works
    that state none; ``feed_is_public`` opens the calendar of what is announced to everybody. Under the roof of a
    ``house`` papers look as those of the house, unless they have their ``own_look``.
    """

    name = line(blank=False)
    sort_name = line()
    original_name = line()
    slug = models.SlugField(max_length=100, unique=True)
    born = PartialDateField()
    died = PartialDateField()
    birthplace = line()
    country = line(2, validators=[refuse_unknown_country])
    biography = text()
    short_biography = text()
    language = line(35, default="en-GB", blank=False)
    number_prefix = line(20)
    string_strengths = StrengthsField()
    house = models.ForeignKey(House, on_delete=models.SET_NULL, null=True, blank=True, related_name="composers")
    own_look = models.BooleanField(default=False)
    ipi = line(IDENTIFIER)
    isni = line(IDENTIFIER)
    is_public = models.BooleanField(default=False)
    feed_is_public = models.BooleanField(default=False)

    objects = ComposerQuerySet.as_manager()

    class Meta:
        constraints = [country_code("composer"), *dressing_holds("composer")]

    def __str__(self) -> str:
        return self.name


class Membership(Record):
    """What a user may do with a composer's catalogue."""

    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="memberships")
    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="memberships")
    role = models.CharField(max_length=10, choices=choices_of(Role), default=Role.OWNER.value)

    objects = TenantQuerySet["Membership"].as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["user", "composer"],
                name="membership_once",
                violation_error_message="This person is a member already.",
            ),
            known("membership", "role", Role),
        ]

    def __str__(self) -> str:
        return f"{self.user}, {self.role} of {self.composer}"


class PersonQuerySet(SearchableQuerySet["Person"]):
    def in_name_order(self) -> Self:
        return self.order_by(Folded("sort_name"), Folded("name"), "pk")


class Person(Record, Deletable, Guarded, Contact):
    """A performer or another person whom the catalogue names. ``plays`` is an instrument or voice, free text."""

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="people")
    uid = models.UUIDField(default=uuid4, unique=True, editable=False)
    name = line(blank=False)
    sort_name = line()
    plays = line()
    ipi = line(IDENTIFIER)
    isni = line(IDENTIFIER)
    notes = text()
    search_text = SearchTextField(of=("name", "sort_name", "plays"))

    objects = LivingManager.from_queryset(PersonQuerySet)()
    with_deleted = PersonQuerySet.as_manager()

    class Meta:
        verbose_name_plural = "people"

    def __str__(self) -> str:
        return self.name


class OrganisationQuerySet(SearchableQuerySet["Organisation"]):
    def in_name_order(self) -> Self:
        return self.order_by(Folded("name"), "pk")

    def of_kind(self, kind: OrganisationKind) -> Self:
        return self.filter(kinds__contains=f"|{kind}|")


class Organisation(Record, Deletable, Guarded, Contact):
    """An ensemble, presenter, festival, publisher or another body; one may be several of these."""

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="organisations")
    uid = models.UUIDField(default=uuid4, unique=True, editable=False)
    name = line(blank=False)
    kinds = KindsField(max_length=200)
    city = line()
    country = line(2, validators=[refuse_unknown_country])
    ipi = line(IDENTIFIER)
    isni = line(IDENTIFIER)
    notes = text()
    search_text = SearchTextField(of=("name", "city"))

    objects = LivingManager.from_queryset(OrganisationQuerySet)()
    with_deleted = OrganisationQuerySet.as_manager()

    class Meta:
        constraints = [country_code("organisation")]

    def __str__(self) -> str:
        return self.name
