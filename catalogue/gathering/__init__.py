"""Records to facts: the only place where columns become values.

``gather_catalogue``     everything of one composer
``gather_for_calls``     the same with the texts that works set
``gather_upcoming``      what is to come from a day on
``gather_work``, ``gather_performance``, ``gather_composer``, ``gather_organisation``, ``gather_venue``: one record
``gather_families``      what premieres are reckoned from and nothing else (``families``)
``gather_lacks``         what the records lack (``lacks``)
``states_of``            how records stand, as plain values to be compared (``states``)
``gather_marks``         the composer's own marks of works and recordings (``marks``)
``gather_timing``        tempo map and cues of a work (``timing``)
``reading_of``           the instrumentation that a stored text says
"""

from __future__ import annotations

from catalogue.gathering.catalogues import gather_catalogue, gather_for_calls, gather_upcoming
from catalogue.gathering.people import gather_composer, gather_organisation
from catalogue.gathering.performances import gather_performance, gather_venue
from catalogue.gathering.readings import reading_of
from catalogue.gathering.works import gather_work

__all__ = [
    "gather_catalogue",
    "gather_composer",
    "gather_for_calls",
    "gather_organisation",
    "gather_performance",
    "gather_upcoming",
    "gather_venue",
    "gather_work",
    "reading_of",
]
