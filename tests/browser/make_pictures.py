"""Makes the pictures of the README anew: ``python3 manage.py test tests/browser/make_pictures.py``.

Its name keeps it out of the usual run: it checks nothing, it draws the demo's pages and papers as they are.
"""

from __future__ import annotations

import subprocess
from datetime import UTC, datetime
from pathlib import Path

import pytest
from django.conf import settings
from playwright.sync_api import Page

from catalogue.actions.entry import make_entry_key
from catalogue.demo.loading import load_demo
from catalogue.documents.model import Paper
from catalogue.making import Wish
from catalogue.management.commands.document import made
from catalogue.models import Composer, EntryPurpose, Work
from tests.browser.conftest import Open

PICTURES = Path(settings.ROOT) / "fixtures" / "pictures"
COMPOSER = "nevena-haldoreva"


@pytest.fixture
def demo(transactional_db: None) -> str:
    """Load the demo and return the address that signs in to it."""
    now = datetime.now(UTC)
    return f"/enter/{make_entry_key(EntryPurpose.DEMO, now=now, user=load_demo(today=now.date()))}/"


def picture(page: Page, address: str, name: str) -> None:
    page.goto(address)
    page.screenshot(path=PICTURES / f"{name}.png")


def test_draw_the_pages(demo: str, open_browser: Open) -> None:
    PICTURES.mkdir(exist_ok=True)
    work = Work.objects.filter(composer__slug=COMPOSER, category="orchestra").newest_first()[0]
    page, night = open_browser(), open_browser(scheme="dark")
    for window in (page, night):
        window.goto(demo)

    picture(page, f"/c/{COMPOSER}/", "today")
    picture(page, f"/c/{COMPOSER}/works/", "works")
    picture(night, f"/c/{COMPOSER}/works/{work.pk}/", "work-dark")


def test_draw_the_papers(demo: str, tmp_path: Path) -> None:
    PICTURES.mkdir(exist_ok=True)
    composer = Composer.objects.get(slug=COMPOSER)
    wish = Wish("works-list-by-category", "en-GB", Paper.A4, datetime.now(UTC).date())
    (tmp_path / "list.pdf").write_bytes(made(composer, wish, "pdf"))

    command = ["pdftoppm", "-r", "80", "-png", "-f", "1", "-l", "1", "-singlefile"]
    subprocess.run([*command, tmp_path / "list.pdf", PICTURES / "works-list"], check=True)
