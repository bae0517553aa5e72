"""Notes of a record that an import adds to: what stood in columns that the catalogue does not have."""

from __future__ import annotations

from collections.abc import Iterable


def noted(existing: str, cell: str, remarks: Iterable[str]) -> str:
    """Return the notes after an import: the cell, or else what there was, and each remark that is not there yet.

    >>> noted("Tide tables: p. 4", "", ["source: letter", "Tide tables: p. 4"])
    'Tide tables: p. 4\\nsource: letter'
    """
    base = cell or existing
    lines = base.splitlines()
    added = [line for line in dict.fromkeys(remarks) if line not in lines]
    return "\n".join([base, *added] if base else added)
