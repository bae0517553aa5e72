"""What librarians expect in front of a score and the records lack: told to whoever makes it, never printed."""

from __future__ import annotations

from catalogue.rules.front_matter import Expected

GUIDELINE = "MOLA, Guidelines for Music Preparation"
NEW_MUSIC = "score guidelines of the Society for the Promotion of New Music"
MIXED_MUSIC = "Documentation of Mixed Music, Manhattan School of Music"
PRACTICE = "common practice"

SENTENCES: dict[Expected, tuple[str, str]] = {
    Expected.PUBLISHER: ("The cover names no publisher.", GUIDELINE),
    Expected.ADDRESS: ("The publisher has neither an address nor a website.", GUIDELINE),
    Expected.COPYRIGHT: ("The title page has no copyright line.", PRACTICE),
    Expected.DURATION: ("The duration of the whole is not known.", GUIDELINE),
    Expected.MOVEMENTS: ("The duration of a movement is not known.", GUIDELINE),
    Expected.SUM: ("The durations of the movements do not add up to that of the whole.", GUIDELINE),
    Expected.KEYS: ("Clarinets, horns or trumpets are named without the key they are written in.", GUIDELINE),
    Expected.PITCH: ("Nobody has said whether the score is in C or transposed.", NEW_MUSIC),
    Expected.PERCUSSION: ("The instruments of a percussionist are not listed.", GUIDELINE),
    Expected.STRENGTHS: ("The number of string players is open.", PRACTICE),
    Expected.ELECTRONICS: ("The technical requirements of the electronics are not told.", GUIDELINE),
    Expected.DOCUMENTED: ("The technical requirements bear no date.", MIXED_MUSIC),
    Expected.PLACES: ("Nothing has its place on the stage, so that there is no plan.", GUIDELINE),
    Expected.ACCIDENTALS: ("Nobody has said how long an accidental holds.", GUIDELINE),
    Expected.EXPLAINED: ("A sign of the notation key has neither an explanation nor cents.", GUIDELINE),
    Expected.WORDS: ("The sung words are not there, or may not be printed yet.", NEW_MUSIC),
    Expected.FIRST: ("The first performance cannot be told from the records.", MIXED_MUSIC),
}


def told(expected: tuple[Expected, ...]) -> tuple[str, ...]:
    """A sentence for each, with who expects it."""
    return tuple(f"{SENTENCES[one][0]} ({SENTENCES[one][1]})" for one in expected)
