"""What the page of a technical setup shows besides its lists: what does not agree, its stage, its loudspeakers."""

from __future__ import annotations

from datetime import date

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from catalogue.documents.contents.stage import ring_of, stage_of
from catalogue.documents.labels import labels
from catalogue.drawings.sketch import to_svg
from catalogue.gathering.readings import reading_of
from catalogue.gathering.technical import gather_setup
from catalogue.models import TechnicalSetup
from catalogue.rules.technical.checks import findings
from catalogue.rules.technical.layouts import speakers_of
from catalogue.web.pictures import drawn

WIDE, WIDER = 360, 520  # units: so that the words can be read on a phone, and so that many players have room
SMALL_STAGE = 9.0


def doubts_about_setup(setup: TechnicalSetup, today: date) -> dict[str, tuple[str, ...]]:
    """Return what does not agree in a setup, sentences by the column in which it is mended."""
    found = findings(gather_setup(setup), today=today)
    return {about: tuple(one.sentence for one in found if one.about == about) for about in {one.about for one in found}}


def drawings_of(record: TechnicalSetup, language: str) -> tuple[tuple[SafeString, str], ...]:
    """Return the stage plan and the ring of loudspeakers, as far as they are known, each with its caption."""
    setup, says = gather_setup(record), labels(language)
    plan = stage_of(reading_of(record.work.instrumentation), setup, says)
    ring = ring_of(speakers_of(setup), says)
    wide = WIDER if plan is not None and plan.width > SMALL_STAGE else WIDE
    told = (
        (plan, wide, _("Stage plan, seen from above; one square is a metre")),
        (ring, WIDE, _("Loudspeakers, seen from above")),
    )
    return tuple(
        (drawn(to_svg(one.sketch(units), title=caption)), caption) for one, units, caption in told if one is not None
    )
