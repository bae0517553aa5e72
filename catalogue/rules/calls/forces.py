"""Which players a call offers, and whether as a maximum, exactly, or as a body to choose from.

The list is the longest run of items that name players; alternatives (``A) … or B) …``) are kept apart. What a call
says of the piece that a resident or a winner is to write later is no limit on the works that are sent.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from catalogue.instrumentation import Instrumentation, Line, shorthand
from catalogue.rules.calls.limit_texts import item, items, reading, several, spoken, with_doublings
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import CallKind, Forces, ForcesRule, Found
from catalogue.rules.calls.words import NUMBER, has, number_of, plain

LABEL = (
    r"forces|instrumentation|besetzung|effectif|formation|organico|plantilla|available|players|line-?up|ensemble|we are|"
    r"scoring|scored|orchestra|available players|instruments|bezetting|organic"
)
CUE = r"\bfor (?!the|each|every|all|you|us|our|more|one\b)|\bof\b|consist|drawn from|we are|our (?:house )?(?:musicians|players)|für|pour|per\b|para|comprising|any combination"
LATER = (
    r"workshop with|you will write|will write|new piece|will be written|winner will|to be commissioned|commissioned work|not "
    r"part of the application|residents? will"
)
NEGATED = r"^(?:no|not|keine?|without|ohne|other|neither|in [ab]\b|there are no|we cannot|weitere|excluding|sans)\b"
EXACT = (
    r"exactly|nobody else|no (?:other|added|additional|fewer) (?:players|instruments)|all (?:two|three|four|five|six|seven|eight) "
    r"(?:players )?(?:throughout|must)|as it stands|every(?:body| player) (?:must|has to)|full ensemble must|must use all|"
    r"(?:whole|complete|entire|full) (?:ensemble|line-?up|quartet|quintet|trio) (?:must|is|has)|genau|exakt|nothing but|"
    r"all players must|no more and no (?:less|fewer)|alle .{1,20} (?:mussen|sind zu)|not (?:for )?a? ?(?:subset|selection)"
)
SUBSET = (
    r"any (?:selection|subset|combination|number)|drawn from|some of (?:us|them)|subsets?\b|or (?:some|part) of|selection from|"
    r"one or (?:two|more) of|from (?:these|those|this|among)|out of|do not have to use all|need not use all|choose from|"
    r"any of (?:the|these)|beliebige auswahl|auswahl aus|teilmenge|smaller (?:combinations|groups)|solos?, duos?|duos?, trios?|"
    r"fewer (?:players|instruments) (?:are|is)|or fewer|mindestens \w+ (?:spieler|instrumente)|two, three or four|combinations? (?:of|from)"
)
AT_MOST = (
    r"at most|as a maximum|maximum|maximal|hochstens|up to|no larger|inside the forces|may (?:leave out|omit)|not exceed|within|"
    r"no more|bis zu|durfen fehlen|au maximum|al massimo|limit|we book nobody extra|smaller forces"
)
ANY_FORCES = r"any (?:instruments?|forces|instrumentation|scoring|combination of instruments)|for any|beliebige besetzung|all instrumentations|free instrumentation|besetzung frei"
COMPULSORY = re.compile(
    r"(?<![a-z])(?:strings?|streicher\w*|string sections?|cordes|archi)\b[^.;]{0,60}?(?:compulsory|required|must|obligat|mandatory|zwingend|erforderlich|"
    r"obligatoires?|have to be used|needed|indispensable)|(?:must|should|have to|has to) (?:use|include|employ)[^.;]{0,30}?(?:full |all |complete |the )?(?:strings?|"
    r"streicher)|full strings (?:are|is) (?:required|compulsory)"
)
PLAYERS = r"(?:players?|performers?|musicians?|instruments?|instrumentalists?|spieler\w*|musiker\w*|interpretes|musiciens|percussionists?|voices|people|parts)"
LEAST = re.compile(rf"(?:at least|minimum(?: of)?|no fewer than|not fewer than|no less than|mindestens|not less than|au moins|almeno)\s+(?P<n>{NUMBER})(?:\s+\w+)?(?:\s+and [^.]{{0,30}}?)?\s+{PLAYERS}")
LEAST_BARE = re.compile(rf"no fewer than (?P<n>{NUMBER}) and no more than (?P<m>{NUMBER})(?: \w+)? {PLAYERS}")
MOST = re.compile(rf"(?:at most|maximum(?: of)?|no more than|not more than|up to|hochstens|bis zu|max\.?)\s+(?P<n>{NUMBER})(?:\s+\w+)?\s+{PLAYERS}")
BETWEEN = re.compile(rf"(?:from |between |for )?(?P<n>{NUMBER})\s*(?:-|to|and|bis|or|oder)\s*(?P<m>{NUMBER})\s+(?:\w+\s+){{0,2}}?(?:of the \w+ (?:named )?)?{PLAYERS}")
ONE_OR_TWO = re.compile(rf"(?P<n>{NUMBER}) (?:or|to) (?P<m>{NUMBER}) of (?:the|our|these)")
USUAL = r"usual (?:doublings|auxiliar)|ubliche nebeninstrumente|customary doublings|doublings? (?:are |is )?(?:allowed|free|as usual)|all usual"
WITH_TIMPANI = r"(?:incl\w*\.?|mit|including) (?:the )?(?:timpan|pauke)|timpan\w* (?:included|is one of|among|counted)|one of whom (?:also )?plays timpani|einschliesslich"
VOICES = re.compile(r"(?<![A-Za-z])(S{1,4}A{0,4}T{0,4}B{0,4}|A{1,2}T{1,2}B{0,2}|T{1,4}B{1,4})(?![A-Za-z])")
DIVISI = re.compile(r"(?i:div(?:isi|\.)?)[^.;\n]{0,30}?(S{1,4}A{0,4}T{0,4}B{0,4})(?![A-Za-z])")
CHOIR = r"choirs?\b|chorus|chor\b|choeur|coro\b|singers|satb|ssa|a cappella|gemischte"


@dataclass(frozen=True, slots=True)
class Run:
    """A run of items that name players: its shorthand, how many items, where, and how likely it is the limit."""

    text: str
    count: int
    players: int
    rank: int
    first: Passage
    last: Passage
    alternative: str = ""


def read_forces(passages: Sequence[Passage], text: str, kind: CallKind) -> Iterator[Found]:
    """Yield the forces of a call as one value with the words they came from."""
    free = kind in (CallKind.RESIDENCY, CallKind.DEGREE, CallKind.GRANT)
    usable = [one for one in passages if not has(LATER, one.plain)]
    choir = choir_of(usable)
    runs = [] if free else list(runs_in(usable))
    chosen = choir or chosen_runs(runs)
    limits = limits_of(usable, free)
    if not chosen and limits.players_max is None and limits.players_min is None:
        return
    texts = tuple(dict.fromkeys(with_spoken_doublings(one.text, usable) for one in chosen))
    forces = replace(limits, texts=texts, rule=rule_of(usable, texts, bool(choir)))
    if not chosen:
        forces = replace(forces, rule=ForcesRule.ANY)
    for run in chosen:
        yield Found("forces", forces, run.first.start, run.last.end)
    if not chosen:
        where = next(one for one in usable if players_in(one.plain) != (None, None))
        yield Found("forces", forces, where.start, where.end)


def with_spoken_doublings(text: str, passages: Sequence[Passage]) -> str:
    """Return the forces with the doublings of sentences such as *the flautist may double piccolo*."""
    found = reading(text)
    if found is None:
        return text
    for passage in passages:
        match = SPOKEN_DOUBLING.search(spoken(passage.text))
        who = reading(match["who"]) if match else None
        if match is None or who is None or len(who.lines) != 1 or has(r"only \w+ \d|no\b|none", plain(match["who"])):
            continue
        lines = tuple(doubled(line, who.lines[0].instrument, match["what"]) for line in found.lines)
        found = replace(found, lines=lines)
    return shorthand(found)


SPOKEN_DOUBLING = re.compile(
    r"(?:the|our|le|der|die)\s+(?P<who>[\w ]{3,20}?)(?:\s+players?)?\s+(?:may|can|will|also|is able to|happily|gladly|darf|kann|peut)?\s*"
    r"(?:also )?(?:doubles?|plays?|take|brings?|has|owns?|auch)\s+(?:on )?(?P<what>[^.;]+)",
    re.IGNORECASE,
)


def doubled(line: Line, slug: str, what: str) -> Line:
    if line.instrument != slug or line.chairs or not line.players:
        return line
    auxiliaries = reading(with_doublings(shorthand(Instrumentation((replace(line, players=(1, 1)),))), what))
    chairs = auxiliaries.lines[0].chairs if auxiliaries else ()
    return replace(line, chairs=tuple(replace(one, chair=number) for one in chairs for number in range(1, line.players[1] + 1)))


def chosen_runs(runs: list[Run]) -> list[Run]:
    """Return the run that is the limit, or the alternatives that stand side by side."""
    if not runs:
        return []
    best = max(runs, key=lambda run: (run.rank, run.count, run.players, -run.first.start))
    if best.alternative:
        return [run for run in runs if run.alternative and run.count >= 2 or run is best]
    return [run for run in runs if run is best or (run.first is best.first and run.rank == best.rank)]


# ---- lists of players


def runs_in(passages: Sequence[Passage]) -> Iterator[Run]:
    """Yield the runs of a text: within a passage, and over the lines of a list."""
    block: list[tuple[Passage, str, int]] = []
    for passage in passages:
        whole = line_item(passage)
        if whole and (not block or block[-1][0].line + 1 >= passage.line):
            block.append((passage, *whole))
            continue
        yield from block_run(block)
        block = [(passage, *whole)] if whole else []
        if not whole:
            yield from passage_runs(passage)
    yield from block_run(block)


def line_item(passage: Passage) -> tuple[str, int] | None:
    """Return a line that is nothing but players, in shorthand, with how many items."""
    if len(passage.text) > 160 or has(NEGATED, passage.plain.partition(": ")[2] or passage.plain):
        return None
    if passage.text.endswith(".") and len(passage.text.split()) > 7:
        return None
    listed = several(passage.text)
    parts = [item(listed[start:end]) for start, end, _ in items(listed)]
    text = ", ".join(part for part in parts if part)
    found = reading(text)
    few = len(parts) < 2 and not re.match(NUMBER, passage.plain) and len(listed.split()) > 2
    return (text, len(parts)) if found and is_players(found) and not few else None


def block_run(block: list[tuple[Passage, str, int]]) -> Iterator[Run]:
    """Yield the run of a list over several lines; lines of alternatives each make their own."""
    if not block:
        return
    numbered = len({one[0].numbering for one in block} - {""}) > 1 and all(one[2] >= 2 or one[0].label for one in block)
    groups = [[one] for one in block] if numbered or (len(block) > 1 and any(one[0].numbering.startswith(("A", "B")) for one in block)) else [block]
    for group in groups:
        text = ", ".join(one[1] for one in group)
        found = reading(text)
        if found is None:
            continue
        count = sum(one[2] for one in group)
        labelled = any(has(LABEL, one[0].label.lower()) for one in group)
        rank = 3 if labelled or count >= 3 else 1
        first, last = group[0][0], group[-1][0]
        yield Run(shorthand(found), count, most_of(found), rank, first, last, first.numbering if re.match(r"\(?[A-Ca-c][.)]", first.numbering) else "")


def passage_runs(passage: Passage) -> Iterator[Run]:
    """Yield the longest run of items in a sentence, split where *or* joins alternatives."""
    text = several(passage.text)
    said = passage.plain
    best: list[tuple[str, str]] = []
    current: list[tuple[str, str]] = []
    for chunk in chunks(text):
        for start, end, separator in items(chunk):
            segment = chunk[start:end]
            found = as_item(segment, first=not current)
            if found:
                current.append((found, separator))
                best = max(best, current, key=weight)
                current = current if separator != "" else []
            else:
                current = []
        current = []
    if not best or (has(NEGATED, said) and not has(LABEL, passage.label.lower())):
        return
    rank = rank_of(passage, said, len(best))
    for group in alternatives(best):
        joined = ", ".join(group)
        found_group = reading(joined)
        if found_group and is_players(found_group) and rank:
            numbering = passage.numbering if re.match(r"\(?[A-Ca-c][.)]", passage.numbering) else ""
            yield Run(shorthand(found_group), len(best), most_of(found_group), rank, passage, passage, numbering)


def weight(run: list[tuple[str, str]]) -> int:
    found = reading(", ".join(one for one, _ in run))
    return len(run) * 10 + (min(most_of(found), 9) if found else 0)


def chunks(text: str) -> Iterator[str]:
    """Yield the parts of a sentence in which a list may stand: inside its brackets, and outside, parted at colons."""
    for match in re.finditer(r"\(([^()]{12,})\)", text):
        if len(list(items(match[1]))) >= 2:
            yield match[1]
    yield from re.split(r":\s", text)


def as_item(segment: str, *, first: bool) -> str:
    """Return a segment as an item; the first of a list may follow other words, the last may precede them."""
    segment = segment.strip(" .;:\"”“")
    if not segment or has(NEGATED, segment.lower()):
        return ""
    if len(segment.split()) <= 9 or "(" in segment:
        text = item(segment)
        found = reading(text)
        if found and is_players(found) and len(text) < 120:
            return text
    if first:
        for match in reversed(list(re.finditer(r"\b(?:for|für|pour|per|para|of|are|from|with|von|aus|de)\s+", segment, re.IGNORECASE))):
            text = item(segment[match.end() :])
            found = reading(text)
            if found and is_players(found) and len(segment[match.end() :].split()) <= 8:
                return text
    return as_head(segment)


def as_head(segment: str) -> str:
    """Return the item with which a segment begins before words that name no player: ``cello that last …``."""
    match = re.match(r"^(.{3,60}?)\s+(?:that|which|who|lasting|with a|of up|of at|not|to be|and nothing|and nobody|only|must|in|auf)\b", segment)
    text = item(match[1]) if match else ""
    found = reading(text) if text else None
    return text if found and is_players(found) else ""


def is_players(found: Instrumentation) -> bool:
    """Whether a reading is one of people who play or sing, not of a device or a bare number."""
    return any(line.family != "electronics" and line.instrument != "conductor" for line in found.lines)


def most_of(found: Instrumentation) -> int:
    return sum(line.players[1] if line.players else 4 for line in found.lines)


def alternatives(run: list[tuple[str, str]]) -> list[list[str]]:
    """Return the items of a run in groups: *or* parts them; without *and*, each item is one."""
    separators = {separator for _, separator in run[:-1]}
    ors = {"or", "oder", "ou", "o", "or else"}
    if not separators & ors:
        return [[one for one, _ in run]]
    if not separators - ors - {","}:
        return [[one] for one, _ in run]
    groups: list[list[str]] = [[]]
    for one, separator in run:
        groups[-1].append(one)
        if separator in ors:
            groups.append([])
    return [group for group in groups if group]


def rank_of(passage: Passage, said: str, count: int) -> int:
    """Return how likely a sentence names the limit: 0 not at all, 3 under its own label."""
    if has(LABEL, passage.label.lower()):
        return 4
    if has(r"(?:string|wind|brass|saxophone|piano|clarinet|percussion) (?:quartet|quintet|trio|duo|sextet|orchestra)", said) and has("work for|piece for|music for|write for|works for|pieces for", said):
        return 3
    if count >= 3 and (has(CUE, said) or re.match(NUMBER, said)):
        return 3
    if has(r"(?:works?|pieces?|music|write|compositions?|scores?|werke?|oeuvres?|stucke?|brani|obras|solo) (?:\w+ )?(?:for|fur|pour|per|para)\b", said):
        return 2
    return 1 if count >= 2 and has(CUE, said) else 0


# ---- choirs


def choir_of(passages: Sequence[Passage]) -> list[Run]:
    """Return the choir that a call is for, with the most parts it divides into."""
    said = " ".join(one.plain for one in passages)
    if not has(r"(?:mixed |women's |men's |children's |chamber |girls' |upper voice )?choir|singers|chorus|chor\b|choeur|coro\b", said):
        return []
    for passage in passages:
        letters = VOICES.search(passage.text)
        if letters and not DIVISI.search(passage.text[: letters.end()]) and len(letters[1]) >= 2:
            if not (has(LABEL + "|" + CHOIR, passage.plain)):
                continue
            divided = next((match[1] for one in passages if (match := DIVISI.search(one.text))), "")
            plain_parts = re.search(r"(S+A+T*B*|T+B+)\s*(?:to|-|–|up to|bis)\s*(S+A+T*B*)", passage.text)
            divided = divided or (plain_parts[2] if plain_parts else "")
            text = f"{letters[1]} choir" + (f" (max. div. {divided})" if divided else "")
            extra = [one for one in accompaniment(passage) if one]
            return [Run(", ".join([text, *extra]), 1, 4, 4, passage, passage)]
    mixed = next((one for one in passages if has(r"mixed choir|gemischten? chor|choeur mixte|coro misto|coro mixto", one.plain) and has(r"for|look|fur|pour|per|para", one.plain)), None)
    return [Run("SATB choir", 1, 4, 4, mixed, mixed)] if mixed else []


def accompaniment(passage: Passage) -> Iterator[str]:
    """Yield the instruments that go with the choir in the same sentence."""
    listed = re.sub(r"\b(?:with|mit|avec|con)\b", ",", passage.text)
    for start, end, _ in items(listed):
        segment = listed[start:end].strip(" .")
        text = item(segment)
        found = reading(text)
        if found and all(line.family != "voice" for line in found.lines) and is_players(found) and not has(NEGATED, segment.lower()):
            yield text


# ---- what is said beside the list


def limits_of(passages: Sequence[Passage], free: bool) -> Forces:
    forces = Forces()
    for passage in passages:
        said = passage.plain
        if has(USUAL, said):
            forces = replace(forces, usual_doublings=True)
        if has(WITH_TIMPANI, said) or re.search(r"percussion\w*[^.;]{0,20}(?:incl|mit pauken|timpani included)", said):
            forces = replace(forces, timpani_among_percussion=True)
        if COMPULSORY.search(said):
            forces = replace(forces, strings_compulsory=True)
        if not free:
            least, most = players_in(plain(several(passage.text)))
            forces = replace(forces, players_min=forces.players_min if least is None else least, players_max=most or forces.players_max)
    return forces


def players_in(said: str) -> tuple[int | None, int | None]:
    """Return the least and most number of players that a sentence asks for; a rule on some works is none."""
    if has(r"at least one (?:must|of)|by which we mean|finalist|jury|large ensemble", said):
        return None, None
    alone = has(r"alone|fixed media alone", said)
    both = LEAST_BARE.search(said)
    if both:
        return number_of(both["n"]), number_of(both["m"])
    between = BETWEEN.search(said) or ONE_OR_TWO.search(said)
    if between and number_of(between["n"]) < number_of(between["m"]):
        return (0 if alone else number_of(between["n"])), number_of(between["m"])
    least, most = LEAST.search(said), MOST.search(said)
    return (number_of(least["n"]) if least else None), (number_of(most["n"]) if most else None)


def rule_of(passages: Sequence[Passage], texts: tuple[str, ...], choir: bool) -> ForcesRule:
    """Return how the forces bind: as it is said, else small bodies exactly and large ones as a maximum."""
    said = " ".join(one.plain for one in passages)
    if choir:
        return ForcesRule.AT_MOST
    if has(SUBSET, said):
        return ForcesRule.ANY_SUBSET
    if has(EXACT, said):
        return ForcesRule.EXACTLY
    if has(AT_MOST, forces_words(passages)):
        return ForcesRule.AT_MOST
    found = [reading(one) for one in texts]
    small = all(one is not None and most_of(one) <= 12 and len(one.lines) <= 10 for one in found)
    return ForcesRule.EXACTLY if small and texts else ForcesRule.AT_MOST


def forces_words(passages: Sequence[Passage]) -> str:
    """Return the sentences that speak of forces, where *at most* is about players."""
    about = rf"{LABEL}|players|instrument|strings|winds|blaser|streicher|flute|flote|violin"
    return " ".join(one.plain for one in passages if has(about, one.plain) and not has(r"minut|words|worter", one.plain))
