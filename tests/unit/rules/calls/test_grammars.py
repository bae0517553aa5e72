"""Sentences of calls by the subject that they speak of, in five languages: the grammar of each, not single phrases.

The sentences are invented; what is wanted is what a careful person reads.
"""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.rules.calls.plain_values import call_values
from catalogue.rules.calls.reading import read_call

CLOSES = "Deadline: 15 January 2027"


def values_of(text: str) -> dict[str, Any]:
    return call_values(read_call(f"An invented call\n\n{text}\n\n{CLOSES}").call)


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
    ],
)
def test_what_is_refused_is_joined_and_stands_before_or_behind_its_negation(text: str, refused: str) -> None:
    """``refused`` has s for soloists, v for voices, e for electronics."""
    values = values_of(text)
    found = (values["soloists_excluded"], values["voices_excluded"], values["electronics"] == "excluded")

    assert "".join(letter for letter, one in zip("sve", found, strict=True) if one) == refused


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Elektronik ist möglich, aber nicht nötig.", {"electronics": "allowed"}),
        ("L'électronique est possible (stéréo).", {"electronics": "allowed", "channels_max": 2}),
        ("Se admite electrónica en dos canales.", {"electronics": "allowed", "channels_max": 2}),
        ("È possibile l'uso dell'elettronica (massimo 4 canali).", {"electronics": "allowed", "channels_max": 4}),
        ("Works must include live electronics.", {"electronics": "required"}),
        ("Recordings are not accepted.", {"recording": "forbidden"}),
        ("Please do not send recordings.", {"recording": "forbidden"}),
        ("A recording is not necessary.", {"recording": "optional"}),
        ("Recording: no", {"recording": "not wanted"}),
        ("Recording: optional", {"recording": "optional"}),
        ("A recording or MIDI realisation must be included.", {"recording": "required"}),
        ("Send a PDF score and an MP3.", {"recording": "required"}),
        ("Bitte keine Aufnahmen einsenden.", {"recording": "forbidden"}),
        ("Eine Aufnahme ist nicht erforderlich.", {"recording": "optional"}),
        ("Eine Aufnahme kann beigelegt werden.", {"recording": "optional"}),
        ("Beizulegen ist eine Aufnahme oder ein MIDI-Mockup.", {"recording": "required"}),
        ("Aufnahmen werden nicht angehört.", {"recording": "not wanted"}),
        ("Les enregistrements ne seront pas écoutés.", {"recording": "not wanted"}),
        ("Ne joignez pas d'enregistrement.", {"recording": "forbidden"}),
        ("Un enregistrement peut être joint.", {"recording": "optional"}),
        ("Joindre obligatoirement un enregistrement.", {"recording": "required"}),
        ("Non inviare registrazioni.", {"recording": "forbidden"}),
        ("È gradita una registrazione.", {"recording": "optional"}),
        ("Alla partitura va allegata una registrazione audio.", {"recording": "required"}),
        ("Las grabaciones no serán tenidas en cuenta.", {"recording": "forbidden"}),
        ("No se aceptarán grabaciones.", {"recording": "forbidden"}),
        ("Se puede adjuntar una grabación.", {"recording": "optional"}),
        ("Se adjuntará una grabación de la obra.", {"recording": "required"}),
        ("The work must be unpublished and unperformed.", {"unperformed": True, "unpublished": True}),
        ("Neither published nor publicly performed works may be entered.", {"unperformed": True, "unpublished": True}),
        ("Works that have been performed or published are not eligible.", {"unperformed": True, "unpublished": True}),
        ("Published works are not eligible; performed ones are.", {"unperformed": False, "unpublished": True}),
        ("Das Werk darf weder veröffentlicht noch aufgeführt worden sein.", {"unperformed": True, "unpublished": True}),
        ("Nur unveröffentlichte, nicht aufgeführte Werke.", {"unperformed": True, "unpublished": True}),
        ("Bereits uraufgeführte Werke sind ausgeschlossen.", {"unperformed": True, "unpublished": None}),
        ("L'œuvre, ni publiée ni exécutée, sera anonyme.", {"unperformed": True, "unpublished": True}),
        ("Les œuvres déjà jouées sont acceptées.", {"unperformed": False, "unpublished": None}),
        ("Œuvre inédite et jamais exécutée en public.", {"unperformed": True, "unpublished": True}),
        ("Non sono ammesse opere già pubblicate o eseguite.", {"unperformed": True, "unpublished": True}),
        ("L'opera deve essere inedita e mai eseguita.", {"unperformed": True, "unpublished": True}),
        ("Sono ammesse opere già eseguite.", {"unperformed": False, "unpublished": None}),
        ("Las obras serán inéditas y no habrán sido estrenadas.", {"unperformed": True, "unpublished": True}),
        ("Obras no estrenadas ni publicadas.", {"unperformed": True, "unpublished": True}),
        ("Se admiten obras ya estrenadas.", {"unperformed": False, "unpublished": None}),
        ("There is an entry fee of £15.", {"fee": "There is an entry fee of £15"}),
        ("No entry fee.", {"fee": "none"}),
        ("Entry fee: none", {"fee": "none"}),
        ("Applying costs nothing.", {"fee": "none"}),
        ("Die Teilnahme ist kostenlos.", {"fee": "none"}),
        ("Es fallen keine Kosten an.", {"fee": "none"}),
        ("Gebühr: 30 €", {"fee": "30 €"}),
        ("Aucuns frais de participation.", {"fee": "none"}),
        ("Droits d'inscription : 25 euros", {"fee": "25 euros"}),
        ("Non è prevista alcuna quota di iscrizione.", {"fee": "none"}),
        ("La quota di partecipazione è di 35 euro.", {"fee": "La quota di partecipazione è di 35 euro"}),
        ("La inscripción es gratuita.", {"fee": "none"}),
        ("Cuota de inscripción: 20 euros", {"fee": "20 euros"}),
        ("No se cobrará ninguna tasa.", {"fee": "none"}),
        ("Scores must be anonymous.", {"anonymous": True}),
        ("Do not put your name on the score.", {"anonymous": True}),
        ("Die Partitur darf keinen Hinweis auf die Urheberin enthalten.", {"anonymous": True}),
        ("La partition ne portera ni nom ni signature.", {"anonymous": True}),
        ("Le partiture non devono recare il nome dell'autore.", {"anonymous": True}),
        ("Las partituras no llevarán firma ni nombre.", {"anonymous": True}),
    ],
)
def test_what_is_sent_paid_and_known_is_asked_or_refused(text: str, wanted: dict[str, Any]) -> None:
    values = values_of(text)

    assert {name: values[name] for name in wanted} == wanted


@pytest.mark.parametrize(
    ("text", "least", "limit"),
    [
        ("Composers must be 21 or over.", 21, None),
        ("Open to composers aged 35 and under.", None, 35),
        ("For composers not yet 30.", None, 29),
        ("You must be at least 18 and no older than 28.", 18, 28),
        ("Composers under 36 years of age may enter.", None, 35),
        ("Teilnehmen können Personen zwischen 18 und 35 Jahren.", 18, 35),
        ("Mindestalter: 18 Jahre", 18, None),
        ("Altersgrenze: 32 Jahre", None, 32),
        ("Compositeurs de moins de 35 ans.", None, 34),
        ("Être âgé de 35 ans au plus.", None, 35),
        ("Âge : 18 à 30 ans", 18, 30),
        ("Compositori che non abbiano compiuto 36 anni.", None, 35),
        ("Età massima: 35 anni", None, 35),
        ("Compositori di età non superiore ai 35 anni.", None, 35),
        ("Compositores menores de 35 años.", None, 34),
        ("Edad máxima: 35 años", None, 35),
        ("Compositores de entre 18 y 35 años.", 18, 35),
        ("Compositores que no hayan cumplido los 36 años.", None, 35),
    ],
)
def test_an_age_is_bounded_below_and_above(text: str, least: int | None, limit: int | None) -> None:
    age = values_of(text)["age"]

    assert (age["least"], age["limit"]) == (least, limit)


@pytest.mark.parametrize(
    ("place", "text", "moment"),
    [
        ("Bath", "Deadline: 5 pm on 12 March 2027", "2027-03-12T17:00:00+00:00"),
        ("Bath", "Entries must arrive before 17:00 on Friday, 12 March 2027.", "2027-03-12T17:00:00+00:00"),
        ("Bath", "Please send it to us by 12 March 2027 at 9am.", "2027-03-12T09:00:00+00:00"),
        ("Bath", "Closing date: 12 March 2027, 12 noon", "2027-03-12T12:00:00+00:00"),
        ("Bath", "Submissions close at midnight on 12 March 2027.", "2027-03-13T00:00:00+00:00"),
        ("Bath", "Entries are accepted until 12th March 2027 at 6 p.m.", "2027-03-12T18:00:00+00:00"),
        ("Kassel", "Einsendeschluss ist der 12. März 2027, 18 Uhr.", "2027-03-12T18:00:00+01:00"),
        ("Kassel", "Bis spätestens 12. März 2027 um 12:00 Uhr einzureichen.", "2027-03-12T12:00:00+01:00"),
        ("Kassel", "Anmeldeschluss: Freitag, 12. März 2027 (23.59 Uhr)", "2027-03-12T23:59:00+01:00"),
        ("Kassel", "Die Unterlagen müssen bis 18 Uhr am 12. März 2027 vorliegen.", "2027-03-12T18:00:00+01:00"),
        ("Kassel", "Einreichungen werden bis zum 12.3.2027 entgegengenommen.", "2027-03-12"),
        ("Lyon", "Date limite de dépôt : vendredi 12 mars 2027 à 18 h", "2027-03-12T18:00:00+01:00"),
        ("Lyon", "Les candidatures sont reçues jusqu'au 12 mars 2027 à 23h59.", "2027-03-12T23:59:00+01:00"),
        ("Lyon", "À envoyer avant le 12 mars 2027, midi.", "2027-03-12T12:00:00+01:00"),
        ("Lyon", "Clôture des inscriptions : 12 mars 2027", "2027-03-12"),
        ("Milano", "Scadenza: 12 marzo 2027, ore 12.00", "2027-03-12T12:00:00+01:00"),
        ("Milano", "Le opere devono pervenire entro le ore 12.00 del 12 marzo 2027.", "2027-03-12T12:00:00+01:00"),
        ("Milano", "Termine ultimo per l'invio: 12 marzo 2027 alle ore 18", "2027-03-12T18:00:00+01:00"),
        ("Milano", "Le domande vanno inviate entro e non oltre il 12 marzo 2027.", "2027-03-12"),
        ("Madrid", "Fecha límite: 12 de marzo de 2027 a las 14:00", "2027-03-12T14:00:00+01:00"),
        ("Madrid", "El plazo finaliza a las 14 horas del 12 de marzo de 2027.", "2027-03-12T14:00:00+01:00"),
        ("Madrid", "Las obras se enviarán antes del 12 de marzo de 2027 a mediodía.", "2027-03-12T12:00:00+01:00"),
        ("Madrid", "El plazo de admisión de obras termina el 12 de marzo de 2027.", "2027-03-12"),
        ("Bath", "The workshop takes place on 3 May 2027. Scores by 12 March 2027.", "2027-03-12"),
        (
            "Bath",
            "Rehearsals begin on 1 February 2027. Send scores by 12 March 2027. Composers are told by 20 March 2027.",
            "2027-03-12",
        ),
        ("Kassel", "Das Konzert findet am 1. Februar 2027 statt. Bewerbungen bis 12. März 2027.", "2027-03-12"),
        (
            "Lyon",
            "Le concert aura lieu le 3 février 2027. Envoi des partitions au plus tard le 12 mars 2027.",
            "2027-03-12",
        ),
        (
            "Milano",
            "Il concerto si terrà il 3 febbraio 2027. Invio delle partiture entro il 12 marzo 2027.",
            "2027-03-12",
        ),
        (
            "Madrid",
            "El concierto será el 3 de febrero de 2027. Envío de partituras hasta el 12 de marzo de 2027.",
            "2027-03-12",
        ),
    ],
)
def test_an_hour_stands_before_or_behind_its_day(place: str, text: str, moment: str) -> None:
    call = read_call(f"An invented call, {place}\n\n{text}").call

    assert (call.deadline.isoformat() if call.deadline else str(call.deadline_day)) == moment
