"""What a bracket after a figure or a name means; the convention of the whole text decides where the bracket cannot.

======================================  ============================================================
``3(II=picc)``, ``(2nd dbl picc)``      those chairs double
``1(picc)``, ``2(picc)``                somebody doubles; the one player where there is one
``3(1.2.picc)``, ``3[1.2/pic.pic]``     a list of chairs: a name alone is a chair that plays only that
``4(2tp, 2crt)``, ``3 sax (a, t, bar)`` the make-up of the number before it
``3(3pic)``                             the third player, or three players: by the convention of the text
``2(+ott.)``                            an extra player
``4(2)``, ``2 (optional 4)``            fewer or more players will do
``cl (A/Bb)``, ``(opt)``, ``(div)``     a key, a quality, a remark
======================================  ============================================================
"""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.bracket_players import (
    beside_body,
    counted_each,
    extra,
    optional_player,
    plus_doubles,
    some_elsewhere,
    sung,
)
from catalogue.instrumentation.bracket_words import (
    alternatives,
    amplification,
    as_remark,
    is_note,
    is_odd,
    keys_and_sizes,
    number_of_players,
    ordinals_parted,
    partly_optional,
    pitches,
    quality,
    remarks_in,
    same_player,
    seat_at,
    strengths,
)
from catalogue.instrumentation.chair_keys import chair_keys
from catalogue.instrumentation.chair_lists import chair_list, make_up, one_each, pointed_chairs_apart
from catalogue.instrumentation.channels import channels_at
from catalogue.instrumentation.choices import chosen_kind, chosen_of_kind, chosen_size
from catalogue.instrumentation.choirs import say_of_choir
from catalogue.instrumentation.denials import denial_start, leave_out
from catalogue.instrumentation.doublings import Doubling, doublings_in
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.formula import named_in
from catalogue.instrumentation.hands import hands_tail
from catalogue.instrumentation.lexicon import AND, LIVE, OPTIONAL, OR
from catalogue.instrumentation.model import Chair
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.page_labels import says_octave
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, token_at
from catalogue.instrumentation.players_meant import Section
from catalogue.instrumentation.seating import MOST_CHAIRS, apply, base_of, own_section, read_d, slashed
from catalogue.instrumentation.senses import USUAL_OF_PLACE
from catalogue.instrumentation.tokens import Bracket, Nodes, Row, Token
from catalogue.instrumentation.vocabulary import family_of, instrument

PLUS = {"plus", "and"}
LOW = {"clarinet": "bass-clarinet", "trombone": "bass-trombone"}
SHORTEST_OF_CHAIRS = len("1.2")


def interpret(draft: Draft, forces: Forces) -> list[Draft]:
    """Settle a draft's brackets and clauses; returns the extra players they add."""
    extras: list[Draft] = []
    if not any((draft.brackets, draft.clauses, draft.slashed, draft.chairs, draft.doubles, draft.starred)):
        return extras
    for bracket in draft.brackets:
        if not bracket.closed:
            forces.remark("bracket", "A bracket is not closed; it was taken to end here.", bracket.start, bracket.end)
        extras += meaning(draft, bracket, forces)
    section = Section(draft.section or own_section(draft), draft.slug, draft.size)
    for clause in draft.clauses:
        found = doublings_in(clause, section, forces)
        if found is not None and not draft.doubles:
            apply(draft, found, forces, clause[0].start, clause[-1].end)
    read_d(draft, section, forces)
    read_star(draft, forces)
    extras += slashed(draft, forces)
    take_seat(draft)
    seats_told(draft, forces)
    return extras


def read_star(draft: Draft, forces: Forces) -> None:
    """Say once that the stars of ``3*`` were not entered: they mean that somebody doubles, and not who or what."""
    usual = USUAL_OF_PLACE.get(draft.section or own_section(draft))
    if not draft.starred or usual is None:
        return
    if "star" in forces.others:
        apply(draft, [Doubling((usual,))], forces, draft.start, draft.end)
    if not any(remark.code == "star" for remark in forces.remarks):
        about = "A star says that one of the players doubles; as it does not say what, it was read as"
        readings = ("no doubling", "the usual doubling of each place")
        forces.decide("star", about, readings, draft.start, draft.end)


def take_seat(draft: Draft) -> None:
    """Make a player who sits in a chair of another section one of that section, who plays only what was named."""
    if draft.seated is None:
        return
    plays = draft.chairs[0].plays if draft.chairs else (draft.slug,)
    draft.slug, seat = draft.seated
    draft.chairs, draft.seats, draft.number_after, draft.count = [Chair(seat, plays)], (seat,), (), None


def seats_told(draft: Draft, forces: Forces) -> None:
    """Count at least as many players as the highest chair that is named."""
    highest = max((chair.chair or 0 for chair in draft.chairs), default=0)
    if highest <= draft.most or highest > MOST_CHAIRS:
        return
    if draft.count is not None:
        message = f"Chair {highest} is named, though {draft.most} stands before it."
        forces.remark("chairs-differ", message, draft.start, draft.end, f"{draft.most} players")
    draft.counted(highest)


def meaning(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft]:
    """Find what the bracket says and settle it."""
    nodes = bracket.nodes
    if not nodes:
        return []
    bracket = ordinals_parted(bracket)
    for rule in RULES:
        found = rule(draft, bracket, forces)
        if found is not None:
            return found
    note = forces.written(nodes[0].start, nodes[-1].end)
    if draft.slug.startswith("choir"):
        say_of_choir(draft, note, forces)
        return []
    draft.notes.append(note)
    if draft.family in WINDS and any(instrument(slug).section == own_section(draft) for slug in named_in(nodes)):
        message = f"“{note}” was kept as a remark on what stands before it."
        forces.remark("remark", message, bracket.start, bracket.end, "an instrument that the players change to")
    elif (
        is_odd(draft, nodes)
        or names_players(draft, nodes)
        or (draft.slug == "orchestra" and any(node.kind == "number" for node in nodes))
    ):
        message = f"“{note}” was kept as a remark on what stands before it."
        forces.remark("remark", message, bracket.start, bracket.end, "further players")
    return []


def names_players(draft: Draft, nodes: Nodes) -> bool:
    """Whether a bracket that is kept as a remark names players, or numbers chairs, of which nothing was made."""
    first, mark = token_at(nodes, 0), token_at(nodes, 1)
    chairs = first is not None and first.text == "1" and mark is not None and mark.is_mark(".,/") and draft.most > 1
    quiet = ("electronics",) if draft.family == "other" else ("percussion", "electronics")
    found = (name_at(nodes, at) for at in range(len(nodes)))
    named = any(name is not None and len(name.written) > 1 and family_of(name.slugs[0]) not in quiet for name in found)
    return chairs or (named and draft.family not in ("voice", "electronics"))


def remarks_apart(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(optional; in F; sounds an octave lower)``: remarks that semicolons part; octaves are not kept."""
    said = remarks_in(draft, bracket, forces)
    if len(said) > 1:
        return [extra for one in said for extra in meaning(draft, one, forces)]
    if is_note(bracket.nodes):
        draft.notes.append(as_remark(bracket.nodes, forces))
        return []
    draft.seated = seat_at(draft, bracket.nodes) or draft.seated
    return [] if draft.seated or says_octave(bracket.nodes) else None


def denied(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Keep ``(no piccolo)`` as a note: what is not played is no doubling."""
    if draft.slug == "strings" or denial_start(bracket.nodes, 0) is None:
        return None
    if leave_out(draft, bracket.nodes, forces):
        return []
    draft.notes.append(as_remark(bracket.nodes, forces))
    return []


def voice_told(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``voice (mezzo-soprano)``: the voice is named in the bracket."""
    name = name_at(bracket.nodes, 0) if draft.slug == "voice" else None
    if name is None or name.end != len(bracket.nodes) or not name.slugs[0].startswith("voice-"):
        return None
    draft.slug = name.slugs[0]
    return []


def realised(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Keep which instruments a continuo is played on as a note: nobody doubles there."""
    if draft.slug != "basso-continuo":
        return None
    if not quality(draft, bracket, forces):
        draft.notes.append(as_remark(bracket.nodes, forces))
    return []


def qualities(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(optional)``, ``(amplified)``, ``(solo)``, ``(off-stage)``, ``(or piano)``."""
    nodes = bracket.nodes
    if is_key(nodes[0], OR):
        return alternatives(draft, nodes, forces)
    if all(node.kind == "mark" for node in nodes):
        return []
    return [] if quality(draft, bracket, forces) else None


def hands(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(4 hands)``: two hands a player."""
    return [] if hands_tail(bracket.nodes, 0, draft, formula=False) == len(bracket.nodes) else None


def channels(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(8 channels)``, ``(stereo)``, ``(fixed media and live)`` after electronics."""
    if draft.family != "electronics":
        return None
    at, slugs = 0, list[str]()
    while at < len(bracket.nodes):
        found, name = channels_at(bracket.nodes, at, forces, of_electronics=True), name_at(bracket.nodes, at)
        live = phrase_end(bracket.nodes, at, LIVE) if draft.slug == "electronics" else None
        if found is not None:
            at = found[1]
        elif name is not None and name.slugs[0] == "electronics" != draft.slug:
            draft.notes.append(forces.written(bracket.nodes[at].start, bracket.nodes[name.end - 1].end))
            at = name.end
        elif name is not None and family_of(name.slugs[0]) == "electronics":
            slugs, at = [*slugs, name.slugs[0]], name.end
        elif live is not None:
            slugs, at = [*slugs, "live-electronics"], live
        elif bracket.nodes[at].is_mark(",/+") or is_key(bracket.nodes[at], AND):
            at += 1
        else:
            return None
    kinds = [*dict.fromkeys(slugs)] or [draft.slug]
    draft.slug = kinds[0]
    return [replace(draft, slug=slug, separator="+", brackets=[], notes=[]) for slug in kinds[1:]]


def doubled(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle doublings, by chair or not."""
    nodes = bracket.nodes
    if nodes[0].is_mark("+") or (any(node.is_mark("+") for node in nodes[:2]) and nodes[0].kind == "number"):
        return None
    if is_key(nodes[0], PLUS):
        return None
    size = max(draft.size, len(draft.number_after))
    section = Section(draft.section or own_section(draft), draft.slug, size, told=True)
    found = doublings_in(nodes, section, forces)
    if found is None or sung(draft, found):
        return None
    if draft.extra and draft.most == 1 and any(one.chairs or one.figure for one in found):
        base = base_of(draft, forces)
        if base is not None:
            draft = base
    devices = [slug for one in found for slug in one.plays if family_of(slug) == "electronics"]
    played = (replace(one, plays=tuple(slug for slug in one.plays if slug not in devices)) for one in found)
    found = [one for one in played if one.plays or one.note]
    apply(draft, found, forces, bracket.start, bracket.end)
    say_of_square(draft, bracket, found, forces)
    return [Draft(slug, bracket.start, bracket.end, group=draft.group) for slug in dict.fromkeys(devices)]


def say_of_square(draft: Draft, bracket: Bracket, found: list[Doubling], forces: Forces) -> None:
    """Say of ``2[crt]``, where square brackets list chairs, that one of the players was read as doubling."""
    plain = len(found) == 1 and not (found[0].chairs or found[0].figure or found[0].linked)
    if plain and bracket.opening == "[" and draft.figure and draft.most > 1:
        message = "One of the players was read as doubling."
        forces.remark("square-bracket", message, bracket.start, bracket.end, "all of the players on that instrument")


def pointed_chairs(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``2(1.2=picc)``: the points join chairs, all of whom double."""
    nodes = bracket.nodes
    end = next((at for at, node in enumerate(nodes) if node.kind != "number" and not node.is_mark(".")), 0)
    if end < SHORTEST_OF_CHAIRS or not nodes[end].is_mark("="):
        return None
    joined = (
        node._replace(text=",") if isinstance(node, Token) and node.is_mark(".") else node for node in nodes[:end]
    )
    found = doubled(draft, replace(bracket, nodes=Row((*joined, *nodes[end:]))), forces)
    if found is not None:
        message = f"“{forces.written(nodes[0].start, nodes[end].end)}” was read as all of these players doubling."
        forces.remark("pointed-chairs", message, bracket.start, bracket.end, "the last of them doubling")
    return found


def low_letter(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``3(b)`` in the clarinets' or the trombones' place: somebody takes the bass instrument."""
    slug = LOW.get(draft.section)
    letter = bracket.nodes[0]
    if slug is None or len(bracket.nodes) > 1 or not isinstance(letter, Token) or letter.text != "b":
        return None
    readings = ("the bass instrument, which one of the players takes", "a key")
    if not forces.decide("letter", "The letter in the bracket was read as", readings, bracket.start, bracket.end):
        return None
    apply(draft, [Doubling((slug,))], forces, bracket.start, bracket.end)
    return []


def extra_players(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``(+ott.)``, ``(plus piccolo)``, ``(+2)``; ``2(2+picc)`` repeats the number and doubles."""
    nodes = bracket.nodes
    own = isinstance(nodes[0], Token) and nodes[0].kind == "number"
    at = 1 if own else 0
    if at >= len(nodes) or not (nodes[at].is_mark("+") or is_key(nodes[at], PLUS)):
        return None
    section = draft.section or own_section(draft)
    found = (
        doublings_in(nodes[at + 1 :], Section(section, draft.slug, draft.most), forces) if at + 1 < len(nodes) else None
    )
    counted = count_at(nodes, at + 1)
    rest = counted.end if counted is not None else 0
    if counted is not None and (rest == len(nodes) or phrase_end(nodes, rest, OPTIONAL) == len(nodes)):
        draft.counted(draft.least, draft.most + counted.most)
        message = "The figure after the plus was read as players who may be added."
        forces.remark("extra-players", message, bracket.start, bracket.end)
        return []
    if found is None:
        return None
    optional = phrase_end(nodes, at + 1, OPTIONAL) is not None
    doubles = own or bool(draft.seats) or (draft.name is not None and draft.most == 1)
    if not (draft.seats or optional or (doubles and plus_doubles(draft, forces))):
        readings = ("a player who doubles", "one more player")
        about = "The plus in the bracket was read as"
        usual = forces.decide(
            "plus-in-bracket", about, readings if doubles else readings[::-1], bracket.start, bracket.end
        )
        doubles = doubles == usual
    if doubles:
        apply(draft, [Doubling(one.plays, (draft.most,)) for one in found], forces, bracket.start, bracket.end)
        return []
    number = counted.least if counted else 1
    return [extra(draft, slug, number, bracket, section, optional=optional) for one in found for slug in one.plays]


def smaller_number(draft: Draft, bracket: Bracket, forces: Forces) -> list[Draft] | None:
    """Settle ``4 (2)`` and ``2 (optional 4)``: the other number will do; after a name without one it is the number."""
    nodes = [node for node in bracket.nodes if not node.is_mark(".")]
    optional = phrase_end(nodes, 0, OPTIONAL)
    at = optional if optional is not None else 0
    word = token_at(nodes, at)
    if word is not None and word.is_word("min", "minimum", "max", "maximum", "or", "at", "least"):
        at += 1
    counted = count_at(nodes, at)
    if counted is None or counted.end != len(nodes):
        return None
    if draft.count is None:
        draft.count = counted
        return []
    low, high = min(draft.least, counted.least), max(draft.most, counted.most)
    if low == high:
        return []
    forces.remark("two-numbers", f"Both numbers were kept: {low} to {high} players.", draft.start, bracket.end)
    draft.counted(low, high)
    return []


RULES = (
    remarks_apart,
    denied,
    same_player,
    some_elsewhere,
    realised,
    voice_told,
    chosen_of_kind,
    optional_player,
    beside_body,
    amplification,
    strengths,
    hands,
    channels,
    qualities,
    counted_each,
    number_of_players,
    partly_optional,
    chair_keys,
    pitches,
    keys_and_sizes,
    pointed_chairs,
    low_letter,
    pointed_chairs_apart,
    chair_list,
    one_each,
    chosen_size,
    chosen_kind,
    make_up,
    doubled,
    extra_players,
    smaller_number,
)
"""What a bracket may say, in the order in which it is tried."""
