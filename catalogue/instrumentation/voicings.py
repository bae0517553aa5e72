"""Reads voices by their letters: ``SATB``, ``SSAATTBB``, ``2T2B``, ``SA[TB]``, and what kind of choir is meant.

voicing = voice , { voice } ;
voice   = [ number ] , ( "S" | "M" | "Ms" | "Mez" | "A" | "C" | "T" | "Bar" | "B" ) ;
"""

from __future__ import annotations

import re
from collections import Counter

from catalogue.instrumentation.lexicon import keyed

LETTER = re.compile(r"(\d{0,2})(Mez|Mzs|Ms|Bar|Br|[SMATBC])")
VOICING = re.compile(r"^(?:\d{0,2}(?:Mez|Mzs|Ms|Bar|Br|[SMATBC])){2,24}$")
PARTS = {
    "S": "soprano", "M": "mezzo-soprano", "Ms": "mezzo-soprano", "Mez": "mezzo-soprano", "Mzs": "mezzo-soprano",
    "A": "alto", "C": "alto", "T": "tenor", "Bar": "baritone", "Br": "baritone", "B": "bass",
}  # fmt: skip
ORDER = ("soprano", "mezzo-soprano", "alto", "tenor", "baritone", "bass")
MIXED = keyed("mixed gemischter gemischten gemischtem gemischte gemischt mixte misto mixto gem")
MALE = keyed("male men's mens men männer maschile d'hommes masculino hombres di_uomini hommes virile")
FEMALE = keyed("female women's womens women frauen femminile de_femmes femmes femenino mujeres ladies' ladies")
FEMALE_VOICE = keyed(
    "female_voice woman's_voice frauenstimme voix_de_femme voix_féminine voce_femminile voce_di_donna voz_femenina "
    "voz_de_mujer"
)
MALE_VOICE = keyed(
    "male_voice man's_voice männerstimme voix_d'homme voix_masculine voce_maschile voce_d'uomo voz_masculina "
    "voz_de_hombre"
)
UNACCOMPANIED = keyed("a_cappella a_capella a_capela acappella unaccompanied unbegleitet")
WHOLE_CHOIRS = {
    "mixed": keyed(
        "mixed_voices gemischte_stimmen voix_mixtes voci_miste voces_mixtas "
        "chœur_mixte choeur_mixte coro_misto coro_mixto gemischter_chor mixed_chorus mixed_voice_choir "
        "gemischten_chor gemischtem_chor gemischte_chöre mixed_choir gem_chor chœur_à_voix_mixtes coro_a_voci_miste "
        "coro_a_voci_dispari voci_dispari coro_a_voces_mixtas"
    ),
    "male voices": keyed(
        "male_voices men's_voices männerstimmen voci_maschili voix_d'hommes voces_masculinas voces_de_hombre "
        "männerchor male_chorus male_choir men's_chorus men's_choir coro_maschile chœur_d'hommes choeur_d'hommes "
        "coro_masculino male_voice_choir coro_de_hombres "
        "male_voice_chorus lower_voices lower_voice_choir lower_voice_chorus low_voice_choir"
    ),
    "female voices": keyed(
        "female_voices women's_voices frauenstimmen voix_de_femmes voix_féminines voci_femminili voces_femeninas "
        "voces_de_mujer oberchor "
        "frauenchor female_chorus female_choir women's_chorus women's_choir coro_femminile chœur_de_femmes "
        "choeur_de_femmes coro_femenino ladies'_choir upper_voices coro_de_mujeres "
        "upper_voice_choir upper_voice_chorus upper_voices_choir high_voice_choir female_voice_choir"
    ),
    "treble voices": keyed("treble_voices treble_choir treble_chorus treble_voice_choir"),
    "unison": keyed("unison_voices unison_choir unison_chorus einstimmiger_chor coro_all'unisono chœur_à_l'unisson"),
    "equal voices": keyed(
        "equal_voices gleiche_stimmen voix_égales voci_pari voci_eguali voces_iguales "
        "chœur_à_voix_égales choeur_à_voix_égales "
        "coro_a_voci_pari coro_a_voces_iguales chor_zu_gleichen_stimmen equal_voice_choir"
    ),
    "basses": keyed("bass_chorus bass_choir"),
    "tenors": keyed("tenor_chorus tenor_choir"),
    "sopranos": keyed("soprano_chorus soprano_choir"),
    "altos": keyed("alto_chorus alto_choir"),
}
WHOLE = {key: note for note, keys in WHOLE_CHOIRS.items() for key in keys}
WHOLE_NAMES = frozenset(WHOLE)


def is_voicing(word: str) -> bool:
    """Whether the word is made of voice letters alone, high voices before low ones in each run.

    >>> is_voicing("SATB"), is_voicing("2T2B"), is_voicing("BAST"), is_voicing("SAB")
    (True, True, False, True)
    """
    if not VOICING.match(word) or word in ("AS", "TS", "BS", "MS", "AC", "Bar", "Ms", "Mez", "BB", "CT", "MC"):
        return False
    numbers = [number for number, _ in LETTER.findall(word)]
    if numbers[0] and len(numbers) < 4 and not all(numbers):
        return False
    ranks = [ORDER.index(PARTS[letter]) for _, letter in LETTER.findall(word)]
    return ranks == sorted(ranks)


def is_letters(word: str) -> bool:
    """Whether the word is made of voice letters, in any order: enough inside the bracket of a choir."""
    return bool(word) and bool(VOICING.match(word) or LETTER.fullmatch(word))


def parts_of(word: str) -> dict[str, int]:
    """Return the parts of a voicing with the number of each, high to low.

    >>> parts_of("SSATB")
    {'soprano': 2, 'alto': 1, 'tenor': 1, 'bass': 1}
    """
    found: Counter[str] = Counter()
    for number, letter in LETTER.findall(word):
        found[PARTS[letter]] += int(number or 1)
    return {part: min(found[part], 24) for part in ORDER if found[part]}
