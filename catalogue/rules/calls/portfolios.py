"""How many works may be sent, and what is asked of them together."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.materials import FEE, PREFERRED, SENDING
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.recordings import RECORDING
from catalogue.rules.calls.refusals import NEGATION, refuses
from catalogue.rules.calls.terms import Found, SetRule
from catalogue.rules.calls.words import NUMBER, has, number_of, plain

WORKS = (
    r"(?:(?:works?|pieces?|scores?|compositions?|samples?|arbeitsproben?|werke?n?|stucke?n?|komposition(?:en)?|"
    r"oe?uvres?|"
    r"partitions?|partituren|partituras?|partiture|opere|opera|brani|brano|composizion[ei]|composicion(?:es)?|obras?|"
    r"pi[eè]ces?|entries|examples? of (?:your|recent|previous|past) (?:\w+ )?works?)(?![a-z]))"
)
KIND = r"(?:(?:\w+|\w+-\w+)\s+){0,2}?"
RANGE = re.compile(
    rf"(?<![\w-])(?P<least>{NUMBER})\s*(?:-|to|or|bis|oder|a|ou|o)\s*(?P<most>{NUMBER})\s+{KIND}{WORKS}\b"
)
UP_TO = re.compile(
    rf"(?:up to|at most|maximum of|max\.?|no more than|not more than|hochstens|maximal|bis zu|jusqu'a|au plus|"
    rf"limit(?: of)?|un maximo de|un massimo di|un maximum de|maximum|"
    rf"fino a|al massimo|hasta|como maximo)\s+(?P<most>{NUMBER})\s+{KIND}{WORKS}\b"
)
BOTH = re.compile(
    rf"(?:at least|minimum of|mindestens|au moins|almeno|al menos)\s+(?P<least>{NUMBER})\s*[,;]?\s*"
    rf"(?:(?:and|und|et|e|y|but|aber|mais|ma)\s+)?(?:no more than|not more than|at most|hochstens|au plus|al massimo|"
    rf"como maximo|maximum of)\s+(?P<most>{NUMBER})\s+{KIND}{WORKS}"
)
AT_LEAST = re.compile(
    rf"(?:at least|minimum of|mindestens|au moins|almeno|al menos)\s+(?P<least>{NUMBER})\s+{KIND}{WORKS}\b"
)
EACH = re.compile(
    rf"(?<![\w-])(?<!more than )(?P<count>{NUMBER})(?:\s+|'(?=oper))(?:(?!per\b|pro\b|for\b|of\b|and\b|copies|bound|"
    rf"printed)\w+\s+){{0,2}}?{WORKS}\s*(?:each|per|"
    rf"pro|par|a person|por|only|by each|maximum|at most|each at most)?"
)
PER = re.compile(
    rf"(?:pro person|per person|each (?:composer|person|entrant)|per composer|"
    rf"jede\w* \w+|ogni \w+|chaque \w+|cada \w+)[^.;]{{0,40}}?(?P<count>{NUMBER})\s+(?:sol[oa] |seule? )?{WORKS}\b"
)
PERSON = (
    r"(?:composers?|persons?|people|entrants?|applicants?|students?|candidates?|participants?|authors?|contestants?|"
    r"heads?|komponist\w*|teilnehm\w*|bewerb\w*|einsend\w*|personnes?|compositeur\w*|compositrice\w*|candidat\w*|"
    r"auteur\w*|personas?|compositor\w*|partecipant\w*|concorrent\w*|autor\w*|concursantes?|participantes?)"
)
SENT = (
    rf"(?:{WORKS}|(?:entry|submissions?|ouvrages?|einreichung(?:en)?|beitrage?|propuestas?|propost[ae]|contributions?|"
    r"candidatures?|projets?|dossiers?|progett[oi]|proyectos?|lavor[oi]|trabajos?|envios?)(?![a-z]))"
)
PER_HEAD = re.compile(
    rf"(?<![\w-])(?P<count>{NUMBER})\s+(?:\w+\s+){{0,2}}?{SENT}(?:[^.;,]{{0,20}}?\s)?(?:per|pro|par|por|je|"
    rf"from each|from any one)\s+"
    rf"{PERSON}|(?<![a-z])(?:per|pro|par|por|"
    rf"je)\s+{PERSON}[^.;]{{0,50}}?(?<![\w-])(?P<behind>{NUMBER})\s+(?:\w+\s+){{0,2}}?{SENT}"
)
"""A number of works or entries beside *per composer*, in either order."""
LABELLED = re.compile(
    rf"^(?=[^:;(]{{0,44}}:)(?=[^:]*(?<![a-z])(?:{SENT}|pieces))(?=[^:]*(?<![a-z])(?:number|limit|maximum|maxim\w+|"
    rf"massim\w+|anzahl|hochstzahl|"
    rf"nombre|numero|how many|wie viele|combien|quant\w+|cuant\w+|(?:per|pro|par|por) {PERSON}))[^:]*:\s*"
    rf"(?P<least>(?:at least|mindestens|minimum|au moins|almeno|al menos|minimo)(?: de| di| of)? )?(?:\D{{0,20}}? )?"
    rf"(?P<count>{NUMBER})(?:\s*(?:-|to|bis|or|oder|a|ou|o)\s*(?P<most>{NUMBER}))?(?![\w:€£$]|[.,]\d| ?(?:€|eur))"
)
"""A label that asks how many, and its number: *Number of works: 2*, *Entry limit: one*."""
MOST_OF_THEM = re.compile(
    rf"(?:a maximum of|{NEGATION}[^.;,]{{0,20}}? (?:more than|mehr als|plus de|piu di|mas de)|limited to|up to|"
    rf"hochstens|maximal|bis zu|au maximum|un maximum de|un massimo di|fino a|"
    rf"un maximo de|"
    rf"hasta)\s+(?P<most>{NUMBER})(?=\s*(?:[.,;]|$)|\s+(?:\w+\s+)?{SENT})"
)
"""*More than one, up to a maximum of three*; *limited to one submission*."""
SEND_SO_MANY = re.compile(
    rf"(?:can|may) (?:send|submit|enter|offer)(?: us| in)? (?P<most>{NUMBER})(?=[.,;]|$| of (?:them|these)| at most)|"
    rf"(?:konnt?e?n?|durf\w*) (?:sie |ihr |uns )*(?P<de>{NUMBER}) (?:ein|schick|send)\w+"
)
"""*You can send us two*, of what the sentences before it speak of."""
SEVERAL = (
    r"mehrere\w* (?:werke|einreich|komposit)|mehrfach(?:einreich|bewerb)|multiple (?:works|entries|submissions)|"
    r"plusieurs (?:oe?uvres|candidatures|pieces)|piu (?:opere|brani|composizioni)\b|varias obras|several (?:works|"
    r"entries)"
)
BY_HEAD = re.compile(
    rf"(?<![\w-])(?P<count>{NUMBER})(?: at most| maximum| \w+)? (?:per|pro|par|por) (?:composer|person|entrant|"
    rf"applicant|student|"
    r"komponist\w*|teilnehm\w*|personne|compositeur|candidat|persona|compositor\w*|partecipante)"
)
LARGE = (
    r"large (?:ensemble|forces)|orchest|grande? (?:ensemble|formation|organico|formato)|ten players|"
    r"larger (?:work|forces)|grosse besetzung|grosses ensemble"
)
CLASSES = {
    "large ensemble": LARGE,
    "electronics": r"electronics|elektronik|electroniqu|elettronic|electronica|fixed media",
    "voice": r"vocal|voice|choral|choir|singer|stimme\w*|gesang|chor\b|voix|choeur|voc[ei]\b|coro\b|canto\b|voz\b|"
    r"voces\b",
    "solo": r"\bsolo\b|solowerk|sololiteratur",
    "chamber": r"chamber|kammermusik|musique de chambre|da camera|de camara",
    "notated": r"notated",
}
PLAYERS = re.compile(rf"(?P<count>{NUMBER})\s*(?:or more\s+)?(?:players|performers|musicians|instruments)")
AT_LEAST_ONE = re.compile(
    rf"(?P<some>{NUMBER}) of (?:which|them|these)(?= (?:must|should|has to|have to|is to|needs to)\b)|"
    rf"(?:at least|mindestens|au moins|almeno|al menos|including|minimum)\s+(?P<count>{NUMBER})\b(?!\s*(?:minut|"
    rf"players|per\b(?! orch| ens)))|"
    rf"(?:among|amongst) (?:them|these|which)[^.;:]{{0,30}}?(?<![a-z])(?P<among>{NUMBER})(?= (?:\w+ )?(?:with|that|"
    rf"which|for|using)\b)|"
    rf"(?<=and )(?P<further>{NUMBER})(?= (?:that|which) (?:uses?|needs?|has|is)\b)|"
    rf"(?<![\w-])(?P<behind>{NUMBER}) (?:\w+ )?(?:at (?:the )?least|or more)(?= (?:must|should|has to|have to|is to|"
    rf"needs to|of|for)\b)"
)
APPLICATION = r"application|bewerbung|candidature|dossier|domanda|solicitud|aanvraag"
CONTRAST = r"contrast|different (?:media|forces|instrumentations)|varied|kontrast|verschiedene besetzung"


def read_portfolios(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield how many works are asked for and the rules on them together."""
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        rank = (
            2
            if has(
                r"submit|send|offer|portfolio|enter|per (?:person|composer)|each\b|pro person|samples?|one work", said
            )
            else 1
        )
        listed = bool(passage.numbering) or has(rf"{SENDING}|{APPLICATION}", plain(passage.label))
        yield from counts_in(said, where, rank, listed=listed)
        if has(CONTRAST, said) and has(WORKS, said):
            yield Found("set_rules", SetRule("contrasting", text=passage.text), *where)
        yield from set_rules_in(passage, said, where)


def counts_in(said: str, where: tuple[int, int], rank: int, *, listed: bool) -> Iterator[Found]:
    """Yield how many works are asked for; a line of a list of what is to be sent asks by itself."""
    if has(NOT_SENT, said) or OF_RECORDINGS.search(said):
        return
    said = said.replace("a single ", "one ")
    if refuses(said, SEVERAL):
        yield Found("works_max", 1, *where, rank=2)
        return
    told = LABELLED.search(said)
    if told:
        yield from count_told(told, where)
        return
    said = ";".join(one for one in re.split(r"[;,()]", said) if not FEE.search(one.upper()))
    said = BETWEEN.sub(r"\1 - \2", AMONG_THEM.split(said)[0])
    headed, tail = PER_HEAD.search(said), MOST_OF_THEM.search(said)
    span, most, least = RANGE.search(said), UP_TO.search(said), AT_LEAST.search(said)
    both, bare = BOTH.search(said), SEND_SO_MANY.search(said)
    said = LISTS_OF_WORKS.sub(" ", said)
    if both:
        yield Found("works_min", number_of(both["least"]), *where, rank=rank)
        yield Found("works_max", number_of(both["most"]), *where, rank=rank)
    elif span and number_of(span["least"]) < number_of(span["most"]):
        yield Found("works_min", number_of(span["least"]), *where, rank=rank)
        yield Found("works_max", number_of(span["most"]), *where, rank=rank)
    elif most:
        yield Found("works_max", number_of(most["most"]), *where, rank=max(rank, 2 if has(ASKED, said) else 1))
    elif tail and has(SENT, said) and not has(r"(?:no|any) (?:single|individual|one) (?:work|piece)", said):
        yield Found("works_max", number_of(tail["most"]), *where, rank=2)
    elif bare and not has(r"minut|words", said):
        yield Found("works_max", number_of(bare["most"] or bare["de"]), *where, rank=2)
    elif headed and not least:
        yield Found("works_max", number_of(headed["count"] or headed["behind"]), *where, rank=2)
    elif least and (listed or has(ASKED, said)):
        yield Found("works_min", number_of(least["least"]), *where, rank=rank)
    else:
        further = AT_LEAST_ONE.search(said)
        head = said[: further.start()] if further else said
        match = PER.search(head) or EACH.search(head) or BY_HEAD.search(head)
        one_paper = match and number_of(match["count"]) == 1 and has(SHEETS, match[0]) and has(RECORDING, said)
        if match and not one_paper and (is_count(said, match) or (listed and has(PAPERS, match[0]))):
            is_most = has(AT_MOST, nearby(said, match))
            count = number_of(match["count"])
            yield from exact_count(count, is_most, asked=listed or has(ASKED, said), where=where, rank=rank)


def count_told(told: re.Match[str], where: tuple[int, int]) -> Iterator[Found]:
    """Yield the number behind a label that asks how many: the most, unless it is a range or said to be the least."""
    count = number_of(told["count"])
    if told["most"] and number_of(told["most"]) > count:
        yield Found("works_min", count, *where, rank=2)
        yield Found("works_max", number_of(told["most"]), *where, rank=2)
    else:
        yield Found("works_min" if told["least"] else "works_max", count, *where, rank=2)


NOT_SENT = (
    r"finalists?|will (?:be|choose|select|play|read)|selected|are chosen|prize|winner|lira|liront|seront (?:lu|"
    r"jou|choisi|"
    r"selectionn)\w*|werden (?:gespielt|aufgefuhrt|ausgewahlt|gelesen)|(?:verranno|saranno) (?:scelt|eseguit|"
    r"selezionat)\w+|"
    r"(?:rehearses?|records|performs|commissions)\b|seran (?:elegid|interpretad|seleccionad)\w+|we (?:read|play|"
    r"perform|choose)|(?:bound |printed )?copies"
)
BETWEEN = re.compile(
    rf"(?<![a-z])(?:between|zwischen|entre|tra|fra) ({NUMBER}) (?:and|und|et|y|e) ({NUMBER})(?= (?:\w+ ){{0,2}}{WORKS})"
)
OF_RECORDINGS = re.compile(
    rf"(?<![a-z])(?:zu|for|of|pour|de|di|per|para) (?:at least|mindestens|au moins|almeno|"
    rf"al menos) {NUMBER}\b[^.;]{{0,30}}?"
    rf"(?:{RECORDING})"
)
"""Of how many works there must be a recording: *zu mindestens drei Werken ist eine Aufnahme beizufügen*."""
AMONG_THEM = re.compile(
    r"(?<![a-z])(?:including|of which|of them|of whom|davon|darunter|di cui|tra cui|dont|de l[ao]s cuales|"
    r"which must include|"
    r"(?:recordings?|aufnahmen?|enregistrements?|registrazion[ei]|grabacion\w*) (?:of|zu|d['e]\w*|di|de|von))(?![a-z])"
)
LISTS_OF_WORKS = re.compile(
    r"(?:catalogues?|lists?|listes?|elenco|lista|catalogo|verzeichnis) (?:of|des|de|delle|der) (?:\w+ )?\w+"
)
SHEETS = r"(?:une?|eine?|una|one|1|a) (?:\w+ )?(?:partition|partitura?|score)\b"
"""A score among other papers: *fournir une partition et un enregistrement* says nothing of how many works."""
PAPERS = r"scores?|partitur\w+|partitions?|samples?|arbeitsproben?|examples?|composizion\w|compositions?|werke?|works?"


def is_count(said: str, match: re.Match[str]) -> bool:
    """Whether a number of works is what may be sent: *one work per person*, *two work samples*."""
    return has(
        r"each|at most|max\b|seule|par personne|per (?:person|composer|entrant)|pro person|samples?|"
        r"ogni|chaque|cada|submit|send|enter|only one|one work|for one work|portfolio|para?\b|partiti?\w*|dossier|"
        r"include|"
        r"comprend\w*|candidature|bewerbung|umfasst|document|unterlagen|aportar|upload|attach|provide|joindre|"
        r"adjuntar|invi|present|envoy|soumet|einreich|"
        r"eingereicht|einzureichen|einzusenden|bewerbung|enviar|zugelassen|nur ein\w*|a testa|partecip\w+|particip\w+|"
        r"por (?:compositor|autor|persona)|je (?:bewerber|person|komponist)\w*",
        said,
    )


AT_MOST = (
    r"up to|at most|max|may\b|can\b|hochstens|au plus|per (?:person|composer)|pro person|each\b|par personne|"
    r"al massimo|como maximo|maximal|nur ein\w*|a testa|por (?:compositor|autor|persona)"
)
ASKED = (
    r"enverr\w+|invier\w+|presenter\w+|provid\w*|suppl(?:y|ies)\b|beizufugen|beizulegen|vorzulegen|"
    r"samples?|submit|portfolio|send\b|include|comprend|dossier|einzureichen|einzusenden|applicants|"
    r"inviare|enviar|envoyer|einreichen|eingereicht|document|unterlagen|presentar|aportar|allegare|upload|attach|"
    r"provide|hochladen|joindre|adjuntar|caricare"
)


def nearby(said: str, match: re.Match[str]) -> str:
    """Return the words around a number of works, to the next comma or bracket on either side."""
    return re.split(r"[,;(:]", said[: match.start()])[-1] + match[0] + re.split(r"[,;()]", said[match.end() :])[0]


def exact_count(count: int, is_most: bool, *, asked: bool, where: tuple[int, int], rank: int) -> Iterator[Found]:
    yield Found("works_max", count, *where, rank=rank)
    if count > 1 and asked and not is_most:
        yield Found("works_min", count, *where, rank=rank)


def set_rules_in(passage: Passage, said: str, where: tuple[int, int]) -> Iterator[Found]:
    if has(r"minutes? in|at least \d+ minutes|players must|works? needs", said):
        return
    matches = list(AT_LEAST_ONE.finditer(said))
    for index, least in enumerate(matches):
        tail = said[least.start() : matches[index + 1].start() if index + 1 < len(matches) else len(said)]
        count = next(one for one in least.groups() if one)
        rule = set_rule(tail, said, number_of(count), passage.text)
        if rule:
            yield Found("set_rules", rule, *where)


def set_rule(tail: str, said: str, count: int, text: str) -> SetRule | None:
    """Return what at least so many of the works must be, by the words that follow."""
    if has(r"live (?:performance|recording)|live\b", tail) and has("recording", said) and not has(PREFERRED, tail):
        return SetRule("live recording", count, text=text)
    players = PLAYERS.search(tail)
    if players and (has(LARGE, tail) or has(r"or more|more than", tail)):
        more = 1 if has(r"more than", tail) else 0
        return SetRule("large ensemble", count, number_of(players["count"]) + more, text)
    kind = next((kind for kind, pattern in CLASSES.items() if has(pattern, tail)), None)
    return SetRule(kind, count, None, text) if kind else None
