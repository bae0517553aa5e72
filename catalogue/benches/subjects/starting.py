"""How long it takes to start: ``manage.py check`` beside that of an empty project with the same apps of others.

Told is what the processor gave to each, since a start does nothing but reckon, and a busy machine interrupts the longer
one more often.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from os import times
from pathlib import Path
from tempfile import TemporaryDirectory

from django.conf import settings

from catalogue.benches.apart import surroundings
from catalogue.benches.measuring import Bench, Heading, Pair

OURS = "catalogue"
MANAGE = """import os
import sys

from django.core.management import execute_from_command_line

os.environ["DJANGO_SETTINGS_MODULE"] = "empty"
execute_from_command_line(sys.argv)
"""
EMPTY = """SECRET_KEY = "empty" * 12
USE_TZ = True
ROOT_URLCONF = "addresses"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
STATIC_URL = "static/"
DATABASES = {{"default": {{"ENGINE": "django.db.backends.sqlite3", "NAME": ":memory:"}}}}
INSTALLED_APPS = {apps!r}
MIDDLEWARE = {middleware!r}
AUTHENTICATION_BACKENDS = {backends!r}
TEMPLATES = [{{"BACKEND": "django.template.backends.django.DjangoTemplates", "APP_DIRS": True}}]
"""


def write_empty_project(folder: Path) -> None:
    """Write a project with the apps, middleware and ways of signing in of others that ours has, and nothing in it."""
    lists = {
        "apps": of_others(settings.INSTALLED_APPS),
        "middleware": of_others(settings.MIDDLEWARE),
        "backends": of_others(settings.AUTHENTICATION_BACKENDS),
    }
    (folder / "manage.py").write_text(MANAGE, encoding="utf-8")
    (folder / "empty.py").write_text(EMPTY.format(**lists), encoding="utf-8")
    (folder / "addresses.py").write_text("urlpatterns = []\n", encoding="utf-8")


def of_others(names: list[str]) -> list[str]:
    return [name for name in names if name.partition(".")[0] != OURS]


def check(project: Path, folder: Path) -> float:
    """Let a project check itself in a process of its own; return its seconds of the processor. Raises for a fault.

    Modules are compiled once, into the ``folder``, as where a project has started before.
    """
    usual = {name: value for name, value in surroundings(folder / "data").items() if name != "PYTHONDONTWRITEBYTECODE"}
    compiled = usual | {"PYTHONPYCACHEPREFIX": str(folder / "compiled")}
    command = [sys.executable, "manage.py", "check"]
    begun = of_children()
    subprocess.run(command, cwd=project, env=compiled, capture_output=True, check=True)  # noqa: S603
    return of_children() - begun


def of_children() -> float:
    """Return the seconds that the processor has given to processes that this one started and that have ended."""
    told = times()
    return told.children_user + told.children_system


@contextmanager
def checks(_size: int) -> Iterator[Pair]:
    with TemporaryDirectory(prefix="ledgerline-bench-") as name:
        folder = Path(name)
        empty = folder / "empty"
        empty.mkdir()
        write_empty_project(empty)
        for project in (settings.ROOT, empty):
            check(project, folder)
        yield Pair(ours=partial(check, settings.ROOT, folder), bare=partial(check, empty, folder))


HEADING = Heading.START
BENCHES = (
    Bench(
        "manage.py check",
        "an empty project of the framework with the same apps of others",
        (1,),
        checks,
        aim=1.3,
        counted=True,
    ),
)
