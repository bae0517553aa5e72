"""``bench``: how quick the house is, each figure beside a bound in the same run."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import nullcontext
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import CommandParser
from django.db import connection

from catalogue.benches.measuring import SECONDS, Bench, Figure, Unmeasurable, benches, benches_by_heading, measure
from catalogue.benches.scratch import scratch_database
from catalogue.benches.table import TITLE, amount_text, growth, renewed, stale, time_text
from catalogue.management.base import ReadingCommand, UnusableInput

PAGE = Path(settings.ROOT) / "FIGURES.md"
PAGES = {"sqlite": (PAGE, TITLE), "postgresql": (PAGE.with_stem("FIGURES-postgresql"), f"{TITLE} on PostgreSQL")}
"""Where figures are written by the database on which they were measured, and what the page is called."""
PATIENCE = 60.0
LARGEST = 1_000_000


class Command(ReadingCommand):
    help = (
        "Measure what the house does beside stated bounds, by turns in one run, at growing sizes. "
        "No catalogue is touched: what needs a database gets one of its own."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--json", action="store_true", help="print the figures as JSON")
        parser.add_argument("--only", metavar="NAME", help="only what has this in its name")
        parser.add_argument("--largest", type=int, metavar="SIZE", default=LARGEST, help="leave out sizes above this")
        parser.add_argument(
            "--patience",
            type=float,
            metavar="SECONDS",
            default=PATIENCE,
            help=f"leave out sizes that would take longer for one time (usual: {PATIENCE:g})",
        )
        parser.add_argument(
            "--seconds", type=float, default=SECONDS, help=f"how long each size is repeated (usual: {SECONDS:g})"
        )
        parser.add_argument(
            "--write",
            action="store_true",
            help=f"write the figures into {PAGE.name}, those of PostgreSQL into a page beside it",
        )

    def handle(self, *arguments: Any, **options: Any) -> None:
        chosen = {
            heading: [bench for bench in known if (options["only"] or "") in bench.name]
            for heading, known in benches_by_heading().items()
        }
        if not any(chosen.values()):
            names = "; ".join(bench.name for bench in benches())
            raise UnusableInput(f"Nothing measured has “{options['only']}” in its name. There is: {names}.")
        path, title = PAGES[connection.vendor]
        gone = stale(read(path))
        figures: list[Figure] = []
        for together in chosen.values():
            figures += self.measured(together, options)
            if options["write"]:
                path.write_text(renewed(read(path), figures, title=title), encoding="utf-8")
        for row in gone:
            told = "was taken out" if options["write"] else "goes with the next --write"
            self.stderr.write(f"{path.name} holds “{row}”, which is no longer measured; it {told}.", str)
        if options["json"]:
            self.print_json([as_json(figure) for figure in figures])

    def measured(self, together: Iterable[Bench], options: dict[str, Any]) -> list[Figure]:
        """Measure what stands under one heading, in a database of its own: a backup there is not one of a million."""
        figures: list[Figure] = []
        with scratch_database() if any(bench.stored for bench in together) else nullcontext():
            for bench in together:
                figures += self.grown(bench, options)
        return figures

    def grown(self, bench: Bench, options: dict[str, Any]) -> list[Figure]:
        """Measure the sizes of a bench, the smallest first, as far as the patience goes."""
        figures: list[Figure] = []
        tell = self.stderr.write if options["json"] else self.stdout.write
        for size in (size for size in bench.sizes if size <= options["largest"]):
            expected = expected_seconds(figures, size)
            if expected > options["patience"]:
                tell(f"{bench.name}, {size:,}: left out, for one time would take about {time_text(expected)}", str)
                break
            try:
                figures.append(measure(bench, size, seconds=options["seconds"]))
            except Unmeasurable as fault:
                tell(f"{bench.name}: left out. {fault.reason}", str)
                break
            tell(as_line(*figures[-2:][::-1]), str)
        return figures


def read(path: Path) -> str:
    return path.read_text(encoding="utf-8") if path.exists() else ""


def expected_seconds(figures: list[Figure], size: int) -> float:
    """Return how long a size would take once, if time grew as the size does."""
    if not figures:
        return 0.0
    last = figures[-1]
    return last.seconds_of_a_turn * size / last.size


def as_line(figure: Figure, smaller: Figure | None = None) -> str:
    grown = growth(figure, smaller)
    return (
        f"{figure.name}, {figure.size:,}: {amount_text(figure.amount, figure.unit)}, {figure.ratio:.2f} × "
        f"{amount_text(figure.bound_amount, figure.unit)} ({figure.bound}){grown and '; grew ' + grown}"
    )


def as_json(figure: Figure) -> dict[str, Any]:
    return {
        "name": figure.name,
        "size": figure.size,
        figure.unit.value: figure.amount,
        "bound": figure.bound,
        f"bound_{figure.unit}": figure.bound_amount,
        "ratio": round(figure.ratio, 3),
    }
