"""What is sent, paid and known, who may enter and until when, in sentences of calls in five languages.

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
        ("MIDI mock-ups will not be listened to.", {"recording": "not wanted"}),
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
        ("Please keep it under 8 minutes.", {"duration_min": None, "duration_max": 480, "duration_strict": True}),
        ("Duration 5' to 7'30\"", {"duration_min": 300, "duration_max": 450}),
        (
            "The electronics part must not exceed four channels.",
            {"soloists_excluded": False, "voices_excluded": False, "electronics": "allowed"},
        ),
        ("Audio files are optional.", {"recording": "optional"}),
        ("We ask you not to include recordings.", {"recording": "forbidden"}),
        ("Recordings will be ignored.", {"recording": "not wanted"}),
        ("No audio, please.", {"recording": "forbidden"}),
        ("Include an MP3 (a MIDI rendering is fine).", {"recording": "required"}),
        ("Entries without a recording cannot be considered.", {"recording": "required"}),
        ("Scores only: no recordings.", {"recording": "forbidden"}),
        ("Sofern vorhanden, legen Sie eine Aufnahme bei.", {"recording": "optional"}),
        ("Eine Tonaufnahme (auch MIDI) ist beizufügen.", {"recording": "required"}),
        ("Auf Tonaufnahmen bitten wir zu verzichten.", {"recording": "forbidden"}),
        ("Un enregistrement, même de synthèse, est requis.", {"recording": "required"}),
        ("Si possible, un lien vers un enregistrement.", {"recording": "optional"}),
        ("N'envoyez pas d'enregistrements.", {"recording": "forbidden"}),
        ("Si prega di non allegare registrazioni.", {"recording": "forbidden"}),
        ("Una registrazione non è obbligatoria.", {"recording": "optional"}),
        ("Va inoltre caricato un file audio (mp3).", {"recording": "required"}),
        ("No se escucharán grabaciones.", {"recording": "not wanted"}),
        ("La grabación es opcional.", {"recording": "optional"}),
        ("Es obligatorio adjuntar una grabación o maqueta.", {"recording": "required"}),
        ("Works must not have received a public performance.", {"unperformed": True, "unpublished": None}),
        ("Premiered works are welcome.", {"unperformed": False, "unpublished": None}),
        ("The piece must be a world premiere.", {"unperformed": True, "unpublished": None}),
        (
            "Entries must be unpublished; previous performances do not matter.",
            {"unperformed": False, "unpublished": True},
        ),
        ("Previously published or recorded works cannot be considered.", {"unperformed": None, "unpublished": True}),
        ("Only works that have never been performed are eligible.", {"unperformed": True, "unpublished": None}),
        ("Das eingereichte Werk muss unaufgeführt sein.", {"unperformed": True, "unpublished": None}),
        (
            "Die Werke müssen unveröffentlicht sein, Aufführungen schaden nicht.",
            {"unperformed": False, "unpublished": True},
        ),
        ("Das Werk darf bereits aufgeführt worden sein.", {"unperformed": False, "unpublished": None}),
        ("Das Stück darf noch nicht öffentlich erklungen sein.", {"unperformed": True, "unpublished": None}),
        ("L'œuvre ne doit jamais avoir été exécutée.", {"unperformed": True, "unpublished": None}),
        ("Les œuvres publiées ne sont pas admises.", {"unperformed": None, "unpublished": True}),
        ("La pièce doit être inédite, non jouée et non primée.", {"unperformed": True, "unpublished": True}),
        (
            "I brani devono essere inediti (non pubblicati) e non eseguiti in pubblico.",
            {"unperformed": True, "unpublished": True},
        ),
        ("Le opere possono essere già state eseguite.", {"unperformed": False, "unpublished": None}),
        ("La obra no podrá haber sido interpretada en público.", {"unperformed": True, "unpublished": None}),
        (
            "Las obras deberán ser inéditas, aunque podrán haber sido estrenadas.",
            {"unperformed": False, "unpublished": True},
        ),
        ("Submission is free of charge.", {"fee": "none"}),
        ("There's no charge for entering.", {"fee": "none"}),
        ("We do not charge a reading fee.", {"fee": "none"}),
        ("Teilnahmegebühr: keine", {"fee": "none"}),
        ("Eine Teilnahmegebühr wird nicht erhoben.", {"fee": "none"}),
        ("Frais d'inscription : néant", {"fee": "none"}),
        ("L'inscription est gratuite.", {"fee": "none"}),
        ("Quota di iscrizione: nessuna", {"fee": "none"}),
        ("L'iscrizione è gratuita.", {"fee": "none"}),
        ("Tasa de inscripción: ninguna", {"fee": "none"}),
        ("Works composed after 2018.", {"composed_from": "2019-01-01"}),
        ("The score must have been finished in or after 2020.", {"composed_from": "2020-01-01"}),
        ("Das Werk darf nicht vor 2020 entstanden sein.", {"composed_from": "2020-01-01"}),
        ("Kompositionen, die nach dem 1. Januar 2021 fertiggestellt wurden.", {"composed_from": "2021-01-02"}),
        ("Œuvres composées depuis 2019.", {"composed_from": "2019-01-01"}),
        ("Composizioni scritte dopo il 2018.", {"composed_from": "2019-01-01"}),
        ("Obras compuestas a partir de 2020.", {"composed_from": "2020-01-01"}),
        ("Obras de los últimos tres años.", {"composed_from": "2024-01-15"}),
        ("A programme note of not more than 150 words.", {"note_words": 150}),
        ("Werkkommentar (höchstens 120 Wörter)", {"note_words": 120}),
        ("Un texte de présentation (150 mots maximum)", {"note_words": 150}),
        ("Nota di programma di massimo 150 parole", {"note_words": 150}),
        ("Notas al programa (máximo 150 palabras)", {"note_words": 150}),
        ("Fixed media in stereo is fine.", {"electronics": "allowed", "channels_max": 2}),
        ("Up to eight channels of fixed media may be used.", {"electronics": "allowed", "channels_max": 8}),
        ("Zuspielung ist erlaubt (max. 4 Kanäle).", {"electronics": "allowed", "channels_max": 4}),
        ("Électronique facultative, huit canaux au plus.", {"electronics": "allowed", "channels_max": 8}),
        ("Electrónica opcional en estéreo.", {"electronics": "allowed", "channels_max": 2}),
        ("Electronics are compulsory.", {"electronics": "required"}),
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
        ("Applicants should be between 18 and 30 years old.", 18, 30),
        ("Maximum age 35 on the closing date.", None, 35),
        ("Only composers aged 40 or under may enter.", None, 40),
        ("Entrants must be under the age of 26.", None, 25),
        ("Teilnahmeberechtigt sind Personen bis 35 Jahre.", None, 35),
        ("Das Höchstalter beträgt 40 Jahre.", None, 40),
        ("Komponistinnen ab 18 Jahren können teilnehmen.", 18, None),
        ("Les candidats doivent être âgés de moins de 40 ans.", None, 39),
        ("Limite d'âge : 40 ans", None, 40),
        ("Les candidats ne doivent pas avoir plus de 35 ans.", None, 35),
        ("Limite di età: 35 anni", None, 35),
        ("Riservato a compositori under 35.", None, 34),
        ("I candidati non devono aver superato i 35 anni.", None, 35),
        ("Límite de edad: 35 años", None, 35),
        ("Podrán participar compositores mayores de 18 y menores de 36 años.", 18, 35),
        ("Los participantes no podrán tener más de 40 años.", None, 40),
    ],
)
def test_an_age_is_bounded_below_and_above(text: str, least: int | None, limit: int | None) -> None:
    age = values_of(text)["age"]

    assert (age["least"], age["limit"]) == (least, limit)


@pytest.mark.parametrize(
    ("text", "national", "resident"),
    [
        ("Open to composers living in Scotland or Ireland.", "", "GB IE"),
        ("Applicants must be citizens or residents of Canada.", "CA", "CA"),
        ("Only composers resident in Norway may apply.", "", "NO"),
        ("Teilnehmen können Komponisten mit Wohnsitz in Österreich.", "", "AT"),
        ("Bewerben können sich österreichische Staatsbürger.", "AT", ""),
        ("Compositeurs de nationalité française ou résidant en France.", "FR", "FR"),
        ("Compositeurs résidant en Belgique.", "", "BE"),
        ("Riservato a compositori italiani o residenti in Italia.", "IT", "IT"),
        ("Compositori di nazionalità svizzera.", "CH", ""),
        ("Compositores de nacionalidad portuguesa.", "PT", ""),
        ("Compositores residentes en Argentina.", "", "AR"),
    ],
)
def test_states_are_those_of_nationals_or_of_residents(text: str, national: str, resident: str) -> None:
    residence = values_of(text)["residence"]

    assert [" ".join(sorted(residence[name])) for name in ("national", "resident")] == [national, resident]


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
        ("Leeds", "You have until 6pm on 12 March 2027.", "2027-03-12T18:00:00+00:00"),
        ("Leeds", "Final date for receipt of scores: 12 March 2027", "2027-03-12"),
        ("Leeds", "Applications must be in by noon on Friday 12 March 2027.", "2027-03-12T12:00:00+00:00"),
        ("Leeds", "When: send your score by 12.03.2027, 23:59", "2027-03-12T23:59:00+00:00"),
        (
            "Leeds",
            "The call closes on 12 March 2027 (5pm). The winner will be told by 1 April 2027.",
            "2027-03-12T17:00:00+00:00",
        ),
        ("Köln", "Abgabe bis 12. März 2027, 24 Uhr", "2027-03-13T00:00:00+01:00"),
        ("Köln", "Wir freuen uns über Einsendungen bis zum 12. März 2027.", "2027-03-12"),
        ("Köln", "Die Ausschreibung endet am 12. März 2027 um 18:00 Uhr.", "2027-03-12T18:00:00+01:00"),
        ("Köln", "Proben: ab 1. Februar 2027. Einsendeschluss: 12.03.2027", "2027-03-12"),
        ("Paris", "Les partitions devront parvenir avant le 12 mars 2027 à 17 heures.", "2027-03-12T17:00:00+01:00"),
        ("Paris", "Fin des inscriptions le 12 mars 2027", "2027-03-12"),
        ("Paris", "Date limite : le 12 mars 2027, minuit", "2027-03-13T00:00:00+01:00"),
        (
            "Roma",
            "Le partiture dovranno essere inviate entro le ore 24 del 12 marzo 2027.",
            "2027-03-13T00:00:00+01:00",
        ),
        ("Roma", "Termine per la presentazione delle domande: 12 marzo 2027 ore 13:00", "2027-03-12T13:00:00+01:00"),
        ("Roma", "La scadenza è fissata alle ore 18 del 12 marzo 2027.", "2027-03-12T18:00:00+01:00"),
        ("Madrid", "Se recibirán obras hasta las 23:59 del 12 de marzo de 2027.", "2027-03-12T23:59:00+01:00"),
        ("Madrid", "Cierre de la convocatoria: 12 de marzo de 2027, 20:00 h", "2027-03-12T20:00:00+01:00"),
        (
            "Madrid",
            "El plazo de presentación comienza el 1 de enero de 2027 y concluye el 12 de marzo de 2027.",
            "2027-03-12",
        ),
    ],
)
def test_an_hour_stands_before_or_behind_its_day(place: str, text: str, moment: str) -> None:
    call = read_call(f"An invented call, {place}\n\n{text}").call

    assert (call.deadline.isoformat() if call.deadline else str(call.deadline_day)) == moment
