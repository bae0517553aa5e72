"""The stage of a rider: the drawing, what stands where in words, and what the marks mean."""

from __future__ import annotations

from catalogue.documents.contents.rider_channels import Heads, table_of
from catalogue.documents.contents.stage import stage_of
from catalogue.documents.labels import Labels
from catalogue.documents.model import Block, Figure, Paragraph, Text, Voice, value, wording
from catalogue.drawings.stage_plan import Stage, Thing
from catalogue.instrumentation import Instrumentation
from catalogue.rules.technical.terms import Mark, Setup

PLACE_HEADS: Heads = (("place", "No."), ("player", "Player"), ("where", "Place"), ("place-channels", "Channels"))


SMALL_STAGE = 9
SMALL, LARGE = 0.6, 0.81
"""The share of the page that a small and a large stage are drawn in."""


def stage_blocks(forces: Instrumentation | None, setup: Setup | None, says: Labels) -> tuple[Block, ...]:
    """The plan with its table and its legend; nothing where nothing is known to stand on the stage."""
    stage = stage_of(forces, setup, says)
    if stage is None:
        return ()
    size = says.say(
        "Seen from above; one square is 1 m. Stage at least {width} × {depth} m.",
        width=says.figure(f"{stage.width:g}"),
        depth=says.figure(f"{stage.depth:g}"),
    )
    shown = [one for one in stage.things if one.y >= 0]
    rows = ((value(one.number), value(name_of(one)), where(one, says), value(one.channels)) for one in shown)
    return (
        Figure(stage, size, SMALL if stage.width <= SMALL_STAGE else LARGE),
        table_of(PLACE_HEADS, rows, says),
        *legend(stage, says),
    )


def name_of(thing: Thing) -> str:
    return f"{thing.count} {thing.name}" if thing.count > 1 else thing.name


def where(thing: Thing, says: Labels) -> Text:
    """Metres to the left or right of the middle, and behind the front edge."""
    back, aside = says.figure(f"{thing.y:g}"), says.figure(f"{abs(thing.x):g}")
    if not thing.x:
        return says.say("middle, {back} m back", back=back)
    if thing.x < 0:
        return says.say("{aside} m left, {back} m back", aside=aside, back=back)
    return says.say("{aside} m right, {back} m back", aside=aside, back=back)


def legend(stage: Stage, says: Labels) -> tuple[Block, ...]:
    """What the marks mean, those that are drawn."""
    marks = {one.mark for one in stage.things}
    has_channels = any(one.channels for one in stage.things)
    told = (
        says.word("circle: player") if Mark.PLAYER in marks else "",
        says.word("triangle with figures: microphone, input channels") if has_channels else "",
        says.word("wedge: monitor") if Mark.MONITOR in marks else "",
        says.word("square with two holes: power") if Mark.POWER in marks else "",
        says.word("double circle: conductor; lines of sight that must stay free") if Mark.CONDUCTOR in marks else "",
        says.word("left and right are seen from the audience"),
    )
    sentence = says.parted(told)
    return (Paragraph(wording(f"{sentence[:1].upper()}{sentence[1:]}."), Voice.NOTE),)
