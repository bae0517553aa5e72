"""Finds fixed phrases, counts, keys and part numbers at a place of the text."""

from __future__ import annotations

import functools
from collections.abc import Collection

from catalogue.instrumentation.drafts import Count
from catalogue.instrumentation.lexicon import (
    AND,
    ARTICLES,
    BETWEEN,
    IN,
    KEYS_OF_PITCH,
    LEAST,
    OR,
    POSSIBLE,
    UP_TO,
)
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.numbers import MOST, cardinal, is_suffix, ordinal, roman
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.vocabulary import key_of

LONGEST_PHRASE = 4
FAMILY = 4
"""Figures of a family: flutes to bassoons, horns to tubas."""
FEWER = {"more", "fewer", "less", "larger"}
FLATS = ("", "♭", "b", "♯", "#")
MORE = {"more", "mehr", "plus", "davantage", "piu", "mas"}


MAYBE = OR | POSSIBLE


def token_at(nodes: Nodes, at: int) -> Token | None:
    """Return the token at a place, ``None`` at the end or for a bracket."""
    if not 0 <= at < len(nodes):
        return None
    node = nodes[at]
    return node if type(node) is Token else None


def is_key(node: Node | None, words: Collection[str]) -> bool:
    """Whether the node is one of the words, given as keys."""
    return node is not None and node.key in words


def is_small(node: Node | None, words: Collection[str]) -> bool:
    """Whether the node is one of these small words; a capital ``I`` or ``A`` is a chair or a voice."""
    return node is not None and node.key in words and not (type(node) is Token and is_capital(node.text))


def is_capital(text: str) -> bool:
    """Whether a word is one or two capitals: a chair, a voice, a key."""
    return len(text) < 3 and text.isupper()


@functools.cache
def beginnings(phrases: frozenset[str]) -> frozenset[str]:
    """Return all beginnings of the phrases: nothing else leads on to one of them."""
    return frozenset(one[:end] for one in phrases for end in range(1, len(one) + 1))


def may_begin(nodes: Nodes, at: int, phrases: frozenset[str]) -> bool:
    """Whether the word at a place begins any of the phrases: looked at once for many sets of them."""
    first = token_at(nodes, at)
    return first is not None and first.kind == "word" and first.key in beginnings(phrases)


def phrase_end(nodes: Nodes, at: int, phrases: frozenset[str]) -> int | None:
    """Return the end of the longest phrase of the set that begins here, or ``None``.

    A capital by itself ends a phrase of longer words: the voices of ``soli S.T`` are no part of ``solist``.
    """
    if not 0 <= at < len(nodes):
        return None
    first = nodes[at]
    if first.kind != "word" or type(first) is not Token:
        return None
    leading = beginnings(phrases)
    if first.key not in leading:
        return None
    best, key = None, ""
    end = at
    words = 0
    while end < len(nodes) and words < LONGEST_PHRASE:
        node = token_at(nodes, end)
        if node is None or not (node.kind == "word" or (node.kind == "mark" and node.text in "-'." and end > at)):
            break
        if len(node.text) == 1 < len(first.text) and node.text.isupper():
            break
        end += 1
        if node.kind == "word":
            words += 1
            key += node.key
            if key in phrases:
                best = end
            elif key not in leading:
                break
    return best


def range_end(nodes: Nodes, at: int) -> tuple[int, int] | None:
    """Return the upper number and the end of a range whose first number stands at ``at``: ``2-4``, ``6 or 8``."""
    link, second = token_at(nodes, at + 1), token_at(nodes, at + 2)
    if link is None or second is None or second.kind != "number" or len(second.text) > 3:
        return None
    after = nodes[at + 3] if at + 3 < len(nodes) else None
    if link.is_mark("-"):
        before = token_at(nodes, at - 1)
        glued = not link.spaced and not second.spaced
        earlier = before_brackets(nodes, at - 2)
        run = before is not None and before.is_mark(".,-/") and not nodes[at].spaced
        run = run and not (isinstance(earlier, Token) and earlier.kind in ("word", "note"))
        run = run or (before is not None and before.is_mark("+") and earlier is not None and earlier.kind != "mark")
        run = run or fourth_of_family(nodes, at)
        follows = isinstance(after, Token) and (after.is_mark(".,-/+*") or after.kind == "number" or is_d(after))
        comma = isinstance(after, Token) and after.is_mark(",")
        if not glued or run or (follows and not comma):
            return None
    elif not is_key(link, OR) and not link.is_word("to", "bis", "a", "à", "al", "fino"):
        return None
    return second.number, at + 3


def fourth_of_family(nodes: Nodes, at: int) -> bool:
    """Whether a figure is the fourth of a family that commas part from its beginning on, ``2, 2, 2, 2-4, 2, 3, 1``."""
    figures = 0
    while at >= 0 and figures < FAMILY:
        node = nodes[at]
        if node.kind == "number":
            figures += 1
        if figures == FAMILY or not (node.kind == "number" or node.is_mark(",") or isinstance(node, Bracket)):
            break
        at -= 1
    return figures == FAMILY and (at == 0 or nodes[at - 1].is_mark("-/;\n"))


def figures_before(nodes: Nodes, at: int, marks: str) -> int:
    """Return how many figures stand in a row before one, a mark between them, or only blanks where ``marks`` is empty.

    Brackets after the figures are passed over; blanks part figures of one digit, and the row of a family ends there.
    """
    found = 0
    while at > 0:
        before = at - 1
        if marks:
            if before == 0 or not nodes[before].is_mark(marks) or nodes[at].spaced:
                break
            before -= 1
        while before > 0 and isinstance(nodes[before], Bracket):
            before -= 1
        token = token_at(nodes, before)
        if token is None or token.kind != "number" or (not marks and len(token.text) > 1):
            return 0 if marks else found
        found, at = found + 1, before
        if not marks and at and nodes[at - 1].is_mark(".,"):
            return found - 1
    return found


def before_brackets(nodes: Nodes, at: int) -> Node | None:
    """Return the node at a place or, where brackets stand there, the one that they belong to."""
    while at >= 0 and isinstance(nodes[at], Bracket):
        at -= 1
    return nodes[at] if at >= 0 else None


def is_d(token: Token) -> bool:
    return token.is_word("d") and not token.spaced


def word_count(nodes: Nodes, at: int) -> Count | None:
    """Return a number word, ``two`` or ``due``; ``a pair of`` counts two."""
    token = token_at(nodes, at)
    if token is None or token.kind != "word" or (token.text.isupper() and len(token.text) < 3):
        return None
    value = cardinal(token.text)
    if value is None or (value == 0 and is_key(token_at(nodes, at + 1), FEWER)):
        return None
    link, second = token_at(nodes, at + 1), token_at(nodes, at + 2)
    if link is not None and second is not None and (is_key(link, OR) or link.is_word("to", "bis", "à", "al")):
        upper = cardinal(second.text) if second.kind == "word" else None
        if upper is not None and upper > value:
            return Count(value, upper, at + 3)
    if is_key(link, OR) and is_key(second, MORE) and not is_key(token, ARTICLES):
        return Count(value, value, at + 3, more=True)
    return bracketed_range(nodes, at, value) or Count(value, value, at + 1)


@remembered
def count_at(nodes: Nodes, at: int) -> Count | None:
    """Return the number of players that stands here, in figures or words, with a range if there is one."""
    token = token_at(nodes, at)
    if token is None:
        return None
    if token.kind == "word":
        return word_count(nodes, at)
    if token.kind != "number":
        return None
    if len(token.text) > 6:
        return None
    value = token.number
    found = range_end(nodes, at) if value <= MOST else None
    if found and found[0] > value:
        return Count(value, found[0], found[1])
    if is_key(token_at(nodes, at + 1), OR) and is_key(token_at(nodes, at + 2), MORE):
        return Count(value, value, at + 3, more=True)
    return bracketed_range(nodes, at, value) or Count(value, value, at + 1)


def bracketed_range(nodes: Nodes, at: int, value: int) -> Count | None:
    """Return the range of a number that a bracket follows with another, ``2 (or 4)``, ``two (or more)``."""
    bracket = nodes[at + 1] if at + 1 < len(nodes) else None
    if not isinstance(bracket, Bracket):
        return None
    inside = [node for node in bracket.nodes if not node.is_mark(".")]
    if len(inside) != 2 or not is_key(inside[0], MAYBE) or type(inside[1]) is not Token:
        return None
    if is_key(inside[1], MORE):
        return Count(value, value, at + 2, more=True)
    number = inside[1].kind == "number" and len(inside[1].text) < 4
    upper = inside[1].number if number else cardinal(inside[1].text)
    return Count(min(value, upper), max(value, upper), at + 2) if upper else None


def limited_count(nodes: Nodes, at: int) -> Count | None:
    """Return a number with a limit before it, ``up to 5``, ``at most two``, ``min. 3``, ``at least four``."""
    if is_key(token_at(nodes, at), BETWEEN):
        low = count_at(nodes, at + 1)
        high = count_at(nodes, low.end + 1) if low is not None and is_key(token_at(nodes, low.end), AND) else None
        return high._replace(least=low.least) if low is not None and high is not None else None
    for words, most in ((UP_TO, True), (LEAST, False)):
        end = phrase_end(nodes, at, words)
        if end is None:
            continue
        end += end < len(nodes) and nodes[end].is_mark(".")
        counted = count_at(nodes, end)
        if counted is not None:
            limited = counted._replace(least=0) if most else counted._replace(most=counted.least, more=True)
            return limited
    return None


def pitch_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of one key of an instrument, ``B flat``, ``Si b``, ``Eb``, ``F``."""
    first = token_at(nodes, at)
    if first is None or first.kind != "word" or first.key == "flat" or key_of(first.text) not in KEYS_OF_PITCH:
        return None
    end = at + 1
    for width in (2, 1):
        tail = [token_at(nodes, end + one) for one in range(width)]
        last = tail[-1]
        if last is None or last.kind != "word" or tail[0] is None:
            continue
        key = "".join(key_of(one.text) for one in tail if one is not None)
        if key in ("flat", "b", "bemolle", "bemol", "sharp") and (key != "b" or len(first.text) <= 3):
            return end + width
    return end


def keys_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of a statement of keys, ``in A and B-flat``, ``in A/Bb``, ``in Si b e La``, or ``None``."""
    if not is_key(token_at(nodes, at), IN):
        return None
    at += 1
    if token_at(nodes, at) is not None and is_key(token_at(nodes, at), {"both"}):
        at += 1
    end = pitch_end(nodes, at)
    return None if end is None else further_keys(nodes, end)


def further_keys(nodes: Nodes, end: int) -> int:
    """Return the end of the keys that go on from one that ends here, ``in B♭``, ``, A and C``."""
    while (link := token_at(nodes, end)) is not None:
        joins = link.is_mark("/") or is_key(link, AND) or is_key(link, OR)
        oxford = link.is_mark(",") and is_key(token_at(nodes, end + 1), AND)
        if not (joins or oxford or lists_key(nodes, end)):
            break
        further = pitch_end(nodes, end + 1 + oxford)
        if further is None or (oxford and further < len(nodes) and nodes[further].kind == "word"):
            break
        end = further
    return end


def lists_key(nodes: Nodes, at: int) -> bool:
    """Whether a comma leads to one more key and no voice, ``in B flat, C;``: a capital between two marks.

    It may be followed by the last key of the list, ``in B flat, A and C``.
    """
    letter, after, beyond = (token_at(nodes, at + step) for step in (1, 2, 3))
    if letter is None or not nodes[at].is_mark(",") or letter.text[:1] not in "ABCDEFG" or letter.text[1:] not in FLATS:
        return False
    if name_begins(nodes, at + 1):
        return False
    last = pitch_end(nodes, at + 3) if is_key(after, AND) else None
    if last is not None:
        return last >= len(nodes) or nodes[last].kind != "word"
    return after is None or (after.kind == "mark" and (beyond is None or len(beyond.text) > 1))


def name_begins(nodes: Nodes, at: int) -> bool:
    """Whether a name of several words begins with a letter, the ``B. Cl.`` after keys."""
    name = name_at(nodes, at)
    return name is not None and name.end > at + 1


def is_pointed_ending(token: Token) -> bool:
    """Whether a letter after a point is the ending of a Spanish ordinal, ``2.ª``, ``3.º``."""
    return not token.spaced and token.text in ("a", "o", "er")


def seats_at(nodes: Nodes, at: int) -> tuple[tuple[int, ...], int] | None:
    """Return part numbers and their end: ``1``, ``1,2``, ``I-II``, ``I+II``, ``1 & 2``, ``Solo-I-II-III``."""
    first = token_at(nodes, at)
    lead = first is not None and first.is_word("solo") and at + 2 < len(nodes) and nodes[at + 1].is_mark("-")
    seats: list[int] = [0] if lead and seat_value(token_at(nodes, at + 2)) == 1 else []
    end = at + 2 if seats else at
    while (value := seat_value(token_at(nodes, end))) is not None:
        link = token_at(nodes, end - 1)
        if seats and link is not None and link.is_mark("-") and value > seats[-1] + 1:
            seats += range(seats[-1] + 1, min(value, seats[-1] + 40))
        seats.append(value)
        end += 1
        link = token_at(nodes, end)
        follower = seat_value(token_at(nodes, end + 1))
        joins = link is not None and (link.is_mark("-,+/") or is_key(link, AND)) and follower == value + 1
        joins = joins or (link is not None and link.is_mark("-") and follower is not None and follower > value)
        if not joins:
            break
        end += 1
    return (tuple(seats), end) if seats else None


def seat_value(token: Token | None) -> int | None:
    if token is None:
        return None
    if token.kind == "number" and len(token.text) <= 2:
        return token.number
    if token.kind == "word":
        return roman(token.text) if token.text.isupper() else None
    return None


def ordinal_at(nodes: Nodes, at: int) -> tuple[int, int] | None:
    """Return an ordinal and its end: ``2nd``, ``second``, ``2e``, ``zweite``."""
    token = token_at(nodes, at)
    if token is None:
        return None
    if token.kind == "number" and len(token.text) <= 2:
        following = token_at(nodes, at + 1)
        if following is not None and is_suffix(following):
            return token.number, at + 2
        ending = token_at(nodes, at + 2)
        pointed = following is not None and following.is_mark(".") and not following.spaced
        return (token.number, at + 3) if pointed and ending is not None and is_pointed_ending(ending) else None
    value = ordinal(token.text) if token.kind == "word" else None
    return None if value is None else (value, at + 1)


def pointed_seats(nodes: Nodes, at: int) -> tuple[tuple[int, ...], int] | None:
    """Return the part numbers of ``horn 1.2.3.4``, which points join: from one on, up to a separator."""
    end, seats = at, 0
    while (token := token_at(nodes, end)) is not None and token.kind == "number" and token.number == seats + 1:
        seats, end = seats + 1, end + 1
        joined = end + 1 < len(nodes) and nodes[end].is_mark(".") and not nodes[end + 1].spaced
        if not joined:
            break
        end += 1
    whole = end >= len(nodes) or nodes[end].is_mark(",;\n") or keys_end(nodes, end) is not None
    return (tuple(range(1, seats + 1)), end) if seats > 1 and whole and nodes[at].spaced else None
