"""A long job on a page: done at once where it is short, else followed while it is done, without scripts.

The answer is sent piece by piece as the job goes on. The job is one transaction: where the connection breaks, or
something fails, nothing of it is stored.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import cast

from django.http import HttpRequest, HttpResponse, StreamingHttpResponse
from django.shortcuts import redirect
from django.template.loader import render_to_string
from django.utils.html import format_html
from django.utils.translation import gettext as _
from simple_history.models import HistoricalRecords

AT_ONCE = 400  # rows, about two seconds
PIECES = 60
SEAM = "<!-- steps -->"


def followed(request: HttpRequest, steps: Iterator[int], *, total: int, what: str, then: str) -> HttpResponse:
    """Do a job whose steps count up to ``total`` and go on to the address ``then``; ``what`` heads the page."""
    if total <= AT_ONCE:
        for _number in steps:
            pass
        return redirect(then)
    page = render_to_string("imports/progress.html", {"what": what, "then": then}, request)
    return grown(page, lines(as_done_by(request, steps), total))


def grown(page: str, pieces: Iterator[str]) -> HttpResponse:
    """Send a page as far as its seam, then pieces as they come, then what is left of it."""
    before, _seam, after = page.partition(SEAM)
    response = StreamingHttpResponse(chain([before], pieces, [after]))
    response.headers["X-Accel-Buffering"] = "no"
    return cast(HttpResponse, response)


def lines(steps: Iterator[int], total: int) -> Iterator[str]:
    every = max(total // PIECES, 1)
    for number in steps:
        if number % every == 0:
            yield line(number, total)
    yield line(total, total)


def line(number: int, total: int, words: str = "") -> str:
    told = (words or _("%(number)s of %(total)s")) % {"number": f"{number:,}", "total": f"{total:,}"}
    return format_html('<li><progress max="{}" value="{}"></progress> {}</li>\n', total, number, told)


def as_done_by(request: HttpRequest, steps: Iterator[int]) -> Iterator[int]:
    """Let the history of records name whoever asked, after the request itself has been answered."""
    HistoricalRecords.context.request = request
    try:
        yield from steps
    finally:
        del HistoricalRecords.context.request
