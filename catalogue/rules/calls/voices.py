"""A work's voices against the choir or singers of a call: which voices, and into how many parts they divide."""

from __future__ import annotations

import re
from collections import Counter

from catalogue.instrumentation import Instrumentation, Line
from catalogue.rules.calls.verdicts import Verdict
from catalogue.rules.phrases import listed

LETTERS = re.compile(r"(?<![A-Za-z])(S{0,4}A{0,4}T{0,4}B{0,4})(?![A-Za-z])")
VOICE_OF = {"S": "soprano", "A": "alto", "T": "tenor", "B": "bass"}
OPEN = {"choir", "voice"}


def judge_choir(work: Instrumentation, offered: Instrumentation) -> tuple[Verdict, str]:
    """Return whether a work is for the voices of the call: all of them and no others, divided no further.

    Instruments of the call beside the choir may be left out; instruments that it does not name make it a no.
    """
    asked, has = voices_of(offered), voices_of(work)
    called = name_of(offered)
    if not has:
        return Verdict.NO, f"It is not for {called}."
    extra = {line.instrument for line in work.lines if line.family not in ("voice", "electronics")}
    beside = {line.instrument for line in offered.lines if line.family not in ("voice", "electronics")}
    if not (asked & OPEN) and not (has & OPEN) and has != asked:
        return Verdict.NO, f"It is not for {called}."
    if extra - beside:
        names = listed(sorted(extra - beside)).replace("-", " ")
        return (
            Verdict.NO,
            f"It needs {names} beside the voices; it is not for {called}.",
        )
    if has & OPEN and not asked & OPEN:
        return Verdict.CANNOT_TELL, "Which voices the choir has is not recorded."
    return divided(work, offered, called)


def divided(work: Instrumentation, offered: Instrumentation, called: str) -> tuple[Verdict, str]:
    parts, most = parts_of(work), parts_of(offered)
    for voice, count in parts.items():
        if most and count > max(most.get(voice, 1), 1):
            return Verdict.NO, f"The {voice} divides into {count}; the call is for {called}."
    return Verdict.YES, f"It is for {called}."


def voices_of(found: Instrumentation) -> set[str]:
    return {
        line.instrument.removeprefix("choir-").removeprefix("voice-") for line in found.lines if line.family == "voice"
    }


def parts_of(found: Instrumentation) -> dict[str, int]:
    """Return into how many parts each voice divides: by its line, or by letters such as SSAATTBB in a note."""
    counted: dict[str, int] = {}
    for line in found.lines:
        if line.family == "voice":
            voice = line.instrument.removeprefix("choir-").removeprefix("voice-")
            counted[voice] = max(counted.get(voice, 0), line.parts)
    for letters in noted(found.lines):
        for letter, count in Counter(letters).items():
            voice = VOICE_OF[letter]
            counted[voice] = max(counted.get(voice, 0), count)
    return counted


def noted(lines: tuple[Line, ...]) -> list[str]:
    return [match[1] for line in lines for match in LETTERS.finditer(line.note) if len(match[1]) > 2]


def name_of(found: Instrumentation) -> str:
    letters = "".join(letter for letter, voice in VOICE_OF.items() if voice in voices_of(found))
    choir = any(line.instrument.startswith("choir") for line in found.lines)
    return f"{letters or 'a'} choir" if choir else "the call's voices"
