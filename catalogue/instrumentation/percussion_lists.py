"""Finds where the list of what the percussionists play ends, ``perc(2): xyl/vib/BD``, ``I: vib, II: mar``."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft
from catalogue.instrumentation.lexicon import AND, PLAYERS, PLAYS_WORDS
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, seats_at, token_at
from catalogue.instrumentation.tokens import Bracket, Node, Nodes
from catalogue.instrumentation.vocabulary import family_of, key_of


def list_end(nodes: Nodes, at: int, draft: Draft) -> int:
    """Return the end of the list of instruments after percussion, as in ``perc(2): xyl/vib/BD``."""
    playing = is_key(token_at(nodes, at), PLAYS_WORDS)
    if at >= len(nodes) or not (nodes[at].is_mark(":") or playing or numbered(nodes, at)):
        return at
    start = at + 1
    if is_other(nodes, start) and not draft.number_after and not labels_player(nodes, start):
        return at
    if start < len(nodes) and isinstance(nodes[start], Bracket):
        return brackets_end(nodes, start, draft)
    end, slashes = start, False
    own = bool(draft.number_after or draft.seats)
    while end < len(nodes) and not ends_list(nodes, end, slashes=slashes, own=own):
        slashes = slashes or nodes[end].is_mark("/")
        found = name_at(nodes, end)
        end = found.end if found is not None else end + 1
    if end > start + 1 and tells_players(nodes[end - 1]):
        return end - 1
    told = slashes or playing or draft.number_after or draft.brackets or draft.count is not None
    told = told or labels_player(nodes, start)
    if not told or end == start:
        return at
    while end > start and nodes[end - 1].is_mark(",.;-|"):
        end -= 1
    return end


def tells_players(node: Node) -> bool:
    """Whether a bracket tells how many play a list, ``(2 players)``."""
    counted = count_at(node.nodes, 0) if isinstance(node, Bracket) else None
    return isinstance(node, Bracket) and counted is not None and is_key(token_at(node.nodes, counted.end), PLAYERS)


def numbered(nodes: Nodes, at: int) -> bool:
    """Whether a full stop stands before the first of numbered players, ``percussion quartet. 1: vib, 2: mar``."""
    return nodes[at].is_mark(".") and labels_player(nodes, at + 1)


def counted_end(nodes: Nodes, at: int, draft: Draft) -> int:
    """Take the number of players after a colon, ``Percussion: 3 players``, ``PERC: 2;``."""
    counted = count_at(nodes, at + 1) if at < len(nodes) and nodes[at].is_mark(":") and draft.count is None else None
    if counted is not None and (counted.end == len(nodes) or ends_number(nodes, counted.end)):
        draft.count = counted
        return counted.end
    if counted is not None and nodes[counted.end].is_mark(":") and not numbers_first(nodes, at + 1):
        draft.count = counted
        return counted.end
    if counted is None or counted.end >= len(nodes) or not is_key(nodes[counted.end], PLAYERS):
        return at
    draft.count = counted
    return counted.end + 1


def numbers_first(nodes: Nodes, at: int) -> bool:
    """Whether a 1 with a colon is the first of several players, ``perc: 1: vib; 2: mar``."""
    first = token_at(nodes, at)
    further = (one for one in range(at + 2, len(nodes)) if nodes[one].kind == "number" and labels_player(nodes, one))
    return first is not None and first.text == "1" and next(further, None) is not None


def ends_number(nodes: Nodes, at: int) -> bool:
    """Whether a mark ends the number of percussionists: a full stop or a comma only where no figure follows it."""
    following = nodes[at + 1] if at + 1 < len(nodes) else None
    apart = following is None or (following.spaced and following.kind == "word" and is_other(nodes, at + 1))
    family = nodes[at].is_mark("/") and following is not None and is_other(nodes, at + 1)
    return nodes[at].is_mark(";\n") or family or (nodes[at].is_mark(".,/-") and apart)


def brackets_end(nodes: Nodes, at: int, draft: Draft) -> int:
    """Take the brackets of ``3 percussion: [1 - bongos], [2 - …]``."""
    end = at
    while at < len(nodes) and (isinstance(nodes[at], Bracket) or nodes[at].is_mark(",")):
        node = nodes[at]
        if isinstance(node, Bracket):
            draft.brackets.append(node)
            end = at + 1
        at += 1
    return end


def ends_list(nodes: Nodes, at: int, *, slashes: bool, own: bool) -> bool:
    """Whether a list of percussion instruments ends here; the list of one numbered player holds anything he plays."""
    node = nodes[at]
    following = nodes[at + 1] if at + 1 < len(nodes) else None
    if node.is_mark("\n;"):
        if node.is_mark(";") and labels_player(nodes, at + 1):
            return False
        return node.is_mark("\n") or seats_at(nodes, at + 1) is None or is_other(nodes, at + 1)
    if node.is_mark(".") and at > 0 and labels_player(nodes, at - 1):
        return False
    if node.is_mark("/") and node.spaced and following is not None and is_other(nodes, at + 1):
        return True
    if node.is_mark("-") and after_seat(nodes, at):
        return False
    if node.is_mark("-"):
        spaced = node.spaced or (following is not None and following.spaced)
        return spaced or (following is not None and is_other(nodes, at + 1))
    if node.is_mark(",.") and following is not None and labels_player(nodes, at + 1):
        return False
    if own and node.is_mark(".") and following is not None and following.spaced:
        return is_other(nodes, at + 1)
    if node.is_mark(",.") and following is not None and not own:
        return is_other(nodes, at + 1) and (not slashes or node.is_mark(","))
    found = name_at(nodes, at)
    if found is not None and found.slugs[0] == "percussion":
        return seats_at(nodes, found.end) is not None or (nodes[at - 1].is_mark("."))
    return False


def labels_player(nodes: Nodes, at: int) -> bool:
    """Whether the number of one player stands here with its mark, the ``V:`` of ``IV: BD, V: tam-tam``, ``V.``."""
    seat = seats_at(nodes, at)
    if seat is None or seat[1] >= len(nodes) or len(seat[0]) > 1:
        return False
    return nodes[seat[1]].is_mark(":") or (nodes[seat[1]].is_mark(".") and numbered_to(nodes, at, seat[0][0]))


def numbered_to(nodes: Nodes, at: int, seat: int) -> bool:
    """Whether a Roman numeral with its point goes on from those before it, the ``II.`` after ``I. vib;``."""
    token = token_at(nodes, at)
    if token is None or at + 2 >= len(nodes) or not nodes[at + 2].spaced:
        return False
    if token.kind == "number":
        after = (token_at(nodes, one) for one in range(1, at + 1) if nodes[one - 1].is_mark(":"))
        firsts = [one for one in after if one is not None and one.kind == "number"]
        return any(one is token or one.number == 1 for one in firsts) and seat > 0
    before = {seats[0][0] for one in range(at) if (seats := seats_at(nodes, one)) is not None and len(seats[0]) == 1}
    return seat == 1 or seat - 1 in before


def after_seat(nodes: Nodes, at: int) -> bool:
    """Whether a dash stands after the number of one player, ``I – vibraphone; II – marimba``."""
    seat = seats_at(nodes, at - 1) if at > 1 and nodes[at - 2].is_mark(":;,\n") else None
    return seat is not None and seat[1] == at


def is_other(nodes: Nodes, at: int) -> bool:
    """Whether an item that is no percussion begins here."""
    if at + 1 < len(nodes) and is_key(nodes[at], AND) and name_at(nodes, at + 1) is not None:
        return is_other(nodes, at + 1)
    counted = count_at(nodes, at)
    found = name_at(nodes, counted.end if counted else at) if at < len(nodes) else None
    if found is None and counted is not None and counted.end < len(nodes):
        return False
    if found is None:
        token = token_at(nodes, at)
        return token is not None and key_of(token.text) in ("strings", "str", "streicher", "archi", "cordes", "and")
    return family_of(found.slugs[0]) != "percussion" or found.slugs[0] == "percussion"
