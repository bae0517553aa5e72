"""Tells soloists from players of the ensemble: ``soli vn.vc``, a name before the winds, ``… solisti`` at the end."""

from __future__ import annotations

import re

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.families import MAIN
from catalogue.instrumentation.lexicon import ORCHESTRA, SOLO
from catalogue.instrumentation.settling import OPEN_BODIES, STRINGS, is_played
from catalogue.instrumentation.vocabulary import family_of, key_of

CONCERTO = re.compile(
    r"\W{0,3}(?:\w+ ){0,3}\w*(?:concert(?:o|ino)|konzert|concierto)\b[^:;,\n]{0,40}\b(?:for|für|pour|per|para)\b",
    re.IGNORECASE,
)
MOST_SOLOISTS = 4
ALONE_OR_NOT = ("a soloist", "a player of the orchestra")


def carry_soli(forces: Forces) -> None:
    """Carry ``soli`` on to the names that the same mark joins to the first, ``soli vn.vc – 2.2.2.2``.

    A comma also parts the players of the ensemble: it carries on to one more, since they are several, and within the
    family.
    """
    drafts = forces.drafts
    for at, draft in enumerate(drafts):
        mark = drafts[at + 1].separator if draft.soli and at + 1 < len(drafts) else ""
        if mark not in (".", ",", "&", ",&", "+"):
            continue
        for one in drafts[at + 1 :]:
            listed = one.separator == mark or one.separator.endswith("&")
            if not listed or one.figure or one.slug in ("strings", *OPEN_BODIES) or one.slug.startswith("choir"):
                break
            apart = mark != "." and one.separator != "&" and family_of(one.slug) != family_of(draft.slug)
            if apart and one is not drafts[at + 1]:
                break
            one.role = "soloist"


def carry_back(forces: Forces) -> None:
    """Carry ``soloists`` back to the names that *and* joins to the last, ``clarinet and viola soloists, strings``."""
    drafts = forces.drafts
    for at, draft in enumerate(drafts):
        if draft.role != "soloist" or draft.most > 1:
            continue
        said = forces.text[end_of_name(draft) : draft.end]
        listed = draft.separator.endswith("&") or draft.separator == ","
        beside = at > 0 and drafts[at - 1].count is None and is_played(drafts[at - 1])
        both = beside and draft.separator == "&" and said_after(said) and body_follows(drafts[at + 1 :])
        if not (both or (said_plural(said) and listed)):
            continue
        if not said_plural(said):
            forces.remark("soloist", "All who are named before the word were read as soloists.", draft.start, draft.end)
        for one, following in zip(reversed(drafts[:at]), reversed(drafts[1 : at + 1]), strict=True):
            joined = following.separator.endswith("&") or following.separator == ","
            if not joined or not is_played(one) or one.count is not None or one.slug == "strings":
                break
            one.role = "soloist"


def before_string_orchestra(forces: Forces) -> None:
    """Read single string players named before a string orchestra, ``violin, cello and string orchestra``."""
    drafts = forces.drafts
    at = next((at for at, one in enumerate(drafts) if one.slug == "strings"), 0)
    if not at or "orch" not in key_of(forces.written(drafts[at].start, drafts[at].end)):
        return
    for draft in drafts[:at]:
        single = draft.count is None and not (draft.plural or draft.collective or draft.number_after)
        if draft.slug in STRINGS and draft.role == "ensemble" and single:
            draft.role = "soloist"


def early_soloists(forces: Forces) -> None:
    """Read strings, keyboards and plucked instruments that stand before the winds of an orchestra as soloists."""
    drafts = forces.drafts
    first = next((at for at, draft in enumerate(drafts) if draft.section in MAIN), 0)
    if not first or not any(draft.slug == "strings" for draft in drafts[first:]):
        return
    named = drafts[:first]
    told = orchestra_told(named[-1], drafts[first], forces)
    for draft in named:
        few = (draft.most == 1 and not draft.plural) or (draft.count is not None and draft.most <= MOST_SOLOISTS)
        if told and is_played(draft) and few and not (draft.collective or draft.section):
            draft.role = "soloist" if draft.role == "ensemble" else draft.role
            continue
        apart = draft.family in ("keyboard", "plucked") or draft.slug in STRINGS or plays_alone(draft)
        if apart and draft.role == "ensemble" and draft.most == 1 and not (draft.collective or draft.plural):
            about = "What stands before the winds of the orchestra was read as"
            if forces.decide("soloist", about, ALONE_OR_NOT, draft.start, draft.end):
                draft.role = "soloist"


def orchestra_told(last: Draft, first: Draft, forces: Forces) -> bool:
    """Whether the word for an orchestra stands before its figures, so that who is named before it plays alone."""
    between = re.split(r"[\W\d]+", forces.text[last.end : first.start])
    return any(key_of(word) in ORCHESTRA for word in between if word)


def plays_alone(draft: Draft) -> bool:
    """Whether a percussion instrument is named for itself, ``marimba``, and not the section."""
    return draft.family == "percussion" and draft.slug not in ("percussion", "timpani")


def concerto_soloists(forces: Forces) -> None:
    """Read the players who stand before the strings or the band after ``Concerto for`` as its soloists."""
    drafts = forces.drafts
    if not CONCERTO.match(forces.text):
        return
    first = next((at for at, one in enumerate(drafts) if one.figure or one.slug in ("strings", *OPEN_BODIES)), 0)
    title = forces.text.find(":")
    again = {one.slug for one in drafts if one.role == "soloist" and one.start > title}
    if title > 0 and any(one.slug in again and one.end <= title for one in drafts):
        drafts[:] = [one for one in drafts if one.end > title or one.slug not in again]
        return
    if any(one.role == "soloist" for one in drafts):
        return
    for draft in drafts[:first]:
        if is_played(draft) and draft.role == "ensemble" and draft.most == 1 and not draft.collective:
            draft.role = "soloist"


def settle_soloists(forces: Forces) -> None:
    """Carry ``solisti`` at the end back to the names it covers, and leave an unaccompanied player in the ensemble."""
    drafts = forces.drafts
    for draft in drafts:
        draft.role = "ensemble" if draft.family == "electronics" and draft.role == "soloist" else draft.role
    played = [draft for draft in drafts if is_played(draft)]
    if len(played) == 1 and len(drafts) == 1 and drafts[0].most == 1 and drafts[0].role == "soloist":
        drafts[0].role = "ensemble"
    last = drafts[-1] if drafts else None
    if last is None or last.role != "soloist" or last.most > 1 or not said_plural(forces.text[end_of_name(last) :]):
        return
    at = len(drafts) - 2
    while at >= 0 and drafts[at].slug not in ("strings", "percussion", "timpani") and drafts[at].count is None:
        drafts[at].role = "soloist"
        at -= 1


def stray_soloist(forces: Forces) -> None:
    """Read a wind name after the percussion as the soloist where its place in the formula is empty, ``2022 … ob``."""
    seen_percussion = False
    empty = {draft.section for draft in forces.drafts if draft.section in MAIN and draft.count and not draft.most}
    body = False
    for draft in forces.drafts:
        body = body or draft.slug == "strings"
        seen_percussion = seen_percussion or draft.family == "percussion"
        if body and empty is not None and bowed_after_body(draft, forces):
            if forces.decide(
                "soloist", "A string player after the strings was read as", ALONE_OR_NOT, draft.start, draft.end
            ):
                draft.role = "soloist"
            continue
        if seen_percussion and draft.slug in empty and draft.count is None and not draft.section:
            about = "A wind instrument after the percussion was read as"
            if forces.decide("soloist", about, ALONE_OR_NOT, draft.start, draft.end):
                draft.role = "soloist"


def bowed_after_body(draft: Draft, forces: Forces) -> bool:
    """Whether a single string instrument is named after the strings of an orchestra written in figures."""
    single = draft.slug in STRINGS and draft.count is None and draft.role == "ensemble" and not draft.group
    return single and forces.formula and not (draft.plural or draft.collective or draft.number_after)


def end_of_name(draft: Draft) -> int:
    return draft.name.stop if draft.name else draft.start


def body_follows(drafts: list[Draft]) -> bool:
    """Whether strings, an orchestra or the figures of one are told among the drafts."""
    return any(one.slug in ("strings", *OPEN_BODIES) or one.figure for one in drafts)


def said_after(text: str) -> bool:
    """Whether ``solo`` stands after a name."""
    return any(key_of(word) in SOLO for word in text.split())


def said_plural(text: str) -> bool:
    return any(
        key_of(word) in ("solisti", "soli", "soloists", "solisten", "solistes", "solistas") for word in text.split()
    )
