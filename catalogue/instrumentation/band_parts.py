"""Says of the parts of a wind band that one player was read for each: a band has several players to most parts.

``3 clarinets in B-flat I, II, III`` of a concert band names three parts and not how many play them. A *wind ensemble*
has one player to a part, and a brass band the numbers that custom gives it. Common practice of bands.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.lexicon import BANDS, keyed
from catalogue.instrumentation.phrases import phrase_end
from catalogue.instrumentation.tokens import Nodes

OF_BAND = {"alto-saxophone", "euphonium", "baritone-horn"}
ONE_TO_A_PART = keyed("wind_ensemble symphonic_wind_ensemble band")
SEVERAL_TO_A_PART = BANDS["wind-band"] - ONE_TO_A_PART
FEWEST_PARTS = 5


def say_of_band_parts(nodes: Nodes, forces: Forces) -> None:
    """Say so where a band is named or meant, and winds are told in parts."""
    played = [draft for draft in forces.drafts if draft.slug == "wind-band" or is_wind(draft)]
    if not (named_with_parts(nodes, played) or meant(played, forces)):
        return
    message = "The parts of a band are listed; one player was read for each."
    forces.remark("band-parts", message, played[0].start, played[-1].end, "several players to a part")


def is_wind(draft: Draft) -> bool:
    return draft.family in WINDS and draft.role == "ensemble"


def named_with_parts(nodes: Nodes, played: list[Draft]) -> bool:
    """Whether the text names a band and lists who is in it, some winds by number or in pairs."""
    if any(one.slug == "wind-band" for one in played) or not any(
        one.most > 1 or one.seats or one.number_after for one in played
    ):
        return False
    return any(phrase_end(nodes, at, SEVERAL_TO_A_PART) is not None for at in range(len(nodes)))


def meant(played: list[Draft], forces: Forces) -> bool:
    """Whether the parts of a band are listed without its name: numbered woodwind and brass beside saxophones."""
    numbered = [draft for draft in played if draft.number_after and draft.count is None]
    both = {draft.family for draft in numbered} >= {"woodwind", "brass"}
    band = any(draft.slug in OF_BAND for draft in forces.drafts)
    return band and both and len(numbered) >= FEWEST_PARTS
