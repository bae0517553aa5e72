"""Tells the strings of an orchestra from a string quintet: French, Italian and Spanish call both by that name.

``2 flûtes, 2 hautbois, 2 cors, le quintette à cordes`` names the five sections of the orchestra; beside single players
five players are meant. A quartet among pairs of winds stays four players, and the other reading is told. Common
practice of scores and concert programmes.
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.lexicon import keyed
from catalogue.instrumentation.vocabulary import key_of

OF_ORCHESTRA = keyed(
    "quintette_à_cordes quintette_de_cordes quintuor_à_cordes quintuor quintetto_d'archi quintetto_di_archi "
    "quintetto_ad_archi quintetto_per_archi quinteto_de_cuerda quinteto_de_cuerdas quintette_d'archets"
)
QUINTET, QUARTET = 5, 4
FEWEST_PAIRS = 2
MANY_PAIRS = 4


def strings_of_orchestra(forces: Forces) -> None:
    """Read a string quintet among pairs of winds as the sections where its name says so, and tell a quartet's place."""
    drafts = forces.drafts
    bodies = [one for one in drafts if one.collective == "strings" and one.family == "strings"]
    if not bodies:
        return
    pairs = sum(one.family in WINDS and one.most > 1 and one.role == "ensemble" for one in drafts)
    members = [one for one in bodies if one.start == bodies[0].start]
    single = all(one.role == "ensemble" and one.most == 1 for one in members) and len(members) == len(bodies)
    written = forces.written(members[0].start, members[0].end)
    if single and len(members) == QUINTET and pairs >= FEWEST_PAIRS and key_of(written) in OF_ORCHESTRA:
        to_sections(members, written, forces)
    elif single and len(members) == QUARTET and pairs >= MANY_PAIRS:
        readings = ("single players", "the strings of the orchestra")
        if not forces.decide("single-strings", f"“{written}” was read as", readings, members[0].start, members[0].end):
            replaced(members, forces)


def to_sections(members: list[Draft], written: str, forces: Forces) -> None:
    """Replace five players by the strings of the orchestra, and their remark by one on that."""
    start, end = members[0].start, members[0].end
    forces.remarks[:] = [one for one in forces.remarks if (one.code, one.start) != ("ensemble", start)]
    readings = ("the strings of the orchestra", "five single players")
    if forces.decide("single-strings", f"“{written}” was read as", readings, start, end):
        replaced(members, forces)


def replaced(members: list[Draft], forces: Forces) -> None:
    first = members[0]
    at = next(index for index, one in enumerate(forces.drafts) if one is first)
    whole = Draft("strings", first.start, first.end, separator=first.separator, group=first.group)
    whole.optional, whole.amplified = first.optional, first.amplified
    forces.drafts[at : at + len(members)] = [whole]
