"""What a reading of a call leaves open is said: unknown clocks, limits told twice, sentences not understood."""

from __future__ import annotations

import pytest

from catalogue.rules.calls.reading import read_call


def test_an_hour_without_a_clock_is_kept_and_not_guessed() -> None:
    call = read_call("Lowmarsh Reeds: call\n\nDeadline: 5 March 2027 at 17:00").call

    assert (call.deadline, str(call.deadline_day), call.deadline_hour) == (None, "2027-03-05", "17:00")


def test_an_hour_by_the_clock_of_a_place_stands_beside_that_place() -> None:
    found = read_call("Lowmarsh Reeds (Norwich): call\n\nDeadline: 5 March 2027 at 17:00")

    assert str(found.call.deadline) == "2027-03-05 17:00:00+00:00"
    assert (found.sentence_of("deadline_zone"), found.call.deadline_hour) == ("Norwich", "")


def test_minutes_after_an_hour_in_french_are_kept() -> None:
    call = read_call("Date limite : 5 mars 2027 à 17 h 30 (heure de Paris)").call

    assert str(call.deadline) == "2027-03-05 17:30:00+01:00"


def test_two_sentences_that_differ_on_a_limit_are_said() -> None:
    call = read_call("Pieces last at most 9 minutes.\n\nPieces of more than 12 minutes will not be read.").call

    assert call.duration_max == 540
    assert call.contradictions == (
        "Two sentences differ on the most a work may last: “Pieces last at most 9 minutes.” and "
        "“Pieces of more than 12 minutes will not be read.”; the first was taken.",
    )


def test_a_sentence_that_asks_and_is_not_understood_is_left_to_the_reader() -> None:
    found = read_call("Length: at most 9 minutes. The composer must be present. We look forward to meeting you.")

    assert found.unread == ("The composer must be present.",)


def test_a_sentence_about_sizes_of_files_names_no_age() -> None:
    assert read_call("For composers everywhere: each MP3 must be under 20 MB.").call.age is None


def test_a_recording_that_is_not_necessary_is_not_required() -> None:
    assert str(read_call("Send a score. No recordings necessary.").call.recording) == "not wanted"


@pytest.mark.parametrize(
    "sentence",
    [
        "Bitte als PDF einreichen, je nach Alter mindestens die Hälfte der 12 Sätze.",
        "La partition est envoyée en PDF, la création déjà donnée de la pièce étant signalée.",
        "Inviare la partitura in PDF; la quota si versa con bonifico di 30.",
        "Se enviará la partitura en PDF por compositores con nacionalidad de alguno de los países ribereños.",
    ],
)
def test_a_sentence_of_which_something_is_read_is_told_where_it_makes_a_condition_that_is_not(sentence: str) -> None:
    assert read_call(f"Call for scores\n\n{sentence}\n\nDeadline: 5 March 2027").unread == (sentence,)


@pytest.mark.parametrize(
    "sentence",
    [
        "We offer a residency to three composers of any age and nationality.",
        "How to send your scores",
        "You may send as many pieces as you like.",
        "The winner receives £500, a recording and a performance by professional players.",
        "Send two scores of contrasting works for any forces.",
    ],
)
def test_a_sentence_that_names_a_subject_and_asks_nothing_of_it_is_not_told(sentence: str) -> None:
    assert sentence not in read_call(f"Call for scores\n\n{sentence}\n\nDeadline: 5 March 2027").unread
