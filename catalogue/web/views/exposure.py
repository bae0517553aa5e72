"""Exposure to noise of a day of rehearsing or listening: recorded and reckoned, never called safe."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from catalogue.documents.contents.cautions import Caution, words_of
from catalogue.documents.labels import labels
from catalogue.rules.exposure import Reckoning, reckon_exposure
from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.forms.exposure import ExposureForm
from catalogue.web.wording import page_language

TEN_MINUTES = 600


@member_page
@require_safe
def exposure(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/exposure/ — what sessions come to by each named criterion, each with its source."""
    form = ExposureForm(request.GET) if "sessions" in request.GET else ExposureForm()
    reckoned = reckon_exposure(form.cleaned_data["sessions"]) if form.is_bound and form.is_valid() else None
    caution = words_of(Caution.HEARING, labels(page_language()))
    context = {"form": form, "caution": caution, "rows": rows_of(reckoned) if reckoned else (), "reckoned": reckoned}
    return render(request, "exposure/exposure.html", context)


def rows_of(reckoned: Reckoning) -> list[dict[str, object]]:
    """Return a row a criterion: what the day comes to, and how long it gives at the level of each session."""
    return [
        {
            "criterion": one.criterion,
            "hours": one.criterion.seconds // 3600,
            "dose": one.dose,
            "given": [(session, lasting(given)) for session, given in zip(reckoned.sessions, one.given, strict=True)],
        }
        for one in reckoned.counted
    ]


def lasting(seconds: float | None) -> str:
    """Return a time, to the second below ten minutes; nothing where a criterion does not count the level.

    >>> lasting(25_072.5), lasting(567.4), lasting(7200), lasting(None)
    ('6 h 58 min', '9 min 27 s', '2 h', '')
    """
    if seconds is None:
        return ""
    if seconds < 1:
        return _("less than a second") if seconds else _("no time at all")
    exact = round(seconds) if seconds < TEN_MINUTES else 60 * round(seconds / 60)
    figures = zip((exact // 3600, exact // 60 % 60, exact % 60), ("h", "min", "s"), strict=True)
    return " ".join(f"{figure} {unit}" for figure, unit in figures if figure)
