"""Facts for tests, defaults written out; all names are invented."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any
from uuid import UUID

from catalogue.facts import (
    CatalogueFacts,
    ComposerFacts,
    PerformanceFacts,
    ProgrammedFacts,
    TitleFacts,
    VenueFacts,
    WorkFacts,
)
from catalogue.terms import Category
from catalogue.timing import PartialDate, read_date

COMPOSER = ComposerFacts(id=1, slug="ada-quill", name="Ada Quill", sort_name="Quill, Ada")


def make_work(id_: int = 1, title: str = "Slack Rope", **fields: Any) -> WorkFacts:
    return WorkFacts(
        **{
            "id": id_,
            "uid": UUID(int=id_),
            "composer_id": 1,
            "title": TitleFacts(title),
            "category": Category.ORCHESTRA,
            **fields,
        }
    )


def make_event(
    id_: int, when: str | PartialDate | None, *programme: ProgrammedFacts, **fields: Any
) -> PerformanceFacts:
    """``programme`` is work 1, complete, under the event's own id, where none is given."""
    return PerformanceFacts(
        **{
            "id": id_,
            "uid": UUID(int=1000 + id_),
            "date": read_date(when) if isinstance(when, str) else when,
            "programme": programme or (ProgrammedFacts(id=id_, work_id=1),),
            "city": "Linz",
            "country": "AT",
            **fields,
        }
    )


def make_catalogue(*events: PerformanceFacts, works: Iterable[WorkFacts] = ()) -> CatalogueFacts:
    """``works`` is work 1 where none is given."""
    return CatalogueFacts(composer=COMPOSER, works=tuple(works) or (make_work(),), performances=events)


def make_venue(name: str = "Kornspeicher", **fields: Any) -> VenueFacts:
    return VenueFacts(**{"id": 1, "name": name, "city": "Linz", "country": "AT", "zone": "Europe/Vienna", **fields})
