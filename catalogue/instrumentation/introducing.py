"""Reads words that only introduce a list: ``jazz trio (piano, bass, drums)``, ``ensemble of 6: …``, ``Chamber opera:``.

introduction = { word } , ( ensemble | size | genre ) , [ "of" , number , [ "players" ] ] , ( bracket | ":" ) ;
"""

from __future__ import annotations

from catalogue.instrumentation import collectives, sizes
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.headings import figures_follow
from catalogue.instrumentation.lexicon import AND, ENSEMBLE, GENRES, HEADINGS, OF, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.open_forces import itemises, stands_alone
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, seat_value, token_at
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of

Found = tuple[list[Draft], int, bool]
MOST_WORDS = 5
WITH = {"with", "mit", "avec", "con"}
GROUPS = keyed(
    "ensemble ensembles group groups combo consort band gruppe gruppo grupo groupe formation besetzung "
    "section rhythm_section "
    "rhythmusgruppe blechbläserensemble bläserensemble kammerensemble instrumentalensemble conjunto complesso"
)
PART_WORDS = {"part", "partie", "parte", "stimme"}
CHOIRS = {"choir", "choirs"}


OF_WINDS = HEADINGS["brass"] | HEADINGS["woodwind"]


def introduced_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Pass over the words for an ensemble or a work whose players a bracket or a colon opens."""
    part = part_label(nodes, at, forces)
    if part is not None:
        return [], part, True
    group = group_end(nodes, at)
    if group is None:
        return None
    end = numbered_end(nodes, group)
    end = described_end(nodes, end)
    following = nodes[end] if end < len(nodes) else None
    made_up = phrase_end(nodes, at, collectives.names()) is not None
    if made_up and isinstance(following, Bracket) and is_key(token_at(following.nodes, 0), WITH):
        return None
    if isinstance(following, Bracket) and (itemises(following) or (not made_up and figures_follow(following.nodes, 0))):
        sizes.keep_kind(nodes, at, end, forces)
        return [], end, True
    if end == group and token_at(nodes, end) is not None and figures_follow(nodes, end):
        return [], end, True
    if following is not None and following.is_mark(":") and lists(nodes, end + 1):
        sizes.keep_kind(nodes, at, end, forces)
        return [], end + 1, True
    return of_number(nodes, at, group, end, forces)


def part_label(nodes: Nodes, at: int, forces: Forces) -> int | None:
    """Return the end of ``Part 2:`` before instruments of which one plays the part."""
    number = token_at(nodes, at + 1) if is_key(token_at(nodes, at), PART_WORDS) else None
    if number is None or number.kind != "number" or at + 2 >= len(nodes) or not nodes[at + 2].is_mark(":"):
        return None
    if not any(remark.code == "part-choice" for remark in forces.remarks):
        message = "The instruments of each part were read as a choice: one of them plays it."
        forces.remark("part-choice", message, nodes[at].start, nodes[at + 2].end, "players of the part, all of them")
    return at + 3


def group_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of a word for an ensemble or a kind of work that stands here, other words before it."""
    end = at
    while end < min(len(nodes), at + MOST_WORDS):
        token = token_at(nodes, end)
        if token is None or not (token.kind in ("word", "number") or (token.is_mark("-") and not token.spaced)):
            return None
        if is_group(nodes, end, token):
            return end + 1
        if token.kind == "word" and (names_player(nodes, end) or is_key(token, AND)):
            return None
        end += 1
    return None


def is_group(nodes: Nodes, at: int, token: Token) -> bool:
    """Whether a word names an ensemble or a kind of work; a genre only where a colon follows."""
    if token.kind != "word":
        return False
    following = nodes[at + 1] if at + 1 < len(nodes) else None
    if token.key in CHOIRS:
        return at > 0 and is_key(nodes[at - 1], OF_WINDS)
    if token.key in GENRES:
        return following is not None and following.is_mark(":")
    return token.key in GROUPS or token.key.endswith("ensemble") or collectives.size_of(token.text) is not None


def names_player(nodes: Nodes, at: int) -> bool:
    """Whether an instrument or a voice is named here, so that the words do more than introduce."""
    found = name_at(nodes, at)
    return (
        found is not None
        and len(found.written) > 1
        and family_of(found.slugs[0]) != "other"
        and not found.slugs[0].endswith("-instrument")
    )


def numbered_end(nodes: Nodes, at: int) -> int:
    """Pass over ``of 6 players`` after an ensemble."""
    counted = count_at(nodes, at + 1) if is_key(token_at(nodes, at), OF) else None
    if counted is None:
        return at
    noun = phrase_end(nodes, counted.end, ENSEMBLE)
    return noun if noun is not None else counted.end


def described_end(nodes: Nodes, at: int) -> int:
    """Pass over words that say which sort of ensemble a bracket itemises, ``trio d'anches (hautbois, …)``."""
    end = at
    while end < min(len(nodes), at + MOST_WORDS) and nodes[end].kind == "word" and not names_player(nodes, end):
        end += 1
    name = name_at(nodes, end) if end > at and is_key(nodes[end - 1], OF) else None
    end = name.end if name is not None else end
    bracket = nodes[end] if end < len(nodes) else None
    return end if isinstance(bracket, Bracket) and itemises(bracket) else at


def lists(nodes: Nodes, at: int) -> bool:
    """Whether a number, a name or figures stand after a colon."""
    counted = count_at(nodes, at)
    numeral = seat_value(token_at(nodes, at)) is not None
    return numeral or counted is not None or name_at(nodes, at) is not None or figures_follow(nodes, at)


def of_number(nodes: Nodes, at: int, group: int, end: int, forces: Forces) -> Found | None:
    """Read ``ensemble of 6``, of whose players no more is said."""
    counted = count_at(nodes, group + 1) if end > group else None
    if counted is None or group != at + 1 or not stands_alone(nodes, at, end):
        return None
    draft = Draft("instrument", nodes[at].start, nodes[end - 1].end, collective="ensemble", count=counted)
    if any(node.is_mark(":") for node in nodes[end:]):
        return [], end, True
    message = f"“{forces.written(draft.start, draft.end)}” names {counted.most} players, not what they play."
    forces.remark("unnamed", message, draft.start, draft.end)
    return [draft], end, False
