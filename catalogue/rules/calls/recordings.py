"""Recordings that a call does not want: forbidden to be sent, or sent for nothing.

``Recordings are not accepted`` and ``Ne joignez pas d'enregistrement`` forbid, ``Aufnahmen werden nicht angehört`` and
``Recording: none`` do not want; ``Entries without a recording will not be considered`` demands one.
"""

from __future__ import annotations

import re

from catalogue.rules.calls.refusals import CLAUSES, NEGATION, NO_DEMAND, NOT_REQUIRED, refuses
from catalogue.rules.calls.terms import RecordingRule
from catalogue.rules.calls.words import has

RECORDING = (
    r"recordings?|aufnahmen?|tonaufnahme|enregistrement|registrazion|grabaci|audio (?:file|excerpt)|"
    r"sound file|mp3|opname|midi (?:reali[sz]ation|file|version|rendering)|live videos?|videos? (?:link|helps)|"
    r"(?:a |an )?(?:video|film) (?:of|recording)|tontrager|fichiers? (?:audio|son)\w*|file audio|archivos? de audio|"
    r"audiodatei\w*|audio\b(?! (?:guide|engineer|equipment|technician|interface|system))|mock-?ups?|audio links?|"
    r"horproben?|klangbeispiel\w*|tonbeispiel\w*|maquettes?\b|link to (?:a |an )?(?:audio|sound)|"
    r"(?:stereo )?(?:mix-?downs?|bounces?)\b"
)
FORBIDDEN = (
    r"(?:ton)?(?:aufnahmen?|trager) (?:sind|ist|durfen|darf|werden) nicht (?:zugelassen|erlaubt|gestattet|bei|ein|mit|"
    r"berucksichtigt|angenommen)|no recordings? will be (?:considered|accepted|heard|listened)|"
    r"aucun enregistrement (?:ne|n')(?! ?est (?:demand|exig|requis|necess|oblig))|(?:ne pas|"
    r"pas d'enregistrement)[^.;]{0,12}(?:joindre|envoyer)|"
    r"no se (?:admit|acept)\w+ grabacion|sin grabacion|non (?:sono )?(?:ammess\w|si accettano) (?:le )?registrazion|"
    r"(?:le )?registrazioni non sono ammess|nessuna registrazione|les enregistrements ne sont pas (?:admis|accept)|"
    r"no recordings?(?: may| are|,| please| should| must| can|$)|recordings? (?:may|must|should|"
    r"can)(?: ?not|not) be (?:enclosed|sent|"
    r"submitted|included)|returned unheard|do not (?:send|enclose|submit|include) (?:a |"
    r"any )?recording|keine aufnahmen? "
    r"(?:bei|ein|send)|recordings? (?:is|are) (?:forbidden|prohibited|not (?:allowed|permitted|admitted))"
)
UNWANTED = (
    r"recordings? will not be listened|"
    r"no recordings? (?:is |are )?(?:wanted|needed|necessary|required)|recordings? (?:are|is) (?:not|"
    r"neither) (?:wanted|needed|listened|expected|asked|considered|erwunscht)|not listened|"
    r"recordings? "
    r"not (?:wanted|needed)|aufnahmen? (?:sind|ist) nicht erwunscht|we (?:do|shall|will) not listen|"
    r"(?:ton)?aufnahmen? (?:ist|sind) nicht vorgesehen|recordings? (?:is|are) (?:of )?no use|we do not need (?:a |"
    r"any )?recording|pas besoin d'enregistrement|"
    r"non (?:serve|servono|"
    r"occorr\w+) (?:una )?registraz"
)
HEARD = r"(?:listen\w*|heard|hear\b|angehort|abgehort|ecoute\w*|entendu\w*|ascoltat\w|escuch\w+|audition\w+)"
UNHEARD = re.compile(
    rf"{NEGATION}[^.;]{{0,40}}?(?<![a-z]){HEARD}|(?<![a-z])(?:ignor(?:ed|iert|ees?|at[ei]|ad[ao]s)|disregarded|"
    rf"discarded)(?![a-z])"
)
SENDING = (
    r"(?:send\w*|sent|enclos\w*|submit\w*|includ\w*|attach\w*|upload\w*|add(?:ed)?\b|\w*schick\w*|\w*send(?:e\w*|et)|"
    r"(?:ein|bei)(?:zu)?(?:reich|leg|gelegt|fug|gefugt)\w*|eingereicht|hoch(?:zu)?lad\w*|hochgeladen|envoy\w*|"
    r"join\w+|joindre|"
    r"transmett\w*|invi\w+|alleg\w+|spedi\w+|envi\w+|adjunt\w+|mand\w+|remit\w+|aport\w+)"
)
MAY = (
    r"(?:can|may|kann|konnen|darf|durfen|peut|peuvent|pourra\w*|puo|possono|potra\w*|pueden?|podra\w*|free to|gern\w*|"
    r"gradit\w|welcome|souhait\w+|deseable|auspicabil\w|recomend\w+|wunschenswert|erwunscht)"
)
MAY_BE_SENT = re.compile(
    rf"(?<![a-z]){MAY}(?![a-z])[^.;]{{0,60}}?(?<![a-z])(?:{RECORDING})[^.;]*(?<![a-z]){SENDING}|"
    rf"(?<![a-z])(?:{RECORDING})[^.;]{{0,40}}?(?<![a-z]){MAY}(?![a-z])[^.;]{{0,30}}?(?<![a-z]){SENDING}|"
    rf"(?<![a-z]){MAY}(?![a-z])[^.;]{{0,30}}?(?<![a-z]){SENDING}[^.;]{{0,30}}?(?<![a-z])(?:{RECORDING})|"
    rf"(?<![a-z])(?:gradit\w|souhaitable|deseable|auspicabile|wunschenswert|erwunscht)[^.;]{{0,20}}?(?:{RECORDING})|"
    rf"(?<![a-z])(?:{RECORDING})[^.;]{{0,40}}?(?<![a-z])(?<!nicht )(?:erwunscht|wunschenswert|souhaite\w*|gradit\w|"
    rf"deseable|recommended)"
)
LACKING = re.compile(
    rf"(?<![a-z])(?:without|lacking|ohne|sans|senza|sin|not accompanied by)\b[^.;]{{0,30}}?(?:{RECORDING})"
)
LABELLED = re.compile(
    rf"^[^:]{{0,30}}?(?:{RECORDING})[^:]{{0,20}}: (?:no|none|nein|keine?|non|aucune?|nessuna|ninguna|-)\.?$"
)
PAID_FOR = r"(?:re)?(?:fund|pay|paid|produc|financ|finanz|forder|cover|subsid|record|publi|releas)\w*"
OF_A_KIND = r"render|computer|synth|midi|mock-?up|simul|sampled|live\b|[(]|than\b"
"""What is refused is one sort of recording, not every one."""


def refused_recording(said: str) -> RecordingRule | None:
    """Return how a plain passage refuses recordings, ``None`` where it does not.

    >>> str(refused_recording("aufnahmen werden nicht angehort"))
    'not wanted'
    """
    if LABELLED.search(said) or (has(UNWANTED, said) and not LACKING.search(said)):
        return RecordingRule.NOT_WANTED
    if has(FORBIDDEN, said):
        return RecordingRule.FORBIDDEN
    clauses = [one for one in CLAUSES.split(said) if has(RECORDING, one) and not LACKING.search(one)]
    clauses = [one for one in clauses if not NO_DEMAND.search(one)]
    if any(UNHEARD.search(one) for one in clauses):
        return RecordingRule.NOT_WANTED
    if any(
        not has(OF_A_KIND, one) and (is_not_to_be_sent(one) or refuses(one, RECORDING, PAID_FOR)) for one in clauses
    ):
        return RecordingRule.FORBIDDEN
    return None


def needs_none(said: str) -> bool:
    """Whether a plain passage says that a recording is not demanded, and may be sent."""
    return any(has(RECORDING, one) and re.search(NOT_REQUIRED, one) for one in CLAUSES.split(said))


def is_not_to_be_sent(clause: str) -> bool:
    """Whether a clause says not to send a recording: the negation and the verb in either order."""
    near = rf"{NEGATION}[^.;,]{{0,25}}?(?<![a-z]){SENDING}|(?<![a-z]){SENDING}[^.;,]{{0,8}}?{NEGATION}"
    found = re.search(near, clause)
    return found is not None and re.search(RECORDING, clause[max(0, found.start() - 40) : found.end() + 40]) is not None
