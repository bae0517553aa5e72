"""Pages of a catalogue that are kept for members with the same role: each is given what they would be given anew."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.actions.calls import propose_call
from catalogue.models import Award, Composer, Membership, SavedView, Work
from catalogue.terms import Role
from catalogue.web import kept_for_members
from catalogue.web.kept_for_members import KeptPage, Pages, forget_pages
from catalogue.web.work_names import MOST_IN_A_LIST
from tests.makers import make_member, make_performance, make_work
from tests.web.pages import Page

ROOT = "/c/ilka-marovand"
WORKS, PERFORMANCES = f"{ROOT}/works/", f"{ROOT}/performances/"
ADDRESSES = (
    f"{ROOT}/",
    WORKS,
    PERFORMANCES,
    f"{WORKS}?sort=title&column=year",
    f"{WORKS}?q=weirs&category=solo",
    f"{PERFORMANCES}?country=FR&sort=-place",
    f"{PERFORMANCES}?since=soon",
    f"{WORKS}WEIRS/",
)
PEOPLE = ("owner", "editor", "viewer", "librarian")
TOKENS = re.compile(rb'(csrfmiddlewaretoken" value="|X-CSRFToken": ")[A-Za-z0-9]{64}')

SignIn = Callable[[User], Client]


@pytest.fixture
def people(owner: User, editor: User, viewer: User, librarian: User) -> dict[str, User]:
    return dict(zip(PEOPLE, (owner, editor, viewer, librarian), strict=True))


@pytest.fixture
def weirs(composer: Composer) -> Work:
    made = make_work("Weirs", composer=composer, instrumentation="fl, vc")
    make_performance(made, date="2024-02-01", city="Lyon", country="FR")
    make_performance(made, date="2026-04-01", city="Oslo", country="NO")
    return made


def seen(browser: Client, address: str, **headers: str) -> bytes:
    """Return a page without what is another one at each answer, the tokens of its forms."""
    response = browser.get(address, **headers)
    assert response.status_code == 200
    return TOKENS.sub(rb"\1", response.content)


def anew(browser: Client, address: str, **headers: str) -> bytes:
    forget_pages()
    return seen(browser, address, **headers)


@pytest.mark.parametrize("address", ADDRESSES)
def test_each_is_given_what_they_would_be_given_anew_whoever_asked_before(
    signed_in: SignIn, people: dict[str, User], weirs: Work, address: str
) -> None:
    browsers, address = [signed_in(person) for person in people.values()], address.replace("WEIRS", str(weirs.pk))
    expected = [anew(browser, address) for browser in browsers]
    forget_pages()

    for order in (browsers, browsers[::-1]):
        found = [seen(browser, address) for browser in order]
        assert found == (expected if order is browsers else expected[::-1])


@pytest.mark.parametrize("address", [f"{ROOT}/", WORKS, PERFORMANCES, f"{WORKS}WEIRS/"])
def test_page_that_is_kept_asks_for_no_row(signed_in: SignIn, editor: User, weirs: Work, address: str) -> None:
    browser, address = signed_in(editor), address.replace("WEIRS", str(weirs.pk))
    browser.get(address)

    with CaptureQueriesContext(connection) as asked:
        browser.get(address)

    number = 5 if address in (WORKS, PERFORMANCES) else 4
    assert len(asked) == number  # the session, the user, the seat, the state; of lists the kept views


def test_name_is_that_of_who_asks_and_is_text(signed_in: SignIn, composer: Composer, weirs: Work) -> None:
    for number, name in enumerate(("Ann & <b>Bo</b>", "Åse", "")):
        person = make_member(composer, f"member{number}", Role.EDITOR)
        User.objects.filter(pk=person.pk).update(first_name=name)
        page = Page(signed_in(person).get(WORKS))
        assert page.text("//header//*[@class='who']/span") == (name or "member2")


def test_token_of_a_kept_page_is_taken_from_who_asked_and_from_nobody_else(
    people: dict[str, User], composer: Composer, weirs: Work
) -> None:
    browsers = []
    for person in (people["owner"], make_member(composer, "olga", Role.OWNER)):
        browser = Client(enforce_csrf_checks=True)
        browser.force_login(person, "django.contrib.auth.backends.ModelBackend")
        browsers.append(browser)
    tokens = [
        Page(one.get(f"{WORKS}?sort=title")).values("//form[.//*[@name='query']]//input/@value")[0] for one in browsers
    ]

    def kept(browser: Client, token: str, name: str) -> int:
        sent = {"csrfmiddlewaretoken": token, "query": "sort=title", "name": name}
        return browser.post(f"{ROOT}/views/works/keep/", sent).status_code

    assert kept(browsers[0], tokens[1], "One") == 403
    assert [kept(browsers[0], tokens[0], "Two"), kept(browsers[1], tokens[1], "Three")] == [302, 302]


def test_what_is_told_once_is_told_once_on_a_kept_page(signed_in: SignIn, editor: User, weirs: Work) -> None:
    first, second = signed_in(editor), signed_in(editor)
    gone = make_work("Sluices")
    first.post(f"{WORKS}{gone.pk}/delete/")
    second.get(WORKS)

    page = Page(first.get(WORKS))

    notice = "//*[@class='notice']"
    assert page.texts(f"{notice}/p") == ["“Sluices” is deleted."]
    assert page.values(f"{notice}/form/@action") == [f"{WORKS}{gone.pk}/restore/"]
    assert len(page.values(f"{notice}//input[@name='csrfmiddlewaretoken']/@value")[0]) == 64
    assert not Page(first.get(WORKS)).texts(notice)


def test_kept_page_is_another_one_once_anything_it_shows_is_saved(
    signed_in: SignIn, editor: User, composer: Composer, weirs: Work
) -> None:
    browser = signed_in(editor)

    def changed() -> bool:
        before = dict(known)
        known.update({address: seen(browser, address) for address in (WORKS, PERFORMANCES, f"{WORKS}{weirs.pk}/")})
        assert list(known.values()) == [anew(browser, address) for address in known]
        return before != known

    known: dict[str, bytes] = {}
    assert (changed(), changed()) == (True, False)
    weirs.title = "Locks"
    weirs.save()
    assert changed()
    award = Award.objects.create(composer=composer, name="Reed Prize", work=weirs)
    assert changed()
    award.delete()
    assert changed()
    make_performance(weirs, date="2026-03-30")
    assert changed()
    view = SavedView.objects.create(composer=composer, table="works", name="Songs", query="category=vocal")
    assert changed()
    SavedView.objects.filter(pk=view.pk).update(name="All songs")
    assert changed()
    view.delete()
    assert changed()
    composer.name = "Ilka Marovand-Tal"
    composer.save()
    assert changed()
    Membership.objects.create(user=editor, composer=Composer.objects.create(name="B", slug="b"), role=Role.VIEWER)
    assert changed()
    Membership.objects.filter(user=editor).update(role=Role.VIEWER)
    assert changed()


def test_kept_page_follows_the_language_the_clock_and_the_day(
    signed_in: SignIn, editor: User, composer: Composer, clock: Any
) -> None:
    make_performance(composer=composer, date="2026-03-10")
    browser = signed_in(editor)
    british, american = (seen(browser, PERFORMANCES, HTTP_ACCEPT_LANGUAGE=one) for one in ("en-GB", "en-US"))
    assert (b'lang="en-gb"' in british, b'lang="en-us"' in american) == (True, True)

    today = seen(browser, PERFORMANCES)
    browser.cookies["clock"] = "Pacific%2FKiritimati"  # where it is the day after already
    assert seen(browser, PERFORMANCES) == anew(browser, PERFORMANCES) != today
    del browser.cookies["clock"]
    clock.goes_on(days=1)
    assert seen(browser, PERFORMANCES) == anew(browser, PERFORMANCES) != today


def test_call_leaves_the_kept_page_at_its_moment(
    signed_in: SignIn, editor: User, composer: Composer, weirs: Work, clock: Any
) -> None:
    propose_call(composer=composer, text="Wind Prize\nDeadline: 9 March 2026, 12:30, UK time", now=clock.moment)
    browser, told = signed_in(editor), []

    for minutes in (0, 149, 1):
        clock.goes_on(minutes=minutes)
        found = seen(browser, f"{ROOT}/")
        assert found == anew(browser, f"{ROOT}/")
        told.append(b"Wind Prize" in found)

    assert told == [True, True, False]


def test_address_that_leads_elsewhere_does_so_each_time(
    signed_in: SignIn, editor: User, composer: Composer, weirs: Work
) -> None:
    Work.objects.bulk_create(Work(composer=composer, title=f"Piece {one}") for one in range(MOST_IN_A_LIST))
    browser = signed_in(editor)

    for _time in range(2):
        assert browser.get(f"{PERFORMANCES}?work=Weirs").headers["Location"] == f"{PERFORMANCES}?work={weirs.pk}"


def test_long_addresses_are_answered_and_not_kept(
    signed_in: SignIn, editor: User, weirs: Work, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = Pages()
    monkeypatch.setattr(kept_for_members, "_pages", kept)
    browser = signed_in(editor)

    for letters in (10, 500):
        assert browser.get(WORKS, {"q": "w" * letters}).status_code == 200

    assert len(kept.pages) == 1


def test_what_is_kept_stays_within_its_bounds(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept_for_members, "MOST", 3)
    monkeypatch.setattr(kept_for_members, "MOST_BYTES", 100)
    kept = Pages()
    for key in "abc":
        kept.keep((key,), KeptPage(b"x" * 10, None))
    kept.find(("a",))
    kept.keep(("d",), KeptPage(b"x" * 10, None))
    assert ["".join(map(str, key)) for key in kept.pages] == ["c", "a", "d"]
    kept.keep(("d",), KeptPage(b"x" * 85, None))
    assert (["".join(map(str, key)) for key in kept.pages], kept.size) == (["a", "d"], 95)
    kept.keep(("e",), KeptPage(b"x" * 200, None))
    assert (len(kept.pages), kept.size) == (0, 0)
