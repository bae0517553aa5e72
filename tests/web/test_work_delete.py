"""/c/<composer>/works/<work>/delete/ and /restore/"""

from __future__ import annotations

from django.contrib.auth.models import User
from django.test import Client

from catalogue.models import Composer, Work
from tests.makers import make_work
from tests.web.pages import Page, with_class


def test_deleted_work_leaves_the_list_with_a_way_back(browser: Client, composer: Composer, editor: User) -> None:
    work = make_work("Rope Tables", composer=composer)

    page = Page(browser.post(f"/c/ilka-marovand/works/{work.pk}/delete/", follow=True))

    assert page.texts(f"{with_class('notice')}/p") == ["“Rope Tables” is deleted."]
    assert Work.objects.count() == 0
    assert Work.with_deleted.values_list("deleted_by", flat=True).get() == editor.pk

    (undo,) = page.values(f"{with_class('notice')}/form/@action")
    back = Page(browser.post(undo, follow=True))

    assert back.texts(f"{with_class('notice')}/p") == ["“Rope Tables” is back."]
    assert Work.objects.get() == work


def test_first_version_is_not_deleted_while_it_has_versions(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer)
    make_work("Rope Tables for two", composer=composer, version_of=work)

    page = Page(browser.post(f"/c/ilka-marovand/works/{work.pk}/delete/", follow=True))

    assert page.texts(f"{with_class('notice')}/p") == [
        "“Rope Tables for two” is a version of this work; delete that one first."
    ]
    assert Work.objects.count() == 2


def test_work_does_not_come_back_under_a_number_that_was_given_away(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer, catalogue_number="RO 12")
    browser.post(f"/c/ilka-marovand/works/{work.pk}/delete/")
    make_work("Weirs", composer=composer, catalogue_number="RO 12")

    page = Page(browser.post(f"/c/ilka-marovand/works/{work.pk}/restore/", follow=True))

    assert page.texts(f"{with_class('notice')}/p") == [
        "“Rope Tables” is deleted.",
        "“Weirs” has this catalogue number.",
    ]
    assert Work.objects.count() == 1
