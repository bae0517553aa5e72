"""Scores and parts, and how they are written."""

from __future__ import annotations

from enum import StrEnum


class SignGroup(StrEnum):
    """Where a sign stands in a notation key, in the order of the key (common practice)."""

    ACCIDENTAL = "accidental"
    NOTEHEAD = "notehead"
    TECHNIQUE = "technique"
    ELECTRONICS = "electronics"
    TIME = "time"
    GRAPHIC = "graphic"


class EditionKind(StrEnum):
    """What is printed or sent."""

    FULL_SCORE = "full score"
    STUDY_SCORE = "study score"
    VOCAL_SCORE = "vocal score"
    PIANO_REDUCTION = "piano reduction"
    PARTS = "parts"
    SCORE_AND_PARTS = "score and parts"
    PLAYING_SCORE = "playing score"
    ELECTRONICS = "electronics package"


class ScorePitch(StrEnum):
    """At which pitch transposing instruments are written; octave-transposing ones are as usual in both."""

    IN_C = "in C"
    TRANSPOSED = "transposed"


class AccidentalRule(StrEnum):
    """How long an accidental holds."""

    BAR = "for the bar"
    NOTE = "for its note only"
