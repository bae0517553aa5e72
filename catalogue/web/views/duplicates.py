"""Records that look alike: merged, with a way back, or set apart for good."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.merging import NotMerged, merge, set_apart, undo_merge
from catalogue.gathering.likenesses import Alike, Lookalikes, gather_likenesses
from catalogue.models import Merge
from catalogue.rules.likeness import Likeness
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.notices import say

HEADINGS: dict[Alike, Promise] = {
    Alike.WORK: gettext_lazy("Works"),
    Alike.VENUE: gettext_lazy("Halls and places"),
    Alike.NAME: gettext_lazy("Performers and presenters, as they are named"),
    Alike.PERSON: gettext_lazy("People"),
    Alike.ORGANISATION: gettext_lazy("Ensembles and other bodies"),
}
BECAUSE: dict[Likeness, Promise] = {
    Likeness.LETTERS: gettext_lazy("They differ in case, accents, punctuation or an article."),
    Likeness.ORDER: gettext_lazy("Their words stand in another order."),
    Likeness.SOUND: gettext_lazy("They may be transliterated in two ways."),
    Likeness.SLIP: gettext_lazy("They differ in one letter."),
}
SHOWN = 100


@editor_page
@require_safe
def duplicates(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/duplicates/ — records that may be two spellings of one."""
    found = gather_likenesses(request.composer)
    context = {
        "number": len(found),
        "left": max(len(found) - SHOWN, 0),
        "groups": groups_of(found[:SHOWN]),
        "merged": Merge.objects.filter(composer=request.composer, undone_at__isnull=True).latest_first()[:20],
    }
    return render(request, "duplicates/duplicates.html", context)


def groups_of(found: tuple[Lookalikes, ...]) -> list[tuple[Promise, list[tuple[Lookalikes, Promise]]]]:
    """Return the pairs by kind, each with the reason why they look alike."""
    groups = ((sort, [(pair, BECAUSE[pair.because]) for pair in found if pair.sort is sort]) for sort in Alike)
    return [(HEADINGS[sort], pairs) for sort, pairs in groups if pairs]


@editor_page
@require_POST
def duplicate_merge(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/duplicates/merge/ — makes one of two."""
    sort, kept, gone = (request.POST.get(name, "") for name in ("sort", "kept", "gone"))
    if sort in set(Alike) and kept and gone:
        merge_and_say(request, Alike(sort), kept, gone)
    return redirect("duplicates", request.composer.slug)


def merge_and_say(request: CatalogueRequest, sort: Alike, kept: str, gone: str) -> None:
    try:
        made = merge(
            composer=request.composer, sort=sort, kept=kept, gone=gone, by=request.user, now=timezone.now()
        )  # fmt: skip
    except NotMerged as refused:
        say(request, refused.reason)
        return
    undo = reverse("merge-undo", args=[request.composer.slug, made.pk])
    say(request, _("“%(gone)s” is now “%(kept)s”.") % {"gone": made.gone_name, "kept": made.kept_name}, undo=undo)


@editor_page
@require_POST
def duplicate_apart(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/duplicates/apart/ — says that two records are two."""
    sort, one, other = (request.POST.get(name, "") for name in ("sort", "one", "other"))
    if sort in set(Alike) and one and other:
        set_apart(composer=request.composer, sort=Alike(sort), one=one, other=other)
        say(request, _("They stay two, and are not offered again."))
    return redirect("duplicates", request.composer.slug)


@editor_page
@require_POST
def merge_undo(request: CatalogueRequest, merge: int) -> HttpResponse:
    """/c/<composer>/duplicates/<merge>/undo/ — parts two records again."""
    found = get_object_or_404(Merge, composer=request.composer, pk=merge)
    try:
        left = undo_merge(merged=found, now=timezone.now())
    except NotMerged as refused:
        say(request, refused.reason)
        return redirect("duplicates", request.composer.slug)
    told = _("“%(gone)s” and “%(kept)s” are two again.") % {"gone": found.gone_name, "kept": found.kept_name}
    if left:
        stays = ngettext(
            "One entry was changed since and stays.", "%(number)s entries were changed since and stay.", left
        )
        told = f"{told} {stays % {'number': left}}"
    say(request, told)
    return redirect("duplicates", request.composer.slug)
