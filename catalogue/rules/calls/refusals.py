"""What a sentence of a call refuses: the thing and a negation in either order, over what *and*, *or*, *nor* join.

``No soloists, voices or electronics``, ``Works with electronics are not eligible``, ``Electronics: none`` and ``Auf
Elektronik ist zu verzichten`` refuse; ``Electronics are not required`` and ``with or without electronics`` do not.
"""

from __future__ import annotations

import re
from functools import lru_cache

NEGATION = (
    r"(?<![a-z])(?:no(?!-)\b|not\b|cannot\b|\w+n't\b|nothing\b|nichts\b(?! (?:da)?gegen)|tampoco\b|neanche\b|"
    r"nemmeno\b|neither\b|none of\b|nor\b|never\b|without\b|"
    r"avoid\w*|exclud\w+|"
    r"kein\w*|ohne\b|weder\b|nicht\b|noch\b(?! nicht)|verzicht\w*|sans\b|ni\b|ne\b|n'(?=\w)|aucun\w*|pas d[e']|"
    r"exclu\w*|"
    r"senza\b|niente\b|non(?!-)\b|nessun\w*|esclu\w+|sin\b|ningun\w*|evit\w+|geen\b|zonder\b)"
)
REQUIRED = (
    r"(?:required|needed|necessary|compulsory|mandatory|obligatory|essential|need\b|require\b|erforderlich|notig|"
    r"notwendig|verpflichtend|zwingend|bedingung|voraussetzung|obligatoires?|necessaires?|exige\w*|requis\w*|"
    r"obbligator\w+|necessari\w+|preciso\b|hace falta|occorr\w+|richiest\w+|richied\w+|demandee?s?\b|verlangt|"
    r"gefordert|pedid[oa]s?|solicit\w+|"
    r"asked for|obligatori\w+|necesari\w+|imprescindible\w*|se requier\w+)"
)
NOT_REQUIRED = rf"{NEGATION}[^.;,]{{0,25}}?(?<![a-z]){REQUIRED}|need not|needn't|kein muss|no need"
NO_DEMAND = re.compile(
    rf"{NOT_REQUIRED}|with or without|avec ou sans|con o (?:senza|sin)|mit oder ohne|met of zonder|not only|nicht nur|"
    r"non solo|pas seulement"
)
ADMITTED = (
    r"(?:admit\w*|admis\w*|accept\w*|allow\w*|permit\w*|permis\w*|eligib\w*|consider\w*|possib\w*|available|provid\w+|"
    r"offer\w*|welcome\w*|want(?:ed)?\b|used?\b|include\w*|zugelassen|zulassig|erlaubt|gestattet|angenommen|moglich|"
    r"vorgesehen|"
    r"erwunscht|berucksichtigt|verwendet|autoris\w*|recevable\w*|prevue?s?\b|retenue?s?\b|ammess\w|consentit\w|"
    r"accettat\w|previst\w+|permess\w|valutat\w|acept\w+|posible\w*|tenid[ao]s? en cuenta|utiliz\w+|option\w*|"
    r"eingesetzt|zur verfugung|willkommen)"
)
OUT = (
    r"(?:excluded|out(?=[.,;]|$)|out of the question|ruled out|beyond (?:our|us|the|what)\b|forbidden|prohibited|"
    r"barred|ineligible|inadmissible|unavailable|ausgeschlossen|ausschlies?sen\b|(?:nicht|kaum) in frage|"
    r"hors de question|scheid\w+ aus|ecarte\w*|quedan? fuera|fuori discussione|descartad[ao]s?|"
    r"unzulassig|unerwunscht|verboten|untersagt|zu verzichten|abzusehen|exclue?s?\b|interdit\w*|proscrit\w*|"
    r"esclus\w|vietat\w|"
    r"excluid\w+|prohibid\w+|(?:not|nicht|non|pas)(?=[.,;]|$)|not (?:what|something) we (?:\w+ )?(?:after|want|seek|"
    r"look)\w*|"
    r"not (?:what|something) we(?:'re| are) (?:after|looking)|not sought|nicht gesucht)"
)
ONLY_A_LIMIT = re.compile(
    r"(?<![a-z])(?:than|als\b|only|just|limits?|restrict\w*|prefer\w*|all\b|alle\b|tous|toutes|tutt[ie]|todos|todas|"
    r"every|fee|fees|charge|deadline|age)(?![a-z])"
)
"""What takes a negation to itself: *no more than four voices*, *not all voices*, *no fee, and singers are paid*."""
CLAUSES = re.compile(
    r"[.;!?]+(?:\s+|$)|,? (?:but|however|though|whereas|while|aber|jedoch|sondern|mais|ma|pero|sino|maar) "
)
NONE = re.compile(
    r"\s*(?:\([^)]*\))?\s*:\s*(?:no\b|none\b|not\b|nein\b|kein\w*|nicht\b|non\b|aucun\w*|pas\b|sans\b|ness\w+|"
    r"ningun\w*|"
    r"excluded|ausgeschlossen|exclue?s?\b|esclus\w|excluid\w+|geen\b)"
)
REFUSED_LABEL = re.compile(
    rf"^[^:]{{0,40}}?(?:{NEGATION}[^:]{{0,20}}?(?<![a-z]){ADMITTED}|(?<![a-z]){OUT})[^:]{{0,12}}:\s*(?=.{{4}})|"
    r"^(?:nicht (?:moglich|zugelassen|erlaubt)|not (?:allowed|permitted|possible|accepted|admitted)|excluded|"
    r"ausgeschlossen(?: sind)?|(?:what |things? )?we (?:cannot|can't|do not|don't) (?:do|offer|provide|use|want|have|"
    r"take)|"
    r"(?:was )?(?:nicht geht|wir nicht \w+)|exclus|non admis|esclusi|non ammessi|excluidos|no se admiten|"
    r"no admitidos)\s*:\s*|"
    r"^(?:quedan? (?:fuera|excluid[ao]s)|ausgeschlossen sind|nicht zugelassen sind|(?:sono |restano )?esclus[ei]|"
    r"(?:sont )?(?:exclus|exclues|ecarte\w*)|(?:excluded|ruled out|ineligible) are)\s+"
)


AS_ARE = r"(?:as|so|nor|neither|likewise|ebenso|genauso|wie auch|ainsi que|tout comme|cosi come|asi como)(?![a-z])"
"""What makes a refusal go on to the things that follow: *concertos are ineligible, as are works with voices*."""


NOT_BUT = re.compile(r"(?<![a-z])(nicht|nie|kein\w*|non|no) (aber|jedoch|hingegen|dagegen|pero|ma)(?![a-z])")
"""*Nicht aber mit Gästen* refuses what follows it, as *aber nicht mit Gästen* does."""


@lru_cache(maxsize=64)
def refusal_of(thing: str) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """Return what finds a thing with a negation before it, and with a refusal behind it."""
    named = rf"(?<![a-z])(?:{thing})"
    before = re.compile(rf"{NEGATION}(?P<gap>[^.;:]{{0,70}}?){named}(?P<rest>[^.;]*)")
    refused = rf"(?<![a-z])(?:{NEGATION}[^.;,]{{0,25}}?(?<![a-z]){ADMITTED}|{OUT})"
    return before, re.compile(
        rf"{named}(?P<gap>[^.;]{{0,80}}?){refused}|{refused}(?P<alike>,? {AS_ARE}[^.;]{{0,90}}?){named}"
    )


def refuses(said: str, thing: str, unless: str = "(?!)") -> bool:
    """Whether a plain passage says that what ``thing`` matches may not be: words as ``words.has`` takes them.

    Words that match ``unless`` between the thing and its refusal say that something else is refused.

    >>> refuses("neither singers nor electronics", "electronics"), refuses("electronics: none", "electronics")
    (True, True)
    >>> refuses("electronics are not required", "electronics")
    False
    """
    said = NOT_BUT.sub(r"\2 \1", REFUSED_LABEL.sub("no ", said))
    label = re.match(rf"(?:[^:]*(?<![a-z]))?(?:{thing})[^:]{{0,20}}?(?={NONE.pattern})", said)
    if label and not NO_DEMAND.search(said):
        return True
    return any(clause_refuses(one, thing, unless) for one in CLAUSES.split(said))


def clause_refuses(clause: str, thing: str, unless: str) -> bool:
    before, behind = refusal_of(thing)
    if NO_DEMAND.search(clause):
        return False
    found = before.search(clause)
    if (
        found
        and not re.search(rf"{ONLY_A_LIMIT.pattern}|{unless}", found["gap"])
        and not re.match(r"[^,]*\b(?:than|divi\w+)\b", found["rest"])
    ):
        welcome = re.search(rf"(?<![a-z]){ADMITTED}", found["rest"])
        if not (welcome and "," in found["gap"]):
            return True
    found = behind.search(clause)
    return found is not None and not re.search(
        rf"(?<![a-z])(?:{ADMITTED}|fine\b|{unless})", found["gap"] or found["alike"] or ""
    )
