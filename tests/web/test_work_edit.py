"""/c/<composer>/works/<work>/edit/"""

from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.actions.works import save_work, set_movements
from catalogue.models import Commission, Composer, Movement, Work
from catalogue.timing import Duration
from tests.makers import NOW, make_organisation, make_work
from tests.web.pages import Page, with_class


def address(work: Work) -> str:
    return f"/c/ilka-marovand/works/{work.pk}/edit/"


def opened(browser: Client, work: Work) -> dict[str, str]:
    """Return what the browser would send back if nothing were changed."""
    page = Page(browser.get(address(work)))
    (form,) = page.tree.xpath("//form[@data-keep]")
    return {name: value.lstrip("\n") for name, value in form.form_values()}


def test_form_sent_back_unchanged_changes_nothing(browser: Client, composer: Composer) -> None:
    work = make_work(
        "Állo fos", composer=composer, completed="c. 1998", duration="12′30″", duration_typed="12:30",
        instrumentation="2fl(II=picc) – pf", instrumentation_typed="2(II=picc), pf", string_strengths=(8, 6, 4, 4, 2),
        movements=("I. Spring", "Movement 2"), commissioned_by=("Vikkammeret",), iswc="T-034.524.680-1",
        ismn="9790060115615", programme_note="One.\n\nTwo.", parts_on_hire=True,
    )  # fmt: skip
    columns = [field.attname for field in Work._meta.concrete_fields if field.name not in {"saves", "changed_at"}]
    before = Work.objects.values(*columns).get()
    rows = list(Movement.objects.values()), list(work.commissions.values())

    browser.post(address(work), opened(browser, work))

    assert Work.objects.values(*columns).get() == before
    assert (list(Movement.objects.values()), list(work.commissions.values())) == rows
    assert work.movements.first().history.count() == 1


@pytest.mark.parametrize(
    ("typed", "stored", "doubt"),
    [
        ("979-0-060-11561-6", None, "The check digit of this ISMN would be 5, not 6: a digit was mistyped."),
        ("979-0-060", None, "An ISMN has thirteen digits; this has 7."),
        ("on request", None, "An ISMN begins with 979-0, or with M in its old form."),
        (" ISMN: M-060-11561-5 ", "M-060-11561-5", ""),
        ("9790060115615", None, ""),
    ],
)
def test_number_is_kept_as_typed_and_what_is_wrong_with_it_stands_beside_its_field(
    browser: Client, composer: Composer, typed: str, stored: str | None, doubt: str
) -> None:
    work = make_work("Weirs", composer=composer)

    after = browser.post(address(work), {**opened(browser, work), "ismn": typed}, follow=True)

    form = Page(browser.get(address(work)))
    assert Work.objects.get().ismn == (stored or typed)
    assert after.redirect_chain
    assert (Page(after).wrong, form.wrong) == (([doubt], [doubt]) if doubt else ([], []))
    assert form.field("ismn") == (stored or typed)
    told_by = "id_ismn_helptext id_ismn_warning" if doubt else "id_ismn_helptext"
    assert form.values("//input[@name='ismn']/@aria-describedby") == [told_by]


def test_movements_are_changed_added_and_removed_in_their_place(browser: Client, composer: Composer) -> None:
    work = make_work("Weirs", composer=composer, movements=("I. Spring", "II. Weir", "III. Delta"))
    keys = list(work.movements.order_by("number").values_list("pk", flat=True))

    browser.post(address(work), {**opened(browser, work), "movements": "I. Spring 4:05\nII. Weir"})

    assert list(work.movements.order_by("number").values_list("pk", "title", "duration")) == [
        (keys[0], "I. Spring", Duration(245)),
        (keys[1], "II. Weir", None),
    ]


def test_movement_whose_title_ends_like_a_duration_keeps_it_while_the_list_is_not_touched(
    browser: Client, composer: Composer
) -> None:
    work = make_work("Weirs", composer=composer)
    set_movements(work=work, movements=[Movement(title="After 5′")])

    browser.post(address(work), {**opened(browser, work), "title": "Weirs again"})

    assert list(work.movements.values_list("title", "duration")) == [("After 5′", None)]


def test_commissioning_organisation_stays_while_its_name_does(browser: Client, composer: Composer) -> None:
    body = make_organisation("Vikkammeret", composer=composer)
    work = make_work("Weirs", composer=composer)
    work.commissions.create(organisation=body)

    browser.post(address(work), {**opened(browser, work), "commissions-0-funder": "Rogaland Music Trust"})

    assert list(work.commissions.values_list("organisation", "name", "funder")) == [
        (body.pk, "", "Rogaland Music Trust")
    ]


def test_emptied_commission_is_gone(browser: Client, composer: Composer) -> None:
    work = make_work("Weirs", composer=composer, commissioned_by=("Vikkammeret",))

    browser.post(address(work), {**opened(browser, work), "commissions-0-name": ""})

    assert work.commissions.count() == 0


def test_later_save_of_somebody_else_is_shown_beside_ones_own_and_not_overwritten(
    browser: Client, composer: Composer
) -> None:
    work = make_work("Weirs", composer=composer, dedication="for Edda")
    mine = {**opened(browser, work), "title": "Weirs and Locks", "dedication": "for Pia"}
    work.dedication = "for Joren"
    save_work(work=work, now=NOW)

    page = Page(browser.post(address(work), mine))

    assert Work.objects.get().title == "Weirs"
    assert page.texts(f"{with_class('summary')}//dt") == ["Title", "Dedicated to"]
    assert page.texts(f"{with_class('versions')}/div") == [
        "Saved Weirs", "Yours Weirs and Locks", "Saved for Joren", "Yours for Pia",
    ]  # fmt: skip
    assert (page.field("title"), page.field("dedication")) == ("Weirs and Locks", "for Pia")

    browser.post(address(work), {**mine, "saves": page.field("saves")})

    assert Work.objects.values_list("title", "dedication").get() == ("Weirs and Locks", "for Pia")


def test_later_change_of_the_commissions_is_shown_too(browser: Client, composer: Composer) -> None:
    work = make_work("Weirs", composer=composer, commissioned_by=("Vikkammeret",))
    mine = {**opened(browser, work), "commissions-0-funder": "Rogaland Music Trust"}
    save_work(work=work, now=NOW, commissions=[*work.commissions.all(), Commission(name="Sund Festival")])

    page = Page(browser.post(address(work), mine))

    assert page.texts(f"{with_class('summary')}//dt") == ["Commissions"]
    assert page.texts(f"{with_class('versions')}/div") == [
        "Saved Vikkammeret Sund Festival", "Yours Vikkammeret · Rogaland Music Trust",
    ]  # fmt: skip
    assert work.commissions.count() == 2


def test_suggested_word_is_written_in_place_of_the_mistake_without_saving(browser: Client, composer: Composer) -> None:
    work = make_work("Weirs", composer=composer)
    typed = {**opened(browser, work), "title": "", "instrumentation_typed": "2.2.2(II=bcx).2"}
    page = Page(browser.post(address(work), typed))
    suggested = dict(
        zip(page.texts("//button[@name='mend']"), page.values("//button[@name='mend']/@value"), strict=True)
    )

    mended = Page(browser.post(address(work), {**typed, "mend": suggested["Write bcl there"]}))

    assert page.texts(f"{with_class('typed')}/mark") == ["bcx"]
    assert mended.field("instrumentation_typed") == "2.2.2(II=bcl).2"
    assert Work.objects.get().instrumentation_typed == ""


def test_enter_key_saves_and_does_not_press_another_button(browser: Client, composer: Composer) -> None:
    page = Page(browser.get(address(make_work("Weirs", composer=composer))))

    assert page.values("(//form[@data-keep]//button)[1]/@name") == []


def test_typed_text_is_kept_while_the_session_runs_out(composer: Composer, editor: User) -> None:
    editor.set_password("Hushed-Reed-7")
    editor.save()
    work = make_work("Weirs", composer=composer)
    typed = {"title": "Weirs\nand Locks", "notes": "First line\nsecond line"}
    stranger = Client()

    asked = Page(stranger.post(address(work), typed))
    answer = stranger.post(
        "/sign-in/",
        {"username": "edda", "password": "Hushed-Reed-7", "kept": asked.field("kept"), "next": asked.field("next")},
    )

    page = Page(answer)
    assert asked.status == 403
    assert page.values("//main//form/@action") == [address(work)]
    assert (page.field("title"), page.field("notes")) == (typed["title"], typed["notes"])
