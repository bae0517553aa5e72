"""/c/<composer>/records/ — every kind of record: its list, its page, its form, its way back."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.actions.records import save_record
from catalogue.actions.works import delete_work
from catalogue.models import (
    Award,
    Biography,
    Commission,
    Composer,
    ContactPerson,
    Contributor,
    NotationSign,
    Organisation,
    PercussionInstrument,
    PerformanceCredit,
    Person,
    ProgrammeNote,
    Recording,
    TechnicalSetup,
    TextSource,
    Venue,
    Work,
)
from catalogue.web.records.kinds import Kind
from catalogue.web.records.registry import KINDS
from tests.makers import NOW, make_organisation, make_performance, make_person, make_recording, make_venue, make_work
from tests.record_makers import OF_COMPOSER, OF_WORK, make_record
from tests.web.pages import Page, opened, with_class

ROOT = "/c/ilka-marovand/records/"
SLUGS = list(KINDS)


@pytest.fixture
def reader(signed_in: Callable[[User], Client], viewer: User) -> Client:
    return signed_in(viewer)


@pytest.fixture
def work(composer: Composer) -> Work:
    return make_work("Ash Ferry", composer=composer)


def one_of(kind: Kind, work: Work, **columns: Any) -> Any:
    """Return a stored record of any kind."""
    if kind.model in {**OF_WORK, **OF_COMPOSER}:
        return make_record(kind.model, work=work, **columns)
    makers: dict[type[Any], Callable[[], Any]] = {
        Person: lambda: make_person(composer=work.composer, **columns),
        Organisation: lambda: make_organisation(composer=work.composer, **columns),
        Recording: lambda: make_recording(work, **columns),
        Venue: lambda: make_venue(composer=work.composer, latitude=47.3769, longitude=-8.5, **columns),
        Commission: lambda: Commission.objects.create(work=work, name="Harbour Hall", **columns),
    }
    return makers[kind.model]()


def address(kind: Kind, record: Any) -> str:
    return f"{ROOT}{kind.slug}/{record.pk}/"


def test_index_names_every_kind_with_its_number(browser: Client, work: Work) -> None:
    make_record(Award, work=work)

    page = Page(browser.get(ROOT))

    assert page.values("//main//li//a/@href") == [f"{ROOT}{slug}/" for slug in SLUGS]
    assert page.text("//main//li[.//a[contains(@href, '/awards/')]]/span[contains(@class, 'num')]") == "1"


@pytest.mark.parametrize("slug", SLUGS)
def test_kind_is_laid_out_with_few_fields_first_and_every_field_named(slug: str) -> None:
    kind = KINDS[slug]
    stored = {column.name for column in kind.model._meta.concrete_fields if column.editable}
    left_out = {"id", "composer", "work", "search_text"}

    assert sum(len(group.names) for group in kind.main) + kind.is_of_work <= 8
    assert set(kind.names) >= stored - left_out
    assert len(set(kind.names)) == len(kind.names)
    assert set(kind.fields) >= {*kind.names, *kind.columns[1:]}


@pytest.mark.parametrize("slug", SLUGS)
def test_form_sent_back_unchanged_changes_nothing(browser: Client, work: Work, slug: str) -> None:
    kind = KINDS[slug]
    record = one_of(kind, work)
    columns = [one.attname for one in kind.model._meta.concrete_fields if one.name not in {"saves", "changed_at"}]
    model: Any = kind.model
    before = model.objects.values(*columns).get(pk=record.pk)

    response = browser.post(f"{address(kind, record)}edit/", opened(browser, f"{address(kind, record)}edit/"))

    assert response.status_code == 302, Page(response).wrong
    assert model.objects.values(*columns).get(pk=record.pk) == before


@pytest.mark.parametrize("slug", SLUGS)
def test_list_and_page_show_a_record_to_a_reader_who_cannot_change_it(reader: Client, work: Work, slug: str) -> None:
    kind = KINDS[slug]
    record = one_of(kind, work)

    listed, page = Page(reader.get(f"{ROOT}{slug}/")), Page(reader.get(address(kind, record)))

    assert address(kind, record) in listed.values("//table//th//a/@href")
    assert page.text("//h1") == " ".join(str(record).split())
    assert page.tree.xpath("//main//form") == []


@pytest.mark.parametrize("slug", SLUGS)
def test_list_takes_as_many_queries_for_three_as_for_one(
    browser: Client, work: Work, slug: str, django_assert_max_num_queries: Any
) -> None:
    kind = KINDS[slug]
    one_of(kind, work)
    browser.get(ROOT)
    with django_assert_max_num_queries(10) as first:
        browser.get(f"{ROOT}{slug}/")
    with django_assert_max_num_queries(8) as taken:
        browser.get(f"{ROOT}{slug}/export/csv/?columns=all")
    for _each in range(2):
        one_of(kind, work)

    with django_assert_max_num_queries(len(first)):
        assert Page(browser.get(f"{ROOT}{slug}/")).status == 200
    with django_assert_max_num_queries(len(taken)):
        assert browser.get(f"{ROOT}{slug}/export/csv/?columns=all").status_code == 200


@pytest.mark.parametrize("slug", SLUGS)
def test_deleted_record_leaves_the_list_and_comes_back(browser: Client, work: Work, slug: str) -> None:
    kind = KINDS[slug]
    record = one_of(kind, work)

    deleted = Page(browser.post(f"{address(kind, record)}delete/", follow=True))
    gone = browser.get(address(kind, record)).status_code
    (back,) = [one for one in deleted.values("//form/@action") if "/restore/" in one]
    browser.post(back)

    assert (gone, browser.get(address(kind, record)).status_code) == (404, 200)


@pytest.mark.parametrize("slug", SLUGS)
def test_record_of_another_catalogue_is_not_there(
    browser: Client, other_composer: Composer, composer: Composer, slug: str
) -> None:
    kind = KINDS[slug]
    theirs = one_of(kind, make_work("Salt", composer=other_composer))

    statuses = {
        browser.get(address(kind, theirs)).status_code,
        browser.get(f"{address(kind, theirs)}edit/").status_code,
        browser.post(f"{address(kind, theirs)}delete/").status_code,
        browser.get(f"/c/ilka-marovand/changes/{kind.word}/{theirs.pk}/").status_code,
    }

    assert statuses == {404}


def test_unknown_kind_is_not_there(browser: Client) -> None:
    assert browser.get(f"{ROOT}secrets/").status_code == 404


# ---- making and changing


def test_contributor_is_recognised_by_name_and_hangs_on_the_work(browser: Client, work: Work) -> None:
    known = make_person("Mira Oxley", composer=work.composer)
    at = f"{ROOT}contributors/new/?work={work.pk}"

    browser.post(at, {**opened(browser, at), "name": "mira oxley", "role": "librettist", "share": "16.667"})

    (made,) = Contributor.objects.all()
    assert (made.work, made.person, made.name, made.share) == (work, known, "mira oxley", Decimal("16.667"))


def test_contributor_who_looks_like_somebody_is_noticed_while_one_types(browser: Client, work: Work) -> None:
    make_person("Odhran Skellivan", composer=work.composer)
    make_organisation("Pennywort Editions", composer=work.composer)
    typed = {"name": "odran skellivan"}

    page, body = (
        Page(browser.post(f"{ROOT}contributors/alike/", {"name": name}))
        for name in (typed["name"], "Pennywort Edition")
    )
    exact = browser.post(f"{ROOT}contributors/alike/", {"name": "Odhran Skellivan"})

    assert page.texts("//a") == ["Odhran Skellivan"]
    assert page.values("//a/@href") == [address(KINDS["people"], Person.objects.get())]
    assert (exact.content.strip(), body.texts("//a")) == (b"", ["Pennywort Editions"])
    saved = Page(
        browser.post(
            f"{ROOT}contributors/new/?work={work.pk}", {**typed, "role": "other", "position": "0"}, follow=True
        )
    )
    assert "It looks like “Odhran Skellivan”, which was here already." in saved.text()


def test_body_that_is_not_known_is_added_with_the_record(browser: Client, composer: Composer) -> None:
    at = f"{ROOT}contacts/new/"

    browser.post(at, {**opened(browser, at), "name": "Bo Lind", "organisation": "Harbour Hall", "role": "press"})

    (made,) = ContactPerson.objects.select_related("organisation")
    assert (made.name, made.organisation.name, made.organisation.composer) == ("Bo Lind", "Harbour Hall", composer)


def test_form_sent_twice_makes_one_record(browser: Client, work: Work) -> None:
    at = f"{ROOT}awards/new/"
    typed = {**opened(browser, at), "name": "Harbour Prize"}

    answers = [browser.post(at, typed).headers["Location"] for _each in range(2)]

    assert Award.objects.count() == 1
    assert answers[0] == answers[1]


def test_another_is_added_at_once_with_what_is_the_same_again(browser: Client, work: Work) -> None:
    at = f"{ROOT}percussion/new/?work={work.pk}"
    typed = {**opened(browser, at), "player": "2", "instrument": "tam-tam", "another": "1"}

    answer = browser.post(at, typed)

    assert answer.headers["Location"] == f"{ROOT}percussion/new/?player=2&work={work.pk}"
    assert Page(browser.get(answer.headers["Location"])).field("player") == "2"
    assert PercussionInstrument.objects.get().player == 2


def test_work_is_asked_where_the_address_names_none(browser: Client, work: Work) -> None:
    at = f"{ROOT}programme-notes/new/"

    missing = Page(browser.post(at, {**opened(browser, at), "body": "The tide."}))
    browser.post(at, {**opened(browser, at), "body": "The tide.", "work": work.pk})

    assert len(missing.texts("//*[@id='id_work_error']/p")) == 1
    assert ProgrammeNote.objects.get().work == work


@pytest.mark.parametrize(
    ("slug", "name", "typed"),
    [
        ("awards", "name", ""),
        ("awards", "date", "31 February"),
        ("contributors", "share", "101"),
        ("recordings", "excerpt_from", "soon"),
        ("recordings", "excerpt_until", "1:00"),
        ("biographies", "language", "English"),
        ("organisations", "country", "Atlantis"),
        ("signs", "cents", "loud"),
        ("people", "email", "at home"),
    ],
)
def test_mistake_is_told_at_its_place_and_nothing_is_stored(
    browser: Client, work: Work, slug: str, name: str, typed: str
) -> None:
    kind = KINDS[slug]
    record = one_of(kind, work)
    at = f"{address(kind, record)}edit/"

    page = Page(browser.post(at, {**opened(browser, at), "excerpt_from": "2:00", "notes": "kept", name: typed}))

    assert len(page.texts(f"//*[@id='id_{name}_error']/p")) == 1
    assert (page.field(name), page.field("notes")) == (typed, "kept")
    record.refresh_from_db()
    assert record.notes == ""


@pytest.mark.parametrize(
    ("typed", "kept", "told"),
    [
        ("60 %", "60.000", []),
        ("33,5%", "33.500", []),
        ("half", None, ["Write a number, such as 12.5."]),
        ("60 Hz", None, ["Write a number, such as 12.5."]),
        ("33,333", None, ["Write a number without marks between its thousands: 1250.50."]),
    ],
)
def test_share_is_typed_with_or_without_its_unit(
    browser: Client, work: Work, typed: str, kept: str | None, told: list[str]
) -> None:
    record = one_of(KINDS["contributors"], work, share=None)
    at = f"{address(KINDS['contributors'], record)}edit/"

    page = Page(browser.post(at, {**opened(browser, at), "share": typed}, follow=True))

    record.refresh_from_db()
    assert (str(record.share) if record.share is not None else None, page.texts("//*[@id='id_share_error']/p")) == (
        kept,
        told,
    )


def test_excerpt_is_typed_in_minutes_and_kept_in_seconds(browser: Client, work: Work) -> None:
    record = make_recording(work)
    at = f"{ROOT}recordings/{record.pk}/edit/"

    browser.post(at, {**opened(browser, at), "excerpt_from": "3:20", "excerpt_until": "1:04:05"})

    record.refresh_from_db()
    assert (record.excerpt_from, record.excerpt_until) == (200, 3845)
    assert Page(browser.get(at)).field("excerpt_from") == "3:20"


def test_later_save_of_somebody_else_is_shown_beside_ones_own_and_not_overwritten(browser: Client, work: Work) -> None:
    record = make_record(Award, work=work)
    at = f"{ROOT}awards/{record.pk}/edit/"
    mine = {**opened(browser, at), "result": "first prize"}
    record.result = "third prize"
    save_record(record=record, now=NOW)

    page = Page(browser.post(at, mine))
    record.refresh_from_db()

    assert record.result == "third prize"
    assert "third prize" in page.text(with_class("versions"))
    assert "first prize" in page.text(with_class("versions"))


# ---- what a page tells


def test_change_is_named_and_its_history_has_the_way_back(browser: Client, work: Work) -> None:
    record = make_record(Award, work=work)
    at = f"{ROOT}awards/{record.pk}/"
    browser.post(f"{at}edit/", {**opened(browser, f"{at}edit/"), "result": "first prize"})

    page = Page(browser.get(at))
    history = Page(browser.get(f"/c/ilka-marovand/changes/award/{record.pk}/"))

    assert page.texts("//section[@id='changes']//li/span")[0] == "Result edda"
    assert "second prize" in history.text()
    assert at in history.values("//main//a/@href")


def test_text_that_is_too_long_or_stale_is_told(browser: Client, work: Work) -> None:
    biography = make_record(Biography, work=work, body="word " * 31, as_of=None)

    assert Page(browser.get(f"{ROOT}biographies/{biography.pk}/")).wrong == [
        "It has 31 words, 1 more than a text of this length has (30).",
        "It does not say of what day it is true.",
    ]


def test_sign_is_drawn_where_its_outline_is_known(browser: Client, work: Work) -> None:
    known = make_record(NotationSign, work=work)
    other = make_record(NotationSign, work=work, smufl="accidentalOfMyOwn", name="own sign")

    drawn = Page(browser.get(f"{ROOT}signs/{known.pk}/")).values("//svg/@aria-label")
    listed = Page(browser.get(f"{ROOT}signs/")).values("//table//svg/@aria-label")

    assert drawn == listed == ["quarter-tone sharp"]
    assert browser.get(f"{ROOT}signs/{other.pk}/").status_code == 200


def test_text_is_marked_with_its_language_and_the_translation_with_its_own(browser: Client, work: Work) -> None:
    words = {"body": "Ebbe und Flut", "translation": "Ebb and flow", "language": "de", "translation_language": "en-GB"}
    record = make_record(TextSource, work=work, notes="Ask Jon.", **words)

    page = Page(browser.get(f"{ROOT}texts/{record.pk}/"))

    assert page.texts("//div[@lang='de']") == ["Ebbe und Flut"]
    assert page.texts("//div[@lang='en-GB']") == ["Ebb and flow"]
    assert page.texts("//div[@dir='auto'][not(@lang)]") == ["Ask Jon."]


def test_number_with_a_wrong_check_digit_is_doubted_and_kept(browser: Client, work: Work) -> None:
    record = make_record(Contributor, work=work, isni="0000 0001 2103 2684")

    assert len(Page(browser.get(f"{ROOT}contributors/{record.pk}/")).wrong) == 1


@pytest.mark.parametrize(("slug", "made"), [("people", make_person), ("organisations", make_organisation)])
def test_page_says_in_how_many_performances_somebody_is_named(
    browser: Client, composer: Composer, work: Work, slug: str, made: Any
) -> None:
    somebody = made("Nordlyd", composer=composer)
    column = {"people": "person", "organisations": "organisation"}[slug]
    for _each in range(2):
        performance = make_performance(work)
        for plays in ("viola", "viola d’amore"):
            PerformanceCredit.objects.create(performance=performance, plays=plays, **{column: somebody})

    page = Page(browser.get(address(KINDS[slug], somebody)))

    assert page.text("//section[h2='Performances' or header/h2='Performances']//a") == "Named in 2 performances"
    assert page.values("//a[contains(., 'Named in')]/@href") == ["/c/ilka-marovand/performances/?q=Nordlyd"]


def test_record_that_is_deleted_is_named_without_a_way_to_it(browser: Client, work: Work) -> None:
    award = Award.objects.create(composer=work.composer, work=work, name="Harbour Prize")
    delete_work(work=work, by=None, now=NOW)

    page = Page(browser.get(address(KINDS["awards"], award)))

    assert "Ash Ferry (deleted)" in page.text()
    assert [href for href in page.values("//main//a/@href") if "/works/" in href] == []


def test_organisation_shows_whom_to_ring_up(browser: Client, work: Work) -> None:
    contact = make_record(ContactPerson, work=work)

    page = Page(browser.get(f"{ROOT}organisations/{contact.organisation_id}/"))

    assert "Bo Lind Librarian, +47 55 00 00 00" in page.text()


# ---- pictures


def test_work_shows_what_is_around_it_and_the_ways_to_add(browser: Client, work: Work) -> None:
    record = make_record(Contributor, work=work)
    make_record(Contributor, work=work, name="Jon Aske", share=Decimal(80))

    page = Page(browser.get(f"/c/ilka-marovand/works/{work.pk}/"))

    assert f"{ROOT}contributors/{record.pk}/" in page.values("//section[@id='around']//a/@href")
    assert f"{ROOT}percussion/new/?work={work.pk}" in page.values("//section[@id='around']//a/@href")
    assert page.texts("//section[@id='around']//p[@class='wrong']") == [
        "The shares come to 105 per cent, 5 more than the whole."
    ]


@pytest.mark.parametrize(
    ("model", "columns", "told"),
    [
        (Contributor, {"share": Decimal("33.333")}, "33.333 per cent"),
        (
            Commission, {"funder": "Ash Fund", "due": "2017-11", "delivered": "2017-09-18"},
            "with funds from Ash Fund, due November 2017, delivered 18 September 2017",
        ),
        (TechnicalSetup, {"layout": "none", "synchronisation": "none", "documented": "2012"}, "documented 2012"),
        (PercussionInstrument, {"player": 2, "number": 1, "size": "", "compass": ""}, "player 2"),
        (PercussionInstrument, {"player": 2, "number": 4, "size": "", "compass": ""}, "player 2, how many: 4"),
    ],
)  # fmt: skip
def test_work_tells_what_is_around_it_in_words_that_stand_alone(
    browser: Client, work: Work, model: Any, columns: dict[str, Any], told: str
) -> None:
    one_of(next(kind for kind in KINDS.values() if kind.model is model), work, **columns)

    (line,) = Page(browser.get(f"/c/ilka-marovand/works/{work.pk}/")).texts(
        "//section[@id='around']//li/span[@class='fine']"
    )
    assert line.endswith(told)
    assert "None" not in line


def test_what_cannot_be_is_told_on_the_page_of_the_record(browser: Client, work: Work) -> None:
    shared = [make_record(Contributor, work=work, name=name, share=Decimal(60)) for name in ("Jon Aske", "Bo Lind")]
    early = one_of(KINDS["commissions"], work, agreed="2026-06", due="2025-05")
    over = make_record(TextSource, work=work, clearance="granted", granted="2020", expires="2024")

    told = [
        Page(browser.get(f"{ROOT}{kind}/{one.pk}/")).wrong
        for kind, one in (("contributors", shared[0]), ("commissions", early), ("texts", over))
    ]
    assert told == [
        ["The shares come to 120 per cent, 20 more than the whole."],
        ["It is to be delivered before it was agreed."],
        ["The permission has run out: the words are not printed until it is granted anew."],
    ]


def test_version_is_added_from_its_first_version(browser: Client, work: Work) -> None:
    page = Page(browser.get(f"/c/ilka-marovand/works/new/?version_of={work.pk}"))

    assert (page.field("title"), page.field("version_of")) == ("Ash Ferry", str(work.pk))
