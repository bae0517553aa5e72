"""Reads how many hands play at a keyboard, ``4-hands``, ``à quatre mains``, ``linke Hand``: two hands a player."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, token_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.tokens import Nodes, Token
from catalogue.instrumentation.vocabulary import family_of

HANDS = frozenset({"hands", "hand", "main", "mains", "handen", "mani", "mano", "manos", "hande"})


ONE_HAND = keyed(
    "left_hand right_hand left_hand_only right_hand_only left_hand_alone linke_hand rechte_hand linke_hand_allein "
    "main_gauche main_droite main_gauche_seule mano_sinistra mano_destra mano_izquierda mano_derecha"
)


FOUR_HANDS = frozenset({"vierhandig", "vierhandiges", "vierhandige", "quatremains"})


@remembered
def may_tell_hands(nodes: Nodes) -> bool:
    """Whether the row holds a word for hands at a keyboard."""
    return any(node.key in HANDS or node.key in FOUR_HANDS for node in nodes)


def hands_before(nodes: Nodes, at: int, forces: Forces) -> tuple[list[Draft], int, bool] | None:
    """Read hands before their keyboard, ``four-hand piano``, ``vierhändiges Klavier``."""
    if not may_tell_hands(nodes):
        return None
    counted = hands_at(nodes, at)
    if counted is None or counted[0] not in (2, 4, 6, 8):
        return None
    hands, end = counted
    name = name_at(nodes, end)
    if name is None or len(name.slugs) > 1 or family_of(name.slugs[0]) != "keyboard":
        return None
    draft = Draft(name.slugs[0], nodes[at].start, name.stop, name=name, notes=[f"{hands} hands"])
    draft.counted(hands // 2)
    return [draft], name.end, False


def hands_at(nodes: Nodes, at: int) -> tuple[int, int] | None:
    """Return how many hands are told here and where that ends: ``4-hands``, ``four hand``, ``vierhändig``."""
    if is_key(token_at(nodes, at), FOUR_HANDS):
        return 4, at + 1
    counted = count_at(nodes, at)
    if counted is None:
        return None
    end = counted.end
    end += end < len(nodes) and nodes[end].is_mark("-")
    bells = name_at(nodes, end)
    told = is_key(token_at(nodes, end), HANDS) and (bells is None or bells.end == end + 1)
    return (counted.most, end + 1) if told else None


def hands_tail(nodes: Nodes, at: int, draft: Draft, formula: bool) -> int | None:
    """Read ``4-hands``, ``four hands``, ``à quatre mains``: two hands a player."""
    if not may_tell_hands(nodes):
        return None
    named = draft.name.slugs if draft.name is not None else ()
    if "keyboard" not in (draft.family, *map(family_of, named)):
        return None
    start = at
    while at < len(nodes) and (nodes[at].is_mark(",-") or is_key(nodes[at], {"a", "for", "zu"})):
        at += 1
    one = phrase_end(nodes, at, ONE_HAND)
    if one is not None:
        draft.notes.append(" ".join(node.text for node in nodes[at:one] if isinstance(node, Token)))
        return one
    counted = hands_at(nodes, at)
    if counted is None:
        return None
    hands, end = counted
    there = draft.most
    if hands >= 2 * there:
        draft.counted(max(hands // 2, 1))
    if there == 1 or hands != 2 * there:
        draft.notes.append(f"{hands} hands" if there == 1 else f"{hands} hands at {there}")
    return end if end > start else None
