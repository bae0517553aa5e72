"""The quick look at a word says no only where every reader would: checked at every place of texts of the trade."""

from __future__ import annotations

import json
from pathlib import Path

from catalogue.instrumentation import ensembles, headings
from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.items import bare_figure, item_at
from catalogue.instrumentation.languages import Speech
from catalogue.instrumentation.openers import may_be_body, opens_heading
from catalogue.instrumentation.scanning import Scope
from catalogue.instrumentation.tokens import Token, nodes_of

PUBLISHED = Path(__file__).parents[2] / "reference" / "instrumentation" / "texts.jsonl"
TEXTS = [json.loads(line)["text"] for line in PUBLISHED.read_text(encoding="utf-8").splitlines()]


def places():
    for text in TEXTS:
        nodes = nodes_of(text)
        for at in range(len(nodes)):
            yield text, nodes, at


def forces_of(text, nodes):
    return Forces(text, Speech(nodes), formula=True)


def test_body_stands_nowhere_but_where_it_may_begin():
    passed = [(text, nodes, at) for text, nodes, at in places() if not may_be_body(nodes, at)]
    plain = [(text, nodes, at) for text, nodes, at in passed if nodes[at].kind != "mark"]

    assert len(plain) > 500
    assert [place for place in plain if ensembles.body_at(place[1], place[2], forces_of(*place[:2]))] == []


def test_heading_stands_nowhere_but_where_it_may_begin():
    words = [(text, nodes, at) for text, nodes, at in places() if nodes[at].kind == "word"]
    passed = [
        place for place in words if isinstance(place[1][place[2]], Token) and not opens_heading(place[1][place[2]])
    ]

    assert len(passed) > 500
    assert [place for place in passed if headings.heading_at(place[1], place[2], Scope(), "")] == []


def test_bare_figure_is_the_item_that_would_be_read():
    found = [(place, bare_figure(place[1], place[2])) for place in places()]
    bare = [(place, draft) for place, draft in found if draft is not None]
    whole = [
        item_at(nodes, at, forces_of(text, nodes), formula=True, slash_parts=False) for (text, nodes, at), _ in bare
    ]

    assert len(bare) > 100
    assert whole == [(draft, at + 1) for (_, _, at), draft in bare]
