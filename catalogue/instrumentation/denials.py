"""What a text says is not there: ``brass quintet (no tuba)``, ``strings, no basses``, ``wind quintet without horn``.

What is not there is no player and no remark: it is taken out of the body that has it by custom.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import WITHOUT, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import is_key, token_at
from catalogue.instrumentation.tokens import Nodes

DENYING = WITHOUT | keyed("minus except excluding excl außer sauf eccetto excepto salvo")
BUT = keyed("but aber mais ma pero")
BODIES = ("orchestra", "wind-band", "brass-band", "big-band")


def denial_start(nodes: Nodes, at: int) -> int | None:
    """Return where the names begin after *no*, *without*, *but no*; ``None`` where nothing is denied."""
    at += is_key(token_at(nodes, at), BUT)
    return at + 1 if is_key(token_at(nodes, at), DENYING) else None


def leave_out(member: Draft, nodes: Nodes, forces: Forces) -> bool:
    """Take what the nodes deny out of the body that a draft belongs to; false where it has none of it."""
    start = denial_start(nodes, 0)
    body = [one for one in forces.drafts if (one.start, one.end) == (member.start, member.end)]
    if start is None or len(body) < 2:
        return False
    found = (name_at(nodes, at) for at in range(start, len(nodes)))
    slugs = {slug for name in found if name is not None for slug in name.slugs}
    denied = [one for one in body if one.slug in slugs]
    for one in denied:
        one.counted(0)
        one.open = False
    return bool(denied)


def from_bodies(forces: Forces) -> None:
    """Take ``no basses`` out of the strings that are named before it; of an open orchestra it is kept as a note."""
    for at, draft in enumerate(forces.drafts):
        if draft.count is None or draft.most or draft.figure or draft.name is None:
            continue
        for body in forces.drafts[:at]:
            if body.slug == "strings":
                body.without.append(draft.slug)
            elif body.slug in BODIES and body.open:
                body.notes.append(forces.written(draft.start, draft.end))
