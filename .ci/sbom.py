#!/usr/bin/env python3
"""Lists what the program is made of: each pinned package with its version, licence and hashes (CycloneDX 1.6, JSON).

Ends with 1 where a package is installed in another version than the lock pins, is pinned without a hash, or comes under
a licence that is not on the list. It asks no network and says nothing of vulnerabilities.
"""

from __future__ import annotations

import argparse
import json
import pathlib
import re
import sys
from dataclasses import dataclass
from importlib.metadata import Distribution, PackageNotFoundError, distribution

ROOT = pathlib.Path(__file__).resolve().parent.parent
PINNED = re.compile(r"^([A-Za-z0-9._-]+)==([^\s;]+)")
HASH = re.compile(r"--hash=sha256:([0-9a-f]{64})")
ALLOWED = re.compile(
    r"\b(MIT|MIT-CMU|HPND|BSD|Apache|PSF|PSFL|Python Software Foundation|ISC|MPL|Mozilla|LGPL|Lesser|ZPL|Zope|OFL|"
    r"Unlicense|0BSD|Public Domain|CC0)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Package:
    name: str
    version: str
    hashes: tuple[str, ...]
    installed: str = ""
    licence: str = ""


def pinned(lock: pathlib.Path) -> list[Package]:
    """Return what a lock file pins, each with the hashes of its files."""
    found: list[Package] = []
    for line in lock.read_text(encoding="utf-8").splitlines():
        match = PINNED.match(line)
        if match:
            found.append(Package(match[1], match[2], ()))
        elif found and (hashed := HASH.search(line)):
            last = found[-1]
            found[-1] = Package(last.name, last.version, (*last.hashes, hashed[1]))
    return found


def described(package: Package) -> Package:
    try:
        found = distribution(package.name)
    except PackageNotFoundError:
        return package
    return Package(package.name, package.version, package.hashes, found.version, licence_of(found))


def licence_of(found: Distribution) -> str:
    """Return the licence that a package states: as an expression, a classifier or text, or else heading its file."""
    told = found.metadata
    classifiers = [line.split(" :: ")[-1] for line in told.get_all("Classifier", []) if line.startswith("License ::")]
    stated = told.get("License-Expression") or "; ".join(classifiers) or (told.get("License") or "").split("\n")[0]
    return stated or "; ".join(heading_of(found, name) for name in told.get_all("License-File", []))


def heading_of(found: Distribution, name: str) -> str:
    """Return the first line of a licence file that has text; the file may lie beside the metadata or in a folder."""
    for place in (f"licenses/{name}", name):
        lines = (found.read_text(place) or "").splitlines()
        for line in lines:
            if line.strip():
                return line.strip()
    return ""


def faults_of(package: Package) -> list[str]:
    if not package.hashes:
        return [f"{package.name} is pinned without a hash"]
    if not package.installed:
        return []  # for another system or another Python
    faults = []
    if package.installed != package.version:
        faults.append(f"{package.name} is pinned at {package.version}, but {package.installed} is installed")
    if not ALLOWED.search(package.licence):
        faults.append(f"{package.name} comes under “{package.licence or 'no licence that it states'}”")
    return faults


def bill(packages: list[Package]) -> dict[str, object]:
    components = [
        {
            "type": "library",
            "name": one.name,
            "version": one.version,
            "purl": f"pkg:pypi/{one.name.lower()}@{one.version}",
            "licenses": [{"license": {"name": one.licence}}] if one.licence else [],
            "hashes": [{"alg": "SHA-256", "content": each} for each in one.hashes],
        }
        for one in packages
    ]
    return {"bomFormat": "CycloneDX", "specVersion": "1.6", "version": 1, "components": components}


def main() -> int:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--lock", type=pathlib.Path, default=ROOT / "requirements.lock")
    options.add_argument("--licences", action="store_true", help="print names and licences, not the whole bill")
    asked = options.parse_args()
    packages = [described(one) for one in pinned(asked.lock)]
    if asked.licences:
        for one in packages:
            print(f"{one.name} {one.version}: {one.licence or 'not installed here'}")
    else:
        print(json.dumps(bill(packages), indent=1, ensure_ascii=False))
    faults = [fault for one in packages for fault in faults_of(one)]
    for fault in faults:
        print(fault, file=sys.stderr)
    return 1 if faults or not packages else 0


if __name__ == "__main__":
    sys.exit(main())
