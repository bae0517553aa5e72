"""What a text says is not there: ``brass quintet (no tuba)``, ``strings, no basses``, ``wind quintet without horn``.

What is not there is no player and no remark: it is taken out of the body that has it by custom.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import ARTICLES, BODY_OF_STRINGS, WITHOUT, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import is_key, token_at
from catalogue.instrumentation.tokens import Nodes, nodes_of
from catalogue.instrumentation.vocabulary import key_of

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
    """Take ``no basses`` out of the strings that are named with it; of an open orchestra it is kept as a note."""
    for at, draft in enumerate(forces.drafts):
        if not is_denied(draft):
            continue
        denied = [draft.slug, *draft.alternatives, *denied_with(at, forces)]
        for body in forces.drafts:
            if body.slug == "strings":
                body.without += denied
            elif body.slug in BODIES and body.open:
                body.notes.append(forces.written(draft.start, draft.end))
    for body in [one for one in forces.drafts if one.slug == "orchestra" and one.open]:
        without_strings(body, forces)


def without_strings(body: Draft, forces: Forces) -> None:
    """Take the strings that a note denies out of an open orchestra, ``orchestra without strings``."""
    noted = [nodes for note in body.notes if denial_start(nodes := nodes_of(note), 0) is not None]
    names = [name_at(nodes, at) for nodes in noted for at in range(len(nodes))]
    denied = [slug for name in names if name is not None for slug in name.slugs]
    whole = any(is_key(node, BODY_OF_STRINGS) for nodes in noted for node in nodes)
    for strings in [one for one in forces.drafts if one.slug == "strings" and one.start == body.start]:
        strings.without += denied
        if whole:
            forces.drafts.remove(strings)


def is_denied(draft: Draft) -> bool:
    """Whether a draft is a name with *no* before it, which is no player."""
    return draft.count is not None and not draft.most and not draft.figure and draft.name is not None


def denied_with(at: int, forces: Forces) -> list[str]:
    """Return those whom *and* joins to a name that is denied, ``no violins and violas``; they are no players either."""
    found: list[str] = []
    for draft in forces.drafts[at + 1 :]:
        told = draft.count is not None or draft.name is None or bool(draft.brackets)
        if told or draft.separator != "&" or key_of(forces.written(draft.start, draft.end).split()[0]) in ARTICLES:
            break
        found.append(draft.slug)
        draft.counted(0)
        draft.open = False
        message = f"“{forces.written(draft.start, draft.end)}” was read as denied with the name before it."
        forces.remark("denied", message, draft.start, draft.end, "a player who is there")
    return found
