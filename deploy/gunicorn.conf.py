"""How several processes serve a house: gunicorn's own settings, for whatever starts it (a unit, a container, a shell).

There are as many processes as there are cores, unless ``WEB_CONCURRENCY`` says how many; where they listen says
``GUNICORN_CMD_ARGS="--bind …"``. Nothing is kept in a process that another one would miss.

Asked for Today, works, performances and a public page by turns on two cores, processes of four threads, one a core,
answered most at the least delay, on SQLite and on PostgreSQL: one process answered a third to a half as many, more
processes than cores a tenth to a quarter fewer, eight threads as many with a longer wait for the last of a hundred.
``bench --only "as documented, not by"`` measures these settings beside others.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from prometheus_client.multiprocess import mark_process_dead


def cores() -> int:
    """Return on how many cores this process may run; a container that may use part of one is not told of it."""
    usable = getattr(os, "sched_getaffinity", None)  # not everywhere
    return len(usable(0)) if usable else os.cpu_count() or 1


bind = "127.0.0.1:8000"
workers = int(os.environ.get("WEB_CONCURRENCY") or cores())
worker_class = "gthread"
threads = 4  # more than a process can run at once: a long paper or an import holds nobody else up
control_socket_disable = True  # nothing listens that nobody asked for
timeout = 120  # seconds; a long list as a paper takes some
graceful_timeout = 30
max_requests, max_requests_jitter = 5000, 500
wsgi_app = "config.wsgi"
raw_env = ["DJANGO_SETTINGS_MODULE=config.settings"]

# Which proxies are believed is told by LEDGERLINE_PROXIES alone.
forwarded_allow_ips = ""
secure_scheme_headers: dict[str, str] = {}

accesslog = None  # requests are told by the program itself, without addresses
logconfig_dict: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"json": {"()": "catalogue.web.logs.JsonLines"}},
    "handlers": {"lines": {"class": "logging.StreamHandler", "formatter": "json"}},
    "root": {"handlers": ["lines"], "level": "WARNING"},
    "loggers": {
        "gunicorn.error": {"handlers": ["lines"], "level": "INFO", "propagate": False},
        "gunicorn.access": {"handlers": [], "propagate": False},
    },
}


def shared_folder() -> Path | None:
    named = os.environ.get("PROMETHEUS_MULTIPROC_DIR")
    return Path(named) if named else None


def on_starting(server: Any) -> None:
    """Empty the folder in which processes count together: counts begin with the service."""
    folder = shared_folder()
    if folder:
        folder.mkdir(parents=True, exist_ok=True)
        for counted in folder.glob("*.db"):
            counted.unlink()


def child_exit(server: Any, worker: Any) -> None:
    """Keep what an ended process has counted, and let go of what only a living one tells."""
    if shared_folder():
        mark_process_dead(worker.pid)  # type: ignore[no-untyped-call]
