"""What a score file says, put into words for the page that shows it; of a long one, the page grows as it is read."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.utils.translation import get_language, ngettext, override
from django.utils.translation import gettext as _

from catalogue.exchange.archives import MEGABYTE
from catalogue.exchange.scores import Findings, ScoreError, read_in_steps
from catalogue.instrumentation import called
from catalogue.rules.phrases import listed
from catalogue.timing import Duration, write_duration
from catalogue.web.following import grown, line


@dataclass(frozen=True, slots=True)
class ScorePage:
    """People, parts and lengths as they are shown; ``parts`` are names of the file with the instrument, or ""."""

    people: tuple[str, ...]
    movements: tuple[str, ...]
    parts: tuple[tuple[str, str], ...]
    lengths: tuple[str, ...]
    doubts: tuple[str, ...]


def score_page(score: Findings, composer: str, language: str) -> ScorePage:
    """Put into words what a score says; ``composer`` is whose catalogue it is read for."""
    people = tuple(f"{one.name} ({one.kind})" if one.kind else one.name for one in score.creators)
    parts = tuple(
        (one.name or _("without a name"), called(one.instrument, language).singular if one.instrument else "")
        for one in score.parts
    )
    return ScorePage(
        people, score.movements, parts, tuple(lengths_of(score)), (*others_in(score, composer), *score.warnings)
    )


def others_in(score: Findings, composer: str) -> Iterator[str]:
    """Say it where a file names somebody else as its composer."""
    named = [one.name for one in score.creators if one.kind.lower() == "composer"]
    if named and composer.casefold() not in {one.casefold() for one in named}:
        yield _("The file names %(names)s as composer.") % {"names": listed(named)}


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


# ---- a long score


def read_along(
    request: HttpRequest, xml: bytes, context: dict[str, Any], found_in: Callable[[Findings], dict[str, Any]]
) -> HttpResponse:
    """Send the page of the facts while they are being read; ``found_in`` says what is shown of them."""
    language = get_language() or ""
    page = render_to_string("scores/score_facts.html", {**context, "is_read_along": True}, request)

    def pieces() -> Iterator[str]:
        with override(language):
            yield '<ol class="progress">\n'
            try:
                found = yield from lines_of(read_in_steps(xml), len(xml))
            except ScoreError as fault:
                yield "</ol>\n" + render_to_string("scores/unread.html", {"reason": fault.reason, **context}, request)
            else:
                yield "</ol>\n" + render_to_string("scores/facts.html", found_in(found), request)

    return grown(page, pieces())


def lines_of(steps: Generator[int, None, Findings], size: int) -> Generator[str, None, Findings]:
    """Give a line for each megabyte that has been read; return what was found."""
    words = _("%(number)s of %(total)s MB read")
    total = -(-size // MEGABYTE)
    while True:
        try:
            done = next(steps)
        except StopIteration as stopped:
            found: Findings = stopped.value
            return found
        yield line(-(-done // MEGABYTE), total, words)
