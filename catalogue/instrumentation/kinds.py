"""Reads so many of one instrument: ``guitar duo``, ``flute choir``, ``cuarteto de guitarras``, ``Hornquartett``."""

from __future__ import annotations

from catalogue.instrumentation import alike, choirs, collectives, sizes
from catalogue.instrumentation.drafts import Count, Draft, Forces, Told
from catalogue.instrumentation.lexicon import AND, ENSEMBLE, OF, ORCHESTRA, PLAYERS, keyed
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.open_forces import itemises
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, token_at
from catalogue.instrumentation.plurals import is_plural
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of

Found = tuple[list[Draft], int, bool]


MOST_GROUPS = 12


KINDS_OF_BODY = keyed("ensemble conjunto complesso chœur coro choir")


CONSORTS = {"consort", "choir", "ensemble", "orchestra", "ensemblen", "orchester", "chor"}


PLAYING = PLAYERS | ENSEMBLE
BODIES = ORCHESTRA | KINDS_OF_BODY


def key_ends_in_s(node: Node) -> bool:
    """Whether a word is a plural in s, ``quartets``."""
    return isinstance(node, Token) and node.key.endswith("s")


def grouped(slugs: tuple[str, ...], start: int, end: int, *, collective: str) -> list[Draft]:
    """Return one draft for each instrument in order, counted."""
    drafts: list[Draft] = []
    for slug in dict.fromkeys(slugs):
        draft = Draft(slug, start, end, collective=collective)
        draft.counted(slugs.count(slug))
        drafts.append(draft)
    return drafts


def sized_at(nodes: Nodes, at: int, forces: Forces, lead: choirs.Lead) -> Found | None:
    """Read ``guitar duo``, ``saxophone quartet (SATB)``, ``trombone quartet``: so many of one instrument."""
    qualities, start = lead
    found = name_at(nodes, start)
    if found is None or len(found.written) < 3:
        return None
    joined = found.end + 1 < len(nodes) and nodes[found.end].is_mark("-") and not nodes[found.end + 1].spaced
    found = found._replace(end=found.end + 1) if joined and is_key(nodes[found.end + 1], CONSORTS) else found
    token = token_at(nodes, found.end)
    if (
        token is not None
        and is_key(token, CONSORTS)
        and (body := consort_at(nodes, at, found, token, forces)) is not None
    ):
        return body
    size = collectives.size_of(token.text) if token is not None and token.kind == "word" else None
    listed = nodes[found.end + 1] if found.end + 1 < len(nodes) else None
    if size is not None and listed is not None and listed.is_mark(":"):
        sizes.keep_kind(nodes, start, found.end + 1, forces)
        return [], found.end + 2, True
    if size is not None and isinstance(listed, Bracket) and lists_players(listed, size):
        return [], found.end + 1, True
    if size is not None and isinstance(listed, Bracket) and sizes.fill(listed, found.slugs[0], size, forces):
        made = Draft(found.slugs[0], nodes[at].start, listed.end, name=found, brackets=[listed])
        made.counted(size)
        return [made], found.end + 2, False
    if token is None or size is None or found.slugs[0].startswith(("voice", "choir")):
        return None
    custom = collectives.WITH_STRINGS.get((found.slugs[0], size))
    if custom is not None:
        message = f"“{forces.written(nodes[start].start, token.end)}” was read in its usual make-up."
        forces.remark("ensemble", message, nodes[start].start, token.end, f"{size} players of the one instrument")
        return grouped(custom, nodes[at].start, token.end, collective="mixed"), found.end + 1, False
    draft = Draft(found.slugs[0], nodes[at].start, token.end, name=found)
    draft.counted(1 if last_of(size, nodes, at, forces) else size)
    draft.amplified = qualities.amplified or qualities.electric
    many = qualities.count.most if qualities.count is not None and key_ends_in_s(token) else 1
    return alike.repeated([draft], many) if 1 < many <= MOST_GROUPS else [draft], found.end + 1, False


def consort_at(nodes: Nodes, at: int, found: Name, token: Token, forces: Forces) -> Found | None:
    """Read ``flute choir``, ``percussion ensemble: 6 players``: an open number of one instrument, or those told."""
    told = players_told(nodes, found.end + 1)
    if is_body(found.slugs[0]) and not is_told(found, told):
        return None
    following = nodes[found.end + 1] if found.end + 1 < len(nodes) else None
    listed = isinstance(following, Bracket) and itemises(following)
    if told is None and following is not None and (listed or following.is_mark(":")):
        sizes.keep_kind(nodes, found.first, found.end + 1, forces)
        return [], found.end + 1, True
    slug = "viola-da-gamba" if "viola-da-gamba" in found.slugs else found.slugs[0]
    draft = Draft(slug, nodes[at].start, token.end, name=found, open=True, notes=[token.text])
    if told is None:
        return [draft], found.end + 1, False
    draft.open, draft.count, draft.notes = False, told[0], []
    return [draft], told[1], False


def is_told(name: Name, told: tuple[Count, int] | None) -> bool:
    """Whether an ensemble of percussion is counted: what its players play is not asked."""
    return told is not None and name.slugs[0] == "percussion"


def players_told(nodes: Nodes, at: int) -> tuple[Count, int] | None:
    """Return the number of ``: 6 players`` after an ensemble of one kind, of whom no more is said, and its end."""
    counted = count_at(nodes, at + 1) if at < len(nodes) and nodes[at].is_mark(":,") else None
    noun = phrase_end(nodes, counted.end, PLAYING) if counted is not None else None
    ends = noun is not None and (noun == len(nodes) or nodes[noun].is_mark(";\n"))
    return (counted, noun) if counted is not None and noun is not None and ends else None


def lists_players(bracket: Bracket, size: int) -> bool:
    """Whether a bracket names the players of an ensemble of so many, ``clarinet quintet (cl, 2 vn, va, vc)``."""
    found, at = 0, 0
    while at < len(bracket.nodes):
        counted = count_at(bracket.nodes, at)
        name = name_at(bracket.nodes, counted.end if counted else at)
        if name is not None and family_of(name.slugs[0]) == "voice":
            return False
        found += (counted.most if counted else 1) if name is not None else 0
        at = name.end if name is not None else at + 1
    return found == size and itemises(bracket)


def size_of_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``cuarteto de guitarras``, ``quartet of horns``: so many of one instrument."""
    token = token_at(nodes, at)
    size = collectives.size_of(token.text) if token is not None and token.kind == "word" else None
    of = is_key(token_at(nodes, at + 1), OF)
    if size is None and of and (body := body_of_one_kind(nodes, at)) is not None:
        return body
    if token is not None and size is not None and of and is_list(nodes, at + 2, size):
        forces.told.append(Told(size, token.start, token.end))
        return [], at + 2, True
    found = name_at(nodes, at + 2) if size is not None and of else None
    if token is None or size is None or found is None or is_body(found.slugs[0]):
        return None
    draft = Draft(found.slugs[0], token.start, found.stop, name=found)
    draft.counted(size)
    return [draft], found.end, False


def is_list(nodes: Nodes, at: int, size: int) -> bool:
    """Whether the players of a septet are named after *of*: as many, or two and more from a single or counted one on.

    ``quartet of horns`` counts horns; ``septet of clarinet, bassoon, …`` counts those named.
    """
    listed = listed_from(nodes, at)
    counted, first = count_at(nodes, at), name_at(nodes, at)
    begun = counted is not None or (first is not None and not is_plural(first))
    return listed == size or (begun and listed > 1)


def body_of_one_kind(nodes: Nodes, at: int) -> Found | None:
    """Read ``orchestre de flûtes``, ``orchestra di chitarre``: an open number of one instrument and no orchestra."""
    token, name = token_at(nodes, at), name_at(nodes, at + 2)
    word = phrase_end(nodes, at, BODIES)
    if token is None or word != at + 1 or name is None or is_body(name.slugs[0]) or not is_plural(name):
        return None
    if name.end < len(nodes) and (isinstance(nodes[name.end], Bracket) or nodes[name.end].is_mark(":")):
        return None
    return [Draft(name.slugs[0], token.start, name.stop, name=name, open=True, notes=[token.text])], name.end, False


def listed_from(nodes: Nodes, at: int) -> int:
    """Return how many players are named from here on, parted by commas and *and*."""
    found = 0
    while at < len(nodes):
        counted = count_at(nodes, at)
        name = name_at(nodes, counted.end if counted else at)
        if name is None:
            break
        found += counted.most if counted else 1
        at = name.end
        while at < len(nodes) and (nodes[at].is_mark(",;\n") or nodes[at].kind == "bracket" or is_key(nodes[at], AND)):
            at += 1
    return found


def last_of(size: int, nodes: Nodes, at: int, forces: Forces) -> bool:
    """Whether the size counts the players named before as well, ``vibraphone and marimba duo``."""
    return len(forces.drafts) == size - 1 and is_key(token_at(nodes, at - 1), AND) and at > 0


def is_body(slug: str) -> bool:
    """Whether a slug is no single instrument: a voice, a choir, an orchestra, a family."""
    return family_of(slug) in ("voice", "other", "electronics") or slug.endswith("-instrument") or slug == "percussion"
