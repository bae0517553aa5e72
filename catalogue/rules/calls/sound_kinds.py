"""Which kind of electronics a sentence admits and which it refuses: media fixed beforehand, or treatment while playing.

*Tape welcome, live electronics not*, *Zuspielungen sind gestattet, Live-Elektronik dagegen nicht* and *è ammesso il
suono su supporto, non l'elettronica dal vivo* set two kinds against each other: each clause is told by its own yes or
no, and one without either has that of the clause it is joined to.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from catalogue.rules.calls.refusals import ADMITTED, NEGATION, NO_DEMAND, NOT_BUT, OUT
from catalogue.rules.calls.terms import ElectronicsKind

FIXED = (
    r"fixed[- ](?:media|sounds?|electronics|elektronik)|media fissi|(?<!red )tape(?:s|d)?\b|tonband\w*|vom band|"
    r"(?<=fur )tontrager\w*|"
    r"zuspiel\w*|vorproduzierte\w*|fixierte\w* (?:klang\w*|medi\w+|elektronik)|playback|backing tracks?|"
    r"pre-?(?:recorded|produced)\b|pre-?registrat\w+|pregrabad\w+|pre-?enregistr\w+|sound files?|acousmati\w+|"
    r"akusmatisch\w*|acusmati\w+|"
    r"(?:sur|su|en|auf) support\w*|supports? (?:fixe|audio)\w*|support[oi] (?:fiss|audio|fij)\w*|soportes?(?: fijos?)?|"
    r"sons? fixes?|bande (?:magnetique|son)|nastro(?: magnetico)?|suon[oi] (?:registrat|fissat)\w|medios fijos|"
    r"cinta(?: magnetofonica)?|sonido fijado|electronique (?:sera |est )?fixee|electronica fijada|elettronica fissata"
)
LIVE = (
    r"live[- ]?(?:electronics?|elektronik|processing|treatment|computer|coding|sampling)|"
    r"live[- ](?=und |and )|real[- ]?time|in echtzeit|echtzeit\w*|live-?bearbeitung|"
    r"electronique live|temps reel|tempo reale|elettronica live|tiempo real|"
    r"(?:trait\w+|tratt\w+|proces\w+|elabora\w+|dispositi\w+|ele[ck]t+ronic\w+|electroniqu\w+|"
    r"elettronic\w+)[^.;,]{0,20}?"
    r"(?:en directo?|en vivo|dal vivo)|interactive (?:electronics|"
    r"systems?|computer)|interaktive\w* (?:elektronik|systeme?)|computer (?:operator|performer|player)s?|"
    r"laptop (?:performers?|players?|operators?)"
)
GENERIC = (
    r"(?<!live )(?<!live-)(?<!fixed )(?:electronics?|elektronik|electronique|elettronica|electronica)\b"
    r"(?! (?:sera |est )?(?:fixee|fijada|fissata|en vivo|en direct|dal vivo|live))|amplif\w*|verstarkung"
)
KINDS = ((ElectronicsKind.LIVE, LIVE), (ElectronicsKind.FIXED, FIXED))
OF_PLAYING = r"recordings? (?:of|from)|live (?:recording|performance|concert|audience)|in concert|mitschnitt"
PARTS = re.compile(
    r"[;:.!?()\u2013\u2014]+|,(?!\d)|\s-\s|(?<![a-z])(?:(?P<turn>but|however|though|whereas|while|yet|aber|jedoch|"
    r"sondern|"
    r"mais|tandis que|alors que|ma|mentre|bensi|pero|sino|mientras que)|and|und|et|ed?|y|or|oder|ou|o|nor|noch|ni|ne)"
    r"(?![a-z'])"
)
YES = r"yes|ja|oui|si|gern\w*|fine|ok|okay"
ONLY = (
    r"(?<![a-z])(?:only|nur|ausschlies?slich|seulement|uniquement|exclusivement|sol[oa]mente|solo|soltanto|unicamente|"
    r"esclusivamente|exclusivamente|provided (?:that )?(?:it|they) (?:is|are)|as long as (?:it|they) (?:is|are)|sofern "
    r"\w+|a condition (?:que|d')|purche|siempre que)(?![a-z])"
)

FINE = re.compile(
    r"(?<![a-z])(?:kein|no|pas (?:de|un)|aucun|nessun|ningun) (?:problem\w*|hindernis|objection|obstac\w*|inconven\w*)|"
    r"nichts (?:da)?gegen"
)
NOTHING_BUT = re.compile(
    r"(?<![a-z])n(?:e |')(?:(?!pas\b|ni\b|aucun)[^.;,])*? qu(?:e\b|')|nothing but|nichts (?:anderes )?als|no mas que"
)


@dataclass(slots=True)
class Clause:
    """What is said of one kind, or of electronics at large where ``kind`` is ``None``; ``admits`` unless unsaid."""

    kind: ElectronicsKind | None
    said: str
    begin: int
    end: int
    turns: bool
    admits: bool | None = None
    shared: bool = False
    """Whether its yes or no stands behind what it names, and may be that of the things before it too."""

    @property
    def text(self) -> str:
        return self.said[self.begin : self.end]


def only_kind(said: str) -> tuple[ElectronicsKind | None, str]:
    """Return the one kind of electronics that a plain sentence leaves, and what it says beside what it refuses.

    >>> only_kind("tape welcome, live electronics not")
    (<ElectronicsKind.FIXED: 'fixed media'>, 'tape welcome,')
    >>> only_kind("no electronics, live or fixed")[0], only_kind("electronics are welcome")[0]
    (None, None)
    """
    if re.search(rf"(?<![a-z])(?:{OF_PLAYING})", said):
        return None, said
    said = NOT_BUT.sub(r"\2 \1", said)
    clauses = told(list(clauses_of(said)))
    if any(one.kind is None and one.admits is False for one in clauses):
        return None, said
    by_kind = {kind: [one.admits for one in clauses if one.kind is kind] for kind, _ in KINDS}
    fixed, live = by_kind[ElectronicsKind.FIXED], by_kind[ElectronicsKind.LIVE]
    rest = said
    for one in reversed([one for one in clauses if one.admits is False]):
        rest = rest[: one.begin] + rest[one.end :]
    if False in live and False not in fixed:
        return ElectronicsKind.FIXED, rest.strip()
    if False in fixed and True in live:
        return ElectronicsKind.LIVE, rest.strip()
    for kind, other in ((ElectronicsKind.FIXED, live), (ElectronicsKind.LIVE, fixed)):
        if not other and any(one.kind is kind and is_only(one.text, said) for one in clauses):
            return kind, rest
    return None, said


def is_only(clause: str, said: str) -> bool:
    """Whether a clause admits one kind and no other: *electronics only as fixed media*."""
    named = re.search(rf"(?<![a-z])(?:{GENERIC})", said)
    only = re.search(ONLY, clause) or NOTHING_BUT.search(clause)
    return named is not None and only is not None and NO_DEMAND.search(said) is None


def clauses_of(said: str) -> Iterator[Clause]:
    """Yield the clauses of a sentence that name electronics; words that name none belong to the clause before them."""
    begin, turns = 0, False
    current: Clause | None = None
    for start, end, turn in parts_of(said):
        found = kinds_of(said[start:end])
        if found:
            if current:
                yield current
                begin = start
            *others, last = (Clause(kind, said, begin, end, turns) for kind in found)
            yield from others
            current = last
        elif current and not turns:
            current.end = end
        elif current:
            yield current
            current, begin = None, start
        elif turn:
            begin = end + 1
        turns = turn
    if current:
        yield current


def parts_of(said: str) -> Iterator[tuple[int, int, bool]]:
    """Yield where the parts of a sentence begin and end, and whether what follows is set against it or apart."""
    start = 0
    for match in PARTS.finditer(said):
        yield start, match.start(), bool(match["turn"]) or any(sign in match[0] for sign in ";.!?")
        start = match.end()
    yield start, len(said), False


def kinds_of(part: str) -> list[ElectronicsKind | None]:
    found: list[ElectronicsKind | None] = [kind for kind, words in KINDS if re.search(rf"(?<![a-z])(?:{words})", part)]
    return found or ([None] if re.search(rf"(?<![a-z])(?:{GENERIC})", part) else [])


def told(clauses: list[Clause]) -> list[Clause]:
    """Return the clauses with whether each admits what it names: by its own words, else by those it is joined to."""
    for one in clauses:
        one.admits = admits(one.text)
        one.shared = one.admits is not None and admits(behind(one)) is one.admits
    for before, one in pairwise(clauses):
        if one.admits is None and not one.turns:
            one.admits = before.admits
    for one, after in reversed([*pairwise(clauses)]):
        if one.admits is None and after.shared and not after.turns:
            one.admits, one.shared = after.admits, True
    return clauses


def behind(clause: Clause) -> str:
    """Return what a clause says behind the thing that it names."""
    words = dict(KINDS)[clause.kind] if clause.kind else GENERIC
    named = re.search(rf"(?<![a-z])(?:{words})", clause.text)
    return clause.text[named.end() :] if named else ""


def admits(clause: str) -> bool | None:
    if FINE.search(clause) or NO_DEMAND.search(clause) or NOTHING_BUT.search(clause):
        return True
    if re.search(rf"{NEGATION}|(?<![a-z])(?:{OUT}|pas(?![a-z]))", clause):
        return False
    return True if re.search(rf"(?<![a-z])(?:{ADMITTED}|(?:{YES})(?![a-z]))", clause) else None
