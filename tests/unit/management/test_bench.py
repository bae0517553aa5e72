"""The command that measures."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import call_command

from catalogue.benches.measuring import Figure, benches
from catalogue.management.base import UnusableInput
from catalogue.management.commands.bench import expected_seconds


def run(*arguments: str) -> tuple[str, str]:
    out, err = StringIO(), StringIO()
    call_command("bench", *arguments, stdout=out, stderr=err)
    return out.getvalue(), err.getvalue()


def test_rows_have_the_ratio_of_both_times() -> None:
    out, _err = run("--json", "--only", "premieres of one work", "--largest", "100", "--seconds", "0")

    (row,) = json.loads(out)

    assert (row["name"], row["size"]) == ("reckon premieres of one work", 100)
    assert row["ratio"] == round(row["seconds"] / row["bound_seconds"], 3)
    assert set(row) == {"name", "size", "seconds", "bound", "bound_seconds", "ratio"}


def test_what_takes_longer_than_the_patience_is_left_out_and_said() -> None:
    out, err = run("--json", "--only", "premieres of one work", "--seconds", "0", "--patience", "0.0001")

    assert [row["size"] for row in json.loads(out)] == [100]
    assert "1,000: left out" in err


def test_time_is_expected_to_grow_as_the_size_does() -> None:
    assert expected_seconds([Figure("a", 10, 2.0, "b", 1.0)], 100) == 30


def test_a_name_that_nothing_has_is_refused_with_the_names_there_are() -> None:
    with pytest.raises(UnusableInput, match=r"Nothing measured has “no such”.*reckon premieres"):
        run("--only", "no such")


@pytest.mark.slow
def test_crowds_are_measured_in_a_database_of_their_own(tmp_path: Path) -> None:
    command = [sys.executable, "manage.py", "bench", "--json", "--only", "at once", "--largest", "20", "--seconds", "0"]

    run = subprocess.run(
        command,
        cwd=settings.ROOT,
        env=os.environ | {"LEDGERLINE_DATA": str(tmp_path)},
        capture_output=True,
        text=True,
        check=True,
    )

    rows = json.loads(run.stdout)
    crowded = {bench.name for bench in benches() if "at once" in bench.name and min(bench.sizes) <= 20}
    assert {row["name"] for row in rows} == crowded
    assert all(row["seconds"] > 0 < row["bound_seconds"] for row in rows)
