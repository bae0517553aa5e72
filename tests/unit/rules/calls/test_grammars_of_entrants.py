"""Who may enter a call and until when, in sentences in five languages.

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
        ("Aged 18 to 28", 18, 28),
        ("Composers who have not reached the age of 30 by the deadline.", None, 29),
        ("Age: up to 35", None, 35),
        ("Alter: 18 bis 30 Jahre", 18, 30),
        ("Komponistinnen und Komponisten unter 35 Jahren.", None, 34),
        ("Nicht älter als 30 Jahre", None, 30),
        ("Avoir moins de 30 ans", None, 29),
        ("Compositeurs âgés de 18 à 35 ans.", 18, 35),
        ("Età compresa tra 18 e 35 anni", 18, 35),
        ("Tener entre 18 y 30 años", 18, 30),
        ("No haber cumplido 35 años", None, 34),
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
        ("You must live or study in Denmark.", "", "DK"),
        ("Composers of Polish nationality only.", "PL", ""),
        ("Wohnsitz in der Schweiz", "", "CH"),
        ("Résider en Suisse", "", "CH"),
        ("Residenza in Italia", "", "IT"),
        ("Tener nacionalidad española", "ES", ""),
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
        ("Leeds", "Date for entries: Friday 12 March 2027", "2027-03-12"),
        ("Leeds", "Entries by: 12 March 2027, 6:30 pm", "2027-03-12T18:30:00+00:00"),
        ("Leeds", "Submission window: 1 January 2027 to 12 March 2027", "2027-03-12"),
        ("Köln", "Bewerbungszeitraum: 1. Januar 2027 bis 12. März 2027", "2027-03-12"),
        ("Köln", "Frist: 12. März 2027, 12 Uhr mittags", "2027-03-12T12:00:00+01:00"),
        ("Paris", "Inscriptions ouvertes du 1er janvier 2027 au 12 mars 2027", "2027-03-12"),
        ("Roma", "Iscrizioni aperte dal 1 gennaio 2027 al 12 marzo 2027", "2027-03-12"),
        ("Madrid", "Plazo: del 1 de enero de 2027 al 12 de marzo de 2027", "2027-03-12"),
        ("Leeds", "The concert is on 1 May 2027. We need your score by 12 March 2027.", "2027-03-12"),
        ("Köln", "Das Ergebnis wird bis 1. Mai 2027 mitgeteilt. Einsendungen bitte bis 12. März 2027.", "2027-03-12"),
    ],
)
def test_an_hour_stands_before_or_behind_its_day(place: str, text: str, moment: str) -> None:
    call = read_call(f"An invented call, {place}\n\n{text}").call

    assert (call.deadline.isoformat() if call.deadline else str(call.deadline_day)) == moment
