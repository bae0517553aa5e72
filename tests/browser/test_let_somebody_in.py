"""An errand: somebody is let in, by hand or by mail, chooses a password, and may do what the owner says and no more."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from django.core import mail
from playwright.sync_api import Page, expect

from catalogue.actions.composers import create_composer
from catalogue.models import Composer, EntryKey, MaterialSet, Membership
from catalogue.terms import Role
from tests.browser.conftest import NARROW, Open
from tests.browser.errands import PASSWORD, go_to, sign_in
from tests.conftest import CLOCK
from tests.makers import make_performance, make_user, make_work

EDITS, READS, LIBRARIAN = "edits works and performances", "reads", "librarian: the material alone"
BOTH_WAYS = [
    pytest.param(True, id="with scripts"),
    pytest.param(False, id="without scripts", marks=pytest.mark.slow),
]


@pytest.fixture
def house(transactional_db: None) -> tuple[Composer, Composer]:
    """Two catalogues of one owner, who signs in with a password; the first has a work, its set and a performance."""
    owner = make_user("ilka", password=PASSWORD)
    first = create_composer(name="Ilka Marovand", owner=owner)
    work = make_work("Slow Ferry", composer=first, instrumentation="fl, cl, vn, vc, pf", notes="Said to nobody else.")
    make_performance(work, date="2030-05-16", city="Lyon", country="FR")
    MaterialSet.objects.create(work=work, number="2")
    return first, create_composer(name="Pell Tarrowick", owner=owner)


def open_members(page: Page) -> None:
    sign_in(page, "ilka")
    page.get_by_role("link", name="Ilka Marovand").first.click()
    go_to(page, "Profile")
    page.get_by_role("link", name="Let somebody in").click()


def let_in(page: Page, name: str, role: str) -> None:
    form = page.locator("#add")
    form.get_by_label("Name to sign in with").fill(name)
    form.get_by_label("What they may do").select_option(label=role)
    form.get_by_role("button", name="Let in").click()


def come_in(page: Page, address: str) -> None:
    """Open the way in, try a password that is too easy, then choose one."""
    page.goto(address)
    page.get_by_label("Password").fill("12345")
    page.get_by_role("button", name="Come in").click()
    expect(page.get_by_role("main")).to_contain_text("too short")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Come in").click()
    expect(page.get_by_role("main")).to_contain_text("You are in.")


def say_role(page: Page, name: str, role: str) -> None:
    row = page.locator("#members li").filter(has_text=name)
    row.get_by_role("combobox").select_option(label=role)
    row.get_by_role("button", name=re.compile("^Change")).click()
    expect(page.get_by_role("main")).to_contain_text(f"What “{name}” may do is changed.")


@pytest.mark.parametrize("scripts", BOTH_WAYS)
def test_somebody_new_comes_in_by_an_address_and_does_what_they_may(
    open_browser: Open, house: tuple[Composer, Composer], scripts: bool
) -> None:
    page, phone = open_browser(scripts=scripts), open_browser(scripts=scripts, size=NARROW, shut=("/join/", "/works/"))
    open_members(page)
    let_in(page, "rana", EDITS)
    address = page.locator("#address").input_value()

    come_in(phone, address)
    go_to(phone, "Works")
    expect(phone.get_by_role("link", name="Add a work").first).to_be_visible()
    page.get_by_role("link", name="Done").click()
    say_role(page, "rana", READS)

    phone.reload()
    expect(phone.get_by_role("link", name="Slow Ferry").first).to_be_visible()
    expect(phone.get_by_role("link", name="Add a work")).to_have_count(0)
    phone.goto(f"/c/{house[0].slug}/works/new/")
    expect(phone.get_by_role("heading", level=1)).to_have_text("You may read this catalogue, not change it")
    phone.goto(f"/c/{house[1].slug}/works/")
    expect(phone.get_by_role("heading", level=1)).to_have_text("There is nothing at this address")
    phone.goto(address)
    expect(phone.get_by_role("heading", level=1)).to_have_text("This address opens nothing")


@pytest.mark.slow
def test_what_the_owner_mistypes_is_said_and_what_ran_out_is_made_anew(
    open_browser: Open, house: tuple[Composer, Composer]
) -> None:
    page, phone = open_browser(size=NARROW), open_browser(size=NARROW, scheme="dark", shut=("/join/", "/members/"))
    open_members(page)
    let_in(page, "", EDITS)
    expect(page.locator("#add")).to_contain_text("This field is required.")
    let_in(page, "ilka", EDITS)
    expect(page.locator("#add")).to_contain_text("“ilka” is a member already.")
    let_in(page, "rana", EDITS)
    ran_out = page.locator("#address").input_value()
    EntryKey.objects.update(expires_at=CLOCK.moment - timedelta(seconds=1))

    phone.goto(ran_out)
    expect(phone.get_by_role("main")).to_contain_text("or it ran out")
    page.get_by_role("link", name="Done").click()
    expect(page.locator("#members")).to_contain_text("has not come in yet")
    page.get_by_role("button", name="New code").click()
    come_in(phone, page.locator("#address").input_value())

    page.get_by_role("link", name="Done").click()
    expect(page.locator("#members")).not_to_contain_text("has not come in yet")
    page.locator("#members li").filter(has_text="rana").get_by_role("button", name=re.compile("^Take out")).click()
    expect(page.get_by_role("main")).to_contain_text("“rana” is no member any more.")
    phone.goto("/")
    expect(phone.get_by_role("main")).to_contain_text("You are not a member of any catalogue yet.")


@pytest.mark.slow
def test_the_only_owner_stays_one(open_browser: Open, house: tuple[Composer, Composer]) -> None:
    page = open_browser(size=NARROW, shut=("/members/",))
    open_members(page)
    row = page.locator("#members li").filter(has_text="ilka")

    row.get_by_role("button", name=re.compile("^Take out")).click()

    expect(page.get_by_role("alert")).to_have_text("A catalogue needs an owner; make somebody else one first.")
    assert Membership.objects.get(composer=house[0]).role == Role.OWNER


@pytest.mark.slow
def test_the_way_in_goes_by_mail_where_the_house_sends_mails(
    open_browser: Open, house: tuple[Composer, Composer], settings: Any
) -> None:
    settings.SENDS_MAIL, settings.DEFAULT_FROM_EMAIL = True, "catalogue@house.example"
    page, phone = open_browser(), open_browser(size=NARROW, scheme="dark")
    open_members(page)
    page.locator("#add").get_by_label("E-mail address").fill("noor at house")
    let_in(page, "noor", EDITS)
    expect(page.locator("#add")).to_contain_text("Enter a valid email address.")
    page.locator("#add").get_by_label("E-mail address").fill("noor@house.example")
    let_in(page, "noor", EDITS)
    expect(page.get_by_role("main")).to_contain_text("The way in is sent to noor@house.example.")

    (message,) = mail.outbox
    (address,) = re.findall(r"^https?://\S+/join/\S+$", str(message.body), re.MULTILINE)
    come_in(phone, address)
    go_to(phone, "Works")
    expect(phone.get_by_role("link", name="Add a work").first).to_be_visible()


@pytest.mark.slow
@pytest.mark.parametrize("scripts", [True, False])
def test_a_librarian_of_both_catalogues_sees_the_material_alone(
    open_browser: Open, house: tuple[Composer, Composer], scripts: bool
) -> None:
    page, phone = open_browser(scripts=scripts), open_browser(scripts=scripts, size=NARROW, shut=("/profile/",))
    sign_in(page, "ilka")
    page.get_by_role("link", name="Who keeps which catalogue").click()
    let_in(page, "tove", LIBRARIAN)
    expect(page.locator("#add")).to_contain_text("This field is required.")
    for composer in house:
        page.get_by_role("checkbox", name=composer.name).check()
    let_in(page, "tove", LIBRARIAN)
    come_in(phone, page.locator("#address").input_value())

    phone.get_by_role("link", name="Ilka Marovand").first.click()
    go_to(phone, "Works")
    phone.get_by_role("link", name="Slow Ferry").first.click()
    expect(phone.locator("#material")).to_contain_text("2")
    expect(phone.get_by_role("main")).not_to_contain_text("Said to nobody else.")
    rooms = phone.get_by_role("navigation", name="Rooms").get_by_role("link")
    assert rooms.all_inner_texts() == ["Today", "Works", "Performances", "Scores and parts", "Documents"]
    phone.goto(f"/c/{house[0].slug}/profile/")
    expect(phone.get_by_role("heading", level=1)).to_have_text("You keep the material of this catalogue, not the rest")

    page.get_by_role("link", name="Done").click()
    expect(page.locator("#members")).to_contain_text("tove")
