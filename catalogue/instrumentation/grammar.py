"""The grammar that the wording of forces needs: gender, agreement, ordinals and lists in six languages.

American English differs from British in names only, which the vocabulary knows.
"""

from __future__ import annotations

import functools
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

from catalogue.instrumentation.vocabulary import called

ENDINGS = {1: "st", 2: "nd", 3: "rd"}
LEADING = ("petit", "petite", "petites", "petits", "grand", "grande", "toy", "gran")


@functools.cache
def tables() -> dict[str, dict[str, Any]]:
    """Return the words by language, read once from ``wording.toml``."""
    return tomllib.loads(files("catalogue.instrumentation").joinpath("wording.toml").read_text(encoding="utf-8"))


@dataclass(frozen=True, slots=True)
class Grammar:
    """The words of one language."""

    language: str
    words: dict[str, Any]

    def word(self, key: str) -> str:
        return str(self.words[key])

    @property
    def semicolon(self) -> str:
        """What parts the lines; French leaves a space before it."""
        return "\N{NO-BREAK SPACE}; " if self.language == "fr" else "; "

    @property
    def colon(self) -> str:
        """What stands between a label and what it is said of; French leaves a space before it."""
        return "\N{NO-BREAK SPACE}: " if self.language == "fr" else ": "

    def name(self, slug: str, count: int = 1) -> str:
        names = called(slug, self.language)
        return names.singular if count == 1 else names.plural or names.singular

    def gender(self, slug: str) -> str:
        """Return ``m``, ``f`` or ``n`` by the ending of the name's head noun."""
        head = self.head(called(slug, self.language).singular)
        endings = [(ending, gender) for gender in "mfn" for ending in self.words["gender"].get(gender, ())]
        fitting = [pair for pair in endings if head.endswith(pair[0])]
        return max(fitting, key=lambda pair: len(pair[0]))[1] if fitting else str(self.words["gender"]["default"])

    def head(self, name: str) -> str:
        parts = name.lower().split()
        if self.language == "de":
            while len(parts) > 1 and (len(parts[-1]) <= 2 or parts[-1] in ("d'amore", "caccia", "martenot")):
                parts = parts[:-1]
            return parts[-1]
        return parts[1] if len(parts) > 1 and parts[0] in LEADING else parts[0]

    def agreeing(self, key: str, slug: str, count: int = 1) -> str:
        """Return a word that agrees with an instrument in gender and, where the language has it, in number."""
        forms = self.words[key]
        gender = self.gender(slug)
        plural = f"{gender}p"
        if count != 1 and "mp" in forms:
            return str(forms.get(plural, forms["mp"]))
        return str(forms.get(gender, forms["m"]))

    def ordinal(self, chair: int, slug: str) -> str:
        """Return a chair with its article where the language repeats it: the third, die dritte, la troisième.

        >>> grammar("fr").ordinal(3, "flute"), grammar("de").ordinal(2, "horn"), grammar("en-GB").ordinal(13, "horn")
        ('la troisième', 'das zweite', '13th')
        """
        chairs = self.words["chairs"]
        listed = chairs.get(self.gender(slug), chairs["m"])
        if chair <= len(listed):
            return str(listed[chair - 1])
        later = self.agreeing("later", slug)
        if "article" in chairs:
            return f"{chair}{'th' if chair // 10 % 10 == 1 else ENDINGS.get(chair % 10, 'th')}"
        return later.format(n=chair)

    def chairs(self, numbers: Sequence[int], slug: str) -> str:
        """Return several chairs: the second and third, die zweite und die dritte."""
        listed = self.listed([self.ordinal(number, slug) for number in numbers])
        article = self.words["chairs"].get("article")
        return f"{article} {listed}" if article else listed

    def body(self, label: str) -> str:
        """Return the label of a second body, ``orchestra 2``, in the language.

        >>> grammar("de").body("orchestra 2"), grammar("fr").body("banda")
        ('Orchester 2', 'banda')
        """
        noun, _, number = label.partition(" ")
        return f"{self.words['bodies'].get(noun, noun)} {number}".rstrip()

    def listed(self, items: Sequence[str]) -> str:
        """Return items joined by commas and a last *and*."""
        if len(items) < 2:
            return "".join(items)
        return f"{', '.join(items[:-1])} {self.word('and')} {items[-1]}"

    def either(self, items: Sequence[str]) -> str:
        """Return items joined by *or*, which Spanish changes before an o."""
        found = items[0]
        for item in items[1:]:
            joint = self.word("or_o" if item.lower().startswith(("o", "ó", "ho")) else "or")
            found = f"{found} {joint} {item}"
        return found

    def counted(self, count: tuple[int, int], key: str) -> str:
        """Return a number, or a range, of people: 2 players, 2–4 players."""
        one, several = self.words[key]
        return f"{spread(count)} {one if count == (1, 1) else several}"


def spread(count: tuple[int, int]) -> str:
    """Return a number or a range as figures.

    >>> spread((2, 2)), spread((2, 4))
    ('2', '2–4')
    """
    return str(count[0]) if count[0] == count[1] else f"{count[0]}–{count[1]}"


@functools.cache
def grammar(language: str) -> Grammar:
    """Return the words of a language; raises ``ValueError`` for one that is not known."""
    known = tables()
    key = "en-GB" if language == "en-US" else language
    if key not in known:
        raise ValueError(f"There are no words in “{language}”; there are: en-US, {', '.join(known)}.")
    return Grammar(language, known[key])


def in_brackets(told: str) -> str:
    """Put what is told into brackets, unless it stands in quotation marks."""
    return told if told.startswith("“") else f"({told})"
