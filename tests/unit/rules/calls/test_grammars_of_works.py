"""Durations, numbers of works and refusals in sentences of calls in five languages: their grammar, not phrases.

The sentences are invented; what is wanted is what a careful person reads.
"""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.rules.calls.plain_values import call_values
from catalogue.rules.calls.reading import read_call


def values_of(text: str) -> dict[str, Any]:
    return call_values(read_call(f"An invented call\n\n{text}\n\nDeadline: 15 January 2027").call)


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [
        ("The work lasts no fewer than 6 and no more than 9 minutes.", 6, 9),
        ("Works should be between 5 and 8 minutes in length.", 5, 8),
        ("Not shorter than 7 nor longer than 11 minutes.", 7, 11),
        ("Pieces of 4 to 6 minutes are sought.", 4, 6),
        ("Maximum length 12 minutes, minimum length 8 minutes.", 8, 12),
        ("Duration: min. 5, max. 10 minutes", 5, 10),
        ("Duration (minutes) | 5–10", 5, 10),
        ("The piece must not last longer than ten minutes.", None, 10),
        ("Anything over 15 minutes will be disqualified.", None, 15),
        ("Die Spieldauer soll nicht weniger als 8 und nicht mehr als 14 Minuten betragen.", 8, 14),
        ("Die Werke dürfen 12 Minuten nicht überschreiten und sollen mindestens 6 Minuten dauern.", 6, 12),
        ("Dauer: zwischen 5 und 9 Minuten", 5, 9),
        ("Das Stück dauert höchstens 10, mindestens 6 Minuten.", 6, 10),
        ("Spieldauer maximal 15 Min., Mindestdauer 8 Min.", 8, 15),
        ("Das Werk soll eine Länge von 7 bis 10 Minuten haben.", 7, 10),
        ("Die Aufführungsdauer darf acht Minuten nicht unter- und zwölf Minuten nicht überschreiten.", 8, 12),
        ("La durée ne sera pas inférieure à 6 minutes ni supérieure à 10 minutes.", 6, 10),
        ("L'œuvre durera pas moins de 8 ni plus de 14 minutes.", 8, 14),
        ("D'une durée comprise entre 7 et 12 minutes, l'œuvre est inédite.", 7, 12),
        ("Durée maximale : 10 minutes ; durée minimale : 5 minutes.", 5, 10),
        ("La durée n'excédera pas 9 minutes.", None, 9),
        ("D'une durée de 6 à 8 minutes environ.", 6, 8),
        ("Le composizioni avranno una durata non inferiore a 7 e non superiore a 10 minuti.", 7, 10),
        ("La durata massima è di 12 minuti, quella minima di 8.", 8, 12),
        ("Non meno di 8 e non più di 14 minuti di durata.", 8, 14),
        ("Il brano dovrà durare tra i 5 e gli 8 minuti.", 5, 8),
        ("Durata: dai 6 ai 9 minuti.", 6, 9),
        ("La durata dei brani non può eccedere i 10 minuti.", None, 10),
        ("La duración no será inferior a 6 minutos ni superior a 12.", 6, 12),
        ("Las obras tendrán una duración de entre 8 y 12 minutos.", 8, 12),
        ("La obra no excederá de los 10 minutos.", None, 10),
        ("Duración mínima: 5 minutos. Duración máxima: 9 minutos.", 5, 9),
        ("Las piezas no podrán durar más de quince minutos.", None, 15),
        ("Se admiten obras con una duración máxima de 12 minutos y mínima de 7.", 7, 12),
        ("We would like pieces no shorter than 3 and no longer than 5 minutes.", 3, 5),
        ("Your piece should run for 4–7 min.", 4, 7),
        ("Ideal length is 5 minutes; 8 minutes is the absolute maximum.", None, 8),
        ("Time limit: 9'", None, 9),
        ("Length    |  not over 10 min", None, 10),
        ("Die Dauer der Komposition darf 10 Minuten nicht übersteigen.", None, 10),
        ("Gewünscht sind Stücke von mindestens vier und höchstens sieben Minuten.", 4, 7),
        ("Das Stück sollte nicht kürzer als 5 und nicht länger als 8 Minuten sein.", 5, 8),
        ("Zeitrahmen: 6–9 Minuten", 6, 9),
        ("Aufführungsdauer: ca. 8 bis 12 Minuten", 8, 12),
        ("Les pièces, d'une durée de huit minutes maximum, sont écrites pour le quintette.", None, 8),
        ("La durée est limitée à 10 minutes.", None, 10),
        ("Durée : entre 6 et 9 minutes", 6, 9),
        ("Elle ne dépassera pas dix minutes.", None, 10),
        ("Durée minimale de 4 minutes, maximale de 7.", 4, 7),
        ("La durata non dovrà superare i 10 minuti.", None, 10),
        ("Durata compresa tra 6' e 9'", 6, 9),
        ("Il pezzo, della durata massima di dieci minuti, sarà per quartetto d'archi.", None, 10),
        ("Durata minima 5 minuti, massima 8 minuti.", 5, 8),
        ("La duración máxima será de 10 minutos.", None, 10),
        ("La duración oscilará entre los 7 y los 10 minutos.", 7, 10),
        ("Duración: no más de 12 minutos ni menos de 6", 6, 12),
        ("Piezas de no más de ocho minutos.", None, 8),
    ],
)
def test_a_duration_is_bounded_by_a_word_a_negation_and_a_number_in_any_order(
    text: str, least: int | None, most: int | None
) -> None:
    values = values_of(text)

    assert [values[name] and values[name] // 60 for name in ("duration_min", "duration_max")] == [least, most]
    assert not values["duration_strict"]


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [
        ("One entry per composer.", None, 1),
        ("Each composer may enter one work only.", None, 1),
        ("Entry limit: 1", None, 1),
        ("Entries per composer: two at most", None, 2),
        ("Composers may submit a maximum of two scores.", None, 2),
        ("You may submit as many as three pieces.", None, 3),
        ("Only one submission per person is permitted.", None, 1),
        ("Number of works: 1", None, 1),
        ("Limit of one score per applicant.", None, 1),
        ("Jede Person darf höchstens zwei Werke einreichen.", None, 2),
        ("Es darf nur ein Werk eingereicht werden.", None, 1),
        ("Anzahl der Werke: 1", None, 1),
        ("Pro Teilnehmerin oder Teilnehmer ist eine Einreichung möglich.", None, 1),
        ("Einzureichen sind drei Partituren.", 3, 3),
        ("Un seul ouvrage par candidat.", None, 1),
        ("Chaque candidat ne peut présenter qu'une seule œuvre.", None, 1),
        ("Une œuvre par personne.", None, 1),
        ("Nombre d'œuvres : deux au maximum", None, 2),
        ("Le dossier comprend deux partitions récentes.", 2, 2),
        ("Massimo due brani per autore.", None, 2),
        ("Ogni compositore può presentare una sola opera.", None, 1),
        ("È ammessa una sola partitura per concorrente.", None, 1),
        ("Numero di opere: massimo 2", None, 2),
        ("Cada autor podrá presentar una única obra.", None, 1),
        ("Cada participante podrá enviar hasta dos obras.", None, 2),
        ("Sólo se admitirá una obra por concursante.", None, 1),
        ("Número de obras: una por autor", None, 1),
        ("Número máximo de obras: 2", None, 2),
        ("Composers are limited to one submission.", None, 1),
        ("Maximum entries: 3", None, 3),
        ("You can enter more than one piece, up to a maximum of three.", None, 3),
        ("Please submit only one piece.", None, 1),
        ("A composer may not submit more than two works.", None, 2),
        ("Submit two or three recent scores.", 2, 3),
        ("No more than one piece per composer, please.", None, 1),
        ("Es können bis zu drei Werke eingereicht werden.", None, 3),
        ("Höchstens ein Werk pro Komponistin.", None, 1),
        ("Jeder Teilnehmer kann sich mit maximal zwei Werken bewerben.", None, 2),
        ("Mehrfacheinreichungen sind nicht möglich: ein Werk je Person.", None, 1),
        ("Beizufügen sind zwei Partituren.", 2, 2),
        ("Deux œuvres au plus par compositeur.", None, 2),
        ("Chaque compositeur peut envoyer deux partitions au maximum.", None, 2),
        ("Une seule candidature par personne.", None, 1),
        ("Ciascun candidato può presentare fino a due lavori.", None, 2),
        ("Si può partecipare con un massimo di due composizioni.", None, 2),
        ("Una sola opera per ogni concorrente.", None, 1),
        ("Cada compositor podrá presentar un máximo de dos obras.", None, 2),
        ("Solo se aceptará una obra por persona.", None, 1),
        ("Se presentarán tres partituras.", 3, 3),
    ],
)
def test_a_number_of_works_stands_by_its_label_or_beside_each_person(text: str, least: int | None, most: int) -> None:
    values = values_of(text)

    assert (values["works_min"], values["works_max"]) == (least, most)


@pytest.mark.parametrize(
    ("text", "refused"),
    [
        ("No soloists, no singers, no electronics.", "sve"),
        ("The work may not include voices, a soloist, or electronics of any kind.", "sve"),
        ("Electronics, voices and soloists are not permitted.", "sve"),
        ("We have neither singers nor electronics.", "ve"),
        ("Electronics: none", "e"),
        ("Voices: no", "v"),
        ("Soloists | no", "s"),
        ("Please avoid electronics and amplification.", "e"),
        ("Concertos and works with electronics will not be considered.", "se"),
        ("The orchestra cannot provide electronics or a choir.", "ve"),
        ("Amplified instruments and tape are out.", "e"),
        ("Acoustic instruments only.", "e"),
        ("Werke mit Elektronik oder Gesang werden nicht angenommen.", "ve"),
        ("Ohne Solisten, ohne Elektronik.", "se"),
        ("Weder Stimmen noch Elektronik.", "ve"),
        ("Elektronik: nein", "e"),
        ("Solokonzerte, Vokalwerke und elektronische Zuspielungen sind ausgeschlossen.", "sve"),
        ("Auf Elektronik ist zu verzichten.", "e"),
        ("Keine Solostimme, kein Gesang.", "sv"),
        ("Ni voix, ni électronique, ni soliste.", "sve"),
        ("L'électronique et la voix sont exclues.", "ve"),
        ("Les œuvres avec soliste ou avec électronique ne seront pas acceptées.", "se"),
        ("Électronique : non", "e"),
        ("Sans électronique ni amplification.", "e"),
        ("L'usage de l'électronique n'est pas autorisé.", "e"),
        ("Sono escluse le opere con solisti, voci o elettronica.", "sve"),
        ("Non è consentito l'uso di elettronica né di voci.", "ve"),
        ("Elettronica: no", "e"),
        ("Senza voce e senza elettronica.", "ve"),
        ("L'impiego di mezzi elettronici non è ammesso.", "e"),
        ("No se admiten obras con solista, coro o electrónica.", "sve"),
        ("Sin solistas ni electrónica.", "se"),
        ("Electrónica: no", "e"),
        ("No está permitido el uso de electrónica ni de voces.", "ve"),
        ("Las obras no incluirán voces ni medios electrónicos.", "ve"),
        ("We can't accommodate electronics or singers.", "ve"),
        ("No amplification is available.", "e"),
        ("This is a call for purely instrumental works: please, no singers.", "v"),
        ("Works involving electronics are ineligible.", "e"),
        ("Electronics are not an option this year.", "e"),
        ("There will be no soloist.", "s"),
        ("The following are not accepted: concertos, works with choir, works with electronics.", "sve"),
        ("Solo parts: none", "s"),
        ("Solistische Werke sind nicht zugelassen.", "s"),
        ("Elektronische Klangerzeuger können nicht eingesetzt werden.", "e"),
        ("Der Einsatz von Elektronik ist nicht möglich.", "e"),
        ("Von Werken mit Elektronik bitten wir abzusehen.", "e"),
        ("Gesang und Elektronik: nein", "ve"),
        ("Vokalstimmen und Solisten stehen nicht zur Verfügung.", "sv"),
        ("Aucun dispositif électronique ne sera accepté.", "e"),
        ("Pas d'électronique, pas de voix.", "ve"),
        ("Les concertos sont exclus.", "s"),
        ("Exclus : voix, électronique", "ve"),
        ("Il n'y aura ni soliste ni chœur.", "sv"),
        ("Non si accettano lavori con elettronica.", "e"),
        ("Nessun solista, nessuna voce.", "sv"),
        ("È esclusa l'elettronica.", "e"),
        ("L'elettronica non è prevista.", "e"),
        ("Quedan excluidas las obras con electrónica.", "e"),
        ("No habrá solistas.", "s"),
        ("La electrónica no está permitida.", "e"),
        ("Se excluyen voces y electrónica.", "ve"),
        ("Singers are not required to have perfect pitch; a choir of 16 sings.", ""),
        ("The choir does not sing divisi into more than six parts.", ""),
        ("Not only choirs may apply.", ""),
        ("No fee is charged for works with electronics.", ""),
        ("Die Stimmen sind nicht einzusenden.", ""),
        ("A solo violin part is allowed but not required.", ""),
    ],
)
def test_what_is_refused_is_joined_and_stands_before_or_behind_its_negation(text: str, refused: str) -> None:
    """``refused`` has s for soloists, v for voices, e for electronics."""
    values = values_of(text)
    found = (values["soloists_excluded"], values["voices_excluded"], values["electronics"] == "excluded")

    assert "".join(letter for letter, one in zip("sve", found, strict=True) if one) == refused
