"""Names that may be two spellings of one: the same letters, the same words, the same sound, or one slip apart.

Names are compared without case, marks, punctuation and articles. Greek and Cyrillic letters are written in Latin ones,
and what languages transliterate in different ways (Ch, Tch, Tsch; y, i, j; w, v) becomes one letter. The tables are
common practice of romanisation, not one standard, since catalogues mix several.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from itertools import combinations

from catalogue.rules.search import fold

ARTICLES = frozenset(
    ("the", "a", "an", "der", "die", "das", "le", "la", "les", "l", "il", "lo", "i", "gli", "el", "los", "las", "het")
)
JOINERS = frozenset(("and", "und", "et", "e", "y", "og", "och", "&", "+"))
SHORTEST_FOR_A_SLIP = 7
MOST_IN_A_GROUP = 12  # names in one bucket that are compared with each other

SEVERAL_LETTERS = {
    "ж": "zh", "х": "kh", "ц": "ts", "ч": "ch", "ш": "sh", "щ": "shch", "ъ": "", "ь": "", "ю": "yu", "я": "ya",
    "ї": "i", "є": "e", "ґ": "g", "љ": "lj", "њ": "nj", "ђ": "dj", "џ": "dz", "θ": "th", "χ": "ch", "ψ": "ps",
}  # fmt: skip
LATIN: Mapping[int, int | str] = {
    **str.maketrans("абвгдеёзийклмнопрстуфыэіјћ", "abvgdeeziiklmnoprstufyeijc"),
    **str.maketrans("αβγδεζηικλμνξοπρσςτυφω", "avgdeziiklmnxoprsstyfo"),
    **{ord(letter): latin for letter, latin in SEVERAL_LETTERS.items()},
}
# What sounds alike in names that are written in Latin letters; longer spellings first.
SOUNDS = (
    ("schtsch", "s"), ("shch", "s"), ("tsch", "c"), ("tch", "c"), ("sch", "s"), ("sh", "s"), ("ch", "c"), ("zh", "z"),
    ("kh", "h"), ("ph", "f"), ("th", "t"), ("ts", "z"), ("tz", "z"), ("ck", "k"), ("ou", "u"), ("ae", "a"), ("oe", "o"),
    ("ue", "u"), ("ya", "a"), ("ia", "a"), ("ja", "a"), ("yu", "u"), ("iu", "u"), ("ju", "u"), ("ie", "e"), ("ye", "e"),
    ("je", "e"), ("y", "i"), ("j", "i"), ("w", "v"), ("q", "k"),
)  # fmt: skip
SOUND_OF = dict(SOUNDS)
SOUND = re.compile("|".join(re.escape(spelling) for spelling, _sound in SOUNDS))


class Likeness(StrEnum):
    """Why two names look alike, the surest first."""

    LETTERS = "case, accents, punctuation or an article"
    ORDER = "the order of the words"
    SOUND = "the way of transliterating"
    SLIP = "one letter"


@dataclass(frozen=True, slots=True)
class Named:
    """A name with the number of its record; only names whose ``group`` agrees, or is not known, are compared.

    ``number`` tells apart records that have different ones.
    """

    key: str
    name: str
    group: str = ""
    number: str = ""


@dataclass(frozen=True, slots=True)
class Pair:
    one: Named
    other: Named
    because: Likeness


def words_of(name: str) -> tuple[str, ...]:
    """Return the words by which names are compared.

    >>> words_of("The Kestrel-Ensemble & Friends"), words_of("Ива Дорн")
    (('kestrel', 'ensemble', 'friends'), ('iva', 'dorn'))
    """
    words = re.findall(r"[^\W_]+|[&+]", fold(name).translate(LATIN).replace("'", ""))
    kept = [word for word in words if word not in JOINERS]
    return tuple(kept[1:] if len(kept) > 1 and kept[0] in ARTICLES else kept)


def sound_of(words: Iterable[str]) -> str:
    """Return words as they sound, doubled letters once; figures stay as they are.

    >>> sound_of(["tschaikowsky"]) == sound_of(["chaikovskii"])
    True
    """
    heard = SOUND.sub(lambda match: SOUND_OF[match[0]], " ".join(words))
    return re.sub(r"([^\W\d])\1+", r"\1", heard)


def pairs_alike(names: Iterable[Named]) -> tuple[Pair, ...]:
    """Return every two names that look alike, each once, for the surest reason, in the order of the names."""
    known = list(names)
    words = {named.key: words_of(named.name) for named in known}
    found: dict[tuple[str, str], Pair] = {}
    for because, keys_of in REASONS:
        for one, other in in_one_bucket([named for named in known if words[named.key]], words, keys_of):
            if (one.key, other.key) not in found and may_be_one(one, other):
                found[one.key, other.key] = Pair(one, other, because)
    place = {named.key: number for number, named in enumerate(known)}
    return tuple(sorted(found.values(), key=lambda pair: (place[pair.one.key], place[pair.other.key])))


Words = tuple[str, ...]


def in_one_bucket(
    names: Sequence[Named], words: dict[str, Words], keys_of: Callable[[Words], Iterable[str]]
) -> Iterator[tuple[Named, Named]]:
    """Give every two names that share a key, in their order."""
    buckets: dict[str, list[Named]] = defaultdict(list)
    for named in names:
        for key in dict.fromkeys(keys_of(words[named.key])):
            buckets[key].append(named)
    for bucket in buckets.values():
        yield from combinations(bucket[:MOST_IN_A_GROUP], 2)


def may_be_one(one: Named, other: Named) -> bool:
    groups = sound_of(words_of(one.group)), sound_of(words_of(other.group))
    return not (all(groups) and groups[0] != groups[1]) and not (
        one.number and other.number and fold(one.number) != fold(other.number)
    )


# ---- what two names have in common


def letters(words: Words) -> Iterator[str]:
    yield "".join(words)


def any_order(words: Words) -> Iterator[str]:
    if len(words) > 1:
        yield " ".join(sorted(words))


def sound(words: Words) -> Iterator[str]:
    yield sound_of(words).replace(" ", "")


def one_letter_less(words: Words) -> Iterator[str]:
    """Give the sound, and it without each of its letters: two that differ by a letter share one of these.

    Figures are never a slip: a second study is not the first.
    """
    heard = sound_of(words).replace(" ", "")
    if len(heard) < SHORTEST_FOR_A_SLIP or any(letter.isdigit() for letter in heard):
        return
    yield heard
    for place in range(len(heard)):
        yield f"{heard[:place]}{heard[place + 1 :]}"


REASONS: tuple[tuple[Likeness, Callable[[Words], Iterable[str]]], ...] = (
    (Likeness.LETTERS, letters),
    (Likeness.ORDER, any_order),
    (Likeness.SOUND, sound),
    (Likeness.SLIP, one_letter_less),
)


def likeness_of(one: str, other: str) -> Likeness | None:
    """Return why two names look alike, for the surest reason; None where they do not.

    >>> likeness_of("The Kestrel Songs", "Kestrel songs"), likeness_of("Study No. 1", "Study No. 2")
    (<Likeness.LETTERS: 'case, accents, punctuation or an article'>, None)
    """
    (words, heard), (others, other_heard) = heard_as(one), heard_as(other)
    if not words or not others or abs(len(heard) - len(other_heard)) > 1:
        return None
    return next((because for because, keys_of in REASONS if not set(keys_of(words)).isdisjoint(keys_of(others))), None)


@lru_cache(maxsize=32_768)
def heard_as(name: str) -> tuple[Words, str]:
    """Return the words of a name and how it sounds; names whose sounds differ by more than a letter look not alike."""
    words = words_of(name)
    return words, sound_of(words).replace(" ", "")
