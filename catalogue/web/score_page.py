"""What a score file says, put into words for the page that shows it."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.exchange.scores import Findings
from catalogue.instrumentation import called
from catalogue.timing import Duration, write_duration


@dataclass(frozen=True, slots=True)
class ScorePage:
    """People, parts and lengths as they are shown; ``parts`` are names of the file with the instrument, or ""."""

    people: tuple[str, ...]
    movements: tuple[str, ...]
    parts: tuple[tuple[str, str], ...]
    lengths: tuple[str, ...]
    doubts: tuple[str, ...]


def score_page(score: Findings, language: str) -> ScorePage:
    people = tuple(f"{one.name} ({one.kind})" if one.kind else one.name for one in score.creators)
    parts = tuple(
        (one.name or _("without a name"), called(one.instrument, language).singular if one.instrument else "")
        for one in score.parts
    )
    return ScorePage(people, score.movements, parts, tuple(lengths_of(score)), score.warnings)


def lengths_of(score: Findings) -> list[str]:
    found = [ngettext("%(number)d bar", "%(number)d bars", score.bars) % {"number": score.bars}]
    if score.played != score.bars:
        found.append(_("%(number)d bars as they are played, with repeats and jumps") % {"number": score.played})
    if score.seconds is not None and score.seconds_unrepeated is not None:
        found.append(_("%(duration)s by its tempo marks") % {"duration": lasting(score.seconds)})
        if score.played != score.bars:
            found.append(_("%(duration)s without repeats") % {"duration": lasting(score.seconds_unrepeated)})
    return found


def lasting(seconds: float) -> str:
    return write_duration(Duration(round(seconds)))
