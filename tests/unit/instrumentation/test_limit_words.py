"""Words before forces that make a limit or a set of them add nobody, and are told."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


@pytest.mark.parametrize(
    ("text", "written", "code"),
    [
        ("up to 2.2.2.2 – 2.2.1.0 – timp – str", "2.2.2.2 – 2.2.1.0 – timp – str", "limit"),
        ("Orchestra (no more than 2222/2200/timp/str)", "2.2.2.2 – 2.2.0.0 – timp – str", "limit"),
        ("Maximum: 3333/4331/timp+3/hp/str", "3.3.3.3 – 4.3.3.1 – timp.perc(3) – hp – str", "limit"),
        ("Set: 1 score, 2.2.2.2, 4.2.3.0, timp, str", "2.2.2.2 – 4.2.3.0 – timp – str", "printed-set"),
        ("no more than 10 players chosen from: fl, ob, cl", "no more than 10 players chosen from: fl.ob.cl", "choice"),
    ],
)
def test_a_limit_names_nobody(text: str, written: str, code: str) -> None:
    reading = read(text)
    assert (shorthand(reading), [remark.code for remark in reading.warnings]) == (written, [code])


def test_a_limit_of_one_section_is_a_range_of_its_players() -> None:
    assert [line.players for line in read("up to 3 percussion, 2 flutes")] == [(0, 3), (2, 2)]
