"""Whom a pack must not name: the composer in every form that the records hold, and who gives the composer away."""

from __future__ import annotations

import re

from catalogue.models import Commission, Composer, Organisation, PerformanceCredit, Work
from catalogue.rules.anonymity import Person, Sought, family_names, sought_of
from catalogue.rules.search import fold


def gather_sought(composer: Composer) -> tuple[Sought, ...]:
    """Return what to look for in a pack that must be anonymous; four queries."""
    person = Person(
        names=tuple(name for name in (composer.name, composer.original_name) if name),
        family=composer.sort_name,
        email=composer.email,
        website=composer.website,
        telephone=composer.telephone,
    )
    own = {fold(name) for name in person.names}
    return sought_of(person, [one for one in giveaways(composer) if fold(one) not in own], namesakes(composer))


def giveaways(composer: Composer) -> list[str]:
    """Return dedicatees, commissioning bodies and performers, each name once."""
    works = Work.objects.filter(composer=composer)
    dedications = works.exclude(dedication="").values_list("dedication", flat=True)
    found = [name for dedication in dedications if (name := dedicatee(dedication))]
    bodies = Commission.objects.filter(work__in=works).select_related("organisation")
    found += [one.body for one in bodies]
    credits = PerformanceCredit.objects.filter(performance__composer=composer, performance__deleted_at__isnull=True)
    found += [one.billed_name for one in credits.select_related("person", "organisation")]
    return list(dict.fromkeys(name.strip() for name in found if name.strip()))


FOR = re.compile(r"^(?:in memory of|in memoriam|for|to|à|pour|für|per|para|dem|der|an)\s+", re.IGNORECASE)


def dedicatee(dedication: str) -> str:
    """Return the person of a dedication, nothing where it names none: *for Odile Brisk*, *to the sea*."""
    name = FOR.sub("", dedication.strip()).strip(" .")
    return name if name[:1].isupper() else ""


def namesakes(composer: Composer) -> list[str]:
    """Return ensembles and other bodies that bear the composer's family name."""
    family = next(family_names(composer.name, composer.sort_name), composer.name)
    ours = Organisation.objects.filter(composer=composer)
    return [one.name for one in ours if fold(family) in fold(one.name)]
