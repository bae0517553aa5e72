"""What a cue sheet shows and leaves out, and what it cannot do without."""

from __future__ import annotations

from dataclasses import replace

import pytest

from catalogue.documents.contents.cue_sheet import movement_head, sheet_of
from catalogue.documents.labels import labels
from catalogue.documents.model import Document, Figure, Paragraph, Table, plain
from catalogue.documents.needs import DocumentNeeds
from catalogue.facts import CueFacts
from tests.reference.documents.house import TIMING, cues


def table_of(document: Document) -> Table:
    return next(block for block in document.blocks if isinstance(block, Table))


def heads(document: Document) -> list[str]:
    return [column.key for column in table_of(document).columns]


def times(document: Document) -> list[str]:
    place = heads(document).index("time")
    rows = [row for group in table_of(document).groups for row in group.rows]
    return [" ".join(plain(line) for line in row[place].lines) for row in rows]


def notes(document: Document) -> list[str]:
    return [plain(block.text) for block in document.blocks if isinstance(block, Paragraph)]


def test_times_follow_the_tempo_map() -> None:
    # 16 bars of 4/4 at 72 last 53.333 s, 8 of 7/8 with 144 eighths a minute 23.333 s (arithmetic).
    slower = replace(TIMING, tempo_map=TIMING.tempo_map.replace("q=72", "q=36"))

    assert times(cues())[:4] == ["before", "0:00", "0:54", "1:17 free, 45\N{NO-BREAK SPACE}s"]
    assert times(cues(slower))[:4] == ["before", "0:00", "1:48", "2:10 free, 45\N{NO-BREAK SPACE}s"]


def test_cues_stand_under_their_movements_in_playing_order() -> None:
    groups = table_of(cues()).groups
    numbers = [[plain(row[0].lines[0]) for row in group.rows] for group in groups]

    assert [plain(group.label) for group in groups] == ["", "I\N{EN SPACE}Lamp", "II\N{EN SPACE}Static"]
    assert numbers == [["T"], ["1", "2", "3"], ["4", "5"]]


def test_a_name_that_bears_its_numeral_is_not_numbered_again() -> None:
    sheet = sheet_of(replace(TIMING, tempo_map='movement "I. Lamp"\n1 4/4 q=60\n'), labels("en-GB"), is_pocket=False)

    assert plain(movement_head(1, sheet)) == "I. Lamp"


def test_without_a_map_there_are_no_times_and_the_foot_says_so() -> None:
    document = cues(replace(TIMING, tempo_map="# later"))

    assert heads(document) == ["number", "bar", "action", "media", "length", "acts"]
    assert plain(document.dated) == "There is no tempo map, so that this sheet has no times"
    assert [block for block in document.blocks if isinstance(block, Figure)] == []


def test_a_map_that_cannot_be_read_is_as_none_and_the_foot_says_so() -> None:
    document = cues(replace(TIMING, tempo_map="1-16 fast"))

    assert "time" not in heads(document)
    assert plain(document.dated) == "The tempo map cannot be read, so that this sheet has no times"


def test_columns_in_which_nothing_stands_are_left_out() -> None:
    assert heads(cues(replace(TIMING, cues=(CueFacts("1", "1:1.1", "Start"),)))) == ["number", "bar", "time", "action"]


def test_a_cue_outside_the_map_is_told_below() -> None:
    assert notes(cues())[0] == "Cue 5: Bar 99 is not in the map, or is cut."


@pytest.mark.parametrize("pocket", [False, True])
def test_every_sheet_warns_of_clicks_and_defers_to_local_rules(pocket: bool) -> None:
    told = notes(cues(pocket=pocket))[-1]

    assert told.startswith("A click is a sharp, loud sound: turn the volume right down")
    assert "let everybody set their own level" in told
    assert told.endswith("keep to the local rules on noise at work.")


def test_in_the_pocket_the_file_stands_below_the_action_and_there_is_no_drawing() -> None:
    document = cues(pocket=True)
    row = table_of(document).groups[0].rows[0]

    assert heads(document) == ["number", "bar", "time", "action", "acts"]
    assert [plain(line) for line in row[3].lines] == ["Open file, check eight channels", "tone-8ch.wav, 0:40"]
    assert [block for block in document.blocks if isinstance(block, Figure)] == []


def test_a_sheet_needs_cues() -> None:
    with pytest.raises(DocumentNeeds) as raised:
        cues(replace(TIMING, cues=()))

    assert raised.value.missing == ("cues",)
    assert raised.value.reason.endswith("has no cues yet.")
