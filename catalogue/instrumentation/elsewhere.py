"""Some players of a section off stage: ``4 horns, 2 of them offstage``, ``4 Hörner (2 davon hinter der Szene)``."""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.key_tails import keyed_slug
from catalogue.instrumentation.lexicon import ENSEMBLE, LEAST, OFFSTAGE, OPTIONAL, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import beginnings, count_at, is_key, keys_end, limited_count, phrase_end
from catalogue.instrumentation.qualities import qualities_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.senses import NOTED
from catalogue.instrumentation.tokens import Nodes

OF_WHICH = keyed("of_which of_whom davon darunter dont di_cui de_los_cuales de_las_cuales including incl")
OF_THEM = keyed(
    "of_them of_these of_which of_whom davon dont d'entre_eux d'entre_elles di_essi di_esse dei_quali delle_quali "
    "de_ellos de_ellas are from placed"
)


@remembered
def may_be_elsewhere(nodes: Nodes) -> bool:
    """Whether the row holds a word for off stage at all."""
    leading = beginnings(OFFSTAGE)
    return any(node.key in leading and phrase_end(nodes, at, OFFSTAGE) is not None for at, node in enumerate(nodes))


def elsewhere_at(nodes: Nodes, at: int) -> tuple[int, int] | None:
    """Return how many of the players before are off stage and where that ends; ``None`` where it says otherwise."""
    of_which = phrase_end(nodes, at, OF_WHICH)
    start = at if of_which is None else of_which
    counted = count_at(nodes, start)
    if counted is None or counted.least != counted.most:
        return None
    end = counted.end
    while (after := phrase_end(nodes, end, OF_THEM)) is not None:
        end = after
    stage = phrase_end(nodes, end, OFFSTAGE)
    if stage is None or (stage < len(nodes) and nodes[stage].kind != "mark"):
        return None
    return counted.most, stage


@remembered
def may_be_left_out(nodes: Nodes) -> bool:
    """Whether the row holds a word for players who are optional."""
    leading = beginnings(OPTIONAL)
    return any(node.key in leading and phrase_end(nodes, at, OPTIONAL) is not None for at, node in enumerate(nodes))


def leave_some_out(nodes: Nodes, at: int, last: Draft) -> int | None:
    """Read ``3 horns, 2 of which optional`` and return where that ends; ``None`` where it is not said."""
    counted = count_at(nodes, at) if may_be_left_out(nodes) else None
    end = phrase_end(nodes, counted.end, OF_THEM) if counted is not None else None
    optional = phrase_end(nodes, end, OPTIONAL) if end is not None else None
    if counted is None or optional is None or last.count is None or not 0 < counted.most < last.most:
        return None
    last.counted(max(last.least - counted.most, 0), last.most)
    return optional


def some_told(nodes: Nodes, at: int, last: Draft, forces: Forces) -> int | None:
    """Keep ``at least 4 with a low string`` after a number of players as a remark on them, and return its end."""
    counted = limited_count(nodes, at) if last.count is not None and phrase_end(nodes, at, LEAST) is not None else None
    after = qualities_at(nodes, counted.end)[1] if counted is not None else len(nodes)
    if counted is None or counted.least > last.most or after >= len(nodes) or nodes[after].kind != "word":
        return None
    if name_at(nodes, after) is not None or is_key(nodes[after], ENSEMBLE):
        return None
    end = next((one for one in range(after, len(nodes)) if nodes[one].is_mark(",;\n")), len(nodes))
    written = forces.written(nodes[at].start, nodes[end - 1].end)
    last.notes.append(written)
    message = f"“{written}” was kept as a remark on what stands before it."
    forces.remark("remark", message, nodes[at].start, nodes[end - 1].end)
    return end


def keyed_part(nodes: Nodes, at: int, last: Draft, forces: Forces) -> int | None:
    """Read the key of a further part or of some players, ``clarinet 1 in A, 2 in B``, ``4 horns: 2 in F, 2 in C``."""
    counted = count_at(nodes, at)
    end = keys_end(nodes, counted.end) if counted is not None and last.family in WINDS else None
    if counted is None or end is None or (end < len(nodes) and nodes[end].kind not in ("mark", "bracket")):
        return None
    said = forces.written(nodes[counted.end].start, nodes[end - 1].end)
    if last.number_after and counted.most == max(last.number_after) + 1:
        last.number_after = (*last.number_after, counted.most)
        last.notes.append(said)
        return end
    added = any(note.startswith(said.split()[0]) for note in last.notes)
    if last.count is None or (counted.most > last.most and not added):
        return None
    other = keyed_slug(last, nodes[counted.end + 1 : end])
    if other not in (None, *NOTED, last.slug):
        last.counted(last.least - (0 if added else counted.most), last.most - (0 if added else counted.most))
        forces.drafts.append(Draft(other or "", nodes[at].start, nodes[end - 1].end, ",", count=counted))
        return end
    if added:
        last.counted(last.least + counted.most, last.most + counted.most)
    last.notes.append(f"{counted.most} {said}")
    return end


def put_elsewhere(nodes: Nodes, at: int, last: Draft | None, forces: Forces) -> int | None:
    """Put some players of the item before off stage, as a line of their own, and return where that is said."""
    keyed = keyed_part(nodes, at, last, forces) if last is not None and nodes[at].kind == "number" else None
    if keyed is not None:
        return keyed
    optional = leave_some_out(nodes, at, last) if last is not None else None
    told = some_told(nodes, at, last, forces) if last is not None and optional is None else None
    if optional is not None or told is not None:
        return optional if optional is not None else told
    found = elsewhere_at(nodes, at) if last is not None and may_be_elsewhere(nodes) else None
    away = part_of(last, found[0]) if last is not None and found is not None else None
    if found is None or away is None:
        return None
    forces.drafts.append(away)
    return found[1]


def part_of(draft: Draft, number: int) -> Draft | None:
    """Take so many players out of a draft and return them as one that is off stage; ``None`` where all would go."""
    if draft.count is None or draft.least != draft.most or not 0 < number < draft.most or draft.role != "ensemble":
        return None
    draft.counted(draft.most - number)
    away = replace(draft, role="offstage", brackets=[], clauses=[], chairs=[], notes=list(draft.notes))
    away.counted(number)
    return away
