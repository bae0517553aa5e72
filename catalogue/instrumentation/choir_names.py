"""Reads choirs by their names, ``mixed chorus``, ``two-part children's choir``, and with what voicing they have."""

from __future__ import annotations

import re

from catalogue.instrumentation.choirs import (
    CHOIR_WORDS,
    DOUBLE,
    Found,
    Lead,
    choir,
    choir_number,
    choirs_counted,
    ends_item,
    further_voicings,
    glued,
    name_of_choir,
    say_divided,
    say_of_choir,
    voicing_at,
)
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import AND, OF
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.numbers import cardinal
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, seats_at, token_at
from catalogue.instrumentation.qualities import Qualities
from catalogue.instrumentation.solo_groups import soloists_in_bracket
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.vocabulary import instruments, key_of
from catalogue.instrumentation.voice_ranges import ranged_at
from catalogue.instrumentation.voicings import (
    FEMALE,
    FEMALE_VOICE,
    MALE,
    MALE_VOICE,
    MIXED,
    UNACCOMPANIED,
    WHOLE,
    WHOLE_NAMES,
    is_letters,
    is_voicing,
    parts_of,
)

MOST_SINGERS = 2
PARTIES = {"parties", "partes", "parti", "parts"}
EQUAL = {"egales", "iguales", "pari", "eguali", "equal"}
MOST_PARTS = 24
MOST_COUNTED = 8
GENDERED = {"female voices": "female", "male voices": "male"}
VOICES = (
    "voices",
    "stimmen",
    "voci",
    "voix",
    "voces",
    "femmes",
    "feminines",
    "hommes",
    "femminili",
    "maschili",
    "femeninas",
    "masculinas",
    "mujer",
    "hombre",
)
STIMMIG = {"stg", "stimmiger", "stimmige", "stimmigen", "stimmigem", "stimmiges"}
MOST_CHOIRS = 12
IN_PARTS = ("a", "à", "zu", "in", "for", "für", "pour", "per", "para")


def choir_at(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Return the choirs or solo voices named here."""
    for read in (
        of_voices_at,
        soloists_in_bracket,
        choirs_counted,
        voicing_at,
        whole_at,
        named_at,
        voice_of_at,
        single_voice_at,
        ranged_at,
    ):
        found = read(nodes, at, forces, lead)
        if found is not None:
            return beside_stage(found, lead[0])
    return voices_at(nodes, at, forces)


def beside_stage(found: Found, qualities: Qualities) -> Found:
    """Let all who sing be off stage where that stands before them."""
    for draft in found[0]:
        draft.role = "offstage" if qualities.offstage else draft.role
    return found


def voice_of_at(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Read ``voix de soprano``, ``voce di tenore``: the voice that is named."""
    voice = name_at(nodes, lead[1])
    named = name_at(nodes, voice.end + 1) if voice is not None and is_key(token_at(nodes, voice.end), OF) else None
    if voice is None or "voice" not in voice.slugs or named is None or len(named.slugs) != 1:
        return None
    if not named.slugs[0].startswith("voice-"):
        return None
    draft = Draft(named.slugs[0], nodes[at].start, named.stop, name=named, count=lead[0].count)
    draft.optional, draft.amplified = lead[0].optional, lead[0].amplified
    return [draft], named.end, False


def single_voice_at(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Read ``female voice``, ``voix d'homme``: a singer of whom no more is said."""
    for words, note in ((FEMALE_VOICE, "female"), (MALE_VOICE, "male")):
        end = phrase_end(nodes, lead[1], words)
        if end is not None:
            draft = Draft("voice", nodes[at].start, nodes[end - 1].end, count=lead[0].count, notes=[note])
            draft.optional, draft.amplified = lead[0].optional, lead[0].amplified
            return [draft], end, False
    return None


def whole_at(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Read ``mixed chorus``, ``coro maschile``, ``chœur de femmes``."""
    start = lead[1]
    end = phrase_end(nodes, start, WHOLE_NAMES)
    if end is None:
        return kind_before(nodes, at, start)
    key = "".join(key_of(node.text) for node in nodes[start:end] if isinstance(node, Token) and node.kind == "word")
    last = choir_in_parts(nodes, at, forces)
    if last is not None and lead[0].count is not None:
        last.parts = min(lead[0].count.most, MOST_PARTS)
        last.notes.append(WHOLE[key])
        return [], end, True
    several = counted_singers(nodes, at, (start, end), forces, lead[0])
    if several is not None:
        return [several], end, False
    return with_voicing(nodes, at, end, "choir", WHOLE[key])


def counted_singers(
    nodes: Nodes, at: int, place: tuple[int, int], forces: Forces, qualities: Qualities
) -> Draft | None:
    """Return the few singers of ``4 women's voices``: a number before voices, and no word for a choir, counts them."""
    start, end = place
    key = "".join(node.key for node in nodes[start:end])
    kind = GENDERED.get(WHOLE[key])
    counted = qualities.count
    if kind is None or counted is None or counted.most > MOST_COUNTED or not key.endswith(VOICES):
        return None
    if end < len(nodes) and nodes[end].kind in ("bracket", "word") and not is_key(nodes[end], AND):
        return None
    first, last = nodes[at].start, nodes[end - 1].end
    readings = (f"{counted.most} singers", f"a choir in {counted.most} parts")
    if not forces.decide("voices", f"“{forces.written(first, last)}” was read as", readings, first, last):
        return None
    return Draft("voice", first, last, count=counted, optional=qualities.optional, notes=[kind])


def choir_in_parts(nodes: Nodes, at: int, forces: Forces) -> Draft | None:
    """Return the choir before a place of which nothing parts it but ``a``, ``à``, ``in``: how many parts it has."""
    last = forces.drafts[-1] if forces.drafts else None
    if last is None or last.slug != "choir" or last.parts != 1:
        return None
    return last if forces.text[last.end : nodes[at].start].strip().lower() in IN_PARTS else None


def kind_before(nodes: Nodes, at: int, start: int) -> Found | None:
    """Read a kind of choir with words between, ``male voice chorus``."""
    kinds = ((MIXED, "mixed"), (MALE, "male voices"), (FEMALE, "female voices"))
    for words, note in kinds:
        end = phrase_end(nodes, start, words)
        if end is None:
            continue
        found = name_at(nodes, end)
        if found is not None and found.slugs[0] == "voice" and found.end < len(nodes):
            found = name_at(nodes, found.end)
        if found is not None and found.slugs[0] == "choir":
            return with_voicing(nodes, at, found.end, "choir", note)
    return None


def named_at(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Read ``choir``, ``children's choir`` with a voicing or a number of singers after it."""
    qualities, start = lead
    double = is_key(token_at(nodes, at), DOUBLE)
    parted = in_parts_at(nodes, at)
    if parted is not None:
        return parted_choir(nodes, at, parted, forces)
    in_one_word = is_key(token_at(nodes, at), {"doppelchor", "doppelchore"})
    found = name_at(nodes, at + 1 if double and not in_one_word else start)
    if found is None or found.slugs[0] not in CHOIR_WORDS:
        return None
    if double:
        drafts, end, _ = with_voicing(nodes, at, found.end, found.slugs[0], "")
        if any(draft.group for draft in drafts):
            return drafts, end, False
        twice = [copy_to(draft, f"choir {number}") for number in (1, 2) for draft in drafts]
        return twice, end, False
    drafts, end, dropped = with_voicing(nodes, at, found.end, found.slugs[0], "")
    numbers = seats_at(nodes, end) if name_of_choir(nodes, end - 1) else None
    if numbers is not None and len(numbers[0]) > 1 and ends_item(nodes, numbers[1]):
        return [copy_to(draft, f"choir {one}") for one in numbers[0] for draft in drafts], numbers[1], False
    label, end = choir_number(nodes, end)
    for draft in drafts:
        draft.optional = qualities.optional
        draft.group = draft.group or label
        if qualities.count is not None and len(drafts) == 1 and qualities.count.most > 1:
            draft.group = f"{qualities.count.most} choirs"
    many = qualities.count.most if qualities.count is not None and len(drafts) > 1 else 1
    if 1 < many <= MOST_CHOIRS and not any(draft.group for draft in drafts):
        drafts = [copy_to(draft, f"choir {number}") for number in range(1, many + 1) for draft in drafts]
    return drafts, end, dropped


def in_parts_at(nodes: Nodes, at: int) -> tuple[int, int] | None:
    """Read ``two-part``, ``3-part``, ``dreistimmiger`` before a choir: the number of parts and where it ends."""
    token = token_at(nodes, at)
    said = re.fullmatch(r"(\w+?)stimmige[rnsm]?", token.lower) if token is not None else None
    if said is not None:
        number = cardinal(said[1])
        return (number, at + 1) if number else None
    number = token.number if token is not None and token.kind == "number" and len(token.text) < 3 else None
    if number and nodes[at + 1 : at + 2] and nodes[at + 1].is_mark("-") and is_key(token_at(nodes, at + 2), STIMMIG):
        return number, at + 3 + (at + 3 < len(nodes) and nodes[at + 3].is_mark("."))
    number = cardinal(token.text) if token is not None and token.kind == "word" else number
    end = at + 2 if at + 1 < len(nodes) and nodes[at + 1].is_mark("-") else at + 1
    parts = is_key(token_at(nodes, end), {"part", "parts", "voice", "voices"})
    return (number, end + 1) if number and parts else None


def parted_choir(nodes: Nodes, at: int, parted: tuple[int, int], forces: Forces) -> Found | None:
    """Return the choir after ``two-part`` with its number of parts."""
    found = whole_at(nodes, at, forces, (Qualities(), parted[1])) or named_at(
        nodes, parted[1], forces, (Qualities(), parted[1])
    )
    for draft in found[0] if found is not None else ():
        draft.parts = min(parted[0], MOST_PARTS)
    return found


def copy_to(draft: Draft, group: str) -> Draft:
    made = Draft(draft.slug, draft.start, draft.end, open=True, group=group, parts=draft.parts)
    made.notes = list(draft.notes)
    return made


def with_voicing(nodes: Nodes, at: int, end: int, slug: str, note: str) -> Found:
    """Return a choir with the voicing, the number of singers or the remark that follows its name."""
    unaccompanied = phrase_end(nodes, end, UNACCOMPANIED)
    after = unaccompanied if unaccompanied is not None and isinstance(node_at(nodes, unaccompanied), Bracket) else end
    after = after + 1 if after < len(nodes) and nodes[after].is_mark(":.") else after
    following = nodes[after] if after < len(nodes) else None
    inner: tuple[Node, ...] = following.nodes if isinstance(following, Bracket) else tuple(nodes[after : after + 8])
    each = counted_parts(inner, start_of(nodes, at), following) if slug == "choir" else []
    if each and isinstance(following, Bracket):
        return each, after + 1, False
    text, stop, optional = glued(inner, 0)
    used = after + 1 if isinstance(following, Bracket) else after + stop
    start = nodes[at].start
    if is_voicing(text) or (isinstance(following, Bracket) and is_letters(text)):
        voicings = [text]
        inner_end = further_voicings(inner, stop, voicings)
        used = used if isinstance(following, Bracket) else after + inner_end
        more = [one for one in inner[inner_end:] if not one.is_mark(",;.")] if isinstance(following, Bracket) else []
        if more and all(isinstance(one, Token) and is_voicing(one.text) for one in more):
            voicings, more = voicings + [one.text for one in more if isinstance(one, Token)], []
        if slug == "choir-children":
            made = Draft(slug, start, nodes[used - 1].end, open=True, parts=sum(parts_of(text).values()), notes=[text])
            return [made], used, False
        drafts = [
            draft
            for number, one in enumerate(voicings, 1)
            for draft in choir(one, start, nodes[used - 1].end, group=f"choir {number}" if len(voicings) > 1 else None)
        ]
        say_divided(drafts, inner[:stop])
        for draft in drafts:
            draft.notes += [" ".join(one.text for one in more if type(one) is Token)] * bool(more)
        return drafts + choir(optional, start, nodes[used - 1].end, optional=True), used, False
    named = named_parts(inner, start, nodes[used - 1].end) if isinstance(following, Bracket) and slug == "choir" else []
    if named:
        return named, after + 1, False
    draft = Draft(slug, start, nodes[end - 1].end, open=True, notes=[note] if note else [])
    if isinstance(following, Bracket):
        draft.brackets.append(following)
        return [draft], after + 1, False
    return [draft], end, False


def start_of(nodes: Nodes, at: int) -> int:
    return nodes[at].start


def counted_parts(inner: tuple[Node, ...], start: int, bracket: Node | None) -> list[Draft]:
    """Return the parts of ``(3S, 3A, 3T, 3B)``, each with its number of singers; nothing where it says otherwise."""
    if not isinstance(bracket, Bracket) or not any(one.is_mark(",;+/") for one in inner):
        return []
    parts = named_parts(inner, start, bracket.end)
    return parts if len(parts) > 1 and all(one.count is not None for one in parts) else []


def node_at(nodes: Nodes, at: int) -> Node | None:
    return nodes[at] if at < len(nodes) else None


def named_parts(nodes: Nodes, start: int, end: int) -> list[Draft]:
    """Return the parts of a choir that a bracket names, ``(3 sopranos, 3 altos)``; nothing where it says more."""
    found: list[Draft] = []
    at = 0
    while at < len(nodes):
        if nodes[at].is_mark(",;+/") or is_key(nodes[at], AND):
            at += 1
            continue
        counted = count_at(nodes, at)
        name = name_at(nodes, counted.end if counted else at)
        voice = next((slug for slug in name.slugs if slug.startswith("voice-")), None) if name is not None else None
        if name is None or voice is None or (counted is not None and not counted.most):
            return []
        part = Draft(voice.replace("voice-", "choir-"), start, end, open=True, count=counted)
        found.append(part)
        at = name.end
    return found if all(part.slug in instruments() for part in found) else []


def of_voices_at(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Read the voices of the choir before, ``coro a otto voci (SSAATTBB)``: its parts, and no singers beside it."""
    last = choir_in_parts(nodes, at, forces)
    counted = count_at(nodes, at) if last is not None else None
    voices = name_at(nodes, counted.end) if counted is not None else None
    bracket = nodes[voices.end] if voices is not None and voices.end < len(nodes) else None
    sung = voices is not None and voices.slugs[0] == "voice"
    if last is None or voices is None or not sung or not isinstance(bracket, Bracket):
        return None
    text, end, _ = glued(bracket.nodes, 0)
    if not is_voicing(text) or end != len(bracket.nodes):
        return None
    forces.drafts.remove(last)
    return choir(text, last.start, bracket.end), voices.end + 1, False


def voices_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``3 voices, any combination``: a choir of so many parts, whoever sings them."""
    counted = count_at(nodes, at)
    if counted is None:
        return None
    start = counted.end
    equal = is_key(token_at(nodes, start), {"equal", "gleiche", "mixed"})
    found = name_at(nodes, start + 1 if equal else start)
    if is_key(token_at(nodes, start), PARTIES) and choir_in_parts(nodes, at, forces) is not None:
        found = Name(("voice",), "", start, start + 1, nodes[start].start, nodes[start].end)
    if found is None or found.slugs != ("voice",):
        return None
    end = found.end + is_key(token_at(nodes, found.end), EQUAL)
    last = forces.drafts[-1] if forces.drafts else None
    parted = choir_in_parts(nodes, at, forces)
    if parted is not None and counted.least == counted.most <= MOST_PARTS and ends_item(nodes, end):
        parted.parts = counted.most
        return [], end, True
    if last is not None and last.slug.startswith("choir") and counted.most > MOST_SINGERS and ends_item(nodes, end):
        say_of_choir(last, forces.written(nodes[at].start, found.stop), forces)
        return [], end, True
    while end < len(nodes) and (nodes[end].is_mark(",") or is_key(nodes[end], {"any", "combination", "in", "of"})):
        end += 1
    said = equal or any(is_key(node, {"combination"}) for node in nodes[found.end : end])
    if not said:
        return None
    draft = Draft("choir", nodes[at].start, nodes[end - 1].end, open=True, parts=counted.most)
    draft.notes.append("equal voices" if equal else "any combination")
    return [draft], end, False


def calls_choir(nodes: Nodes, at: int, end: int) -> bool:
    """Whether the nodes hold a word for a choir, who are no soloists whatever the heading before said."""
    found = (name_at(nodes, one) for one in range(at, end))
    return any(name is not None and name.slugs[0].startswith("choir") for name in found)
