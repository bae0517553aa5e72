"""Pages that explain the program."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe


@require_safe
def help_page(request: HttpRequest) -> HttpResponse:
    """/help/ — how each job is done, in short."""
    return render(request, "help/help.html")


@require_safe
def keyboard(request: HttpRequest) -> HttpResponse:
    """/help/keyboard/ — the single keys, and a switch that turns them off in this browser."""
    return render(request, "help/keyboard.html")
