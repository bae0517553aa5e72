"""The pages of works: the list, one work, and its way out and back."""

from __future__ import annotations

from collections.abc import Mapping

from django.core.exceptions import ValidationError
from django.db.models import Count, Max, Min, Q
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.works import delete_work, restore_work
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, state_of_all_of, state_of_lists, state_of_works
from catalogue.models import Composer, Work
from catalogue.models.fields import LONG_LINE
from catalogue.terms import WorkStatus
from catalogue.timing import PartialDate
from catalogue.web.access import CatalogueRequest, editor_page, material_page
from catalogue.web.asked import asked_works
from catalogue.web.forms.documents import documents_of
from catalogue.web.kept_for_members import Page, kept_for_members
from catalogue.web.notices import say
from catalogue.web.records.of_sendings import SENDINGS
from catalogue.web.saved_views import Views, views_of
from catalogue.web.views.library import library_work, library_works
from catalogue.web.wording import page_language
from catalogue.web.work_names import works_near
from catalogue.web.work_page import WorkPage, work_page

SUGGESTED = 20


@material_page
@require_safe
def work_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/ — every work, searched, filtered and ordered."""
    if request.is_librarian:
        return library_works(request)
    state, views = state_of_lists([request.composer.pk]), views_of(request, "works")
    return kept_for_members(request, state, lambda: page_of_works(request, state, views), views.told)


def page_of_works(request: CatalogueRequest, state: State, views: Views) -> Page:
    asked = asked_works(request, state)
    asked.table.turn_to(request.GET.get("page"))
    context = {"questions": asked.questions, "table": asked.table, "is_asked": asked.is_asked}
    context["open_works"] = asked.filter.open_works if asked.typed else 0
    context |= {"counted": counted_at(state_of_works(state), request.composer), "views": views}
    return Page("works/work_list.html", context)


@once_for_each_state(256)
def counted_at(_state: State, composer: Composer) -> Mapping[str, object]:
    """Return how many works there are, since when and until when, and how many stand on no public list."""
    off_lists = Q(status__in=[status for status in WorkStatus if status is not WorkStatus.ACTIVE])
    numbers = Work.objects.filter(composer=composer).aggregate(
        all=Count("pk"), off_lists=Count("pk", filter=off_lists), first=Min("completed"), last=Max("completed")
    )
    years = [date.last.year for date in (numbers["first"], numbers["last"]) if isinstance(date, PartialDate)]
    return {**numbers, "first": min(years, default=None), "last": max(years, default=None)}


@material_page
@require_safe
def work_detail(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/ — everything that is known of a work, set like a title page."""
    if request.is_librarian:
        return library_work(request, work)
    state = state_of_all_of([request.composer.pk])
    return kept_for_members(request, state, lambda: page_of_work(request, work))


def page_of_work(request: CatalogueRequest, work: int) -> Page:
    found = get_object_or_404(Work.objects.filter(composer=request.composer).with_everything_printed(), pk=work)
    page = work_page(found, today=timezone.localdate(), language=page_language())
    context = {"page": page, "work": page.work, "documents": documents_to_make(page)}
    return Page("works/work_detail.html", context, timezone.now() if has_sent_papers(page) else None)


def has_sent_papers(page: WorkPage) -> bool:
    """Whether papers of the work were sent: each is held against the record, a few at a time, whenever it is asked."""
    return any(around.kind is SENDINGS and around.lines for around in page.around)


@material_page
@require_safe
def work_suggested(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/suggested/ — the works that what is typed in a field may mean, as a list to pick from."""
    typed = request.GET.get(request.headers.get("HX-Trigger-Name", ""), request.GET.get("q", ""))
    works = Work.objects.filter(composer=request.composer)
    labels = works_near(works, typed[:LONG_LINE].replace("\0", ""), SUGGESTED)
    return render(request, "works/parts/suggested.html", {"labels": labels})


def documents_to_make(page: WorkPage) -> list[tuple[str, str | Promise, str | Promise]]:
    """Return word, title and purpose of a work's documents, without those for which its record holds nothing yet."""
    empty = {"parts-checklist": page.work.instrumentation is None, "cue-sheet": not page.cues}
    return [(form.word, form.title, form.about) for form in documents_of("work") if not empty.get(form.word)]


# ---- deleting and bringing back


@editor_page
@require_POST
def work_delete(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/delete/ — takes a work out of every list, with a way back."""
    found = get_object_or_404(Work.objects.filter(composer=request.composer), pk=work)
    try:
        delete_work(work=found, by=request.user, now=timezone.now())
    except ValidationError as refused:
        say(request, " ".join(refused.messages))
        return redirect("work-detail", request.composer.slug, found.pk)
    undo = reverse("work-restore", args=[request.composer.slug, found.pk])
    say(request, _("“%(title)s” is deleted.") % {"title": found.title}, undo=undo)
    return redirect("work-list", request.composer.slug)


@editor_page
@require_POST
def work_restore(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/restore/ — brings a deleted work back."""
    found = get_object_or_404(Work.with_deleted.filter(composer=request.composer), pk=work)
    try:
        restore_work(work=found, now=timezone.now())
    except ValidationError as refused:
        say(request, " ".join(refused.messages))
        return redirect("work-list", request.composer.slug)
    say(request, _("“%(title)s” is back.") % {"title": found.title})
    return redirect("work-detail", request.composer.slug, found.pk)
