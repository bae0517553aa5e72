"""/c/<composer>/performances/new/"""

from __future__ import annotations

from datetime import UTC, datetime, time
from uuid import uuid4

import pytest
from django.test import Client

from catalogue.models import Composer, Organisation, Performance, PerformanceCredit, Person, Venue
from catalogue.timing import Duration, PartialDate
from tests.makers import make_organisation, make_performance, make_person, make_venue, make_work
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/performances/new/"
READING = "/c/ilka-marovand/performances/reading/performers/"


def filled_in(*works: str, **typed: str) -> dict[str, str]:
    rows = {f"programme-{place}-work": name for place, name in enumerate(works)}
    management = {"programme-TOTAL_FORMS": str(len(works) or 1), "programme-INITIAL_FORMS": "0"}
    return {"status": "", "kind": "concert", "audience": "public", **management, **rows, **typed}


def test_date_alone_saves(browser: Client, composer: Composer) -> None:
    response = browser.post(ADDRESS, filled_in(date="16 May 2025"))

    performance = Performance.objects.get()
    assert response.headers["Location"] == f"/c/ilka-marovand/performances/{performance.pk}/"
    assert (performance.composer, performance.date, performance.status) == (composer, PartialDate(2025, 5, 16), "given")


@pytest.mark.parametrize(
    ("day", "status"), [("2026-03-08", "given"), ("2026-03-09", "confirmed"), ("2027", "confirmed"), ("", "planned")]
)
def test_what_has_become_of_it_follows_from_the_date(
    browser: Client, composer: Composer, day: str, status: str
) -> None:
    browser.post(ADDRESS, filled_in(date=day, city="Lyon"))

    assert Performance.objects.get().status == status


def test_everything_typed_is_kept_and_read(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer)
    make_work("Weirs", composer=composer)
    typed = filled_in(
        "tides", "Weirs", date="Saturday 28 March 2026", time="7.30 pm", status="confirmed", venue="Bøkehallen",
        city="Stavanger", country="Norway", performers="Vikkammeret\nconductor: Joren Voorhage",
        event_title="Wasserstücke", presenter="Nordlyd", series="Spring", kind="broadcast", audience="invited",
        string_strengths="8 6 4 4 2", country_then="", notes="Bring the tam-tam.",
    )  # fmt: skip
    typed |= {"programme-1-extent": "excerpt", "programme-1-part": "II", "programme-1-billing": "Norwegian premiere"}
    typed |= {"programme-1-duration": "4'05", "programme-1-note": "encore"}

    browser.post(ADDRESS, typed)

    performance = Performance.objects.get()
    assert (performance.date, performance.time) == (PartialDate(2026, 3, 28), time(19, 30))
    assert performance.starts_at == datetime(2026, 3, 28, 18, 30, tzinfo=UTC)
    assert Venue.objects.values_list("name", "city", "country", "zone").get() == (
        "Bøkehallen", "Stavanger", "NO", "Europe/Oslo",
    )  # fmt: skip
    assert (performance.event_title, performance.presenter_name, performance.series) == (
        "Wasserstücke", "Nordlyd", "Spring",
    )  # fmt: skip
    assert (performance.kind, performance.audience, performance.string_strengths) == (
        "broadcast", "invited", (8, 6, 4, 4, 2),
    )  # fmt: skip
    assert [(one.billed_name, one.role) for one in performance.credits.order_by("order")] == [
        ("Vikkammeret", "performer"),
        ("Joren Voorhage", "conductor"),
    ]
    columns = ("work__title", "extent", "part", "billing", "duration", "note")
    assert list(performance.programme.order_by("order").values_list(*columns)) == [
        ("Tides", "complete", "", "", None, ""),
        ("Weirs", "excerpt", "II", "Norwegian premiere", Duration(245), "encore"),
    ]


@pytest.mark.parametrize(
    ("name", "typed", "reason"),
    [
        ("date", "31 February 2026", None),
        ("date", "some day", None),
        ("time", "25:00", "A day goes from 00:00 to 23:59."),
        ("time", "half past", "“half past” is no time of day; write 19:30."),
        (
            "country",
            "Atlantis",
            "“Atlantis” is no country; write its English name or the two letters of ISO 3166, such as CH.",
        ),
        (
            "country",
            "USSR",
            "Soviet Union is a state of the past; write today’s country here, and the state of the time below.",
        ),
        ("zone", "Europe/Atlantis", "“Europe/Atlantis” is no time zone; write one such as Europe/London."),
        ("performers", "conductor:", "Name who was “conductor”."),
        ("string_strengths", "8.6", None),
        ("event_title", "bell \x07", "Character 6 is a control character and cannot be printed; delete it."),
        ("status", "sold out", None),
        ("programme-0-work", "Tidess", "No work of this catalogue is called “Tidess”."),
        ("programme-0-duration", "0'", "A duration is longer than nothing; leave it empty where it is not known."),
        ("programme-0-billing", "UK premiere", None),
    ],
)
def test_mistake_is_told_at_its_place_and_nothing_is_stored_or_lost(
    browser: Client, composer: Composer, name: str, typed: str, reason: str | None
) -> None:
    page = Page(browser.post(ADDRESS, filled_in(**{"venue": "New Hall", "notes": "Bring the tam-tam.", name: typed})))

    told = page.texts(f"//*[@id='id_{name.replace('billing', 'work')}_error']/p")
    assert len(told) == 1
    assert reason in {None, *told}
    assert len(page.values(f"{with_class('summary')}//a/@href")) >= 1
    assert page.title.startswith("Error: ")
    assert page.field("notes") == "Bring the tam-tam."
    assert page.field(name) == (typed if name != "status" else "")
    assert (Performance.objects.count(), Venue.objects.count()) == (0, 0)


def test_time_that_the_clocks_skip_is_refused(browser: Client, composer: Composer) -> None:
    typed = filled_in(date="2027-03-28", time="2:30", venue="Lager Elf", city="Hamburg", country="DE")

    page = Page(browser.post(ADDRESS, typed))

    assert page.texts("//*[@id='id_time_error']/p") == [
        "On 28 March 2027 the clocks in Europe/Berlin never show 02:30, as they go forward by 60 minutes; "
        "write 01:30 or 03:30."
    ]
    assert page.values("//select[@name='second_time']/@name") == []
    assert Venue.objects.count() == 0


def test_time_that_comes_twice_is_asked_about(browser: Client, composer: Composer) -> None:
    typed = filled_in(date="2027-10-31", time="2:30", venue="Lager Elf", city="Hamburg", country="DE")

    asked = Page(browser.post(ADDRESS, typed))
    browser.post(ADDRESS, {**typed, "second_time": "second"})

    stored = Performance.objects.get()
    assert asked.texts("//*[@id='id_time_error']/p") == [
        "On 31 October 2027 the clocks in Europe/Berlin show 02:30 twice, as they go back; "
        "say the first or the second time."
    ]
    assert asked.values("//select[@name='second_time']/option/@value") == ["", "first", "second"]
    assert stored.starts_at == datetime(2027, 10, 31, 1, 30, tzinfo=UTC)
    edit = Page(browser.get(f"/c/ilka-marovand/performances/{stored.pk}/edit/"))
    assert edit.values("//select[@name='second_time']/option[@selected]/@value") == ["second"]


def test_form_without_anything_is_refused(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(ADDRESS, filled_in()))

    assert page.texts(f"{with_class('summary')}//li") == [
        "Say when, where, who or what was played; one of these is enough."
    ]
    assert Performance.objects.count() == 0


def test_form_that_is_sent_twice_makes_one_performance(browser: Client, composer: Composer) -> None:
    typed = filled_in(date="2026", venue="New Hall", uid=str(uuid4()))

    first, second = browser.post(ADDRESS, typed), browser.post(ADDRESS, typed)

    assert (Performance.objects.count(), Venue.objects.count()) == (1, 1)
    assert first.headers["Location"] == second.headers["Location"]


def test_fields_that_are_not_in_the_form_are_not_written(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    browser.post(
        ADDRESS,
        filled_in(
            date="2026", composer=str(other_composer.pk), id="77", deleted_at="2026-01-01", sequence="9",
            first_day="1999-01-01", starts_at="1999-01-01",
        ),
    )  # fmt: skip

    performance = Performance.objects.get()
    assert (performance.composer, performance.deleted_at, performance.sequence) == (composer, None, 0)
    assert (performance.first_day.year if performance.first_day else None, performance.starts_at) == (2026, None)
    assert performance.pk != 77


# ---- where


@pytest.mark.parametrize("typed", [{"venue": "old granary"}, {"venue": "Old Granary, Zurich"}])
def test_known_hall_is_recognised(browser: Client, composer: Composer, typed: dict[str, str]) -> None:
    hall = make_venue(composer=composer)

    browser.post(ADDRESS, filled_in(date="2026-05-16", time="19:30", **typed))

    performance = Performance.objects.get()
    assert (performance.venue, performance.city, performance.country, performance.zone) == (hall, "", "", "")
    assert performance.starts_at == datetime(2026, 5, 16, 17, 30, tzinfo=UTC)


def test_hall_of_the_same_name_in_another_city_is_a_new_one(browser: Client, composer: Composer) -> None:
    make_venue(composer=composer)

    browser.post(ADDRESS, filled_in(venue="Old Granary", city="Lyon", country="FR"))

    assert list(Venue.objects.order_by("pk").values_list("name", "city", "zone")) == [
        ("Old Granary", "Zurich", "Europe/Zurich"),
        ("Old Granary", "Lyon", "Europe/Paris"),
    ]


def test_hall_of_which_there_are_two_asks_for_the_city(browser: Client, composer: Composer) -> None:
    make_venue(composer=composer)
    make_venue(composer=composer, city="Lyon", country="FR")

    page = Page(browser.post(ADDRESS, filled_in(venue="Old Granary")))

    assert page.texts("//*[@id='id_city_error']/p") == [
        "There are halls of this name in Lyon and Zurich; say which city."
    ]


def test_hall_of_another_catalogue_is_not_taken(browser: Client, composer: Composer, other_composer: Composer) -> None:
    foreign = make_venue("Secret Barn", composer=other_composer)

    browser.post(ADDRESS, filled_in(venue="Secret Barn"))

    performance = Performance.objects.get()
    assert (performance.venue.composer, performance.venue.city) == (composer, "")  # type: ignore[union-attr]
    assert performance.venue != foreign


def test_what_was_not_known_of_a_hall_becomes_known(browser: Client, composer: Composer) -> None:
    hall = make_venue("Barn", composer=composer, city="", country="", zone="")

    browser.post(ADDRESS, filled_in(venue="Barn", city="Stavanger", country="NO"))

    hall.refresh_from_db()
    assert (hall.city, hall.country, hall.zone) == ("Stavanger", "NO", "Europe/Oslo")


@pytest.mark.parametrize(
    ("place", "zone"),
    [
        ({"city": "Hamburg", "country": "DE"}, "Europe/Berlin"),
        ({"city": "Chicago", "country": "United States"}, "America/Chicago"),
        ({"city": "Winterthur", "country": "CH"}, "Europe/Zurich"),
        ({"city": "Boston", "country": "US", "zone": "America/New_York"}, "America/New_York"),
        ({"city": "Springfield"}, ""),
    ],
)
def test_clocks_are_told_from_the_place(browser: Client, composer: Composer, place: dict[str, str], zone: str) -> None:
    browser.post(ADDRESS, filled_in(date="2026-05-16", time="19:30", **place))

    assert Performance.objects.get().zone == zone


def test_clocks_of_a_city_are_those_of_its_halls(browser: Client, composer: Composer) -> None:
    make_venue("Symphony Barn", composer=composer, city="Boston", country="US", zone="America/New_York")

    browser.post(ADDRESS, filled_in(date="2026-05-16", time="19:30", venue="Loft", city="Boston", country="US"))

    assert Venue.objects.get(name="Loft").zone == "America/New_York"


def test_clocks_that_cannot_be_told_are_asked(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(ADDRESS, filled_in(date="2026-05-16", time="19:30", city="Boston", country="US")))

    (told,) = page.texts("//*[@id='id_zone_error']/p")
    assert told.startswith("Clocks differ in United States; say which, such as America/")
    assert page.values("//details[@class='more'][@open]//input[@name='zone']/@name") == ["zone"]
    assert "America/New_York" in page.values("//datalist[@id='zones']/option/@value")
    assert Performance.objects.count() == 0


# ---- who


def test_whoever_is_new_is_kept_among_people_and_organisations(browser: Client, composer: Composer) -> None:
    make_person("Noor Halvorsen", composer=composer)
    names = "conductor: Joren Voorhage\nNordlyd Ensemble\npiano: noor halvorsen\nnarrator: Joren Voorhage"

    for day in ("16 May 2025", "17 May 2025"):
        browser.post(ADDRESS, filled_in(date=day, performers=names, presenter="Nordlyd", keeps_names="on"))

    assert list(Person.objects.order_by("sort_name").values_list("name", "sort_name")) == [
        ("Noor Halvorsen", ""), ("Joren Voorhage", "Voorhage, Joren"),
    ]  # fmt: skip
    assert list(Organisation.objects.in_name_order().values_list("name", flat=True)) == ["Nordlyd", "Nordlyd Ensemble"]
    assert {one.presented_by for one in Performance.objects.filter(presenter__isnull=False)} == {"Nordlyd"}
    assert PerformanceCredit.objects.filter(person=None, organisation=None).count() == 0


def test_names_are_kept_as_billed_alone_where_that_is_wished(browser: Client, composer: Composer) -> None:
    browser.post(ADDRESS, filled_in(date="2025", performers="piano: Joren Voorhage", presenter="Nordlyd"))

    assert (Person.objects.count(), Organisation.objects.count()) == (0, 0)
    assert PerformanceCredit.objects.values_list("name", flat=True).get() == "Joren Voorhage"


def test_performer_who_is_new_or_looks_like_somebody_is_named_while_one_types(
    browser: Client, composer: Composer
) -> None:
    make_person("Aoife Tarrandale", composer=composer)
    make_organisation("Kestrel Quartet", composer=composer)

    page = Page(browser.post(READING, {"performers": "harp: aoife tarandale\nKestrel Quartet\nIda Holm"}))

    assert page.texts("//p")[1:] == [
        "Here already: Aoife Tarrandale.",
        "Not here yet: aoife tarandale, Ida Holm.",
    ]


def test_performers_are_joined_to_whom_the_catalogue_knows(browser: Client, composer: Composer) -> None:
    body, person = make_organisation("Kestrel", composer=composer), make_person("Noor Halvorsen", composer=composer)

    browser.post(ADDRESS, filled_in(performers="Kestrel\npiano: Noor Halvorsen", presenter="kestrel"))

    performance = Performance.objects.get()
    columns = ("organisation", "person", "name", "role", "plays")
    assert list(performance.credits.order_by("order").values_list(*columns)) == [
        (body.pk, None, "", "ensemble", ""),
        (None, person.pk, "", "soloist", "piano"),
    ]
    assert (performance.presenter, performance.presenter_name) == (body, "")


# ---- the programme


def test_work_is_found_by_any_of_its_titles_and_its_number(browser: Client, composer: Composer) -> None:
    work = make_work(
        "Állo fos", composer=composer, original_title="Άλλο φως", translated_title="Other Light",
        catalogue_number="RO 47",
    )  # fmt: skip

    browser.post(ADDRESS, filled_in("allo fos", "Άλλο φως", "other light", "RO 47"))

    assert list(Performance.objects.get().programme.values_list("work", flat=True)) == [work.pk] * 4


def test_works_of_one_title_are_told_apart(browser: Client, composer: Composer) -> None:
    first = make_work("Tides", composer=composer)
    make_work("Tides", composer=composer, version_of=first, version_label="2nd edition")

    page = Page(browser.post(ADDRESS, filled_in("Tides")))

    offered = page.values("//datalist[@id='works']/option/@value")
    assert offered == [f"Tides (no. {first.pk})", "Tides (2nd edition)"]
    assert page.texts("//*[@id='id_programme-0-work_error']/p") == [
        f"Several works are called so; write “{offered[0]}” or “{offered[1]}”."
    ]


def test_work_of_another_catalogue_is_not_known(browser: Client, composer: Composer, other_composer: Composer) -> None:
    make_work("Serenade", composer=other_composer)

    page = Page(browser.post(ADDRESS, filled_in("Serenade")))

    assert page.wrong == ["No work of this catalogue is called “Serenade”."]
    assert page.values("//datalist[@id='works']/option/@value") == []


def test_work_that_the_address_names_stands_on_the_programme(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer)

    page = Page(browser.get(ADDRESS, {"work": str(work.pk)}))

    assert page.field("programme-0-work") == "Tides"


def test_another_row_is_given_without_saving(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer)

    page = Page(browser.post(ADDRESS, {**filled_in("Tides", date="2026"), "another": "1"}))

    assert (page.field("programme-0-work"), page.field("programme-1-work")) == ("Tides", "")
    assert page.field("date") == "2026"
    assert Performance.objects.count() == 0


def test_work_is_moved_before_the_one_above_it_without_saving(browser: Client, composer: Composer) -> None:
    typed = filled_in("Tides", "Weirs", **{"programme-1-billing": "UK premiere"})

    page = Page(browser.post(ADDRESS, {**typed, "earlier": "1"}))

    assert [page.field(f"programme-{place}-work") for place in (0, 1)] == ["Weirs", "Tides"]
    assert [page.field(f"programme-{place}-billing") for place in (0, 1)] == ["UK premiere", ""]
    assert Performance.objects.count() == 0


def test_at_most_eight_fields_stand_before_more(browser: Client, composer: Composer) -> None:
    page = Page(browser.get(ADDRESS))

    shown = (
        "//form[@data-keep]//*[self::input[not(@type='hidden' or @type='checkbox')] or self::select or self::textarea]"
    )
    assert len(page.tree.xpath(f"{shown}[not(ancestor::details)]")) == 8
    assert page.values("//details/@open") == []


# ---- live readings


@pytest.mark.parametrize(
    ("reading", "typed", "words"),
    [
        (
            "when",
            {"date": "28.3.2026", "time": "19h30"},
            "Reads as Saturday 28 March 2026, 19:30, in 19 days",
        ),
        ("when", {"date": "", "time": ""}, ""),
        ("when", {"date": "2026-13-01"}, "There is no month 13. 2026-13-01"),
        (
            "where",
            {"venue": "old granary"},
            "Reads as Old Granary, Zurich, Switzerland, clocks of Europe/Zurich",
        ),
        (
            "where",
            {"venue": "Barn", "city": "Lyon", "country": "fr"},
            "Reads as Barn, Lyon, France, clocks of Europe/Paris A new hall; it is kept for the next time.",
        ),
        ("where", {"country": ""}, ""),
        (
            "performers",
            {"performers": "Kestrel Quartet; solo clarinet: Ragna Tolv"},
            "Reads as Kestrel Quartet, ensemble; Ragna Tolv, solo clarinet Not here yet: Kestrel Quartet, Ragna Tolv.",
        ),
    ],
)
def test_reading_says_what_was_understood(
    browser: Client, composer: Composer, reading: str, typed: dict[str, str], words: str
) -> None:
    make_venue(composer=composer)

    response = browser.post(f"/c/ilka-marovand/performances/reading/{reading}/", typed)

    assert " ".join(Page(response).texts("/*")).replace("\xa0", " ") == words if words else not response.content.strip()


def test_form_takes_the_same_queries_however_much_the_catalogue_knows(
    browser: Client, composer: Composer, django_assert_num_queries: object
) -> None:
    for number in (1, 2, 3):
        make_performance(make_work(f"Work {number}", composer=composer), venue=make_venue(f"Hall {number}"))

    with django_assert_num_queries(6):  # type: ignore[operator]
        browser.get(ADDRESS)
