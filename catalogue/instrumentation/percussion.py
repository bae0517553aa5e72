"""Settles timpani and percussion: how many players, and what they play.

A figure at the percussion counts players; figures in a list of instruments count instruments, never players. Loose
percussion instruments of an orchestral list are one section whose players are not counted; in a list of single
players a pitched instrument is a player's own. Figures at the timpani count drums unless players or pairs are
spoken of. Common practice.
"""

from __future__ import annotations

import re

from catalogue.instrumentation.bracket_words import (
    as_remark,
    chairs_told,
    counted_last,
    optional_players,
    parted,
    players_in,
    players_range,
    quality,
)
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import PLAYERS, SETS
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import roman
from catalogue.instrumentation.page_labels import says_octave
from catalogue.instrumentation.percussion_players import by_player, say_of_numbers_apart, tell_players
from catalogue.instrumentation.phrases import count_at, is_key, limited_count
from catalogue.instrumentation.tokens import Bracket, Token, flatten
from catalogue.instrumentation.vocabulary import instrument, key_of

OWN_CHAIR = ("drum-kit", "cimbalom", "glass-harmonica", "steel-drums")
NOT_LOOSE = ("timpani", "percussion", *OWN_CHAIR)
EXECUTANTS = {"es", "ex", "exec", "int", "interpr", "ej", "sp", "ausf", "instr"}
TIMPANISTS = {
    "timpanist", "timpanists", "pauker", "timpanista", "timpanisti", "timbalier", "timbaliers", "timbalero",
    "timbaleros",
}  # fmt: skip
PLAYERS_CODE = "percussion-players"
ONE_SECTION = "Percussion instruments are named without players; they were read as one section."
ALREADY_COUNTED = "Counted instruments were read as played by the percussionists already counted."
ONE_MORE = "one more player"
FEWEST_OF_SECTION = 3


PLAYING = PLAYERS | EXECUTANTS


def timpani_and(forces: Forces) -> None:
    """Turn the figure of ``timp+3`` into percussionists; after figures ``T+3`` and ``Tp+3`` are the same."""
    if not any(draft.figure for draft in forces.drafts):
        return
    percussionists_before(forces)
    packed_pair_before(forces)
    for before, draft in zip(forces.drafts, forces.drafts[1:], strict=False):
        if not (draft.figure and draft.separator.strip() in ("+", "&")):
            continue
        if (
            before.count is None
            and before.name
            and key_of(before.name.written) in ("t", "tp")
            and (forces.drafts[0].figure or before is forces.drafts[0])
        ):
            before.slug = "timpani"
        if before.slug == "timpani":
            draft.slug, draft.figure = "percussion", False
            if before.count is not None:
                before.collective = "players"


def glued_figure(draft: Draft, before: Draft, forces: Forces) -> bool:
    """Whether a figure written to the plus after the timpani stands apart from the name after it, ``T+2 hp``."""
    if draft.separator != "+" or draft.count is None or not forces.drafts[0].figure:
        return False
    if draft.name is None and draft.slug != "strings":
        return False
    if draft.slug == "percussion":
        return False
    timpanist = before.slug == "timpani" or (before.name is not None and key_of(before.name.written) in ("t", "tp"))
    return timpanist and re.match(r"\d+\s+\w", forces.text[draft.start : draft.end]) is not None


def percussionists_before(forces: Forces) -> None:
    """Give the figure of ``T+2 hp`` to the percussionists and leave the harp its own number."""
    for at in range(len(forces.drafts) - 1, 0, -1):
        before, draft = forces.drafts[at - 1], forces.drafts[at]
        if not glued_figure(draft, before, forces) or draft.count is None:
            continue
        made = Draft("", draft.start, draft.start + 1, separator="+", count=draft.count, figure=True)
        forces.drafts.insert(at, made)
        if draft.slug != "strings":
            message = f"The figure after the timpani was read as {draft.most} percussionists."
            forces.remark("timpani-and", message, draft.start, draft.end, forces.written(draft.start, draft.end))
        draft.count, draft.separator = None, " "


def packed_pair_before(forces: Forces) -> None:
    """Read the ``12`` of ``3333 4331 12 hp`` as a timpanist and two percussionists: no work has twelve harps."""
    for at in range(len(forces.drafts) - 1, 1, -1):
        draft = forces.drafts[at]
        timpanists, players = divmod(draft.most, 10)
        if timpanists != 1 or not after_packed_families(draft, forces.drafts[at - 2 : at]):
            continue
        for slug, number in (("percussion", players), ("timpani", timpanists)):
            made = Draft(slug, draft.start, draft.start + 2, separator=" ", collective="players")
            made.counted(number)
            forces.drafts.insert(at, made)
        message = "Figures after the brass were read as timpanist and percussionists."
        written = forces.written(draft.start, draft.end)
        forces.remark("percussion-figures", message, draft.start, draft.start + 2, written)
        draft.count = None


def after_packed_families(draft: Draft, before: list[Draft]) -> bool:
    """Whether a counted harp or keyboard stands right after two families of figures written together."""
    packed = all(one.figure and one.packed for one in before) and before[-1].separator != "+"
    return packed and draft.count is not None and draft.family in ("plucked", "keyboard")


def settle_percussion(forces: Forces, *, orchestral: bool) -> None:
    """Settle all timpani and percussion of the text."""
    if not any(draft.family == "percussion" for draft in forces.drafts):
        return
    numbered_by_romans(forces)
    for draft in forces.drafts:
        shared_by_one(draft)
        if draft.slug == "timpani":
            timpani(draft, forces)
        elif draft.slug == "percussion":
            players(draft, forces)
    one_section(forces)
    gather(forces, orchestral=orchestral)
    for draft in forces.drafts:
        if draft.slug == "percussion" and draft.count is None:
            bare(draft, forces, orchestral=orchestral)


def shared_by_one(draft: Draft) -> None:
    """Settle ``timp/perc`` and ``perc/pf``: one player for both, the drums or keys among what he plays."""
    if not draft.slashed or draft.slug not in ("timpani", "percussion"):
        return
    others = [slug for slug in draft.slashed if slug not in ("timpani", "percussion")]
    if others:
        draft.chairs = [Chair(1, (draft.slug, *others))]
    if draft.slug == "timpani" or len(others) < len(draft.slashed):
        draft.slug = "percussion"
        draft.chairs = [Chair(1, ("percussion", *others))] if others else []
        draft.notes.append("timpani")
    draft.counted(1)
    draft.slashed = []


SEVERAL = {"percussions", "percusiones"}
"""Plurals that tell of several players and not how many; the Italian ``percussioni`` is any number of them."""


def bare(draft: Draft, forces: Forces, *, orchestral: bool) -> None:
    written = draft.name.written if draft.name is not None else ""
    if "orff" in key_of(written):
        draft.notes.append(written)
        draft.open = True
    elif (orchestral and draft.role != "soloist") or draft.open or key_of(written) in SEVERAL:
        draft.open = True
    else:
        draft.counted(1)


def numbered_by_romans(forces: Forces) -> None:
    """Read a text whose lines are all percussion and numbered as one section of so many players."""
    drafts = [draft for draft in forces.drafts if draft.slug]
    numbered = [draft for draft in drafts if draft.collective == "numbered"]
    if len(numbered) < 2 or any(draft.family != "percussion" for draft in drafts):
        return
    section = Draft("percussion", drafts[0].start, drafts[-1].end, name=drafts[0].name)
    section.counted(len(numbered))
    section.chairs = [
        Chair(seat, ("percussion",), forces.written(draft.start, draft.end)) for seat, draft in enumerate(numbered, 1)
    ]
    forces.drafts[:] = [section]


def timpani(draft: Draft, forces: Forces) -> None:
    """Tell timpanists from drums."""
    for bracket in parted(draft, forces):
        if says_octave(bracket.nodes) or quality(draft, bracket, forces) or by_percussionist(draft, bracket, forces):
            continue
        number = players_in(bracket) or sets_in(bracket)
        if number is not None and draft.role == "soloist" and len(bracket.nodes) == 1:
            draft.notes.append(f"{number} drums")
            continue
        if number is not None:
            draft.counted(number)
            draft.collective = "players"
        else:
            draft.notes.append(as_remark(bracket.nodes, forces))
    draft.brackets = []
    said = draft.collective == "players" or (draft.name is not None and key_of(draft.name.written) in TIMPANISTS)
    words = map(key_of, forces.text[draft.start : draft.end].split())
    pairs = any(word in SETS or "pair" in word for word in words)
    said = said or two_timpanists(draft, forces)
    if draft.count is not None and draft.most > 1 and not said and not pairs:
        number = draft.most
        readings = ("drums, one player", f"{number} players")
        if forces.decide("drums", f"“{number}” was read as", readings, draft.start, draft.end):
            draft.notes.append(f"{number} drums")
            draft.counted(1)


def sets_in(bracket: Bracket) -> int | None:
    """Return the number of timpanists that ``(2 sets)`` or ``(2 pairs)`` tells: each has one."""
    counted = count_at(bracket.nodes, 0)
    rest = bracket.nodes[counted.end :] if counted is not None else ()
    words = len(rest) == 1 and (rest[0].key in SETS or rest[0].key.startswith("pair"))
    return counted.most if counted is not None and words else None


def by_percussionist(draft: Draft, bracket: Bracket, forces: Forces) -> bool:
    """Settle ``timp (=perc 1)``: the drums are a percussionist's, who is counted there."""
    named = name_at(bracket.nodes, 1) if bracket.nodes and bracket.nodes[0].is_mark("=") else None
    if named is None or named.slugs[0] != "percussion":
        return False
    message = "The timpani were read as played by one of the percussionists, who is counted there."
    forces.remark("same-player", message, draft.start, bracket.end, "a player of its own")
    draft.counted(0)
    draft.collective = "players"
    return True


TWO = ("2 players", "drums, one player")


def two_timpanists(draft: Draft, forces: Forces) -> bool:
    """Whether ``2timp`` counts players: a figure written to the abbreviation, in a text of figures."""
    written = forces.text[draft.start : draft.end]
    beside = any(one.slug == "percussion" and one.count is not None for one in forces.drafts)
    glued = re.match(r"2[A-Za-z]{2,4}\b", written) is not None and (forces.formula or beside)
    if glued and not forces.decide("drums", f"“{written}” was read as", TWO, draft.start, draft.end):
        draft.notes.append("2 drums")
        draft.counted(1)
    return glued


def players(draft: Draft, forces: Forces) -> None:
    """Settle the number of percussionists, and keep what they play as a note."""
    for bracket in parted(draft, forces):
        if says_octave(bracket.nodes) or quality(draft, bracket, forces):
            continue
        if listed_by_player(draft, bracket, forces):
            continue
        told = players_range(bracket) or executants(bracket)
        spare = optional_players(bracket.nodes)
        if spare is not None and spare < draft.most:
            draft.counted(max(draft.least - spare, 0), draft.most)
        elif told is not None and counted_last(bracket.nodes) is not None and (draft.count is None or draft.most == 1):
            draft.counted(*told)
            draft.notes.append(forces.written(bracket.nodes[0].start, bracket.nodes[-4].end))
        elif told is not None and (draft.count is None or draft.most == 1):
            draft.counted(*told)
            counted = count_at(bracket.nodes, 0) or limited_count(bracket.nodes, 0)
            draft.notes += ["or more"] * (counted is not None and counted.more)
            rest = list(bracket.nodes)[counted.end if counted else 1 :]
            if rest and is_key(rest[0], PLAYING):
                rest = rest[1:]
            if rest:
                draft.notes.append(forces.written(rest[0].start, bracket.nodes[-1].end).strip(" -:;,."))
            if isinstance(bracket.nodes[0], Token) and bracket.nodes[0].kind == "word" and roman(bracket.nodes[0].text):
                message = "The Roman numeral was read as the number of players."
                forces.remark("roman-count", message, bracket.start, bracket.end, "the chair of one player")
        elif chairs_told(draft, bracket, forces):
            continue
        elif bracket.nodes:
            draft.notes.append(as_remark(bracket.nodes, forces))
            draft.open = draft.open or any("orff" in word.key for word in flatten(bracket.nodes))
            timpani_within(bracket, forces)
    draft.brackets = []
    if not tell_players(draft, None if draft.count is None else draft.most):
        say_of_numbers_apart(draft, forces)


def listed_by_player(draft: Draft, bracket: Bracket, forces: Forces) -> bool:
    """Settle ``perc (1: vib, BD; 2: glock)``: what each of the players has, which counts them too."""
    listed = forces.written(bracket.nodes[0].start, bracket.nodes[-1].end) if bracket.nodes else ""
    if not by_player(listed) or draft.notes:
        return False
    draft.notes.append(listed)
    if tell_players(draft, None if draft.count is None else draft.most):
        return True
    draft.notes.pop()
    return False


def executants(bracket: Bracket) -> tuple[int, int] | None:
    """Return the number of ``(1 es.)``, ``(3 int.)``: players by a word that means other things elsewhere."""
    counted = count_at(bracket.nodes, 0)
    rest = bracket.nodes[counted.end :] if counted is not None else ()
    short = rest and is_key(rest[0], EXECUTANTS) and all(node.is_mark(".") for node in rest[1:])
    return (counted.least, counted.most) if counted is not None and short else None


def timpani_within(bracket: Bracket, forces: Forces) -> None:
    """Note that timpani in a percussionist's list need no timpanist: nothing is added for them."""
    if any(is_key(word, {"timp", "timpani", "pk", "pauken"}) for word in flatten(bracket.nodes)):
        forces.dresses.add("timpani within percussion")


def one_section(forces: Forces) -> None:
    """Make one section of percussion parts that are numbered, ``Percussion 1``, ``Percussion 2``, in each body."""
    numbered = [draft for draft in forces.drafts if draft.slug == "percussion" and (draft.number_after or draft.seats)]
    for group in dict.fromkeys(draft.group for draft in numbered):
        section_of([draft for draft in numbered if draft.group == group], forces)


def section_of(numbered: list[Draft], forces: Forces) -> None:
    """Make one section of the numbered parts of one body and of what else it has of percussion."""
    whole = [draft for draft in forces.drafts if draft.slug == "percussion" and draft.group == numbered[0].group]
    seats = {seat for draft in numbered for seat in (draft.number_after or draft.seats)}
    beside = [draft for draft in whole if not any(draft is one for one in numbered)]
    single = len(numbered) == 1 and len(seats) == 1 and numbered[0].number_after and not numbered[0].seats
    if single and not beside and max(seats) > 1 and not numbered[0].notes:
        numbered[0].counted(max(seats))
        return
    first = whole[0]
    counted = max((draft.most for draft in beside if draft.count is not None), default=0)
    most = max(len(seats) + sum(draft.count is None for draft in beside), counted)
    spare = sum(len(draft.number_after or draft.seats) for draft in numbered if draft.optional)
    first.optional = all(draft.optional for draft in whole)
    first.counted(most if first.optional else max(most - spare, 0), most)
    first.chairs = [
        Chair(seat, ("percussion",), note)
        for draft in numbered
        for seat in (draft.number_after or draft.seats)
        if (note := "; ".join(draft.notes))
    ]
    first.notes, first.number_after, first.seats = [], (), ()
    forces.drafts[:] = [draft for draft in forces.drafts if draft is first or not any(draft is one for one in whole)]


def gather(forces: Forces, *, orchestral: bool) -> None:
    """Give loose percussion instruments to the section; a pitched one may be a player of its own."""
    section: Draft | None = None
    kept: list[Draft] = []
    loose = [draft for draft in forces.drafts if is_loose(draft)]
    if not loose:
        return
    unpitched = any(instrument(draft.slug).kit for draft in loose)
    whole = orchestral and (
        unpitched or any(draft.slug == "percussion" and draft.count is None for draft in forces.drafts)
    )
    for draft in forces.drafts:
        if draft.slug == "percussion":
            section = draft
            kept.append(draft)
        elif not is_loose(draft) or not (instrument(draft.slug).kit or whole):
            kept.append(draft)
            counted = orchestral and is_loose(draft)
            if counted and any(one.slug == "percussion" and one.count is not None for one in forces.drafts):
                message = "The instrument was read as a player of its own beside the percussionists."
                forces.remark(PLAYERS_CODE, message, draft.start, draft.end, "one of the percussionists plays it")
        else:
            if section is None or section.group != draft.group or section.role != draft.role:
                section = section_for(draft, forces)
                kept.append(section)
                if not orchestral:
                    section.counted(1)
            section.notes.append(as_note(draft, forces))
            if section.count is not None and draft.count is not None:
                forces.remark(PLAYERS_CODE, ALREADY_COUNTED, draft.start, draft.end, ONE_MORE)
    forces.drafts[:] = kept


def is_loose(draft: Draft) -> bool:
    return draft.family == "percussion" and draft.slug not in NOT_LOOSE and draft.role != "soloist"


def section_for(draft: Draft, forces: Forces) -> Draft:
    made = Draft("percussion", draft.start, draft.end, group=draft.group, role=draft.role, heading=draft.heading)
    loose = sum(is_loose(one) for one in forces.drafts)
    if not is_sure_section(
        loose, beside=any(one.slug == "timpani" or one.family == "strings" for one in forces.drafts)
    ):
        forces.remark(PLAYERS_CODE, ONE_SECTION, draft.start, draft.end)
    return made


def is_sure_section(loose: int, *, beside: bool) -> bool:
    """Whether so many percussion instruments are surely one section: several, beside timpani or strings."""
    return beside and loose >= FEWEST_OF_SECTION


def as_note(draft: Draft, forces: Forces) -> str:
    return forces.written(draft.start, draft.end)
