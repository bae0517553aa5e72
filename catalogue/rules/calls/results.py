"""When a call says what has become of the entries."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from catalogue.rules.calls.deadlines import STRONG
from catalogue.rules.calls.figures import Day, days_in
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.terms import Found
from catalogue.rules.calls.words import has

RESULTS = (
    r"results?\b|winners?\b|outcomes?\b|decisions?\b|notif\w+|short-?list\w*|(?:selected|chosen) (?:works?|pieces?|"
    r"composers?|scores?|entrants?)|laureat\w*|we (?:will )?(?:answer|reply|write back|decide|announce)|announce\w*|"
    r"ergebnis\w*|bekannt(?:gabe|gegeben|gemacht)|preistrager\w*|benachrichtig\w*|entscheidung\w*|jurysitzung|"
    r"retenu\w*|avisee?s?\b|informee?s?\b|contactee?s?\b|informiert|contattat\w|informad[ao]s|hear from us|"
    r"you(?:'ll| will) (?:know|be told)|antwort\w*|entscheid\b|bescheid\b|reponses?\b|rispost[ae]\b|"
    r"respuestas?\b|comunic\w+|resultats?\b|laureats?\b|palmares|decision du jury|notifie\w*|risultat\w|vincit\w+|"
    r"esit[oi]\b|"
    r"resultados?\b|fallo\b|ganador\w*|uitslag|winnaars?"
)
OTHER = (
    r"concert|premiere|performance of|perform\w* (?:on|in|at)|workshop|rehears|auffuhrung|urauffuhrung|konzert|ceremony"
)


def told_of_results(said: str, days: Sequence[Day]) -> list[Day]:
    """Return of several days, or of those of a sentence on the deadline, those before which results are spoken of."""
    ends = [0, *(one.end for one in days)]
    near = [one for one, since in zip(days, ends, strict=False) if has(RESULTS, said[since : one.start])]
    return [one for one in near if not has(STRONG, said[: one.start].rpartition(";")[2]) or one is not days[0]]


def read_results(passages: Sequence[Passage]) -> Iterator[Found]:
    """Yield the day on which results are told; of several the first, which tells who is still in."""
    for passage in passages:
        said = passage.plain
        if not has(RESULTS, said):
            continue
        days = days_in(passage.text)
        if len(days) > 1 or has(STRONG, said):
            days = told_of_results(said, days)
        near = [one for one in days if not has(OTHER, said[max(0, one.start - 30) : one.start])]
        if near:
            yield Found("results_on", near[0].day, passage.start, passage.end)
