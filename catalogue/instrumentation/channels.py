"""Reads how many channels electronics use: ``8-channel``, ``4.1 or 8.1 channel``, ``8ch``, ``quadraphonic``."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import token_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of, key_of

Found = tuple[list[Draft], int, bool]
LOUDSPEAKERS = ("loudspeaker", "loudspeakers", "lautsprecher", "hautparleurs", "parleurs", "altoparlanti", "altavoces")
CHANNEL = {
    "channel",
    "channels",
    "ch",
    "kanal",
    "kanale",
    "canaux",
    "pistes",
    "piste",
    "pistas",
    "canali",
    "canales",
    "chn",
    "canal",
    "surround",
    "kanalig",
    "kanalige",
    "kanaliges",
    "kanaliger",
    "kanaligem",
    "kanaligen",
    "chan",
    "track",
    "tracks",
    "spur",
    "spuren",
    "spurig",
    "voies",
    *LOUDSPEAKERS,
}
SOUNDING = {"sound", "sounds", "audio", "projection", "diffusion"}
LAYOUTS = {
    "stereo": "2", "stereophonic": "2", "stéréo": "2", "stereofonico": "2", "estéreo": "2", "mono": "1", "quad": "4",
    "quadraphonic": "4", "quadrophonic": "4", "quadrophon": "4", "quadriphonique": "4", "quadrifonico": "4",
    "cuadrafónico": "4", "cuadrafónica": "4", "octophonic": "8", "oktophon": "8", "octophonique": "8",
    "ottofonico": "8", "octofónico": "8", "octofónica": "8",
}  # fmt: skip


def channels_at(nodes: Nodes, at: int, forces: Forces, *, of_electronics: bool = False) -> Found | None:
    """Read ``8-channel``, ``4.1 or 8.1 channel``, ``8ch``, ``quadraphonic``; beside electronics ``8 ch`` too."""
    token = token_at(nodes, at)
    if token is not None and token.lower in LAYOUTS:
        forces.channels = LAYOUTS[token.lower]
        named = of_electronics or names_electronics(nodes, forces)
        return ([], at + 1, True) if named else ([sounding(token.start, token.end, forces)], at + 1, False)
    layout = layout_end(nodes, at)
    if layout is not None:
        forces.channels = forces.written(nodes[at].start, nodes[layout - 1].end)
        return [], layout, True
    end = at
    while end < len(nodes) and end < at + 9:
        node = nodes[end]
        if end > at and node.is_word("haut") and end + 2 < len(nodes) and nodes[end + 1].is_mark("-"):
            end, node = end + 2, nodes[end + 2]
        beside = of_electronics or named_electronics(nodes, end + 1)
        if isinstance(node, Token) and end > at and is_channel(node, short=beside):
            number = forces.written(nodes[at].start, nodes[end - 1].end).rstrip("- ")
            forces.channels = number
            if node.key not in LOUDSPEAKERS and end + 1 < len(nodes) and nodes[end + 1].key in SOUNDING:
                named = names_electronics(nodes, forces)
                made = [] if named else [sounding(nodes[at].start, nodes[end + 1].end, forces)]
                return made, end + 2, named
            if node.key in LOUDSPEAKERS and not names_electronics(nodes, forces):
                return [sounding(nodes[at].start, node.end, forces)], end + 1, False
            return [], end + 1, True
        if node.kind != "number" and not node.is_mark(".-") and not node.is_word("or", "oder", "ou", "o"):
            return None
        end += 1
    return None


def names_electronics(nodes: Nodes, forces: Forces) -> bool:
    """Whether electronics are named anywhere in the row, or have been read."""
    if any(draft.family == "electronics" for draft in forces.drafts):
        return True
    found = (name_at(nodes, at) for at in range(len(nodes)))
    return any(name is not None and family_of(name.slugs[0]) == "electronics" for name in found)


def sounding(start: int, end: int, forces: Forces) -> Draft:
    """Return the electronics of loudspeakers that are named alone: what they play is not told."""
    message = f"“{forces.written(start, end)}” was read as electronics; what the loudspeakers play is not named."
    forces.remark("unnamed", message, start, end)
    return Draft("electronics", start, end)


def layout_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of a layout of loudspeakers before electronics, ``5.1 fixed media``, ``7.1.4 electronics``."""
    if at + 3 >= len(nodes) or not nodes[at + 1].is_mark("."):
        return None
    end = pointed_runs(nodes)[at]
    if end == at or not named_electronics(nodes, end + 1) or any(one.spaced for one in nodes[at + 1 : end + 1]):
        return None
    return end + 1


@remembered
def pointed_runs(nodes: Nodes) -> list[int]:
    """Return for each place the last of the numbers that points part from one another there, itself where none is."""
    ends = [*range(len(nodes))]
    for at in range(len(nodes) - 3, -1, -1):
        if nodes[at].kind == nodes[at + 2].kind == "number" and nodes[at + 1].is_mark("."):
            ends[at] = ends[at + 2]
    return ends


def named_electronics(nodes: Nodes, at: int) -> bool:
    """Whether electronics are named here."""
    name = name_at(nodes, at) if at < len(nodes) else None
    return name is not None and family_of(name.slugs[0]) == "electronics"


def is_channel(token: Token, *, short: bool) -> bool:
    """Whether the word counts channels; ``3 ch`` may be choirs: a short word wants its number or electronics beside."""
    known = token.kind == "word" and key_of(token.text) in CHANNEL
    return known and (short or not token.spaced or len(token.text) > 3)


def lists_players(bracket: Bracket, draft: Draft, forces: Forces) -> bool:
    """Whether a bracket lists players: after ``instruments``, or those of an ensemble with electronics."""
    ensemble = any(one.collective in ("ensemble", "players", "any") for one in forces.drafts)
    introduced = (draft.family == "electronics" and ensemble) or introduces_list(draft)
    found = (name_at(bracket.nodes, at) for at in range(len(bracket.nodes))) if introduced else ()
    return sum(one is not None and family_of(one.slugs[0]) != "electronics" for one in found) > 1


def introduces_list(draft: Draft) -> bool:
    """Whether ``instruments`` stands by itself, so that a bracket after it tells which."""
    return draft.slug == "instrument" and draft.plural and draft.count is None and not draft.collective
