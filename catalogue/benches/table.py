"""The figures as tables in Markdown, which the repository keeps: what a run has not measured stays as it was."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby

from catalogue.benches.measuring import Bench, Figure, Heading, Unit, benches_by_heading

TITLE = "# How quick it is"
HEAD = """
Each row is measured beside a bound in one run on one machine, by turns; the times are medians. The ratio says how many
times worse ours is. It is what to look at, and how ours grows from one size to the next: times are another machine's.
What only reckons (readings, premieres, calls, a start) is timed by the processor's clock, the rest by the clock on the
wall. `python3 manage.py bench --write` writes this page anew, with `--only NAME` those rows only; run on PostgreSQL, it
writes `FIGURES-postgresql.md`.
"""
COLUMNS = """| what | size | took | the bound took | ratio | aimed at | grew |
| --- | ---: | ---: | ---: | ---: | ---: | ---: |
"""
PLACES = ("what", "size", "took", "bound", "ratio", "aim", "grew")
Key = tuple[str, str]  # what, and its size as the page says it
Rows = dict[Key, str]
Known = Mapping[Heading, Iterable[Bench]]


def rows_in(page: str) -> Rows:
    """Return the rows of a page by what and size, in their order."""
    found: Rows = {}
    for line in page.splitlines():
        cells = cells_of(line)
        if line.startswith("| ") and len(cells) == len(PLACES) and cells[1][0].isdigit():
            found[(cells[0], cells[1])] = line
    return found


def cells_of(row: str) -> list[str]:
    return [cell.strip() for cell in row.removeprefix("|").removesuffix("|").split("|")]


def stale(page: str, known: Known | None = None) -> list[str]:
    """Return the rows of a page that nothing measures any longer, in words."""
    measured = set(keys_of(known or benches_by_heading()))
    return [f"{name}, {size}" for name, size in rows_in(page) if (name, size) not in measured]


def keys_of(known: Known) -> list[Key]:
    """Return everything that is measured, in the order of the page."""
    return [key for benches in known.values() for bench in benches for key in keys(bench)]


def keys(bench: Bench) -> list[Key]:
    return [(bench.name, f"{size:,}") for size in bench.sizes]


def renewed(page: str, figures: Iterable[Figure], known: Known | None = None, *, title: str = TITLE) -> str:
    """Return the page with these figures in the place of older ones, in the order of what is ``known``.

    Rows of what is no longer measured, or no longer at that size, go.
    """
    known = known or benches_by_heading()
    found = rows_in(page) | new_rows(figures)
    rows = {key: found[key] for key in keys_of(known) if key in found}
    sections = "".join(section(heading, benches, rows) for heading, benches in known.items())
    return f"{title}\n{HEAD}{past_their_aims(rows)}{sections}"


def new_rows(figures: Iterable[Figure]) -> Rows:
    """Write figures as rows, each beside the one before where that is the same at a smaller size."""
    rows: Rows = {}
    before: Figure | None = None
    for figure in figures:
        smaller = before if before and before.name == figure.name else None
        rows[(figure.name, f"{figure.size:,}")] = row_of(figure, smaller)
        before = figure
    return rows


def past_their_aims(rows: Rows) -> str:
    """Say which rows do not keep what is aimed at, so that nobody has to look for them."""
    past = []
    for row in rows.values():
        told = dict(zip(PLACES, cells_of(row), strict=True))
        if told["aim"] and float(told["ratio"]) > float(told["aim"]):
            past.append(f"- {told['what']}, {told['size']}: {told['ratio']} (aimed at {told['aim']})\n")
    return f"\n## Past what is aimed at\n\n{''.join(past)}" if past else "\nEvery row keeps what is aimed at.\n"


def section(heading: Heading, benches: Iterable[Bench], rows: Rows) -> str:
    """Write the tables of a heading, one for all that stand together beside the same bound."""
    tables = "".join(tables_of(benches, rows))
    return f"\n## {heading}\n{tables}" if tables else ""


def tables_of(benches: Iterable[Bench], rows: Rows) -> Iterator[str]:
    for bound, together in groupby(benches, key=lambda bench: bench.bound):
        there = [rows[key] for bench in together for key in keys(bench) if key in rows]
        if there:
            yield f"\nBeside: {bound}.\n\n{COLUMNS}" + "".join(f"{row}\n" for row in there)


def row_of(figure: Figure, smaller: Figure | None = None) -> str:
    aim = f"{figure.aim:g}" if figure.aim else ""
    cells = (
        figure.name, f"{figure.size:,}", amount_text(figure.amount, figure.unit),
        amount_text(figure.bound_amount, figure.unit), f"{figure.ratio:.2f}", aim, growth(figure, smaller),
    )  # fmt: skip
    return f"| {' | '.join(cells)} |"


def growth(figure: Figure, smaller: Figure | None) -> str:
    """Say how many times more it takes than at the smaller size before, and how many times larger that is."""
    if smaller is None or not smaller.amount:
        return ""
    return f"{figure.amount / smaller.amount:.2g}× for {figure.size / smaller.size:.3g}×"


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
