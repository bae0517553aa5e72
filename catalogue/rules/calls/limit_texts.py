"""The players of a call as its text lists them, put into words that the reader of instrumentations knows.

``flute (happy to pick up piccolo or alto)`` says that the flautist doubles piccolo and alto flute, ``1 flute (no
piccolo)`` that nobody does, ``2 clarinets (only clarinet 2 doubles: bass clarinet)`` who.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from catalogue.instrumentation import Chair, Instrumentation, InstrumentationError, Line, read, shorthand
from catalogue.rules.calls.words import NUMBER, WORD, has, number_of, plain

BRACKET = re.compile(r"\s*[(\[](?P<inner>[^()\[\]]*)[)\]]")
DENIED = r"no\b|not\b|without|ohne|keine?|nicht|sans|senza|sin\b|none"
CHAIRS = {"first": 1, "1st": 1, "erste": 1, "I": 1, "second": 2, "2nd": 2, "zweite": 2, "II": 2, "third": 3, "3rd": 3,
          "dritte": 3, "III": 3, "fourth": 4, "4th": 4, "vierte": 4, "IV": 4}  # fmt: skip
ROMAN = ("", "I", "II", "III", "IV", "V", "VI")
# The auxiliaries of a section, by the words that stand for them beside its name.
AUXILIARIES = {
    "flute": (
        ("picc", r"picc|pikkolo|ottavino|flautin|petite flute"),
        ("afl", r"alto\b|altflote|alt\b|g flute|flute in g"),
        ("bfl", r"bass\b|bassflote"),
    ),
    "oboe": (("ca", r"cor anglais|english horn|englischhorn|e\.? ?h\b|corno ingles"), ("obdam", r"d'amore")),
    "clarinet": (("Ebcl", r"e-?[ -]?flat|eb\b|es-klar|es\b|piccolo clar"), ("bcl", r"bass|bassklar|clarone|bajo")),
    "bassoon": (("cbn", r"contr[ao]|double bassoon|kontra"),),
    "trumpet": (("pictpt", r"piccolo"), ("flug", r"flugel|flugelhorn")),
    "trombone": (("btbn", r"bass"),),
    "piano": (("cel", r"celest"), ("hpd", r"harpsichord|cembalo"), ("toy piano", r"toy")),
}
SPOKEN = {
    "klarinettistin": "Klarinette",
    "flötistin": "Flöte",
    "oboistin": "Oboe",
    "fagottistin": "Fagott",
    "saxophonistin": "Saxophon",
    "pianistin": "Klavier",
    "schlagzeugerin": "Schlagzeug",
    "accordionists": "accordions",
    "accordionist": "accordion",
    "guitarists": "guitars",
    "guitarist": "guitar",
    "harpists": "harps",
    "harpist": "harp",
    "organist": "organ",
    "saxophonist": "saxophone",
    "hornist": "horn",
    "clarinettist": "clarinet",
    "clarinetist": "clarinet",
    "flautist": "flute",
    "flutist": "flute",
    "oboist": "oboe",
    "bassoonist": "bassoon",
    "trumpeter": "trumpet",
    "trombonist": "trombone",
    "tubist": "tuba",
    "bassist": "double bass",
    "harpsichordist": "harpsichord",
    "timpanist": "timpani",
    "drummer": "drum kit",
    "recorder player": "recorder",
    "voices unaccompanied": "choir",
    "percussionists": "percussion",
    "percussionist": "percussion",
    "vibraphonist": "vibraphone",
    "violinists": "violins",
    "violists": "violas",
    "cellists": "cellos",
}
LEADING = re.compile(
    r"^(?:(?:(?:may|must|should) not exceed|not exceeding|and|und|et|e|y|plus|with|mit|avec|con|up to|at most|"
    r"max(?:imum)?\.?(?: of)?|"
    r"hochstens|höchstens|bis zu|maximal|"
    r"jusqu'à|fino a|hasta|as a maximum|optional(?:ly)?|full complement of|complement of|an?|the|"
    r"our|solo(?= strings)|full|for|für|pour|per|para)\s+)+",
    re.IGNORECASE,
)
NO_LARGER = re.compile(
    r",?\s*(?:no larger than|not larger than|at most|maximum|max\.?|no more than|up to|höchstens|"
    r"of|bis)\s*(?=\d+[-.,/]\d)",
    re.IGNORECASE,
)
SEVERAL = re.compile(
    rf"\b(?P<least>{WORD}|\d)\s*(?:,\s*(?:{WORD}|\d)\s*)?(?:,?\s*(?:or|to|oder|bis|ou|-|"
    rf"–)\s*)(?P<most>{WORD}|\d)\s+(?=[^\W\d])",
    re.IGNORECASE,
)
IN_KEY = re.compile(
    r"\s+in (?:B|A|C|E|F|D|G|Es|Eb|Bb)\b(?:[- ]?(?:flat|sharp)|♭)?(?:\s+(?:or|oder|"
    r"and)\s+(?:in )?(?:A|B|C|E)\b(?:[- ]?flat|♭)?)?"
)
STRING_LIMIT = re.compile(
    r"\b(?:string orchestra|streichorchester|orchestre (?:à|de) cordes|orchestra d['’]archi|orquesta de cuerdas?|"
    r"strings?|streicher|cordes|archi|cuerdas?)(?: section| players)?[,:]?\s*\(?(?:no larger than|"
    r"not larger than|at most|maximum|max\.?|no more than|au maximum|al massimo|como máximo|maximal|"
    r"up to|höchstens|of|bis)?\s*(?P<sizes>\d+(?:[-./]\d+){3,4})\)?",
    re.IGNORECASE,
)
TIMPANIST = re.compile(
    r",?\s*\(?(?:including|incl\.?|inkl\.?|mit|with|counting)\s+(?:the |den )?(?:timpan\w*|Pauke\w*)\s*(?:player)?\)?",
    re.IGNORECASE,
)
ALONE = re.compile(r"(?<=[a-z])\s+(?:alone|only|allein|seule?s?|sol[oaei]s?)\s*[.;]?\s*$", re.IGNORECASE)
STRING_FIGURES = re.compile(r"(?<=\d)-(?=\d)")


@lru_cache(maxsize=4096)
def reading(text: str) -> Instrumentation | None:
    """Return what a text says of players, ``None`` where it is no instrumentation or some of it is not known."""
    if not text.strip() or len(text) > 600:
        return None
    try:
        read_text = read(text)
    except InstrumentationError:
        return None
    known = not any(one.code in ("unknown-instrument", "unread") for one in read_text.warnings)
    return read_text if known and read_text.lines else None


def item(text: str) -> str:
    """Return one item of a list, such as ``2 flutes (no piccolo)``, as the reader of instrumentations knows it."""
    text = ALONE.sub("", IN_KEY.sub("", TIMPANIST.sub("", text)))
    whole = reading(text.strip(" .;:*"))
    remarks = whole is None or any(line.note or any(is_loose_chair(one) for one in line.chairs) for line in whole.lines)
    if not remarks and not any(
        word in plain(text).split() for word in ("up", "most", "maximum", "maximal", "hochstens")
    ):
        return text.strip(" .;:*")
    inner = "; ".join(match["inner"] for match in BRACKET.finditer(text))
    bare = LEADING.sub("", BRACKET.sub(" ", text).strip(" .;:,*")).strip()
    bare = spoken(NO_LARGER.sub(" ", bare))
    bare, tail = without_tail(bare)
    inner = "; ".join(one for one in (inner, tail) if one)
    if re.match(r"(?:strings?|streicher|str\b|cordes|archi)", plain(bare)):
        bare = STRING_FIGURES.sub(".", bare)
        if re.fullmatch(r"[\d.,/ ]{7,}", inner):
            return f"str({inner.strip()})"
    if not inner or re.search(r"\d[.\d]*\(", text) or "=" in inner:
        return text.strip(" .;:*") if "=" in inner else bare
    return with_doublings(bare, inner)


def is_loose_chair(chair: Chair) -> bool:
    """Whether it is said that somebody doubles, but not who."""
    return bool(chair.note) or (chair.chair is None and len(chair.plays) > 1)


TAIL = re.compile(
    r"\s*(?:,|\band\b)?\s*\b(?:doubling|which (?:may )?doubles?|also (?:playing )?|(?:may|can|"
    r"will) double|auch|with\b|plus\b|/)\s*(?P<rest>.+)$",
    re.IGNORECASE,
)


def without_tail(text: str) -> tuple[str, str]:
    """Return an item without the doublings that follow it, and these."""
    match = TAIL.search(text)
    if match is None or text[: match.start()].strip().isdigit() or not reading(text[: match.start()]):
        return text, ""
    patterns = [pattern for rows in AUXILIARIES.values() for _short, pattern in rows]
    doubles = any(re.search(rf"(?<![a-z])(?:{pattern})", plain(match["rest"])) for pattern in patterns)
    return (text[: match.start()].strip(), match["rest"]) if doubles else (text, "")


def spoken(text: str) -> str:
    """Return the text with players as their instruments: ``a cellist and an accordionist``."""
    for word, instead in SPOKEN.items():
        text = re.sub(rf"\b{word}\b", instead, text, flags=re.IGNORECASE)
    return re.sub(r"\b(keyboard|timpani|percussion|wind|harp) players?\b", r"\1", text) if "wind" not in text else text


def with_doublings(bare: str, inner: str) -> str:
    """Return an item with what its bracket says of doublings, in shorthand."""
    found = reading(bare)
    if found is None or len(found.lines) != 1:
        return bare
    line = found.lines[0]
    slugs = doublings_in(inner, line)
    if not slugs:
        return bare
    count = line.players[1] if line.players else 1
    joined = ",".join(slugs)
    name = shorthand(Instrumentation((Line(line.instrument, line.family, (1, 1)),)))
    chairs = chairs_in(inner, count, line)
    if count == 1:
        return f"{name}(={joined})"
    return f"{count}{name}({','.join(f'{ROMAN[one]}={joined}' for one in chairs)})"


def doublings_in(inner: str, line: Line) -> list[str]:
    """Return the auxiliaries that the players of a line may take by what stands in brackets."""
    found = []
    for clause in re.split(r"[;.]|\bbut\b|\baber\b", plain(inner)):
        if has(DENIED, clause) and not has(r"only|nur|but not", clause.split("not")[0]):
            continue
        for short, pattern in AUXILIARIES.get(line.instrument, ()):
            if re.search(rf"(?<![a-z])(?:{pattern})", clause) and short not in found:
                found.append(short)
    return found


ONLY_ONE = (
    r"\bone (?:of (?:them|whom) )?(?:doubl|also|may|can|plays?|player)|\beiner? (?:auch|mit)\b|\bune? aussi\b|"
    r"\bun[ao]? (?:anche|tambien)\b"
)


def chairs_in(inner: str, count: int, line: Line) -> list[int]:
    """Return which players double: the ones that are named, else all where it is said, else the last."""
    found = []
    for match in re.finditer(
        r"\b(\d|[Ss]econd|[Tt]hird|[Ff]irst|[Ff]ourth|2nd|3rd|4th|1st|zweite|dritte|erste|II|III|IV|I)\b", inner
    ):
        value = int(match[1]) if match[1].isdigit() else CHAIRS.get(match[1].lower(), CHAIRS.get(match[1], 0))
        if 1 <= value <= count and value not in found:
            found.append(value)
    if found:
        return sorted(found)
    if re.search(ONLY_ONE, plain(inner)):
        return [count]
    if has(r"all|any|each|either|both|alle|jede|beide|every|may|can|doubl|auch|also", plain(inner)):
        return list(range(1, count + 1))
    return [count]


def items(text: str) -> Iterator[tuple[int, int, str]]:
    """Yield the segments of a list outside brackets: where each begins and ends, and what comes before the next."""
    start, depth = 0, 0
    separators = re.compile(
        r"[(\[]|[)\]]|,(?!\d)|;|\n|\s/\s|\s[–—-]\s|\s(?:and|und|et|e|y|en|or|oder|ou|o|plus|"
        r"or else|sowie|with(?= an? | one | two | \d))\s(?=\S)",
        re.IGNORECASE,
    )
    for match in separators.finditer(text):
        sign = match[0]
        if sign in "([":
            depth += 1
        elif sign in ")]":
            depth = max(0, depth - 1)
        elif depth == 0:
            yield start, match.start(), sign.strip().lower()
            start = match.end()
    yield start, len(text), ""


def several(text: str) -> str:
    """Return the text with ``two, three or four percussionists`` as a range."""

    def ranged(match: re.Match[str]) -> str:
        least, most = number_of(plain(match["least"])), number_of(plain(match["most"]))
        return f"{least}–{most} " if least < most else match[0]

    text = SCORING.sub(r"\1", text)
    text = WINDS.sub(winds, OTHERS.sub(r"\1 ", text))
    return SEVERAL.sub(ranged, STRING_LIMIT.sub(sized_strings, IN_KEY.sub("", text)))


SCORING = re.compile(
    r"\b(?:standard |usual |normal )((?:\w+ )?(?:band|orchestra|ensemble))(?: scoring| instrumentation| forces)?\b",
    re.IGNORECASE,
)
OTHERS = re.compile(rf"\b({WORD}|\d) (?:other|further|more)\s+(?=percuss|string|wind|brass)", re.IGNORECASE)
WINDS = re.compile(r"\b(?P<size>single|double|triple) wood-?winds?\b(?:\s*\((?P<inner>[^()]*)\))?", re.IGNORECASE)
OF_WINDS = {"flute": ("fl", "picc"), "oboe": ("ob", "ca"), "clarinet": ("cl", "bcl"), "bassoon": ("bn", "cbn")}


def winds(match: re.Match[str]) -> str:
    """Return double woodwind as its four sections, the last players with the auxiliaries that a bracket names."""
    count = {"single": 1, "double": 2, "triple": 3}[match["size"].lower()]
    inner = plain(match["inner"] or "")
    sections = []
    for name, (written, short) in OF_WINDS.items():
        pattern = next(pattern for one, pattern in AUXILIARIES[name] if one == short)
        doubles = re.search(rf"(?<![a-z])(?:{pattern})", inner) and not has(DENIED, inner)
        sections.append(f"{count}{written}({ROMAN[count]}={short})" if doubles else f"{count}{written}")
    return ", ".join(sections)


def sized_strings(match: re.Match[str]) -> str:
    return f"str({re.sub(r'[-/, ]+', '.', match['sizes'])})"


__all__ = ["NUMBER", "item", "items", "reading", "several", "spoken"]
