"""What is done in a process of its own so that its memory can be looked at: requests, backups, packs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import closing, nullcontext
from io import BytesIO
from pathlib import Path
from typing import Any, BinaryIO, cast

from django.conf import settings
from django.core.handlers.wsgi import WSGIHandler
from django.utils import timezone

from catalogue.exchange.backups.restoring import try_backup
from catalogue.exchange.backups.writing import write_backup

TOKEN = "c" * 32  # of forms: whoever sends one names it twice
EDGE = "ledgerline-edge"


def start(session: str, page: str) -> None:
    """Load everything, and answer one page."""
    ask(session, page)


def take_in(session: str, page: str, address: str, body: str, status: str) -> None:
    """Take in a form that a file holds as a browser sends it, and answer as is expected."""
    start(session, page)
    with open(body, "rb") as sent:
        ask(session, address, sent, Path(body).stat().st_size, status=status)


def hand_out(session: str, page: str, address: str, least: str) -> None:
    """Send a file of at least so many bytes to whoever takes it piece by piece."""
    start(session, page)
    ask(session, address, least=int(least))


def back_up(session: str, page: str, path: str) -> None:
    start(session, page)
    write_backup(Path(path), now=timezone.now())


def bring_back(session: str, page: str, path: str) -> None:
    """Restore a backup beside what there is, and compare every record."""
    start(session, page)
    try_backup(Path(path))


# ---- requests


def ask(
    session: str, address: str, body: BinaryIO | None = None, length: int = 0, *, least: int = 0, status: str = "200"
) -> None:
    """Have the whole application answer a request and let the answer go as it comes.

    Raises where the status is another than expected, or less comes than was to.
    """
    said: list[str] = []
    with body or nullcontext() as sent:
        application: Any = WSGIHandler()
        answer = application(request_to(session, address, sent, length), lambda status, _: said.append(status))
        with closing(answer):
            size = sum(len(piece) for piece in cast(Iterable[bytes], answer))
    if not said[0].startswith(status) or size < least:
        raise RuntimeError(f"{address} was answered with {said[0]}, {size} bytes.")


def request_to(session: str, address: str, sent: BinaryIO | None, length: int) -> dict[str, Any]:
    path, _mark, query = address.partition("?")
    cookies = f"{settings.SESSION_COOKIE_NAME}={session}; {settings.CSRF_COOKIE_NAME}={TOKEN}"
    asked = {
        "REQUEST_METHOD": "POST" if sent else "GET", "PATH_INFO": path, "QUERY_STRING": query, "SCRIPT_NAME": "",
        "SERVER_NAME": "127.0.0.1", "SERVER_PORT": "80", "SERVER_PROTOCOL": "HTTP/1.1", "REMOTE_ADDR": "127.0.0.1",
        "HTTP_COOKIE": cookies, "wsgi.version": (1, 0), "wsgi.url_scheme": "http", "wsgi.input": sent or BytesIO(),
        "wsgi.errors": None, "wsgi.multithread": False, "wsgi.multiprocess": True, "wsgi.run_once": False,
    }  # fmt: skip
    if sent:
        kind = f"multipart/form-data; boundary={EDGE}"
        asked |= {"CONTENT_TYPE": kind, "CONTENT_LENGTH": str(length), "HTTP_X_CSRFTOKEN": TOKEN}
    return asked


def form_pieces(typed: dict[str, str], name: str, content: Iterable[bytes]) -> Iterator[bytes]:
    """Return the pieces of a form with one file, as browsers send it (RFC 7578)."""
    for field, value in typed.items():
        yield f'--{EDGE}\r\nContent-Disposition: form-data; name="{field}"\r\n\r\n{value}\r\n'.encode()
    head = f'Content-Disposition: form-data; name="file"; filename="{name}"\r\nContent-Type: application/octet-stream'
    yield f"--{EDGE}\r\n{head}\r\n\r\n".encode()
    yield from content
    yield f"\r\n--{EDGE}--\r\n".encode()
