"""Reads what is named as a whole: string bodies, ensembles by name, choirs by voicing, channels, open forces."""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation import (
    alike,
    books,
    bracket_words,
    channels,
    choir_names,
    choirs,
    collectives,
    folds,
    limits,
    open_forces,
    sizes,
)
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.hands import hands_before
from catalogue.instrumentation.introducing import introduced_at
from catalogue.instrumentation.kinds import MOST_GROUPS, grouped, key_ends_in_s, size_of_at, sized_at
from catalogue.instrumentation.lexicon import (
    AND,
    ARTICLES,
    BODY_OF_STRINGS,
    ENSEMBLE,
    OF,
    OPTIONAL,
    SOLO,
    WITHOUT,
    keyed,
)
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.open_forces import itemises
from catalogue.instrumentation.percussion_lists import labels_player
from catalogue.instrumentation.phrases import count_at, is_key, phrase_end, token_at
from catalogue.instrumentation.plurals import pairs_of
from catalogue.instrumentation.qualities import qualities_at
from catalogue.instrumentation.strings import bowed
from catalogue.instrumentation.tokens import Bracket, Nodes, Token
from catalogue.instrumentation.vocabulary import family_of, key_of
from catalogue.instrumentation.voicings import is_letters

Found = tuple[list[Draft], int, bool]
RECORDED = frozenset({"prerecorded", "recorded", "sampled", "taped", "enregistre", "enregistres"})
PAIR = 2
MOST_PLAYERS = 999
MOST_OF_SECTION = 12
ORCHESTRAS = keyed("orchestras streichorchester orchestres orchestre orquestas orchestres_à_cordes")


def body_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Return the drafts of a body named here, where it ends, and whether it only introduces what follows."""
    for early in (
        channels.channels_at, hands_before, alike.alike_at, recorded_at, choirs.divisi_at, introduced_at,
        limits.pieces_at, limits.alone_or_with, limits.required_at,
    ):  # fmt: skip
        found = early(nodes, at, forces)
        if found is not None:
            return found
    lead = qualities_at(nodes, at)
    for read in (choir_names.choir_at, collective_at, sized_at, strings_at):
        found = read(nodes, at, forces, lead)
        if found is not None:
            return found
    for late in (
        size_of_at, folds.folded_at, books.book_at, open_forces.category_at, open_forces.open_at,
        open_forces.unnamed_at,
    ):  # fmt: skip
        found = late(nodes, at, forces)
        if found is not None:
            return found
    return None


def recorded_at(nodes: Nodes, at: int, forces: Forces) -> Found | None:
    """Read what is on the recording, ``pre-recorded string quartet``: it adds no players."""
    end = phrase_end(nodes, at, RECORDED)
    if end is None or name_is_medium(nodes, at):
        return None
    _qualities, start = qualities_at(nodes, end)
    whole = collective_phrase(nodes, start)
    found = name_at(nodes, start)
    after = whole[1] if whole else found.end if found else None
    if after is None or (found is not None and found.slugs[0] == "fixed-media"):
        return None
    draft = Draft("fixed-media", nodes[at].start, nodes[after - 1].end)
    draft.notes.append(forces.written(draft.start, draft.end))
    return [draft], after, False


def name_is_medium(nodes: Nodes, at: int) -> bool:
    found = name_at(nodes, at)
    end = phrase_end(nodes, at, RECORDED)
    return found is not None and end is not None and found.end > end


def collective_phrase(nodes: Nodes, at: int) -> tuple[tuple[str, int, tuple[str, ...]], int] | None:
    end = phrase_end(nodes, at, collectives.names())
    if end is None:
        return None
    key = "".join(key_of(node.text) for node in nodes[at:end] if isinstance(node, Token) and node.kind == "word")
    return collectives.phrases()[key], end


def collective_at(nodes: Nodes, at: int, forces: Forces, lead: choirs.Lead) -> Found | None:
    """Read an ensemble by name; a bracket or list that itemises it replaces the usual make-up."""
    qualities, start = lead
    whole = collective_phrase(nodes, start)
    double = whole is None and is_key(token_at(nodes, start), choirs.DOUBLE)
    whole = collective_phrase(nodes, start + 1) if double else whole or collective_phrase(nodes, at)
    if whole is None:
        return None
    (kind, size, slugs), end = whole
    solo = phrase_end(nodes, end, SOLO)
    end = solo if solo is not None else end
    following = nodes[end] if end < len(nodes) else None
    if kind == "fold":
        drafts = grouped(folds.folded(size), nodes[at].start, nodes[end - 1].end, collective=kind)
        doubled = folds.doubled_in_fold(nodes, end, size, drafts, forces)
        if doubled is not None:
            return *doubled, False
    introduced = introduces(nodes, end, kind, forces)
    if introduced is not None:
        return [], introduced, True
    told = sizes.lettered(following, kind, size)
    if told:
        slugs, end = told, end + 1
    extra, after = fifth_string(nodes, end) if (kind, size) == ("strings", 5) else ("", end)
    if extra:
        slugs, end, kind = (*slugs[:4], extra), after, "strings told"
    elif isinstance(following, Bracket) and not told and is_repeated(following, kind, size):
        end += 1
    say_of_trio(nodes, at, size, forces)
    slugs = (
        folds.folded(size)
        if kind == "fold"
        else usual_or_other(forces, kind, slugs, nodes[start].start, nodes[end - 1].end)
    )
    drafts = grouped(slugs, nodes[at].start, nodes[end - 1].end, collective=kind)
    if kind == "fold" and isinstance(following, Bracket) and folds.changes_one(following, drafts, forces):
        end += 1
    folds.say_of_fold(size if kind == "fold" else 0, nodes[start].start, nodes[end - 1].end, forces)
    many = qualities.count.most if qualities.count is not None and key_ends_in_s(nodes[end - 1]) else 1 + double
    if 1 < many <= MOST_GROUPS:
        drafts = alike.repeated(drafts, many)
    for draft in drafts:
        draft.amplified = qualities.amplified or qualities.electric
        draft.optional = qualities.optional
        draft.role = "soloist" if qualities.solo or solo is not None else "ensemble"
    if isinstance(following, Bracket) and kind == "strings":
        figures(following, drafts)
    return drafts, end, False


def say_of_trio(nodes: Nodes, at: int, size: int, forces: Forces) -> None:
    """Say of ``violin, horn and piano trio`` that the trio may be those who are named, its own instrument the last."""
    before = forces.drafts
    named = name_at(nodes, at)
    joined = at > 0 and is_key(nodes[at - 1], AND) and len(before) == size - 1 and named is not None
    if joined and len(before) > 1 and all(one.count is None and not one.collective for one in before):
        token = nodes[at]
        message = f"“{getattr(token, 'text', '')} …” was read as an ensemble beside those before it."
        forces.remark("ensemble", message, token.start, token.end, f"a group of {size}, those before it among them")


def introduces(nodes: Nodes, at: int, kind: str, forces: Forces) -> int | None:
    """Return where the list begins that itemises a named ensemble in the place of its usual make-up."""
    optional = phrase_end(nodes, at, OPTIONAL)
    if optional is not None and kind not in ("strings", "percussion"):
        at = optional + (optional < len(nodes) and nodes[optional].is_mark("."))
    following = nodes[at] if at < len(nodes) else None
    if isinstance(following, Bracket):
        led = is_key(token_at(following.nodes, 0), {"with", "mit", "avec", "con"})
        if led or kind == "percussion" or not itemises(following) or folds.repeats_fold(following, kind):
            return None
        sizes.keep_section(kind, nodes[at - 1].end, forces)
        return at
    if following is not None and following.is_mark(":") and kind in ("fold", "wind", "brass", "saxophone"):
        sizes.keep_section(kind, following.end, forces)
        return at + 1
    if is_key(following, OF) and lists_players_of(nodes, at + 1):
        return at + 1
    listed = kind == "percussion" and following is not None and following.is_mark(".:\n")
    return at if listed and percussion_follows(nodes, at + 1) and not labels_player(nodes, at + 1) else None


def percussion_follows(nodes: Nodes, at: int) -> bool:
    """Whether an instrument of percussion is named here, so that the players of an ensemble are listed."""
    counted = count_at(nodes, at)
    name = name_at(nodes, counted.end if counted is not None else at)
    return name is not None and family_of(name.slugs[0]) == "percussion" and name.slugs[0] != "percussion"


def lists_players_of(nodes: Nodes, at: int) -> bool:
    """Whether ``of`` leads to the list of the players, ``wind octet of pairs of oboes, …``, ``of 4 horns and tuba``."""
    counted = count_at(nodes, at)
    named = counted is not None and name_at(nodes, counted.end) is not None
    return named or pairs_of(nodes, at) is not None


def fifth_string(nodes: Nodes, at: int) -> tuple[str, int]:
    """Read which player a string quintet has beside the quartet: ``(2 cellos)``, ``with double bass``."""
    following = nodes[at] if at < len(nodes) else None
    inside = isinstance(following, Bracket)
    words: Nodes = following.nodes if isinstance(following, Bracket) else nodes
    start = 0 if inside else at
    start += is_key(token_at(words, start), {"with", "mit", "avec", "con", "incl", "including"})
    counted = count_at(words, start)
    name = name_at(words, counted.end if counted else start)
    slug = next((one for one in name.slugs if one in ("viola", "cello", "double-bass")), "") if name else ""
    if name is None or (not inside and start == at) or (inside and name.end < len(words)):
        return "", at
    return slug, at + 1 if inside else name.end


def is_repeated(bracket: Bracket, kind: str, size: int) -> bool:
    """Whether a bracket only says again what the name of the ensemble has said."""
    return adds_nothing(bracket, kind, size) or folds.repeats_fold(bracket, kind)


def adds_nothing(bracket: Bracket, kind: str, size: int) -> bool:
    """Whether a bracket repeats the make-up: the letters of a saxophone quartet, the figures of strings."""
    first = bracket.nodes[0] if bracket.nodes else None
    counted = count_at(bracket.nodes, 0)
    players = phrase_end(bracket.nodes, counted.end, ENSEMBLE) if counted is not None and counted.most == size else None
    if players is not None:
        return players == len(bracket.nodes)
    letters = all(node.is_mark(".,") or (isinstance(node, Token) and is_letters(node.text)) for node in bracket.nodes)
    numbers = isinstance(first, Token) and first.kind == "number"
    packed = first.text if isinstance(first, Token) and numbers and len(bracket.nodes) == 1 else ""
    if kind in ("wind", "brass") and len(packed) > PAIR:
        return sum(map(int, packed)) == size
    return (kind in ("saxophone", "recorder") and letters) or (kind == "strings" and numbers)


def usual_or_other(forces: Forces, kind: str, slugs: tuple[str, ...], start: int, end: int) -> tuple[str, ...]:
    """Return the make-up of a named ensemble, and say so where the name has two."""
    other, instruments = collectives.DISPUTED.get((kind, len(slugs)), ("", ()))
    if not other:
        return slugs
    about = f"“{forces.written(start, end)}” was read in"
    usual = forces.decide("ensemble", about, ("its usual make-up", other), start, end)
    return slugs if usual or not instruments else instruments


def figures(bracket: Bracket, drafts: list[Draft]) -> None:
    """Let the figures of ``string octet (4.2.2)`` count the sections."""
    numbers = [node.number for node in bracket.nodes if isinstance(node, Token) and node.kind == "number"]
    if len(numbers) == len(drafts):
        for draft, number in zip(drafts, numbers, strict=True):
            draft.counted(number)


def strings_at(nodes: Nodes, at: int, forces: Forces, lead: choirs.Lead) -> Found | None:
    """Read a body of strings with the figures or the bracket that belong to it."""
    counted = None if is_key(token_at(nodes, at), ARTICLES) else count_at(nodes, at)
    if counted is not None and counted.most > MOST_PLAYERS:
        return None
    qualities, start = lead
    double = is_key(token_at(nodes, start), choirs.DOUBLE)
    start += double
    end = phrase_end(nodes, start, BODY_OF_STRINGS)
    longer = name_at(nodes, start)
    if end is None or (longer is not None and longer.end > end):
        return None
    if counted is not None and not counted.most:
        for body in forces.drafts:
            if body.slug == "orchestra":
                body.notes.append(forces.written(nodes[at].start, nodes[end - 1].end))
        return [], end, True
    many = counted.most if counted is not None and nodes[end - 1].key in ORCHESTRAS else 1 + double
    draft = Draft(
        "strings",
        nodes[at].start,
        nodes[end - 1].end,
        count=qualities.count if counted and many == 1 + double else None,
    )
    draft.amplified, draft.optional = qualities.amplified or qualities.electric, qualities.optional
    if qualities.solo:
        draft.notes.append("solo")
    end = figures_after(nodes, end, draft, forces)
    if end < len(nodes) and is_key(nodes[end], WITHOUT):
        name = name_at(nodes, end + 1)
        if name is not None:
            draft.without.append(bowed(name.slugs) or "")
            end = name.end
    draft.end = nodes[end - 1].end
    if 1 < many <= MOST_GROUPS:
        return [replace(draft, group=f"orchestra {number}") for number in range(1, many + 1)], end, False
    return [draft], end, False


def figures_after(nodes: Nodes, end: int, draft: Draft, forces: Forces) -> int:
    """Take the figures or brackets that follow the word for strings."""
    after = end
    while after < len(nodes) and nodes[after].is_mark(".:"):
        after += 1
    if after < len(nodes) and isinstance(nodes[after], Bracket):
        while after < len(nodes):
            bracket = nodes[after]
            if not isinstance(bracket, Bracket) or bracket_words.quality(Draft("", 0, 0), bracket, forces):
                break
            draft.brackets.append(bracket)
            after += 1
        return after if draft.brackets else end
    run = after
    while run < len(nodes) and (nodes[run].kind == "number" or (nodes[run].is_mark(".,/-") and run > after)):
        run += 1
    while run > after and nodes[run - 1].kind != "number":
        run -= 1
    numbers = [node for node in nodes[after:run] if isinstance(node, Token) and node.kind == "number"]
    if len(numbers) >= 3 or (len(numbers) == 1 and len(numbers[0].text) in (4, 5)):
        draft.clauses.append(tuple(nodes[after:run]))
        return run
    return after if after < len(nodes) and nodes[after - 1].is_mark(":") else end
