"""Words of material that is lent, sold or sent: what it is, for what it leaves, how it comes back."""

from __future__ import annotations

from enum import StrEnum


class Purpose(StrEnum):
    """For what material leaves the house. Sold material does not come back; perusal is free for a time."""

    HIRE = "hire"
    PERUSAL = "perusal"
    SALE = "sale"
    OWN_USE = "own use"


class MaterialForm(StrEnum):
    """Whether a set is of paper or of files."""

    PRINTED = "printed"
    DIGITAL = "digital"


class LinkPurpose(StrEnum):
    """Why somebody is given the address of files."""

    PERUSAL = "perusal"
    PARTS = "delivery of parts"


class SetCondition(StrEnum):
    """How good a set is; a withdrawn one is lent no more."""

    NEW = "new"
    GOOD = "good"
    MARKED = "marked"
    DAMAGED = "damaged"
    INCOMPLETE = "incomplete"
    WITHDRAWN = "withdrawn"


class PartCondition(StrEnum):
    """How a part came back, as checklists of libraries tell it (common practice)."""

    GOOD = "good"
    MARKED = "marked"
    DAMAGED = "damaged"
    MISSING = "missing"


class PartAction(StrEnum):
    """What is to be done about a part that did not come back as it went."""

    ERASE = "erase"
    REPAIR = "repair"
    REPLACE = "replace"
    ASK = "ask for it"
    WRITE_OFF = "write off"


class LateStep(StrEnum):
    """For how long each late charge is: once, or for every week or month begun."""

    ONCE = "once"
    WEEK = "week"
    MONTH = "month"


class HireState(StrEnum):
    """How far a hire has come."""

    PLANNED = "planned"
    OUT = "out"
    OVERDUE = "overdue"
    BACK = "back"
    INCOMPLETE = "incomplete"
    KEPT = "kept"
