"""What the README and the page for developers say of paths, commands and settings is so."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import get_commands

ROOT = Path(settings.ROOT)
PAGES = ("README.md", "DEVELOPERS.md")
MADE_WHEN_RUN = {"demo-output/", "demo-data/", "data/", ".venv/", "data/files", "data/backups"}


def text_of(page: str) -> str:
    return (ROOT / page).read_text(encoding="utf-8")


def inline_code(page: str) -> list[str]:
    return re.findall(r"`([^`\n]+)`", re.sub(r"```.*?```", "", text_of(page), flags=re.DOTALL))


def paths_in(page: str) -> set[str]:
    """Return the paths that links lead to and that stand as code in a sentence or a table."""
    named = set(re.findall(r"\]\(([\w./-]+)\)", text_of(page)))
    shaped = re.compile(r"^[\w.-]+(/[\w.-]+)*/?$")
    for code in inline_code(page):
        if shaped.match(code) and ("/" in code or code.endswith((".md", ".lock", ".toml", ".py", ".in"))):
            named.add(code)
    return named - MADE_WHEN_RUN


@pytest.mark.parametrize("page", PAGES)
def test_every_path_that_is_named_exists(page: str) -> None:
    named = paths_in(page)

    missing = sorted(path for path in named if not (ROOT / path).exists())

    assert named
    assert missing == []


@pytest.mark.parametrize("page", PAGES)
def test_every_command_that_is_shown_is_known(page: str) -> None:
    shown = set(re.findall(r"manage\.py (\w+)", text_of(page)))

    assert shown
    assert shown - set(get_commands()) == set()


def test_every_environment_name_is_read_and_every_name_read_is_listed() -> None:
    sources = "".join(path.read_text() for path in (ROOT / "config/settings.py", ROOT / "manage.py"))
    pattern = r"(?:LEDGERLINE_[A-Z_]+|DATABASE_URL)"
    internal = {"LEDGERLINE_IN_VENV"}

    listed = set(re.findall(pattern, text_of("DEVELOPERS.md")))
    read = set(re.findall(pattern, sources)) - internal

    assert listed == read


def test_every_room_is_on_the_page_for_developers() -> None:
    rooms = {path.name for path in (ROOT / "catalogue").iterdir() if (path / "__init__.py").exists()}
    unexplained = {"management", "migrations", "templatetags"}

    missing = sorted(room for room in rooms - unexplained if f"catalogue/{room}/" not in text_of("DEVELOPERS.md"))

    assert missing == []
