"""What has to be in a catalogue before something else can be: a work, of which most other records are."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _

from catalogue.models import Composer, Hire, Performance, Work
from catalogue.web.records.kinds import Kind


@dataclass(frozen=True, slots=True)
class FirstStep:
    """A sentence, and the address and the words of the way on."""

    says: str
    address: str
    words: str


def before_record(kind: Kind, composer: Composer) -> FirstStep | None:
    """Return what is missing for a record of the kind; nothing where it can be added."""
    needed = {column.name for column in kind.model._meta.concrete_fields if not column.blank}
    if "work" in needed:
        return before_work_is_chosen(composer)
    if "performance" in needed and not Performance.objects.filter(composer=composer).exists():
        address = reverse("performance-new", args=[composer.slug])
        return FirstStep(_("It belongs to a performance, and none is noted yet."), address, _("Add a performance"))
    return None


def before_work_is_chosen(composer: Composer) -> FirstStep | None:
    if Work.objects.filter(composer=composer).exists():
        return None
    address = reverse("work-new", args=[composer.slug])
    return FirstStep(_("It is of a work, and no work is here yet."), address, _("Add a work"))


def before_hire_is_chosen(composer: Composer) -> FirstStep | None:
    if Hire.objects.filter(composer=composer).exists():
        return None
    address = reverse("record-new", args=[composer.slug, "hires"])
    return FirstStep(_("It is of a hire, and none is noted yet."), address, _("Add a hire"))
