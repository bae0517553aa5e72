"""Several things in a sentence, as English joins them."""

from __future__ import annotations

from collections.abc import Sequence


def listed(items: Sequence[str], last: str = "and", *, most: int | None = None) -> str:
    """Return things as a sentence lists them; of more than ``most`` the first, and how many more there are.

    >>> listed(["2"]), listed(["2", "6"]), listed(["2", "6", "8"], "or"), listed([])
    ('2', '2 and 6', '2, 6 or 8', '')
    >>> listed(["2", "6", "8", "9"], most=2)
    '2, 6 and 2 more'
    """
    shown = list(items)
    if most is not None and len(shown) > most:
        shown[most:] = [f"{len(shown) - most} more"]
        last = "and"
    *first, end = shown or [""]
    return f"{', '.join(first)} {last} {end}" if first else end
