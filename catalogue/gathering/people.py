"""Composers and organisations as facts."""

from __future__ import annotations

from catalogue.facts import ComposerFacts, OrganisationFacts
from catalogue.gathering.readings import readable
from catalogue.models import Composer, Organisation
from catalogue.terms import HouseStyle


def gather_composer(composer: Composer) -> ComposerFacts:
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
    )


def gather_organisation(organisation: Organisation) -> OrganisationFacts:
    return OrganisationFacts(
        id=organisation.pk,
        name=organisation.name,
        city=organisation.city,
        country=organisation.country,
        kinds=readable(organisation.kinds, ()),
    )
