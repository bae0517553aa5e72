"""The figures as a table in Markdown, which the repository keeps: what a run has not measured stays as it was."""

from __future__ import annotations

from collections.abc import Iterable

from catalogue.benches.measuring import Bench, Figure, Unit

HEAD = """# How quick it is

Each row is measured beside a bound in one run on one machine, by turns; the times are medians. The ratio says how many
times worse ours is. It is what to look at, and how it grows with the size: times are another machine's. What only
reckons (readings, premieres, calls, a start) is timed by the processor's clock, the rest by the clock on the wall.
`python3 manage.py bench --write` writes this page anew, with `--only NAME` those rows only.

| what | size | took | beside | it took | ratio | aimed at |
| --- | ---: | ---: | --- | ---: | ---: | ---: |
"""
Rows = dict[tuple[str, str], str]


def rows_in(page: str) -> Rows:
    """Return the rows of a page by what and size, in their order."""
    found: Rows = {}
    for line in page.splitlines():
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if line.startswith("| ") and len(cells) == 7 and cells[1][0].isdigit():
            found[(cells[0], cells[1])] = line
    return found


def places(known: Iterable[Bench]) -> dict[tuple[str, str], int]:
    """Return everything that is measured, by what and size as the page says them, with its place on the page."""
    keys = [(bench.name, f"{size:,}") for bench in known for size in bench.sizes]
    return {key: place for place, key in enumerate(keys)}


def stale(page: str, known: Iterable[Bench]) -> list[str]:
    """Return the rows of a page that nothing measures any longer, in words."""
    measured = places(known)
    return [f"{name}, {size}" for name, size in rows_in(page) if (name, size) not in measured]


def renewed(page: str, figures: Iterable[Figure], known: Iterable[Bench]) -> str:
    """Return the page with these figures in the place of older ones, in the order of what is ``known``.

    Rows of what is no longer measured, or no longer at that size, go.
    """
    rows, place = rows_in(page), places(known)
    rows |= {(figure.name, f"{figure.size:,}"): row_of(figure) for figure in figures}
    kept = sorted((key for key in rows if key in place), key=place.__getitem__)
    return HEAD + "".join(f"{rows[key]}\n" for key in kept)


def row_of(figure: Figure) -> str:
    aim = f"{figure.aim:g}" if figure.aim else ""
    cells = (
        figure.name, f"{figure.size:,}", amount_text(figure.amount, figure.unit), figure.bound,
        amount_text(figure.bound_amount, figure.unit), f"{figure.ratio:.2f}", aim,
    )  # fmt: skip
    return f"| {' | '.join(cells)} |"


def amount_text(amount: float, unit: Unit) -> str:
    """
    >>> [amount_text(12.34, unit) for unit in Unit]
    ['12 s', '12 MB', '12 requests/s']
    """
    sign = {Unit.MEGABYTES: "MB", Unit.REQUESTS: "requests/s"}.get(unit)
    return f"{amount:,.{0 if amount >= 10 else 1}f} {sign}" if sign else time_text(amount)


def time_text(seconds: float) -> str:
    """
    >>> time_text(0.000_034_2), time_text(0.034_2), time_text(3.42)
    ('34 µs', '34 ms', '3.4 s')
    """
    for unit, part in (("s", 1.0), ("ms", 1e-3), ("µs", 1e-6)):
        if seconds >= part:
            return f"{seconds / part:.{0 if seconds >= 10 * part else 1}f} {unit}"
    return f"{seconds * 1e9:.0f} ns"
