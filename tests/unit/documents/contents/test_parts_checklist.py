"""Where string strengths come from, and what a checklist cannot do without."""

from __future__ import annotations

from dataclasses import replace

import pytest

from catalogue.documents.contents.parts_checklist import Setting
from catalogue.documents.model import Document, Pairs, Table, plain
from catalogue.documents.needs import DocumentNeeds
from catalogue.instrumentation import Chair, Instrumentation, Line
from tests.reference.documents.house import CONCERTO, LEITH, SLACK_WATER, UNREAD, checklist, work


def strings_said(document: Document) -> str:
    pairs = next(block for block in document.blocks if isinstance(block, Pairs))
    return next(plain(pair.value) for group in pairs.groups for pair in group if plain(pair.label) == "Strings")


def names(document: Document) -> list[str]:
    table = next(block for block in document.blocks if isinstance(block, Table))
    return [plain(row[1].lines[0]) for group in table.groups for row in group.rows]


def test_strengths_come_from_the_performance_then_the_work_then_the_default() -> None:
    default = Setting((6, 5, 4, 3, 2))

    assert strings_said(checklist(CONCERTO, performances=LEITH, setting=default)) == (
        "10.8.6.5.4 (performance), one copy a desk"
    )
    assert strings_said(checklist(replace(CONCERTO, string_strengths=(8, 8, 6, 4, 2)), setting=default)) == (
        "8.8.6.4.2 (score), one copy a desk"
    )
    assert strings_said(checklist(SLACK_WATER, setting=default)) == "14.12.10.8.5 (score), one copy a desk"
    assert strings_said(checklist(CONCERTO, setting=default)) == "6.5.4.3.2 (default), one copy a desk"


def test_odd_players_have_a_copy_of_their_own() -> None:
    table = next(block for block in checklist(SLACK_WATER).blocks if isinstance(block, Table))
    basses = table.groups[-1].rows[-1]

    assert plain(basses[1].lines[0]) == "Double bass\N{EN SPACE}5 players, 3 desks"
    assert (plain(basses[2].lines[0]), basses[3].boxes) == ("3", ("1", "2", "3"))


def test_a_checklist_needs_strengths_where_the_score_leaves_them_open() -> None:
    with pytest.raises(DocumentNeeds) as raised:
        checklist(CONCERTO)

    assert raised.value.missing == ("string strengths",)
    assert raised.value.reason == (
        "The parts of “Weir” cannot be listed. The number of violin 1 players is open: state the string strengths."
    )


def test_a_checklist_needs_an_instrumentation_that_can_be_read() -> None:
    with pytest.raises(DocumentNeeds) as raised:
        checklist(UNREAD)

    assert raised.value.missing == ("instrumentation",)


def test_a_plus_is_a_part_more_and_a_bracket_is_not() -> None:
    beside = Instrumentation((Line("flute", "woodwind", (2, 2)), Line("piccolo", "woodwind")))
    doubling = Instrumentation((Line("flute", "woodwind", (2, 2), chairs=(Chair(2, ("flute", "piccolo")),)),))

    assert names(checklist(work(20, "A", instrumentation=beside)))[1:] == ["Piccolo", "Flute 1", "Flute 2"]
    assert names(checklist(work(20, "A", instrumentation=doubling)))[1:] == [
        "Flute 1",
        "Flute 2\N{EN SPACE}also piccolo",
    ]


def test_names_of_instruments_follow_the_language() -> None:
    oboes = Instrumentation((Line("oboe", "woodwind", chairs=(Chair(1, ("oboe", "cor-anglais")),)),))

    assert (
        names(checklist(work(20, "A", instrumentation=oboes), language="en-US"))[1]
        == "Oboe\N{EN SPACE}also English horn"
    )
    assert (
        names(checklist(work(20, "A", instrumentation=oboes), language="de"))[1] == "Oboe\N{EN SPACE}auch Englischhorn"
    )


def test_off_stage_and_optional_parts_say_so() -> None:
    forces = Instrumentation((Line("trumpet", "brass", role="offstage"), Line("tuba", "brass", (0, 1), optional=True)))

    assert names(checklist(work(20, "A", instrumentation=forces)))[1:] == [
        "Trumpet\N{EN SPACE}off-stage",
        "Tuba\N{EN SPACE}may be left out",
    ]
