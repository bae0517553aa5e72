"""The typefaces of East Asia that pages are set in; a browser may keep them, since their address changes with them."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.cache import cache_control
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_safe

from catalogue.documents.renderers import web_faces

kept = cache_control(public=True, max_age=31_536_000, immutable=True)


@require_safe
@gzip_page
@kept
def face_sheet(request: HttpRequest, release: str) -> HttpResponse:
    """/faces/<release>/faces.css — which slice of which face draws which signs."""
    if release != web_faces.release():
        raise Http404
    return HttpResponse(web_faces.sheet(), content_type="text/css; charset=utf-8")


@require_safe
@gzip_page
@kept
def face_file(request: HttpRequest, release: str, language: str, family: str, slice: str) -> HttpResponse:
    """/faces/<release>/<language>/<family>/<slice>.otf — one slice."""
    address = f"{language}/{family}/{slice}.otf"
    if release != web_faces.release() or address not in web_faces.slices():
        raise Http404
    return HttpResponse(web_faces.font_file(address), content_type="font/otf")
