"""No automatic finding of WCAG 2.2 A and AA or best practice, and no refusal by the content policy, on any page.

The rules are those of axe-core, as shipped in the package axe-playwright-python. The core of the demo fills the pages;
which pages there are, the table of addresses says.
"""

from __future__ import annotations

from datetime import UTC, datetime
from importlib.resources import files

import pytest
from playwright.sync_api import Page

from catalogue.actions.entry import make_entry_key
from catalogue.demo.loading import load_demo
from catalogue.models import Composer, EntryPurpose
from tests.browser.conftest import MISSING, NARROW, WIDE, Open
from tests.web.every_page import addresses_of, page_names

COMPOSER = "nevena-haldoreva"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
AXE = (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
STATES = {
    "wide-light": (WIDE, "light"),
    "narrow-dark": (NARROW, "dark"),
    "wide-dark": (WIDE, "dark"),
    "narrow-light": (NARROW, "light"),
}
MAIN = (
    "today", "work-list", "work-detail", "work-new", "work-edit", "performance-list", "performance-detail",
    "performance-edit", "document", "profile", "composer-list", "keyboard",
)  # fmt: skip
"""The pages that the fast lane looks at, in one state; the full lane looks at every page in four."""
MOST = 2  # records of which a page is looked at
ANSWERED = {"document": "?order=year", "work-list": "?category=orchestra&players=50", "performance-list": "?q=a"}
"""What else is asked for at an address."""
OVER_ANOTHER = """() => {
  const lines = part => {
    const range = document.createRange();
    range.selectNodeContents(part);
    return [...range.getClientRects()].filter(one => one.width > 2);
  };
  const meet = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 3
    && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 6;
  const told = part => part.getClientRects().length && !part.matches('.seen-by-ear, :has(select), select')
    && getComputedStyle(part).position !== 'absolute';
  const isOver = row => {
    const parts = [...row.children].filter(told).map(lines);
    return parts.some((one, at) => parts.slice(at + 1).some(other => one.some(a => other.some(b => meet(a, b)))));
  };
  return [...document.querySelectorAll('main li, main dl > div')].filter(isOver).map(row => row.innerText.slice(0, 80));
}"""
"""The rows of lists in which a line of one part stands on a line of another."""
BEFORE_SIGNING_IN = ("sign-in", "start", "join")


def findings(page: Page) -> list[tuple[str, list[str]]]:
    page.evaluate(AXE)
    told = page.evaluate("rules => axe.run(document, {runOnly: rules})", RULES)
    over = page.evaluate(OVER_ANOTHER)
    broken = [(one["id"], [node["html"][:120] for node in one["nodes"]]) for one in told["violations"]]
    return [*broken, ("one text over another", over)] if over else broken


def look_at(page: Page, address: str) -> list[tuple[str, list[tuple[str, list[str]]], int]]:
    """Give the address with what is found there and by how much the page is too wide, if anything is wrong.

    A part of a page is looked at where it stands.
    """
    answer = page.goto(address)
    if answer and "<html" not in answer.text():
        return []
    if answer and "sandbox" in answer.headers.get("content-security-policy", ""):
        set_free(page, answer.text())
    wider = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    found = findings(page)
    return [(address, found, wider)] if found or wider > 0 else []


def set_free(page: Page, content: str) -> None:
    """Show a page again that may run no script, where the rules, which are one, can be run."""
    page.goto("about:blank")
    page.set_content(content)


@pytest.fixture
def demo(transactional_db: None) -> str:
    """Load the small demo and return the address that signs in to it."""
    now = datetime.now(UTC)
    return f"/enter/{make_entry_key(EntryPurpose.DEMO, now=now, user=load_demo(today=now.date(), only_core=True))}/"


@pytest.mark.parametrize("state", ["narrow-dark"])
def test_main_pages_have_no_automatic_finding_and_scroll_in_one_direction(
    open_browser: Open, demo: str, state: str
) -> None:
    size, scheme = STATES[state]
    page, composer = open_browser(size=size, scheme=scheme), Composer.objects.get(slug=COMPOSER)
    found = look_at(page, "/sign-in/")
    page.goto(demo)

    for name in MAIN:
        found += look_at(page, addresses_of(name, composer, 1)[0])
    found += look_at(page, MISSING)

    assert found == []


@pytest.mark.slow
@pytest.mark.parametrize("state", STATES)
def test_every_page_has_no_automatic_finding_and_scrolls_in_one_direction(
    open_browser: Open, demo: str, state: str
) -> None:
    size, scheme = STATES[state]
    page, composer = open_browser(size=size, scheme=scheme), Composer.objects.get(slug=COMPOSER)
    found = [one for name in BEFORE_SIGNING_IN for one in look_at(page, addresses_of(name, composer)[0])]
    page.goto(demo)

    for name in (name for name in page_names() if name not in BEFORE_SIGNING_IN):
        for address in addresses_of(name, composer, MOST):
            found += look_at(page, address)
        if name in ANSWERED:
            found += look_at(page, addresses_of(name, composer, 1)[0] + ANSWERED[name])

    assert found == []


@pytest.mark.slow
@pytest.mark.parametrize("state", STATES)
def test_forms_with_mistakes_have_no_automatic_finding(open_browser: Open, demo: str, state: str) -> None:
    size, scheme = STATES[state]
    page = open_browser(size=size, scheme=scheme)
    page.goto(demo)

    page.goto(f"/c/{COMPOSER}/works/new/")
    page.get_by_label("Instrumentation", exact=True).fill("3 flutez, str(8.6")
    page.get_by_label("Duration", exact=True).fill("soon")
    page.locator(".savebar").get_by_role("button", name="Save").click()
    page.locator(".summary").wait_for()

    assert findings(page) == []
