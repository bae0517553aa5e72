"""What everybody may see without an account: the public pages of composers, their feeds, what search engines ask for.

Also the page on which an owner opens them. A catalogue that is not open, a work that is not public and an address that
never was are answered alike.
"""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.actions.publishing import publish
from catalogue.feeds.news import atom_bytes, json_bytes
from catalogue.gathering.published import public_performances, public_works
from catalogue.gathering.versions import state_of_pages
from catalogue.models import Composer, Work
from catalogue.terms import WorkStatus
from catalogue.web.access import CatalogueRequest, owner_page
from catalogue.web.kept_pages import for_all, kept_for_all, kept_for_site
from catalogue.web.notices import say
from catalogue.web.public_pages import (
    addresses_of,
    composer_page,
    performances_news,
    places_of_the_site,
    works_news,
)
from catalogue.web.public_sets import set_composer, set_performance, set_work
from catalogue.web.wording import page_language

NEWS = {
    "atom": ("application/atom+xml; charset=utf-8", atom_bytes),
    "json": ("application/feed+json; charset=utf-8", json_bytes),
}
GROUPS = ("works", "performances")
MOST_PLACES = 50_000
"""How many addresses one map of a site may hold."""


def open_composer(slug: str) -> Composer:
    return get_object_or_404(Composer.objects.filter(is_public=True), slug=slug)


@require_safe
@kept_for_all
def public_composer(request: HttpRequest, name: str) -> HttpResponse:
    """/public/<composer>/ — who it is, the works that are public, the performances to come."""
    composer = open_composer(name)
    page = set_composer(state_of_pages(composer.pk), composer, timezone.localdate(), page_language())
    return render(request, "public/composer.html", {"page": page, "whose": composer})


@require_safe
@kept_for_all
def public_work(request: HttpRequest, name: str, work: int) -> HttpResponse:
    """/public/<composer>/works/<work>/ — a work that is public, with its performances."""
    composer = open_composer(name)
    found = get_object_or_404(public_works(composer), pk=work)
    page = set_work(state_of_pages(composer.pk), composer, timezone.localdate(), page_language(), found)
    return render(request, "public/work.html", {"page": page, "whose": composer})


@require_safe
@kept_for_all
def public_performance(request: HttpRequest, name: str, performance: int) -> HttpResponse:
    """/public/<composer>/performances/<performance>/ — a performance that is announced and open to all."""
    composer = open_composer(name)
    found = get_object_or_404(public_performances(composer), pk=performance)
    page = set_performance(state_of_pages(composer.pk), composer, timezone.localdate(), page_language(), found)
    return render(request, "public/performance.html", {"page": page, "whose": composer})


@require_safe
@kept_for_all
def public_news(request: HttpRequest, name: str, group: str, format: str) -> HttpResponse:
    """/public/<composer>/<works or performances>.<atom or json> — news for readers of feeds."""
    composer = open_composer(name)
    if group not in GROUPS or format not in NEWS:
        raise Http404
    own, language = settings.SITE_URL + request.path, composer.language
    if group == "works":
        news = works_news(composer, own, language)
    else:
        news = performances_news(composer, own, timezone.localdate(), language)
    content_type, written = NEWS[format]
    return HttpResponse(written(news), content_type=content_type)


@require_safe
@kept_for_site
def site_map(request: HttpRequest, number: int | None = None) -> HttpResponse:
    """/sitemap.xml — every public page of the house (sitemaps.org, protocol 0.9), of more than one map takes the list.

    /sitemap-<number>.xml is one of these.
    """
    places = places_of_the_site()
    maps = max(1, -(-len(places) // MOST_PLACES))
    if number is None and maps > 1:
        listed = [settings.SITE_URL + reverse("site-map-part", args=[one]) for one in range(1, maps + 1)]
        return map_response("public/sitemaps.xml", {"maps": listed})
    if number is not None and not 1 <= number <= maps:
        raise Http404
    first = ((number or 1) - 1) * MOST_PLACES
    return map_response("public/sitemap.xml", {"places": places[first : first + MOST_PLACES]})


def map_response(template: str, context: dict[str, Any]) -> HttpResponse:
    return HttpResponse(render_to_string(template, context), content_type="application/xml; charset=utf-8")


@require_safe
def robots(request: HttpRequest) -> HttpResponse:
    """/robots.txt — what a search engine may read; secret addresses are not named, since naming would tell of them."""
    lines = ("User-agent: *", "Disallow: /c/", "Disallow: /*?", f"Sitemap: {settings.SITE_URL}{reverse('site-map')}")
    return for_all(request, HttpResponse("\n".join(lines) + "\n", content_type="text/plain; charset=utf-8"))


@owner_page
@require_http_methods(["GET", "POST"])
def publishing(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/profile/public/ — opens the public pages or shuts them, and says which works stand on them."""
    composer = request.composer
    works = Work.objects.filter(composer=composer, status=WorkStatus.ACTIVE.value).in_title_order()
    if request.method == "POST":
        every = "every" in request.POST
        typed = [int(key) for key in request.POST.getlist("work") if key.isdecimal() and len(key) < 19]
        chosen = list(works.values_list("pk", flat=True)) if every else typed
        is_open = request.POST.get("open") == "yes"
        number = publish(composer=composer, is_open=is_open, works=chosen, now=timezone.now())
        told = ngettext("%(number)s work stands on them.", "%(number)s works stand on them.", number)
        heading = _("The public pages are open.") if is_open else _("The public pages are shut.")
        say(request, f"{heading} {told % {'number': number}}")
        return redirect("publishing", composer.slug)
    page = composer_page(composer, today=timezone.localdate(), language=composer.language)
    to_paste = render_to_string("public/pasted.html", {"page": page, "addresses": addresses_of(composer)})
    context = {"works": works, "address": addresses_of(composer).composer, "to_paste": to_paste.strip()}
    return render(request, "profile/publishing.html", context)
