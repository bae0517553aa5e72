"""A call as plain values for JSON and for keeping: dates and enumerations as text, and back.

``None`` is what a call does not say, ``False`` that it has no such demand.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Any

from catalogue.rules.calls.terms import (
    Age,
    Basis,
    Call,
    CallKind,
    Electronics,
    ElectronicsKind,
    Forces,
    ForcesRule,
    Novelty,
    Players,
    Portal,
    RecordingRule,
    Residence,
    SetRule,
    TextRights,
    Versions,
)
from catalogue.rules.calls.verdicts import Judged


def judged_values(one: Judged) -> dict[str, Any]:
    """Return what one condition made of a work, as values that JSON can hold."""
    found: dict[str, Any] = {"condition": one.condition, "verdict": str(one.verdict), "reason": one.reason}
    found |= {"record": {"kind": one.record.kind, "id": one.record.id}}
    return found | ({"mend": one.mend} if one.mend else {})


def call_values(call: Call) -> dict[str, Any]:
    """Return a call as values that JSON can hold.

    >>> call_values(Call(title="Prize", duration_max=540))["duration_max"]
    540
    """
    return {one.name: plain_value(getattr(call, one.name)) for one in fields(call)}


def plain_value(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return {one.name: plain_value(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, tuple):
        return [plain_value(one) for one in value]
    if isinstance(value, datetime | date):
        return value.isoformat()
    return str(value) if isinstance(value, StrEnum) else value


ENUMS = {
    "kind": CallKind,
    "electronics": Electronics,
    "electronics_only": ElectronicsKind,
    "recording": RecordingRule,
    "composed_basis": Basis,
    "versions": Versions,
    "text_rights": TextRights,
}
DAYS = ("deadline_day", "results_on", "composed_from", "composed_until")


def call_of(values: dict[str, Any]) -> Call:
    """Return the call of values that ``call_values`` made; names that are not known are left out.

    >>> call_of(call_values(Call(kind=CallKind.READING))).kind
    <CallKind.READING: 'reading'>
    """
    known = {one.name for one in fields(Call)}
    return Call(**{name: valued(name, value) for name, value in values.items() if name in known and value is not None})


def valued(name: str, value: Any) -> Any:
    if name in ENUMS:
        return ENUMS[name](value)
    if name in DAYS:
        return date.fromisoformat(value)
    if name == "deadline":
        return datetime.fromisoformat(value)
    if name == "forces":
        return Forces(**value | {"texts": tuple(value["texts"]), "rule": ForcesRule(value["rule"])})
    if name == "novelty":
        return Novelty(**value | {"by": Players(value["by"])})
    if name == "age":
        return Age(**value | {key: date.fromisoformat(value[key]) if value[key] else None for key in ("on", "born")})
    if name == "residence":
        states = {key: tuple(value[key]) for key in ("national", "resident", "born")}
        return Residence(**states, text=value["text"])
    if name == "portal":
        known = {one.name for one in fields(Portal)}
        kept: dict[str, Any] = {
            key: tuple(one) if isinstance(one, list) else one for key, one in value.items() if key in known
        }
        return Portal(**kept)
    if name == "set_rules":
        return tuple(SetRule(**one) for one in value)
    return tuple(value) if isinstance(value, list) else value
