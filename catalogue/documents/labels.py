"""The words that documents print, by language.

English of Britain stands in the code; other languages and American wording are gettext catalogues
(``locale/<language>/LC_MESSAGES/documents.po``), read as they are. What a catalogue lacks prints in
English. The language is an argument: nothing here remembers one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from pathlib import Path

from babel import Locale
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

from catalogue.documents.model import Run, Text, joined, plain, value, wording

FOLDER = Path(__file__).parent / "locale"
SOURCE = "en-GB"
LANGUAGES = (SOURCE, "en-US", "de", "fr", "it", "es")
PLACE = re.compile(r"\{(\w+)\}")

WITH_ARTICLE = frozenset(
    ("AE", "BS", "CD", "CF", "DO", "GB", "GM", "KM", "MH", "MV", "NL", "PH", "SB", "SC", "US", "VA")
)
"""Countries whose English name takes an article (common practice)."""

SHORTENED = {
    "de ": "d’", "il ": "l’", "al ": "all’", "dal ": "dall’", "del ": "dell’", "nel ": "nell’", "sul ": "sull’",
    "e ": "ed ", "y ": "e ",
}  # fmt: skip
ELISIONS = {
    "fr": ((re.compile("[aeiouyàâäéèêëîïôöùûüœæ]", re.IGNORECASE), re.compile(r"\bde $")),),
    "it": (
        (re.compile(r"(?:8|11)(?!\d)"), re.compile(r"\b(?:il|d?al|del|nel|sul) $")),
        (re.compile("[eèé]", re.IGNORECASE), re.compile(r"\be $")),
    ),
    "es": ((re.compile("h?[ií](?![aeouáéóú])", re.IGNORECASE), re.compile(r"\by $")),),
}
"""What changes the word before it, and the words that are changed; a French h is taken for one that is sounded."""
SPACED = re.compile(r"(?<=\S)(?=[;:] )")
"""Where French leaves a space."""

UNITS = [
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]


@dataclass(frozen=True, slots=True)
class Labels:
    """The printed words of one language."""

    language: str
    catalogue: NullTranslations

    def word(self, message: str) -> str:
        return self.catalogue.gettext(message)

    def say(self, message: str, **values: Text | str) -> Text:
        """A sentence of the language with values in its places; a plain string is one value, hence an isolate."""
        return fill(self.word(message), self.language, **values)

    @property
    def semicolon(self) -> str:
        """What parts the members of a line; French leaves a space before it."""
        return "\N{NO-BREAK SPACE}; " if self.language == "fr" else "; "

    @property
    def colon(self) -> str:
        """What stands between a word and what is said of it; French leaves a space before it."""
        return "\N{NO-BREAK SPACE}: " if self.language == "fr" else ": "

    def parted(self, parts: Iterable[str]) -> str:
        """Those of the parts that say something, in one line."""
        return self.semicolon.join(part for part in parts if part)

    def spaced(self, text: str) -> str:
        """Words that grammar has put together, with the spaces of the language."""
        return SPACED.sub("\N{NO-BREAK SPACE}", text) if self.language == "fr" else text

    def figure(self, text: str) -> str:
        """A number that is written with a point as the language writes it.

        >>> labels("fr").figure("1.8"), labels("en-US").figure("−22.5°")
        ('1,8', '−22.5°')
        """
        return text.replace(".", self.locale.number_symbols["latn"]["decimal"])

    def count(self, one: str, many: str, number: int, *, spelled: bool = False) -> str:
        """A counted thing, ``{n}`` its number, in words where ``spelled`` and the language is English."""
        figure = in_words(number) if spelled and self.language.startswith("en") else str(number)
        return self.catalogue.ngettext(one, many, number).replace("{n}", figure)

    def listed(self, items: tuple[Text, ...]) -> Text:
        """Several values in a sentence: A, B and C; a comma before *and* where one has a comma of its own."""
        if len(items) < 2:
            return joined(items, "")
        message = "{some}, and {last}" if any("," in plain(item) for item in items[:-1]) else "{some} and {last}"
        return self.say(message, some=joined(items[:-1], ", "), last=items[-1])

    def country(self, code: str) -> str:
        """The country's name (Unicode CLDR) as it stands after *in*; what CLDR does not know is returned as it is."""
        name = self.locale.territories.get(code.upper(), code)
        return f"the {name}" if self.language.startswith("en") and code.upper() in WITH_ARTICLE else name

    def language_name(self, tag: str) -> str:
        """The language's name (Unicode CLDR); what is no language tag is returned as typed."""
        return self.locale.languages.get(tag.partition("-")[0].lower(), tag)

    @property
    def locale(self) -> Locale:
        return Locale.parse(self.language, sep="-")


@lru_cache(16)
def labels(language: str) -> Labels:
    """The words of a language (BCP 47): of the tag, else of its first part, else English of Britain.

    ``language`` of what is returned is the one that is printed.

    >>> labels("en-US").word("hire set {number}")
    'rental set {number}'
    >>> labels("de-AT").language
    'de'
    """
    printed = next((tag for tag in (language, language.partition("-")[0]) if tag in LANGUAGES), SOURCE)
    path = FOLDER / printed.replace("-", "_") / "LC_MESSAGES" / "documents.po"
    return Labels(printed, compiled(path) if printed != SOURCE else NullTranslations())


def compiled(path: Path) -> GNUTranslations:
    with path.open("rb") as source:
        catalogue = read_po(source, abort_invalid=True)
    binary = BytesIO()
    write_mo(binary, catalogue)
    binary.seek(0)
    return GNUTranslations(binary)


def fill(template: str, language: str = SOURCE, /, **values: Text | str) -> Text:
    """Put values into the places of a template; only the template's own braces are places."""
    runs: list[Run] = []
    elides = language in ELISIONS
    for words, place in parts_of(template):
        runs += words
        if place:
            given = values[place]
            put = value(given) if isinstance(given, str) else given
            if elides and put and runs:
                runs[-1] = runs[-1]._replace(text=elided(runs[-1].text, put[0].text, language))
            runs += put
    return tuple(runs)


@lru_cache(4000)
def parts_of(template: str) -> tuple[tuple[Text, str], ...]:
    """The words of a template, each with the name of the place after it; the last have none.

    >>> [(plain(words), place) for words, place in parts_of("no. {number} of {works}")]
    [('no. ', 'number'), (' of ', 'works'), ('', '')]
    """
    parts = [*PLACE.split(template), ""]
    return tuple((wording(words), place) for words, place in zip(parts[::2], parts[1::2], strict=True))


def elided(before: str, after: str, language: str) -> str:
    """Words as they end before those that follow.

    French *de* before a vowel, Italian articles before 8 and 11 and *e* before an e, Spanish *y* before an i.

    >>> elided("Livret de ", "Odhran", "fr"), elided("entro il ", "11 mar", "it"), elided("dal ", "12 mar", "it")
    ('Livret d’', 'entro l’', 'dal ')
    >>> elided(" e ", "Elena", "it"), elided(" y ", "Hilario", "es"), elided(" y ", "Hierro", "es")
    (' ed ', ' e ', ' y ')
    """
    for follows, ends in ELISIONS[language]:
        if follows.match(after):
            before = ends.sub(lambda found: SHORTENED[found[0]], before)
    return before


def in_words(number: int) -> str:
    """An English number in words below a hundred, in figures from there.

    >>> in_words(23), in_words(140)
    ('twenty-three', '140')
    """
    if number < len(UNITS):
        return UNITS[number]
    if number > 99:
        return str(number)
    ten, unit = divmod(number, 10)
    return TENS[ten - 2] + (f"-{UNITS[unit]}" if unit else "")
