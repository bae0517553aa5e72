"""Names that the players beside them give another meaning: an electric piano, ``batterie``, the ``alto`` of French."""

from __future__ import annotations

import re
from itertools import pairwise

from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.phrases import pitch_end
from catalogue.instrumentation.vocabulary import key_of

FEW = 2
LOW_VOICES = {"voice-tenor", "voice-baritone", "voice-bass"}


def alto_or_viola(forces: Forces) -> None:
    """Say that an ``alto`` may be the viola where nobody else sings: so the French call it."""
    altos = [draft for draft in forces.drafts if draft.slug == "voice-alto"]
    sung = {draft.slug for draft in forces.drafts if draft.family == "voice"} - {"voice-alto"} if altos else set()
    if sung and (sung & LOW_VOICES or forces.language != "fr"):
        return
    for draft in altos:
        written = draft.name.written if draft.name is not None else ""
        if key_of(written) not in ("alto", "altos"):
            continue
        readings = ("the voice", "the viola")
        if not forces.decide("alto", f"“{written}” was read as", readings, draft.start, draft.end):
            draft.slug = "viola"


def clarinets_in_a(forces: Forces) -> None:
    """Read ``A cl`` as a clarinet in A, except in a band, whose saxophones stand beside its alto clarinet."""
    altos = [draft for draft in forces.drafts if draft.slug == "alto-clarinet"]
    if not altos or any(draft.slug.endswith("saxophone") for draft in forces.drafts):
        return
    for draft in altos:
        written = draft.name.written if draft.name is not None else ""
        if written.startswith("A ") and key_of(written) == "acl":
            draft.slug = "clarinet"
            draft.notes.append("in A")
            message = f"“{written}” was read as a clarinet in A."
            forces.remark("abbreviation", message, draft.start, draft.end, "an alto clarinet")


def electric_pianos(forces: Forces) -> None:
    """Read an electric piano among other electric instruments as an amplified piano, and say so."""
    pianos = [draft for draft in forces.drafts if draft.slug == "electric-piano"]
    if not pianos:
        return
    others = [draft for draft in forces.drafts if draft.electric and draft.family in ("woodwind", "brass", "strings")]
    for draft in pianos:
        if len(others) >= 2:
            draft.slug, draft.amplified = "piano", True
            message = "The electric piano was read as an amplified piano, like the instruments beside it."
            forces.remark("electric", message, draft.start, draft.end, "the keyboard of that name")


def loudspeakers(forces: Forces) -> None:
    """Read ``8 speakers`` beside electronics as loudspeakers: the word means those who speak as well."""
    if "peakers" not in forces.text.lower():
        return
    devices = any(draft.family == "electronics" for draft in forces.drafts)
    for draft in [*forces.drafts] if devices else ():
        written = key_of(draft.name.written) if draft.name is not None else ""
        if written != "speakers" or draft.count is None or draft.most <= FEW:
            continue
        readings = ("loudspeakers", f"{draft.most} people who speak")
        if forces.decide("speakers", "The speakers were read as", readings, draft.start, draft.end):
            forces.channels = forces.channels or str(draft.most)
            forces.drafts.remove(draft)


def small_flutes(forces: Forces) -> None:
    """Read ``fl. picc.`` beside a comma as the flauto piccolo: the points are those of abbreviations."""
    if "piccolo" not in [draft.slug for draft in forces.drafts] or "," not in forces.text:
        return
    for at, (flute, small) in enumerate(pairwise([*forces.drafts]), 2):
        bare = small.count is None and not (flute.brackets or flute.clauses or flute.number_after)
        beside = forces.drafts[at] if at < len(forces.drafts) else flute
        between_commas = small.separator.strip() == "." and "," in beside.separator
        if (flute.slug, small.slug) != ("flute", "piccolo") or not between_commas or not bare:
            continue
        written = forces.written(flute.start, small.end)
        readings = ("the piccolo", "a flute and a piccolo")
        if forces.decide("abbreviation", f"“{written}” was read as", readings, flute.start, small.end):
            small.count, small.start, small.separator = flute.count, flute.start, flute.separator
            forces.drafts.remove(flute)


def click_tracks(forces: Forces) -> None:
    """Say of a click track that stands alone that it was read as fixed media: the audience hears nothing of it."""
    if "lick" not in forces.text:
        return
    devices = [draft for draft in forces.drafts if draft.family == "electronics"]
    written = key_of(devices[0].name.written) if len(devices) == 1 and devices[0].name is not None else ""
    if written in ("click", "clicktrack"):
        message = "The click track was read as fixed media."
        forces.remark("click-track", message, devices[0].start, devices[0].end, "no electronics that are heard")


def drum_kits(forces: Forces) -> None:
    """Read ``batterie`` beside an electric or bass guitar as a drum kit, elsewhere it is the percussion."""
    if not any(draft.slug in ("electric-guitar", "bass-guitar") for draft in forces.drafts):
        return
    for draft in forces.drafts:
        if draft.slug != "percussion":
            continue
        written = key_of(draft.name.written) if draft.name is not None else ""
        about = f"“{forces.written(draft.start, draft.end)}” was read as"
        readings = ("a drum kit", "percussion")
        if written in ("batterie", "batteria") and forces.decide("drum-kit", about, readings, draft.start, draft.end):
            draft.slug = "drum-kit"


JAZZ = re.compile(r"\b(?:big[ -]?band|jazz)", re.IGNORECASE)
OF_SECTION = {
    "voice-alto": "alto-saxophone", "voice-tenor": "tenor-saxophone", "voice-baritone": "baritone-saxophone",
    "voice-soprano": "soprano-saxophone",
}  # fmt: skip


def big_band_saxophones(forces: Forces) -> None:
    """Read the altos, tenors and the ``bari`` of a big band as its saxophones: trumpets and trombones stand beside."""
    if not JAZZ.search(forces.text):
        return
    slugs = {draft.slug for draft in forces.drafts}
    sung = [draft for draft in forces.drafts if draft.slug in OF_SECTION]
    if len(sung) < FEW or not {"trumpet", "trombone"} <= slugs:
        return
    readings = ("saxophones", "singers")
    if forces.decide("big-band", "The sizes were read as", readings, sung[0].start, sung[-1].end):
        for draft in sung:
            draft.slug, draft.open = OF_SECTION[draft.slug], False


OF_BRASS_BAND = (
    {"cornet", "soprano-cornet", "repiano-cornet"},
    {"flugelhorn", "baritone-horn", "euphonium"},
    {"tenor-horn", "repiano-cornet", "e-flat-bass", "b-flat-bass"},
)
"""A brass band has one of each."""


def brass_band_horns(forces: Forces) -> None:
    """Read the horns of a brass band as tenor horns: cornets and a flugelhorn or baritones, no woodwind, no trumpet."""
    slugs = {draft.slug for draft in forces.drafts}
    if "trumpet" in slugs or not all(slugs & needed for needed in OF_BRASS_BAND):
        return
    if any(draft.family == "woodwind" for draft in forces.drafts):
        return
    for draft in forces.drafts:
        if draft.slug in ("cornet", "horn", "tenor-horn") and draft.role == "soloist" and not draft.soli:
            draft.role = "ensemble"
    for draft in forces.drafts:
        if draft.slug == "horn":
            readings = ("tenor horn", "French horn")
            about = "The horn of a brass band was read as"
            if forces.decide("brass-band", about, readings, draft.start, draft.end):
                draft.slug = "tenor-horn"


def tenor_tubas(forces: Forces) -> None:
    """Read tenor tubas beside Wagner tubas as those; of two or more beside horns say what they were read as.

    A tenor tuba by itself is the euphonium in English scores; the horns' players take up the other. Common practice.
    """
    slugs = {draft.slug for draft in forces.drafts}
    beside = "wagner-tuba" in slugs
    for draft in forces.drafts if slugs & {"horn", "wagner-tuba"} else ():
        written = key_of(draft.name.written) if draft.name is not None else ""
        if written not in TENOR_TUBAS or not (beside or draft.most > 1):
            continue
        readings = ("Wagner tuba", "euphonium") if beside else ("euphonium", "Wagner tuba")
        about = f"“{forces.written(draft.start, draft.end)}” was read as"
        if forces.decide("tenor-tuba", about, readings, draft.start, draft.end) is beside:
            draft.slug = "wagner-tuba"


TENOR_TUBAS = ("tenortuba", "tenortubas")


def keyboards_apart(forces: Forces) -> None:
    """Say of ``…/pf/cel/str``, where slashes part the players, that two keyboards may be one player's."""
    for before, draft in pairwise(forces.drafts) if forces.slash_parts else ():
        single = before.count is None and draft.count is None and draft.separator == "/"
        if single and before.family == draft.family == "keyboard" and before.slug != draft.slug:
            message = f"“{forces.written(before.start, draft.end)}” was read as two players."
            forces.remark("slash", message, before.start, draft.end, "one player of both")


LOW_KEYS = {"eb": "e-flat-bass", "eflat": "e-flat-bass", "bb": "b-flat-bass", "bflat": "b-flat-bass"}


def brass_band_basses(forces: Forces) -> None:
    """Read the ``Bass Eb`` and ``Bass Bb`` of a brass band as its tubas: nobody else sings there."""
    basses = [draft for draft in forces.drafts if draft.slug == "voice-bass" and draft.notes]
    basses = [draft for draft in basses if key_of(" ".join(draft.notes)) in LOW_KEYS]
    if not basses:
        return
    slugs = {draft.slug for draft in forces.drafts}
    sung = [draft for draft in forces.drafts if draft.family == "voice"]
    if len(basses) < len(sung) or not slugs & {"cornet", "soprano-cornet", "flugelhorn", "euphonium"}:
        return
    for draft in basses:
        draft.slug, draft.role = LOW_KEYS[key_of(draft.notes.pop())], "ensemble"
        kept = [one for one in forces.remarks if not (draft.start <= one.start <= draft.end + 4)]
        forces.remarks[:] = kept


def second_kl(forces: Forces) -> None:
    """Read the second ``Kl`` of a German list without a keyboard as the piano: the clarinet has its own."""
    drafts = forces.drafts
    if "Kl" not in forces.text:
        return
    named = [one for one in drafts if one.name is not None and one.name.written == "Kl"]
    if (
        len(named) != 2
        or any(one.family == "keyboard" for one in drafts)
        or any(one.slug != "clarinet" or one.count is not None for one in named)
        or has_key(named[1])
        or any(one.number_after or one.seats for one in named)
    ):
        return
    if forces.decide("abbreviation", "The second “Kl” was read as", KL, named[1].start, named[1].end):
        named[1].slug = "piano"


def has_key(draft: Draft) -> bool:
    """Whether the key of a wind instrument is told, ``Kl. in A``, ``Kl. (Es)``."""
    inside = [bracket.nodes for bracket in draft.brackets]
    return any(note.startswith("in ") for note in draft.notes) or any(pitch_end(one, 0) == len(one) for one in inside)


KL = ("the piano", "a second clarinet")
