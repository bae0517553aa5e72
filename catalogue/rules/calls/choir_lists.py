"""The choir that a call is for: its voices by letters, how far it divides, and the instruments beside it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.limit_texts import item, items, reading
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.player_lists import LABEL, NEGATED, Run
from catalogue.rules.calls.player_readings import is_players
from catalogue.rules.calls.words import NUMBER, has, number_of, plain

VOICES = re.compile(r"(?<![A-Za-z])(S{1,4}A{0,4}T{0,4}B{0,4}|A{1,2}T{1,2}B{0,2}|T{1,4}B{1,4})(?![A-Za-z])")
DIVISI = re.compile(
    r"(?i:div(?:isi(?:ons?|oni)?|\.)?|stimmteilung\w*|geteilt)[^.;\n]{0,30}?(S{1,4}A{0,4}T{0,4}B{0,4})(?![A-Za-z])"
)
OR = re.compile(r"\b(?:or|oder|ou|o)\b(?! (?:alone|unaccompanied|a cappella))")
CHOIR = r"choirs?\b|chorus|chor\b|choe?ur|coro\b|singers|satb|ssa|a cappella|gemischte"


def choir_of(passages: Sequence[Passage]) -> list[Run]:
    """Return the choir that a call is for, with the most parts it divides into."""
    said = " ".join(one.plain for one in passages)
    if not has(
        r"(?:mixed |women's |men's |children's |chamber |girls' |upper voice )?choir|singers|"
        r"chorus|\w*chor\w*|choe?ur|coro\b",
        said,
    ):
        return []
    for passage in passages:
        letters = VOICES.search(passage.text)
        if letters and len(letters[1]) == 2 and not has(CHOIR, plain(passage.text[letters.end() :][:20])):
            continue
        if letters and not DIVISI.search(passage.text[: letters.end()]) and len(letters[1]) >= 2:
            if not (has(LABEL + "|" + CHOIR, passage.plain)):
                continue
            divided = next((match[1] for one in passages if (match := DIVISI.search(one.text))), "")
            plain_parts = re.search(r"(S+A+T*B*|T+B+)\s*(?:to|-|–|up to|bis)\s*(S+A+T*B*)", passage.text)
            divided = divided or (plain_parts[2] if plain_parts else doubled_parts(letters[1], passages))
            text = f"{letters[1]} choir" + (f" (max. div. {divided})" if divided else "")
            extra = list(accompaniment(passage))
            both = [[text, *extra]] if len(extra) < 2 or not OR.search(passage.text) else [[text, one] for one in extra]
            return [Run(", ".join(one), 1, 4, 4, passage, passage) for one in both]
    mixed = next(
        (
            one
            for one in passages
            if has(r"mixed choir|gemischten? chor|choe?ur mixte|coro misto|coro mixto", one.plain)
            and has(r"for|look|fur|pour|per|para", one.plain)
        ),
        None,
    )
    for passage in passages:
        counted = IN_VOICES.search(passage.plain)
        if counted:
            most = number_of(counted["m"] or counted["n"])
            text = f"SATB choir{' (max. div. SSAATTBB)' if most > 4 else ''}"
            doubt = "" if most in (4, 8) else UNNAMED.format(most)
            return [Run(text, 1, 4, 4, passage, passage, doubt=doubt)]
    return [Run("SATB choir", 1, 4, 4, mixed, mixed)] if mixed else []


UNNAMED = "The call says {} mixed voices and not which: up to two of each are taken."
IN_VOICES = re.compile(
    rf"(?<![\w])(?P<n>{NUMBER})(?:\s*(?:-|to|or|bis|oder|a|ou|o)\s*(?P<m>{NUMBER}))?(?: voices? mixed| mixed voices|"
    rf" gemischte\w* "
    r"stimmen| voix mixtes| voci miste| voces mixtas| mixed parts)(?![a-z])"
)


IN_PARTS = re.compile(
    rf"div(?:isi(?:ons?)?|ided?|\.)?\s+(?:in|into|to|up to|bis zu|jusqu'a|fino a|hasta|a)\s+(?P<count>{NUMBER})\s+"
    r"(?:parts|voices|stimmen|voix|voci|voces)"
)


def doubled_parts(letters: str, passages: Sequence[Passage]) -> str:
    """Return each voice twice where the choir is said to divide into twice as many parts: SSAATTBB of SATB."""
    counts = [number_of(match["count"]) for one in passages if (match := IN_PARTS.search(one.plain))]
    return "".join(letter * 2 for letter in letters) if counts and max(counts) == 2 * len(letters) else ""


def accompaniment(passage: Passage) -> Iterator[str]:
    """Yield the instruments that go with the choir in the same sentence."""
    listed = re.sub(r"\b(?:with|mit|avec|con)\b", ",", passage.text)
    for start, end, _ in items(listed):
        segment = listed[start:end].strip(" .")
        text = item(segment)
        found = reading(text)
        if (
            found
            and all(line.family != "voice" for line in found.lines)
            and is_players(found)
            and not has(NEGATED, segment.lower())
        ):
            yield text
