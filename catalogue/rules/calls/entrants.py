"""Who may enter: age on a day, day of birth, nationality and residence."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from catalogue.rules.calls.figures import days_in, months_in, years_in
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.refusals import NEGATION
from catalogue.rules.calls.terms import Age, Found, Residence
from catalogue.rules.calls.words import NUMBER, has, number_of
from catalogue.rules.calls.zones import state_of_word

NO_LIMIT = (
    r"alter: keine begrenzung|"
    r"no (?:upper )?age limit|any age|all ages|keine altersgrenze|regardless of age|of every age|age.{0,12}whatever|"
    r"(?:aucune|sans|pas de) limite d'age|nessun limite|sin limite|keine altersbeschrankung|senza limiti di eta|"
    r"sin limite de edad|of whatever age|no limit of age|age does not matter|"
    r"everybody may|age is no"
)
ABOUT_AGE = (
    r"age[d ]?\b|aged|years old|years of age|old(?:er)?\b|young|under \d|over \d|birthday|turned|alter\b|altersgrenze|"
    r"alterslimite|hochstalter|jahre|lebensjahr|ages? de|ans\b|eta\b|anni\b|edad|anos\b|jaar|born|geboren|"
    r"jahrgang|nee? |nes\b|"
    r"nee?s\b|nat[oi] |nacid|minimum age|(?:of|from) \d\d and over"
)
OF_OTHERS = (
    r"we are|our (?:players|singers|members|orchestra|choir|musicians)|young (?:people|players|singers|musicians)|"
    r"children|pupils|schoolchildren|choir of|orchestra of|audience|kinder\b|performers are|players are|"
    r"kinderchor|jugendorchester|jugendchor"
)
ENTRANTS = (
    r"composers?|entrants?|applicants?|candidates?|participants?|anyone|everyone|open to|you must|born|"
    r"eligib|komponist|teilnahme|teilnehm|bewerb|compositeur|compositrice|candidat|compositor|participa|"
    r"concorrent|age limit"
)
UNDER = re.compile(
    rf"(?:under|younger than|below|jungere? als|unter|less than|moins de|meno di|"
    rf"menores de)\s+(?:the age of\s+)?(?P<age>{NUMBER})\b(?!\s*-?\s*(?:[kmg]b\b|minut|min\b|sec|sek|word|wort|"
    rf"mots|parole|palabra|page|seite|pagin|player|perform|musician|euro|eur\b|pound|per ?cent|%|'|\"|work|piece))"
)
NOT_TURNED = re.compile(
    rf"(?:not (?:yet )?(?:have )?(?:reached|turned|celebrated|attained)|has not turned|"
    rf"not yet(?: aged)?|(?:reached|turned|completed) {NUMBER},? but not(?: yet)?|before (?:reaching|turning)|"
    rf"non (?:abbiano|abbia|hanno) (?:ancora )?compiuto|noch nicht|"
    rf"no hayan cumplido|no haber cumplido|"
    rf"n'a(?:yant|ient) pas (?:encore )?(?:atteint|fete))"
    rf"[^.]{{0,20}}?(?P<age>{NUMBER})(?:st|nd|rd|th|\.)?\b"
)
COMPLETED_YEAR = re.compile(r"(?:vollendeten?|das) (?P<age>\d{2})\. lebensjahr")
BARE_AGE = re.compile(
    rf"(?:composers?|applicants?|entrants?|candidates?|people|students?) (?:between|from) {NUMBER} (?:and|"
    rf"to) {NUMBER}\b"
    r"(?! (?:minut|work|piece|player))|"
    rf"(?:must be|be|are) {NUMBER} (?:or|and) (?:over|above|older|under|younger)|not yet {NUMBER}\b(?! (?:work|"
    rf"piece|minut|score))"
)
"""An age that no word of age stands beside: *composers must be 21 or over*."""
UP_TO = re.compile(
    rf"(?:(?:edad|eta) (?:maxima|massima)[^.\d]{{0,12}}|age (?:maximum|maximal)[^.\d]{{0,12}}|"
    rf"hochstalter[^.\d]{{0,12}}|"
    rf"alterslimite[^.\d]{{0,12}}|not (?:be )?(?:over|older than|more than)|no older than|"
    rf"up to(?: and including)?(?: the age of)?|(?<!lower )age limit[^.\d]{{0,20}}|maximum age[^.\d]{{0,12}}|"
    rf"not exceed\w*|non superiore a[i]?|no superior a|ne depass\w+ pas|non super\w+ i|at most|hochstens|"
    rf"nicht alter als|bis(?: einschliesslich)?|altersgrenze[^.\d]{{0,20}}|"
    r"(?:non (?:abbiano|abbia|hanno) superato|n'a(?:yant|ient) pas depasse|no superen) (?:i |il |los |l'age de )?|"
    r"limite (?:d'age|di eta|de edad)[^.\d]{0,20}|"
    rf"jusqu'a|fino a|hasta|ages? de)\s*(?P<age>{NUMBER})\b"
)
AND_OVER = re.compile(
    rf"(?<![\d-])(?P<age>{NUMBER})(?: years?(?: of age| old)?)?\s+"
    r"(?:and|or) (?:over|above|older|upwards)|"
    r"(?:(?:be )?at least|mindestens|mindestalter[^.\d]{0,12}|minimum age[^.\d]{0,12}|(?:eta|edad) minima[^.\d]{0,12}|"
    r"age minimum[^.\d]{0,12}|au moins|almeno|al menos)\s*"
    rf"(?P<least>{NUMBER})\s*(?:years?(?: old| of age)?\b(?! (?:ago|before))|jahren?\b|ans\b|anni\b|anos\b)|"
    rf"lower age limit[^.\d]{{0,12}}(?P<lower>{NUMBER})|"
    rf"(?:mayores de|maggiori di|ages? de plus de|must be over|be at least) (?P<above>{NUMBER})\b(?!\s*(?:minut|"
    rf"word|player))|"
    rf"(?:aged|over)\s+(?P<plus>{NUMBER})\s?\+|ab (?P<from>{NUMBER}) jahren|"
    r"das (?P<first>\d{2})\.(?: lebensjahr)?,? (?:aber|jedoch|und) (?:noch )?nicht|"
    rf"(?:reached|turned|completed)[^.;\d]{{0,16}}(?P<reached>{NUMBER})[a-z]{{0,2}}(?: birthday)?,? (?:but|and) not|"
    r"(?<!nicht )das (?P<done>\d{2})\. lebensjahr (?:(?!nicht|nie)\w+ ){0,4}vollendet"
)
OR_UNDER = re.compile(
    rf"(?P<age>{NUMBER})\s*(?:years? (?:of age |old )?)?(?:or|and|oder|ou|o)\s+(?:under|younger|"
    rf"below|less|junger|moins)(?!\s*\d)"
)
SPAN = re.compile(
    rf"(?:over|above|older than)\s+(?P<over>{NUMBER})\s+(?:and|but)\s+(?:under|below|younger than)\s+"
    rf"(?P<below>{NUMBER})\b|"
    rf"(?:aged?:?|ages|alter:|eta:|edad:|between|from|zwischen|von|fra|tra|entre|de|dai|da)\s+(?:the ages of\s+|"
    rf"(?:i|los|"
    rf"les)\s+)?(?P<least>{NUMBER})"
    rf"(?: years| jahren?| ans| anni| anos)?\s*(?:-|to|and|und|bis|e|et|y|ai?)\s*(?:i\s+|"
    rf"los\s+)?(?P<age>{NUMBER})\b(?! (?:de )?[a-z]+ (?:de )?(?:19|20)\d\d)"
)
BORN = re.compile(
    r"(?<![a-z])(?:born|geboren|jahrgang|ne\(?e?\)?[\w·.\-]{0,4} (?:apres|en|le|a partir|avant)|nat[oiae](?:/[aei])? |"
    r"nacid)"
)
BORN_SOMEWHERE = re.compile(r"(?<![a-z])born (?:in (?!the (?:year|decade))[a-z]|there)(?![^.;]*(?:19|20)\d\d)")
"""*Born in Ireland* names no day, though the sentence may name one for something else."""
INCLUSIVE = (
    r"on or after|or later|or after|since|not before|from\b|ab\b|oder spater|seit|in or after|"
    r"a partir|nicht vor|desde|dal\b|und junger|and younger|et plus jeunes|depuis|ou apres|o dopo|o despues|oder danach"
)
END_OF_YEAR = (
    r"end of the year|31 december of the year|end of that year|ende des jahres|jahresende|"
    r"by the end of 20|year of the deadline"
)
ANY_COUNTRY = (
    r"any nationality|any country|all nationalities|of every nationality|any place of residence|"
    r"anywhere|country.{0,4}whatever|"
    r"aller nationalitaten|jeder nationalitat|toutes? nationalit|regardless of nationality|everybody may|worldwide|"
    r"any (?:age|country), any|no matter where"
)
STATE = re.compile(r"(?<!\w)(?:the\s+)?(?P<name>[A-ZÄÖÜÉ][\w.]*(?:\s(?:and\s)?[A-Z][\w.]*){0,3})")
LIVING = (
    r"liv(?:e|ing)|resid(?:e|ir|an\b|en\b|ono)|resident|residenc|based|wohn|leb(?:en|t)\b|studier\w+ in|"
    r"habit|residenti|residan|resident"
)
CHILD = 15
"""A highest age up to this is one of works where no people are named: *no older than ten years*."""
BORN_IN = r"born (?:in|there)|native|were born|geboren in|natifs?|nati in|nacid"
NATIONAL = (
    r"national|nacional|nazional|citizen|passport|staatsburger|staatsangehor|citoyen|cittadin|ciudadan|composers from|"
    r"subjects of"
)


def read_entrants(passages: Sequence[Passage], closes: date | None) -> Iterator[Found]:
    """Yield the limit of age and the states of which an entrant must be."""
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        lower = has(r"lower age limit|minimum age", said)
        age = None if has(NO_LIMIT, said) and not lower else age_told(passage, said, closes)
        if age:
            age = age_at_event(age, passage, passages)
            yield Found("age", age, *where)
        residence = residence_in(passage, said)
        if residence:
            yield Found("residence", residence, *where)


def age_told(passage: Passage, said: str, closes: date | None) -> Age | None:
    """Return the age of a sentence, else that of entrants named between its commas: *at most 10 minutes, composers
    under 35*."""
    clauses = (one for one in re.split(r"[,;]\s", said) if has(ENTRANTS, one))
    tried = (age_in(passage, one, closes) for one in (said, *clauses))
    return next((one for one in tried if one), None)


def age_in(passage: Passage, said: str, closes: date | None) -> Age | None:
    if (has(OF_OTHERS, said) and not has(ENTRANTS, said)) or has(r"categor(?:y|ies|ia|ie)|kategorie", said):
        return None
    if not (has(ABOUT_AGE, said) or (has(ENTRANTS, said) and BARE_AGE.search(said))) or (
        has(r"works? (?:from|of)|composed|written|completed|minut", said) and not BORN.search(said)
    ):
        return None
    if BORN.search(said) and not BORN_SOMEWHERE.search(said) and (years_in(passage.text) or days_in(passage.text)):
        return born_in(passage, said)
    if has(r"words?|werk|works|pieces|pages", said) and not has(
        r"years? (?:of age|old)|age|alter|entrant|composer|turned", said
    ):
        return None
    least = None
    span = SPAN.search(said)
    if span:
        least = number_of(span["least"] or span["over"])
        limit = number_of(span["age"]) if span["age"] else number_of(span["below"]) - 1
    else:
        over, found = AND_OVER.search(said), limit_in(AND_OVER.sub(not_the_least, said))
        least = number_of(next(one for one in over.groups() if one)) if over else None
        if found is None and least is not None and 10 <= least <= 99:
            return Age(least=least, on=day_of(passage, said, closes), text=passage.text)
        if found is None:
            return None
        limit, least = found, least if least is not None and 10 <= least < found else None
    if not 10 <= limit <= 99 or (limit <= CHILD and least is None and not has(ENTRANTS, said)):
        return None
    return Age(limit=limit, least=least, on=day_of(passage, said, closes), text=passage.text)


NOT_OVER = re.compile(
    rf"{NEGATION}[^.;]{{0,30}}?(?<![a-z])(?:more than|over|older than|exceed\w*|mehr als|alter als|uber|plus de|"
    rf"depasse\w*|piu di|"
    rf"superat\w|superad\w|super\w+|mas de)\s+(?:i |gli |les |los |l'age de )?(?P<age>{NUMBER})\s*(?:years|jahre|"
    rf"ans|anni|anos)\b"
)


def not_the_least(match: re.Match[str]) -> str:
    """Return what stays of a least age where a highest is looked for: nothing of a year of life that is completed."""
    return " " if match["done"] else match[0]


def limit_in(said: str) -> int | None:
    """Return the highest age admitted: one less than an age that must not have been reached."""
    for pattern, less in ((COMPLETED_YEAR, 1), (OR_UNDER, 0), (NOT_TURNED, 1), (UNDER, 1), (UP_TO, 0), (NOT_OVER, 0)):
        match = pattern.search(said)
        if match and 10 <= number_of(match["age"]) <= 99:
            return number_of(match["age"]) - less
    return None


AT_CLOSE = (
    r"(?:at|on|by) the (?:deadline|closing date|date of the deadline)|a la (?:date limite|cloture)|"
    r"(?:zum|bei|am) (?:einsende|bewerbungs|anmelde)schluss|alla (?:data di )?scadenza|en la fecha (?:limite|"
    r"de cierre)|"
    r"al cierre"
)


def day_of(passage: Passage, said: str, closes: date | None) -> date | None:
    """Return the day on which the age is counted: the named one, the end of the year, else the deadline."""
    if has(AT_CLOSE, said):
        return closes
    days = days_in(passage.text)
    if days:
        return days[0].day
    if has(END_OF_YEAR, said):
        years = years_in(passage.text)
        year = years[0] if years else closes.year if closes else None
        return date(year, 12, 31) if year else None
    if has(r"(?:on|at) (?:the )?(?:1|first of) january of", said) and closes:
        return date(closes.year, 1, 1)
    return closes


EVENTS = (
    r"readings?|lesung|lesewerkstatt|lesesitzung|lecture|lettura|lectura", r"concerts?|konzert\w*|concerto|concierto",
    r"premiere|first performance|urauffuhrung|creation|prima esecuzione|estreno", r"finals?|finale|final\b",
    r"workshops?|atelier|laboratorio|taller", r"festivals?", r"courses?|kurs\w*|cours|corso|curso",
    r"residenc\w+|residenz\w*|aufenthalt\w*|residenz[ae]",
)  # fmt: skip
AT_EVENT = (
    r"(?:on|at) (?:the )?(?:day|date|time|start|beginning) of (?:the|our) (?:\w+ )?|am tag(?:e)? (?:des|der) (?:\w+ )?|"
    r"(?:zu|bei) beginn (?:des|der) |(?:le|au) (?:jour|debut) (?:de la |du |de l')|"
    r"(?:il|nel) giorno (?:della |del |dell')|all'inizio (?:della |del |dell')|(?:el|al) (?:dia|"
    r"comienzo) (?:de la |del )"
)


def age_at_event(age: Age, passage: Passage, passages: Sequence[Passage]) -> Age:
    """Return an age that is counted on the day of an event with that day where the call names it, else with none."""
    said = passage.plain
    event = next((one for one in EVENTS if has(rf"(?:{AT_EVENT})(?:{one})", said)), None)
    if event is None or days_in(passage.text):
        return age
    named = (days_in(one.text) for one in passages if has(event, one.plain) and not has(r"deadline|closing", one.plain))
    days = next((found for found in named if found), None) or next(
        (found for one in passages if has(NAMES_THE_DAY, one.plain) and (found := days_in(one.text))), []
    )
    return replace(age, on=days[0].day if days else None)


NAMES_THE_DAY = (
    r"will (?:sight-?)?(?:read|play|perform|be (?:read|played|performed))|read(?:s|ing)? (?:in public|"
    r"through)"
)


def born_in(passage: Passage, said: str) -> Age:
    days, months, years = days_in(passage.text), months_in(passage.text), years_in(passage.text)
    inclusive = has(INCLUSIVE, said)
    if days:
        return Age(born=days[0].day, after=not inclusive, text=passage.text)
    first, last = months[0] if months else (date(years[0], 1, 1), date(years[0], 12, 31))
    if has(r"after|nach\b|apres|dopo|despues", said) and not inclusive:
        return Age(born=date.fromordinal(last.toordinal() + 1), text=passage.text)
    return Age(born=first, text=passage.text)


def residence_in(passage: Passage, said: str) -> Residence | None:
    if not (has(LIVING, said) or has(BORN_IN, said) or has(NATIONAL, said)):
        return None
    if has(
        r"will live|you live|accommodation|residency|winner|live (?:recording|performance|electronics)", said
    ) and not has(r"composers?|entrants?|applicants?|open to", said):
        return None
    named = (code for name in STATE.findall(passage.text.replace("U.S.", "US")) for code in state_codes(name))
    codes = tuple(dict.fromkeys(code for code in (*named, *adjectives_in(said)) if code))
    if not codes or (has(ANY_COUNTRY, said) and not has(LIVING + "|" + BORN_IN, said)):
        return None
    return Residence(
        national=codes
        if (has(NATIONAL, said) or NATIONAL_OR.search(said)) and not has(r"any nationality", said)
        else (),
        resident=codes if has(LIVING, said) else (),
        born=codes if has(BORN_IN, said) else (),
        text=passage.text,
    )


NATIONALS = {
    "deutsche": "DE", "osterreichische": "AT", "schweizer": "CH", "schweizerische": "CH", "franzosische": "FR",
    "italienische": "IT", "spanische": "ES", "belgische": "BE", "niederlandische": "NL", "danische": "DK",
    "francais": "FR", "francaise": "FR", "belge": "BE", "belges": "BE", "suisse": "CH", "suisses": "CH",
    "italiani": "IT", "italiana": "IT", "svizzeri": "CH", "svizzera": "CH", "espanoles": "ES", "espanola": "ES",
    "portugueses": "PT", "portuguesa": "PT",
}  # fmt: skip
NATIONAL_OR = re.compile(rf"(?:{'|'.join(NATIONALS)}) (?:o|ou|oder|or) (?:resident|resident\w+|wohn\w+)")


def adjectives_in(said: str) -> Iterator[str]:
    """Yield the states whose nationals a passage names in small letters, as most languages write them."""
    if has(NATIONAL, said) or NATIONAL_OR.search(said):
        yield from (NATIONALS[word] for word in re.findall(r"[a-z]+", said) if word in NATIONALS)


def without_quarter(word: str) -> str:
    """Return the name of a state without the part of it that is meant: *Norddeutschland*, *Süditalien*."""
    return re.sub(r"^(?:Nord|Süd|West|Ost|Mittel|Nieder|Ober)(?=[a-zäöü]{4})", "", word).capitalize()


def state_codes(name: str) -> tuple[str, ...]:
    """
    >>> state_codes("British and Irish"), state_codes("New Zealand")
    (('GB', 'IE'), ('NZ',))
    """
    whole = state_of_word(name)
    words = (state_of_word(word) or state_of_word(without_quarter(word)) for word in name.split() if len(word) > 1)
    return (whole,) if whole else tuple(dict.fromkeys(code for code in words if code))
