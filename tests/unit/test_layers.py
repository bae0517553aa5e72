"""Who may import whom: the table of rooms, held by reading the source.

The sources are read, not imported, so that an import hidden in a function is seen too.
"""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2] / "catalogue"

CORES = {"instrumentation", "timing"}
BASE = CORES | {"facts", "record_facts", "terms"}

# room -> (rooms of the catalogue it may import, libraries from outside it may import)
TABLE: dict[str, tuple[set[str], set[str]]] = {
    "instrumentation": (set(), set()),
    "timing": (set(), set()),
    "terms": (set(), set()),
    "facts": (CORES | {"terms"}, set()),
    "record_facts": (CORES | {"facts", "terms"}, set()),
    "rules": (BASE, {"stdnum"}),
    "optimiser": (BASE | {"rules"}, set()),  # the solver's package is loaded by name, where it is installed
    "documents": (BASE | {"rules", "drawings"}, {"babel"}),
    "documents/renderers": (
        BASE | {"rules", "drawings", "documents"},
        {"reportlab", "docx", "xlsxwriter", "pikepdf", "uharfbuzz", "bidi", "fontTools", "lxml", "babel", "PIL"},
    ),
    "drawings": (BASE, set()),
    "feeds": (BASE | {"rules", "documents"}, {"icalendar"}),
    "models": (CORES | {"terms", "rules"}, {"django", "simple_history", "stdnum"}),
    "gathering": (BASE | {"rules", "models"}, {"django"}),
    "actions": (BASE | {"rules", "models", "gathering", "exchange"}, {"django", "pyotp"}),
    "exchange": (
        BASE | {"rules", "models", "gathering", "actions"},
        {"django", "lxml", "defusedxml", "python_calamine", "xlsxwriter", "tinytag", "pikepdf", "PIL", "storages"},
    ),
    "making": (BASE | {"rules", "models", "gathering", "documents"}, {"django"}),
    "packing": (BASE | {"rules", "models", "gathering", "documents", "making", "exchange"}, {"django"}),
    "web": (
        {"*"},
        {
            "django", "django_tables2", "django_filters", "django_htmx", "axes", "csp", "simple_history",
            "markdown_it", "nh3", "segno", "babel", "prometheus_client",
        },
    ),
    "benches": ({"*"}, {"django", "reportlab", "icalendar", "lxml"}),
    "templatetags": ({"*"}, {"django"}),
    "management": ({"*"}, {"django", "waitress", "pytest", "environ"}),
    "apps": (set(), {"django"}),
    "migrations": ({"*"}, {"django", "simple_history"}),
}  # fmt: skip


def room_of(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    two = "/".join(parts[:2])
    return two if two in TABLE else parts[0]


def sources() -> list[Path]:
    return [path for path in sorted(ROOT.rglob("*.py")) if path != ROOT / "__init__.py"]


def imported(path: Path) -> list[tuple[int, str]]:
    """Return (line, full module name) of every import in the file, wherever it stands."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            found.append((node.lineno, "." * node.level + (node.module or "")))
    return found


def allowed(room: str, name: str) -> bool:
    rooms, outside = TABLE[room]
    top, *rest = name.split(".")
    if top == "catalogue":
        target = rest[0] if rest else ""
        own = room.split("/")[0]
        return "*" in rooms or target == own or target in rooms
    return top in sys.stdlib_module_names or top in outside


@pytest.mark.parametrize("path", sources(), ids=lambda path: str(path.relative_to(ROOT)))
def test_module_imports_only_what_its_room_may(path: Path) -> None:
    room = room_of(path)

    wrong = [f"line {line}: {name}" for line, name in imported(path) if not allowed(room, name)]

    assert room in TABLE
    assert wrong == []


def test_every_listed_room_has_modules() -> None:
    rooms = {room_of(path) for path in sources()}

    assert set(TABLE) - rooms == set()


def test_the_package_itself_is_empty() -> None:
    assert (ROOT / "__init__.py").read_text() == ""


@pytest.mark.parametrize(
    ("room", "name"),
    [
        ("timing", "django.db"),
        ("feeds", "catalogue.models"),
        ("models", "catalogue.web.views"),
        ("documents", "reportlab.pdfgen"),
        ("facts", ".timing"),
    ],
)
def test_a_planted_fault_is_caught(room: str, name: str) -> None:
    assert not allowed(room, name)
