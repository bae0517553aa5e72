"""All that the electronics of a work are played from, as one package: looked at, taken away, checked again."""

from __future__ import annotations

from django.http import HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.exchange.electronics_package import Checked, PackageError, check_package, package_chunks, since
from catalogue.models import Work
from catalogue.packing.electronics import Electronics, chosen_setup, electronics_of
from catalogue.rules.search import fold
from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.forms.electronics import CheckForm
from catalogue.web.uploads import is_too_large, most_taken
from catalogue.web.views.timing import work_of


@member_page
@require_safe
def electronics(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/electronics/ — what the package of a setup holds, and what it lacks."""
    return page_of(request, work_of(request, work), CheckForm())


def page_of(
    request: CatalogueRequest, work: Work, form: CheckForm, checked: Checked | None = None, asked: str = ""
) -> HttpResponse:
    setup, setups = chosen_setup(work, asked or request.GET.get("setup", ""))
    found = electronics_of(request.composer, work, setup) if setup else None
    context = {"work": work, "setups": setups, "found": found, "form": form, "checked": checked}
    if checked is not None and found is not None:
        context["changes"] = tuple(since(checked.manifest, found.told, found.digests))
    return render(request, "electronics/electronics.html", context)


@member_page
@require_safe
def electronics_package(request: CatalogueRequest, work: int) -> HttpResponseBase:
    """/c/<composer>/works/<work>/electronics/package/ — the package, sent while it is made."""
    found = work_of(request, work)
    setup, _setups = chosen_setup(found, request.GET.get("setup", ""))
    if setup is None:
        return redirect("electronics", request.composer.slug, work)
    return sent(electronics_of(request.composer, found, setup))


def sent(found: Electronics) -> StreamingHttpResponse:
    members = found.members(timezone.localdate())
    response = StreamingHttpResponse(package_chunks(members, found.told, found.digests), content_type="application/zip")
    name = slugify(fold(found.work.title))[:60] or "work"
    response.headers["Content-Disposition"] = content_disposition_header(True, f"{name}-electronics.zip")
    return response


@member_page
@require_POST
def electronics_check(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/electronics/check/ — whether a package is whole, and what has changed since."""
    found = work_of(request, work)
    form = CheckForm(request.POST, request.FILES)
    if is_too_large(request, "package"):
        form.add_error("package", _("This package is larger than %(most)s MB.") % {"most": most_taken(request)})
    elif form.is_valid():
        try:
            checked = check_package(form.cleaned_data["package"].file)
        except PackageError as refused:
            form.add_error("package", refused.reason)
        else:
            return page_of(request, found, CheckForm(), checked, setup_named(found, checked))
    return page_of(request, found, form)


def setup_named(work: Work, checked: Checked) -> str:
    """Return the number of the setup that a package was made of, by its name; empty where none is called so."""
    _first, setups = chosen_setup(work)
    return next((str(one.id) for one in setups if one.name == checked.manifest.get("setup")), "")
