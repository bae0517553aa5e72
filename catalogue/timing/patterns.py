"""Regular expressions that are compiled when they are first asked.

Those of dates and durations hold the words of five languages and take long to compile; records bring these modules
along for their columns, and a command that reads no date has no use for them.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cached_property

Ask = Callable[..., re.Match[str] | None]


class Pattern:
    """What ``re.compile`` makes of a text, as far as it is asked here."""

    def __init__(self, text: str, flags: int = 0) -> None:
        self.text, self.flags = text, flags

    @cached_property
    def compiled(self) -> re.Pattern[str]:
        return re.compile(self.text, self.flags)

    @cached_property
    def match(self) -> Ask:
        return self.compiled.match

    @cached_property
    def fullmatch(self) -> Ask:
        return self.compiled.fullmatch

    @cached_property
    def search(self) -> Ask:
        return self.compiled.search
