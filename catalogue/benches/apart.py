"""Something done in a process of its own, which says how much memory it has held at most.

``python -m catalogue.benches.apart MODULE:FUNCTION DATABASE ARGUMENT…`` does it and prints the bytes.
"""

from __future__ import annotations

import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import django
from django.conf import settings
from django.db import connection

from catalogue.benches.measuring import Unmeasurable

try:
    import resource
except ImportError:  # Windows has none
    resource = None  # type: ignore[assignment]

MEGABYTE = 1_000_000
STATUS = Path("/proc/self/status")
PEAK = "VmHWM:"


def peak_of(errand: str, *told: str, data: Path) -> float:
    """Return how many megabytes a process held at most that did an errand; ``data`` is its data folder."""
    command = [sys.executable, "-m", __name__, errand, database_name(), *told]
    done = subprocess.run(command, cwd=settings.ROOT, env=surroundings(data), capture_output=True, text=True)  # noqa: S603
    if done.returncode:
        raise RuntimeError(f"{errand} failed: {done.stderr.strip()[-2000:]}")
    return int(done.stdout.split()[-1]) / MEGABYTE


def surroundings(data: Path) -> dict[str, str]:
    """Return the variables under which another process has this one's settings and a data folder of its own."""
    ours = {"DJANGO_SETTINGS_MODULE": "config.settings", "LEDGERLINE_DATA": str(data), "LEDGERLINE_PROFILE": "laptop"}
    return os.environ | ours | {"LEDGERLINE_SECRET_KEY": settings.SECRET_KEY, "LEDGERLINE_NO_BOOTSTRAP": "1"}


def database_name() -> str:
    """Return by which name another process opens the database in use. Raises Unmeasurable where none can."""
    name = str(connection.settings_dict["NAME"])
    if connection.vendor == "sqlite" and (name == ":memory:" or "mode=memory" in name):
        raise Unmeasurable("A database in memory is opened by no other process.")
    return name


def peak_bytes() -> int:
    """Return how much memory this process has held at most.

    Linux tells it of the program alone; what ``getrusage`` tells there begins with what the parent held when it started
    this process.
    """
    if STATUS.exists():
        line = next(line for line in STATUS.read_text(encoding="ascii").splitlines() if line.startswith(PEAK))
        return int(line.split()[1]) * 1024
    if resource is None:
        raise Unmeasurable("This system does not tell how much memory a process has held.")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak if sys.platform == "darwin" else peak * 1024


def main(errand: str, database: str, *told: str) -> None:
    django.setup()
    connection.settings_dict["NAME"] = database
    module, _colon, name = errand.partition(":")
    getattr(import_module(module), name)(*told)
    print(peak_bytes())


if __name__ == "__main__":
    main(*sys.argv[1:])
