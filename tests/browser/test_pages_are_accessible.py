"""No automatic finding of WCAG 2.2 A and AA or best practice, and no refusal by the content policy, on the main pages.

The rules are those of axe-core, as shipped in the package axe-playwright-python. The demo's core fills the pages.
"""

from __future__ import annotations

from datetime import UTC, datetime
from importlib.resources import files

import pytest
from playwright.sync_api import Page

from catalogue.actions.demo import load_demo
from catalogue.actions.entry import make_entry_key
from catalogue.models import EntryPurpose, Performance, Work
from tests.browser.conftest import MISSING, NARROW, WIDE, Open

COMPOSER = "nevena-haldoreva"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
AXE = (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
STATES = [
    pytest.param(WIDE, "light", id="wide-light"),
    pytest.param(NARROW, "dark", id="narrow-dark"),
    pytest.param(WIDE, "dark", id="wide-dark", marks=pytest.mark.slow),
    pytest.param(NARROW, "light", id="narrow-light", marks=pytest.mark.slow),
]


def addresses() -> list[str]:
    catalogue = f"/c/{COMPOSER}"
    works = Work.objects.filter(composer__slug=COMPOSER)
    work = works.exclude(instrumentation="").newest_first()[0].pk
    performance = Performance.objects.filter(composer__slug=COMPOSER).latest_first()[0].pk
    return [
        f"{catalogue}/",
        f"{catalogue}/works/",
        f"{catalogue}/works/{work}/",
        f"{catalogue}/works/{work}/edit/",
        f"{catalogue}/works/new/",
        f"{catalogue}/performances/",
        f"{catalogue}/performances/{performance}/",
        f"{catalogue}/performances/{performance}/edit/",
        f"{catalogue}/documents/works-list/",
        f"{catalogue}/documents/cv-section/",
        f"{catalogue}/documents/parts-checklist/?work={work}",
        f"{catalogue}/profile/",
        "/composers/",
        "/help/keyboard/",
        MISSING,
    ]


def findings(page: Page) -> list[tuple[str, list[str]]]:
    page.evaluate(AXE)
    told = page.evaluate("rules => axe.run(document, {runOnly: rules})", RULES)
    return [(one["id"], [node["html"][:120] for node in one["nodes"]]) for one in told["violations"]]


@pytest.fixture
def demo(transactional_db: None) -> str:
    now = datetime.now(UTC)
    return f"/enter/{make_entry_key(EntryPurpose.DEMO, now=now, user=load_demo(today=now.date(), only_core=True))}/"


@pytest.mark.parametrize(("size", "scheme"), STATES)
def test_pages_have_no_automatic_finding_and_scroll_in_one_direction(
    open_browser: Open, demo: str, size: dict[str, int], scheme: str
) -> None:
    page = open_browser(size=size, scheme=scheme)
    page.goto("/sign-in/")
    assert findings(page) == []
    page.goto(demo)

    for address in addresses():
        page.goto(address)
        wider = page.evaluate("document.documentElement.scrollWidth - innerWidth")

        assert (address, findings(page), max(wider, 0)) == (address, [], 0)
