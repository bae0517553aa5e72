"""Serves the pages on this machine, and says in one line what stands in the way."""

from __future__ import annotations

import errno
import os
import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from django.conf import settings
from waitress import create_server

from catalogue.management.base import UnusableInput
from catalogue.web.later import application

try:
    import fcntl
except ImportError:  # Windows lets nobody rename a database that is open
    fcntl = None  # type: ignore[assignment]

HOST = "127.0.0.1"
THREADS = 4


def refuse_taken_port(port: int) -> None:
    """Raise ``UnusableInput`` where nothing can be served at this port; asked before the long work begins."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((HOST, port))
        except (OSError, OverflowError) as fault:
            raise UnusableInput(port_message(port, fault)) from fault


def port_message(port: int, fault: OSError | OverflowError) -> str:
    if getattr(fault, "errno", None) == errno.EADDRINUSE:
        return f"Port {port} is taken by another program; choose another with --port {port + 1}."
    if getattr(fault, "errno", None) == errno.EACCES:
        return f"Port {port} is reserved for the system; choose one above 1023, for example --port 8000."
    return f"Nothing can be served at port {port}; choose one from 1024 to 65535."


def address_at(port: int) -> str:
    """Return what links begin with while this port is served: the address that was configured, if any was."""
    if "LEDGERLINE_SITE_URL" not in os.environ:
        settings.SITE_URL = f"http://{HOST}:{port}"
    return settings.SITE_URL


def serve(port: int, *, ready: Callable[[], None]) -> None:
    """Serve until interrupted; ``ready`` is called once the door is open."""
    try:
        server = create_server(application(), host=HOST, port=port, threads=THREADS, ident=None)
    except OSError as fault:
        raise UnusableInput(port_message(port, fault)) from fault
    with door_open():
        ready()
        try:
            server.run()
        except KeyboardInterrupt:
            server.close()


@contextmanager
def door_open() -> Iterator[None]:
    """Let commands that put another catalogue in this one's place know that it is being served."""
    with lock_file() as lock:
        if fcntl:
            fcntl.flock(lock, fcntl.LOCK_SH)
        yield


@contextmanager
def nobody_serves() -> Iterator[None]:
    """Hold the door shut meanwhile. Raises UnusableInput where the catalogue is being served."""
    with lock_file() as lock:
        try:
            if fcntl:
                fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as fault:
            raise UnusableInput("This catalogue is being served; stop that program first (Ctrl+C).") from fault
        yield


@contextmanager
def lock_file() -> Iterator[int]:
    settings.DATA.mkdir(parents=True, exist_ok=True)
    lock = os.open(settings.DATA / "serving.lock", os.O_CREAT | os.O_RDWR, 0o600)
    try:
        yield lock
    finally:
        os.close(lock)
