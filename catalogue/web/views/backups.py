"""Backups on a page: made, looked at and taken away by whoever owns everything that is in them.

A backup holds every catalogue of the database and everybody's scrambled passwords, so that an owner of one catalogue
among others' sees only who can make one.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from django.conf import settings
from django.contrib.auth.models import User
from django.core.exceptions import PermissionDenied
from django.http import FileResponse, Http404, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.keeping import ASKED_FOR, kept_in, name_of
from catalogue.exchange.backups.writing import count_records, writing
from catalogue.models import Composer, Membership
from catalogue.terms import Role
from catalogue.web.access import CatalogueRequest, owner_page
from catalogue.web.following import followed


@owner_page
@require_http_methods(["GET", "POST"])
def backup_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/profile/backups/ — the backups there are, how one comes back, and a way to make one now."""
    if request.method != "POST":
        return list_page(request)
    if not owns_everything(request.user):
        raise PermissionDenied
    path = settings.BACKUPS / name_of(ASKED_FOR, timezone.now())
    then = reverse("backup-list", args=[request.composer.slug])
    try:
        return followed(request, steps(path), total=count_records(), what=_("Making a backup"), then=then)
    except BackupError as refused:
        return list_page(request, wrong=refused.reason)


def list_page(request: CatalogueRequest, *, wrong: str = "") -> HttpResponse:
    mine = owns_everything(request.user)
    kept = [(one, one.path.stat().st_size) for one in kept_in(settings.BACKUPS)] if mine else []
    context = {"mine": mine, "kept": kept, "wrong": wrong}
    return render(request, "backups/backup_list.html", context, status=409 if wrong else 200)


def steps(path: Path) -> Iterator[int]:
    yield from (number for number, _step in enumerate(writing(path, now=timezone.now()), 1))


def owns_everything(user: User) -> bool:
    mine = Membership.objects.filter(user=user, role=Role.OWNER).values("composer")
    return not Composer.objects.exclude(pk__in=mine).exists()


@owner_page
@require_safe
def backup_file(request: CatalogueRequest, backup: str) -> HttpResponseBase:
    """/c/<composer>/profile/backups/<backup>/ — the file of one backup."""
    found = next((one.path for one in kept_in(settings.BACKUPS) if one.path.name == backup), None)
    if found is None or not owns_everything(request.user):
        raise Http404
    return FileResponse(open(found, "rb"), as_attachment=True, filename=found.name, content_type="application/zip")
