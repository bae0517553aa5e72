"""Who can play what: from the instruments that a player is said to play to those he can be asked to play.

What the text does not settle is *perhaps*: a player of “saxophone” may or may not have a baritone. The rules are
common practice: percussionists play all untuned and tuned percussion of the orchestra but not the timpani unless
it is said; keyboard players play every keyboard instrument but not the accordion.
"""

from __future__ import annotations

import enum
import functools
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from catalogue.instrumentation.vocabulary import family_of, instrument, instruments

VIOLINS = ("violin", "violin-1", "violin-2")
SPECIALISTS = ("cimbalom", "tabla", "glass-harmonica", "handbells", "steel-drums")
NOT_OF_THE_KEYS = ("accordion", "bandoneon", "concertina", "theremin", "ondes-martenot", "basso-continuo", "pianola")
WINDS = ("woodwind", "brass")


class Can(enum.IntEnum):
    """How surely somebody can play something."""

    NO = 0
    PERHAPS = 1
    SURELY = 2


@dataclass(frozen=True, slots=True)
class Rules:
    """What is agreed about the players beside what the text says.

    ``usual_doublings``: every player takes the usual auxiliaries of his instrument. ``timpani_among_percussion``: a
    percussionist plays the timpani. ``as_limits``: the forces are the limits of a call, so ranges, optional players
    and alternatives are the composer's to choose. ``strings_required``: stated strengths are needed, not wished.
    """

    usual_doublings: bool = False
    timpani_among_percussion: bool = False
    as_limits: bool = False
    strings_required: bool = False


def plain(slug: str) -> str:
    """Return the instrument itself: first and second violins hold the same instrument."""
    return "violin" if slug in VIOLINS else slug


@functools.cache
def kinds_of(slug: str) -> frozenset[str]:
    """Return the instruments that a general name stands for, empty for a name that is not general.

    >>> sorted(kinds_of("voice"))[:2], kinds_of("flute")
    (['voice-alto', 'voice-baritone'], frozenset())
    """
    if slug in ("voice", "choir"):
        return frozenset(one for one in instruments() if one.startswith(slug + "-"))
    if slug == "keyboard":
        return frozenset(one for one, row in instruments().items() if row.family == slug and one not in NOT_OF_THE_KEYS)
    if slug in ("saxophone", "recorder"):
        return frozenset(one for one, row in instruments().items() if row.section == slug and one != slug)
    return frozenset()


@functools.cache
def with_usual_doublings(slug: str) -> frozenset[str]:
    """Return the instrument with the usual auxiliaries of its section; an auxiliary brings its main instrument.

    >>> sorted(with_usual_doublings("piccolo"))
    ['alto-flute', 'flute', 'piccolo']
    """
    section = instrument(slug).section
    mains = {slug} | ({section} if section and slug in instrument(section).usual else set())
    return frozenset(mains.union(*(instrument(main).usual for main in mains)))


def can_play(wanted: str, plays: str, rules: Rules) -> Can:
    """Return how surely somebody who plays one instrument plays the wanted one.

    >>> can_play("piccolo", "flute", Rules()), can_play("piccolo", "flute", Rules(usual_doublings=True))
    (<Can.NO: 0>, <Can.SURELY: 2>)
    """
    wanted, plays = plain(wanted), plain(plays)
    if wanted == plays or plays in kinds_of(wanted):
        return Can.SURELY
    if rules.usual_doublings and wanted in with_usual_doublings(plays):
        return Can.SURELY
    if plays == "percussion":
        return percussionist(wanted, rules)
    if wanted in kinds_of(plays):
        return Can.SURELY if plays == "keyboard" or rules.as_limits else Can.PERHAPS
    return open_choice(wanted, plays)


def percussionist(wanted: str, rules: Rules) -> Can:
    if wanted == "timpani":
        return Can.SURELY if rules.timpani_among_percussion else Can.NO
    if wanted in SPECIALISTS:
        return Can.PERHAPS
    return Can.SURELY if family_of(wanted) == "percussion" else Can.NO


def open_choice(wanted: str, plays: str) -> Can:
    """Answer for the names that leave the instrument open, on either side."""
    asked, offered = choice_families(wanted), choice_families(plays)
    if offered and not asked:
        return Can.SURELY if family_of(wanted) in offered else Can.NO
    if asked and not offered:
        met = family_of(plays) in asked
        return (Can.SURELY if is_free_choice(wanted) else Can.PERHAPS) if met else Can.NO
    return Can.PERHAPS if asked and offered and set(asked) & set(offered) else Can.NO


INSTRUMENTAL = ("woodwind", "brass", "percussion", "plucked", "keyboard", "strings")
CHOICES = {
    "any": INSTRUMENTAL,
    "instrument": INSTRUMENTAL,
    "wind": WINDS,
    "woodwind": ("woodwind",),
    "brass": ("brass",),
    "string": ("strings",),
    "strings": ("strings",),
    "plucked": ("plucked",),
}


def choice_families(slug: str) -> Collection[str]:
    """Return the families that a name such as “any instrument” or “wind instrument” leaves open."""
    words = slug.removesuffix("-instruments").removesuffix("-instrument").removesuffix("-player")
    if words in CHOICES:
        return CHOICES[words]
    return INSTRUMENTAL if words != slug or slug == "melody" else ()


def is_free_choice(slug: str) -> bool:
    """Whether every instrument of the families will do: a treble instrument is not just any."""
    return slug.removesuffix("-instruments").removesuffix("-instrument").removesuffix("-player") in CHOICES


def can_hold(wanted: Iterable[str], plays: Iterable[str], rules: Rules) -> Can:
    """Return how surely one player who plays these instruments plays all the wanted ones."""
    return min((best(one, plays, rules) for one in wanted), default=Can.NO)


def best(wanted: str, plays: Iterable[str], rules: Rules) -> Can:
    return max((can_play(wanted, one, rules) for one in plays), default=Can.NO)
