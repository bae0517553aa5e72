"""What headings have said of the items that follow them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(slots=True)
class Scope:
    """The role, the group and the family under which a heading puts what follows; ``role_ends`` are marks."""

    role: str = "ensemble"
    group: str | None = None
    optional: bool = False
    heading: str = ""
    unit: str | None = None
    role_ends: str = ""
    choice: str = ""
