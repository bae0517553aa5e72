"""Which works of a catalogue the players of a call can play, and how many chairs have nobody.

The works and calls are invented; the verdicts were made by hand, chair by chair (``fit/verdicts.csv``: the chairs
without a player, nothing where the work can be played). Works with a soloist and calls that ask for exact forces
are left out: what they exclude is not a matter of players. Of several smallest sets any is right, so that their size
is compared and the instruments of the sections.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from catalogue.instrumentation import Instrumentation, read
from catalogue.instrumentation.fit import fit
from catalogue.instrumentation.playing import plain

HERE = Path(__file__).parent / "fit"


def rows(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


WORKS: dict[str, Instrumentation] = {row["title"]: read(row["instrumentation"]) for row in rows("works.csv")}
CALLS = {row["call"]: row for row in rows("calls.csv")}


@pytest.mark.parametrize("row", rows("verdicts.csv"), ids=lambda row: f"{row['call']} {row['work']}")
def test_the_verdict_on_the_players_is_the_careful_persons(row: dict[str, str]) -> None:
    call = CALLS[row["call"]]
    found = fit(
        WORKS[row["work"]],
        read(call["forces"]),
        usual_doublings=call["usual_doublings"] == "yes",
        timpani_among_percussion=call["timpani_among_percussion"] == "yes",
        as_limits=True,
    )
    wanted = row["no_player_for"].split("; ") if row["no_player_for"] else []
    assert found.fits is (not wanted)
    assert sum(one.players or 1 for one in found.missing) == len(wanted)
    assert {plain(one.plays[0]) for one in found.missing} == {main_of(chair) for chair in wanted}


def main_of(chair: str) -> str:
    """Return the slug of a chair's first instrument, ``double-bass`` for *double bass*."""
    return chair.split("/")[0].replace(" ", "-")
