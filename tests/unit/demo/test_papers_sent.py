"""The papers that the demo has sent: kept once, with the file that went and the day on which it was made."""

from __future__ import annotations

import tomllib
from datetime import timedelta

import pytest
from django.core.files.storage import default_storage

from catalogue.demo import papers_sent
from catalogue.demo.papers_sent import FOLDER, papers, send_demo_papers
from catalogue.models import Sending
from catalogue.web.sent_papers import Since, hold_all, paper_of
from tests.makers import NOW, make_organisation, make_work

pytestmark = pytest.mark.django_db


def test_papers_that_are_sent_are_of_works_of_the_demo() -> None:
    works = tomllib.loads((FOLDER / "works.toml").read_text(encoding="utf-8"))["work"]

    assert {row["work"] for row in papers() if "work" in row} <= {row["slug"] for row in works}
    assert len(list(papers())) == len({row["slug"] for row in papers()})


def test_paper_is_sent_once_and_says_what_the_record_says(monkeypatch: pytest.MonkeyPatch) -> None:
    work = make_work("Ash Ferry", instrumentation="pf", completed="2024", category="solo")
    make_organisation("Quay Society", composer=work.composer)
    row = {
        "slug": "list", "composer": work.composer.slug, "document": "works-list", "to": "Quay Society", "days": -9,
        "format": "pdf", "asked": {"order": "year"}, "notes": "As asked.",
    }  # fmt: skip
    monkeypatch.setattr(papers_sent, "papers", lambda: [row])

    assert [send_demo_papers(NOW), send_demo_papers(NOW)] == [1, 0]
    (made,) = Sending.objects.all()
    content = paper_of(made)
    assert content is not None
    assert content.startswith(b"%PDF")
    assert (made.organisation.name, made.made_on) == ("Quay Society", (NOW - timedelta(days=9)).date())
    assert [one.since for one in hold_all([made])] == [Since.SAME]
    assert default_storage.exists(f"{made.sha256[:2]}/{made.sha256}.pdf")
