"""``premieres``: what the records make each performance of each work, and the billings they contradict."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone

from catalogue.gathering import gather_catalogue
from catalogue.management.base import CatalogueCommand, add_composer_option, chosen_composer
from catalogue.models import Composer
from catalogue.rules.further_firsts import FurtherFirst, further_firsts
from catalogue.rules.playings import in_date_order
from catalogue.rules.premieres import Reckoned, reckon


class Command(CatalogueCommand):
    help = "Say what each performance was: world, national or city premiere, first of a version or of a part, or none."

    def add_arguments(self, parser: CommandParser) -> None:
        add_composer_option(parser)
        parser.add_argument("--json", action="store_true", help="print the performances as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        slug = options["composer"]
        composers = list(Composer.objects.in_name_order()) if slug is None else []
        today = timezone.localdate()
        catalogues = [(one.name, gather_catalogue(one)) for one in composers or [chosen_composer(slug)]]
        told = [(name, one) for name, catalogue in catalogues for one in reckon(catalogue, today=today)]
        told.sort(key=lambda pair: in_date_order(pair[1].playing))
        if options["json"]:
            self.print_json([as_json(name, one) for name, one in told])
            return
        besides: dict[int, tuple[FurtherFirst, ...]] = {}
        for _name, catalogue in catalogues:
            besides |= further_firsts(catalogue, today=today)
        for name, one in told:
            further = "; ".join(first.in_words("en") for first in besides.get(one.playing.item.id, ()))
            self.stdout.write("  ".join(filter(None, (as_line(name, one, several=len(composers) > 1), further))))
            if one.claim.contradicts:
                self.stdout.write(f"    ! {one.claim.contradicts}")
            by_hand = one.claim.overridden
            if by_hand:
                self.stdout.write(f"    set by hand: {by_hand.wording}, because {by_hand.reason}")


def as_json(composer: str, one: Reckoned) -> dict[str, Any]:
    event, work = one.playing.event, one.playing.work
    return {
        "composer": composer,
        "work": work.title.title,
        "version": work.version_label,
        "date": str(event.date) if event.date else None,
        "city": event.city,
        "country": event.country,
        "reckoned": list(one.claim.reckoned),
        "wording": one.claim.wording,
        "contradicts": one.claim.contradicts,
    }


def as_line(composer: str, one: Reckoned, *, several: bool) -> str:
    event, work = one.playing.event, one.playing.work
    version = f" ({work.version_label})" if work.version_label else ""
    title = f"{composer}: {work.title.title}" if several else work.title.title
    said = one.claim.wording or one.claim.also or one.claim.why_not
    vague = f"may be {' and '.join(one.claim.undecided)} premiere: dates overlap" if one.claim.undecided else ""
    place = ", ".join(part for part in (event.city, event.country) if part)
    parts = (str(event.date or "undated"), place, f"{title}{version}", said, vague)
    return "  ".join(part for part in parts if part)
