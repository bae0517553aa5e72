"""Who may import whom: the table of rooms, held by reading the source.

The sources are read, not imported, so that an import hidden in a function is seen too.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Collection, Sequence
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2] / "catalogue"

CORES = {"instrumentation", "timing"}
BASE = CORES | {"facts", "record_facts", "terms"}
ALL = {"*"}  # whatever stands above the row

# room -> (rooms of the catalogue it may import, libraries from outside it may import), from the ground up: a room
# imports only rooms that stand above its row, so that no two need each other.
TABLE: dict[str, tuple[set[str], set[str]]] = {
    "instrumentation": (set(), set()),
    "timing": (set(), set()),
    "terms": (set(), set()),
    "facts": (CORES | {"terms"}, set()),
    "record_facts": (CORES | {"facts", "terms"}, set()),
    "rules": (BASE, {"stdnum"}),
    "optimiser": (BASE | {"rules"}, set()),  # the solver's package is loaded by name, where it is installed
    "drawings": (BASE, set()),
    "documents": ({"terms", "drawings"}, {"babel"}),
    "documents/sheets": ({"terms", "rules", "documents"}, set()),
    "documents/contents": (BASE | {"rules", "drawings", "documents"}, {"babel"}),
    "documents/renderers": (
        {"rules", "drawings", "documents", "documents/sheets"},
        {"reportlab", "docx", "xlsxwriter", "pikepdf", "uharfbuzz", "bidi", "fontTools", "lxml", "babel", "PIL"},
    ),
    "feeds": (BASE | {"rules", "documents"}, {"icalendar"}),
    "models": (CORES | {"terms", "rules"}, {"django", "simple_history", "stdnum"}),
    "gathering": (BASE | {"rules", "models"}, {"django"}),
    "actions": (BASE | {"rules", "models", "gathering"}, {"django", "pyotp", "cryptography"}),
    "exchange": (
        BASE | {"rules", "models", "gathering", "actions"},
        {"django", "lxml", "defusedxml", "python_calamine", "xlsxwriter", "tinytag", "pikepdf", "PIL", "storages"},
    ),
    "making": (BASE | {"rules", "models", "gathering", "documents", "documents/contents"}, {"django"}),
    "packing": (
        BASE | {"rules", "models", "gathering", "documents", "documents/contents", "making", "exchange"},
        {"django"},
    ),
    "web": (
        ALL,
        {
            "django", "django_tables2", "django_filters", "django_htmx", "axes", "csp", "simple_history",
            "markdown_it", "nh3", "segno", "babel", "prometheus_client",
        },
    ),
    "templatetags": (ALL, {"django"}),
    "demo": (ALL, {"django"}),
    "benches": (ALL, {"django", "reportlab", "icalendar", "lxml", "config"}),
    "management": (ALL, {"django", "waitress", "pytest", "environ"}),
    "apps": (set(), {"django"}),
    "migrations": ({"actions", "models", "rules"}, {"django", "simple_history"}),
}  # fmt: skip
ROOMS = tuple(TABLE)


def room_of(path: Path) -> str:
    return room_named(path.relative_to(ROOT).with_suffix("").parts)


def room_named(parts: Sequence[str]) -> str:
    """Return the room of a module, which is its folder's where that has a row of its own."""
    two = "/".join(parts[:2])
    return two if two in TABLE else parts[0] if parts else ""


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
        target = room_named(rest)
        below = set(ROOMS[: ROOMS.index(room)]) if rooms == ALL else rooms
        return target == room or target in below
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


def test_no_room_is_allowed_one_that_stands_below_it_in_the_table() -> None:
    upward = [
        (room, named)
        for at, (room, (rooms, _outside)) in enumerate(TABLE.items())
        for named in rooms - ALL
        if named not in ROOMS[:at]
    ]

    assert upward == []


def test_no_two_modules_import_each_other() -> None:
    known = {module_name(path): path for path in sources()}
    graph = {name: imported_modules(path, known) for name, path in known.items()}

    assert tuple(TopologicalSorter(graph).static_order())


def test_only_the_addresses_and_other_views_import_views() -> None:
    web = ROOT / "web"
    others = [path for path in sources() if path.is_relative_to(web) and not path.is_relative_to(web / "views")]

    importing = {
        path.name for path in others for _line, name in imported(path) if name.startswith("catalogue.web.views")
    }

    assert importing == {"urls.py"}


def imported_modules(path: Path, known: Collection[str]) -> set[str]:
    """Return the modules of the catalogue that are loaded with a module; what is for types alone is not."""
    found: set[str] = set()
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.ImportFrom) and node.module:
            of_modules = (f"{node.module}.{alias.name}" for alias in node.names)
            found |= {name if name in known else node.module for name in of_modules}
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return found & set(known)


def module_name(path: Path) -> str:
    return ".".join(path.relative_to(ROOT.parent).with_suffix("").parts).removesuffix(".__init__")


def test_the_package_itself_is_empty() -> None:
    assert (ROOT / "__init__.py").read_text() == ""


@pytest.mark.parametrize(
    ("room", "name"),
    [
        ("timing", "django.db"),
        ("feeds", "catalogue.models"),
        ("models", "catalogue.web.views"),
        ("documents", "reportlab.pdfgen"),
        ("documents/contents", "catalogue.documents.sheets.houses"),
        ("documents", "catalogue.documents.renderers.pdf"),
        ("actions", "catalogue.exchange.pictures"),
        ("web", "catalogue.management.serving"),
        ("facts", ".timing"),
    ],
)
def test_a_planted_fault_is_caught(room: str, name: str) -> None:
    assert not allowed(room, name)
