"""Takes the doubling clause that follows an item without a mark, ``flute with 3rd doubling piccolo``."""

from __future__ import annotations

from catalogue.instrumentation.doublings import clause_end, doublings_in
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.families import WINDS
from catalogue.instrumentation.lexicon import AND, PLAYS_WORDS
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, is_key, token_at
from catalogue.instrumentation.players_meant import Section, linked, may_double, who_at
from catalogue.instrumentation.tokens import Bracket, Nodes
from catalogue.instrumentation.vocabulary import family_of

EACH = {"each", "all", "jeweils", "jeder", "chacun", "chacune", "ciascuno", "ognuno"}


def clause_tail(nodes: Nodes, at: int, draft: Draft, forces: Forces) -> int | None:
    """Take a doubling clause that follows without a separator: ``with 3rd doubling piccolo``."""
    start = at + 1 if nodes[at].is_word("with", "mit", "avec", "con", "who", "including") else at
    section = Section(draft.section, draft.slug, draft.most)
    if draft.slug == "percussion" and is_key(nodes[at], PLAYS_WORDS):
        return None
    if start >= len(nodes) or not may_double(nodes) or not opens_clause(nodes, start, section):
        return None
    end = own_end(nodes, start, clause_end(nodes, start), draft)
    if is_key(nodes[at], PLAYS_WORDS) and is_person(draft):
        end = next((one for one in range(end, len(nodes)) if nodes[one].is_mark(";\n.")), len(nodes))
    while end > start:
        if doublings_in(nodes[start:end], section, quiet(forces)) is not None:
            draft.clauses.append(tuple(nodes[start:end]))
            return end
        end = shorter(nodes, start, end)
    return None


def say_of_others(nodes: Nodes, start: int, end: int, forces: Forces, before: list[Draft]) -> None:
    """Give a clause that is said of each player, ``flute, viola and harp, each also playing …``, to all before it."""
    others = [one for one in before if one.most == 1 and not one.figure]
    if not others or not is_key(token_at(nodes, start), EACH) or forces.drafts[-1].most > 1:
        return
    for one in others:
        one.clauses.append(tuple(nodes[start:end]))
    first, last = nodes[start].start, nodes[end - 1].end
    message = f"“{forces.written(first, last)}” was read as said of all players before it."
    forces.remark("each", message, first, last, "said of the last of them alone")


def quiet(forces: Forces) -> Forces:
    """Return forces whose remarks are thrown away, for a look ahead."""
    return Forces(forces.text, forces.speech)


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


def tells_of_players(nodes: Nodes, draft: Draft) -> bool:
    """Whether a bracket after a wind and a comma tells which of its players double, ``, (3rd doubles piccolo)``."""
    told = draft.family in WINDS and bool(nodes)
    return told and opens_clause(nodes, 0, Section(draft.section, draft.slug, draft.most, told=True))


def own_end(nodes: Nodes, start: int, end: int, draft: Draft) -> int:
    """Return where what one player doubles ends: ``trumpet doubling flugelhorn and accordion`` are two players.

    A joining word before the end leads to another player where what follows is of another family than all before.
    """
    played = {draft.family}
    for at in range(start, end):
        name = name_at(nodes, at)
        if not is_key(nodes[at], AND) or (name is not None and name.end > at + 1):
            played |= {family_of(name.slugs[0])} if name is not None else set()
            continue
        counted = count_at(nodes, at + 1)
        further = name_at(nodes, counted.end if counted is not None else at + 1)
        family = family_of(further.slugs[0]) if further is not None else ""
        whole = counted is not None or family != "percussion" or (further is not None and is_whole(further.slugs[0]))
        if family and family not in played and whole and len(played) == 1:
            return at
    return end


def is_person(draft: Draft) -> bool:
    """Whether one player is named by what he is, ``pianist``, and not by an instrument."""
    written = draft.name.written.lower() if draft.name is not None else ""
    return draft.most == 1 and written.endswith(("ist", "iste", "ista", "player"))


def is_whole(slug: str) -> bool:
    """Whether a percussion player is named and not one of the many things that others take up."""
    return slug in ("percussion", "timpani", "vibraphone", "marimba", "drum-kit")
