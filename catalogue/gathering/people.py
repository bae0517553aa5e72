"""Composers and organisations as facts."""

from __future__ import annotations

from catalogue.facts import ComposerFacts, HouseFacts, OrganisationFacts
from catalogue.gathering.readings import readable
from catalogue.models import Composer, House, Organisation
from catalogue.terms import HouseStyle


def gather_composer(composer: Composer) -> ComposerFacts:
    """Return the facts of a composer; no query, but for a house that is not fetched yet."""
    return ComposerFacts(
        id=composer.pk,
        slug=composer.slug,
        name=composer.name,
        sort_name=composer.sort_name or composer.name,
        original_name=composer.original_name,
        born=readable(composer.born, None),
        died=readable(composer.died, None),
        birthplace=composer.birthplace,
        country=composer.country,
        email=composer.email,
        telephone=composer.telephone,
        website=composer.website,
        address=composer.address,
        biography=composer.biography,
        short_biography=composer.short_biography,
        language=composer.language,
        number_prefix=composer.number_prefix,
        string_strengths=readable(composer.string_strengths, ()),
        house_style=HouseStyle(composer.house_style),
        ipi=composer.ipi,
        isni=composer.isni,
        house=gather_house(composer.house) if composer.house_id and composer.house else None,
    )


def gather_house(house: House) -> HouseFacts:
    return HouseFacts(
        name=house.name,
        address=house.address,
        email=house.email,
        telephone=house.telephone,
        website=house.website,
        registration=house.registration,
    )


def gather_organisation(organisation: Organisation) -> OrganisationFacts:
    return OrganisationFacts(
        id=organisation.pk,
        name=organisation.name,
        city=organisation.city,
        country=organisation.country,
        kinds=readable(organisation.kinds, ()),
    )
