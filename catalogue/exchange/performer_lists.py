"""Performers in one cell: ``conductor: Iva Dorn; viola: Per Lund; Tidewater Players``, semicolons between them.

Commas part them where each of them has its instrument or role. What stands before a colon is a role or an instrument,
what stands in brackets after a name is one too (``Iva Dorn (viola)``); a bare name is an ensemble where it is called
one or known as one, else a performer. A name that holds a semicolon or begins like a role stands in quotation marks. A
list in a form has one performer a line.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from catalogue.instrumentation.vocabulary import key_of, keys
from catalogue.rules.search import fold
from catalogue.terms import PerformerRole
from catalogue.timing import Mistake

LONGEST = 200  # characters of a name or a part

ROLES = {
    PerformerRole.CONDUCTOR: ("conductor", "cond", "conducted by", "dirigent", "dirigentin", "chef", "direttore"),
    PerformerRole.ENSEMBLE: ("ensemble", "orchestra", "band", "choir", "chorus", "quartet", "chor", "orchester"),
    PerformerRole.SOLOIST: ("soloist", "solo", "solist", "solistin", "soliste", "solista"),
    PerformerRole.PERFORMER: ("performer", "played by", "interpret"),
    PerformerRole.CHORUS_MASTER: ("chorus master", "chorusmaster", "choir master", "chorus director", "chordirektor"),
    PerformerRole.DIRECTOR: ("director", "stage director", "directed by", "regie", "regia", "choreography"),
    PerformerRole.ELECTRONICS: ("electronics", "live electronics", "sound", "sound projection", "klangregie"),
    PerformerRole.NARRATOR: ("narrator", "speaker", "reciter", "sprecher", "recitant", "voce recitante"),
}
ROLE_OF = {word: role for role, words in ROLES.items() for word in words}
BODY = re.compile(
    r"(?<!\w)(?:\w*orchest\w*|\w*ensemble\w*|quartets?|trios?|quintets?|sextet|octet|\w*quartett|chor|choir|chorus|choeur"
    r"|coro|consort|sinfonietta|philharmoni\w*|symphon\w*|sinfoni\w*|players|singers|band|collective|camerata|company"
    r"|opera|ballets?|society|orkest\w*|orquest\w*)(?!\w)"
)
VOICES = {"mezzo", "contralto", "bass-baritone"}  # beside the voices of the vocabulary
PIECE = re.compile(r'(?:"(?:[^"]|"")*"|\([^)]*\)|[^;\n"(]|["(])+')
PLAIN_NAME = re.compile(r'[^;"\n()]*(?:\([^;"\n()]*\)[^;"\n()]*)*')
IN_BRACKETS = re.compile(r"(?P<name>.+?)\s*\((?P<said>[^()]*)\)")
AFTER_COLON = re.compile(r'(?P<said>[^:"]{1,60}):\s+(?P<name>.+)')

BETWEEN_PERSONS = re.compile(r",\s*(?:(?:and|und|et|e|y|&)\s+)?(?![^()]*\))|(?<=\))\s+(?:and|und|et|e|y|&)\s+")
"""Commas that stand in no brackets, and what joins two names whose instruments stand in brackets."""


@dataclass(frozen=True, slots=True)
class Performer:
    """Somebody who performs; ``plays`` is the instrument or voice as it was typed."""

    name: str
    role: PerformerRole
    plays: str = ""


class PerformersError(Mistake):
    """A list of performers with something in it that names nobody, or that is too long to be kept."""


def read_performers(text: str, *, bodies: Collection[str] = ()) -> tuple[Performer, ...]:
    """Return the performers that a cell names, each once; ``bodies`` are known ensembles, folded as a search does."""
    pieces = (one.strip() for piece in PIECE.findall(text) for one in persons_in(piece))
    return tuple(dict.fromkeys(read_performer(piece, bodies) for piece in pieces if piece.strip('" ')))


def persons_in(piece: str) -> list[str]:
    """Return the parts of a piece where each is a name with its instrument or role, else the piece as it is.

    >>> persons_in("Iva Dorn (viola), Per Lund (piano)"), persons_in("narrator, soprano: Iva Dorn")
    (['Iva Dorn (viola)', 'Per Lund (piano)'], ['narrator, soprano: Iva Dorn'])
    """
    parts = BETWEEN_PERSONS.split(piece)
    return parts if len(parts) > 1 and '"' not in piece and all(map(is_pair, parts)) else [piece]


def is_pair(part: str) -> bool:
    found = AFTER_COLON.fullmatch(part.strip()) or IN_BRACKETS.fullmatch(part.strip())
    return found is not None and is_said_of_a_performer(found["said"].strip())


def check_performers(text: str) -> None:
    """Raise PerformersError where a part has no name, or something is longer than a record holds."""
    for match in PIECE.finditer(text):
        piece = match[0].strip()
        start = match.start() + match[0].find(piece)
        if piece.endswith(":"):
            raise PerformersError(f"Name who was “{piece[:-1].strip()}”.", text, start, start + len(piece))
        if len(piece) > LONGEST:
            raise PerformersError(f"A name has at most {LONGEST} characters.", text, start, start + len(piece))


def read_performer(piece: str, bodies: Collection[str] = ()) -> Performer:
    """
    >>> read_performer("viola: Iva Dorn")
    Performer(name='Iva Dorn', role=<PerformerRole.SOLOIST: 'soloist'>, plays='viola')
    """
    if len(piece) > 1 and piece[0] == piece[-1] == '"':
        return named(unquoted(piece), bodies)
    before = AFTER_COLON.fullmatch(piece)
    if before:
        return credited(unquoted(before["name"]), before["said"].strip())
    after = IN_BRACKETS.fullmatch(piece)
    if after and is_said_of_a_performer(after["said"]):
        return credited(unquoted(after["name"]), after["said"].strip())
    return named(piece, bodies)


def unquoted(text: str) -> str:
    is_quoted = len(text) > 1 and text[0] == text[-1] == '"'
    return text[1:-1].replace('""', '"') if is_quoted else text


def named(name: str, bodies: Collection[str] = ()) -> Performer:
    is_body = fold(name) in bodies or BODY.search(fold(name))
    return Performer(name, PerformerRole.ENSEMBLE if is_body else PerformerRole.PERFORMER)


def credited(name: str, said: str) -> Performer:
    """Return a performer with a role or an instrument, or both: ``narrator, soprano``, ``solo viola``."""
    role = ROLE_OF.get(fold(said))
    if role is not None:
        return Performer(name, role)
    first, _, rest = said.partition(",")
    role = ROLE_OF.get(fold(first))
    if role is not None and rest.strip():
        return Performer(name, role, rest.strip())
    first, _, rest = said.partition(" ")
    if ROLE_OF.get(fold(first)) is PerformerRole.SOLOIST and rest.strip():
        return Performer(name, PerformerRole.SOLOIST, rest.strip())
    return Performer(name, PerformerRole.SOLOIST if is_instrument(said) else PerformerRole.PERFORMER, said)


def is_said_of_a_performer(said: str) -> bool:
    first = said.partition(",")[0]
    return fold(first) in ROLE_OF or is_instrument(said)


def is_instrument(said: str) -> bool:
    """Say whether a text names an instrument or voice, or begins with one ("piano with electronics")."""
    first = re.split(r"[ ,/&+]", said.strip())[0]
    return fold(said) in VOICES or any(key_of(one) in keys() for one in (said, first) if one)


def write_performers(performers: Iterable[Performer]) -> str:
    """Write the cell that reads as these performers."""
    return "; ".join(write_performer(one) for one in performers)


def write_performer(one: Performer) -> str:
    """Write a performer in the shortest way that is read as the same again."""
    heads = ("", f"{one.plays}: ", f"{one.role}: ", f"{one.role}, {one.plays}: ")
    forms = (f"{head}{name}" for name in (quoted(one.name), in_quotes(one.name)) for head in heads)
    return next((form for form in forms if read_performers(form) == (one,)), in_quotes(one.name))


def quoted(name: str) -> str:
    return name if PLAIN_NAME.fullmatch(name) else in_quotes(name)


def in_quotes(name: str) -> str:
    return '"' + name.replace('"', '""') + '"'
