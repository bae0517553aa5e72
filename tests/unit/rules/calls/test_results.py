"""When results are told, and which further players a call takes: what is said of them in several languages."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from catalogue.rules.calls.fitting import answer_of
from catalogue.rules.calls.reading import read_call
from catalogue.rules.calls.terms import Call, Forces, ForcesRule
from catalogue.rules.calls.verdicts import Verdict


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("Results will be announced on 15 June 2027.", "2027-06-15"),
        ("We write to everybody by 3 May 2027 with the decision.", "2027-05-03"),
        ("Die Ergebnisse werden am 1. Juli 2027 bekannt gegeben.", "2027-07-01"),
        ("Les résultats seront communiqués le 20 mai 2027.", "2027-05-20"),
        ("I risultati saranno pubblicati il 10 settembre 2027.", "2027-09-10"),
        ("El fallo se hará público el 30 de noviembre de 2027.", "2027-11-30"),
        ("The winning work is performed on 15 June 2027.", "None"),
    ],
)
def test_the_day_of_the_results_is_read_and_is_no_deadline(text: str, day: str) -> None:
    call = read_call(f"Call for scores\n\nDeadline: 1 March 2027, 12:00 UTC\n{text}").call

    assert (str(call.results_on), str(call.deadline_day)) == (day, "2027-03-01")


@pytest.mark.parametrize(
    ("text", "extra"),
    [
        ("Forces at most 2.2.2.2 – 4.2.2.1 – timp, 2 perc – hp – str, plus one extra player of your choice.", 1),
        ("For flute, clarinet, violin, cello and piano; two further players may be added.", 2),
        ("Besetzung: Flöte, Klarinette, Violine, Cello; ein weiterer Spieler nach Wahl ist möglich.", 1),
        ("Effectif : flûte, clarinette, violon, violoncelle et un instrument supplémentaire au choix.", 1),
        ("For flute, clarinet, violin, cello and piano. No extra players.", None),
    ],
)
def test_players_that_may_come_in_beside_the_named_ones_are_read(text: str, extra: int | None) -> None:
    assert read_call(f"Call for scores\n\n{text}").call.forces.extra_players == extra


@pytest.mark.parametrize(
    ("work", "verdict"),
    [("fl.cl – vn.vc", Verdict.YES), ("fl.cl – vn.va.vc", Verdict.YES), ("fl.cl.bn – vn.va.vc", Verdict.NO)],
)
def test_an_extra_player_takes_one_chair_that_nobody_has(work: str, verdict: Verdict) -> None:
    call = Call(forces=Forces(("fl.cl – vn.vc – pf",), ForcesRule.AT_MOST, extra_players=1))

    assert answer_of(read(work), call).verdict is verdict
