"""What a call says of the words that a work sets: in which languages, and whether their rights must be free."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import Found, TextRights
from catalogue.rules.calls.words import has, plain

LANGUAGES = {
    "en": r"english|englisch\w*|anglais\w*|ingles[ei]?",
    "de": r"german|deutsch\w*|allemande?|tedesc[oa]|aleman\w*",
    "fr": r"french|franzosisch\w*|francais\w*|frances[ei]?",
    "it": r"italian\w?|italienisch\w*|italienne?",
    "es": r"spanish|spanisch\w*|espagnole?|spagnol[oa]|espanol\w?|castellan[oa]",
    "la": r"latin\w?|lateinisch\w*",
    "nl": r"dutch|niederlandisch\w*|neerlandaise?|olandese|neerlandes\w?|nederlands\w?",
    "cy": r"welsh|walisisch\w*",
    "ga": r"irish|gaelic",
    "sco": r"scots\b",
    "pt": r"portuguese|portugiesisch\w*|portugaise?|portoghese|portugues\w?",
    "pl": r"polish|polnisch\w*|polonaise?|polacc[oa]|polac[oa]",
    "cs": r"czech|tschechisch\w*|tcheque|cec[oa]|checo",
    "sv": r"swedish|schwedisch\w*|suedoise?|svedese|suec[oa]",
    "no": r"norwegian|norwegisch\w*|norvegien\w*|norvegese|norueg[oa]",
    "da": r"danish|danisch\w*|danoise?|danese|danes\w?",
    "fi": r"finnish|finnisch\w*|finnoise?|finlandese|finland?es\w?",
}
NAMES = {
    "en": "English", "de": "German", "fr": "French", "it": "Italian", "es": "Spanish", "la": "Latin", "nl": "Dutch",
    "cy": "Welsh", "sco": "Scots", "ga": "Irish", "pt": "Portuguese", "pl": "Polish", "cs": "Czech", "sv": "Swedish",
    "no": "Norwegian", "da": "Danish", "fi": "Finnish",
}  # fmt: skip
SUNG = (
    r"texts?\b|poems?\b|lyrics|libretto|words (?:set|sung)|words in (?=[a-z]+(?:,| or\b| and\b|[.;]|$))|"
    r"words(?=:)|the words (?:are|must|should|may)|sung|gesungen|"
    r"vertont\w*|textvorlagen?|texte\w?\b|gedichte?|poeme\w?|paroles|testi?\b|testo|poesi[ae]|textos?\b|poemas?\b|"
    r"textsprache|sprache des textes|langue du texte"
)
WRITTEN_ABOUT = (
    r"programme|program\b|notes?\b|biograph|biograf|statement|letter|application|description|commentary|rider|translat|"
    r"motivation|words of|einfuhrung|werktext|notice|words?\b(?! in [a-z]+(?:,| or| and|[.;])| set| sung|:| are|"
    r" must| should| may)|ubersetz|traduc|"
    r"traduzion"
)
IN = r"(?:\bin\b|\bauf\b|\ben\b|language|langue|lingua|idioma|\w*sprache|:)"
FREE = (
    r"public[- ]domain|gemeinfrei\w*|domaine public|pubblico dominio|dominio (?:publico|pubblico)|"
    r"(?:out|free) of (?:copyright|rights)|copyright[- ]free"
)
NOBODYS = r"rechtefrei\w*|libres? de droits?|liber[oi] da diritti|libres? de derechos|free of third[- ]party rights"
"""Free of the rights of others, which a text of the composer's own is too."""
OR_CLEARED = (
    r"leave to use|rights? to use|"
    r"permission|cleared|licen[sc]e|written consent|rights? (?:have been|must be|has been)|genehmigung|einwilligung|"
    r"rechte (?:\w+ )?(?:geklart|eingeholt)|autorisation|autorizzazion\w*|autorizacion|permiso|cession"
)
OR_OWN = (
    r"your own|by (?:the|its|their) (?:composers?|entrants?)|own texts?|original texts?|vom komponisten|"
    r"eigene[rn]?|selbst (?:verfasst|geschrieben)|propri[oa]|propi[oa]|du compositeur|de l'auteur|dell'autor\w+|"
    r"del (?:propio |mismo )?autor\w*|des komponisten|del compositor\w*|original"
)
BOTH = r"\boppure\b|\bovvero\b|\bor\b|\boder\b|\bou\b|\bo\b|unless|es sei denn|otherwise|andernfalls|sauf|salvo"


TOLD_BEHIND = re.compile(rf"(?<![a-z])(?:{SUNG})[,(]? ?\(?(?:{'|'.join(LANGUAGES.values())})(?![a-z])")
"""*The text, German or Latin, must …*"""


def read_sung_texts(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield the languages of the words that are sung, and what their rights must be."""
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        if has(rf"{FREE}|{NOBODYS}", said) and has(rf"{SUNG}|words", said):
            yield Found("text_rights", rights_in(said), *where)
        if has(SUNG, said) and not has(WRITTEN_ABOUT, said) and (re.search(IN, said) or TOLD_BEHIND.search(said)):
            languages = languages_in(said)
            if languages:
                yield Found("text_languages", languages, *where)


def rights_in(said: str) -> TextRights:
    """
    >>> rights_in("texts in the public domain, or with the written permission of the publisher").value
    'in the public domain or cleared'
    """
    if has(BOTH, said) and has(OR_CLEARED, said):
        return TextRights.CLEARED
    own = has(NOBODYS, said) or (has(BOTH, said) and has(OR_OWN, said))
    return TextRights.OWN if own else TextRights.PUBLIC_DOMAIN


def languages_in(said: str) -> tuple[str, ...]:
    """Return the languages that plain words name, as BCP 47 has them, in their order.

    >>> languages_in("texts in latin or in english")
    ('la', 'en')
    """
    found = {code: match.start() for code, name in LANGUAGES.items() if (match := whole(name, said))}
    return tuple(sorted(found, key=lambda code: found[code]))


def language_name(code: str) -> str:
    """Return the English name of a language, its code where none is known here."""
    return NAMES.get(code, code)


def whole(name: str, said: str) -> re.Match[str] | None:
    return re.search(rf"(?<![a-z])(?:{name})(?![a-z])", said)


def language_of(text: str) -> str:
    """Return the language that a record names, by its code or in words; empty where it is not known.

    >>> language_of("de-AT"), language_of("Latin"), language_of("")
    ('de', 'la', '')
    """
    code = re.fullmatch(r"([A-Za-z]{2,3})(?:-[A-Za-z0-9-]+)?", text.strip())
    if code and code[1].lower() not in ("fin",):
        return code[1].lower()
    return next(iter(languages_in(plain(text))), "")
