"""Words that stand in the lists of most setups: a rider prints them in its own language, everything else as typed.

They are names of places, feeds and stands that technicians read as signs (common practice); whatever says more than
one of them, parted by commas, is the composer's own wording.
"""

from __future__ import annotations

from catalogue.documents.labels import Labels
from catalogue.documents.model import Text, value

USUAL = (
    "hall",
    "stage",
    "ring",
    "in-ear",
    "recording",
    "monitor",
    "talkback",
    "click",
    "conductor",
    "the conductor",
    "player",
    "the player",
    "players",
    "the players",
    "front left",
    "front right",
    "side left",
    "side right",
    "rear left",
    "rear right",
    "left",
    "right",
    "centre",
    "subwoofer",
    "electronics",
    "line",
    "balanced",
    "unbalanced",
    "digital",
    "small condenser",
    "large condenser",
    "clip condenser",
    "dynamic",
    "contact microphone",
    "ribbon microphone",
    "boom",
    "short",
    "tall",
)


def usual(text: str, says: Labels) -> str:
    """A typed text with those of its parts that are usual words in the language of the rider."""
    return ", ".join(says.word(part) if part in USUAL else part for part in text.split(", "))


def usual_text(text: str, says: Labels) -> Text:
    return value(usual(text, says))
