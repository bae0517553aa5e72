"""Reads the numbered books of theatre scores: one player, who plays all the instruments named in the book."""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import HEADINGS
from catalogue.instrumentation.names import Name, name_at
from catalogue.instrumentation.phrases import is_key, seat_value, token_at
from catalogue.instrumentation.senses import in_section
from catalogue.instrumentation.tokens import Bracket, Nodes
from catalogue.instrumentation.vocabulary import family_of, key_of

Found = tuple[list[Draft], int, bool]
BOOKS = HEADINGS["woodwind"] | {"reed", "reeds", "book", "player"}


def book_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read a numbered book of a theatre score, ``Woodwind 2 (Flute/Clarinet)``: one player, all instruments in it."""
    token, number = token_at(nodes, at), token_at(nodes, at + 1)
    bracket = nodes[at + 2] if at + 2 < len(nodes) else None
    if token is None or seat_value(number) is None or not is_key(token, BOOKS):
        return None
    if isinstance(bracket, Bracket):
        slugs, _ = book_of(bracket.nodes, 0)
        end = at + 3
    else:
        listed = bracket is not None and bracket.is_mark(":-–")
        slugs, end = book_of(nodes, at + 3) if listed else ([], at)
    if not slugs:
        return None
    draft = Draft(slugs[0], token.start, nodes[end - 1].end, slashed=slugs[1:], collective="book")
    draft.counted(1)
    return [draft], end, False


def book_of(nodes: Nodes, at: int) -> tuple[list[str], int]:
    """Return the instruments of one book and where its list ends: at a semicolon, a new line or another book."""
    slugs: list[str] = []
    end = at
    while at < len(nodes) and not nodes[at].is_mark(";\n") and not is_key(token_at(nodes, at), BOOKS):
        name = name_at(nodes, at)
        if name is not None and slugs and family_of(saxophone_of(name) or name.slugs[0]) != family_of(slugs[0]):
            break
        if name is not None:
            slugs.append(saxophone_of(name) or name.slugs[0])
            end = name.end
        at = name.end if name is not None else at + 1
    return slugs, end


def saxophone_of(name: Name) -> str | None:
    """Return the saxophone that a size by itself is in a reed player's book, ``Fl/Picc/Alto``."""
    return in_section(key_of(name.written), "saxophone") if family_of(name.slugs[0]) == "voice" else None
