"""What a portal takes: words of statements and lives, pages, minutes of recordings, sizes, names of files, referees."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.packs import MEGABYTE
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import Found
from catalogue.rules.calls.words import NUMBER, has, number_of

PREFIX = "portal_"
FARTHEST = 60  # signs between a number and what it limits
BEHIND = 4  # how much farther a word behind the number seems than one before it
COUNT = r"(?:\d{1,2}[,.]\d{3}|\d{2,5})"
WORDS = r"(?:words?|wort\w*|worte\w*|mots|parole|palabras)"
SPAN_OF_WORDS = re.compile(rf"(?:(?P<least>{COUNT})\s*(?:-|to|bis|and|und|a)\s*)?(?P<most>{COUNT})[- ]?{WORDS}")
STATEMENT = (
    r"project description|projektbeschreibung|description (?:du|de) projet|descrizione del progetto|"
    r"descripcion del proyecto|carta de motivacion|letter\w (?:di motivazione|motivazional\w)|"
    r"lettre de motivation|statement|letter of (?:motivation|intent)|motivation letter|cover letter|"
    r"describe\b|beschreib\w*|decrivez|descriva\w*|describ[ai]\w*|motivationsschreiben|summary|proposal|"
    r"projekt\w*|projet\b|progetto\b|proyecto\b|motivation\w*"
)
LIFE = r"biogra(?:ph|f)\w*|semblanza|kurzbiogra\w*|\bbio\b|kurzbiographie|lebenslauf|vita\b"
CV = r"curricul\w+(?: vitae)?|\bcv\b|resume\b"
SAMPLE = r"writing sample|sample of (?:academic )?writing|essay|schriftprobe"
PAGES = re.compile(rf"(?:(?:{NUMBER})\s*(?:-|to|bis)\s*)?(?P<most>{NUMBER})[- ]?(?:pages?|sides?|seiten?|pagin[ae]s?)")
REFEREES = re.compile(
    rf"(?P<count>{NUMBER})\s+(?:\w+\s+){{0,2}}?(?:referees?|references?|referenzen|gutachten|referenze|"
    r"letters? of (?:recommendation|reference|support)|recommendation letters?|letter[ae] di (?:referenz|"
    r"raccomandazion|"
    r"presentazion)\w|people who (?:can|could|will) (?:speak|vouch)|empfehlung(?:en|sschreiben)?|"
    r"referenzschreiben|lettres? de (?:recommandation|soutien)|"
    r"cartas? de (?:recomendacion|referencia))"
)
SIZE = re.compile(r"(?P<size>\d+(?:[.,]\d+)?)\s*(?P<unit>[kmg][bo]|megabytes?|gigabytes?)\b")
UNITS = {"k": 1_000, "m": MEGABYTE, "g": 1_000 * MEGABYTE}
TOGETHER = r"together|total|altogether|in all|whole|zip|archive|zusammen|insgesamt|all files|combined"
MINUTES = re.compile(rf"(?P<count>{NUMBER})\s*(?:minutes?|min\b|minuten|')")
EXCERPT = r"(?:recordings?|excerpts?|audio|extracts?|ausschnitte?|aufnahmen?)"
OF_EACH = r"each|every|per (?:work|piece|score)|for all|jede[mns]?|accompan|zu jedem|pro werk"
PAIR = (
    r"(?:scores?|partitur)\b[^;]{0,60}?(?:\band|\bwith|\+|\bplus|\bund|\bet|\be) (?:an? |its |their |the |eine )?"
    r"(?:\w+ )?(?:recordings?|sound files?|audio files?|aufnahmen?|enregistrement|registrazione)|"
    r"recordings? (?:and|with) (?:an? )?\w* ?scores?"
)
FILE_NAME = re.compile(
    r"(?<![\w/@])(?P<name>[^\W_]+(?:[_\-][^\W_]+)+)\.(?:pdf|mp3|wav|zip|docx?|m4a|flac)\b", re.IGNORECASE
)
BARE_NAME = re.compile(
    r"(?:named|called|labell?ed|benannt|file ?names?:?|nommes?|denominat\w|nombrad\w+)\s+(?:as\s+|als\s+)?[\"“'‘]?"
    r"(?P<name>[^\W_]+(?:_[^\W_]+)+)(?![\w.])",
    re.IGNORECASE,
)
PLACES = {
    "surname": r"surname|lastname|last|familyname|nachname|name|cognome|nom|apellido",
    "name": r"fullname|yourname|composer",
    "title": r"title|titleofwork|worktitle|work|piece|titel|werktitel|titolo|titre",
    "piece": r"score|recording|note|bio|cv|document|partitur|aufnahme|type|kind",
    "motto": r"motto|pseudonym|kennwort|codeword|nomdeplume",
    "number": r"no|number|nr|nn|01|1",
}
GIVEN = r"firstname|first|forename|vorname|givenname|prenom|nome"


def read_portals(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield what may be handed in and how; the fields are those of a portal, with its prefix."""
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        for name, value in in_passage(said, passage.text):
            yield Found(PREFIX + name, value, *where)


def in_passage(said: str, text: str) -> Iterator[tuple[str, object]]:
    yield from words_in(said)
    yield from pages_in(said)
    yield from sizes_in(said)
    referees = REFEREES.search(said)
    if referees and not has(r"no references|not required", said):
        yield "referees", number_of(referees["count"])
    if has(PAIR, said) and (has(OF_EACH, said) or has(r"scores and recordings", said)):
        yield "pairs", True
    listened = MINUTES.search(said)
    if listened and has(rf"{EXCERPT}[^.;]{{0,50}}(?:at most|up to|no (?:more|longer)|max|not exceed|hochstens)", said):
        yield "excerpt", number_of(listened["count"]) * 60
    yield from (("formats", one) for one in formats_in(said, text))
    named = FILE_NAME.search(text) or BARE_NAME.search(text)
    if named and (pattern := pattern_of(named["name"])):
        yield "file_names", pattern


FORMATS = {
    "pdf": r"pdfs?",
    "mp3": r"mp3s?",
    "wav": r"wavs?|wave files?",
    "aiff": r"aiffs?|aif",
    "flac": r"flacs?",
    "m4a": r"m4a|aac",
    "ogg": r"ogg",
    "mp4": r"mp4s?",
    "mov": r"mov",
    "docx": r"docx?|word (?:files?|documents?)|word-dateien?",
    "jpg": r"jpe?gs?",
    "png": r"png",
    "zip": r"zip(?:ped|-datei\w*)?",
}
NOT_TAKEN = r"(?:no|not|nor|keine?|nicht|without|never|pas (?:de|d')|ni|non|sin|sans|ne)\b[^.;,]{0,30}$"


def formats_in(said: str, text: str) -> Iterator[str]:
    """Yield the kinds of files that a passage takes, by their suffixes; names of files and addresses name none."""
    bare = re.sub(r"\S*[\w}\]>]\.\w+|\S+@\S+", lambda match: " " * len(match[0]), said)
    for suffix, words in FORMATS.items():
        match = re.search(rf"(?<![\w/]){'(?:' + words + ')'}(?!\w)", bare)
        if match and not re.search(NOT_TAKEN, bare[: match.start()]):
            yield suffix


def words_in(said: str) -> Iterator[tuple[str, object]]:
    """Yield the words of statements and lives: each number goes to the nearest text that is named."""
    for match in SPAN_OF_WORDS.finditer(said):
        kind = nearest(
            said,
            match,
            {
                "statement": STATEMENT,
                "life": LIFE,
                "other": r"\bnotes?\b|notices?\b|notas?\b|(?<!project )description|text\b|\w*text\b|kommentar\w*|"
                r"commentaires?|"
                r"presentation\b|blurb\b|einfuhrung\w*|presentazione\b|sinopsis",
            },
        )
        if kind == "statement":
            if match["least"]:
                yield "statement_least", counted(match["least"])
            yield "statement_words", counted(match["most"])
        elif kind == "life":
            yield "life_words", counted(match["most"])


def counted(text: str) -> int:
    return int(re.sub(r"[,.]", "", text))


def nearest(said: str, match: re.Match[str], kinds: dict[str, str]) -> str:
    """Return which of the kinds is named nearest to a match: before it, or right behind it (*a two-page CV*)."""
    found: list[tuple[int, str]] = []
    for kind, pattern in kinds.items():
        for one in re.finditer(pattern, said):
            before = one.end() <= match.start()
            gap = match.start() - one.end() if before else (one.start() - match.end()) * BEHIND
            if 0 <= gap <= FARTHEST:
                found.append((gap, kind))
    return min(found, default=(0, ""))[1]


def pages_in(said: str) -> Iterator[tuple[str, object]]:
    for match in PAGES.finditer(said):
        kind = nearest(
            said,
            match,
            {"sample_pages": SAMPLE, "cv_pages": rf"{CV}|{LIFE}", "": rf"scores?|{STATEMENT}|letter|notes?\b"},
        )
        if kind:
            yield kind, number_of(match["most"])


def sizes_in(said: str) -> Iterator[tuple[str, object]]:
    for match in SIZE.finditer(said):
        size = int(float(match["size"].replace(",", ".")) * UNITS[match["unit"][0]])
        clause = (
            re.split(r"[;.]\s", said[: match.start()])[-1]
            + re.split(r"[;.]\s|, (?=all|the zip)", said[match.start() :])[0]
        )
        yield ("pack_bytes" if has(TOGETHER, clause) else "file_bytes"), size


def pattern_of(name: str) -> str:
    """Return a name of a file as a pattern where its words are places: nothing where none is.

    >>> pattern_of("Surname_Title_Score"), pattern_of("entry-form")
    ('{surname}_{title}_{piece}', '')
    """
    parts = re.split(r"([_\-])", name)
    made: list[str] = []
    places = 0
    for part in parts:
        said = part.casefold()
        place = next((key for key, words in PLACES.items() if re.fullmatch(words, said)), "")
        if not place and re.fullmatch(GIVEN, said) and made:
            made.pop()
            continue
        places += bool(place)
        made.append(f"{{{place}}}" if place else part)
    whole = "".join(made)
    return whole if "{title}" in whole and len(parts) > 1 else ""
