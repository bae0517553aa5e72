"""Takes away how a sentence leads to the forces, ``Composed in 1888, it calls for …``, ``Besides the solo violin, …``.

It is blanked before the text is read, so that places stay what they are. Only the words up to the first verb that
asks for players go, and only where they name no instrument; who is named *besides* is the first item of the list.
"""

from __future__ import annotations

import re

from catalogue.instrumentation.margins import names_instrument

ASKING = (
    r"(?:(?:is|are|was|were|has been|have been)\s+(?:(?:originally|modestly|lightly|richly|unusually)\s+)?)?"
    r"(?:scored|written|composed|orchestrated|conceived|intended|set)\s+for|(?:is|are)\s+for|calls?\s+for|called\s+for|asks?\s+for|"
    r"requires?|required|uses|used|employs|employed|demands|features|comprises|includes|needs|"
    r"(?:ist|sind|wurde)\s+(?:gesetzt|geschrieben|komponiert|besetzt)\s+(?:für|mit)|verlangt|erfordert|"
    r"(?:est|sont)\s+(?:écrite?s?|composée?s?|conçue?s?|instrumentée?s?|orchestrée?s?)\s+pour|requiert|exige|"
    r"(?:è|sono)\s+(?:scritt[oaei]|compost[oaei]|strumentat[oaei])\s+per|richiede|prevede|"
    r"(?:está|están)\s+(?:escrit[oa]s?|compuest[oa]s?)\s+para|requiere"
)
LEAD = re.compile(
    rf"\s*+(?P<before>(?:[^\s,;:.()\[\]|][^,;:.\n()\[\]|]{{0,159}},\s++){{0,2}})"
    rf"(?:(?P<subject>[^\s,;:.()\[\]|][^,;:.\n()\[\]|]{{0,99}}?)\s++)?(?:{ASKING})\b",
    re.IGNORECASE,
)
"""Blanks are taken whole and no stretch begins with one, so that a text of blanks is left at once."""
BESIDES = re.compile(
    r"\s*+(?:in addition to|besides|apart from|as well as|along with|alongside|together with|neben|außer|outre|"
    r"en plus d[eu]|oltre (?:al?l?[aoe']?|a)|además de)\s+(?:(?:the|der|dem|den|le|la|les|l['’]|il|lo|el)\s+)?",
    re.IGNORECASE,
)
THEN_ASKING = re.compile(rf"\s(?:the|this|it|he|she)\b[^,;:.\n()\[\]|]{{0,40}}?\b(?:{ASKING})\b", re.IGNORECASE)
BEHIND = re.compile(
    r"\s(?:(?:are|is)\s+(?:required|needed|used|employed|called for)|geschrieben|komponiert|gesetzt|besetzt)"
    r"\s*+[.!]?\s*+$",
    re.IGNORECASE,
)
STRINGS = re.compile(r"\b(?:strings?|streich\w*|cordes|archi|cuerdas?)\b", re.IGNORECASE)
BODY = re.compile(r"\b(?:orchestra|orchestration|ensemble|band|orchester|orchestre|orquesta)\b", re.IGNORECASE)
"""The players as a whole, who may ask for those who are named after them."""
COMBINATION = re.compile(
    r"\b(?:the|an?)\s+(?:[a-z]{3,12}\s+){0,2}(?:combinations?|pairing|line-up|forces|grouping)\s+of\b\s(?!\d)",
    re.IGNORECASE,
)
LABEL = re.compile(
    r"\s*+(?:instrumentation|scoring|orchestration|forces|besetzung|instrumentierung|effectif|formation|instrumentarium|"
    r"organico|strumentazione|plantilla|instrumentación|orquestación)\s*+:\s*+(?=[^\W\d_])",
    re.IGNORECASE,
)
"""A label that says what follows; before a sentence or a title it only stands in the way."""
TITLED = re.compile(r"[^,;:.\n()\d]{0,60}\b(?:for|für|pour|per|para)\b", re.IGNORECASE)
ACCOMPANIED = re.compile(
    r",?\s(?:with\s+(?:the\s+|an\s+)?accompaniment\s+(?:of|by)|accompanied\s+by|supported\s+by|with\s+the\s+support\s+of|"
    r"mit\s+begleitung\s+(?:von|durch)|begleitet\s+von|avec\s+(?:l['’])?accompagnement\s+(?:de|d['’])|"
    r"accompagnée?s?\s+(?:de|par)|con\s+(?:l['’])?accompagnamento\s+d[i'’]|con\s+acompañamiento\s+de)\b",
    re.IGNORECASE,
)


def blanked(text: str, start: int, end: int, mark: str = "") -> str:
    """Return a text with blanks for a stretch, a mark at the head of them."""
    return text[:start] + mark.ljust(end - start)[: end - start] + text[end:]


def without_lead(text: str) -> str:
    """Return the text with blanks for what only leads to the forces.

    >>> without_lead("It calls for two horns").split()
    ['two', 'horns']
    >>> " ".join(without_lead("Besides the solo violin, the work requires 2 flutes").split())
    'solo violin, 2 flutes'
    >>> without_lead("2 flutes and harp")
    '2 flutes and harp'
    """
    text = ACCOMPANIED.sub(lambda found: ",".ljust(len(found[0])), text)
    label = LABEL.match(text)
    if label is not None and (LEAD.match(text, label.end()) or TITLED.match(text, label.end())):
        text = blanked(text, 0, label.end())
    behind, lead, besides = BEHIND.search(text), LEAD.match(text), BESIDES.match(text)
    if behind is not None:
        text = blanked(text, *behind.span())
    if lead is not None:
        text = without_subject(text, lead)
    elif besides is not None:
        text = beside_subject(text, besides)
    named = COMBINATION.search(text[:200])
    if named is not None and not names_instrument(text[: named.end()]) and not re.search(r"\d", text[: named.end()]):
        text = blanked(text, 0, named.end())
    return text


def beside_subject(text: str, besides: re.Match[str]) -> str:
    """Return ``Besides the solo piano the score requires 2 flutes`` with the piano as the first item."""
    asking = THEN_ASKING.search(text, besides.end(), besides.end() + 120)
    if asking is None or "," in text[: asking.start()] or names_instrument(BODY.sub("", asking[0])):
        return text
    return blanked(blanked(text, *asking.span(), ","), 0, besides.end())


def without_subject(text: str, lead: re.Match[str]) -> str:
    """Return a text without the subject that asks for the players and without what stands before it."""
    besides = BESIDES.match(text)
    before, told = lead["before"], lead["subject"] or ""
    subject = BODY.sub("", told)
    if names_instrument(subject) or STRINGS.search(told) or re.search(r"\d", subject):
        return text if besides is None else beside_subject(text, besides)
    start = lead.start("before") + len(before)
    if besides is not None and besides.end() < start:
        return blanked(blanked(text, start, lead.end()), 0, besides.end())
    years = re.sub(r"\b1[4-9]\d\d\b|\b20\d\d\b", "", before)
    if re.search(r"\d", years) or names_instrument(before) or STRINGS.search(before):
        return text
    return blanked(text, 0, lead.end())
