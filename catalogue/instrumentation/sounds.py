"""MusicXML 4.0 sound ids (W3C ``sounds.xml``) for instruments, and back from an id to the instrument.

An id is a path from the family to the kind, ``wind.reed.clarinet.bflat``; a kind that the vocabulary does not know
is the nearest instrument above it.
"""

from __future__ import annotations

import functools

from catalogue.instrumentation.playing import plain
from catalogue.instrumentation.vocabulary import instrument, instruments


def sound_of(slug: str) -> str | None:
    """Return the sound id of an instrument, ``None`` where none is known.

    >>> sound_of("cor-anglais")
    'wind.reed.english-horn'
    """
    return instrument(slug).sound or None


@functools.cache
def by_sound() -> dict[str, str]:
    """Return instruments by sound id; of several the one that the vocabulary has first, the plain one."""
    found: dict[str, str] = {}
    for slug, row in instruments().items():
        if row.sound and not slug.startswith("choir"):
            found.setdefault(row.sound, plain(slug))
    return found


def instrument_of_sound(sound: str) -> str | None:
    """Return the instrument of a sound id, or that of the nearest id above it.

    >>> instrument_of_sound("wind.reed.clarinet.bflat"), instrument_of_sound("strings.violin")
    ('clarinet', 'violin')
    """
    parts = sound.split(".")
    for end in range(len(parts), 0, -1):
        known = by_sound().get(".".join(parts[:end]))
        if known:
            return known
    return None
