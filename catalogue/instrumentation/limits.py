"""Reads forces that are limits or a choice: ``minimum 8 players from``, ``84-piece orchestra``, ``alone or with …``."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Count, Draft, Forces
from catalogue.instrumentation.lexicon import ANY, BANDS, ENSEMBLE, FROM, MUST, OF, ORCHESTRA, PIECES, SOLO
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import beginnings, count_at, is_key, limited_count, phrase_end, token_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Nodes

Found = tuple[list[Draft], int, bool]
COMBINATION = frozenset(
    {
        "combination",
        "selection",
        "choice",
        "kombination",
        "auswahl",
        "combinaison",
        "combinazione",
        "combinacion",
    }
)
ALONE = {"alone", "allein", "seul", "seule", "solo", "sola"}
ON = {"on", "auf", "sur", "su", "con"}
WITH = {"with", "mit", "avec", "con"}
MOST_WORDS = 4
FOLLOWING = {"the", "following", "folgenden", "suivants", "seguenti", "siguientes"}
SMALLEST_BODY = 5
FROM_OR_OF = FROM | OF
ENSEMBLE_WORDS = ENSEMBLE | SOLO | COMBINATION


@remembered
def may_choose(nodes: Nodes) -> bool:
    """Whether the row holds a word such as ``from``, without which nothing is chosen."""
    return any(node.key in beginnings(FROM_OR_OF) for node in nodes)


def choice_end(nodes: Nodes, at: int) -> int | None:
    """Return where the list begins of which so many players, or any, are chosen; ``None`` without a choice."""
    if not may_choose(nodes):
        return None
    counted = count_at(nodes, at) or limited_count(nodes, at)
    anyone = phrase_end(nodes, at, ANY)
    if counted is None and anyone is None:
        return None
    some = count_at(nodes, anyone) if anyone is not None else None
    end = counted.end if counted is not None else some.end if some is not None else anyone or at
    start = end
    while end < len(nodes) and end < start + MOST_WORDS and (ends := chosen_end(nodes, end)) is not None:
        end = ends
    open_choice = anyone is not None or count_at(nodes, at) is None
    chosen = phrase_end(nodes, end, FROM_OR_OF if open_choice else FROM)
    if chosen is None or chosen >= len(nodes):
        return None
    if end == start and some is None and not (open_choice and nodes[chosen].is_mark(":")):
        return None
    if of_players_at(nodes, chosen - 1) is not None:
        return None
    while chosen + 1 < len(nodes) and is_key(nodes[chosen], FOLLOWING):
        chosen += 1
    return chosen + 1 if nodes[chosen].is_mark(":") else chosen


def chosen_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of a word for those who are chosen, ``players``, ``combination or soloists``."""
    if is_key(token_at(nodes, at), {"or", "oder", "ou", "o"}):
        return at + 1
    return phrase_end(nodes, at, ENSEMBLE_WORDS)


def pieces_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``84-piece recording orchestra``: a body of so many players who are not named."""
    counted = count_at(nodes, at)
    if counted is None or counted.most < SMALLEST_BODY:
        return None
    end = counted.end + 1 if counted.end < len(nodes) and nodes[counted.end].is_mark("-") else counted.end
    if not is_key(token_at(nodes, end), PIECES):
        return None
    first = end + 1
    for word in range(first, min(first + MOST_WORDS, len(nodes))):
        slug, stop = body_named(nodes, word)
        if stop is not None:
            draft = Draft(slug, nodes[at].start, nodes[stop - 1].end, count=counted, collective="pieces")
            draft.notes += [forces.written(nodes[first].start, nodes[word - 1].end)] * (word > first)
            return [draft], stop, False
    return None


def body_named(nodes: Nodes, at: int) -> tuple[str, int | None]:
    """Return the kind of body that is named here, and where its name ends."""
    for slug, words in {"orchestra": ORCHESTRA, **BANDS, "instrument": ENSEMBLE}.items():
        end = phrase_end(nodes, at, words)
        if end is not None:
            return slug, end
    return "", None


def alone_or_with(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``alone or with 1–6 players`` after an instrument: so many others, or nobody."""
    if not forces.drafts or not is_key(token_at(nodes, at), ALONE):
        return None
    if not is_key(token_at(nodes, at + 1), {"or", "oder", "ou", "o"}) or not is_key(token_at(nodes, at + 2), WITH):
        return None
    counted = limited_count(nodes, at + 3) or count_at(nodes, at + 3)
    if counted is None:
        return None
    end = counted.end
    while end < len(nodes) and is_key(nodes[end], {"other", "further", "andere", "autres", "altri", "otros"}):
        end += 1
    noun = phrase_end(nodes, end, ENSEMBLE)
    if noun is None:
        return None
    draft = Draft("instrument", nodes[at].start, nodes[noun - 1].end, count=counted, optional=True, collective="any")
    return [draft], on_any_end(nodes, noun), False


def of_players_at(nodes: Nodes, at: int) -> tuple[Count, int] | None:
    """Read ``of 5 or more players`` after an ensemble that is left open; the number and the end."""
    counted = count_at(nodes, at + 1) if is_key(token_at(nodes, at), OF) else None
    noun = phrase_end(nodes, counted.end, ENSEMBLE) if counted is not None else None
    return None if counted is None or noun is None else (counted, noun)


def on_any_end(nodes: Nodes, at: int) -> int:
    """Pass over ``on any instruments`` after the players."""
    anyone = phrase_end(nodes, at + 1, ANY) if is_key(token_at(nodes, at), ON) else None
    noun = phrase_end(nodes, anyone, ENSEMBLE) if anyone is not None else None
    return noun if noun is not None else at


def line_up_end(nodes: Nodes, at: int) -> int | None:
    """Return the end of a list of players that points join, ``hn.2tpt.tbn``, ``None`` where no such list begins."""
    counted = count_at(nodes, at)
    name = name_at(nodes, counted.end if counted else at)
    end = name.end if name is not None else len(nodes)
    if end + 1 >= len(nodes) or not nodes[end].is_mark(".") or nodes[end + 1].spaced:
        return None
    while end < len(nodes) and not (nodes[end].is_mark(",;\n") or (nodes[end].is_mark("-") and nodes[end].spaced)):
        end += 1
    return end


def required_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read ``must include …``: before anything is named the list is the forces, after that a note on what is there."""
    end = phrase_end(nodes, at, MUST)
    if end is None:
        return None
    if not forces.drafts:
        return [], end, True
    stop = end
    while stop < len(nodes) and not nodes[stop].is_mark(";\n"):
        stop += 1
    last = forces.drafts[-1]
    for draft in forces.drafts:
        if (draft.start, draft.end) == (last.start, last.end):
            draft.notes.append(forces.written(nodes[at].start, nodes[stop - 1].end))
    return [], stop, True
