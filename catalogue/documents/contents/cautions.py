"""The usual cautions where work can hurt somebody, topic by topic, for any document that asks people to do it.

They say what is usual and leave the rest to local rules and to people who are licensed: none says that something is
safe. Residual current protection of what players touch: UK Health and Safety Executive, INDG247; 30 mA is the usual
figure (from memory). Three flashes in a second: WCAG success criterion 2.3.1. Phantom power before in-ears, and a click
to the players alone: common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import StrEnum

from catalogue.documents.labels import Labels
from catalogue.documents.model import Block, Paragraph, Style, value, wording


class Caution(StrEnum):
    """What can hurt; in the order in which the cautions are printed."""

    HEARING = "hearing"
    IN_EAR = "in-ear"
    PHANTOM = "phantom"
    MAINS = "mains"
    RIGGING = "rigging"
    STROBE = "strobe"
    TRIP = "trip"


WORDS: dict[Caution, tuple[str, ...]] = {
    Caution.HEARING: (
        "Hearing",
        "Offer hearing protection to players, staff and audience, and keep to the limits of the place, measured there "
        "by somebody competent. Nothing here says that a level is safe.",
    ),
    Caution.IN_EAR: (
        "In-ears and click",
        "A click is a sharp, loud sound: turn the volume right down before anyone puts on headphones.",
        "Send it to the players alone, and let everybody set their own level.",
        "Nothing here says that a level is safe: keep to the local rules on noise at work.",
    ),
    Caution.PHANTOM: (
        "Phantom power",
        "Switch it on with the channel closed and before anyone puts on in-ears; never on line outputs, and on ribbon "
        "microphones only where their maker allows it.",
    ),
    Caution.MAINS: (
        "Mains",
        "Whatever players touch is fed through residual current protection (30 mA is usual), and protective earths "
        "stay connected. Electrical work is done by licensed staff of the house alone, under local rules.",
    ),
    Caution.RIGGING: (
        "Rigging",
        "Loudspeakers on stands or hung: loads, anchors and safety bonds are checked by a competent rigger under local "
        "rules. Nobody stands under a moving load; exits and aisles stay free.",
    ),
    Caution.STROBE: (
        "Flashing light",
        "A notice stands at the doors and a switch stops it. Usual is no more than three flashes in any second; what "
        "goes beyond that is for local codes and a competent person to allow.",
    ),
    Caution.TRIP: (
        "Cables and darkness",
        "Cables in anybody’s way are covered or led overhead, and marked. Stand lights and the lights that the law "
        "asks for stay on where it is dark.",
    ),
}
"""For each topic its name, then what is said of it."""


def cautions(topics: Iterable[Caution], says: Labels, told: Mapping[Caution, str] | None = None) -> tuple[Block, ...]:
    """A paragraph for each of these topics in the usual order, each once; ``told`` is what is known of this work."""
    chosen, known = set(topics), told or {}
    return tuple(caution(topic, says, known.get(topic, "")) for topic in Caution if topic in chosen)


def caution(topic: Caution, says: Labels, known: str) -> Block:
    head = WORDS[topic][0]
    own = f"{known[:1].upper()}{known[1:].rstrip('.')}. " if known else ""
    return Paragraph((*wording(f"{says.word(head)}. ", Style.STRONG), *value(own), *wording(words_of(topic, says))))


def words_of(topic: Caution, says: Labels) -> str:
    """The sentences on a topic without its name, the same on every paper and page."""
    return " ".join(map(says.word, WORDS[topic][1:]))
