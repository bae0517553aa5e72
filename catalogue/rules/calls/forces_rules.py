"""What a call says beside its list of players: as a maximum or exactly, how many, which of them are compulsory."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from catalogue.rules.calls.limit_texts import reading, several
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.player_lists import LABEL
from catalogue.rules.calls.player_readings import most_of
from catalogue.rules.calls.refusals import NEGATION
from catalogue.rules.calls.terms import Forces, ForcesRule
from catalogue.rules.calls.words import NUMBER, has, number_of, plain

EXACT = (
    r"exactly|nobody else|no (?:other|added|additional|fewer) (?:players|instruments)|all (?:two|"
    r"three|four|five|six|seven|eight) "
    r"(?:players )?(?:throughout|must)|as it stands|every(?:body| player) (?:must|has to)|"
    r"full ensemble must|must use all|"
    r"(?:whole|complete|entire|full) (?:ensemble|line-?up|quartet|quintet|trio) (?:must|is|has)|"
    r"genau|exakt|nothing but|"
    r"all players must|no more and no (?:less|fewer)|alle .{1,20} (?:mussen|sind zu)|"
    r"not (?:for )?a? ?(?:subset|selection)"
)
EVERYBODY = (
    r"(?:everybody|everyone|every (?:player|instrument)|all\b|the (?:full|whole|entire|complete)|alle\b|"
    r"(?:die )?(?:ganze|volle|"
    r"gesamte|komplette)\w*|tous|toutes|(?:l'|le )?(?:effectif|ensemble) (?:complet|entier)|tutti|(?:l'|"
    r"il )?organico (?:completo|"
    r"intero)|todos|todas|(?:la )?plantilla (?:completa|entera))"
)
NEED = (
    r"(?:use|employ|include|involve|require|need|play|keep|necessary|oblig|compulsory|mandatory|notwendig|"
    r"erforderlich|notig|"
    r"besetz|mitspiel|einges|exig|requis|necess|utilis|obbligat|impiega|necesari|utiliz|emple|obligat)"
)
NOT_ALL = re.compile(
    rf"(?:{NEGATION}|\w*n't|need not)[^.;,:]{{0,30}}?(?<![a-z]){NEED}\w*[^.;,:]{{0,20}}?(?<![a-z]){EVERYBODY}(?![a-z])|"
    rf"(?<![a-z]){EVERYBODY}(?![a-z])[^.;,:]{{0,30}}?(?:{NEGATION})[^.;,:]{{0,20}}?(?<![a-z]){NEED}|"
    rf"(?<![a-z])(?:nicht|not|pas|non|no) {EVERYBODY}(?![a-z])[^.;,:]{{0,20}}?(?<![a-z]){NEED}"
)
"""*Your piece need not use everybody*, *l'effectif complet n'est pas exigé*, *es müssen nicht alle mitspielen*."""
SUBSET = (
    r"any part of|all or (?:some|part|any)|tout ou partie|tutt[oi] o (?:in )?parte|ganz oder teilweise|"
    r"tod[ao]s? o (?:a )?parte|"
    r"de estos instrumentos|de ces instruments|di questi strumenti|dieser instrumente|"
    r"of the following|one partie d|une partie d|subset of|"
    r"any (?:selection|subset|combination|number)|drawn from|some of (?:us|them|these)|subsets?\b|"
    r"einige (?:davon|von ihnen|dieser)|quelques-un\w* d|alcun[ie] di|algun[oa]s de|"
    r"or (?:some|part) of|selection from|"
    r"one or (?:two|more) of|from (?:these|those|this|among)(?! (?:call|year|date|competition|festival))|out of|"
    r"do not have to use all|"
    r"need not use all|choose from|"
    r"any of (?:the|these)|beliebige auswahl|auswahl aus|teilmenge|smaller (?:combinations|"
    r"groups)|solos?, duos?|duos?, trios?|"
    r"fewer (?:players|instruments) (?:are|is)|may use fewer|qu'une partie|une partie de l|one of (?:these|"
    r"the following|them|us)\b|"
    r"parte dell'organico|teil der besetzung|(?<!words )(?<!pages )(?<!minutes )or fewer|mindestens \w+ (?:spieler|"
    r"instrumente)|"
    r"effectif (?:peut|pourra) etre reduit|organico ridotto|plantilla reducida|besetzung kann verkleinert|"
    r"two, three or four|combinations? (?:of|from)|nicht alle|pas (?:necessairement )?tous? les|non tutti|no todos"
)
AT_MOST = (
    r"at most|as a maximum|maximum|maximal|hochstens|up to|no larger|inside the forces|"
    r"may (?:leave out|omit)|not exceed|within|"
    r"no more|bis zu|durfen fehlen|au maximum|al massimo|limit|we book nobody extra|smaller forces|"
    r"not be exceeded|nicht uberschr\w+|ne (?:doi\w+ |peu\w+ )?pas (?:depasser|exceder)|non (?:deve|puo) superare|"
    r"no (?:podra|debe)\w* (?:exceder|superar)|effectif maxim|organico massimo|como maximo"
)
COMPULSORY = re.compile(
    r"(?:as long as|provided(?: that)?) (?:the |all )?(?:full )?strings|"
    r"(?<![a-z])(?:strings?|streicher\w*|string sections?|cordes|cuerdas?|"
    r"archi)\b[^.;]{0,60}?(?:compulsory|required|must|obligat|obbligat|necessar|imprescind|mandatory|zwingend|"
    r"erforderlich|"
    r"obligatoires?|have to be used|needed|indispensable)|(?:no|not|nothing)[^.;]{0,30}?without (?:the )?strings|"
    r"ohne streicher[^.;]{0,30}(?:nicht|keine)|"
    r"(?:fehlen|omit\w*|left out|leave out|missing|manquer|mancare|faltar|omi\w+)[^.;]*?(?:die streicher (?:aber |"
    r"jedoch )?nicht|"
    r"but (?:not )?the strings|the strings (?:may not|must not|cannot|not)|mais pas les cordes|ma non gli archi|"
    r"pero no las cuerdas)|"
    r"(?:must|should|have to|has to) (?:use|"
    r"include|employ)[^.;]{0,30}?(?:full |all |complete |the )?(?:strings?|"
    r"streicher)|full strings (?:are|is) (?:required|compulsory)"
)
PLAYERS = (
    r"(?:players?|performers?|musicians?|instruments?|instrumentalists?|spieler\w*|musiker\w*|"
    r"interpretes|interpretes?|musiciens|percussionists?|voices|people|parts|strumenti|esecutori|musicisti|"
    r"instrumentos|musicos|instrumentistes|executants)"
)
LEAST = re.compile(
    rf"(?:at least|minimum(?: of)?|no fewer than|not fewer than|no less than|mindestens|"
    rf"not less than|au moins|al menos|como minimo|"
    rf"almeno)\s+(?:jedoch\s+|aber\s+)?(?P<n>{NUMBER})(?:\s+\w+)?(?:\s+and [^.]{{0,30}}?)?\s+{PLAYERS}"
)
LEAST_BARE = re.compile(
    rf"(?:no fewer than|at least|mindestens|au moins|almeno|al menos) (?P<n>{NUMBER}),? (?:and |und |et |e |y )?"
    rf"(?:no more than|at most|hochstens|au plus|al massimo|como maximo) (?P<m>{NUMBER})(?: \w+)? {PLAYERS}"
)
LEAST_OF_THESE = re.compile(
    rf"(?:minimo de|minimum of|minimum de|at least|mindestens|almeno|au moins|al menos) (?P<n>{NUMBER}) "
    r"(?:de estos|of these|of the above|dieser|di questi|de ces)\b"
    rf"|(?:for|fur|pour|per|para) (?:at least|mindestens|almeno|au moins|al menos) (?P<some>{NUMBER}) "
    r"(?:of (?:them|us)|von ihnen|di loro|d'entre eux|de ellos)\b"
)
LEAST_AMONG = re.compile(
    rf"(?:at least|minimum of|mindestens|almeno|au moins|al menos|minimo de) (?P<n>{NUMBER}) "
    rf"(?:of (?:its|our|the|these)|dei (?:suoi|nostri)|delle (?:sue|nostre)|de (?:ses|nos|sus|nuestros)|unserer|"
    rf"ihrer|der) {PLAYERS}"
)
OR_MORE = re.compile(
    rf"(?:any |a )?subset of (?P<n>{NUMBER}) or more|(?:mindestens (?:jedoch |aber )?|minimo d[ei] |minimum (?:of|de) |"
    rf"at least |au moins |almeno |al menos )(?P<least>{NUMBER})\s*[.;]?$"
)
MOST = re.compile(
    rf"(?:at most|maximum(?: of)?|no more than|not more than|up to|hochstens|bis zu|"
    rf"max\.?)\s+(?P<n>{NUMBER})(?:\s+\w+)?\s+{PLAYERS}"
)
BETWEEN = re.compile(
    rf"(?:from |between |for )?(?P<n>{NUMBER})\s*(?:-|to|and|bis|or|a|et|e|y|"
    rf"oder)\s*(?P<m>{NUMBER})\s+(?:\w+\s+){{0,2}}?(?:of the \w+ (?:named )?)?{PLAYERS}"
)
WITH_PERFORMER = re.compile(
    rf"(?:works?|pieces?|opere|brani|obras|werke|stucke|oe?uvres) (?:for|per|para|fur|pour) (?P<n>{NUMBER}) "
    r"(?:live |sol[oa] |seul |einzig\w+ )?(?:performers?|players?|musicians?|instruments?|strument[oi]|instrumentos?|"
    r"interpret\w*|esecutor[ei]|instrumente?) (?:and|with|ed?|y|con|mit|und|et|avec) "
    r"(?:live )?(?:electronics|fixed media|tape|elettronica|electronica|elektronik|electronique)"
)
BODIES = {
    1: r"solos?", 2: r"du[oe]t?t?[oei]?s?", 3: r"trios?|terzett\w*", 4: r"quart\w+|quatuors?|cuartet\w+",
    5: r"quint\w+", 6: r"sext\w+|sestett\w+", 7: r"sept\w+|settimin\w+", 8: r"o[ck]t\w+|ottett\w+", 9: r"nonet\w*",
}  # fmt: skip
BODY = "|".join(BODIES.values())
FROM_BODY = re.compile(
    rf"(?<![a-z])(?:from (?:a )?|vom |von |du |dal |del? )(?P<n>{BODY}) (?:up )?(?:to (?:a )?|bis (?:zum )?|"
    rf"jusqu'au |au |al |a )"
    rf"(?P<m>{BODY})(?![a-z])"
)
"""*Anything from a trio to a sextet*, *du trio au sextuor*."""


def size_of(body: str) -> int:
    """
    >>> size_of("trio"), size_of("sextuor")
    (3, 6)
    """
    return next(size for size, pattern in BODIES.items() if re.fullmatch(pattern, body))


LISTED_BODIES = re.compile(
    rf"(?<![a-z])(?:{BODY})(?:(?:, | or | and | oder | und | ou | et | o | e | y )(?:{BODY}))+(?![a-z])"
)


def sizes_listed(said: str) -> list[int]:
    """Return how many play in each body of a list of nothing but bodies: *send us quartets, trios or duos*.

    >>> sizes_listed("send us quartets, trios or duos (not solos, thanks)")
    [4, 3, 2]
    """
    listed = LISTED_BODIES.search(said)
    if listed is None or not has(r"send|submit|we want|welcome|looking for|suchen|cerchiamo|buscamos|cherchons", said):
        return []
    return [size_of(one[0]) for one in re.finditer(BODY, listed[0])]


OF_THESE = re.compile(rf"(?:between |from )?(?P<n>{NUMBER}) (?:and|to|-) (?P<m>{NUMBER}) of (?:the|these|our)\b")
ONE_OR_TWO = re.compile(rf"(?P<n>{NUMBER}) (?:or|to) (?P<m>{NUMBER}) of (?:the|our|these)")
USUAL = (
    r"(?:usual|standard|normal|common|customary) (?:wood-?wind |wind )?(?:doublings?|auxiliar)|"
    r"ubliche nebeninstrumente|customary doublings|doublings? (?:are |"
    r"is )?(?:allowed|free|as usual)|all usual|doublures (?:usuelles|habituelles)|raddoppi (?:abituali|consueti)|"
    r"doblajes (?:habituales|usuales)|(?:ubliche|gangige) (?:neben|wechsel)instrumente|"
    r"changements? d'instruments? usuels?"
)
WITH_TIMPANI = (
    r"(?:incl\w*\.?|mit|including) (?:the )?(?:timpan|pauke)|timpan\w* (?:included|is one of|among|"
    r"counted)|one of whom (?:also )?plays timpani|einschliesslich"
)


EXTRA = re.compile(
    rf"(?<![\w-])(?!{NUMBER} \w+ (?:percussion|voice|part))(?P<count>{NUMBER})\s+(?:(?:extra|additional|further|"
    rf"more|other|weitere[rsn]?|zusatzliche[rsn]?|"
    rf"otr[oa]s?|altr[oia]|ulterior[ei]|autres?)\s+(?:free\s+|single\s+)?{PLAYERS}|"
    rf"{PLAYERS} (?:supplementaires?|aggiuntiv[oi]|supplementar[ei]|adicional(?:es)?|en plus|in piu|extra|de plus)\b)"
)


def extra_in(said: str) -> int | None:
    """Return how many players on any instrument may come in beside those that are named."""
    match = EXTRA.search(said)
    if match is None or has(r"no (?:more|further|other|extra)|finalists?|winner", said):
        return None
    return number_of(match["count"])


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
            extra = extra_in(said)
            forces = replace(forces, extra_players=forces.extra_players if extra is None else extra)
            least, most = players_in(plain(several(passage.text)))
            forces = replace(
                forces,
                players_min=forces.players_min if least is None else least,
                players_max=forces.players_max if most is None else most,
            )
    return forces


OF_SOME = (
    r"(?:almeno una?|au moins une?|al menos una?) (?:per|di|pour|de|para)\b|mindestens eine?[sr]? (?:fur|davon)\b|"
    r"di cui|"
    r"dont\b|(?<!einige )davon\b|de l[ao]s cuales"
)

DIVISI = re.compile(r"(?<![a-z])div(?:isi\b|\.)[^.;,()]*|in(?: up to)? \w+ (?:parts|voices)\b|\w+stimmig\w*")
"""Into how many parts singers divide says nothing of how many they are."""


def players_in(said: str) -> tuple[int | None, int | None]:
    """Return the least and most number of players that a sentence asks for; a rule on some works is none."""
    said = DIVISI.sub(" ", said)
    if has(OF_SOME, said):
        return None, None
    if has(r"at least one (?:must|of)|by which we mean|finalist|jury|large ensemble", said):
        return None, None
    with_some = WITH_PERFORMER.search(said)
    if with_some:
        return 0 if has("acousmatic|fixed media alone", said) else None, number_of(with_some["n"])
    if has(
        r"(?:without|no) (?:live )?(?:performers|players|musicians)(?! (?:may|can|will|double))|"
        r"acousmatic|ohne (?:spieler|interpreten)",
        said,
    ):
        return None, 0
    if has(r"(?:fur|pour|per|para) (?:tontrager\w*|support\w*|soportes?|supporto) (?:allein|seul|sol[oa])", said):
        return None, 0
    alone = has(r"alone|fixed media alone", said)
    bodies = FROM_BODY.search(said)
    if bodies:
        return size_of(bodies["n"]), size_of(bodies["m"])
    sizes = sizes_listed(said)
    if sizes:
        return min(sizes), max(sizes)
    both = LEAST_BARE.search(said)
    if both:
        return number_of(both["n"]), number_of(both["m"])
    between = BETWEEN.search(said) or OF_THESE.search(said) or ONE_OR_TWO.search(said)
    if between and number_of(between["n"]) < number_of(between["m"]):
        return (0 if alone else number_of(between["n"])), number_of(between["m"])
    more = OR_MORE.search(said)
    if more and (more["n"] or has(rf"{PLAYERS}|{SUBSET}", said)):
        return number_of(more["n"] or more["least"]), None
    among = LEAST_AMONG.search(said)
    if among:
        return number_of(among["n"]), None
    of_these = LEAST_OF_THESE.search(said)
    if of_these:
        return number_of(of_these["n"] or of_these["some"]), None
    some = re.search(rf"(?:or|and) (?:for )?any (?P<n>{NUMBER})(?: of (?:us|them|these))?(?=[,.;]|$)", said) or (
        re.search(
            rf"(?<![a-z])(?:or|o|ou|oder) (?:for |per |pour |fur |para )?(?P<n>{NUMBER}) "
            r"(?:of us|di noi|d'entre nous|von uns|de nosotros)",
            said,
        )
    )
    if some:
        return number_of(some["n"]), None
    least, most = LEAST.search(said), MOST.search(said)
    return (number_of(least["n"]) if least else None), (number_of(most["n"]) if most else None)


def binds(passage: Passage) -> bool:
    """Whether a sentence says how the forces bind, or how many players there must be."""
    said = passage.plain
    if has(rf"{SUBSET}|{EXACT}|{USUAL}", said) or NOT_ALL.search(said) or COMPULSORY.search(said) or extra_in(said):
        return True
    return players_in(plain(several(passage.text))) != (None, None)


def rule_of(passages: Sequence[Passage], texts: tuple[str, ...], choir: bool, label: str) -> ForcesRule:
    """Return how the forces bind: as ``label`` or a sentence says, else small bodies exactly, large ones at most."""
    said = " ".join(one.plain for one in passages)
    if choir or has(AT_MOST, label):
        return ForcesRule.AT_MOST
    if has(SUBSET, said) or any(NOT_ALL.search(one.plain) for one in passages):
        return ForcesRule.ANY_SUBSET
    if has(EXACT, said):
        return ForcesRule.EXACTLY
    if has(AT_MOST, forces_words(passages)):
        return ForcesRule.AT_MOST
    found = [reading(one) for one in texts]
    least = next((number for one in passages if (number := players_in(plain(several(one.text)))[0]) is not None), None)
    if least is not None and any(one is not None and most_of(one) > least for one in found):
        return ForcesRule.ANY_SUBSET if all(one is None or most_of(one) <= 20 for one in found) else ForcesRule.AT_MOST
    small = all(one is not None and most_of(one) <= 12 and len(one.lines) <= 10 for one in found)
    return ForcesRule.EXACTLY if small and texts else ForcesRule.AT_MOST


def forces_words(passages: Sequence[Passage]) -> str:
    """Return the sentences that speak of forces, where *at most* is about players."""
    about = rf"{LABEL}|players|instrument|strings|winds|blaser|streicher|flute|flote|violin"
    return " ".join(
        one.plain for one in passages if has(about, one.plain) and not has(r"minut|words|worter", one.plain)
    )
