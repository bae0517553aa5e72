"""Brackets that name players beside those before them, ``piano (optional flute)``, ``brass band (with 3 perc)``."""

from __future__ import annotations

from catalogue.instrumentation.chair_lists import entries
from catalogue.instrumentation.doublings import Doubling
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.elsewhere import elsewhere_at, part_of
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.lexicon import EACH, OFFSTAGE, OPTIONAL
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end
from catalogue.instrumentation.tails import BODIES
from catalogue.instrumentation.tokens import Bracket
from catalogue.instrumentation.vocabulary import family_of

WITH = {"with", "plus", "mit", "avec", "con", "y", "e", "et", "und"}


PLUS = {"plus", "and"}


def optional_player(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``piano (optional flute)``, ``choir (organ ad lib.)``: a player of another family beside the line."""
    nodes = bracket.nodes
    at = int(is_key(nodes[0], {"with", "mit", "avec", "con", "plus", "and"}))
    optional = phrase_end(nodes, at, OPTIONAL)
    counted = count_at(nodes, at if optional is None else optional)
    start = counted.end if counted is not None else at if optional is None else optional
    name = name_at(nodes, start)
    if name is None or family_of(name.slugs[0]) in (draft.family, "percussion", "electronics"):
        return None
    end = name.end if optional is not None else phrase_end(nodes, name.end, OPTIONAL)
    rest = [node for node in nodes[end:] if not node.is_mark(".")] if end is not None else list(nodes)
    if rest or draft.section:
        return None
    made = extra(draft, name.slugs[0], counted.most if counted else 1, bracket, "", optional=True)
    made.role, made.name = "ensemble", name
    return [made]


def beside_body(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``brass band (with 3 percussion)``: players beside a body that is not itemised."""
    nodes = bracket.nodes
    if draft.slug not in BODIES or not (is_key(nodes[0], WITH) or nodes[0].is_mark("+")):
        return None
    made: list[Draft] = []
    for piece in entries(nodes[1:], ",;+"):
        counted = count_at(piece, 0)
        name = name_at(piece, counted.end if counted is not None else 0)
        if name is None or name.end != len(piece):
            return None
        player = extra(draft, name.slugs[0], counted.most if counted is not None else 1, bracket, "")
        player.role, player.name, player.count = draft.role, name, counted
        made.append(player)
    message = (
        f"“{forces.written(nodes[0].start, nodes[-1].end)}” was read as players beside those that it has by custom."
    )
    forces.remark("beside-body", message, bracket.start, bracket.end, "players who are counted in it")
    return made


def extra(draft: Draft, slug: str, number: int, bracket: Bracket, section: str, *, optional: bool = False) -> Draft:
    made = Draft(slug, bracket.start, bracket.end, section=section, extra=True, group=draft.group, role=draft.role)
    made.counted(number)
    made.optional = optional
    return made


def some_elsewhere(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``4 horns (2 offstage)``: those two are a line of their own; ``(+2 offstage)`` are two more."""
    added = bracket.nodes[0].is_mark("+") or is_key(bracket.nodes[0], PLUS)
    found = elsewhere_at(bracket.nodes, int(added))
    if added and found is not None and found[1] == len(bracket.nodes) and draft.count is not None:
        draft.counted(draft.least + found[0], draft.most + found[0])
    away = part_of(draft, found[0]) if found is not None and found[1] == len(bracket.nodes) else None
    away = away or named_elsewhere(draft, bracket)
    return [away] if away is not None else None


def named_elsewhere(draft: Draft, bracket: Bracket) -> Draft | None:
    """Return the further players of ``(4 offstage trumpets)`` after the figures of a family."""
    counted = count_at(bracket.nodes, 0) if draft.figure else None
    stage = phrase_end(bracket.nodes, counted.end, OFFSTAGE) if counted is not None else None
    name = name_at(bracket.nodes, stage) if stage is not None else None
    if name is None or name.end < len(bracket.nodes) or family_of(name.slugs[0]) not in WINDS:
        return None
    return Draft(name.slugs[0], bracket.start, bracket.end, count=counted, name=name, role="offstage", separator=",")


def counted_each(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``fl, ob, cl, bn (2 each)``: so many of each wind of the list that nobody has counted."""
    nodes = bracket.nodes
    first = int(is_key(nodes[0], EACH))
    counted = count_at(nodes, first)
    end = counted.end if counted is not None else len(nodes)
    each = first or (end + 1 == len(nodes) and is_key(nodes[end], EACH))
    if counted is None or not each or end + (not first) != len(nodes) or draft.family not in WINDS:
        return None
    at = next((index for index, one in enumerate(forces.drafts) if one is draft), 0)
    listed = [draft]
    while at > 0 and forces.drafts[at].separator in (",", "&", ",&", ", ", ""):
        at -= 1
        if forces.drafts[at].family not in WINDS or forces.drafts[at].count is not None:
            break
        listed.append(forces.drafts[at])
    if len(listed) == 1 or draft.count is not None:
        return None
    for one in listed:
        one.counted(counted.least, counted.most)
    return []


def sung(draft: Draft, found: list[Doubling]) -> bool:
    """Whether what was found are voices, sizes of the instrument and nothing that its player doubles.

    A player of the winds doubles no single voice: the word is the size of what the reader does not know.
    """
    voices = [slug for one in found for slug in one.plays if family_of(slug) == "voice"]
    sizes = draft.family in WINDS and any(slug.startswith("voice-") for slug in voices)
    return bool(voices) and draft.family != "voice" and (sizes or not any(one.linked for one in found))


def plus_doubles(draft: Draft, forces: Forces) -> bool:
    """Whether the plus in a bracket means a doubling in the whole text: it stands so after players who are numbered."""
    if draft.most > 1 or draft.figure:
        return False
    return any(one.seats and any(opens_with_plus(bracket) for bracket in one.brackets) for one in forces.drafts)


def opens_with_plus(bracket: Bracket) -> bool:
    return bool(bracket.nodes) and bracket.nodes[0].is_mark("+")
