"""How long a work may be, alone and together with the others that are sent."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from catalogue.rules.calls.bounds import OF_THE_LAST, Bound, compared
from catalogue.rules.calls.deadlines import OF_WORKS
from catalogue.rules.calls.figures import Length, days_in, lengths_in
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import Found
from catalogue.rules.calls.words import NUMBER, beginning, has, number_of, plain

UNDER = r"(?:under|less than|below|shorter than|unter|weniger als|kurzer als|moins de|meno di|menos de|fewer than)"
OVER = r"(?:over|more than|longer than|above|exceeding|mehr als|langer als|uber|plus de|piu di|mas de)"
NOT = r"(?:not|no|nicht|non|pas|ne|never|neither|nor|keine?|may not|must not|should not|without|n't)"
AT_MOST_BEFORE = re.compile(
    rf"(?:up to(?: and including)?|at (?:the )?most|maximum(?: (?:duration|length))?(?: of| is|:)?|"
    rf"max\.?(?: (?:duration|length|dauer|duree|durata))?(?: of|:)?|(?:do not|don't|never) [^.;]{{0,40}}?{OVER}|"
    rf"maximal(?:dauer)?|hochstens|bis zu|jusqu'a|au (?:plus|maximum)|massimo|al massimo|hasta|como maximo|within|"
    rf"{NOT}(?: be| last| run| sein)? {OVER}|{NOT} (?:to )?exceed(?:ing)?|exceed|limit(?:ed)? (?:is|to|of)|"
    rf"(?:n'exced\w+|ne depass\w+|ne (?:doi\w+|peu\w+)) pas(?: (?:exceder|depasser))?|sans (?:exceder|depasser)|"
    rf"non (?:(?:deve|devono|puo) )?super\w+|no (?:(?:debe|deben|podra|puede)n? )?(?:superar|exceder|sobrepasar)\w*|"
    rf"{NOT} (?:superieure?|superiore|superior) (?:a|ai|aux)|"
    rf"no longer than|langstens|nicht langer als|maxima(?: de)?|maximo de|massimo di|maximum de|no mas de|tot)\s*$"
)
AT_LEAST_BEFORE = re.compile(
    rf"(?:at least|minimum(?: of)?|min\.?|mindestens|wenigstens|au moins|almeno|minimo(?: di| de)?|minima(?: di|"
    rf" de)?|al menos|como minimo|"
    rf"{NOT}(?: be| last)? {UNDER}|{NOT} (?:est pas |sia )?(?:inferieure?|inferiore|inferior) (?:a|ai|aux)|"
    rf"pas inferieure? a|no shorter than|ab|from)\s*$"
)
UNDER_BEFORE = re.compile(rf"(?<!not )(?<!no )(?<!nicht ){UNDER}\s*$")
OVER_BEFORE = re.compile(rf"(?<!not )(?<!no )(?<!nicht ){OVER}\s*$")
AT_MOST_AFTER = re.compile(
    r"\s*(?:\(?(?:or|oder|ou|o) (?:less|shorter|under|fewer|weniger|kurzer|moins|meno|menos)|maximum|max\b|maximal|"
    r"at (?:the )?(?:very )?(?:most|longest|outside)|is the (?:\w+ )?(?:maximum|limit|most|longest)|"
    r"is our (?:limit|maximum)|is as (?:long|much) as|is all we|"
    r"ist (?:das|die|der) (?:aus+erste|maximum|obergrenze|hochst\w*|limit)|est (?:le|un) maximum|e il massimo|"
    r"es (?:el|lo) maximo|"
    r"tops|hochstens|au (?:plus|maximum)|nicht (?:uberschreiten|ubersteigen)|al massimo|como maximo|and not (?:a|"
    r"one) (?:second|minute) (?:more|longer))"
)
AT_LEAST_AFTER = re.compile(
    r"\s*(?:\(?(?:or|oder|ou|o) (?:more|longer|over|mehr|langer|plus|piu|mas)|minimum|is the minimum|"
    r"at (?:the )?(?:very )?least|"
    r"mindestens|au moins|almeno|al menos|wenigstens)"
)
REFUSED = re.compile(
    r"(?<![a-z])(?:(?:will|can|shall)(?:not| not) be|(?:is|are) not (?:eligible|accepted|admitted|considered)|excluded|"
    r"disqualif|rejected|ineligible|werden nicht|sind nicht zugelassen|ausgeschlossen|ne sont pas|ne seront pas|"
    r"non (?:sono|saranno)|no (?:se admit|seran)|lohn\w+ [^.;,]{0,12}?nicht|kommen nicht in frage|too short|"
    r"zu kurz|trop court|"
    r"tropp[oi] brev|demasiado cort|(?:is|are) (?:not|hardly) worth)"
)
OUT_AFTER = re.compile(r"\s*(?:is|are|ist|being)?\s*(?:already |schon )?(?:too long|out\b|zu lang|over)")
IN_AFTER = re.compile(r"\s*(?:is|are|ist)\s*(?:still )?(?:in\b|accepted|fine|allowed|ok\b)")
TOLERANCE = (
    r"tolera|deviation|abweichung|leeway|give or take|geduldet|plus or minus|either way|margin|grace|scarto|"
    r"in either direction|marge|tolleranza"
)
TOTAL = (
    r"add(?:s|ing)? up to|amounting to|together|in total|in all\b|altogether|total\b|combined|insgesamt|zusammen|"
    r"gesamtdauer|au total|en tout|"
    r"insieme\b|(?:duree|durata|duracion|dauer) tota\w+|junt[ao]s\b|en conjunto|sumad[ao]s|complessiv|in totale|"
    r"en total|"
    r"in sum|overall|between them|added up|"
    r"portfolio (?:of|lasting|should|must)"
)
EACH = r"each\b|single|per (?:work|piece)|individual|jedes|every (?:work|piece)|no (?:one )?(?:work|piece)|any one"
ABOUT_WORKS = (
    r"minut|length|duration|how long|long\b|last|run\b|\w*dauer\b|dauer|dura\b|duran|duree|durata|duracion|piece|"
    r"work|stuck|"
    r"werk|oe?uvre|brano|"
    r"slot|short|time"
)
NOT_WORKS = (
    r"you will write|will be (?:written|composed)|new (?:piece|work) of|to be (?:written|composed)|interview|rehears|"
    r"presentation|talk\b|probe(?:n)?\b|excerpts?|extracts?|ausschnitt|not part of the application|to present|"
    r"(?:per|each|every|a single) (?:recording|excerpt|extract|audio file)|minutes of (?:rehearsal|music for)|walk|"
    r"minutes (?:from|away|before|after)|recording of (?:up to|at most)|session"
)
LABELS = r"(?:length|duration|how long|dauer|duree|durata|duracion|timing|spieldauer|time)[^:]*:"


IN_MINUTES = re.compile(r"\bmin(?:ut\w+|\.)?\)?$")
PERCENT = re.compile(r"(?P<count>\d{1,2})\s?(?:%|per ?cent|prozent|pour cent|per cento|por ciento)")


def read_limits(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield the least and the most duration of a work, of all together, the tolerance, and whether it is *under*."""
    strict, longest = False, 0
    for passage in passages:
        said = passage.plain
        where = passage.start, passage.end
        lengths = lengths_in(said) or lengths_in(f"{said} minutes" if IN_MINUTES.search(plain(passage.label)) else said)
        if has(r"on the dot is (?:already )?too long|exactly .{1,20} is too long", said):
            strict = True
            yield Found("duration_strict", True, *where, rank=2)
        if has(TOLERANCE, said) and not lengths and tolerance_in(said, []):
            yield Found("duration_tolerance", tolerance_in(said, []), *where)
        percent = PERCENT.search(said) if has(TOLERANCE, said) else None
        if percent and longest:
            yield Found("duration_tolerance", longest * int(percent["count"]) // 100, *where)
            continue
        if not lengths or not is_about_length(passage, said):
            continue
        more_or_less = GIVE_OR_TAKE.search(said)
        if more_or_less:
            yield from around(said, lengths, more_or_less, where)
            continue
        if has(TOLERANCE, said):
            yield Found("duration_tolerance", tolerance_in(said, lengths), *where)
            lengths = [one for one in lengths[:-1] if one.seconds >= 60] if len(lengths) > 1 else []
            if len(lengths) == 1 and bound_of(said, lengths[0]) is None:
                yield Found("duration_min", lengths[0].seconds, *where)
        rank = 2 if re.search(rf"^{LABELS}", said) else 1
        for whole, bound in bounds_in_parts(said, lengths):
            name = f"{'total' if whole else 'duration'}_{'max' if bound.most else 'min'}"
            yield Found(name, bound.seconds, *where, rank=rank)
            longest = bound.seconds if bound.most and not whole else longest
            if bound.strict and bound.most and not strict:
                yield Found("duration_strict", True, *where, rank=rank)


APART = re.compile(
    rf"[;,]\s*(?=(?:(?:and|but|und|aber|et|mais|e|ma|y|pero)\s+)?(?:(?:all|alle|tous|tutti|todas|"
    rf"the|no|any|taken|alles|pris\w*|pres[ei]|tomad[ao]s)\s+)?(?:works?\s+)?"
    rf"(?:{TOTAL}|{EACH}))"
)
"""Where a sentence goes on from each work to all of them: *each at most ten minutes, together not over fifty*."""


def bounds_in_parts(said: str, lengths: list[Length]) -> Iterator[tuple[bool, Bound]]:
    """Yield what the lengths of a sentence bound, and whether that is all the works together."""
    parts = [
        (part, found)
        for part in APART.split(said)
        if (found := lengths_in(part) or lengths_in(f"{part.rstrip(' .')} minutes"))
    ]
    if len(parts) < 2 or not any(has(TOTAL, part) for part, _ in parts):
        parts = [(said, lengths)]
    for part, found in parts:
        whole = is_of_all(part, found)
        bounds = bounds_of(part, found)
        most = [one for one in bounds if one.most]
        if len(most) > 1 and has(ABOUT, part):
            bounds = [one for one in bounds if not one.most or one is most[-1]]
        yield from ((whole, one) for one in bounds)


def is_of_all(part: str, found: list[Length]) -> bool:
    """Whether lengths are of all works together, by the word of the two kinds that stands next before them."""
    if not has(TOTAL, part) or not has(EACH, part):
        return has(TOTAL, part)
    before = part[: found[0].start]
    each, total = ([one.start() for one in beginning(words).finditer(before)] for words in (EACH, TOTAL))
    return max(total, default=-1) > max(each, default=-1) >= 0


ABOUT = (
    r"about|around|roughly|approx\w*|circa|ca\b|etwa|rund|ungefahr|environ|a peu pres|aproximad\w+|"
    r"approssimat\w+|unos"
)
"""Where a length is only about what it says, a limit in the same sentence is the one that binds."""


GIVE_OR_TAKE = re.compile(
    rf"(?:give or take|plus or minus|\+/-|±|plus ou moins|plus oder minus|mas o menos)\s*(?:an? |"
    rf"un\w* )?(?P<count>{NUMBER})"
    r"(?![\w.,]*\d|\s*(?:%|per ?cent|prozent))(?:\s*(?P<seconds>sec|sek|\"|''))?"
)


def around(said: str, lengths: list[Length], allowed: re.Match[str], where: tuple[int, int]) -> Iterator[Found]:
    """Yield what *ten minutes, give or take one* bounds: both ways, by as many minutes or seconds."""
    seconds = number_of(allowed["count"]) * (1 if allowed["seconds"] else 60)
    yield Found("duration_tolerance", seconds, *where)
    before = [one for one in lengths if one.end <= allowed.start()]
    if len(before) == 1:
        yield Found("duration_min", before[0].seconds, *where)
        yield Found("duration_max", before[0].seconds, *where)
    else:
        for bound in bounds_of(said, before):
            yield Found(f"duration_{'max' if bound.most else 'min'}", bound.seconds, *where)


def tolerance_in(said: str, lengths: list[Length]) -> int:
    """Return the seconds by which a limit may be missed, 0 where they are not named."""
    if lengths:
        return lengths[-1].seconds
    number = re.search(rf"(?<![a-z\d]){NUMBER}(?![a-z\d])", said)
    return number_of(number[0]) if number and has("second|sekund|secund", said) else 0


def is_about_length(passage: Passage, said: str) -> bool:
    if re.search(rf"^{LABELS}", said):
        return not days_in(passage.text)
    if len(said.split()) <= 6 and not days_in(passage.text) and not has(NOT_WORKS, said):
        return True
    return (has(ABOUT_WORKS, said) and not has(NOT_WORKS, said) and not days_in(passage.text)) or (
        has(r"minut|'", said) and has(OF_WORKS, said) and not has(NOT_WORKS, said)
    )


def bounds_of(said: str, lengths: list[Length]) -> list[Bound]:
    """Return what the durations of a passage bound; two that are joined are a range."""
    found: list[Bound] = []
    index = 0
    while index < len(lengths):
        one, other = lengths[index], lengths[index + 1] if index + 1 < len(lengths) else None
        if OUT_AFTER.match(said, one.end) or IN_AFTER.match(said, one.end):
            index += 1
            continue
        if other and is_range(said, one, other):
            found += [Bound(one.seconds, False), Bound(other.seconds, True)]
            index += 2
            continue
        bound = bound_of(said, one, lengths[index - 1].end if index else 0)
        if bound and bound.strict and REFUSED.search(said, one.end):
            bound = Bound(one.seconds, not bound.most)
        if bound and bound not in found:
            found.append(bound)
        index += 1
    return found or single(said, lengths)


def is_range(said: str, one: Length, other: Length) -> bool:
    between = said[one.end : other.start].strip()
    words = re.sub(r"minut\w*|'|seconds?|(?<=\be )(?:i|gli|ai)\b", "", between).strip()
    if (
        re.fullmatch(r"(?:-|(?:to|and|bis|und|ai?|al|et|e|y|hasta|tot|en)(?: les| los)?)?", words)
        and one.seconds < other.seconds
    ):
        before = said[max(0, one.start - 20) : one.start]
        return not AT_MOST_BEFORE.search(before) or bool(re.search(r"-|to|bis", words))
    return False


def bound_of(said: str, one: Length, since: int = 0) -> Bound | None:
    """Return which way a length bounds; ``since`` is where the one before it ends."""
    most = compared(said[since : one.start], said[one.end :], said[:since])
    if most is not None:
        return Bound(one.seconds, most)
    begins = since if OF_THE_LAST.match(said[since : one.start]) else 0
    before, after = OF_THE_LAST.sub(",", said[begins : one.start]).rstrip(" ,(:"), one.end
    before = re.sub(r"(?:of|only|about|ca\.?|approximately)$", "", before).rstrip()
    if AT_LEAST_BEFORE.search(before) or AT_LEAST_AFTER.match(said, after):
        return Bound(one.seconds, False)
    if AT_MOST_BEFORE.search(before) or AT_MOST_AFTER.match(said, after):
        return Bound(one.seconds, True)
    if UNDER_BEFORE.search(before):
        return Bound(one.seconds, True, strict=True)
    if OVER_BEFORE.search(before):
        return Bound(one.seconds, False, strict=True)
    return None


def single(said: str, lengths: list[Length]) -> list[Bound]:
    """Return a length that stands alone under its label, which is taken as the most."""
    alone = [one for one in lengths if not OUT_AFTER.match(said, one.end) and not IN_AFTER.match(said, one.end)]
    if len(alone) == 1 and re.search(rf"^{LABELS}", said):
        return [Bound(alone[0].seconds, True)]
    return []
