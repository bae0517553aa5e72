"""Spellings that mean several instruments, and what around them decides.

A word inside the bracket of a section, or beside its figure, is read by that section first: ``bass`` is a bass
clarinet in the clarinets' place and a bass trombone in the trombones'. A word in a list is read by its neighbours
and by the language of the text. Source: common practice, and the abbreviation keys of publishers and orchestras.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass

from catalogue.instrumentation.vocabulary import called, instrument, key_of, languages_of

BY_SECTION = {
    "flute": {
        "piccolo": "p pic picc ott",
        "alto-flute": "alto a g alt insol contralto",
        "bass-flute": "bass b basse basso bs",
        "contrabass-flute": "contrabass contra",
    },
    "oboe": {
        "cor-anglais": "cor ca eh c e cora corang english engl ang ci cingl inglese anglais",
        "oboe-damore": "damore dam damour da",
        "bass-oboe": "bass b baritone",
    },
    "clarinet": {
        "e-flat-clarinet": "eb es eflat mib e eflatsoprano inmib ines piccolo picc small pte petite",
        "d-clarinet": "d",
        "clarinet": "bb bflat sib inb",
        "bass-clarinet": "bass b bc basse basso bajo bs bcl basskl",
        "contrabass-clarinet": "contra cb doublebass contrabass kontrabass kb db contrebasse contrabbasso dbl",
        "alto-clarinet": "alto alt",
        "contra-alto-clarinet": "contraalto contralto",
        "basset-horn": "basset bst",
    },
    "saxophone": {
        "sopranino-saxophone": "sopranino sn",
        "soprano-saxophone": "soprano s sop sopran sopr",
        "alto-saxophone": "alto a alt contralto altos",
        "tenor-saxophone": "tenor t ten tenore tenors",
        "baritone-saxophone": "baritone bar bari b baryton bariton baritono baritones",
        "bass-saxophone": "bass basse basso",
    },
    "recorder": {
        "sopranino-recorder": "sopranino sn",
        "soprano-recorder": "soprano s sop descant sopran",
        "alto-recorder": "alto a treble alt contralto tr",
        "tenor-recorder": "tenor t ten tenore",
        "bass-recorder": "bass b basse basso",
        "great-bass-recorder": "gb greatbass grossbass grandebasse granbasso granbajo",
        "contrabass-recorder": "cb sb subbass contrabass kontrabass contrebasse contrabbasso contrabajo",
    },
    "bassoon": {"contrabassoon": "contra c cb kontra contre k dbl double contro cbass"},
    "horn": {"wagner-tuba": "wagner wt tuba tuben wtb tb tenortuba tenortubas basstuba basstubas"},
    "trumpet": {
        "piccolo-trumpet": "picc piccolo pic p",
        "bass-trumpet": "bass b basse",
        "flugelhorn": "flug flg",
        "cornet": "cor cnt crt ct cornet c",
        "d-trumpet": "d",
        "e-flat-trumpet": "eb es",
    },
    "trombone": {
        "bass-trombone": "bass b basse basso bs bajo",
        "alto-trombone": "alto a alt contralto",
        "contrabass-trombone": "contra cb contrabass kb",
        "trombone": "tenor t ten tenore",
    },
    "tuba": {"contrabass-tuba": "contra cb contrabass kb", "tuba": "bass b basse basso", "euphonium": "ten tenor"},
}
KEYED = {
    **{("clarinet", key): "e-flat-clarinet" for key in ("eb", "eflat", "es", "mib", "mibemolle", "mibemol")},
    **{("clarinet", key): "d-clarinet" for key in ("d", "re")},
    ("clarinet", "c"): "c-clarinet",
    ("flute", "g"): "alto-flute",
    ("flute", "sol"): "alto-flute",
    ("horn", "f"): "horn",
    ("trumpet", "d"): "d-trumpet",
    ("tuba", "f"): "tuba",
}
NOTED = ("c-clarinet", "d-trumpet")
"""Instruments of a key that others may play too: the key is kept as a remark."""
USUAL_OF_PLACE = {
    "flute": "piccolo",
    "oboe": "cor-anglais",
    "clarinet": "bass-clarinet",
    "bassoon": "contrabassoon",
    "horn": "wagner-tuba",
    "trumpet": "cornet",
    "trombone": "bass-trombone",
    "tuba": "euphonium",
}


@functools.cache
def by_section() -> dict[tuple[str, str], str]:
    """Return the instrument that a key means inside a section's bracket or beside its figure."""
    return {
        (section, key): slug
        for section, row in BY_SECTION.items()
        for slug, listed in row.items()
        for key in listed.split()
    }


@functools.cache
def sectional() -> frozenset[str]:
    """Return the keys that some section gives a meaning to."""
    return frozenset(key for _, key in by_section())


EARLY = {"lute", "theorbo", "viola-da-gamba", "harpsichord", "sackbut", "cornett", "chamber-organ", "basso-continuo"}


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What is known around a word: the language, the section whose bracket it stands in, the families beside it."""

    language: str = "en-GB"
    section: str = ""
    before: str = ""
    after: str = ""
    voices: bool = False
    percussion: bool = False
    others: frozenset[str] = frozenset()


PLURAL_SIZES = {
    **dict.fromkeys(("sopranos", "soprani"), "soprano"),
    **dict.fromkeys(("altos", "alti", "altas", "alte"), "alto"),
    **dict.fromkeys(("contraltos", "contralti"), "contralto"),
    **dict.fromkeys(("tenores", "tenori", "tenors"), "tenor"),
    **dict.fromkeys(("baritonos", "baritoni", "barytons"), "baritone"),
    **dict.fromkeys(("bajos", "bajas", "bassi", "basses"), "bass"),
}
"""The English of sizes by the key of their plurals in Spanish, Italian and French."""


def in_section(key: str, section: str) -> str | None:
    """Return the instrument that a key means by its section alone, or ``None``; a plural as its singular."""
    found = by_section().get((section, key))
    return found or (by_section().get((section, PLURAL_SIZES[key])) if key in PLURAL_SIZES else None)


@functools.lru_cache(maxsize=1 << 10)
def clear_name(slug: str, section: str, language: str = "", *, whole: bool = False) -> str:
    """Return the shortest name of an instrument that means no other beside the instruments of a section.

    ``whole`` asks for no abbreviation where the name itself is clear.

    >>> clear_name("piccolo", "flute"), clear_name("piccolo", "clarinet"), clear_name("piccolo", "clarinet", "de")
    ('picc', 'piccolo flute', 'Piccoloflöte')
    """
    names = called(slug, language or "en-GB")
    spoken = language if language in ("de", "fr", "it", "es") else "en-GB"
    others = [one for told, one in instrument(slug).spellings if told == spoken and len(one) > len(names.plural)]
    first = [names.singular] if whole else [names.abbreviation, names.singular]
    clear = (one for one in (*first, *others) if in_section(key_of(one), section) in (None, slug))
    return next(clear, first[0])


def stand_in(slug: str, written: str, section: str, family: str) -> str:
    """Return what may stand in for an instrument: its size or a baritone horn where the word alone is a singer.

    >>> stand_in("voice-baritone", "baritone", "trombone", "brass"), stand_in("voice-tenor", "tenor", "saxophone", "")
    ('baritone-horn', 'tenor-saxophone')
    """
    if not slug.startswith("voice-") or family == "voice":
        return slug
    low = slug == "voice-baritone" and family == "brass"
    return in_section(key_of(written), section) or ("baritone-horn" if low else slug)


def chosen(slugs: tuple[str, ...], written: str, around: Surroundings) -> str:
    """Return the instrument that a spelling shared by several means here."""
    key = key_of(written)
    if not slugs:
        return ""
    if len(slugs) == 1:
        return slugs[0]
    decided = DECIDERS[key](written, around) if key in DECIDERS else None
    if decided in slugs:
        return decided
    spoken = [slug for slug in slugs if around.language in languages_of().get((key, slug), frozenset())]
    return (spoken or list(slugs))[0]


def alto(written: str, around: Surroundings) -> str:
    named = around.language == "fr" and "voice-alto" in around.others
    beside = "voice" in (around.before, around.after) and not named
    if around.before == around.after == "strings":
        return "viola"
    return "voice-alto" if beside or around.language != "fr" else "viola"


def short_violin(written: str, around: Surroundings) -> str:
    return "violin" if "strings" in (around.before, around.after) and not around.voices else "voice"


def german_viola(written: str, around: Surroundings) -> str:
    return "viola" if "strings" in (around.before, around.after) else "voice-baritone"


def keyboard_or_bass(written: str, around: Surroundings) -> str:
    return "double-bass" if around.language == "de" or around.before == "strings" else "keyboard"


def cornet_or_voice(written: str, around: Surroundings) -> str:
    sung = around.voices or "voice" in (around.before, around.after)
    return "voice-countertenor" if sung or (written.isupper() and around.before != "brass") else "cornet"


def bassoon_or_bass(written: str, around: Surroundings) -> str:
    return "contrabassoon" if around.section == "bassoon" or around.before == "woodwind" else "double-bass"


def violin_or_viol(written: str, around: Surroundings) -> str:
    early = any(slug in EARLY or slug.endswith("recorder") for slug in around.others)
    return "viola-da-gamba" if early and around.language.startswith("en") else "violin"


def violins(written: str, around: Surroundings) -> str:
    return "violin-1" if written.endswith("I") else "violin"


def violas(written: str, around: Surroundings) -> str:
    return "viola" if "strings" in (around.before, around.after) else ""


def grand_piano(written: str, around: Surroundings) -> str:
    return "piano" if around.language == "de" and written.istitle() and around.before != "brass" else "flugelhorn"


def brass_or_cimbalom(written: str, around: Surroundings) -> str:
    return "cimbasso" if around.before == "brass" else "cimbalom"


def keyboard_or_sticks(written: str, around: Surroundings) -> str:
    return "claves" if around.percussion else "harpsichord"


def saxhorns(written: str, around: Surroundings) -> str:
    return "baritone-horn" if around.language == "de" else "tenor-horn"


def low_brass(written: str, around: Surroundings) -> str:
    return "baritone-horn" if around.before == "brass" and not around.voices else "voice-baritone"


def trombone_or_tuba(written: str, around: Surroundings) -> str:
    if around.others & {"tuba", "contrabass-tuba"} and "trombone" not in around.others:
        return "trombone"
    if "trombone" in around.others:
        return "tuba"
    return "tuba" if around.language in ("de", "it") else "trombone"


def bass_of_brass(written: str, around: Surroundings) -> str:
    return "tuba" if around.language == "it" and "tuba" not in around.others else "bass-trombone"


DECIDERS = {
    "viole": violas,
    "alto": alto, "btb": bass_of_brass, "tb": trombone_or_tuba, "altos": alto, "alt": alto, "al": alto,
    "v": short_violin, "br": german_viola, "kb": keyboard_or_bass, "ct": cornet_or_voice, "cbs": bassoon_or_bass,
    "vni": violins, "viol": violin_or_viol, "flugel": grand_piano, "cimb": brass_or_cimbalom,
    "clav": keyboard_or_sticks, "tenorhorn": saxhorns, "tenorhn": saxhorns,
    "baritono": low_brass, "baritonos": low_brass,
}  # fmt: skip
