"""What may stand after a name and belongs to it.

tail = { key | part numbers | bracket | "*" | hands | qualifier | ( "or" | "/" ) , name | doubling clause } ;
"""

from __future__ import annotations

from catalogue.instrumentation.agreeing import agreeing_size
from catalogue.instrumentation.channels import channels_at, lists_players
from catalogue.instrumentation.clause_tails import clause_tail
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.hands import hands_tail
from catalogue.instrumentation.headings import figures_follow, is_packed
from catalogue.instrumentation.key_tails import keyed_slug, note_pitch, pitch_after_point, pitch_tail
from catalogue.instrumentation.lexicon import (
    AMPLIFIED,
    AND,
    BODY_OF_STRINGS,
    ELECTRIC,
    OFFSTAGE,
    OPTIONAL,
    OR,
    ORCHESTRA,
    SOLO,
)
from catalogue.instrumentation.limits import line_up_end
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.number_places import ends_item, glued_number, number_told, numbers_after_names
from catalogue.instrumentation.numbers import is_suffix
from catalogue.instrumentation.phrases import (
    count_at,
    further_keys,
    is_key,
    keys_end,
    may_begin,
    phrase_end,
    pitch_end,
    pointed_seats,
    seats_at,
    token_at,
)
from catalogue.instrumentation.qualities import qualities_at
from catalogue.instrumentation.senses import Surroundings, in_section, stand_in
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Row, Token
from catalogue.instrumentation.vocabulary import family_of, instrument
from catalogue.instrumentation.voicings import is_letters

STRINGS = ("violin-1", "violin-2", "viola", "cello", "double-bass")
SIZED = ("saxophone", "recorder")
BODIES = ("orchestra", "wind-band", "brass-band", "big-band")
LOUD = AMPLIFIED | ELECTRIC
WITH = {"with", "mit", "avec", "con"}
SAID_AFTER = OPTIONAL | LOUD | OFFSTAGE | SOLO


LEADING = AND | WITH
WHOLES = BODY_OF_STRINGS | ORCHESTRA


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
        return None if lists_players(node, draft, forces) else bracket_tail(nodes, at, draft)
    if node.is_mark("."):
        return point_tail(nodes, at, draft, formula)
    end = note_tail(nodes, at, draft, forces)
    if end is None:
        end = keys_tail(nodes, at, draft, forces)
    if end is None and draft.family == "electronics":
        found = channels_at(nodes, at, forces, of_electronics=True)
        end = found[1] if found is not None else None
    if end is None:
        end = agreeing_size(nodes, at, draft, forces)
    for step in (size_tail, hands_tail, quality_tail, pitch_tail, seat_tail):
        if end is not None:
            return end
        end = step(nodes, at, draft, formula)
    if end is not None:
        return end
    if node.is_mark("/") and (not slash_parts or joins_sizes(nodes, at, draft)):
        return slash_tail(nodes, at, draft)
    if is_key(node, OR) or (node.is_word("u") and forces.language == "es"):
        return or_tail(nodes, at, draft, forces)
    return clause_tail(nodes, at, draft, forces)


def note_tail(nodes: Nodes, at: int, draft: Draft, forces: Forces) -> int | None:
    """Read a note in quotation marks, a star, letters of sizes, or what a colon tells: numbers of parts or players."""
    node = nodes[at]
    assert isinstance(node, Token)  # noqa: S101 — narrows the type, the caller has looked
    if node.kind == "note":
        draft.notes.append(forces.text[node.start + 1 : node.end - 1])
        return at + 1
    if node.is_mark("*"):
        return at + 1
    if draft.slug in SIZED and node.kind == "word" and len(node.text) > 1 and is_letters(node.text):
        draft.brackets.append(Bracket("(", Row((node,)), node.start - 1, node.end))
        return at + 1
    if node.is_mark(":") and numbers_after_names(nodes) and seats_at(nodes, at + 1) is not None:
        return at + 1
    if node.is_mark(":") and draft.count is None and (told := number_told(nodes, at)) is not None:
        draft.count = told
        return told.end
    return None


def point_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    """Read what belongs to a name after the point of its abbreviation: a number, a key, hands, a bracket."""
    following = nodes[at + 1] if at + 1 < len(nodes) else None
    glued = glued_number(nodes, at, draft) if formula else None
    if glued is not None:
        return glued
    if numbered_after_point(nodes, at, draft, formula=formula) or point_before_slash(nodes, at, draft):
        return at + 1
    pitch = pitch_after_point(nodes, at + 1, draft)
    if pitch is not None:
        return pitch
    hands = hands_tail(nodes, at + 1, draft, formula)
    if hands is not None:
        return hands
    return at + 1 if isinstance(following, Bracket) and not following.spaced else None


def keys_tail(nodes: Nodes, at: int, draft: Draft, forces: Forces) -> int | None:
    """Read keys after a name, or those that go on from the key in it."""
    named_key = draft.name is not None and at == draft.name.end and " in " in draft.name.written
    if named_key and (further := further_keys(nodes, at)) > at:
        return further
    keys = keys_end(nodes, at)
    if keys is not None:
        note_pitch(draft, forces, nodes, at + 1, keys)
    return keys


def numbered_after_point(nodes: Nodes, at: int, draft: Draft, *, formula: bool) -> bool:
    """Whether an abbreviation's point is followed by a part number, ``Perc. 1:``, ``Vl. II``."""
    read = seats_at(nodes, at + 1)
    if read is None or draft.number_after:
        return False
    if numbers_after_names(nodes):
        return True
    if not nodes[at + 1].spaced:
        return ends_item(nodes, read[1]) and not formula
    if read[1] < len(nodes) and nodes[read[1]].is_mark(":"):
        return True
    return not formula and not named_follows(nodes, read[1], len(read[0]))


def point_before_slash(nodes: Nodes, at: int, draft: Draft) -> bool:
    """Whether an abbreviation's point stands before a slash that joins a second instrument, ``pno./cel.``.

    Where commas part the players a slash with blanks joins too, ``Fl. / Picc., Ob. / Eh.``, within one section.
    """
    if at + 1 >= len(nodes) or not nodes[at + 1].is_mark("/"):
        return False
    following = nodes[at + 2] if at + 2 < len(nodes) else None
    found = name_at(nodes, at + 2) if following is not None and following.spaced else None
    section = instrument(draft.slug).section if draft.slug else ""
    alike = found is not None and section != "" and instrument(found.slugs[0]).section == section
    return not (nodes[at].spaced or nodes[at + 1].spaced) or (alike and any(node.is_mark(",") for node in nodes))


def bracket_tail(nodes: Nodes, at: int, draft: Draft) -> int:
    bracket = nodes[at]
    assert isinstance(bracket, Bracket)  # noqa: S101 — narrows the type, the caller has looked
    glued = not bracket.spaced and pitch_end(bracket.nodes, 0) == len(bracket.nodes)
    if glued and draft.name is not None and (keyed := keyed_slug(draft, bracket.nodes)):
        draft.slug = keyed
    else:
        draft.brackets.append(bracket)
    return at + 1


def quality_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    """Read ``optional``, ``amplified``, ``off-stage``, ``solo`` after a name."""
    if not may_begin(nodes, at, SAID_AFTER):
        return None
    optional = phrase_end(nodes, at, OPTIONAL)
    if optional is not None:
        draft.optional = True
        return optional
    amplified = phrase_end(nodes, at, LOUD)
    if amplified is not None and name_at(nodes, at) is None:
        draft.amplified = True
        draft.electric = is_key(nodes[at], ELECTRIC)
        return amplified
    offstage = phrase_end(nodes, at, OFFSTAGE)
    if offstage is not None and (offstage >= len(nodes) or separates(nodes[offstage])):
        draft.role = "offstage"
        return offstage
    solo = phrase_end(nodes, at, SOLO)
    follows = solo is not None and solo < len(nodes) and nodes[solo].kind in ("word", "number")
    follows = follows and not is_key(token_at(nodes, solo or at), LEADING) and not before_body(nodes, at, solo or at)
    follows = follows or (solo is not None and seats_at(nodes, at) is not None)
    if solo is not None and not follows:
        draft.role = "soloist"
        return solo
    return None


def before_body(nodes: Nodes, at: int, after: int) -> bool:
    """Whether strings or an orchestra whom nobody counts stand after ``solo``, which is said of who stands before."""
    end = phrase_end(nodes, after, WHOLES)
    if after < len(nodes) and nodes[at].spaced and (is_packed(nodes[after]) or figures_follow(nodes, after)):
        return True
    if end is None or not nodes[at].spaced:
        return False
    following = nodes[end] if end < len(nodes) else None
    return not (isinstance(following, Bracket) or (following is not None and following.kind == "number"))


def size_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    """Read the size of a recorder or a saxophone after its name, ``flauta de pico contralto``."""
    sized = draft.slug in SIZED and nodes[at].kind == "word"
    size = in_section(nodes[at].key, draft.slug) if sized else None
    if size is None:
        return None
    draft.slug = size
    return at + 1


def separates(node: Node) -> bool:
    """Whether a mark parts items; a colon opens what a heading says."""
    return node.kind == "mark" and not node.is_mark(":")


def seat_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    if draft.number_after or (draft.seats and draft.collective != "numbered") or begins_run(nodes, at):
        return None
    token = token_at(nodes, at)
    if draft.slug in BODIES or (is_key(token_at(nodes, at - 1), SOLO) and figures_follow(nodes, at)):
        return None
    if token is not None and formula and counts_when_glued(nodes, at, draft):
        draft.count = count_at(nodes, at)
        return at + 1
    placed = formula and token is not None and token.kind == "number" and (not token.spaced or draft.extra)
    if token is None or placed or (formula and draft.count is not None):
        return None
    if token.is_mark("×") or token.is_word("x"):
        counted = count_at(nodes, at + 1)
        if counted is not None and draft.count is None:
            draft.count = counted
            return counted.end
    following = token_at(nodes, at + 1)
    if token.kind == "number" and following is not None and counts_next(following):
        return None
    if token.is_mark("-") and following is not None and following.text.isupper() and not following.spaced:
        token, at = following, at + 1
    read = pointed_seats(nodes, at) or seats_at(nodes, at)
    if read is None or token is None or (formula and over_dash(nodes, at, read[1])):
        return None
    belongs_on = named_follows(nodes, read[1], len(read[0])) and not numbers_after_names(nodes)
    if belongs_on and not token.text.isupper():
        return None
    draft.number_after = read[0]
    return read[1]


def counts_next(word: Token) -> bool:
    """Whether a figure is written to the word after it and counts that, the ``3P`` of ``T 3P hp``."""
    return word.kind == "word" and not word.spaced and not is_suffix(word)


def over_dash(nodes: Nodes, at: int, end: int) -> bool:
    """Whether part numbers would run over a dash with blanks, which parts families: ``asx 2 – 4 3 3 1``."""
    dashes = (one for one in range(at + 1, end) if nodes[one].is_mark("-"))
    return any(getattr(nodes[one], "spaced", False) for one in dashes)


def begins_run(nodes: Nodes, at: int) -> bool:
    """Whether the figures of the strings begin here, ``pf 14.12.10.8.6``: five that one mark parts without blanks."""
    row = nodes[at : at + 2 * len(STRINGS) - 1]
    if len(row) < 2 * len(STRINGS) - 1 or row[0].kind != "number":
        return False
    marks = {one.text for one in row[1::2] if isinstance(one, Token)}
    figures = all(one.kind == "number" and len(one.text) <= 2 for one in row[::2] if isinstance(one, Token))
    whole = not any(isinstance(one, Bracket) or one.spaced for one in row[1:])
    return figures and whole and len(marks) == 1 and marks <= {".", "/", "-", ","}


def counts_when_glued(nodes: Nodes, at: int, draft: Draft) -> bool:
    """Whether a figure written to a name in a formula is its number, ``perc2``, ``asx2``, and no place."""
    token, following = token_at(nodes, at), nodes[at + 1] if at + 1 < len(nodes) else None
    if token is None or token.kind != "number" or token.spaced or len(token.text) > 2 or draft.count is not None:
        return False
    named = following is not None and following.kind == "word" and not following.spaced
    apart = draft.family in ("percussion", "plucked", "keyboard") or draft.slug.endswith("saxophone")
    return bool(draft.slug) and apart and not named


def named_follows(nodes: Nodes, at: int, figures: int) -> bool:
    """Whether the figure before belongs to a name after it: ``flute 2 oboes``."""
    token = token_at(nodes, at)
    if token is None or token.kind != "word" or figures != 1 or keys_end(nodes, at) is not None:
        return False
    _qualities, end = qualities_at(nodes, at)
    return name_at(nodes, end) is not None and not is_key(token, OR)


def joins_sizes(nodes: Nodes, at: int, draft: Draft) -> bool:
    """Whether a slash without blanks joins two sizes of an instrument where slashes with blanks part the players."""
    found = name_at(nodes, at + 1) if at + 1 < len(nodes) and not (nodes[at].spaced or nodes[at + 1].spaced) else None
    section = instrument(draft.slug).section if draft.slug else ""
    alike = found is not None and bool(section) and instrument(found.slugs[0]).section == section
    alike = alike or (found is not None and draft.family == "keyboard" == family_of(found.slugs[0]))
    return alike and any(one.is_mark("/") and one.spaced for one in nodes)


def slash_tail(nodes: Nodes, at: int, draft: Draft) -> int | None:
    """Read ``/`` and a further instrument of the same player."""
    found = name_at(nodes, at + 1) if at + 1 < len(nodes) else None
    if found is None:
        pitch = pitch_end(nodes, at + 1) if at + 1 < len(nodes) else None
        return pitch
    section = instrument(draft.slug).section if draft.slug else ""
    draft.slashed.append(found.surely(section) or found.slugs[0])
    return found.end


def or_tail(nodes: Nodes, at: int, draft: Draft, forces: Forces) -> int | None:
    """Read ``or`` and the instrument that may stand in."""
    qualities, end = qualities_at(nodes, at + 1)
    found = name_at(nodes, end)
    if found is None or (is_pointed(nodes, draft) and line_up_end(nodes, at + 1) is not None):
        return None
    meant = found.surely() or found.means(Surroundings(forces.language, before=draft.family))
    section = instrument(draft.slug).section if draft.slug else ""
    draft.alternatives.append(stand_in(meant, found.written, section, draft.family))
    if qualities.count is not None and qualities.count.most != draft.most:
        draft.notes.append(f"or {qualities.count.most} {found.written}")
    keys = keys_end(nodes, found.end)
    return keys if keys is not None else found.end


def is_pointed(nodes: Nodes, draft: Draft) -> bool:
    """Whether a point without a blank joins the item to the one before it."""
    at = draft.name.first - 1 if draft.name is not None else 0
    at -= at > 0 and nodes[at].kind == "number"
    return at > 0 and nodes[at].is_mark(".") and not nodes[at + 1].spaced
