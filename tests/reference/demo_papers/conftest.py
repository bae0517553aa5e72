"""The papers are made once: the demo is loaded, told from, and taken back."""

from __future__ import annotations

import shutil
from typing import Any

import pytest
from django.db import transaction

from catalogue.demo.loading import load_demo
from tests.reference.demo_papers.papers import (
    SETTINGS,
    TODAY,
    Papers,
    abroad,
    checklists,
    entries,
    lists,
    riders,
    scores,
)


@pytest.fixture(scope="session")
def papers(django_db_setup: None, django_db_blocker: Any) -> Papers:
    if shutil.which("pdftotext") is None:
        pytest.skip("Nothing reads PDF here (pdftotext, of poppler's tools), so the papers were not read.")
    with django_db_blocker.unblock(), transaction.atomic():
        load_demo(TODAY)
        made, refused = checklists()
        papers = Papers(
            tuple(lists()),
            tuple(entries()),
            tuple(made),
            refused,
            tuple(riders()),
            tuple(scores()),
            abroad(),
            tuple(riders(*SETTINGS[1])),
        )
        transaction.set_rollback(True)
    return papers
