"""Reads one item of a list: ``2 fl (II=picc)``, ``solo violin``, ``horns in F 1,2``, or a bare figure of a formula.

item = { qualifier } , [ number ] , { qualifier } , ( name , { tail } | bracket ) ;
tail = key | part numbers | bracket | "*" | qualifier | ( "or" | "/" ) , name | doubling clause ;
"""

from __future__ import annotations

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.lexicon import AND, ARTICLES, OR, REMARKS
from catalogue.instrumentation.limits import may_choose
from catalogue.instrumentation.names import Name, from_figures, name_at
from catalogue.instrumentation.numbers import is_suffix
from catalogue.instrumentation.openers import holds_size
from catalogue.instrumentation.phrases import FAMILY, count_at, figures_before, is_key, token_at
from catalogue.instrumentation.players_meant import may_double
from catalogue.instrumentation.plurals import is_plural
from catalogue.instrumentation.qualities import Qualities, qualities_at
from catalogue.instrumentation.rows import remembered
from catalogue.instrumentation.string_parts import unnamed_bass
from catalogue.instrumentation.tails import named_follows, tail
from catalogue.instrumentation.tokens import Bracket, Nodes, Token

LAST_PLACE = 3
LONGEST_FIGURE = 2
PARTING = ".,-/;\n+"
JOINING = {"bracket": ".", "word": "-"}


SMALL = REMARKS | ARTICLES | OR | AND


def item_at(nodes: Nodes, at: int, forces: Forces, *, formula: bool, slash_parts: bool) -> tuple[Draft, int] | None:
    """Return the item that begins here and its end, or ``None`` where none does."""
    qualities, end = qualities_at(nodes, at)
    name = name_at(nodes, end) or unnamed_bass(nodes, end, forces)
    if qualities.count is not None and long_figure(nodes, at):
        return figure_item(nodes, at, forces, qualities, end)
    if formula_letter(nodes, end, forces, formula=formula) and (name is None or name.end == end + 1):
        name = letter_name(nodes, end)
    if name is None:
        return figure_item(nodes, at, forces, qualities, end)
    draft = Draft(name.slugs[0] if len(name.slugs) == 1 else "", nodes[at].start, name.stop, name=name)
    apply_qualities(draft, qualities)
    draft.extra = at > 0 and nodes[at - 1].is_mark("+")
    if qualities.numbered and qualities.seat in (1, 2) and set(name.slugs) & {"violin", "violin-1"}:
        draft.slug, draft.seats, draft.collective = f"violin-{qualities.seat}", (), ""
    both = both_violins(nodes, name)
    if both is not None:
        draft.slug, draft.number_after = "violin", (1, 2)
        name = name._replace(end=both)
    draft.plural = is_plural(name)
    end = tail(nodes, name.end, draft, forces, formula=formula, slash_parts=slash_parts)
    draft.end = nodes[end - 1].end
    return draft, end


def both_violins(nodes: Nodes, name: Name) -> int | None:
    """Return the end of ``violins I, II``, ``vn I & II``, ``violin 1 and 2``."""
    if name.slugs[0] != "violin-1":
        return None
    at = name.end
    while at < len(nodes) and (nodes[at].is_mark(",+/-&") or is_key(nodes[at], AND)):
        at += 1
    token = token_at(nodes, at)
    second = token is not None and at > name.end and (token.text in ("II", "2"))
    following = token_at(nodes, at + 1)
    if not second or named_follows(nodes, at + 1, 1) or (following is not None and is_suffix(following)):
        return None
    return at + 1


def long_figure(nodes: Nodes, at: int) -> bool:
    """Whether three or more figures are written together: places, never a number of players."""
    token = token_at(nodes, at)
    return token is not None and token.kind == "number" and len(token.text) > 2


def formula_letter(nodes: Nodes, at: int, forces: Forces, *, formula: bool) -> bool:
    """Whether a single letter after figures stands for timpani or percussion."""
    token = token_at(nodes, at)
    if not formula or token is None or not token.is_word("p", "t", "h") or not forces.drafts:
        return False
    if nodes[at - 1].is_mark("+") and not any(draft.slug == "timpani" for draft in forces.drafts):
        return False
    return not any(draft.family == "voice" for draft in forces.drafts) and any(draft.figure for draft in forces.drafts)


def letter_name(nodes: Nodes, at: int) -> Name | None:
    token = token_at(nodes, at)
    if token is None:
        return None
    slug = {"p": "percussion", "h": "harp"}.get(token.lower, "timpani")
    return Name((slug,), token.text, at, at + 1, token.start, token.end)


def apply_qualities(draft: Draft, qualities: Qualities) -> None:
    draft.count = qualities.count
    draft.optional = qualities.optional
    draft.open = qualities.open
    draft.electric = qualities.electric
    draft.amplified = qualities.amplified or qualities.electric
    draft.unit = qualities.unit
    if qualities.solo or qualities.offstage:
        draft.role = "soloist" if qualities.solo else "offstage"
        draft.soli = qualities.soli
    if qualities.onstage:
        draft.notes.append("on stage")
    if qualities.seat is not None:
        draft.seats = (qualities.seat,)
    if qualities.copies:
        draft.collective = "copies"
    if qualities.seats:
        draft.seats = qualities.seats
    if qualities.numbered:
        draft.collective = "numbered"
    if qualities.bracket is not None:
        draft.brackets.append(qualities.bracket)
    if qualities.pairs and qualities.count is not None:
        drums = draft.slug in ("timpani", "cymbals")
        factor = 1 if drums else 2
        draft.counted(qualities.count.least * factor, qualities.count.most * factor)


def figure_item(nodes: Nodes, at: int, forces: Forces, qualities: Qualities, end: int) -> tuple[Draft, int] | None:
    """Return a bare figure with its star, ``d`` and brackets."""
    count = qualities.count
    token = token_at(nodes, at)
    if count is None or token is None or token.kind != "number" or qualities.seat is not None:
        return None
    end = count.end
    if unknown_follows(nodes, end, formula=forces.formula):
        return None
    draft = Draft("", token.start, token.end, count=count, figure=True, packed=len(token.text) > 2)
    end = d_suffix(nodes, end, draft)
    while end < len(nodes):
        node = nodes[end]
        after_dot = node.is_mark(".") and end + 1 < len(nodes) and isinstance(nodes[end + 1], Bracket)
        if isinstance(node, Bracket):
            draft.brackets.append(node)
            end += 1
        elif node.is_mark("*"):
            draft.starred, end = True, end + 1
        elif after_dot and nodes[end + 1].start >= node.end:
            end += 1
        else:
            break
    draft.end = nodes[end - 1].end
    return draft, end


@remembered
def plain_row(nodes: Nodes) -> bool:
    """Whether no word of the row makes more of a figure than a number of players."""
    return not (holds_size(nodes) or may_choose(nodes) or may_double(nodes))


def bare_figure(nodes: Nodes, at: int) -> Draft | None:
    """Return the item of a figure that a mark or the end follows, which can be nothing else; ``None`` elsewhere."""
    token, following = nodes[at], nodes[at + 1] if at + 1 < len(nodes) else None
    if (
        type(token) is not Token
        or len(token.text) > LONGEST_FIGURE
        or (following is not None and following.kind == "word")
    ):
        return None
    if not plain_row(nodes) or (following is not None and not stands_apart(nodes, at)):
        return None
    count = count_at(nodes, at)
    if count is None or count.end != at + 1:
        return None
    return Draft("", token.start, token.end, count=count, figure=True)


def stands_apart(nodes: Nodes, at: int) -> bool:
    """Whether a separator stands after a figure and nothing beyond it belongs to it, or a blank and another figure."""
    token, following = nodes[at], nodes[at + 1]
    beyond = nodes[at + 2] if at + 2 < len(nodes) else None
    if type(token) is Token and type(following) is Token and following.kind == "number":
        ordinal = type(beyond) is Token and is_suffix(beyond)
        return following.spaced and not ordinal and token.text + following.text not in from_figures()
    belongs = beyond is not None and beyond.kind in ("bracket", "word") and following.is_mark(JOINING[beyond.kind])
    return following.is_mark(PARTING) and not belongs


def last_figure(nodes: Nodes, at: int, forces: Forces) -> tuple[Draft, int] | None:
    """Read the fourth figure of a family before a name that only a blank parts from it, ``4.2.3.1 timp``."""
    token, following = token_at(nodes, at), token_at(nodes, at + 1)
    if token is None or following is None or following.kind != "word" or not following.spaced or len(token.text) > 2:
        return None
    if at == 0 or (token.spaced and nodes[at - 1].kind not in ("number", "bracket")):
        return None
    if LAST_PLACE not in (figures_before(nodes, at, ".,"), figures_before(nodes, at, "") % FAMILY):
        return None
    draft = Draft("", token.start, token.end, count=count_at(nodes, at), figure=True)
    return (draft, at + 1) if draft.count is not None and draft.count.end == at + 1 else None


def unknown_follows(nodes: Nodes, at: int, *, formula: bool) -> bool:
    """Whether a number counts a word that is no known name, ``2 glass vases``."""
    token = token_at(nodes, at)
    long = token is not None and len(token.text) >= (2 if token.spaced else 4)
    if token is None or token.kind != "word" or not long or formula:
        return False
    return not is_key(token, SMALL)


def d_suffix(nodes: Nodes, at: int, draft: Draft) -> int:
    """Read ``d1``, ``d2es`` after a figure: so many of them double, the usual auxiliary or the one named."""
    letter, figure = token_at(nodes, at), token_at(nodes, at + 1)
    if letter is None or figure is None or not is_d_letter(letter) or figure.kind != "number" or figure.spaced:
        return at
    draft.doubles = min(figure.number, 99)
    named = token_at(nodes, at + 2)
    if named is not None and named.kind == "word" and len(named.text) <= 8:
        draft.clauses.append((named,))
        return at + 3
    return at + 2


def is_d_letter(token: Token) -> bool:
    return token.is_word("d") and not token.spaced


def begins_named(nodes: Nodes) -> bool:
    """Whether a name, with or without a number, stands first."""
    counted = count_at(nodes, 0)
    return name_at(nodes, counted.end if counted else 0) is not None


def begins_item(nodes: Nodes, at: int) -> bool:
    """Whether a number or a name stands here."""
    return count_at(nodes, at) is not None or name_at(nodes, at) is not None
