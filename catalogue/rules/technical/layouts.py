"""Loudspeakers as named channels in a given order, each with azimuth and elevation; never a mere number.

Angles in degrees, 0 the front, minus left seen from the audience. Stereo and 5.1 follow Recommendation ITU-R BS.775-3
(front ±30, surrounds between 100 and 120, here 110), 7.1 the positions of system I of ITU-R BS.2051 (sides ±90, rears
±135); quad, the two rings of eight and the dome are common practice: a dome of eight around, six above at 40 degrees
and two at 75.
"""

from __future__ import annotations

from decimal import Decimal

from catalogue.rules.technical.terms import Setup, Speaker
from catalogue.terms import LayoutName


def ring(*angles: float | str, elevation: int = 0, names: tuple[str, ...] = ()) -> tuple[Speaker, ...]:
    return tuple(
        Speaker(names[place] if names else str(place + 1), Decimal(str(angle)), Decimal(elevation))
        for place, angle in enumerate(angles)
    )


LOW = Speaker("LFE", Decimal(0), is_low=True)
FRONT = ring(-30, 30, 0, names=("L", "R", "C"))
LAYOUTS: dict[LayoutName, tuple[Speaker, ...]] = {
    LayoutName.NONE: (),
    LayoutName.STEREO: ring(-30, 30, names=("L", "R")),
    LayoutName.QUAD: ring(-45, 45, -135, 135, names=("front left", "front right", "rear left", "rear right")),
    LayoutName.FIVE_ONE: (*FRONT, LOW, *ring(-110, 110, names=("LS", "RS"))),
    LayoutName.SEVEN_ONE: (*FRONT, LOW, *ring(-90, 90, -135, 135, names=("Lss", "Rss", "Lrs", "Rrs"))),
    LayoutName.OCTO_PAIR: ring("-22.5", "22.5", "-67.5", "67.5", "-112.5", "112.5", "-157.5", "157.5"),
    LayoutName.OCTO_CENTRE: ring(0, 45, 90, 135, 180, -135, -90, -45),
    LayoutName.DOME: tuple(
        Speaker(str(place), one.azimuth, one.elevation)
        for place, one in enumerate(
            (
                *ring("-22.5", "22.5", "-67.5", "67.5", "-112.5", "112.5", "-157.5", "157.5"),
                *ring(-30, 30, -90, 90, -150, 150, elevation=40),
                *ring(-90, 90, elevation=75),
            ),
            start=1,
        )
    ),
}


def speakers_of(setup: Setup) -> tuple[Speaker, ...]:
    """The loudspeakers of a setup, in the order of their channels."""
    return setup.own_speakers if setup.layout is LayoutName.OWN else LAYOUTS[setup.layout]


def angle_text(angle: Decimal) -> str:
    """An angle with its sign.

    >>> angle_text(Decimal("-22.5")), angle_text(Decimal(30)), angle_text(Decimal(0)), angle_text(Decimal(180))
    ('−22.5°', '+30°', '0°', '180°')
    """
    sign = "\N{MINUS SIGN}" if angle < 0 else "+" if 0 < angle < 180 else ""
    return f"{sign}{abs(angle).normalize():f}°"
