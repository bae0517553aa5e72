"""The pages of works."""

from __future__ import annotations

from django.db.models import Count, Max, Min, Q
from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe
from django_tables2 import RequestConfig

from catalogue.models import Composer, Work
from catalogue.terms import WorkStatus
from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.filters.works import WorkFilter
from catalogue.web.tables.works import WorkTable, with_performances
from catalogue.web.wording import page_language, year_text


@member_page
@require_safe
def work_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/ — every work, searched, filtered and ordered."""
    asked = WorkFilter(request.GET, Work.objects.filter(composer=request.composer))
    table = WorkTable(with_performances(asked.qs), slug=request.composer.slug, language=page_language())
    RequestConfig(request, paginate=False).configure(table)
    table.turn_to(request.GET.get("page"))
    context = {"filter": asked, "table": table, "counted": counted(request.composer), "is_asked": is_asked(asked)}
    return render(request, "works/work_list.html", context)


def counted(composer: Composer) -> dict[str, object]:
    """Return how many works there are, since when and until when, and how many stand on no public list."""
    off_lists = Q(status__in=[status for status in WorkStatus if status is not WorkStatus.ACTIVE])
    numbers = Work.objects.filter(composer=composer).aggregate(
        all=Count("pk"), off_lists=Count("pk", filter=off_lists), first=Min("completed"), last=Max("completed")
    )
    return {**numbers, "first": year_text(numbers["first"], ""), "last": year_text(numbers["last"], "")}


def is_asked(asked: WorkFilter) -> bool:
    return any(value not in (None, "", ()) for value in getattr(asked.form, "cleaned_data", {}).values())
