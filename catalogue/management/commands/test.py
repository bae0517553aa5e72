"""``test``: runs the checks of the house with pytest; every option is pytest's own."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from argparse import ArgumentParser
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand


class Command(BaseCommand):
    help = "Run the tests. Options after the word are pytest's own."
    requires_system_checks: list[str] = []

    def run_from_argv(self, argv: list[str]) -> None:
        sys.exit(run_pytest(argv[2:]))

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("options", nargs="*")

    def handle(self, *arguments: Any, **options: Any) -> None:
        sys.exit(run_pytest(options["options"]))


def run_pytest(options: list[str]) -> int:
    """Run pytest with a data folder of its own, so that no check ever touches a person's catalogue."""
    with tempfile.TemporaryDirectory(prefix="ledgerline-") as folder:
        environment = {**os.environ, "LEDGERLINE_DATA": folder}
        command = [sys.executable, "-m", "pytest", *options]
        return subprocess.run(command, env=environment, cwd=settings.ROOT, check=False).returncode  # noqa: S603 - our own interpreter
