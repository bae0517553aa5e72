"""/c/<composer>/works/new/"""

from __future__ import annotations

from uuid import uuid4

import pytest
from django.test import Client

from catalogue.models import Composer, Work
from catalogue.timing import Duration, PartialDate
from tests.makers import make_work
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/works/new/"
NO_COMMISSIONS = {
    "commissions-TOTAL_FORMS": "1",
    "commissions-INITIAL_FORMS": "0",
    "commissions-0-name": "",
    "commissions-0-place": "",
    "commissions-0-funder": "",
}


def filled_in(**typed: str) -> dict[str, str]:
    return {"title": "Rope Tables", "category": "other", "status": "active", **NO_COMMISSIONS, **typed}


def test_title_alone_saves(browser: Client, composer: Composer) -> None:
    response = browser.post(ADDRESS, filled_in())

    work = Work.objects.get()
    assert response.headers["Location"] == f"/c/ilka-marovand/works/{work.pk}/"
    assert (work.title, work.composer, work.instrumentation, work.duration) == ("Rope Tables", composer, "", None)


def test_everything_typed_is_kept_and_read(browser: Client, composer: Composer) -> None:
    typed = filled_in(
        original_title="Πίνακες", instrumentation_typed="two flutes, the second doubling piccolo, and piano",
        duration_typed="ca. 14'30", movements="I. Spring 4:05\nII. Weir 5:15 attacca", completed="March 2025",
        string_strengths="8 6 4 4 2", title_language="EL-latn", iswc="t0345246801", catalogue_number="RO 47",
    )  # fmt: skip
    typed |= {"commissions-0-name": "Vikkammeret", "commissions-0-funder": "Rogaland Music Trust"}

    browser.post(ADDRESS, typed)

    work = Work.objects.get()
    assert (work.instrumentation_typed, work.instrumentation) == (
        "two flutes, the second doubling piccolo, and piano",
        "2fl(II=picc) – pf",
    )
    assert (work.duration, work.duration_typed) == (Duration(870, approximate=True), "ca. 14'30")
    assert work.completed == PartialDate(2025, 3)
    assert (work.string_strengths, work.title_language) == ((8, 6, 4, 4, 2), "el-Latn")
    assert work.iswc == "t0345246801"
    assert [(one.title, one.duration, one.attacca) for one in work.movements.order_by("number")] == [
        ("I. Spring", Duration(245), False),
        ("II. Weir", Duration(315), True),
    ]
    assert [(one.body, one.funder) for one in work.commissions.all()] == [("Vikkammeret", "Rogaland Music Trust")]
    assert (work.least_players, work.most_players) == (3, 3)


@pytest.mark.parametrize(
    ("name", "typed", "reason"),
    [
        ("title", "", "A work needs a title; everything else can wait."),
        ("duration_typed", "abc", "“abc” is no duration; write 12′30″, 12:30 or 12 min."),
        ("duration_typed", "12", "Say whether 12 is minutes or seconds: write 12′, 12 min or 12 s."),
        ("completed", "last summer", None),
        ("instrumentation_typed", "any seven blorps", "“any seven blorps” is not a known instrument."),
        (
            "string_strengths",
            "8.6",
            "Write five numbers of string players with dots between them, such as 14.12.10.8.6.",
        ),
        ("title", "bell \x07", "Character 6 is a control character and cannot be printed; delete it."),
        ("title_language", "Greek", "“Greek” is no language tag; write one such as de, el-Latn or en-GB."),
        ("movements", "I\nII \x07", "Character 6 is a control character and cannot be printed; delete it."),
        ("catalogue_number", "RO 12", "“Weirs” has this catalogue number."),
        ("title", "x" * 501, None),
    ],
)
def test_mistake_is_told_at_its_place_and_nothing_typed_is_lost(
    browser: Client, composer: Composer, name: str, typed: str, reason: str | None
) -> None:
    make_work("Weirs", composer=composer, catalogue_number="RO 12")

    page = Page(browser.post(ADDRESS, filled_in(**{"dedication": "for Edda Krohn", name: typed})))

    told = page.texts(f"//*[@id='id_{name}_error']/p")
    assert len(told) == 1
    assert reason in {None, *told}
    assert page.values(f"{with_class('summary')}//a/@href") == [f"#id_{name}"]
    assert page.values(f"//*[@name='{name}']/@aria-invalid") == ["true"]
    assert page.title.startswith("Error: ")
    assert (page.field(name), page.field("dedication")) == (typed.replace("\x07", "\x07"), "for Edda Krohn")
    assert Work.objects.count() == 1


def test_text_that_cannot_be_read_is_marked_and_can_be_kept_as_typed(browser: Client) -> None:
    typed = filled_in(instrumentation_typed="any seven blorps", duration_typed="an evening")

    page = Page(browser.post(ADDRESS, typed))

    assert page.texts(f"{with_class('typed')}/mark") == ["any seven blorps", "an evening"]
    assert page.values("//input[@type='checkbox'][starts-with(@name, 'keep')]/@name") == [
        "keep_instrumentation",
        "keep_duration",
    ]

    browser.post(ADDRESS, {**typed, "keep_instrumentation": "on", "keep_duration": "on"})

    work = Work.objects.get()
    assert (work.instrumentation_typed, work.instrumentation) == ("any seven blorps", "")
    assert (work.duration_typed, work.duration) == ("an evening", None)


def test_form_that_is_sent_twice_makes_one_work(browser: Client) -> None:
    typed = filled_in(uid=str(uuid4()))

    first, second = browser.post(ADDRESS, typed), browser.post(ADDRESS, typed)

    assert Work.objects.count() == 1
    assert first.headers["Location"] == second.headers["Location"]


def test_fields_that_are_not_in_the_form_are_not_written(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    browser.post(
        ADDRESS, filled_in(composer=str(other_composer.pk), id="77", deleted_at="2026-01-01", least_players="5")
    )

    work = Work.objects.get()
    assert (work.composer, work.deleted_at, work.least_players) == (composer, None, None)
    assert work.pk != 77


def test_work_of_another_catalogue_cannot_be_named_as_first_version(browser: Client, other_composer: Composer) -> None:
    foreign = make_work("Serenade", composer=other_composer)

    page = Page(browser.post(ADDRESS, filled_in(version_of=str(foreign.pk))))

    assert page.values(f"{with_class('summary')}//a/@href") == ["#id_version_of"]
    assert "Serenade" not in page.text()


def test_commission_without_a_body_is_refused(browser: Client) -> None:
    page = Page(browser.post(ADDRESS, filled_in(**{"commissions-0-funder": "Rogaland Music Trust"})))

    assert page.wrong == ["Name who commissioned the work."]


def test_at_most_eight_fields_stand_before_more(browser: Client) -> None:
    page = Page(browser.get(ADDRESS))

    shown = (
        "//form[@data-keep]//*[self::input[not(@type='hidden' or @type='checkbox')] or self::select or self::textarea]"
    )
    assert len(page.tree.xpath(f"{shown}[not(ancestor::details)]")) == 8
    assert page.values("//details/@open") == []
