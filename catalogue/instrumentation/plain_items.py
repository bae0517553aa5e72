"""Items that can be read in one way only: a name, with or without a number and brackets, between marks.

Most of a list is such items, ``2 flutes, oboe, harp``. They are found by the name alone, without trying every reader
at their place; whatever may be the beginning of more, or belong to more than itself, is left to the readers.
"""

from __future__ import annotations

import functools

from catalogue.instrumentation.channels import CHANNEL
from catalogue.instrumentation.drafts import Count, Draft
from catalogue.instrumentation.hands import may_tell_hands
from catalogue.instrumentation.items import LONGEST_FIGURE
from catalogue.instrumentation.lexicon import OR
from catalogue.instrumentation.names import from_figures, name_at
from catalogue.instrumentation.numbers import cardinal, is_suffix
from catalogue.instrumentation.openers import is_heading, names_body, of_voices, opens_body, opens_heading
from catalogue.instrumentation.phrases import is_key, pitch_end
from catalogue.instrumentation.plurals import is_plural
from catalogue.instrumentation.qualities import may_qualify
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of

SHORTEST = 2
PARTING = ",;\n+"
BETWEEN_FIGURES = ".,-/;\n+"
FAMILIES = ("woodwind", "brass", "plucked", "strings", "keyboard", "percussion")


@functools.lru_cache(maxsize=1 << 12)
def is_more(word: str, key: str) -> bool:
    """Whether a word by itself may be more than a name: a heading, a body, what is said before a name."""
    return names_body(word, key) or says_more(word, key)


def says_more(word: str, key: str) -> bool:
    """Whether a word may be a heading, a channel, a suffix, or what is said before a name."""
    token = Token("word", word, 0, len(word), False, word.lower(), key)
    return len(key) < SHORTEST or key in CHANNEL or is_heading(key) or may_qualify(word, key) or is_suffix(token)


@functools.lru_cache(maxsize=1 << 12)
def is_more_alone(word: str, key: str) -> bool:
    """Whether a word to which no other belongs may be more than a name: there no choir begins with ``vc``."""
    return says_more(word, key) or (names_body(word, key) and key not in of_voices())


def leads_on(word: Token) -> bool:
    """Whether more words may make a heading or a body of the one."""
    return opens_heading(word) or opens_body(word.text, word.key)


def plain_item(nodes: Nodes, at: int) -> tuple[Draft, int] | None:
    """Return the item of one name, or of a number and a name, with its brackets, and its end."""
    first = nodes[at]
    place, count = counted(nodes, at)
    word = nodes[place] if place < len(nodes) else None
    if type(first) is not Token or type(word) is not Token or word.kind != "word" or is_more(word.text, word.key):
        return None
    name = name_at(nodes, place)
    slug = name.slugs[0] if name is not None and len(name.slugs) == 1 else ""
    if name is None or not slug or family_of(slug) not in FAMILIES or slug.startswith(("violin", "percussion")):
        return None
    if count is not None and first.text + word.key in from_figures():
        return None
    brackets = brackets_after(nodes, name.end)
    end = name.end + len(brackets)
    if not is_parted(nodes, end, slug) or (leads_on(word) and not ends_phrases(nodes, name.end)):
        return None
    draft = Draft(slug, first.start, nodes[end - 1].end, name=name, plural=is_plural(name), brackets=brackets)
    draft.count, draft.extra = count, at > 0 and nodes[at - 1].is_mark("+")
    return draft, end


def bracketed_figure(nodes: Nodes, at: int) -> tuple[Draft, int] | None:
    """Return a figure with its brackets and its end where a mark or nothing follows, ``3(II=picc).``."""
    first, bracket = nodes[at], nodes[at + 1] if at + 1 < len(nodes) else None
    if type(first) is not Token or type(bracket) is not Bracket or len(first.text) > LONGEST_FIGURE:
        return None
    if len(bracket.nodes) == 2 and is_key(bracket.nodes[0], OR):
        return None
    end = at + 2
    while end < len(nodes) and type(nodes[end]) is Bracket:
        end += 1
    following = nodes[end] if end < len(nodes) else None
    beyond = nodes[end + 1] if end + 1 < len(nodes) else None
    if following is not None and (not following.is_mark(BETWEEN_FIGURES) or type(beyond) is Bracket):
        return None
    brackets = [one for one in nodes[at + 1 : end] if type(one) is Bracket]
    count = Count(first.number, first.number, at + 1)
    return Draft("", first.start, nodes[end - 1].end, count=count, figure=True, brackets=brackets), end


def counted(nodes: Nodes, at: int) -> tuple[int, Count | None]:
    """Return where a name may begin, after a number of players or at the place itself, and the number."""
    first = nodes[at]
    if type(first) is not Token:
        return at, None
    if first.kind == "number" and len(first.text) <= LONGEST_FIGURE:
        apart = at == 0 or first.spaced or not nodes[at - 1].is_mark(".,")
        return (at + 1, Count(first.number, first.number, at + 1)) if apart else (at, None)
    value = cardinal(first.text) if first.kind == "word" and first.text.islower() else None
    if value is None or value < 2 or opens_heading(first) or name_at(nodes, at) is not None:
        return at, None
    return at + 1, Count(value, value, at + 1)


def brackets_after(nodes: Nodes, at: int) -> list[Bracket]:
    """Return the brackets that stand here, as far as they make no other instrument of the name, ``cl(Eb)``."""
    found: list[Bracket] = []
    while at < len(nodes):
        bracket = nodes[at]
        if type(bracket) is not Bracket or pitch_end(bracket.nodes, 0) is not None:
            break
        found.append(bracket)
        at += 1
    return found


def ends_phrases(nodes: Nodes, at: int) -> bool:
    """Whether no phrase goes on over what stands here: a mark that parts, a bracket or nothing."""
    return at >= len(nodes) or type(nodes[at]) is Bracket or nodes[at].is_mark(PARTING)


def is_parted(nodes: Nodes, at: int, slug: str) -> bool:
    """Whether an item surely ends here: a separator or nothing follows; ``piano, 4 hands`` may go on."""
    if at >= len(nodes):
        return True
    if nodes[at].is_mark(PARTING):
        return not nodes[at].is_mark(",") or family_of(slug) != "keyboard" or not may_tell_hands(nodes)
    dash = nodes[at].is_mark("-") and nodes[at].spaced and at + 1 < len(nodes) and nodes[at + 1].spaced
    return dash and family_of(slug) != "keyboard"
