"""What was set by hand prints in its own words, and decides which performance is called the first."""

from __future__ import annotations

from datetime import date
from typing import Any

from catalogue.documents.contents.cv_section import cv_section
from catalogue.documents.contents.selection import Chosen
from catalogue.documents.contents.works_list import works_list
from catalogue.documents.model import Document, Paper
from catalogue.documents.renderers.plain import render_plain
from catalogue.facts import CatalogueFacts, ProgrammedFacts
from catalogue.rules.premieres import claims_by_programmed
from catalogue.terms import Audience, PerformanceStatus
from tests.fact_makers import make_catalogue, make_event
from tests.reference.documents.house import played_by

TODAY = date(2026, 3, 14)
NORDLICHT, WEHR = played_by("Ensemble Nordlicht"), played_by("Wehr Quartet")


def catalogue(first: str = "", second: str = "", **of_second: Any) -> CatalogueFacts:
    """A work that was played in Linz and the year after in Graz, each perhaps called something by hand."""
    reasons = ["Known from a diary." if words else "" for words in (first, second)]
    return make_catalogue(
        make_event(1, "2020-03-12", ProgrammedFacts(1, 1, claim_override=first, claim_reason=reasons[0]),
                   performers=NORDLICHT),
        make_event(2, "2021-05-01", ProgrammedFacts(2, 1, claim_override=second, claim_reason=reasons[1]),
                   **{"city": "Graz", "performers": WEHR, **of_second}),
    )  # fmt: skip


def printed(document: Document) -> str:
    return " ".join(render_plain(document).decode().replace("\N{NO-BREAK SPACE}", " ").split())


def listed(facts: CatalogueFacts, language: str = "en-GB") -> str:
    claims = claims_by_programmed(facts, today=TODAY)
    setting: dict[str, Any] = {"language": language, "paper": Paper.A4, "printed_on": TODAY, "claims": claims}
    return printed(works_list(facts, by="category", **setting))


def vita(facts: CatalogueFacts) -> str:
    claims = claims_by_programmed(facts, today=TODAY)
    return printed(
        cv_section(facts, choice=Chosen(), language="en-GB", paper=Paper.A4, printed_on=TODAY, claims=claims)
    )


def test_works_list_calls_the_first_what_was_set_by_hand() -> None:
    said = listed(catalogue(second="world premiere of the work as it stands"))

    assert "World premiere of the work as it stands: Wehr Quartet, Graz, 1 May 2021" in said
    assert "First performed by Ensemble Nordlicht" not in said


def test_works_list_leaves_out_a_first_that_was_set_to_none() -> None:
    said = listed(catalogue(first="no first performance"))

    assert "First" not in said
    assert "no first" not in said


def test_works_list_tells_a_later_first_set_by_hand_beside_the_premiere() -> None:
    said = listed(catalogue(second="Styrian premiere"))

    assert "First performed by Ensemble Nordlicht, Linz, 12 March 2020" in said
    assert "Styrian premiere: Wehr Quartet, Graz, 1 May 2021" in said


def test_french_works_list_sets_a_blank_before_the_colon() -> None:
    assert "Création mondiale : Wehr Quartet" in listed(catalogue(second="création mondiale"), "fr")


def test_closed_event_is_told_where_it_was_called_a_first_by_hand() -> None:
    closed = catalogue(first="no first performance", second="world premiere", audience=Audience.INVITED)

    assert "World premiere: Wehr Quartet, Graz, 1 May 2021" in listed(closed)


def test_cancelled_event_is_told_nowhere_whatever_was_set_by_hand() -> None:
    cancelled = catalogue(second="world premiere", status=PerformanceStatus.CANCELLED)

    assert "Graz" not in listed(cancelled)
    assert "Graz" not in vita(cancelled)


def test_cv_prints_the_words_that_were_set_by_hand() -> None:
    said = vita(catalogue(first="no first performance", second="UK premiere"))

    assert "Slack Rope: Wehr Quartet, Graz, 1 May 2021 (UK premiere)" in said
    assert "Slack Rope: Ensemble Nordlicht, Linz, 12 March 2020 " in said + " "
    assert "world premiere" not in said
