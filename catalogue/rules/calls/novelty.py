"""Whether a work must be unperformed, unpublished or unrecorded, and whose performances count.

*They may have been performed* and *premiere not needed* say that there is no such demand; *a work that has never been
played cannot be entered* asks for the opposite.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import Found, Novelty, Players
from catalogue.rules.calls.words import has
from catalogue.rules.calls.zones import state_of_word

PERFORMED = (
    r"(?:un)?perform(?!ers?\b)|(?:un)?played|premi[eè]r|heard|urauffuhr|uraufgefuhrt|erstauffuhr|auffuhrung|aufgefuhrt|"
    r"ungespielt\w*|tocad[ao]s?\b|suonat[aoei]\b|unaufgefuhrt|erklung\w*|gespielt|execut|jouee?s?\b|creation\b|"
    r"creee?s?\b|eseguit|inedit|esecuzion|estren|"
    r"interpretad|broadcast|"
    r"donnee?s? en\b|public hearing|uitgevoerd|presented|\bsung\b|gesungen|chantee?s?\b|cantat[aoei]|cantad[ao]s?"
)
PLAYED = PERFORMED.replace("inedit|", "")
BY_PLAYING = PERFORMED.replace("broadcast|", "")
"""What is only barred from being broadcast may have been played."""
PUBLISHED = (
    r"publication\b(?! of)|(?:contract|signed|placed|lies) (?:with|to) (?:a |another )?publisher|"
    r"bei (?:einem )?verlag|chez un editeur|veroffentlichung|pubblicazione|publicacion|(?:un)?publish|in print|"
    r"printed or|"
    r"or printed|verlegt|veroffentlicht|unveroffentlicht|edite|"
    r"publiee?|pubblicat|publicad|inedit|im druck|gedruckt|imprimee?s?|stampat[aoei]\b|impres[ao]s?\b"
)
RECORDED = (
    r"commercially recorded|recorded commercially|unrecorded|commercial recording|not (?:been )?recorded|"
    r"released on|tontrager|(?:grabad|registrat|incis|enregistre|aufgenommen)\w* (?:en|su|sur|auf) (?:disc\w*|"
    r"disque|cd|"
    r"tontrager)|discograf\w+"
)
FREE = (
    r"welcome|no obstacle|no (?:problem|matter|bar|hindrance)|fine\b|does not matter|do not matter|doesn't matter|"
    r"need not|needn't|not (?:be )?(?:needed|required|necessary)|don't mind|do not mind|mind neither|may have been|"
    r"can have been|equally|no harm|may be (?:performed|published)|irrelevant|keine rolle|"
    r"durfen (?:schon|bereits|auch)|"
    r"darf (?:schon|bereits|auch)|kein hindernis|spielt keine|egal|peu importe|possono|pueden|"
    r"willkommen|allowed|either|"
    r"may already|whether or not|whether they|not a (?:condition|problem)|accepted|ok\b|unimportant|no premiere|"
    r"nicht erforderlich|need no|admitted|eligible|or not\b|no objection|of no|peut avoir|"
    r"may have had|peuvent avoir|(?<!no )podran? haber|schade[nt] nicht|stehen nicht entgegen|unschadlich|"
    r"puo essere|possono essere|pueden haber|doesn't|matters? not|don't matter|zugelassen|erlaubt|"
    r"admis(?:es)?\b|ammess[eio]|admitid|se admiten|keine (?:bedingung|voraussetzung)|kein (?:problem|muss)|"
    r"pos(?:e|ent) (?:pas de|aucun) probleme|(?:nessun|ningun) problema|non (?:e|sono) un problema|"
    r"n'est pas (?:exige|requis|necessaire)|non (?:e )?(?:richiest|necessari)\w|no es (?:necesari|requisit)\w|"
    r"sono benvenut|bienvenu|bienvenid|acceptee?s?\b|moglich|(?:is|are) not expected|nothing against|all the same|"
    r"no difference|no matter|sein durfen sie|durfen sie (?:auch )?sein|unerheblich|ohne belang|sin importancia|"
    r"ininfluente|indifferent\w*|toler\w+|"
    r"gedulde\w*|tollerat\w|(?:non|no) (?:e|es) (?:un[ao]? )?(?:obblig\w+|obligacion|condicion)|keine pflicht|"
    r"pas une obligation|no importa|non importa|poco importa|nichts (?:da)?gegen|rien n'empeche|"
    r"nulla (?:osta|contro)|nada en contra"
)
REFUSED = (
    r"not (?:be )?(?:eligible|accepted|admitted|allowed|considered|welcome|permitted)|ineligible|"
    r"nicht (?:zugelassen|willkommen|erlaubt|angenommen)|ne sont pas (?:admis|accept)\w*|non (?:sono )?ammess\w|"
    r"exclut|schlies+t[^.;]* aus\b|esclude|excluye|rules? [^.;]{0,20}out|disqualif\w+|"
    r"no se admit\w*|cannot (?:be )?(?:enter\w*|considered|accepted|admitted)|konnen nicht|exclu[es]\w*|esclus\w|"
    r"excluid\w+|ausgeschlossen"
)
BARRED = (
    r"(?:must|has to|shall|will) (?:give|have|be) (?:the|its|a) (?:\w+ )?(?:first performance|premiere)|"
    r"ungespielt\w*|ningun\w* [^.;]{0,30}hay|nessun\w* [^.;]{0,30}(?:abbia|ha)\b|aucun\w* [^.;]{0,30}n'a|"
    r"nothing (?:that|which)|nichts|nicht (?:schon|bereits)|(?:darf|durfen) [^.;]{0,30}?nicht|must not|may not|"
    r"weder\b|neither|not previously|no (?:\w+,? ){1,5}has (?:yet |ever )?(?:played|performed)|"
    r"not (?:yet )?(?:have )?been|not have|has not|have not|hasn't|haven't|never|unperform|unplay|"
    r"is out\b|are out\b|excluded|no (?:previous|earlier|prior) (?:public )?perform|not (?:yet )?(?:be )?(?:publicly )?"
    r"perform|noch nicht|noch nie|nicht (?:offentlich )?aufgefuhrt|unaufgefuhrt|unpublish|"
    r"unveroffentlicht|world premiere|"
    r"first performance|premiere (?:of|must|is to be)|uraufgefuhrt werden|zur urauffuhrung|jamais|n'a(?:ura)? pas|"
    r"ne doit pas|inedit|mai (?:stat|eseguit)|non (?:dev(?:e|ono|'essere)|essere)|nunca|no (?:haya|debe|podra|"
    r"habra)|cannot be|"
    r"nor\b|not yet|"
    r"can't take|cannot take|non (?:pubblicat|eseguit|edit)|pas (?:publ|edit|joue)\w*|no (?:publicad|editad)|"
    r"unrecorded|unverlegt|not published|not performed|not (?:\w+ly )?recorded|nicht verlegt|but not|"
    r"rather not|prefer not|no (?:haber|estrenad\w*|interpretad\w*|ejecutad\w*)|sin estrenar|ne doi\w+ avoir ete|"
    r"n'(?:a|ont) ete ni|ni\b|nec\b|sin\b|"
    r"n'est pas|n'ont pas|n'a pas|non (?:devono|deve|e|sono|ancora)|no (?:deben|debe|este|esten|esta|estan|hayan)"
)
ONLY_NEW = (
    r"(?:only|nur|seules?|solo|unicamente|soltanto)\b[^.;]{0,50}?(?<![a-z])(?:never|not\b|un(?:perform|publish|"
    r"play)|nie\b|nicht\b|"
    r"unauf|unveroff|jamais|non\b|inedit|mai\b|no\b|nunca)"
)
SOFT = (
    r"prefer(?:iamo|ibil\w+|imos|ons|erons|entemente)|bevorzug\w*|lieber|de preference|preferr|preference|"
    r"bevorzugt|priority|ideally|vorzugsweise|recommended"
)
NOT_COUNTED = (
    r"(?:do|does|will) not count|no harm|don't count|zahlen nicht|nicht gezahlt|is not counted|"
    r"are no obstacle|ne comptent"
)
EVENT = r"readings?|rehears|workshop|lesepro|probe|lectures?|play-?through|leseproben|reading session|private"
STUDENTS = r"alumn|alliev|eleves|student|amateur|laien|studierende|school|conservat|etudiant|amateurs|student"
PROFESSIONAL = r"professional|berufs|profi\b|professionell|professionn|profesional|profession"
PROFESSIONAL_ORCHESTRAS = (
    r"(?:berufs|profi)orchester|orchestres? professionnels?|orchestr[ae] profession\w+|orquestas? profesional(?:es)?"
)
OF_COMPOSERS = re.compile(
    r"(?:composers?|entrants?|applicants?|compositeurs?|compositrices?|compositori|compositores|komponist\w*) "
    r"(?:who|whose|that|die|deren|qui|dont|che|que|cuyas?) [^.;]{0,30}?(?:not|never|noch n\w+|pas|jamais|non|mai|"
    r"no|nunca)\b"
)
"""What composers have not had yet: *who have not yet been performed* asks nothing of the work that is sent."""
WANTS_PLAYED = re.compile(
    r"(?:never|not|noch nie|noch nicht|yet to)[^.;]{0,30}(?:played|performed|heard|gespielt|aufgefuhrt)[^.;]{0,40}"
    r"(?:cannot|can not|must wait|not eligible|excluded|ineligible|kann nicht|nicht zugelassen|not be)"
)
HISTORY = (
    r"list of (?:past |previous )?performances|tell us where|performance history|first performance[);]|will be "
    r"(?:performed|played|premiered)|performance in|performance of the winning|receives|prize|"
    r"winning|selected (?:works?|"
    r"pieces?)|performed (?:by us|at the|in the|on)|recording of|live (?:performance|recording)|"
    r"how long|performed for you|offer of a (?:first )?performance"
    r"|will perform|performance by the|give the (?:first|premiere)|for performance|"
    r"students? of the|wird (?:\w+ )*aufgefuhrt"
)
ELSEWHERE = (
    r"planned|scheduled|fixed|promised|committed|before the (?:final|concert|festival|reading)|"
    r"geplant|vorgesehen|until the"
)
IN_STATE = re.compile(
    r"\b(?:in|im|en|au|aux|nell?[oa]?|negli)\s+(?:the\s+|der\s+|den\s+|la\s+|"
    r"el\s+)?(?P<place>[A-Z]\w+(?:\s[A-Z]\w+)?)|(?P<of>[A-Z]\w+)\s+(?:premi|first perf|Erst)"
)


def read_novelty(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield whether the works must be unperformed, by whom and before whom, and unpublished."""
    demanded: Passage | None = None
    scope = Novelty()
    for passage in passages:
        said, where = passage.plain, (passage.start, passage.end)
        if demanded and is_scope(said):
            scope = narrowed(scope, said)
            yield Found("novelty", scope, *where, rank=3)
            continue
        if demanded is None and is_demand(said):
            demanded, scope = passage, scope_of(passage, said)
            yield Found("unperformed", True, *where, rank=2)
            yield Found("novelty", scope, *where, rank=2)
            yield Found("novelty_text", passage.text, *where)
        elif is_free(said, BY_PLAYING) and not has(r"student and amateur", said):
            yield Found("unperformed", False, *where, rank=1)
        yield from published_in(said, where)


def is_scope(said: str) -> bool:
    about = has(STUDENTS, said) or has(EVENT, said) or has("performances|auffuhrungen", said)
    return (about and has(NOT_COUNTED, said)) or (has(r"readings?|workshops|student", said) and has(r"counts?\b", said))


def is_demand(said: str) -> bool:
    if not has(BY_PLAYING, said) or WANTS_PLAYED.search(said) or has(SOFT, said) or OF_COMPOSERS.search(said):
        return False
    if has(rf"not from professionals|is out\b|{NOT_THERE}", said):
        return True
    clauses = [one for one in clauses_of(said) if has(PERFORMED, one)]
    freed = any(is_free(one, PLAYED) and not is_barred(one) for one in clauses)
    if not any(is_barred(one) for one in clauses if not freed or has(PLAYED, one)):
        return False
    return not has(HISTORY, said) or has(r"must not|has not|have not|never|unperform|noch nicht|nothing that", said)


def is_barred(clause: str) -> bool:
    if has(REFUSED, clause) and not has(FREE, re.sub(REFUSED, " ", clause)):
        return True
    return has(BARRED, clause) and (has(ONLY_NEW, clause) or not has(FREE, clause) or has(r"must not|may not", clause))


def clauses_of(said: str) -> list[str]:
    """Return what is said on either side of a *but*, and behind a comma where that frees of something else."""
    parts = re.split(
        r";|,? (?:siempre que|siempre y cuando|pourvu que|a condition que|purche|a patto che|sofern|"
        r"provided(?: that)?|as long as|"
        r"vorausgesetzt|solange) | but | aber | allerdings | jedoch | sondern | mais | ma | pero |,? (?:although|"
        r"though|aunque|obwohl|bien que|anche se) ",
        said,
    )
    return [clause for part in parts for clause in freed_apart(part)]


BOUND = r"(?:must|should|muss\w*|mussen|soll\w*|do(?:it|ivent)|devra\w*|dev\w+|dovr\w+|deb\w+)\b"


def freed_apart(clause: str) -> list[str]:
    """Return a clause in two where what follows a comma frees of one thing and what precedes it bars another."""
    before, comma, after = clause.rpartition(", ")
    apart = has(BOUND, before) and has(rf"{PERFORMED}|{PUBLISHED}", before) and has(rf"{PERFORMED}|{PUBLISHED}", after)
    return [before, after] if comma and apart and has(FREE, after) and not has(REFUSED, after) else [clause]


def is_free(said: str, about: str) -> bool:
    return has(about, said) and has(FREE, said)


def scope_of(passage: Passage, said: str) -> Novelty:
    professional = has(PROFESSIONAL, said) and not has(r"or amateur|or student|professional or\b|amateur or\b", said)
    orchestra = professional and has(rf"(?:{PROFESSIONAL})\w*\s+(?:\w+\s+)?(?:orchestra|orchester)", said)
    orchestra = orchestra or has(PROFESSIONAL_ORCHESTRAS, said)
    any_orchestra = not professional and has(r"no orchestra|by an(?:y)? orchestra|an orchestra has", said)
    by = (
        Players.ORCHESTRA
        if any_orchestra
        else Players.PROFESSIONAL_ORCHESTRA
        if orchestra
        else Players.PROFESSIONALS
        if professional
        else Players.ANYONE
    )
    closed = has(
        r"even at a closed|closed readings? (?:included|count)|including (?:readings|workshops|"
        r"private)|readings included|"
        r"in any form|not even|even in (?:a )?(?:workshop|reading|private)|workshops? (?:or|and|included)|"
        r"(?:been|be|or|nor|ever) (?:\w+ or )?read\b(?! (?:more|further|on|about))|read,? (?:or |and )?(?:recorded|"
        r"rehearsed|"
        r"performed|played|workshopped)|private(?:ly)? or public|publicly or privately|nor (?:read|workshopped|"
        r"rehearsed)|auch nicht|in whatever",
        said,
    ) or (by is Players.ANYONE and has(r"never (?:been )?(?:played|heard|sounded)", said) and not has("public", said))
    return Novelty(
        by=by,
        closed=closed,
        open_rehearsals=closed or has(r"open rehearsals? (?:count|included)", said),
        students=not professional,
        planned=has(ELSEWHERE, said),
        country=state_in(passage.text),
    )


def state_in(text: str) -> str:
    for match in IN_STATE.finditer(text):
        code = state_of_word(match["place"] or match["of"])
        if code:
            return code
    return ""


def narrowed(scope: Novelty, said: str) -> Novelty:
    """Return the scope with what a further sentence leaves out or counts in."""
    counts = not has(NOT_COUNTED, said)
    if has(STUDENTS, said):
        scope = replace(scope, students=counts)
    if has(EVENT, said):
        scope = replace(scope, closed=counts, open_rehearsals=counts)
    return scope


NOT_THERE = (
    r"(?:aber|jedoch|allerdings|nur) (?:noch )?nicht (?:von|durch|(?:in|im)(?! (?:druck|verlag|handel|rundfunk)))\b|"
    r"ma non (?:ancora )?(?:da|dalle|dal|in|nell?\w*)\b|"
    r"mais pas (?:encore )?(?:par|en|au|a)\b|pero (?:todavia |aun )?no (?:por|en)\b|"
    r"but not(?! (?:\w+ly )?(?:recorded|published))|maar (?:nog )?niet in|provided (?:that )?(?:the|no|"
    r"any) (?:\w+ )?performance|"
    r"unless (?:it|they) (?:was|were|has been|have been|took place) (?:in|by|at)|es sei denn,? (?:sie \w+ )?(?:in|"
    r"von|durch)|"
    r"(?:sauf|sinon) (?:en|au|par)|(?:salvo|tranne|excepto) (?:in|en|por|da)|(?:except|other than) (?:in|by)|"
    r"ausser (?:in|durch)|"
    r"(?:purche|pourvu que ce ne soit|siempre que|sofern|solange|vorausgesetzt,?|(?:provided|as long as)(?: it was)?) "
    r"(?:non|pas|no|nicht|not) (?:in|im|nel\w*|en|au)\b(?! (?:druck|verlag))|"
    r"(?:provided|as long as) (?:that )?(?:it|they) (?:was|were|has|have) not"
)
PRINTED_OUT = re.compile(
    r"(?:verlegt|veroffentlicht|published|printed|publie|edite|pubblicat|publicad)\w*(?: (?:works?|pieces?|ones|"
    r"werke|stucke|oe?uvres|brani|obras))?(?: (?:are|sind|sont|sono))?"
    r" (?:not|nicht|non|no|pas)(?=[.,;]|$)"
)


def published_in(said: str, where: tuple[int, int]) -> Iterator[Found]:
    if any(has(RECORDED, one) and has(BARRED, one) and not has(FREE, one) for one in clauses_of(said)):
        yield Found("unrecorded", True, *where)
    if not has(PUBLISHED, said) or has(r"will be published|publication of the|website|results", said):
        return
    clauses = [one for one in clauses_of(said) if has(PUBLISHED, one)] or [said]
    if PRINTED_OUT.search(said) or any(has(REFUSED, one) and is_barred(one) for one in clauses):
        yield Found("unpublished", True, *where, rank=2)
    elif any(is_free(one, PUBLISHED) for one in clauses):
        yield Found("unpublished", False, *where, rank=1)
    elif any(has(BARRED, one) for one in clauses):
        yield Found("unpublished", True, *where, rank=2)
