"""Makes the lines of an instrumentation from settled drafts."""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation.bodies import is_choir
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.model import Chair, Line, Span
from catalogue.instrumentation.vocabulary import family_of

VOICES = "voice-"
MOST_CHAIRS = 60
KINDS = {"fixed-media": "fixed", "live-electronics": "live", "electronics": "unspecified"}
OF_MANY = ("orchestra", "ensemble", "duo", "trio", "quartet", "of")
BOWED = ("violin-1", "violin-2", "violin", "viola", "cello", "double-bass")


def lines_of(forces: Forces) -> tuple[Line, ...]:
    """Return the lines in the order of the text, electronics after the players and further groups last."""
    drafts = [draft for draft in forces.drafts if draft.slug and not is_none(draft)]
    bowed = [draft for draft in drafts if draft.slug in BOWED]
    sections = {(draft.group, draft.role) for draft in bowed if is_section(draft)}
    bodies = {(draft.group, draft.role) for draft in bowed if is_section(draft) and draft.collective == "section"}
    lines = [
        line_of(draft, section=key in sections and (key not in bodies or draft.collective == "section"))
        for draft in drafts
        for key in [(draft.group, draft.role)]
    ]
    lines.sort(key=lambda line: line.family == "electronics" and line.group is None)
    labels = labels_apart(lines)
    if not labels:
        return tuple(merged(lines))
    ordered = [line for line in lines if line.group not in labels]
    ordered += [line for label in labels for line in lines if line.group == label]
    return tuple(merged(ordered))


def labels_apart(lines: list[Line]) -> list[str]:
    """Return the labels of further bodies; choirs told apart by number stand where they are."""
    labelled = [line for line in lines if line.group is not None]
    apart = {line.group for line in labelled if not is_choir(line)}
    return list(dict.fromkeys(line.group for line in labelled if line.group is not None and line.group in apart))


def is_none(draft: Draft) -> bool:
    return draft.count is not None and draft.most == 0 and not draft.open


def merged(lines: list[Line]) -> list[Line]:
    """Add up lines of counted players that are alike, ``flute … flute``."""
    found: dict[object, Line] = {}
    for at, line in enumerate(lines):
        key = at if line.players is None else sameness(line)
        found[key] = together(found[key], line) if key in found else line
    return list(found.values())


def sameness(line: Line) -> tuple[object, ...]:
    """Return all of a line but its players: what has to be the same for two lines to be added up."""
    quality = (line.optional, line.amplified, line.note, line.unit, line.strength, line.alternatives, line.parts)
    return (line.instrument, line.role, line.group, *quality)


def together(one: Line, other: Line) -> Line:
    assert one.players is not None and other.players is not None  # noqa: S101, PT018 — narrows the types
    players = (one.players[0] + other.players[0], one.players[1] + other.players[1])
    shift = one.players[1]
    moved = tuple(replace(chair, chair=chair.chair + shift if chair.chair else None) for chair in other.chairs)
    chairs = (*one.chairs, *moved)
    return replace(one, players=players, chairs=all_chairs(chairs, one.instrument, players))


def told(draft: Draft) -> str:
    """Return the draft's notes, with what its number leaves open, without the marks that enclose notes in a text."""
    notes = [*draft.notes, "or more"] if draft.count is not None and draft.count.more else draft.notes
    if draft.family == "electronics" and (devices := devices_of(draft)):
        notes = [devices, *notes]
    if not notes:
        return ""
    said = dict.fromkeys(note for text in notes if (note := text.strip(" ,;")))
    return "; ".join(said).replace("“", '"').replace("”", '"')


def devices_of(draft: Draft) -> str:
    """Return how many devices a text names, ``2 laptops`` or ``laptop ensemble``: no players, and not lost either."""
    named = draft.name.written if draft.name is not None else ""
    if draft.count is not None and draft.most > 1:
        least = f"{draft.least}–" if draft.least != draft.most else ""
        return f"{least}{draft.most} {named}" if named else ""
    return named if named.lower().startswith(("laptop ", "orchestra ")) and named.lower().split()[1] in OF_MANY else ""


def line_of(draft: Draft, *, section: bool) -> Line:
    players = players_of(draft)
    family = family_of(draft.slug)
    bowed = draft.slug in BOWED and draft.role != "soloist" and players is not None and section
    return Line(
        instrument=draft.slug,
        family=family,
        players=players,
        role=role_of(draft),
        chairs=all_chairs(tuple(draft.chairs), draft.slug, players) if draft.chairs else (),
        optional=draft.optional,
        amplified=draft.amplified,
        group=draft.group,
        note=told(draft),
        unit=(draft.unit or "players") if bowed else None,
        strength=(draft.strength or "stated") if bowed else None,
        alternatives=tuple(slug for slug in dict.fromkeys(draft.alternatives) if slug != draft.slug)
        if draft.alternatives
        else (),
        parts=draft.parts,
    )


def is_section(draft: Draft) -> bool:
    """Whether a string draft is a section and not single players: four or more, desks, or a strength that is told."""
    return draft.unit == "desks" or draft.strength is not None or (draft.count is not None and draft.most >= 4)


def players_of(draft: Draft) -> Span | None:
    if draft.family == "electronics":
        return (0, 0)
    if draft.count is None and (draft.open or draft.slug == "basso-continuo"):
        return None
    least, most = draft.least, draft.most
    return (0, most) if draft.optional else (least, most)


def role_of(draft: Draft) -> str:
    if draft.slug == "conductor":
        return "conductor"
    if draft.slug == "narrator":
        return "narrator"
    if draft.slug == "voice" or draft.slug.startswith(VOICES):
        return draft.role if draft.role == "offstage" else "soloist"
    if draft.slug == "choir" or draft.slug.startswith("choir-"):
        return draft.role if draft.role == "offstage" else "ensemble"
    return draft.role


def all_chairs(chairs: tuple[Chair, ...], slug: str, players: Span | None) -> tuple[Chair, ...]:
    """Return all chairs of a line once some are named by number; chairs nobody was named for stand as they are."""
    if not chairs:
        return ()
    named = {chair.chair: chair for chair in chairs if chair.chair is not None}
    unnamed = tuple(chair for chair in chairs if chair.chair is None)
    if not named:
        return unnamed
    size = max(players[1] if players else 0, *named)
    if size > MOST_CHAIRS:
        return tuple(named[seat] for seat in sorted(named)) + unnamed
    return tuple(named.get(seat, Chair(seat, (slug,))) for seat in range(1, size + 1)) + unnamed


def electronics_of(forces: Forces, lines: tuple[Line, ...]) -> str:
    """Return which electronics the lines ask for."""
    kinds = {KINDS[line.instrument] for line in lines if line.instrument in KINDS} | forces.electronics
    if {"fixed", "live"} <= kinds:
        return "both"
    for kind in ("live", "fixed", "unspecified"):
        if kind in kinds:
            return kind
    return "none"
