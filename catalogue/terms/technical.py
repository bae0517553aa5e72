"""How the electronics of a work are set up, and what a presenter answers."""

from __future__ import annotations

from enum import StrEnum


class SetupKind(StrEnum):
    """Which way of doing the electronics it is: as meant, with less, or when something fails."""

    FULL = "full"
    REDUCED = "reduced"
    FALLBACK = "fallback"


class Synchronisation(StrEnum):
    """How the players and the electronics keep together."""

    NONE = "none"
    CLICK = "click"
    EAR = "by ear from the score"
    PEDAL = "cues by pedal"
    OPERATOR = "cues by an operator"
    STOPWATCH = "stopwatch"


class Answer(StrEnum):
    """What a presenter says to one item of a rider."""

    YES = "yes"
    NOT_QUITE = "not quite"
    NO = "no"
    QUESTION = "question"


class LayoutName(StrEnum):
    """How the loudspeakers stand; ``own`` is written out loudspeaker by loudspeaker."""

    NONE = "none"
    STEREO = "stereo"
    QUAD = "quad"
    FIVE_ONE = "5.1"
    SEVEN_ONE = "7.1"
    OCTO_PAIR = "octophonic, front pair"
    OCTO_CENTRE = "octophonic, front centre"
    DOME = "dome of sixteen"
    OWN = "own"
