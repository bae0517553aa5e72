"""Electronics with their channels, soloists and voices: what a call forbids, allows, demands."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.materials import FEE_NOUN
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.refusals import refuses
from catalogue.rules.calls.sound_kinds import FIXED, only_kind
from catalogue.rules.calls.terms import Electronics, Found
from catalogue.rules.calls.words import NUMBER, has, number_of

DEVICES = (
    r"electroniqu|"
    r"electronics?\b|elektronik|elektronisch\w*|elettronic\w+|electroni|electroacoustic|elettronica|electronica|"
    r"mezzi elettronici|medios electronicos|moyens electroniques|fixed media|tape\b|tonband|playback|"
    r"acousmati|acusmati|akusmatisch|live[- ]electronics|amplif|verstarkung|sound files?|zuspiel|electroacustic|"
    r"backing track|pre-?recorded (?:sounds?|parts?|material|tracks?)|laptops?\b|vorproduzierte\w*|"
    r"(?:support[io]|supporti|soporte|support) (?:registrat|fiss|fix|fijo|audio|magnet)|sons? fixes?|nastro|"
    r"medios fijos|cinta magn|amplificaz|elettroacust|"
    rf"{FIXED}"
)
ACOUSTIC = (
    r"unamplified|nothing to plug|(?:purely|only|nur|rein) (?:acoustic|akustisch\w*)|acoustic (?:works?|"
    r"pieces?|instruments?) only|a cappella|unaccompanied"
)
WITHOUT_DEVICES = (
    r"(?:purely |only |nur |rein )?(?:acoustic|akustische\w*) (?:works?|pieces?|music|werke?|stucke?|musik)\b"
)
ALLOWED = (
    r"mit oder ohne|met of zonder|with or without|allowed|welcome|gestattet|optional|possible|permitted|may (?:be|use|"
    r"include)|erlaubt|moglich|zugelassen|"
    r"not required|not compulsory|nicht (?:erforderlich|notig)|avec ou sans|con o senza|con o sin|"
    r"can be|facultati|facoltativ|opcional|kein muss|freiwillig|pas obligatoire|non obbligatori|fine|"
    r"if (?:you|they) (?:want|like|wish)|you (?:can|may) have|"
    r"diffusion plan|for fixed media alone|ammess|possibil|admis|se admit|puo |possono |darf |durfen |permet|"
    r"permitid|pueden|autoris|willkommen|bienvenu"
)
REQUIRED = (
    r"required|must (?:include|use|have|be)|compulsory|obligat|works? with electronics|pieces? (?:with|for) (?:fixed|"
    r"live|electron)|mandatory|erforderlich|mit elektronik|electroacoustic (?:works?|music)|"
    r"acousmatic|acusmatic|acousmati\w+|akusmatisch|for (?:fixed media|tape)"
    r"|fixed media only|only fixed media|(?:nur|ausschliesslich) (?:fixed media|elektroakust)|"
    r"music with electronics|works? (?:for|with) (?:fixed|live|electron|tape)|"
    r"and (?:live )?electronics|[,+] ?(?:live )?electronics|"
    r"(?:works?|pieces?|music|werke?|stucke?|oe?uvres?|brani|obras?) (?:for|fur|pour|per|"
    r"para) (?:[^.;:,()]|\([^)]*\)){0,40}? (?:with|plus|"
    r"mit|avec|con|und|et|e|y) (?:live[- ])?(?:electronics|tape|elektronik|electronique|elettronica|electronica)"
    rf"|(?:works?|pieces?|music|werke?|stucke?|oe?uvres?|brani|obras?|pezzi) (?:for|fur|pour|per|para|sur|"
    rf"su) (?:{FIXED})"
    r"|avec electronique|con elettronica|fixed media (?:works|pieces)"
)
CHANNELS = re.compile(
    rf"(?P<count>{NUMBER})\s*(?:-\s*)?(?:independent |discrete |output |audio |"
    rf"playback )?(?:channels?|ch\b|kanal\w*|canaux|canali|canales|"
    r"loudspeakers?|speakers|lautsprecher|haut-parleurs?|altoparlant\w|altavoces)"
)
NAMED = {"stereo": 2, "estereo": 2, "mono": 1, "quad": 4, "octophonic": 8}
SOLOISTS = (
    r"solo instruments? and orchestra|konzertant\w*|"
    r"concert(?:o|os|i|ante|antes)\b(?! for orchestra)|solokonzert\w*|solostimm\w*|conciertos?\b|soloists?\b|"
    r"(?<!non )solos?\b(?! (?:instruments?|strings|voices?|voix|recital|se\b|una?\b|il\b|la\b|le\b))|solist\w*|"
    r"soliste\w*"
)
LATER = r"workshop with|you will write|will write|new piece|to be written"
VOICES = (
    r"voices?\b|singers?\b|singing\b|vocal\w*|choirs?\b|choral\b|chor\b|chore\b|stimmen\b|singstimm\w*|sanger\w*|"
    r"gesang\w*|vokal\w*|chanteu\w*|cho?e?urs?\b|chant\b|cantant\w*|voc[ei]\b|cor[oi]\b|voix\b|voces\b|voz\b"
)
PAPER_PARTS = r"stimm\w*[^.;]{0,30}?(?:einsend|einreich|schick|beileg|hochlad|send|beifug)|stimmenmaterial"
"""*Stimmen* as what is sent: parts, not voices."""


def read_sound(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield what is said of electronics, their channels, soloists and voices."""
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        if has(LATER, said):
            continue
        if refuses(said, SOLOISTS):
            yield Found("soloists_excluded", True, *where)
        if refuses(said, VOICES) and not has(PAPER_PARTS, said):
            yield Found("voices_excluded", True, *where)
        yield from devices_in(said, where)


LABELLED = re.compile(
    r"(?:live[- ])?(?:electronics?|elektronik|electronique|elettronica|electronica): (?!required|yes\b|must)"
)
EITHER = r"with or without|avec ou sans|con o (?:senza|sin)|mit oder ohne|met of zonder"


def devices_in(said: str, where: tuple[int, int]) -> Iterator[Found]:
    if re.search(rf"(?:{EITHER}) (?:{DEVICES})", said):
        yield Found("electronics", Electronics.ALLOWED, *where, rank=1)
        yield from channels_in(said, where)
        return
    if (
        is_recording(said)
        or has(FEE_NOUN, said)
        or has(
            rf"(?:darunter|davon|dont|di cui|tra cui|entre ell[ao]s|de l[ao]s cuales)\b|"
            rf"(?:mindestens|au moins|almeno|al menos) {NUMBER}\b|at least {NUMBER}\b|{NUMBER} of (?:which|them|"
            rf"these)\b|among (?:them|these|which)\b",
            said,
        )
    ):
        return
    only, rest = only_kind(said)
    if only:
        yield Found("electronics_only", only, *where)
        if has(DEVICES, rest):
            asked = list(devices_asked(rest, where))
            yield from asked
            if not any(one.field == "electronics" for one in asked):
                yield Found("electronics", Electronics.ALLOWED, *where, rank=1)
        return
    if refuses(said, WITHOUT_DEVICES):
        yield Found("electronics", Electronics.REQUIRED, *where, rank=2)
        return
    if refuses(said, DEVICES) or (has(ACOUSTIC, said) and not has(rf"{EITHER}|not required|not compulsory", said)):
        yield Found("electronics", Electronics.EXCLUDED, *where, rank=2)
        return
    if has(DEVICES, said) or has(
        r"loudspeakers?|channels?|lautsprecher|kanal|haut-parleurs?|altoparlant\w|altavoces|playback system", said
    ):
        yield from devices_asked(said, where)


def devices_asked(said: str, where: tuple[int, int]) -> Iterator[Found]:
    """Yield what a passage that refuses no electronics says of them."""
    if has(DEVICES, said):
        if (has(ALLOWED, said) or LABELLED.match(said)) and not has(r"^electronics: required", said):
            yield Found("electronics", Electronics.ALLOWED, *where, rank=1)
        elif has(REQUIRED, said):
            yield Found("electronics", Electronics.REQUIRED, *where, rank=2)
    if has(DEVICES, said) and CHANNELS.search(said):
        yield Found("electronics", Electronics.ALLOWED, *where)
    yield from channels_in(said, where)


def is_recording(said: str) -> bool:
    """Whether the passage speaks of a recording to be sent, not of electronics in the work."""
    return has(
        r"recordings?|audio files?|computer playback|playback is|rendered|demo\b|mock-?ups?|midi|aufnahme|simulation",
        said,
    ) and not has(r"live[- ]electronics|fixed media|with electronics|no electronics|: allowed", said)


ALSO = r"stereo (?:is|are) (?:also|equally) |stereo (?:and|or) mono|mono (?:and|or) stereo"


def channels_in(said: str, where: tuple[int, int]) -> Iterator[Found]:
    counts = [number_of(match["count"]) for match in CHANNELS.finditer(said)]
    named = [count for word, count in NAMED.items() if has(word, said)]
    exact = has(r"exactly|must be (?:in )?(?:stereo|\d)|precisely|genau", said)
    most = max(counts) if counts else max(named) if named and not has(ALSO, said) else None
    if most is not None:
        yield Found("channels_exact" if exact else "channels_max", most, *where)
