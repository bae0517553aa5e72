"""A text put together from families that were read before says what reading all of it says."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.instrumentation import orchestras
from catalogue.instrumentation.reading import read, read_all

WOODWIND = (
    "2.2.2.2",
    "0.1.0.0",
    "3(II=picc, III=picc+afl).2(II=corA).3(III=bcl only).2",
    "1(=picc).1.0.1",
    "2(picc).1.2.2",
)
BRASS = ("4.2.3.1", "0.1.0.0", "1.1.1.0", "4.3(III=ptpt).3(III=btbn only).1", "12.8.2.1")
REST = (
    "str",
    "timp – str",
    "timp.2perc – hp – str",
    "2timp.perc(3) – 2hp.cel – str(8.6.4.4.2)",
    "glock.mar – str(2.0.1.1.1)",
)
UNCLEAR = (
    "2.2.2.0 – 4.2.3.1 – perc – bn – str",
    "2.2.2.2 – 4.2.3.1 – perc – str(1.1.1.1.1)",
    "2(=hn).2.2.2 – 4.2.3.1 – str",
    "2.2.2.2 – 4.2.3.1 – alto – str",
    "2.2.2.2 – 4.2.3.1 – fixed.hp – str",
    "2.2.2.2 – 4.2.3.1 – solo.pf – str",
)  # fmt: skip


@pytest.fixture(autouse=True)
def nothing_kept(monkeypatch):
    monkeypatch.setattr(orchestras, "kept", {})
    monkeypatch.setattr(orchestras, "places", {})


def recalled(text: str):
    families = orchestras.in_usual_dress(text)
    return orchestras.recalled(families) if families else None


def test_text_of_known_families_is_put_together_from_them():
    text = "3(II=picc).2.2.2 – 2.2.0.0 – 2timp.perc(2) – str"
    read("3(II=picc).2.2.2 – 4.2.3.1 – timp – str")

    assert recalled(text) is None

    read("2.2.2.2 – 2.2.0.0 – 2timp.perc(2) – str")

    assert recalled(text).to_json() == read_all(text).to_json()


def test_any_three_known_families_say_what_reading_the_whole_says():
    texts = [" – ".join(families) for families in itertools.product(WOODWIND, BRASS, REST)]
    for text in texts:
        read(text)

    assert [recalled(text).to_json() for text in texts] == [read_all(text).to_json() for text in texts]


@pytest.mark.parametrize("text", UNCLEAR)
def test_text_whose_families_bear_on_one_another_is_read_each_time(text):
    read(text)

    assert recalled(text) is None


def test_what_is_kept_is_bounded(monkeypatch):
    monkeypatch.setattr(orchestras, "MOST_KEPT", 6)
    for flutes in range(1, 20):
        read(f"{flutes}.2.2.2 – 4.2.3.1 – str")

    assert len(orchestras.kept) < 10


def test_remarks_stand_where_the_family_stands():
    read("2.2.2.2 – 2.2.0.0 – 3timp – str")
    read("3.2.2.2 – 4.2.3.1 – str")
    read("12.10.2.2 – 2.2.0.0 – str")
    text = "12.10.2.2 – 2.2.0.0 – 3timp – str"

    assert recalled(text) is not None
    assert [(one.code, text[one.start : one.end]) for one in recalled(text).warnings] == [("drums", "3timp")]


CHAIRS = st.sampled_from(
    ["", "", "", "(II=picc)", "(III=corA)", "(II=Ebcl+bcl)", "(picc)", "(=cbn)", "(III=btbn only)"]
)
FAMILY = st.lists(st.tuples(st.integers(0, 12), CHAIRS), min_size=4, max_size=4).map(
    lambda places: ".".join(f"{number}{chairs}" for number, chairs in places)
)
BESIDE = st.lists(
    st.sampled_from(["timp", "2timp", "perc", "2perc", "perc(3)", "hp", "2hp", "cel", "pf", "mar", "vib"])
)


@settings(max_examples=20, deadline=None)
@given(FAMILY, FAMILY, FAMILY, FAMILY, BESIDE, BESIDE)
def test_families_exchanged_between_two_texts_say_the_same(winds, others, brass, horns, beside, keys):
    orchestras.kept.clear()
    rest, end = (" – ".join([*names[:5], "str"]) for names in (beside, keys))
    for text in (f"{winds} – {brass} – {rest}", f"{others} – {horns} – {end}"):
        read(text)
    for families in itertools.product((winds, others), (brass, horns), (rest, end)):
        text = " – ".join(families)
        known = recalled(text)
        assert known is None or known.to_json() == read_all(text).to_json()
