"""What a sentence of a call speaks of, so that a subject which no rule took from it is told.

Each subject has the fields that answer it, the words that name it in five languages, and what must stand beside them to
make it a condition: a bare *performance* in a sentence on prizes asks for nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from catalogue.rules.calls.entrants import ANY_COUNTRY, NO_LIMIT
from catalogue.rules.calls.materials import FEE_NOUN, PAID_OUT
from catalogue.rules.calls.passages import Passage
from catalogue.rules.calls.portfolios import NOT_SENT, PERSON, SENT
from catalogue.rules.calls.recordings import RECORDING
from catalogue.rules.calls.refusals import ADMITTED, NEGATION, NO_DEMAND, OUT
from catalogue.rules.calls.sound import DEVICES, SOLOISTS, VOICES
from catalogue.rules.calls.terms import Found
from catalogue.rules.calls.words import NUMBER, has

DEMAND = (
    rf"{NEGATION}|(?<![a-z])(?:must|should|shall|only|required?|please|eligib\w*|muss\w*|mussen|soll\w*|darf|durfen|"
    rf"nur\b|"
    rf"bitte|do(?:it|ivent|ivera)\b|devra\w*|seule?s?\b|dev(?:e|ono)\b|dovr\w+|solo\b|debe\w*|debera\w*|tendra\w*|"
    rf"sera\w*|unic\w+|{ADMITTED}|{OUT})"
)
COUNT = rf"(?<![\w])(?:{NUMBER})(?![\w])"
EARLIER = (
    r"already|before|previous\w*|earlier|first|bereits|schon|zuvor|vorher|erst\w*|deja|auparavant|prealabl\w*|"
    r"premiere|gia\b|"
    r"prima|preceden\w+|ya\b|antes|previa\w*|anterior\w*"
)


@dataclass(frozen=True, slots=True)
class Subject:
    """The beginnings of the fields that answer it, its words, what makes it a condition, what frees of it."""

    fields: tuple[str, ...]
    words: str
    beside: str
    free: str = "(?!)"


SUBJECTS = (
    Subject(
        ("duration", "total", "portal_excerpt", "forces", "deadline"),
        r"(?:play\w* |running )?(?:duration|length|timing)|\w*dauer\b|duree|durata|duracion|last(?:s|ing)?\b|"
        r"dur(?:a|e|en|ar|era)\b",
        COUNT,
        r"interview|talk\b|rehears\w*|residen\w+|workshop|course|programme note|words|years?\b",
    ),
    Subject(
        ("deadline", "results", "age", "composed"),
        r"deadline|closing date|due\b|einsendeschluss|anmeldeschluss|bewerbungsschluss|\w+frist\b|\w+schluss\b|"
        r"date limite|"
        r"cloture|scadenza|termine (?:ultimo|per)|fecha limite|plazo|cierre",
        r"\d",
    ),
    Subject(
        ("electronics", "channels", "recording", "set_rules", "forces"),
        DEVICES,
        DEMAND,
        r"programme note|video\b|documentation of",
    ),
    Subject(
        ("voices", "forces", "text_", "soloists", "electronics"),
        VOICES,
        rf"(?:{NEGATION}[^.;,]{{0,40}}?(?<![a-z])(?:{VOICES})|(?<![a-z])(?:{VOICES})[^.;,]{{0,40}}?(?:{NEGATION}|"
        rf"(?<![a-z]){OUT}))",
        rf"stimmenmat\w*|{NO_DEMAND.pattern}",
    ),
    Subject(
        ("soloists", "forces"),
        SOLOISTS,
        rf"(?:{NEGATION}[^.;,]{{0,40}}?(?<![a-z])(?:{SOLOISTS})|(?<![a-z])(?:{SOLOISTS})[^.;,]{{0,40}}?"
        rf"(?:{NEGATION}|(?<![a-z])(?:{OUT}|{ADMITTED})))",
    ),
    Subject(
        ("recording", "unrecorded", "set_rules", "portal_", "works", "electronics"),
        RECORDING,
        DEMAND,
        r"fund\b|project\b|prize|winner|will be recorded|we (?:will |shall )?record|preis\b|premio|premi\b|album",
    ),
    Subject(
        ("unperformed", "novelty", "versions", "set_rules"),
        r"(?:un)?performed|performances? of the (?:work|piece)|previous(?:ly)? perform\w*|premiered|(?:ur|"
        r"erst)?auf(?:ge)?fuhr\w*|"
        r"gespielt|execute?e?s?\b|jouee?s?\b|donnee?s?\b|creee?s?\b|eseguit\w|esecuzion\w|estrenad\w+|"
        r"interpretad\w+|estreno|broadcast\w*|gesendet",
        rf"(?:{NEGATION}|(?<![a-z])(?:{EARLIER}))[^.;]*",
        r"will be (?:\w+ )?(?:perform|premier)\w*|wird|werden (?!nicht)|sera\b|seront|verra\w*|saranno|sera\b|"
        r"seran\b|prize|"
        r"winning|selected|compositeur\w*|composers? who|programme note|biograph\w*|list of",
    ),
    Subject(
        ("unpublished", "documents", "exclusive"),
        r"(?:un)?published|in print\b|(?:un)?veroffentlich\w+|verlegt\w*|publiee?s?\b|editee?s?\b|pubblicat\w|"
        r"edit[oi]\b|"
        r"publicad\w+|editad\w+|inedit\w*",
        rf"{NEGATION}|(?<![a-z])(?:{EARLIER}|must|inedit|unpubl|unverof)",
        r"will be published|wird|werden (?!nicht)|(?:sera|saranno|verra\w*) pubbl\w+|results?|website|winner\w*|"
        r"ergebnis\w*",
    ),
    Subject(
        ("age",),
        r"age\b|aged|years (?:old|of age)|alter\b|altersgrenze|mindestalter|lebensjahr|\d\d jahren?\b|\d\d ans\b|"
        r"age\b|\d\d anni\b|"
        r"eta\b|edad\b|\d\d anos\b|birthday|born (?:after|before|on|in)|geboren|nee?s? (?:apres|avant|en|le)|"
        r"nat[ie] |nacid\w+",
        r"\d\d|(?<![a-z])(?:eighteen|twenty|thirty|forty)",
        rf"{NO_LIMIT}|cualquier edad|qualsiasi eta|qualunque eta|tout age|tous ages|categor\w+|kategorie\w*|"
        rf"works? of|our (?:players|members)|children|founded|gegrundet",
    ),
    Subject(
        ("composed", "versions", "age", "deadline", "unperformed", "results"),
        r"composed|written|completed|finished|komponiert|entst(?:and|eh)\w*|abgeschlossen|fertiggestellt|ecrite?s?\b|"
        r"composee?s?\b|achev\w*|scritt[aoei]|compost[aoei]|terminat[aoei]|compuest[ao]s?|escrit[ao]s?|terminad[ao]s?",
        r"(?:19|20)\d\d",
        r"born|geboren|will be (?:written|composed)|winn\w+|commission\w*|by (?:the )?residents?|programme note",
    ),
    Subject(
        ("residence",),
        r"nationalit\w*|citizen\w*|resident\b|residents\b|staatsburger\w*|staatsangehor\w*|wohnhaft|"
        r"wohnsitz|"
        r"citoyen\w*|residant\w*|domicili\w*|cittadin\w*|residenti?\b|nacionalidad|ciudadan\w*|living in|based in|"
        r"born in",
        r"(?<![a-z])(?:must|only|open to|eligib\w*|composers?|applicants?|entrants?|students?|komponist\w*|bewerber\w*|"
        r"compositeur\w*|compositor\w*|candidat\w*)",
        rf"{ANY_COUNTRY}|sans distinction|ohne unterschied|senza distinzione|sin distincion|irrespective|"
        rf"a (?:prescindere|qualunque)|(?:any|every) (?:age|nationality)|gleich welche\w*|qualsiasi|"
        rf"qualunque|cualquier|toutes? |tous |"
        rf"jeder|aller\b|"
        r"ogni nazional\w+|all countries|no (?:restriction|limit)\w*|keine",
    ),
    Subject(
        ("works", "set_rules", "portal_", "duration", "total", "deadline", "forces", "fee"),
        rf"{COUNT} (?:\w+ ){{0,2}}?{SENT}|(?:each|jede\w*|chaque|ogni|cada) {PERSON}",
        r"(?<![a-z])(?:submit\w*|send|enter\b|entries|entry|include|einreich\w*|eingereicht|einsend\w*|presente\w*|"
        r"envoy\w+|"
        rf"soumet\w*|invi\w+|presenta\w*|envia\w*|presentar\w*|limit\w*|max\w*|only|(?:per|pro|par|por) {PERSON})",
        rf"{NOT_SENT}|fees?\b|minut\w*|as many|recommendation|words?\b",
    ),
    Subject(
        ("fee",),
        FEE_NOUN,
        rf"\d|{NEGATION}",
        rf"{PAID_OUT}|travel|reise\w*|voyage|viaggi\w*|viaje\w*|copying|printing|performance fee|\w*honorar\w*",
    ),
    Subject(
        ("note_words", "portal_", "text_", "documents"),
        r"(?:words?|wort\w*|mots|parole|palabras|zeichen|characters|signes|caratteri|caracteres)\b",
        rf"{COUNT}\s*-?\s*(?:words?|wort|mots|parole|palabras|zeichen|char|signes|caratt|caract)",
    ),
    Subject(
        ("anonym", "portal_file"),
        r"anonym\w*|anonim\w*|motto\b|pseudonym\w*|pseudonim\w*|seudonim\w*|kennwort|devise\b|\blema\b|plica\b|"
        r"sealed envelope",
        r".",
        r"not (?:be )?anonym\w*|nicht anonym\w*",
    ),
    Subject(
        ("forces", "voices", "soloists", "extra", "set_rules", "works"),
        r"instrumentation|scored|forces|\w*besetzung|effectif|organico|plantilla|instrumentaci\w+|doubl(?:e|es|ing|"
        r"ings)\b|"
        r"players\b|musiker\w*|musiciens|esecutori|strumentisti|musicos|interpretes",
        rf"(?<![a-z])(?:{COUNT}|at (?:most|least)|up to|max\w*|min\w*|hochst\w*|mindest\w*|exceed|massim\w|almeno|"
        rf"como)",
        r"any forces|varied|contrasting|different|unterschiedlich\w*|verschieden\w*|minut\w*|words?\b|rehears\w*|"
        r"our players|will (?:play|perform)|prize|workshop|week\b",
    ),
)


def untaken(passage: Passage, found: Sequence[Found]) -> bool:
    """Whether a passage names a subject as a condition, and no rule took that subject from it."""
    taken = {one.field for one in found if one.start < passage.end and passage.start < one.end}
    return any(not any(name.startswith(one.fields) for name in taken) for one in subjects_of(passage.plain))


def subjects_of(said: str) -> Iterator[Subject]:
    """Yield the subjects of which a plain passage makes a condition."""
    for one in SUBJECTS:
        if has(one.words, said) and re.search(one.beside, said) and not has(one.free, said):
            yield one
