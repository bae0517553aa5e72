"""Shortens sentences that only say who is there or who is not, ``there are no violins``, to the number that they tell.

The text keeps its length, so that places stay what they are: ``There are no violins`` becomes ``no violins`` with
blanks before it, ``il y a deux flûtes`` becomes ``deux flûtes``. What *no* and its kin then mean is in ``denials``.
"""

from __future__ import annotations

import re

from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.tokens import nodes_of

CLAUSE = r"(?:(?<=\A)|(?<=[,;.:(\[\n–—|-]))(?P<blank>\s*+)(?:(?:and|but|und|aber|et|mais|e|ma|y|pero)\s++)?"
NOBODY = re.compile(
    CLAUSE + r"(?P<words>there\s+(?:is|are|was|were)\s+(?:no|not\s+any)|there\s+(?:is|are)n['’]t\s+any|"
    r"(?:the\s+(?:work|piece|score|orchestra|ensemble|orchestration|instrumentation)|it|which)\s+"
    r"(?:has|uses|needs|contains|includes|requires)\s+no|"
    r"es\s+(?:gibt|sind)\s+(?:hier\s+)?keine?n?|"
    r"il\s+n['’]y\s+a\s+(?:pas|point)\s+(?:de\s|d['’])|il\s+n['’]y\s+a\s+aucune?|pas\s+(?:de\s|d['’])|aucune?|"
    r"non\s+(?:ci\s+sono|vi\s+sono|c['’]è|v['’]è)\s+(?:(?:il|lo|la|i|gli|le)\s|l['’]|alcuna?\s)?|"
    r"no\s+hay(?:\s+ning[uú]na?)?|(?:there\s+(?:is|are)\s+)?neither|(?:es\s+(?:gibt|sind)\s+)?weder|"
    r"(?:(?:il\s+n['’]y\s+a|no\s+hay)\s+)?ni|(?:non\s+(?:ci\s+sono|c['’]è)\s+)?né|sin|sans|senza|without|ohne)(?<=['’\s\w])(?<![^\W\d_](?=[^\W\d_]))",
    re.IGNORECASE,
)
NEITHER = re.compile(r"\b(?:neither|weder|ni|né)\b", re.IGNORECASE)
NOR = re.compile(r"\s++(?:(?:nor|noch|ni|né)\s)(?=\s*[^\W\d_])", re.IGNORECASE)
SOMEBODY = re.compile(
    CLAUSE + r"(?P<words>there\s+(?:is|are|was|were)(?!\s+(?:no|not)\b)|es\s+gibt(?!\s+kein)|il\s+y\s+a|"
    r"(?:ci|vi)\s+sono|c['’]è|hay)\b",
    re.IGNORECASE,
)
ELIDED = re.compile(r"(?<=\bun)['’](?=[^\W\d_]{3})", re.IGNORECASE)
"""The apostrophe of ``un'arpa``, an article that no name begins with."""
NONE = "no"
ALONE = ("sin", "sans", "senza", "without", "ohne")
"""What denies in a bracket as it stands, see ``denials``."""
LONGEST_NAME = 60


def shortened(text: str) -> str:
    """Return a text of the same length without the words that only lead to who is there, ``no`` for nobody.

    >>> shortened("strings; there are no violins").split()
    ['strings;', 'no', 'violins']
    >>> shortened("Il y a deux flûtes").split()
    ['deux', 'flûtes']
    """
    nobody = NOBODY.sub(only_none, text)
    if nobody != text and NEITHER.search(text):
        nobody = NOR.sub(lambda found: f",{NONE} ".ljust(len(found[0])), nobody)
    return ELIDED.sub(" ", SOMEBODY.sub(only_blanks, nobody))


def only_none(found: re.Match[str]) -> str:
    """Return as many characters as were found, the word for nobody at their end; other things are not counted."""
    nodes = nodes_of(found.string[found.end() : found.end() + LONGEST_NAME])
    bracketed = found.string[: found.start("words")].rstrip().endswith(("(", "["))
    if name_at(nodes, 0) is None or (bracketed and found["words"].strip().lower() in ALONE):
        return found[0]
    return (NONE + " ").rjust(len(found[0])) if found[0][-1] in " '’" else NONE.rjust(len(found[0]))


def only_blanks(found: re.Match[str]) -> str:
    """Return blanks for what was found, line ends kept."""
    return re.sub(r"[^\n]", " ", found[0])
