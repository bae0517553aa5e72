"""The composer's own page: name, biographies, how to be reached, the calendar's address, who keeps the catalogue."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.gathering.people import gather_composer
from catalogue.models import CalendarAddress, Membership
from catalogue.rules.identifiers import Identifier
from catalogue.terms import Role
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.composer_forms import Kept, keep
from catalogue.web.forms.profile import ProfileForm
from catalogue.web.notices import say
from catalogue.web.numbers import numbers
from catalogue.web.places import write_country
from catalogue.web.wording import date_text, page_language


@member_page
@require_safe
def profile(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/profile/ — what is known of the composer, the calendar, the members."""
    facts, language = gather_composer(request.composer), page_language()
    members = list(Membership.objects.filter(composer=request.composer).select_related("user").order_by("pk"))
    context = {
        "facts": facts,
        "born": date_text(facts.born, language),
        "died": date_text(facts.died, language),
        "country": write_country(facts.country),
        "numbers": numbers((Identifier.IPI, facts.ipi), (Identifier.ISNI, facts.isni)),
        "members": members,
        "is_owner": any(one.user_id == request.user.pk and one.role == Role.OWNER for one in members),
        "addresses": CalendarAddress.objects.filter(composer=request.composer, keeper=request.user).count(),
    }
    return render(request, "profile/profile.html", context)


@editor_page
@require_http_methods(["GET", "POST"])
def profile_edit(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/profile/edit/ — the composer's own data, to be changed."""
    kept = Kept(ProfileForm(request.POST if request.method == "POST" else None, instance=request.composer))
    if kept.form.is_bound and kept.form.is_valid():
        kept = keep(kept.form)
        if kept.is_saved:
            say(request, _("The profile is saved."))
            return redirect("profile", request.composer.slug)
    return render(request, "profile/profile_form.html", {"form": kept.form, "conflict": kept.conflict})
