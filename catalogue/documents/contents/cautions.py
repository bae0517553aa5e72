"""The usual cautions where work can hurt somebody, topic by topic, for any document that asks people to do it.

They say what is usual and leave the rest to local rules and to people who are licensed: none says that something is
safe, and a level is what equipment can do or what was measured once, never a target. Limits of noise: NIOSH
Publication 98-126; OSHA, 29 CFR 1910.95, Table G-16; Directive 2003/10/EC; ITU-T H.870 (WHO and ITU, personal
listening); WHO global standard for safe listening venues and events, 2022. They differ in average period and exchange
rate and are kept apart. Residual current protection of what players touch: UK Health and Safety Executive, INDG247;
30 mA is the usual figure (from memory). Three flashes in a second: WCAG success criterion 2.3.1; thirty seconds at a
time and a notice at the entrance: UK guidance on lighting at events. Phantom power before in-ears, and a click to the
players alone: common practice.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum

from catalogue.documents.labels import Labels
from catalogue.documents.model import Pair, Pairs, value, wording
from catalogue.rules.technical.terms import Send, Setup
from catalogue.terms import Synchronisation

HOT = re.compile(
    r"\b(?:lamps?|projectors?|lanterns?|heat\w*|hot|kettles?|stoves?|flames?|candles?|lasers?)\b", re.IGNORECASE
)
"""Words of equipment that gets hot."""


class Caution(StrEnum):
    """What can hurt; in the order in which the cautions are printed."""

    HEARING = "hearing"
    IN_EAR = "in-ear"
    PHANTOM = "phantom"
    MAINS = "mains"
    RIGGING = "rigging"
    STROBE = "strobe"
    TRIP = "trip"
    HOT = "hot"


WORDS: dict[Caution, tuple[str, ...]] = {
    Caution.HEARING: (
        "Hearing",
        "A level that is told here is what equipment can do or what was measured once, never a target.",
        "Offer hearing protection to players, staff and audience, and keep to the limits of the place, measured there "
        "by somebody competent. Nothing here says that a level is safe.",
        "Limits that are not to be mixed: for those who work, NIOSH 85 dB(A) averaged over 8 hours, exchange rate "
        "3 dB; OSHA 90 dB(A) over 8 hours, 5 dB; Directive 2003/10/EC 80 and 85 (action) and 87 dB(A) (limit) over a "
        "day of 8 hours, 3 dB. For those who listen, ITU-T H.870 80 dB(A) for 40 hours a week; WHO for venues 100 "
        "dB(A) averaged over 15 minutes.",
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
        "Rate, length and place are told beforehand, a notice stands at the doors and a switch stops it. Usual is no "
        "more than three flashes in any second, and no more than 30 seconds at a time; what goes beyond that is for "
        "local codes and a competent person to allow.",
    ),
    Caution.TRIP: (
        "Cables and darkness",
        "Cables in anybody’s way are covered or led overhead, and marked. Stand lights and the lights that the law "
        "asks for stay on where it is dark.",
    ),
    Caution.HOT: (
        "Hot equipment",
        "What gets hot stands clear of curtains, paper and people, with air around it, and cools before anybody moves "
        "it; the fire rules of the house hold.",
    ),
}
"""For each topic its name, then what is said of it."""


def cautions(topics: Iterable[Caution], says: Labels, told: Mapping[Caution, str] | None = None) -> tuple[Pairs, ...]:
    """Each of these topics in the usual order, each once, with its text; ``told`` is what is known of this work."""
    chosen, known = set(topics), told or {}
    found = tuple(caution(topic, says, known.get(topic, "")) for topic in Caution if topic in chosen)
    return (Pairs((found,)),) if found else ()


def caution(topic: Caution, says: Labels, known: str) -> Pair:
    own = f"{known[:1].upper()}{known[1:].rstrip('.')}. " if known else ""
    return Pair(wording(says.word(WORDS[topic][0])), (*value(own), *wording(words_of(topic, says))))


def words_of(topic: Caution, says: Labels) -> str:
    """The sentences on a topic without its name, the same on every paper and page."""
    return " ".join(map(says.word, WORDS[topic][1:]))


# ---- which of them a work calls for


def topics_of(setup: Setup | None, *, has_powered: bool = False) -> Iterator[Caution]:
    """What can hurt in a setup; without one, what a powered instrument brings with it."""
    if setup is None:
        yield from (Caution.MAINS,) if has_powered else ()
        return
    sends = {one.send for one in setup.outputs}
    if setup.loudest or setup.amplification or Send.LOUDSPEAKER in sends:
        yield Caution.HEARING
    if Send.IN_EAR in sends or setup.synchronisation is Synchronisation.CLICK:
        yield Caution.IN_EAR
    if any(one.phantom for one in setup.inputs):
        yield Caution.PHANTOM
    if setup.inputs or setup.outputs or setup.equipment or has_powered:
        yield from (Caution.MAINS, Caution.TRIP)
    if Send.LOUDSPEAKER in sends:
        yield Caution.RIGGING
    if setup.flashing:
        yield Caution.STROBE
    if any(HOT.search(f"{one.name} {one.detail}") for one in setup.equipment):
        yield Caution.HOT


def setup_cautions(setup: Setup | None, says: Labels, *, has_powered: bool = False) -> tuple[Pairs, ...]:
    """The cautions that a setup calls for, with what is known of its loudest passage and its light."""
    told = {Caution.HEARING: setup.loudest, Caution.STROBE: setup.flashing} if setup else {}
    return cautions(topics_of(setup, has_powered=has_powered), says, told)
