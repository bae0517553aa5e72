"""The bill of materials: the licence of a package is found where the package states it."""

from __future__ import annotations

import importlib.util
import sys
from importlib.metadata import Distribution
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[3]
NAMED = "Metadata-Version: 2.4\nName: tidetable\nVersion: 1.2\n"


@pytest.fixture(scope="module")
def sbom() -> ModuleType:
    spec = importlib.util.spec_from_file_location("sbom", ROOT / ".ci" / "sbom.py")
    module = importlib.util.module_from_spec(spec)
    sys.modules["sbom"] = module  # dataclasses look their module up there
    spec.loader.exec_module(module)
    return module


def package(folder: Path, metadata: str, files: dict[str, str]) -> Distribution:
    place = folder / "tidetable-1.2.dist-info"
    for name, text in {"METADATA": NAMED + metadata, **files}.items():
        (place / name).parent.mkdir(parents=True, exist_ok=True)
        (place / name).write_text(text, encoding="utf-8")
    return Distribution.at(place)


@pytest.mark.parametrize(
    ("metadata", "files", "licence"),
    [
        ("License-Expression: BSD-3-Clause\nLicense: other\n", {}, "BSD-3-Clause"),
        ("Classifier: License :: OSI Approved :: MIT License\n", {}, "MIT License"),
        ("License: ISC\n", {}, "ISC"),
        ("License-File: LICENSE\n", {"licenses/LICENSE": "\n  MIT License\n\nCopyright"}, "MIT License"),
        ("License-File: COPYING\n", {"COPYING": "Apache License\n"}, "Apache License"),
        ("License-File: LICENSE\n", {}, ""),
        ("", {}, ""),
    ],
)
def test_a_licence_is_read_where_the_package_states_it(
    sbom: ModuleType, tmp_path: Path, metadata: str, files: dict[str, str], licence: str
) -> None:
    assert sbom.licence_of(package(tmp_path, metadata, files)) == licence


def test_a_licence_that_is_not_on_the_list_is_a_fault(sbom: ModuleType) -> None:
    of_another_kind = sbom.Package("tidetable", "1.2", ("0" * 64,), "1.2", "Freeware, no resale")

    assert sbom.faults_of(of_another_kind) == ["tidetable comes under “Freeware, no resale”"]
