"""The figures as a table in Markdown, which the repository keeps: what a run has not measured stays as it was."""

from __future__ import annotations

from collections.abc import Iterable

from catalogue.benches.measuring import Figure

HEAD = """# How quick it is

Each row is measured beside a bound in one run on one machine, by turns; the times are medians. The ratio is what to
look at, and how it grows with the size: times are another machine's. `python3 manage.py bench --write` writes this page
anew, with `--only NAME` those rows only.

| what | size | time | beside | its time | ratio | aimed at |
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


def renewed(page: str, figures: Iterable[Figure], order: Iterable[str]) -> str:
    """Return the page with these figures in the place of older ones.

    ``order`` names everything that is measured, in its order; rows of what is no longer measured go.
    """
    rows = rows_in(page)
    rows |= {(figure.name, f"{figure.size:,}"): row_of(figure) for figure in figures}
    places = {name: place for place, name in enumerate(order)}
    kept = [key for key in rows if key[0] in places]
    kept.sort(key=lambda key: (places[key[0]], int(key[1].replace(",", ""))))
    return HEAD + "".join(f"{rows[key]}\n" for key in kept)


def row_of(figure: Figure) -> str:
    aim = f"{figure.aim:g}" if figure.aim else ""
    cells = (
        figure.name, f"{figure.size:,}", time_text(figure.seconds), figure.bound, time_text(figure.bound_seconds),
        f"{figure.ratio:.2f}", aim,
    )  # fmt: skip
    return f"| {' | '.join(cells)} |"


def time_text(seconds: float) -> str:
    """
    >>> time_text(0.000_034_2), time_text(0.034_2), time_text(3.42)
    ('34 µs', '34 ms', '3.4 s')
    """
    for unit, part in (("s", 1.0), ("ms", 1e-3), ("µs", 1e-6)):
        if seconds >= part:
            return f"{seconds / part:.{0 if seconds >= 10 * part else 1}f} {unit}"
    return f"{seconds * 1e9:.0f} ns"
