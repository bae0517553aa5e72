"""How many works may be sent, and what is asked of them together."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.materials import FEE, PREFERRED
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import Found, SetRule
from catalogue.rules.calls.words import NUMBER, has, number_of

WORKS = (
    r"(?:works?|pieces?|scores?|compositions?|samples?|werke?n?|stucke?n?|oe?uvres?|"
    r"partitions?|opere|opera|brani|brano|obras?|pi[eè]ces?|entries)"
)
KIND = r"(?:(?:\w+|\w+-\w+)\s+){0,2}?"
RANGE = re.compile(
    rf"(?<![\w-])(?P<least>{NUMBER})\s*(?:-|to|or|bis|oder|a|ou|o)\s*(?P<most>{NUMBER})\s+{KIND}{WORKS}\b"
)
UP_TO = re.compile(
    rf"(?:up to|at most|maximum of|max\.?|no more than|not more than|hochstens|maximal|bis zu|jusqu'a|au plus|"
    rf"limit(?: of)?|"
    rf"fino a|al massimo|hasta|como maximo)\s+(?P<most>{NUMBER})\s+{KIND}{WORKS}\b"
)
AT_LEAST = re.compile(rf"(?:at least|minimum of|mindestens|au moins|almeno)\s+(?P<least>{NUMBER})\s+{KIND}{WORKS}\b")
EACH = re.compile(
    rf"(?<![\w-])(?P<count>{NUMBER})(?:\s+|'(?=oper))(?:(?!per\b|pro\b|for\b|of\b)\w+\s+)?{WORKS}\s*(?:each|per|"
    rf"pro|par|a person|por|only|by each|maximum|at most|each at most)?"
)
PER = re.compile(
    rf"(?:pro person|per person|each (?:composer|person|entrant)|per composer|"
    rf"jede\w* \w+|ogni \w+|chaque \w+|cada \w+)[^.;]{{0,40}}?(?P<count>{NUMBER})\s+(?:sol[oa] |seule? )?{WORKS}\b"
)
BY_HEAD = re.compile(
    rf"(?<![\w-])(?P<count>{NUMBER})(?: at most| maximum| \w+)? (?:per|pro|par|por) (?:composer|person|entrant|"
    rf"applicant|"
    r"komponist\w*|teilnehm\w*|personne|compositeur|candidat|persona|compositor\w*|partecipante)"
)
LARGE = r"large (?:ensemble|forces)|orchestra|ten players|larger (?:work|forces)|grosse besetzung|grosses ensemble"
CLASSES = {
    "large ensemble": LARGE,
    "electronics": r"electronics|elektronik|fixed media",
    "voice": r"vocal|voice|choral|choir|singer",
    "solo": r"\bsolo\b",
    "chamber": r"chamber",
    "notated": r"notated",
}
PLAYERS = re.compile(rf"(?P<count>{NUMBER})\s*(?:or more\s+)?(?:players|performers|musicians|instruments)")
AT_LEAST_ONE = re.compile(
    rf"(?P<some>{NUMBER}) of (?:which|them|these)(?= (?:must|should|has to|have to|is to|needs to)\b)|"
    rf"(?:at least|mindestens|au moins|almeno|including|minimum)\s+(?P<count>{NUMBER})\b(?!\s*(?:minutes|players|per))"
)
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
        yield from counts_in(said, where, rank)
        if has(CONTRAST, said) and has(WORKS, said):
            yield Found("set_rules", SetRule("contrasting", text=passage.text), *where)
        yield from set_rules_in(passage, said, where)


def counts_in(said: str, where: tuple[int, int], rank: int) -> Iterator[Found]:
    if has(r"finalists?|will (?:be|choose|select|play|read)|selected|are chosen|prize|winner", said):
        return
    said = ";".join(one for one in re.split(r"[;,()]", said) if not FEE.search(one.upper()))
    span, most, least = RANGE.search(said), UP_TO.search(said), AT_LEAST.search(said)
    if span and number_of(span["least"]) < number_of(span["most"]):
        yield Found("works_min", number_of(span["least"]), *where, rank=rank)
        yield Found("works_max", number_of(span["most"]), *where, rank=rank)
    elif most:
        yield Found("works_max", number_of(most["most"]), *where, rank=rank)
    elif least and has(r"submit|send|portfolio|we ask", said):
        yield Found("works_min", number_of(least["least"]), *where, rank=rank)
    else:
        further = AT_LEAST_ONE.search(said)
        head = said[: further.start()] if further else said
        match = PER.search(head) or EACH.search(head) or BY_HEAD.search(head)
        if match and match["count"] and is_count(said, match):
            is_most = has(AT_MOST, nearby(said, match))
            yield from exact_count(said, number_of(match["count"]), is_most, where, rank)


def is_count(said: str, match: re.Match[str]) -> bool:
    """Whether a number of works is what may be sent: *one work per person*, *two work samples*."""
    return has(
        r"each|at most|max\b|seule|par personne|per (?:person|composer|entrant)|pro person|samples?|"
        r"ogni|chaque|cada|submit|send|enter|only one|one work|for one work|portfolio|par|dossier|include|"
        r"document|unterlagen|aportar|upload|attach|provide|joindre|adjuntar|invi|present|envoy|soumet|einreich|eingereicht|einzureichen|einzusenden|bewerbung|enviar",
        said,
    )


AT_MOST = (
    r"up to|at most|max|may\b|can\b|hochstens|au plus|per (?:person|composer)|pro person|each\b|par personne|"
    r"al massimo|como maximo"
)
ASKED = (
    r"samples?|submit|portfolio|send\b|include|comprend|dossier|einzureichen|einzusenden|applicants|"
    r"document|unterlagen|presentar|aportar|allegare|upload|attach|provide|hochladen|joindre|adjuntar|caricare"
)


def nearby(said: str, match: re.Match[str]) -> str:
    """Return the words around a number of works, to the next comma or bracket on either side."""
    return re.split(r"[,;(:]", said[: match.start()])[-1] + match[0] + re.split(r"[,;()]", said[match.end() :])[0]


def exact_count(said: str, count: int, is_most: bool, where: tuple[int, int], rank: int) -> Iterator[Found]:
    yield Found("works_max", count, *where, rank=rank)
    if count > 1 and has(ASKED, said) and not is_most:
        yield Found("works_min", count, *where, rank=rank)


def set_rules_in(passage: Passage, said: str, where: tuple[int, int]) -> Iterator[Found]:
    if has(r"minutes? in|at least \d+ minutes|players must|works? needs", said):
        return
    matches = list(AT_LEAST_ONE.finditer(said))
    for index, least in enumerate(matches):
        tail = said[least.start() : matches[index + 1].start() if index + 1 < len(matches) else len(said)]
        rule = set_rule(tail, said, number_of(least["count"] or least["some"]), passage.text)
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
