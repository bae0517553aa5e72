"""Reads one item of a list: ``2 fl (II=picc)``, ``solo violin``, ``horns in F 1,2``, or a bare figure of a formula.

item = { qualifier } , [ number ] , { qualifier } , ( name , { tail } | bracket ) ;
tail = key | part numbers | bracket | "*" | qualifier | ( "or" | "/" ) , name | doubling clause ;
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from catalogue.instrumentation.doublings import Section, clause_end, doublings_in, linked, who_at
from catalogue.instrumentation.drafts import Count, Draft, Forces
from catalogue.instrumentation.lexicon import (
    AMPLIFIED,
    AND,
    ARTICLES,
    DESKS,
    ELECTRIC,
    OFFSTAGE,
    OPTIONAL,
    OR,
    REMARKS,
    SOLO,
)
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.numbers import roman
from catalogue.instrumentation.phrases import (
    count_at,
    is_key,
    is_small,
    keys_end,
    ordinal_at,
    phrase_end,
    pitch_end,
    seats_at,
    token_at,
)
from catalogue.instrumentation.senses import KEYED
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.vocabulary import instrument, key_of

MOST_QUALITIES = 16


@dataclass(slots=True)
class Qualities:
    """What stands before a name: number, seat and qualifiers."""

    count: Count | None = None
    seat: int | None = None
    optional: bool = False
    amplified: bool = False
    solo: bool = False
    offstage: bool = False
    pairs: bool = False
    unit: str | None = None
    numbered: bool = False
    seats: tuple[int, ...] = ()
    pitch: tuple[int, int] | None = None
    bracket: Bracket | None = None


def item_at(nodes: Nodes, at: int, forces: Forces, *, formula: bool, slash_parts: bool) -> tuple[Draft, int] | None:
    """Return the item that begins here and its end, or ``None`` where none does."""
    qualities, end = qualities_at(nodes, at)
    name = name_at(nodes, end)
    if qualities.count is not None and long_figure(nodes, at):
        return figure_item(nodes, at, forces, qualities, end)
    if formula_letter(nodes, end, forces, formula=formula) and (name is None or name.end == end + 1):
        name = letter_name(nodes, end)
    if name is None:
        return figure_item(nodes, at, forces, qualities, end)
    draft = Draft(name.slugs[0] if len(name.slugs) == 1 else "", nodes[at].start, name.stop, name=name)
    apply_qualities(draft, qualities)
    draft.extra = at > 0 and nodes[at - 1].is_mark("+")
    both = both_violins(nodes, name)
    if both is not None:
        draft.slug, draft.number_after = "violin", (1, 2)
        name = replace(name, end=both)
    draft.plural = is_plural(name)
    end = tail(nodes, name.end, draft, forces, formula=formula, slash_parts=slash_parts)
    draft.end = nodes[end - 1].end
    return draft, end


def both_violins(nodes: Nodes, name: Name) -> int | None:
    """Return the end of ``violins I, II``, ``vn I & II``, ``violin 1 and 2``."""
    if name.slugs[0] != "violin-1":
        return None
    at = name.end
    while at < len(nodes) and (nodes[at].is_mark(",+/-&") or is_key(nodes[at], AND)):
        at += 1
    token = token_at(nodes, at)
    second = token is not None and at > name.end and (token.text in ("II", "2"))
    if not second or named_follows(nodes, at + 1, 1):
        return None
    return at + 1


def long_figure(nodes: Nodes, at: int) -> bool:
    """Whether three or more figures are written together: places, never a number of players."""
    token = token_at(nodes, at)
    return token is not None and token.kind == "number" and len(token.text) > 2


def formula_letter(nodes: Nodes, at: int, forces: Forces, *, formula: bool) -> bool:
    """Whether a single letter after figures stands for timpani or percussion."""
    token = token_at(nodes, at)
    if not formula or token is None or not token.is_word("p", "t") or not forces.drafts:
        return False
    if nodes[at - 1].is_mark("+") and not any(draft.slug == "timpani" for draft in forces.drafts):
        return False
    return not any(draft.family == "voice" for draft in forces.drafts) and forces.drafts[0].figure


def letter_name(nodes: Nodes, at: int) -> Name | None:
    token = token_at(nodes, at)
    if token is None:
        return None
    slug = "percussion" if token.lower == "p" else "timpani"
    return Name((slug,), token.text, at, at + 1, token.start, token.end)


def is_plural(name: Name) -> bool:
    """Whether the name is a plural that differs from its singular."""
    for slug in name.slugs:
        for names in instrument(slug).names.values():
            plural = key_of(names.plural)
            if plural != key_of(names.singular) and plural == key_of(name.written):
                return True
    return False


def apply_qualities(draft: Draft, qualities: Qualities) -> None:
    draft.count = qualities.count
    draft.optional = qualities.optional
    draft.amplified = qualities.amplified
    draft.unit = qualities.unit
    if qualities.solo or qualities.offstage:
        draft.role = "soloist" if qualities.solo else "offstage"
    if qualities.seat is not None:
        draft.seats = (qualities.seat,)
    if qualities.seats:
        draft.seats = qualities.seats
    if qualities.numbered:
        draft.collective = "numbered"
    if qualities.bracket is not None:
        draft.brackets.append(qualities.bracket)
    if qualities.pairs and qualities.count is not None:
        drums = draft.slug in ("timpani", "cymbals")
        factor = 1 if drums else 2
        draft.counted(qualities.count.least * factor, qualities.count.most * factor)


def qualities_at(nodes: Nodes, at: int) -> tuple[Qualities, int]:
    """Return what stands before a name and where the name would begin."""
    found = Qualities()
    last = at + MOST_QUALITIES
    while at < min(len(nodes), last):
        step = quality_end(nodes, at, found)
        if step is None:
            break
        at = step
    return found, at


def quality_end(nodes: Nodes, at: int, found: Qualities) -> int | None:
    node = nodes[at]
    if isinstance(node, Bracket):
        return count_bracket(nodes, at, found)
    name = name_at(nodes, at)
    for words, quality in (
        (OPTIONAL, "optional"),
        (AMPLIFIED, "amplified"),
        (ELECTRIC, "amplified"),
        (SOLO, "solo"),
        (OFFSTAGE, "offstage"),
    ):
        end = phrase_end(nodes, at, words)
        if end is not None and (name is None or name.end <= end) and end < len(nodes) and continues(nodes, end):
            setattr(found, quality, True)
            return end
    if name is not None and not (node.kind == "word" and is_small(node, ARTICLES) and name.end == at + 1):
        return None
    if found.count is not None and is_key(node, DESKS):
        found.unit = "desks"
        return after_of(nodes, at + 1)
    if found.count is not None and node.is_word("pair", "pairs", "paar", "paires", "paia", "pares"):
        found.pairs = True
        return at + 1
    return number_end(nodes, at, found)


def continues(nodes: Nodes, at: int) -> bool:
    """Whether a name, number or qualifier follows without a separator."""
    return nodes[at].kind in ("word", "number")


def number_end(nodes: Nodes, at: int, found: Qualities) -> int | None:
    node = nodes[at]
    if isinstance(node, Bracket):
        return None
    pitch = pitch_end(nodes, at)
    if pitch is not None and pitch < len(nodes) and nodes[pitch].kind == "word" and name_at(nodes, pitch) is not None:
        found.pitch = (node.start, nodes[pitch - 1].end)
        return pitch
    seat = ordinal_at(nodes, at)
    if seat is not None and found.seat is None and seat[1] < len(nodes) and not nodes[seat[1]].is_mark(".,"):
        found.seat = seat[0]
        return seat[1]
    numeral = roman(node.text) if node.kind == "word" and node.text.isupper() else None
    if numeral is not None and found.seat is None and name_at(nodes, at + 1) is not None:
        found.seat, found.numbered = numeral, True
        return at + 1
    both = seats_at(nodes, at) if node.kind == "word" or ordinal_at(nodes, at) else None
    if both is not None and len(both[0]) == 2 and found.seat is None and name_at(nodes, both[1]) is not None:
        found.seats = both[0]
        return both[1]
    if found.count is None and found.seat is None:
        counted = count_at(nodes, at)
        if counted is not None and not is_measure(nodes, counted.end):
            found.count = counted
            return after_of(nodes, counted.end)
    if is_small(node, ARTICLES | REMARKS) and not node.is_word("not", "no"):
        return at + 1
    return None


def after_of(nodes: Nodes, at: int) -> int:
    token = token_at(nodes, at)
    return at + 1 if token is not None and token.is_word("of", "x", "×") and at + 1 < len(nodes) else at


def is_measure(nodes: Nodes, at: int) -> bool:
    """Whether the number before measures something: ``8-channel``, ``4-octave``, ``1/4``."""
    link, word = token_at(nodes, at), token_at(nodes, at + 1)
    if link is None or word is None or link.spaced or word.spaced:
        return False
    return link.is_mark("-") and word.kind == "word" and name_at(nodes, at + 1) is None


def count_bracket(nodes: Nodes, at: int, found: Qualities) -> int | None:
    """Take a bracket between a number and a name, ``4 (2) Trompeten``, ``2 (optional 4) clarinets``."""
    bracket = nodes[at]
    if not isinstance(bracket, Bracket) or found.count is None or found.bracket is not None:
        return None
    numbers = [one for one in bracket.nodes if one.kind == "number"]
    if len(bracket.nodes) > 4 or len(numbers) != 1 or at + 1 >= len(nodes) or name_at(nodes, at + 1) is None:
        return None
    found.bracket = bracket
    return at + 1


def figure_item(nodes: Nodes, at: int, forces: Forces, qualities: Qualities, end: int) -> tuple[Draft, int] | None:
    """Return a bare figure with its star, ``d`` and brackets."""
    count = qualities.count
    token = token_at(nodes, at)
    if count is None or token is None or token.kind != "number" or qualities.seat is not None:
        return None
    end = count.end
    if unknown_follows(nodes, end, formula=forces.formula):
        return None
    draft = Draft("", token.start, token.end, count=count, figure=True, packed=len(token.text) > 2)
    end = d_suffix(nodes, end, draft)
    while end < len(nodes):
        node = nodes[end]
        after_dot = node.is_mark(".") and end + 1 < len(nodes) and isinstance(nodes[end + 1], Bracket)
        if isinstance(node, Bracket):
            draft.brackets.append(node)
            end += 1
        elif node.is_mark("*"):
            draft.starred, end = True, end + 1
        elif after_dot and nodes[end + 1].start >= node.end:
            end += 1
        else:
            break
    draft.end = nodes[end - 1].end
    return draft, end


def unknown_follows(nodes: Nodes, at: int, *, formula: bool) -> bool:
    """Whether a number counts a word that is no known name, ``2 glass vases``."""
    token = token_at(nodes, at)
    if token is None or token.kind != "word" or len(token.text) < 4 or formula:
        return False
    return not is_key(token, REMARKS | ARTICLES | OR | AND)


def d_suffix(nodes: Nodes, at: int, draft: Draft) -> int:
    """Read ``d1``, ``d2es`` after a figure: so many of them double, the usual auxiliary or the one named."""
    letter, figure = token_at(nodes, at), token_at(nodes, at + 1)
    if letter is None or figure is None or not is_d_letter(letter) or figure.kind != "number" or figure.spaced:
        return at
    draft.doubles = min(figure.number, 99)
    named = token_at(nodes, at + 2)
    if named is not None and named.kind == "word" and len(named.text) <= 8:
        draft.clauses.append((named,))
        return at + 3
    return at + 2


def is_d_letter(token: Token) -> bool:
    return token.is_word("d") and not token.spaced


def tail(nodes: Nodes, at: int, draft: Draft, forces: Forces, *, formula: bool, slash_parts: bool) -> int:
    """Read what belongs to a name after it and return where the item ends."""
    while at < len(nodes):
        step = tail_step(nodes, at, draft, forces, formula, slash_parts)
        if step is None or step == at:
            break
        at = step
    return at


def tail_step(nodes: Nodes, at: int, draft: Draft, forces: Forces, formula: bool, slash_parts: bool) -> int | None:
    node = nodes[at]
    if isinstance(node, Bracket):
        return bracket_tail(nodes, at, draft)
    if node.kind == "note":
        draft.notes.append(forces.text[node.start + 1 : node.end - 1])
        return at + 1
    if node.is_mark("*"):
        return at + 1
    if node.is_mark("."):
        following = nodes[at + 1] if at + 1 < len(nodes) else None
        if numbered_after_point(nodes, at, draft, formula=formula):
            return at + 1
        return at + 1 if isinstance(following, Bracket) and not following.spaced else None
    keys = keys_end(nodes, at)
    if keys is not None:
        note_pitch(draft, forces, nodes, at + 1, keys)
        return keys
    for step in (hands_tail, quality_tail, pitch_tail, seat_tail):
        end = step(nodes, at, draft, formula)
        if end is not None:
            return end
    if node.is_mark("/") and not slash_parts:
        return slash_tail(nodes, at, draft)
    if is_key(node, OR) or (forces.language == "es" and node.is_word("u")):
        return or_tail(nodes, at, draft)
    return clause_tail(nodes, at, draft, forces)


def numbered_after_point(nodes: Nodes, at: int, draft: Draft, *, formula: bool) -> bool:
    """Whether an abbreviation's point is followed by a part number, ``Perc. 1:``, ``Vl. II``."""
    read = seats_at(nodes, at + 1)
    if read is None or not nodes[at + 1].spaced or draft.number_after:
        return False
    if read[1] < len(nodes) and nodes[read[1]].is_mark(":"):
        return True
    return not formula and not named_follows(nodes, read[1], len(read[0]))


def bracket_tail(nodes: Nodes, at: int, draft: Draft) -> int:
    bracket = nodes[at]
    assert isinstance(bracket, Bracket)  # noqa: S101 — narrows the type, the caller has looked
    glued = not bracket.spaced and pitch_end(bracket.nodes, 0) == len(bracket.nodes)
    if glued and draft.name is not None and (keyed := keyed_slug(draft, bracket.nodes)):
        draft.slug = keyed
    else:
        draft.brackets.append(bracket)
    return at + 1


def keyed_slug(draft: Draft, nodes: Nodes) -> str | None:
    """Return the instrument that a key makes of a clarinet or flute: ``cl(Eb)``, ``Klar[Es]``, ``flute in G``."""
    key = "".join(key_of(one.text) for one in nodes if isinstance(one, Token))
    slugs = draft.name.slugs if draft.name else ()
    return next((KEYED[(slug, key)] for slug in slugs if (slug, key) in KEYED), None)


def note_pitch(draft: Draft, forces: Forces, nodes: Nodes, start: int, end: int) -> None:
    keyed = keyed_slug(draft, nodes[start:end])
    if keyed is not None and keyed not in ("c-clarinet", "d-trumpet"):
        draft.slug = keyed
        return
    draft.notes.append("in " + forces.written(nodes[start].start, nodes[end - 1].end))


def hands_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    """Read ``4-hands``, ``four hands``, ``à quatre mains``: two hands a player."""
    if draft.family != "keyboard":
        return None
    start = at
    while at < len(nodes) and (nodes[at].is_mark(",-") or is_key(nodes[at], {"a", "for", "zu"})):
        at += 1
    if is_key(token_at(nodes, at), {"vierhandig", "quatremains"}):
        hands, end = 4, at + 1
    else:
        counted = count_at(nodes, at)
        if counted is None:
            return None
        hands, end = counted.most, counted.end
        end += end < len(nodes) and nodes[end].is_mark("-")
        if not is_key(token_at(nodes, end), {"hands", "hand", "mains", "handen", "mani", "manos", "hande"}):
            return None
        end += 1
    if hands >= 2 * (draft.count.most if draft.count else 1):
        draft.counted(max(hands // 2, 1))
    draft.notes.append(f"{hands} hands")
    return end if end > start else None


def quality_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    optional = phrase_end(nodes, at, OPTIONAL)
    if optional is not None:
        draft.optional = True
        return optional
    amplified = phrase_end(nodes, at, AMPLIFIED | ELECTRIC)
    if amplified is not None and name_at(nodes, at) is None:
        draft.amplified = True
        return amplified
    solo = phrase_end(nodes, at, SOLO)
    follows = solo is not None and solo < len(nodes) and nodes[solo].kind in ("word", "number")
    if solo is not None and not follows:
        draft.role = "soloist"
        return solo
    return None


def pitch_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    """Read a key without ``in``: ``cl Bb``, ``horn F``, ``clarinetto Mib``."""
    token = token_at(nodes, at)
    if token is None or token.kind != "word" or draft.slug in ("", "percussion", "timpani"):
        return None
    wind = draft.family in ("woodwind", "brass")
    end = (
        pitch_end(nodes, at)
        if (wind and token.spaced and token.text[0].isupper()) or token.is_word("sib", "mib")
        else None
    )
    if end is None or (len(token.text) == 1 and end == at + 1 and not key_stands_alone(nodes, end)):
        return None
    keyed = keyed_slug(draft, nodes[at:end])
    if keyed is not None:
        draft.slug = keyed
    return end


def key_stands_alone(nodes: Nodes, at: int) -> bool:
    """Whether a single letter after a wind instrument is a key: a number, a separator or nothing follows."""
    return at >= len(nodes) or nodes[at].kind == "number" or nodes[at].is_mark(",;\n/")


def seat_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    if draft.number_after or (draft.seats and draft.collective != "numbered"):
        return None
    token = token_at(nodes, at)
    placed = formula and token is not None and token.kind == "number" and (not token.spaced or draft.extra)
    if token is None or placed or (formula and draft.count is not None):
        return None
    if token.is_mark("×") or token.is_word("x"):
        counted = count_at(nodes, at + 1)
        if counted is not None and draft.count is None:
            draft.count = counted
            return counted.end
    following = token_at(nodes, at + 1)
    if token.is_mark("-") and following is not None and following.text.isupper() and not following.spaced:
        token, at = following, at + 1
    read = seats_at(nodes, at)
    if read is None or token is None:
        return None
    if named_follows(nodes, read[1], len(read[0])) and not token.text.isupper():
        return None
    draft.number_after = read[0]
    return read[1]


def named_follows(nodes: Nodes, at: int, figures: int) -> bool:
    """Whether the figure before belongs to a name after it: ``flute 2 oboes``."""
    token = token_at(nodes, at)
    if token is None or token.kind != "word" or figures != 1:
        return False
    _qualities, end = qualities_at(nodes, at)
    return name_at(nodes, end) is not None and not is_key(token, OR)


def slash_tail(nodes: Nodes, at: int, draft: Draft) -> int | None:
    """Read ``/`` and a further instrument of the same player."""
    found = name_at(nodes, at + 1) if at + 1 < len(nodes) else None
    if found is None:
        pitch = pitch_end(nodes, at + 1) if at + 1 < len(nodes) else None
        return pitch
    draft.slashed.append(found.slugs[0])
    return found.end


def or_tail(nodes: Nodes, at: int, draft: Draft) -> int | None:
    """Read ``or`` and the instrument that may stand in."""
    qualities, end = qualities_at(nodes, at + 1)
    found = name_at(nodes, end)
    if found is None:
        return None
    draft.alternatives.append(found.slugs[0])
    if qualities.count is not None and qualities.count.most != draft.most:
        draft.notes.append(f"or {qualities.count.most} {found.written}")
    keys = keys_end(nodes, found.end)
    return keys if keys is not None else found.end


def clause_tail(nodes: Nodes, at: int, draft: Draft, forces: Forces) -> int | None:
    """Take a doubling clause that follows without a separator: ``with 3rd doubling piccolo``."""
    start = at + 1 if nodes[at].is_word("with", "mit", "avec", "con", "who", "including") else at
    if start >= len(nodes):
        return None
    end = clause_end(nodes, start)
    section = Section(draft.section, draft.slug, draft.most)
    if not opens_clause(nodes, start, section):
        return None
    while end > start:
        if doublings_in(nodes[start:end], section, quiet(forces)) is not None:
            draft.clauses.append(tuple(nodes[start:end]))
            return end
        end = shorter(nodes, start, end)
    return None


def quiet(forces: Forces) -> Forces:
    """Return forces whose remarks are thrown away, for a look ahead."""
    return Forces(forces.text, forces.language)


def shorter(nodes: Nodes, start: int, end: int) -> int:
    """Return the next earlier place at which a clause could end."""
    for index in range(end - 1, start, -1):
        node = nodes[index]
        if node.is_mark("-+./&") or node.is_word("and", "und", "et", "e", "y", "plus") or isinstance(node, Bracket):
            return index
    return start


def opens_clause(nodes: Nodes, at: int, section: Section) -> bool:
    """Whether a doubling clause begins here: a doubling word, or players followed by one."""
    if linked(nodes, at)[0] is not None:
        return True
    who = who_at(nodes, at, section)
    return who is not None and linked(nodes, who.end)[0] is not None


def clause_nodes(nodes: Nodes, start: int, end: int) -> tuple[Node, ...]:
    """Return the nodes of a clause."""
    return tuple(nodes[start:end])
