"""What has to be sent, and under what name: recording, note, fee, documents, anonymity, exclusivity."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import Found, RecordingRule
from catalogue.rules.calls.words import NUMBER, has, number_of

RECORDING = (
    r"recordings?|aufnahmen?|tonaufnahme|enregistrement|registrazion|grabaci|audio (?:file|excerpt)|"
    r"sound file|mp3|opname"
)
SENT = r"winner|will be recorded|recorded for you|receive|commercial|unrecorded|broadcast"
FORBIDDEN = (
    r"(?:ton)?aufnahmen? (?:sind|ist) nicht (?:zugelassen|erlaubt|gestattet)|"
    r"no recordings?(?: may| are|,| please| should| must| can|$)|recordings? (?:may|must|should|"
    r"can)(?: ?not|not) be (?:enclosed|sent|"
    r"submitted|included)|returned unheard|do not (?:send|enclose|submit|include) (?:a |"
    r"any )?recording|keine aufnahmen? "
    r"(?:bei|ein|send)|recordings? (?:is|are) (?:forbidden|prohibited|not (?:allowed|permitted|admitted))"
)
UNWANTED = (
    r"no recordings? (?:is |are )?(?:wanted|needed)|recordings? (?:are|is) (?:not|"
    r"neither) (?:wanted|needed|listened|expected|asked|considered|erwunscht)|not listened|"
    r"recording "
    r"not (?:wanted|needed)|aufnahmen? (?:sind|ist) nicht erwunscht|we do not listen"
)
OPTIONAL = (
    r"optional|would like|we'd like|if (?:you (?:have|happen)|there is|available|possible|one exists)|only if|welcome|"
    r"may be (?:included|enclosed|"
    r"added|sent)|freiwillig|not (?:required|necessary|essential|compulsory)|nicht erforderlich|"
    r"si possible|se possibile|no recording (?:is )?required|willkommen|nicht notig|"
    r"where (?:available|possible)|falls|sofern|wenn vorhanden|si disponible|"
    r"se disponibile|desirable|preferred|encouraged|helpful"
)
NEEDED = (
    r"required|must\b|require|need(?:s|ed)?\b|compulsory|obligat|we ask for|please send|send us|"
    r"submit|include|add\b|erforderlich|"
    r"einzureichen|einsend|each needs|is to be|are to be|joindre|allegare|enclos"
)
LIVE = (
    r"live\b|live-|konzertmitschnitt|real (?:players|people)|human|mitschnitt|actual performance|"
    r"dal vivo|en vivo|concert recording"
)
RENDERED = r"render|computer|synthes|midi|mock-?up|simulat|sampled|demo\b|playback of the notation"
NOT_RENDERED = (
    rf"(?:no|not|never|keine?|without)\b[^.;]{{0,40}}?(?:{RENDERED})|"
    rf"(?:{RENDERED})[^.;]{{0,60}}?(?:(?:are|is|be) not|bitte nicht|"
    r"excluded|not (?:be )?(?:accepted|wanted|admitted)|cannot|unwanted|nicht)"
)
NOTE = re.compile(
    rf"(?:note|text|lines|description|commentary|introduction|einfuhrung|kommentar|werktext|notice|"
    rf"nota|about the (?:piece|work))"
    rf"(?:[^.;]|max\.){{0,60}}?(?P<words>{NUMBER}|\d{{2,4}})\s*(?:words?|wort\w*|mots|parole|palabras)"
    r"|(?!)"
)
WORDS_OF_NOTE = re.compile(
    r"(?P<before>\d{2,4})[- ]?(?:words?|mots|parole|palabras|worter)[^.;]{0,20}?(?:note|description|text)"
)
FEE = re.compile(
    r"(?P<money>(?:EUR|GBP|USD|CHF|NOK|SEK|DKK|PLN|CZK|CAD|AUD|€|£|\$)\s?\d[\d ,.]*\d|(?:EUR|GBP|"
    r"USD|CHF|NOK|SEK|DKK|€|£|\$)\s?\d+"
    r"|\d[\d,.]*\s?(?:EUR|GBP|USD|CHF|NOK|SEK|DKK|PLN|euros?|pounds|dollars|€|£))"
)
FEE_WORDS = r"fee\b|fees\b|\w*gebuhr|frais|quota|tassa|cuota|per (?:score|work)|each, |for one|entry:|costs?\b|charge"
NO_FEE = (
    r"no (?:entry |application |submission |participation )?fees?|free of charge to enter|"
    r"keine (?:gebuhr|teilnahmegebuhr)|"
    r"without (?:a )?fee|gebuhrenfrei|sans frais|(?:pas|aucun) (?:de )?frais|kostenlos|"
    r"entry is free|free to enter|nessuna quota|fee: (?:none|nothing|no\b)(?! for\b)|no charge|"
    r"there is no (?:\w+ )?fee|\w*gebuhr (?:wird|werden)[^.;]{0,20}(?:nicht|keine) erhoben"
)
ANONYMOUS = (
    r"anonym|motto|pseudonym|no name|without (?:a |any |the )?names?|kennwort|sealed envelope|"
    r"names? (?:must|should|may) not appear|"
    r"nom de plume|must not (?:bear|carry|show) (?:the |your |a )?(?:composer'?s? )?name|remove (?:your|the) name"
)
NOT_ANONYMOUS = r"no names need|not (?:be )?anonym|need not be anonym|nicht anonym|names are welcome|no need to remove"
EXCLUSIVE = (
    r"not (?:be )?(?:submitted|entered|sent) (?:elsewhere|to (?:any )?other)|simultaneous|exclusively|"
    r"no other competition|(?:entered|submitted) (?:in|to|for) any other|"
    r"ineligible if (?:they are |it is )?(?:entered|submitted|sent)"
)

DOCUMENTS = {
    "score": r"scores?\b|partitur|partition|partitura",
    "parts": r"\bparts\b(?! of)|stimmen\b|stimmenmaterial|parties separees",
    "recording": RECORDING,
    "note": r"(?:programme |program )?notes?\b(?!d)|werktext|werkkommentar|einfuhrungstext|notice\b",
    "biography": r"biograph|\bbio\b|kurzbiographie|lebenslauf|vita\b",
    "curriculum vitae": r"curriculum vitae|\bcv\b|resume\b",
    "list of works": r"works? ?list|list of (?:compositions|works)|werkverzeichnis|werkliste|catalogue of works",
    "list of past performances": r"list of (?:past |previous )performances|performance history",
    "technical rider": r"technical rider|tech(?:nical)? (?:rider|sheet|plan)|stage plan|diagram",
    "statement": r"statement\b|letter of (?:motivation|intent|one page)|letter\b|motivationsschreiben|proposal",
    "referees": r"referees?\b|references\b|letters? of recommendation|gutachten",
    "certificates": r"certificates?|transcripts?|diplomas?|zeugnis",
    "photograph": r"photo",
    "writing sample": r"writing samples?|samples? of (?:academic )?writing|schriftprobe",
    "sealed envelope": r"sealed envelope|verschlossener umschlag",
}
SENDING = (
    r"send|submit|enclos|include|need|material|einzusenden|einsend|upload|required|documents?|"
    r"papers|what to send|for every work|"
    r"list of|copies|proposal|references|scores? as|score (?:pdf|or)|rider|note\b|letter|"
    r"portfolio|statement|recording|envoy|allegat|biograph|transcripts?"
)


def read_materials(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield what is to be sent and how."""
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        yield from recording_in(said, passage, where)
        note = NOTE.search(said) or WORDS_OF_NOTE.search(said)
        if note and not has(r"research|statement|proposal|letter", said[: note.end()]):
            yield Found("note_words", number_of(note[1]), *where)
        yield from fee_in(passage, said, where)
        if has(ANONYMOUS, said) and not has(NOT_ANONYMOUS, said):
            yield Found("anonymous", True, *where)
            yield Found("anonymity_text", passage.text, *where)
        if has(EXCLUSIVE, said) and not has(r"simultaneous submissions are (?:fine|welcome|allowed)", said):
            yield Found("exclusive", True, *where)
        if has(SENDING, said) and not has(r"^no |no references|not be included|no recordings", said):
            for name in documents_in(said):
                yield Found("documents", name, *where)


def documents_in(said: str) -> list[str]:
    """Return what a passage asks to be sent, in its order."""
    found = {
        name: match.start()
        for name, pattern in DOCUMENTS.items()
        if (match := re.search(rf"(?<![a-z])(?:{pattern})", said))
    }
    if has(rf"{FORBIDDEN}|{UNWANTED}|no recording", said):
        found.pop("recording", None)
    return sorted(found, key=lambda name: found[name])


def recording_in(said: str, passage: Passage, where: tuple[int, int]) -> Iterator[Found]:
    if not has(RECORDING, said) or (has(SENT, said) and not has(r"live recording|recording (?:is|of)", said)):
        return
    live = has(LIVE, said) and not has(rf"at least (?:{NUMBER}) of", said)
    if has(FORBIDDEN, said) and not has(UNWANTED, said):
        yield Found("recording", RecordingRule.FORBIDDEN, *where, rank=4)
    elif has(UNWANTED, said):
        yield Found("recording", RecordingRule.NOT_WANTED, *where, rank=3)
    elif has(OPTIONAL, said):
        yield Found("recording", RecordingRule.OPTIONAL, *where, rank=2)
    elif has(NEEDED, said) or has(RECORDING, said):
        yield Found("recording", RecordingRule.REQUIRED, *where, rank=2 if has(NEEDED, said) else 1)
        if (
            live
            and has(r"required|require\b|must|of a live|live recording|live performance", said)
            and not has(
                r"preferred|if possible|acceptable|will do|or (?:a )?(?:rendered|midi|computer)|"
                r"rendered (?:or|accepted)|ideally|is fine",
                said,
            )
        ):
            yield Found("recording_live", True, *where)
    if has(RENDERED, said) or live:
        yield Found("recording_text", passage.text, *where)


def fee_in(passage: Passage, said: str, where: tuple[int, int]) -> Iterator[Found]:
    if has(NO_FEE, said):
        yield Found("fee", "none", *where, rank=2)
        return
    money = [match["money"].strip() for match in FEE.finditer(passage.text)]
    some_pay = has(r"(?:none|free|waived|nothing) for\b", said)
    is_paid_out = has(r"receive|paid to|winner|prize|award of|travel|commission fee", said)
    if has(FEE_WORDS, said) and (some_pay or (money and not is_paid_out)):
        yield Found("fee", passage.text.rstrip("."), *where, rank=1)
