"""From when a work must date, by which of its dates, and what is said of revisions and versions."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date

from catalogue.rules.calls.entrants import ENTRANTS
from catalogue.rules.calls.figures import days_in, months_in, years_in
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.portfolios import WORKS
from catalogue.rules.calls.terms import Basis, Found, Versions
from catalogue.rules.calls.words import NUMBER, has, number_of

WRITTEN = (
    r"aus den jahren|des annees|degli anni|de los anos|"
    r"recente?s?\b|recientes?\b|neuere\w*|"
    r"compos(?:ed|ition dat)|date of composition|year of composition|written|completed|completion|finished|"
    r"created|komponiert|entstand|entstehung|vollendet|geschrieben|fertiggestellt|ecrit|ecrites|composee?s?\b|"
    r"ache?ve\w*|terminad[ao]s?|finalizad[ao]s?|terminat[aoei]|ultimat[aoei]|creat[aoei]\b|creee?s\b|"
    r"(?:anything|something|music|nothing) (?:from|older)|compost[aoei]|composizione|composition\b|composicion|"
    r"anno di|scritt[aoei]|compuest[aoe]s?|escrit[aoe]s?|how old|year:|date:|gecomponeerd|"
    r"(?:works?|pieces?|scores?|compositions?) (?:from|of|since|after|no older)|entstehungs|older than|alter als|"
    r"not before|abgeschlossen|beendet|predating|anteri(?:eure?s?|or[ei]?s?)\b"
)
COMPLETED = r"terminad|finalizad|ultimat|complet|finished|vollendet|fertiggestellt|achev|terminat|abgeschlossen|finalis"
WITHIN = re.compile(
    rf"(?:within|in|from|during|over|innerhalb|(?:in|aus|von|wahrend) den|aus|der|des|dans|negli|degli|en los|"
    rf"de los|of)\s+(?:the\s+|der\s+|"
    rf"les\s+)?(?:last\s+|past\s+|letzten\s+|"
    rf"dernieres?\s+|ultimi\s+|ultimos\s+|previous\s+|preceding\s+|vergangenen\s+)?(?P<count>{NUMBER})\s+"
    r"(?:last\s+|past\s+|dernieres?\s+)?(?:years?|jahren?|ans|annees|anni|anos)"
)
OLDER = re.compile(
    rf"(?:older than|alter als|plus vieux que|plus de|mas de|piu di|more than)\s+(?P<count>{NUMBER})\s+(?:years?|"
    rf"jahren?|jahre|"
    rf"ans|anni|anos)"
)
YOUNGER = re.compile(
    rf"(?:less than|fewer than|weniger als|(?:depuis )?moins de|(?:da )?meno di|"
    rf"(?:hace )?menos de)\s+(?P<count>{NUMBER})\s+"
    r"(?:years?|jahren?|ans|anni|anos)"
)
OLDEST = 15  # years; a higher number is the age of people
ON_OR_AFTER = (
    r"ou apres|o despues|o dopo|oder danach|on or after|or later|oder spater|or after|since|from\b|not before|"
    r"no earlier than|not earlier than|ab\b|seit|"
    r"depuis|a partir|dal(?:l'anno)?\b|desde|in or after|onwards?|fruhestens|nicht vor|or newer|after 31 december|"
    r"vanaf|"
    r"pas avant|non prima|no antes|ou plus tard|o successivamente|o posterior"
)
AFTER = (
    r"con posterioridad|posterior|posterieure?s?\b|successiv[aoei]\b|successivamente|after(?!wards)|nach dem|"
    r"nach\b|apres|dopo|despues|later than|na\b"
)
BETWEEN = re.compile(
    r"\b(?:19|20)\d\d\s?-\s?(?:19|20)\d\d\b|(?:between|from|zwischen|entre|tra|aus den jahren|des annees|"
    r"degli anni|de los anos)\b.*?(?:and|to|und|bis|et|e|y|-)"
)
ANY = r"any\b|egal|beliebig|does not matter|doesn't matter|whatever|old or new|no limit|irrelevant|spielt keine rolle"
REVISED = r"revis|rework|remak|uberarbeit|umarbeit|remani|rielabor|reelabor"
VERSION = r"versions?\b|arrangiam|arrange|orchestrat|transcri|bearbeitung|fassung|adaptation|trascri|arregl"
NOT_NEW = (
    r"does not count|do not count|not (?:be )?(?:count|regard|consider|treat)|keeps? the (?:year|date)|first composed|"
    r"original (?:year|date)|zahlt nicht|zahlen nicht|gilt nicht|gelten nicht|ne comptent pas|merely revised|"
    r"date of (?:the )?(?:first|original)|not new|not make (?:it|them|a \w+) new"
)
NOT_ADMITTED = (
    r"not (?:be )?(?:admitted|accepted|eligible|allowed|permitted|included|considered)|excluded|inadmissible|"
    r"nicht (?:zugelassen|angenommen|berucksichtigt|erlaubt)|ne sont pas (?:admis|accept)|non (?:sono )?ammess|"
    r"no se admit|ausgeschlossen|no arrangements|no versions|no transcriptions|keine bearbeitungen|"
    r"quedan? fuera|scheid\w+ aus|ne le sont pas|sind es nicht|non lo sono|no lo son|ineligible|exclues?|esclus|"
    r"cannot be|ne seront pas|non saranno|"
    r"no (?:se )?(?:acept|seran)\w*|too old|(?:stay|"
    r"stays|left|leave|bleib\w*|rest\w+) (?:at home|out|away|"
    r"aussen vor|"
    r"unberucksichtigt)|(?:do not|don't|not) (?:to )?(?:send|enter|submit|include)|of no (?:use|interest)|"
    r"not (?:sought|wanted|"
    r"what we)|nicht (?:gesucht|gefragt|erwunscht|eingereicht)"
)
COUNTS = (
    r"counts? as (?:new|a new)|are (?:welcome|accepted|admitted|eligible)|date of (?:the )?revision (?:counts|decides)"
)
BEFORE = r"before|prior to|earlier than|predating|anteri(?:eur|or)|until|vor dem|avant|prima del|antes"
EARLIER = (
    r"(?:before|prior to|earlier than|predating|vor|avant|prima d[ei]\w*|antes de|anteri(?:eure?s?|or[ei]?s?) a\w*) "
    r"(?:[\w.,']+ ){0,3}(?:19|20)\d\d"
)
BEFORE_REFUSED = re.compile(
    r"(?<![a-z])(?:nothing|no(?: \w+)?|none|not|nicht|keine \w+|pas|non)\b[^.;]{0,40}?(?:before|vor|avant|"
    r"prima|antes)\b"
)
ONLY_EARLIER = r"must|only|should have|have to|has to|muss\w*|nur\b|seules?\b|doi\w+|solo\b|dev\w+|deb\w+"
"""What makes *before 2020* a demand: without it, it may as well tell what stays out."""
OTHERS = r"other (?:hands|people|composers)|someone else|fremder|by others|d'autrui|existing (?:songs|works by)"


def read_dating(passages: Sequence[Passage], closes: date | None) -> Iterator[Found]:
    """Yield from when a work must date, and what is said of versions. ``closes`` is the day of the deadline."""
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        if has(VERSION, said) or has(REVISED, said):
            yield from versions_in(said, where)
        recent = (WITHIN.search(said) and has(WORKS, said)) or is_of_works(said)
        if not (has(WRITTEN, said) or recent) or has(r"born|geboren|ne en|nato|naci", said):
            continue
        if has(REVISED, said) and has(NOT_NEW, said):
            continue
        found = list(first_days(passage, said, closes))
        basis = Basis.COMPLETED if has(COMPLETED, said) else Basis.COMPOSED
        for name, value in found:
            yield Found(name, value, *where)
        if found:
            yield Found("composed_basis", basis, *where)
            yield Found("composed_text", passage.text, *where)
        elif has(r"date on which .{0,40}completed|judged by .{0,30}complet", said):
            yield Found("composed_basis", Basis.COMPLETED, *where, rank=2)


def is_of_works(said: str) -> bool:
    """Whether *no older than ten years* speaks of works: so few years are no person's, unless people are named."""
    older = OLDER.search(said) if has("older|alter als|plus vieux", said) else None
    return older is not None and number_of(older["count"]) <= OLDEST and not has(ENTRANTS, said)


def first_days(passage: Passage, said: str, closes: date | None) -> Iterator[tuple[str, date]]:
    within = WITHIN.search(said) or YOUNGER.search(said) or OLDER.search(said)
    if within and number_of(within["count"]) > OLDEST:
        return
    if within and closes:
        yield "composed_from", years_before(closes, number_of(within["count"]))
        return
    spans = spans_in(passage.text)
    if not spans:
        return
    if len(spans) > 1 and BETWEEN.search(said) and not has(r"that is|d\. ?h|i\. ?e", said):
        yield "composed_from", spans[0][0]
        yield "composed_until", spans[1][1]
        return
    first, last = spans[0]
    if len(spans) == 2 and first != last and has(AFTER, said) and has(r"before", said):
        yield "composed_from", day_after(last)
        yield "composed_until", day_before(spans[1][0])
    elif BEFORE_REFUSED.search(said) or (has(EARLIER, said) and has(NOT_ADMITTED, said)):
        yield "composed_from", first
    elif has(BEFORE, said) and not has(rf"{ON_OR_AFTER}|{AFTER}|not before", said):
        if has(ONLY_EARLIER, said):
            yield "composed_until", day_before(first)
    else:
        yield from after_or_in(spans, said)


def after_or_in(spans: Sequence[tuple[date, date]], said: str) -> Iterator[tuple[str, date]]:
    first, last = spans[0]
    if has(ON_OR_AFTER, said):
        if first == last or len(spans) == 1 or not has(AFTER, said):
            yield "composed_from", inclusive(first, said, first == last)
        else:
            yield "composed_from", max(one for one, _ in spans)
    elif has(AFTER, said):
        yield "composed_from", day_after(last)
    elif not has(ANY, said) and first != last and has(r"(?:composed|written|completed) in", said):
        yield "composed_from", min(one for one, _ in spans)
        yield "composed_until", max(one for _, one in spans)


def spans_in(text: str) -> list[tuple[date, date]]:
    """Return the days that a text names, else its months, else its years, each with its first and last day."""
    days = [(one.day, one.day) for one in days_in(text)]
    years = [(date(one, 1, 1), date(one, 12, 31)) for one in years_in(text) if 1900 < one < 2100]
    return days or months_in(text) or years


def day_after(day: date) -> date:
    return date.fromordinal(day.toordinal() + 1)


def day_before(day: date) -> date:
    return date.fromordinal(day.toordinal() - 1)


def inclusive(day: date, said: str, full: bool) -> date:
    """Return the first day that counts where both *after* and *since* may stand: after 31 December is 1 January."""
    if full and has(r"after\b", said) and not has(r"on or after|or after", said):
        return day_after(day)
    return day


def years_before(day: date, years: int) -> date:
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return date(day.year - years, 3, 1)


def versions_in(said: str, where: tuple[int, int]) -> Iterator[Found]:
    if has(OTHERS, said):
        return
    if (
        has(VERSION, said)
        and has(NOT_ADMITTED, said)
        and has(r"earlier|existing|previous|own|arrange|versions? |tra(?:n)?scri|arrangiam|arregl|bearbeit", said)
    ):
        yield Found("versions", Versions.EXCLUDED, *where, rank=2)
    elif has(REVISED, said) and has(NOT_NEW, said):
        yield Found("versions", Versions.KEEP_FIRST_DATE, *where, rank=1)
    elif (has(REVISED, said) or has(VERSION, said)) and has(COUNTS, said):
        yield Found("versions", Versions.COUNT_AS_NEW, *where)
