"""Which players a call offers, and whether as a maximum, exactly, or as a body to choose from.

What a call says of the piece that a resident or a winner is to write later is no limit on the works that are sent.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from catalogue.rules.calls.choir_lists import choir_of
from catalogue.rules.calls.forces_rules import binds, limits_of, players_in, rule_of
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.player_lists import Run, runs_in
from catalogue.rules.calls.spoken_doublings import numbered_in, with_spoken_doublings, without_numbered
from catalogue.rules.calls.terms import CallKind, ForcesRule, Found
from catalogue.rules.calls.words import has, plain

LATER = (
    r"workshop with|you will write|will write|new piece|will be written|winner will|"
    r"to be commissioned|commissioned work|not "
    r"part of the application|residents? will"
)
FREE_KINDS = (CallKind.RESIDENCY, CallKind.DEGREE, CallKind.GRANT)
PAID = re.compile(r"(?:fee|prize|award|grant|paid|worth|honorar\w*|preisgeld)\b[^.;]{0,20}[£€$]\s?\d")
"""What is paid: ``a fee of £3,000 and a performance`` names no three flutes."""


def read_forces(passages: Sequence[Passage], text: str, kind: CallKind) -> Iterator[Found]:
    """Yield the forces of a call as one value with the words they came from."""
    free = kind in FREE_KINDS
    usable = [one for one in passages if not has(LATER, one.plain) and not PAID.search(one.plain)]
    choir = choir_of(usable)
    runs = [] if free else list(runs_in([without_numbered(one) for one in usable]))
    chosen = choir or chosen_runs(runs)
    limits = limits_of(usable, free)
    if not chosen and limits.players_max is None and limits.players_min is None:
        return
    texts = tuple(dict.fromkeys(with_spoken_doublings(one.text, usable) for one in chosen))
    label = " ".join(one.first.label for one in chosen)
    forces = replace(limits, texts=texts, rule=rule_of(usable, texts, bool(choir), plain(label)))
    if not chosen:
        forces = replace(forces, rule=ForcesRule.ANY)
    for run in chosen:
        yield Found("forces", forces, run.first.start, run.last.end)
        if run.doubt:
            yield Found("contradictions", run.doubt, run.first.start, run.last.end)
    for passage in usable:
        if binds(passage) or (chosen and next(numbered_in(passage.text), None)):
            yield Found("forces", forces, passage.start, passage.end)
    if not chosen:
        where = next(one for one in usable if players_in(one.plain) != (None, None))
        yield Found("forces", forces, where.start, where.end)


def chosen_runs(runs: list[Run]) -> list[Run]:
    """Return the run that is the limit, or the alternatives that stand side by side."""
    if not runs:
        return []
    best = max(runs, key=lambda run: (run.rank, run.count, run.players, -run.first.start))
    if best.alternative:
        return [run for run in runs if (run.alternative and (run.count >= 2 or run.rank == best.rank)) or run is best]
    return [run for run in runs if run is best or (run.first is best.first and run.rank == best.rank)]
