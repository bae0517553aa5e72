"""How several processes serve a house: gunicorn's own settings, for whatever starts it (a unit, a container, a shell).

How many processes there are says ``WEB_CONCURRENCY`` (as many as there are cores), where they listen
``GUNICORN_CMD_ARGS="--bind …"``. Nothing is kept in a process that another one would miss. On two cores, busy with
other things too, processes of threads answered 1.4 to 2 times as many requests a second as those that answer one at a
time; ``bench --only "as documented, not by"`` measures these settings beside others.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from prometheus_client.multiprocess import mark_process_dead

bind = "127.0.0.1:8000"
worker_class = "gthread"
threads = 8  # more than a process can run at once: connections are kept, and one process may hold most of them
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
