"""Reads choirs and groups of solo singers by their voicing, ``SATB``, ``2T2B``, ``SA[TB]``, ``STB soli``."""

from __future__ import annotations

from itertools import pairwise

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import AND, OR, SOLO, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, limited_count, phrase_end, seat_value, token_at
from catalogue.instrumentation.qualities import Qualities
from catalogue.instrumentation.senses import in_section
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.voicings import is_letters, is_voicing, parts_of

Found = tuple[list[Draft], int, bool]
Lead = tuple[Qualities, int]
DOUBLE = {"double", "doppelchor", "doppelter", "doppio", "doble"}
TO = {"to", "bis", "a", "jusqua", "fino", "hasta"}
DIVISI = {"div", "divisi", "divided", "geteilt", "divise", "max", "maximum"}
SINGERS = {"singers", "voices", "sanger", "stimmen", "chanteurs", "voix", "cantanti", "voci", "cantantes", "voces"}
MOST_IN_A_PART = 100
SEMI_CHORUS = keyed("semi-chorus semichorus semi-choir halbchor demi-chœur semicoro")
SINGLE_LETTERS = ("S", "M", "A", "T", "B")
FEWEST_LETTERS = 3
LONGEST_VOICING = 120
"""Letters; what is written together beyond them is no voicing."""
FEWEST_CHOIRS = 2
CHOIR_WORDS = ("choir", "choir-children")


def glued(nodes: Nodes, at: int) -> tuple[str, int, str]:
    """Return the letters and figures written together here, their end, and the voices in square brackets."""
    text, optional, end = "", "", at
    while end < len(nodes) and len(text) < LONGEST_VOICING:
        node = nodes[end]
        if end > at and node.spaced:
            break
        if isinstance(node, Bracket):
            if text and is_divisi(node) and letters_follow(nodes, end):
                end += 1
                continue
            inside = "".join(one.text for one in node.nodes if isinstance(one, Token))
            if not text or not inside or not all(one in "SMATB" for one in inside):
                break
            if node.opening != "[" and not letters_follow(nodes, end):
                break
            optional += inside
        elif node.kind == "mark":
            break
        else:
            text += node.text
        end += 1
    return text, end, optional


def spaced_letters(nodes: Nodes, at: int) -> tuple[str, int] | None:
    """Return the voicing of single letters that blanks part, ``S A T B soli``, and its end; of three or more."""
    end, text = at, ""
    while (token := token_at(nodes, end)) is not None and token.text in SINGLE_LETTERS and (end == at or token.spaced):
        text += token.text
        end += 1
    return (text, end) if len(text) >= FEWEST_LETTERS and is_voicing(text) else None


def letters_follow(nodes: Nodes, at: int) -> bool:
    """Whether letters are written to a round bracket, so that it holds a part of the voicing, ``SA(T)B``."""
    following = token_at(nodes, at + 1)
    return following is not None and following.kind == "word" and not following.spaced and is_letters(following.text)


def voicing_at(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Read ``SATB``, ``2T2B``, ``SA[TB]``, ``SATB/SATB``, with what kind of singers they are."""
    double = is_key(token_at(nodes, at), DOUBLE)
    start = at if nodes[at].kind == "number" else at + 1 if double else lead[1]
    apart = spaced_letters(nodes, start)
    text, end, optional = (*apart, "") if apart is not None else glued(nodes, start)
    text = text.removesuffix("CH") if is_voicing(text.removesuffix("CH")) else text
    if not is_voicing(text) or is_trombone(text, nodes, end, forces):
        return None
    voicings = [text]
    end = further_voicings(nodes, end, voicings)
    whole = divides_whole(nodes, end)
    end += whole
    sizes = sizes_at(nodes, end, voicings, nodes[at].start)
    if sizes is not None:
        return sizes
    smaller = phrase_end(nodes, end, SEMI_CHORUS)
    solo, end = singers_end(nodes, end) if smaller is None else (False, smaller)
    solo |= lead[0].solo and name_of_choir(nodes, end - 1) is None
    if len(text) == 2 and len(voicings) == 1 and not (solo or optional or followed_well(nodes, at, start, end)):
        return None
    double, end = double or is_key(token_at(nodes, end), DOUBLE), past_double(nodes, end)
    start_at, stop = nodes[at].start, nodes[end - 1].end
    if solo:
        return [draft for one in voicings for draft in soloists(one, start_at, stop)], end, False
    upper, end = upper_voicing(nodes, end)
    if len(voicings) > 1 and len(text) == 2 and nodes[start + 1].is_mark("/"):
        return either(voicings, start_at, stop), end, False
    twice = double_told(nodes, end)
    if (double or twice) and len(voicings) == 1:
        voicings, end = voicings * 2, end + twice
    label, end = choir_number(nodes, end) if len(voicings) == 1 else (None, end)
    drafts: list[Draft] = []
    for number, one in enumerate(voicings, 1):
        drafts += choir(one, start_at, stop, group=f"choir {number}" if len(voicings) > 1 else label)
    drafts += choir(optional, start_at, stop, optional=True)
    say_divided(drafts, nodes[start:end])
    say_of_parts(drafts, ["divisi"] * whole + [upper] * bool(upper) + ["semi-chorus"] * (smaller is not None))
    return drafts, end, False


def say_of_parts(drafts: list[Draft], notes: list[str]) -> None:
    for draft in drafts:
        draft.notes += notes


def is_trombone(text: str, nodes: Nodes, end: int, forces: Forces) -> bool:
    """Whether ``TB`` stands among brass, as in ``2TPT / TB / TBA``, and no word for singers after it."""
    sung = name_at(nodes, end)
    called = sung is not None and sung.slugs[0] in (*CHOIR_WORDS, "voice")
    return text == "TB" and not called and bool(forces.drafts) and forces.drafts[-1].family == "brass"


def upper_voicing(nodes: Nodes, at: int) -> tuple[str, int]:
    """Read ``to SSAATTBB`` after a voicing: the most parts that it divides into."""
    text, end, _ = glued(nodes, at + 1) if is_key(token_at(nodes, at), TO) and at + 1 < len(nodes) else ("", at, "")
    return (f"to {text}", end) if is_voicing(text) else ("", at)


def sizes_at(nodes: Nodes, at: int, voicings: list[str], start: int) -> Found | None:
    """Read ``SATB saxophones``, ``AATB recorders``: sizes of an instrument by their letters, no voices."""
    found = name_at(nodes, at)
    family = found.slugs[0] if found is not None and found.slugs[0] in ("saxophone", "recorder") else ""
    letters = [letter.lower() for letter in voicings[0]]
    slugs = [in_section(letter, family) for letter in letters] if family and len(voicings) == 1 else []
    if found is None or not slugs or not all(slugs):
        return None
    drafts = []
    for slug in dict.fromkeys(filter(None, slugs)):
        draft = Draft(slug, start, found.stop)
        draft.counted(slugs.count(slug))
        drafts.append(draft)
    return drafts, found.end, False


def name_of_choir(nodes: Nodes, at: int) -> str | None:
    """Return the name of a choir that ends before ``at``, ``None`` where none does."""
    found = name_at(nodes, at)
    return found.written if found is not None and found.slugs[0] in CHOIR_WORDS else None


def past_double(nodes: Nodes, at: int) -> int:
    """Pass over ``double choir``, ``Doppelchor`` after the voicings of both, which it only calls so."""
    if not is_key(token_at(nodes, at), DOUBLE):
        return at
    found = name_at(nodes, at + 1)
    return at + 1 if found is None or found.slugs[0] not in CHOIR_WORDS else found.end


def double_told(nodes: Nodes, at: int) -> bool:
    """Whether a bracket here says that the choir is double, ``SATB (double choir)``."""
    bracket = nodes[at] if at < len(nodes) else None
    return isinstance(bracket, Bracket) and bool(bracket.nodes) and is_key(bracket.nodes[0], DOUBLE)


def divided_singers(nodes: Nodes, at: int) -> int | None:
    """Return the end of ``div. choir``: a choir of which it is said that it divides."""
    after = at + 1 + (at + 1 < len(nodes) and nodes[at + 1].is_mark("."))
    sung = name_at(nodes, after) if is_key(nodes[at], DIVISI) else None
    return sung.end if sung is not None and sung.slugs[0] in ("choir", "voice") else None


def voicing_here(nodes: Nodes, at: int) -> bool:
    token = token_at(nodes, at)
    return token is not None and is_voicing(token.text)


def choir_number(nodes: Nodes, at: int) -> tuple[str | None, int]:
    """Read the number after a choir, ``SATB choir 1``, as its label: a separator or nothing follows it."""
    value = seat_value(token_at(nodes, at))
    if value is None or not value or name_of_choir(nodes, at - 1) is None:
        return None, at
    return (f"choir {value}", at + 1) if ends_item(nodes, at + 1) else (None, at)


def ends_item(nodes: Nodes, at: int) -> bool:
    """Whether a separator stands here, or nothing at all."""
    token = token_at(nodes, at)
    if at >= len(nodes) or token is None:
        return at >= len(nodes)
    return is_key(token, AND) or token.is_mark(",;:+&\n") or (token.is_mark("-") and token.spaced)


def choirs_counted(nodes: Nodes, at: int, forces: Forces, lead: Lead) -> Found | None:
    """Read ``2 SATB choirs``."""
    counted = count_at(nodes, at)
    if counted is None or counted.least != counted.most or not 2 <= counted.least <= 12:
        return None
    text, end, _ = glued(nodes, counted.end)
    found = name_at(nodes, end) if end < len(nodes) else None
    if not is_voicing(text) or found is None or found.slugs[0] != "choir":
        return None
    drafts: list[Draft] = []
    for number in range(1, counted.least + 1):
        drafts += choir(text, nodes[at].start, found.stop, group=f"choir {number}")
    return drafts, found.end, False


def further_voicings(nodes: Nodes, end: int, voicings: list[str]) -> int:
    """Take further voicings after a slash or plus, or ``×2``."""
    while end + 1 < len(nodes) and (nodes[end].is_mark("/+×") or nodes[end].is_word("x")):
        following = token_at(nodes, end + 1)
        if following is not None and following.kind == "number" and nodes[end].is_mark("×") | nodes[end].is_word("x"):
            voicings *= min(max(int(following.text[:2]), 1), 12)
            return end + 2
        text, after, _ = glued(nodes, end + 1)
        if not is_voicing(text):
            break
        voicings.append(text)
        end = after
    return end


def singers_end(nodes: Nodes, at: int) -> tuple[bool, int]:
    """Pass over ``choir``, ``chorus``, ``voices``, ``divisi``; tell whether they are called soloists."""
    solo = False
    while at < len(nodes):
        found = name_at(nodes, at)
        end = phrase_end(nodes, at, SOLO)
        if end is not None:
            solo, at = True, end
        elif found is not None and found.slugs[0] in ("choir", "voice"):
            at = found.end
        elif (sung := divided_singers(nodes, at)) is not None:
            at = sung
        else:
            break
    return solo, at


def followed_well(nodes: Nodes, at: int, start: int, end: int) -> bool:
    """Whether two letters may be a choir: it is called one, or it stands alone between separators."""
    called = name_at(nodes, start + 1)
    if called is not None and called.slugs[0] == "choir":
        return True
    token = token_at(nodes, start)
    alone = token is not None and token.text in ("SA", "TB", "TT", "BB", "SS", "AA", "ST", "SB", "AT")
    after = end >= len(nodes) or nodes[end].is_mark(",;+/\n") or is_key(nodes[end], OR)
    return alone and after and at == start


def either(voicings: list[str], start: int, end: int) -> list[Draft]:
    """Return the choir of ``SA/TB``: as many parts as each side has, high or low voices."""
    draft = Draft("choir", start, end, open=True)
    draft.parts = len(voicings[0])
    draft.notes.append("/".join(voicings))
    return [draft]


def choir(text: str, start: int, end: int, *, group: str | None = None, optional: bool = False) -> list[Draft]:
    """Return one draft a part of a choir."""
    drafts = []
    for part, number in parts_of(text).items():
        draft = Draft(f"choir-{part}", start, end, open=True, group=group, optional=optional, parts=number)
        drafts.append(draft)
    return drafts


def soloists(text: str, start: int, end: int) -> list[Draft]:
    """Return one draft for each kind of solo voice of a voicing."""
    drafts = []
    for part, number in parts_of(text).items():
        draft = Draft(f"voice-{part}", start, end)
        draft.counted(number)
        drafts.append(draft)
    return drafts


def sing_alone(draft: Draft) -> None:
    """Make solo voices of the parts of a voicing that stands under a heading for soloists."""
    part = draft.slug.removeprefix("choir-")
    if part != draft.slug and part != "children":
        draft.slug, draft.open = f"voice-{part}", False
        draft.counted(draft.parts)
        draft.parts = 1


def divisi_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``max divisi SSAATTBB`` as a note on the choir before it."""
    if not is_key(nodes[at], DIVISI):
        return None
    end = at
    while end < len(nodes) and (is_key(nodes[end], DIVISI) or (end > at and nodes[end].is_mark("."))):
        end += 1
    end -= nodes[end - 1].is_mark(".") and not voicing_here(nodes, end)
    token = token_at(nodes, end)
    last = next((draft for draft in reversed(forces.drafts) if draft.slug.startswith("choir")), None)
    if last is None:
        return None
    note = "divisi"
    if token is not None and is_voicing(token.text):
        end += 1
        note = forces.written(nodes[at].start, token.end)
    say_of_choir(last, note, forces)
    return [], end, True


def is_divisi(bracket: Bracket) -> bool:
    """Whether a bracket says how far a choir divides, ``(max. div. SSAATTBB)``."""
    return any(is_key(node, DIVISI) for node in bracket.nodes[:2])


def say_divided(drafts: list[Draft], nodes: Nodes) -> None:
    """Say of the parts of a voicing that they divide where a bracket tells so, ``S(div)A(div)TB``."""
    for before, node in pairwise(nodes):
        if isinstance(node, Bracket) and not node.spaced and isinstance(before, Token) and is_divisi(node):
            parts = {f"choir-{part}" for part in list(parts_of(before.text))[-1:]}
            for draft in drafts:
                draft.notes += ["divisi"] * (draft.slug in parts)


def divides_whole(nodes: Nodes, at: int) -> bool:
    """Whether a bracket between a voicing and its choir says that all parts divide, ``SATB (div) choir``."""
    bracket = nodes[at] if at + 1 < len(nodes) else None
    return isinstance(bracket, Bracket) and is_divisi(bracket) and name_of_choir(nodes, at + 1) is not None


def strength_told(drafts: list[Draft], bracket: Bracket, forces: Forces) -> bool:
    """Settle how many sing: ``SATB (4.4.4.4)`` counts each part, ``(24 singers)`` is said of all."""
    if not drafts or not all(draft.slug.startswith("choir-") for draft in drafts):
        return False
    numbers = [node.number for node in bracket.nodes if type(node) is Token and node.kind == "number"]
    only = len(numbers) == sum(draft.parts for draft in drafts) and all(
        node.kind == "number" or node.is_mark(".,/-") for node in bracket.nodes
    )
    counted = count_at(bracket.nodes, 0) or limited_count(bracket.nodes, 0)
    if only and len(numbers) > 1 and max(numbers) < MOST_IN_A_PART:
        for draft in drafts:
            own, numbers = numbers[: draft.parts], numbers[draft.parts :]
            draft.counted(sum(own))
    elif counted is not None and is_key(token_at(bracket.nodes, counted.end), SINGERS):
        for draft in drafts:
            draft.notes.append(forces.written(bracket.nodes[0].start, bracket.nodes[-1].end))
    else:
        return False
    return True


def say_of_choir(last: Draft, note: str, forces: Forces) -> None:
    """Keep a note on all parts of the choir that a draft belongs to."""
    for draft in forces.drafts:
        if (draft.start, draft.end, draft.group) == (last.start, last.end, last.group):
            draft.notes.append(note)


def number_alike(forces: Forces) -> None:
    """Number choirs whose parts are named one after another, ``SATB, SATB``: they are two and no divided one."""
    bodies: dict[tuple[int, int], list[Draft]] = {}
    for draft in forces.drafts:
        if draft.slug.startswith("choir-") and draft.slug != "choir-children" and draft.count is None:
            bodies.setdefault((draft.start, draft.end), []).append(draft)
    parts = [{one.slug for one in body} for body in bodies.values()]
    told = any(one.group or one.notes or one.optional for body in bodies.values() for one in body)
    if len(bodies) < FEWEST_CHOIRS or told or not all(one & parts[0] for one in parts):
        return
    for number, body in enumerate(bodies.values(), 1):
        for one in body:
            one.group = f"choir {number}"
