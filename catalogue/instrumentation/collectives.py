"""Names of whole ensembles and what they hold by custom: string quartet, brass quintet, double woodwind.

Source of the make-ups: common practice. A name that has no one make-up is read as the usual one with a remark.
"""

from __future__ import annotations

import functools

from catalogue.instrumentation.lexicon import keyed
from catalogue.instrumentation.vocabulary import key_of

SIZES = {
    2: keyed("duo duet duett dúo"),
    3: keyed("trio tríos"),
    4: keyed("quartet quartett quatuor quartetto cuarteto qrt qt qtet 4tet"),
    5: keyed("5tet qnt quintet quintett quintette quintuor quintetto quinteto"),
    6: keyed("sextet sextett sextuor sestetto sexteto"),
    7: keyed("septet septett septuor settimino septeto"),
    8: keyed("octet oktett octuor ottetto octeto"),
    9: keyed("nonet nonett nonette nonetto noneto nonuor"),
    10: keyed("dectet decet dezett dixtuor decimino deceto decimet"),
}
STRINGS_WORDS = keyed(
    "str string strings d'archi di_archi à_cordes cordes de_cuerda de_cuerdas streich archi cuerda d_archi"
)
BRASS_WORDS = keyed("brass de_cuivres cuivres di_ottoni ottoni de_metales metales blechbläser blech")
WIND_WORDS = keyed("wind woodwind à_vent vent de_vents vents di_fiati fiati de_viento viento bläser holzbläser")
SAX_WORDS = keyed("saxophone sax de_saxophones saxophones di_sassofoni sassofoni de_saxofones saxofones saxophon")
RECORDER_WORDS = keyed("recorder recorders blockflöten blockflöte de_flûtes_à_bec di_flauti_dolci de_flautas_de_pico")
PIANO_WORDS = keyed("piano pf pno klavier avec_piano con_pianoforte")
PERCUSSION_WORDS = keyed(
    "percussion schlagzeug de_percussions percussions di_percussioni percussioni de_percusión percusión"
)

STRING_SETS = {
    3: ("violin", "viola", "cello"),
    4: ("violin-1", "violin-2", "viola", "cello"),
    5: ("violin-1", "violin-2", "viola", "cello", "double-bass"),
    6: ("violin", "violin", "viola", "viola", "cello", "cello"),
    8: ("violin",) * 4 + ("viola",) * 2 + ("cello",) * 2,
}
WIND_SETS = {
    3: ("oboe", "clarinet", "bassoon"),
    4: ("flute", "oboe", "clarinet", "bassoon"),
    5: ("flute", "oboe", "clarinet", "horn", "bassoon"),
    8: ("oboe",) * 2 + ("clarinet",) * 2 + ("bassoon",) * 2 + ("horn",) * 2,
    10: ("flute",) * 2 + ("oboe",) * 2 + ("clarinet",) * 2 + ("bassoon",) * 2 + ("horn",) * 2,
}
BRASS_SETS = {
    3: ("horn", "trumpet", "trombone"),
    4: ("trumpet", "trumpet", "trombone", "trombone"),
    5: ("trumpet", "trumpet", "horn", "trombone", "tuba"),
}
SAX_SETS = {4: ("soprano-saxophone", "alto-saxophone", "tenor-saxophone", "baritone-saxophone")}
RECORDER_SETS = {4: ("soprano-recorder", "alto-recorder", "tenor-recorder", "bass-recorder")}
WITH_STRINGS = {
    ("clarinet", 5): ("clarinet", "violin-1", "violin-2", "viola", "cello"),
    ("clarinet", 3): ("clarinet", "cello", "piano"),
    ("oboe", 4): ("oboe", "violin", "viola", "cello"),
    ("oboe", 5): ("oboe", "violin-1", "violin-2", "viola", "cello"),
    ("flute", 5): ("flute", "violin-1", "violin-2", "viola", "cello"),
    ("bassoon", 4): ("bassoon", "violin", "viola", "cello"),
    ("guitar", 5): ("guitar", "violin-1", "violin-2", "viola", "cello"),
    ("harp", 5): ("harp", "violin-1", "violin-2", "viola", "cello"),
    ("horn", 3): ("horn", "violin", "piano"),
}
PIANO_SETS = {
    3: ("violin", "cello", "piano"),
    4: ("violin", "viola", "cello", "piano"),
    5: ("violin-1", "violin-2", "viola", "cello", "piano"),
}
VIOLAS = ("violin-1", "violin-2", "viola", "viola", "cello")
DISPUTED = {
    ("strings", 5): ("a second viola in place of the double bass", VIOLAS),
    ("wind", 3): ("another choice of woodwind", ()),
    ("brass", 4): ("two trumpets, horn and trombone", ("trumpet", "trumpet", "horn", "trombone")),
    ("wind", 10): ("another choice of wind instruments", ()),
    ("wind", 8): ("another choice of wind instruments", ()),
}
"""Names of two make-ups: the one that is not usual in words, and its instruments where it is one."""
REED_TRIO = keyed("trio_d'anches reed_trio trio_d'ance trío_de_cañas trío_de_lengüetas rohrblatttrio")
PIERROT = keyed("pierrot_ensemble pierrot_quintet pierrot-ensemble pierrot_line-up pierrot_lineup pierrot")
PIERROT_SET = ("flute", "clarinet", "violin", "cello", "piano")
FOLD = {
    1: keyed(
        "single_winds single_wind single_woodwinds maderas_a_uno "
        "bois_par_1 bois_par_un single_woodwind einfaches_holz legni_a_1"
    ),
    2: keyed(
        "winds_in_pairs wind_in_pairs woodwind_in_pairs woodwinds_in_pairs pairs_of_winds "
        "double_woodwind double_winds doppeltes_holz holz_zweifach holz_2fach zweifaches_holz bois_par_2 "
        "bois_par_deux legni_a_2 legni_a_due maderas_a_dos"
    ),
    3: keyed(
        "triple_woodwind triple_winds triple_wind dreifaches_holz holz_dreifach holz_3fach bois_par_3 "
        "bois_par_trois legni_a_3 legni_a_tre maderas_a_tres"
    ),
    4: keyed(
        "quadruple_woodwind quadruple_winds quadruple_wind vierfaches_holz holz_vierfach bois_par_4 bois_par_quatre "
        "legni_a_4"
    ),
}
KINDS = (
    ("strings", STRINGS_WORDS, STRING_SETS),
    ("wind", WIND_WORDS, WIND_SETS),
    ("brass", BRASS_WORDS, BRASS_SETS),
    ("saxophone", SAX_WORDS, SAX_SETS),
    ("recorder", RECORDER_WORDS, RECORDER_SETS),
    ("piano", PIANO_WORDS, PIANO_SETS),
)


@functools.cache
def names() -> frozenset[str]:
    """Return the keys of all whole names."""
    return frozenset(phrases())


@functools.cache
def phrases() -> dict[str, tuple[str, int, tuple[str, ...]]]:
    """Return for each key of a whole name its kind, its size and its instruments."""
    found: dict[str, tuple[str, int, tuple[str, ...]]] = {}
    for kind, words, sets in KINDS:
        for size, slugs in sets.items():
            for noun in SIZES[size]:
                for word in words:
                    found[word + noun] = found[word + noun + "s"] = (kind, size, slugs)
                    found[noun + word] = found[noun + "s" + word] = (kind, size, slugs)
    for word in PERCUSSION_WORDS:
        for size, nouns in SIZES.items():
            for noun in nouns:
                found[word + noun] = ("percussion", size, ("percussion",) * size)
                found[noun + word] = ("percussion", size, ("percussion",) * size)
    found |= dict.fromkeys(REED_TRIO, ("reeds", 3, WIND_SETS[3]))
    found |= dict.fromkeys(PIERROT, ("pierrot", 5, PIERROT_SET))
    return found | {key: ("fold", size, ()) for size, keys in FOLD.items() for key in keys}


@functools.lru_cache(maxsize=1 << 12)
def size_of(word: str) -> int | None:
    """Return the number of players of ``quartet`` and its kin."""
    key = key_of(word)
    return next((size for size, nouns in SIZES.items() if key in nouns or key.removesuffix("s") in nouns), None)
