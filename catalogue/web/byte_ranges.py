"""A stored file as an answer: whole or one range of its bytes (RFC 9110, sections 13 and 14), never as a page.

Whoever opens it keeps it as a file: it is sent as an attachment, in a sandbox without scripts, and its type is not
guessed. A request for several ranges at once is answered with the whole file.
"""

from __future__ import annotations

import re
from typing import Any

from django.core.files.storage import Storage
from django.http import HttpRequest, HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.utils.http import content_disposition_header

from catalogue.exchange.stored_files import pieces_from

ONE_RANGE = re.compile(r"bytes=(?:(\d{1,18})-(\d{0,18})|-(\d{1,18}))\s*", re.ASCII)


class Unsatisfiable(ValueError):
    """A range that begins behind the end of the file."""


def asked_range(header: str, size: int) -> tuple[int, int] | None:
    """Return the first byte and how many are asked for; none where all are. Raises Unsatisfiable.

    >>> asked_range("bytes=10-19", 100), asked_range("bytes=90-", 100), asked_range("bytes=-5", 100)
    ((10, 10), (90, 10), (95, 5))
    >>> asked_range("bytes=0-1,5-6", 100), asked_range("", 100)
    (None, None)
    """
    match = ONE_RANGE.fullmatch(header.strip())
    if match is None:
        return None
    if match[3]:
        first, last = max(0, size - int(match[3])), size - 1
    else:
        first, last = int(match[1]), min(int(match[2] or size - 1), size - 1)
        if match[2] and int(match[2]) < first:
            return None
    if first >= size or last < first:
        raise Unsatisfiable
    return first, last - first + 1


def sent_file_response(
    request: HttpRequest, *, storage: Storage, stored: str, etag: str, media_type: str, name: str
) -> HttpResponseBase:
    """Answer with a stored file, as much of it as is asked for; ``etag`` is the SHA-256 of its content."""
    size, tag = storage.size(stored), f'"{etag}"'
    if tag in re.findall(r'"[^"]*"', request.headers.get("If-None-Match", "")):
        return as_file(HttpResponse(status=304), tag)
    try:
        part = asked_range(request.headers.get("Range", ""), size) if holds_still(request, tag) else None
    except Unsatisfiable:
        refused = HttpResponse(status=416, content_type=media_type)
        refused.headers["Content-Range"] = f"bytes */{size}"
        return as_file(refused, tag, name)
    first, count = part or (0, size)
    pieces: Any = pieces_from(storage, stored, first, count) if request.method == "GET" else ()
    response = StreamingHttpResponse(pieces, status=206 if part else 200, content_type=media_type)
    response.headers["Content-Length"] = str(count)
    if part:
        response.headers["Content-Range"] = f"bytes {first}-{first + count - 1}/{size}"
    return as_file(response, tag, name)


def holds_still(request: HttpRequest, tag: str) -> bool:
    """Whether the range is asked of the content that is there; a date is never sent, so that none can be asked for."""
    condition = request.headers.get("If-Range", "")
    return request.method == "GET" and condition in ("", tag)


def as_file(response: Any, tag: str, name: str = "") -> HttpResponseBase:
    """Say that this is a file to be kept, which belongs to this site and runs nothing."""
    response.headers["ETag"] = tag
    response.headers["Accept-Ranges"] = "bytes"
    response.headers["Cache-Control"] = "private, no-store"
    response.headers["Content-Security-Policy"] = "default-src 'none'; frame-ancestors 'none'; sandbox"
    response.headers["Cross-Origin-Resource-Policy"] = "same-origin"
    response.headers["X-Content-Type-Options"] = "nosniff"
    if name:
        response.headers["Content-Disposition"] = content_disposition_header(True, name)
    answer: HttpResponseBase = response
    return answer
