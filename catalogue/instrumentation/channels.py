"""Reads how many channels electronics use: ``8-channel``, ``4.1 or 8.1 channel``, ``8ch``, ``quadraphonic``."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.phrases import token_at
from catalogue.instrumentation.tokens import Nodes, Token
from catalogue.instrumentation.vocabulary import key_of

Found = tuple[list[Draft], int, bool]
CHANNEL = {
    "channel",
    "channels",
    "ch",
    "kanal",
    "kanale",
    "canaux",
    "canali",
    "canales",
    "chn",
    "canal",
    "surround",
    "kanalig",
    "kanalige",
}
LAYOUTS = {"stereo": "2", "quadraphonic": "4", "quadrophonic": "4", "octophonic": "8", "stereophonic": "2", "mono": "1"}


def channels_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``8-channel``, ``4.1 or 8.1 channel``, ``8ch``, ``quadraphonic``."""
    token = token_at(nodes, at)
    if token is not None and token.lower in LAYOUTS:
        forces.channels = LAYOUTS[token.lower]
        return [], at + 1, True
    end = at
    while end < len(nodes) and end < at + 9:
        node = nodes[end]
        if isinstance(node, Token) and end > at and is_channel(node):
            number = forces.written(nodes[at].start, nodes[end - 1].end).rstrip("- ")
            forces.channels = number
            return [], end + 1, True
        if node.kind != "number" and not node.is_mark(".-") and not node.is_word("or", "oder", "ou", "o"):
            return None
        end += 1
    return None


def is_channel(token: Token) -> bool:
    """Whether the word counts channels; a short one has to be written to its number, for ``3 ch`` may be choirs."""
    return token.kind == "word" and key_of(token.text) in CHANNEL and not (token.spaced and len(token.text) < 4)
