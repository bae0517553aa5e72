"""What has to be sent, and under what name: recording, note, fee, documents, anonymity, exclusivity."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.recordings import FORBIDDEN, MAY_BE_SENT, RECORDING, UNWANTED, needs_none, refused_recording
from catalogue.rules.calls.refusals import CLAUSES, NEGATION
from catalogue.rules.calls.terms import Found, RecordingRule
from catalogue.rules.calls.words import NUMBER, has, number_of, plain

PROJECT = r"recording (?:project|session|studio|label|compan|contract)"
SENT = (
    r"winner|will be recorded|recorded for you|receive|commercial|unrecorded|broadcast|recorded (?:by|on|for|in)|"
    rf"{PROJECT}"
)
OPTIONAL = (
    r"n'est pas (?:demand|exig|obligatoire|requis|necessaire)\w*|non (?:e )?(?:richiest|obbligatori|necessari)\w|"
    r"no es (?:necesari|obligatori|imprescindibl)\w+|optional|would like|we'd like|if (?:you (?:have|happen)|"
    r"there is|available|possible|one exists)|only if|welcome|"
    r"may be (?:included|enclosed|"
    r"added|sent)|freiwillig|not (?:required|necessary|essential|compulsory)|nicht erforderlich|"
    r"nach moglichkeit|facultati[fv]\w*|facoltativ\w|opcional\w*|no se requieren?|gern mit|s'il (?:y en a|existe)|"
    r"se esistente|"
    r"si la (?:hubiera|hay)|si existe|wenn (?:es )?(?:eine |sie )?(?:gibt|vorlieg\w+|existier\w+)|"
    r"si possible|se possibile|no recording (?:is )?required|willkommen|nicht notig|"
    r"where(?:ver)? (?:available|possible|(?:it|they|one) exists?)|helps\b|appreciated|falls|sofern|wenn vorhanden|"
    r"si disponible|"
    r"se disponibile|desirable|preferred|encouraged|helpful|hilfreich|von vorteil|keine (?:bedingung|pflicht|"
    r"voraussetzung)|"
    r"(?:pas|n'est) une (?:obligation|condition)|non (?:e )?(?:un )?obbligo|no es (?:una )?(?:obligacion|"
    r"condicion)|se (?:c'e|ce n'e)\b|"
    r"si (?:la )?hay\b"
)
NEEDED = (
    r"required|must\b|require|upload|e-?mail|provide|attach|accompan|need(?:s|ed)?\b|compulsory|obligat|"
    r"acompan\w+|accompagnat\w|si chied\w+|chiediamo|on demande|nous demandons|wir (?:bitten um|brauchen|"
    r"benotigen)|se pid\w+|pedimos|"
    r"we ask for|please send|send us|"
    r"submit|include|add\b|erforderlich|obligatoire|exige|requis|richiest|obbligator|requerid|"
    r"inviare|enviar|envoyer|comprend|beizufugen|beilegen|zu jedem|for each\b|of each\b|will do\b|"
    r"essential\b|vital\b|unerlas+lich|unbedingt|indispensable\w*|unverzichtbar|imprescindible|einzureichen|"
    r"einsend|each needs|is to be|are to be|joindre|"
    r"allegare|enclos"
)
PREFERRED = r"preferred|desirable|ideally|encouraged|helpful"
ALL_THE_SAME = re.compile(
    r"(?:but|aber|mais|ma|pero) (?:(?:it|one|sie|elle|il|la|una) )?(?:has to|must|is (?:required|needed)|muss|"
    r"ist (?:aber )?notig|"
    r"doit|est exige\w*|deve|dev'|debe)(?![a-z])"
)
"""What demands a recording after freeing it of something: *which may be a mock-up but has to be there*."""
DEMANDED = r"required|must\b|compulsory|obligat|erforderlich|exige|requis|richiest|requerid|mandatory"
LISTED_WORDS = 9
LIVE = (
    r"live\b|live-|konzertmitschnitt|real (?:players|people)|human|mitschnitt|actual performance|"
    r"dal vivo|en vivo|concert recording"
)
RENDERED = r"render|computer|synthes|midi|mock-?up|simulat|sampled|demo\b|playback of the notation"
NOTE = re.compile(
    rf"(?:note|presentation|text|lines|sinopsis|synopsis|description|commentary|introduction|einfuhrung|kommentar|"
    rf"werktext|notice|"
    rf"nota|presentazion\w*|presentacion|testo|texto|texte|about the (?:piece|work))"
    rf"(?:[^.;]|max\.){{0,60}}?(?P<words>{NUMBER}|\d{{2,4}})\s*(?:words?|wort\w*|mots|parole|palabras)"
    r"|(?!)"
)
WORDS_OF_NOTE = re.compile(
    r"(?P<before>\d{2,4})[- ]?(?:words?|mots|parole|palabras|worter)[^.;]{0,20}?(?:note|description|text|blurb|"
    r"commentary|introduction|paragraph|(?:about|on|"
    r"uber|zu|"
    r"sur|su|sobre) (?:the|your|its|das|die|dein\w*|ihr\w*|la|l'|il|el) ?(?:piece|work|music|stuck|werk|oe?uvre|"
    r"piece|brano|"
    r"opera|obra))"
)
MONEY = r"EUR|GBP|USD|CHF|NOK|SEK|DKK|PLN|CZK|HUF|RON|CAD|AUD|NZD|JPY|KRW|HKD|SGD|ZAR|MXN|BRL|€|£|¥|\$"
FEE = re.compile(
    rf"(?P<money>(?:{MONEY}|[Ee]uro)\s?\d[\d ,.]*\d|(?:{MONEY})\s?\d+"
    r"|(?:\d[\d,.]*|[Ff]ive|[Tt]en|[Ff]ifteen|[Tt]wenty|[Tt]hirty|[Ff]orty|[Ff]ifty)\s?"
    rf"(?:{MONEY}|[Ee]uros?|[Pp]ounds|[Dd]ollars|Franken|[Ff]rancs|Kronen|kr\b|zł|Kč))"
)
FEE_WORDS = (
    r"versando|versare|versamento|verser\b|segreteria|abonar\w*|pays?\b|for each\b|zahl(?:t|en)\b|(?:iscrizione|"
    r"inscription|inscripcion|einschreib\w*|anmeldung|"
    r"registration|entry|entries)\b|fee\b|fees\b|"
    r"\w*gebuhr|frais|quota|tassa|cuota|per (?:score|work|piece|entry|person|composer|category)|"
    r"each, |for one|entry:|costs?\b|charge|unkostenbeitrag|\w*beitrag\b|droits?\b|tasa|derechos|contributo|"
    r"entry is\b|pro (?:werk|person|stuck|einreichung)|par (?:oe?uvre|personne|candidat|partition)|"
    r"(?:per|a) (?:brano|opera|partitura)|por (?:obra|persona|partitura)|per (?:fanfare|song|set|submission)"
)
NO_FEE = (
    r"kostet (?:\w+ )?nichts|ne coute rien|non costa (?:nulla|niente)|no cuesta nada|"
    r"no hay tasas?\b|weder (?:eine )?gebuhr|(?:workshops?|entry|entrance|participation|application) (?:is|are) free\b|"
    r"(?:kosten|gebuhr(?:en)?|teilnahmegebuhr|frais|quota|cuota): (?:keine|aucun|nessun|ningun)|fees?: (?:none|"
    r"nil|no\b|free)(?! (?:for|to)\b)|(?:partecipazione|iscrizione)[^.;]{0,25} e gratuita|"
    r"gratuit[aeo]?s?\b|"
    r"no (?:entry |application |submission |participation )?fees?|free of charge to enter|"
    r"keine (?:gebuhr|teilnahmegebuhr)|"
    r"without (?:a )?fee|gebuhrenfrei|sans frais|(?:pas|aucun) (?:de )?frais|kostenlos|"
    r"entry is free|free to enter|nessuna (?:quota|tassa)|(?:fee|cost|costs|entry|charge): "
    r"(?:none|nothing|free|no\b|nil)(?! for\b)|no charge|"
    r"(?:entries|entry|participation|submission|submissions|applying|applications?) (?:is|are) free|free of charge|"
    r"(?:do|does|will) not charge|nothing to pay|costs? nothing|free entry|without charge|it(?:'s|"
    r" is) free(?=[.,;!]|$)|no (?:hay|se cobran) tasas|"
    r"(?:participacion|inscripcion) (?:es )?gratuita|sin (?:cuota|coste|tasa)|"
    r"(?:partecipazione|iscrizione) (?:e )?gratuita|senza (?:quota|tassa|spese)|(?:inscription|participation) "
    r"(?:est )?gratuite|gratuit\b|teilnahme ist (?:kostenfrei|kostenlos|frei)|kostenfrei|"
    r"kein(?:e|en)? (?:\w*kosten|\w*beitrag|gebuhren)|"
    r"there is no (?:\w+ )?fee|\w*gebuhr(?:en)? (?:wird|werden)[^.;]{0,20}(?:nicht|keine) erhoben"
)
FEE_NOUN = (
    r"(?:(?:entry|application|reading|submission|registration|participation) (?:fees?|charges?)|fees?\b|charges?\b|"
    r"\w*gebuhr\w*|(?:einschreibe?|teilnahme|start|eintritts)geld\w*|\w*kosten\b|\w*beitrag\b|"
    r"frais\b|droits? d'\w+|quot[ae]\b|tass[ae]\b|spese\b|cuotas?\b|tasas?\b|derechos de inscripcion)"
)
NO_FEE_AT_ALL = re.compile(
    rf"{NEGATION}[^.;,:]{{0,30}}?(?<![a-z]){FEE_NOUN}(?![^.;]{{0,30}}(?:waive|refund|ruckerstatt|rembours|rimbors|"
    rf"reembols))|"
    rf"(?<![a-z]){FEE_NOUN}[^.;,]{{0,30}}?(?<![a-z])(?:charg|erheb|verlang|percev|chied|"
    rf"cobr)\w*[^.;,]{{0,12}}?{NEGATION}|"
    rf"(?<![a-z]){FEE_NOUN}[^.;,]{{0,30}}?(?:{NEGATION} (?:\w+ )?(?:charg|levied|erhob|verlang|anfall|percu|demand|"
    rf"richiest|previst|"
    r"cobr|exig)\w*|entfall\w*)"
)
NONE_TOLD = re.compile(
    rf"(?<![a-z]){FEE_NOUN}[^:]{{0,24}}:\s*(?:none|no\b|nil|keine?\b|neant|aucun\w*|nessun\w*|ningun\w*|non\b|"
    rf"gratuit\w*|kostenlos|free\b|0\b|-$)"
    r"(?! (?:for|fur|pour|per|para)\b)"
)
NAMELESS = re.compile(
    rf"(?:{NEGATION}[^.;]{{0,60}}?(?<![a-z])(?:(?:your|the|any|composer'?s?) names?\b|names? (?:or|nor)\b|namen\b|"
    rf"hinweis\w* auf|"
    r"noms?\b|nomi?\b|nome\b|nombres?\b|signatures?\b|firma\b|unterschrift\w*|segni?\b|dati personali|datos personales|"
    r"signes? distinctifs?|identifi\w+|identit\w+|ruckschl\w+))"
)
SHEETS = r"scores?\b|partitur\w*|partition\w*|files?\b|dateien|pdf\b|manuscri\w+|cover\b|noten\b"
ANONYMOUS = (
    r"judge[sd]? blind|blind (?:judging|jury|process|review)|judged without names|"
    r"anonym|anonim|motto|pseudonym|seudonimo|pseudonimo|devise\b|\blema\b|no name|"
    r"priv[aoi] d(?:el|i) nom\w+|sans mention du nom|pen[- ]names?|rather not know who\w*|without (?:a |any |the |"
    r"your |their )?names?|kennwort|sealed envelope|"
    r"unter einem motto|"
    r"(?:names?|identity) (?:must|should|is to|are to|has to) be (?:removed|covered|hidden|withheld)|ohne namen|"
    r"keinen namen|sans (?:le |votre )?nom\b|senza (?:il )?nome|sin (?:el )?nombre|"
    r"names? (?:must|should|may) not appear|"
    r"nom de plume|must not (?:bear|carry|show|include|contain|mention) (?:the |your |a )?(?:composer'?s? )?name|"
    r"remove (?:your|the) name|(?:leave|keep|take) (?:your|the|all|any) names? (?:off|out)|identifying (?:marks?|"
    r"information|details|features|data)|"
    r"(?:no|any) (?:other )?identif\w+|sin ningun dato|senza (?:alcun )?(?:segno|elemento) (?:identificativ|"
    r"di riconoscim)\w+"
)
NOT_ANONYMOUS = (
    r"no anonymity|anonymity is (?:not|no)\b|keine anonymitat|(?<!not )(?<!n't )(?<!never )put your names?\b|"
    r"no names need|"
    r"not (?:be )?anonym|need not be anonym|nicht anonym|names are welcome|no need to remove"
)
PAID_OUT = (
    r"receive|paid to|winner|prize|award of|travel|commission fee|grants? of|stipend|bourse|we pay|honorar|"
    r"preisgeld|erhalt|recoit|ricev|premio de|dotad|dotier|scholarship"
)
EXCLUSIVE = (
    r"not (?:be )?(?:submitted|entered|sent) (?:elsewhere|to (?:any )?other)|simultaneous|exclusively|"
    r"no other competition|(?:do not|don't|not|never) (?:offer|send|submit|enter)\w*[^.;]{0,40}(?:any other|another|"
    r"elsewhere)|"
    r"(?:entered|submitted) (?:in|to|for) any other|"
    r"ineligible if (?:they are |it is )?(?:entered|submitted|sent)|nicht (?:gleichzeitig|zugleich|anderweitig)|"
    r"(?:bei|an|zu) (?:keinem|einem) anderen wettbewerb|aucun autre concours|nessun altro concorso|ningun otro concurso"
)

DOCUMENTS = {
    "score": r"scores?\b|partitur|partition|partitura",
    "parts": r"\bparts\b(?! of)|stimmen\b|stimmenmaterial|parties separees",
    "recording": RECORDING,
    "note": r"(?:programme |program )?notes?\b(?!d)|werktext|werkkommentar|einfuhrungstext|notice\b",
    "biography": r"biogra(?:ph|f)|\bbio\b|kurzbiogra\w+|lebenslauf|vita\b",
    "curriculum vitae": r"curriculum vitae|\bcv\b|resume\b",
    "list of works": r"works? ?list|list of (?:the |your )?(?:compositions|works)|werkverzeichnis|werkliste|"
    r"catalogue of works",
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
    r"scores? (?:each|in|pdf)|one score|portfolio|statement|recording|envoy|allegat|biograph|transcripts?"
)


def read_materials(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield what is to be sent and how."""
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        yield from recording_in(said, passage, where)
        note = NOTE.search(said) or WORDS_OF_NOTE.search(said)
        if note and not has(
            r"research|statement|proposal|letter|project|proje[kt]t|progetto|proyecto|motiv", said[: note.end()]
        ):
            yield Found("note_words", number_of(note[1]), *where)
        yield from fee_in(passage, said, where)
        nameless = NAMELESS.search(said) and has(SHEETS, said)
        if (has(ANONYMOUS, said) or nameless) and not has(NOT_ANONYMOUS, said):
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
    if has(rf"{FORBIDDEN}|{UNWANTED}|no recording|{PROJECT}", said):
        found.pop("recording", None)
    return sorted(found, key=lambda name: found[name])


def recording_in(said: str, passage: Passage, where: tuple[int, int]) -> Iterator[Found]:
    if not has(RECORDING, said) or (has(SENT, said) and not has(r"live recording|recording (?:is|of)", said)):
        return
    live = has(LIVE, said) and not has(rf"at least (?:{NUMBER}) of|{NUMBER} (?:\w+ )?at (?:the )?least", said)
    refused = refused_recording(said)
    if refused:
        yield Found("recording", refused, *where, rank=4 if refused is RecordingRule.FORBIDDEN else 3)
    elif ONLY_THE_KIND.search(said) and not has(DEMANDED, said) and not has(OPTIONAL, re.sub(PREFERRED, " ", said)):
        pass
    elif needs_none(said) or ((has(OPTIONAL, said) or MAY_BE_SENT.search(said)) and not is_demanded(said)):
        yield Found("recording", RecordingRule.OPTIONAL, *where, rank=2)
    elif has(NEEDED, said) or ALL_THE_SAME.search(said) or is_listed(passage):
        yield Found(
            "recording", RecordingRule.REQUIRED, *where, rank=1 if not has(NEEDED, said) and is_listed(passage) else 2
        )
        if is_refused_rendered(said) or (
            live
            and has(r"required|require\b|must|(?:has|have) to be|of a live|live recording|live performance", said)
            and not has(
                r"(?:midi|rendered|computer\w*|synth\w*) or (?:a )?live|live or (?:a )?(?:midi|rendered|computer|"
                r"synth)|preferred|if possible|acceptable|will do|or (?:a )?(?:rendered|midi|computer)|"
                r"rendered (?:or|accepted)|ideally|is fine",
                said,
            )
        ):
            yield Found("recording_live", True, *where)
    if has(RENDERED, said) or live:
        yield Found("recording_text", passage.text, *where)


REFUSED_RENDERED = re.compile(
    rf"(?<![a-z])(?:{RENDERED})\w*[^.;,]{{0,30}}(?:(?:is|are) not (?:accepted|permitted|allowed|admitted)|"
    r"ne sont pas (?:accept|admis)|non sono (?:ammess|accettat)|no se (?:acept|admit)|"
    r"(?:werden|sind) nicht (?:akzeptiert|zugelassen|angenommen))"
)


def is_refused_rendered(said: str) -> bool:
    """Whether recordings that a computer makes are refused, and nothing else is said to do instead."""
    return REFUSED_RENDERED.search(said) is not None and not has(r"fine\b|will do|suffice|enough", said)


ONLY_THE_KIND = re.compile(r"(?:live|real)[- ]?\w* (?:is|are) (?:strongly )?(?:preferred|desirable|encouraged)")
"""*Live recordings are preferred* says which, not whether."""


def is_demanded(said: str) -> bool:
    """Whether a recording is required although one of a kind is only preferred: *required, live preferred*."""
    if ALL_THE_SAME.search(said):
        return True
    only_preferred = not has(OPTIONAL, re.sub(PREFERRED, " ", said))
    return only_preferred and has(DEMANDED, said) and not has(r"not (?:strictly )?(?:required|obligatory)", said)


def is_listed(passage: Passage) -> bool:
    """Whether a passage is a line of a list of what is to be sent, not a sentence about something else."""
    if len(documents_in(passage.plain)) > 2:
        return True
    return bool(passage.numbering) or len(passage.text.split()) <= LISTED_WORDS or has(SENDING, plain(passage.label))


def fee_in(passage: Passage, said: str, where: tuple[int, int]) -> Iterator[Found]:
    money = [match["money"].strip() for match in FEE.finditer(passage.text)]
    some_pay = has(r"(?:none|free|waived|nothing|no (?:\w+ )?fee) for\b|kostenlos fur|gratuit\w* pour", said)
    is_paid_out = has(PAID_OUT, said)
    free = (
        has(NO_FEE, said)
        or NONE_TOLD.search(said) is not None
        or any(NO_FEE_AT_ALL.search(one) for one in CLAUSES.split(said))
    )
    if free and not (money and some_pay and not is_paid_out):
        yield Found("fee", "none", *where, rank=2)
        return
    if has(FEE_WORDS, said) and (some_pay or (money and not is_paid_out)):
        yield Found("fee", passage.text.rstrip("."), *where, rank=1)
