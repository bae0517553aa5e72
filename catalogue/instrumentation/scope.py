"""What headings have said of the items that follow them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(slots=True)
class Scope:
    """The role, the group and the family under which a heading puts what follows; ``role_ends`` are marks.

    ``by_line`` says that the heading stands on a line of its own, as on the page of a score, where each line is a part.
    """

    role: str = "ensemble"
    group: str | None = None
    optional: bool = False
    heading: str = ""
    unit: str | None = None
    role_ends: str = ""
    choice: str = ""
    by_line: bool = False
