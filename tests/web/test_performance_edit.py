"""/c/<composer>/performances/<performance>/edit/"""

from __future__ import annotations

from collections.abc import Callable
from datetime import time

import pytest
from django.test import Client

from catalogue.actions.performances import save_performance
from catalogue.models import Composer, Performance, PerformanceCredit, ProgrammedWork, Venue
from tests.makers import NOW, make_organisation, make_performance, make_person, make_venue, make_work
from tests.web.pages import Page, with_class


def address(performance: Performance) -> str:
    return f"/c/ilka-marovand/performances/{performance.pk}/edit/"


def opened(browser: Client, performance: Performance) -> dict[str, str]:
    """Return what the browser would send back if nothing were changed."""
    page = Page(browser.get(address(performance)))
    (form,) = page.tree.xpath("//form[@data-keep]")
    return {name: (value or "").lstrip("\n") for name, value in form.form_values()}


def everything(composer: Composer) -> Performance:
    """An evening of which all is known."""
    tides, weirs = make_work("Tides", composer=composer), make_work("Weirs", composer=composer)
    performance = Performance(
        composer=composer, event_title="Wasserstücke", venue=make_venue(composer=composer), zone="Europe/Busingen",
        presenter=make_organisation("Nordlyd", composer=composer), series="Spring", country_then="Helvetia",
        string_strengths=(8, 6, 4, 4, 2), notes="One.\n\nTwo.", kind="broadcast", audience="invited",
        time=time(19, 30),
    )  # fmt: skip
    performance.date = Performance._meta.get_field("date").typed("c. 1998")
    return save_performance(
        performance=performance,
        now=NOW,
        programme=[ProgrammedWork(work=tides, billing="Swiss premiere"), ProgrammedWork(work=weirs, extent="excerpt")],
        credits=[
            PerformanceCredit(organisation=make_organisation(composer=composer), role="ensemble"),
            PerformanceCredit(
                person=make_person(composer=composer), name="N. Halvorsen", role="soloist", plays="cello"
            ),
        ],
    )


def stored(performance: Performance) -> list[object]:
    columns = [one.attname for one in Performance._meta.concrete_fields if one.name not in {"saves", "changed_at"}]
    return [
        Performance.objects.values(*columns).get(pk=performance.pk),
        list(performance.programme.order_by("order").values()),
        list(performance.credits.order_by("order").values()),
        list(Venue.objects.values()),
    ]


@pytest.mark.parametrize("make", [everything, lambda composer: make_performance(composer=composer, city="Lyon")])
def test_form_sent_back_unchanged_changes_nothing(
    browser: Client, composer: Composer, make: Callable[[Composer], Performance]
) -> None:
    performance = make(composer)
    before = stored(performance)

    response = browser.post(address(performance), opened(browser, performance))

    assert response.status_code == 302
    assert stored(performance) == before
    assert [row.history.count() for row in performance.programme.all()] == [1] * performance.programme.count()


def test_programme_is_changed_added_to_and_emptied_row_by_row(browser: Client, composer: Composer) -> None:
    performance = everything(composer)
    make_work("Night Crane", composer=composer)
    kept = performance.programme.get(work__title="Weirs")
    typed = opened(browser, performance)
    typed |= {"programme-0-work": "", "programme-0-billing": "", "programme-2-work": "Night Crane"}

    browser.post(address(performance), typed)

    rows = list(performance.programme.order_by("order").values_list("work__title", "extent", "order"))
    assert rows == [("Weirs", "excerpt", 1), ("Night Crane", "complete", 2)]
    assert performance.programme.get(work__title="Weirs").pk == kept.pk


def test_row_with_a_billing_and_no_work_is_refused(browser: Client, composer: Composer) -> None:
    performance = everything(composer)

    page = Page(browser.post(address(performance), {**opened(browser, performance), "programme-0-work": ""}))

    assert page.wrong == ["Name the work that was played."]
    assert page.values(f"{with_class('summary')}//a/@href") == ["#id_programme-0-work"]
    assert performance.programme.count() == 2


def test_deleted_work_keeps_its_row(browser: Client, composer: Composer) -> None:
    performance = everything(composer)
    composer.works.filter(title="Tides").update(deleted_at=NOW)
    typed = opened(browser, performance)

    browser.post(address(performance), {**typed, "programme-0-part": "II"})

    rows = list(performance.programme.order_by("order").values_list("work__title", "part"))
    assert typed["programme-0-work"] == "Weirs"
    assert rows == [("Weirs", "II"), ("Tides", "")]


def test_row_of_another_performance_is_not_taken(browser: Client, composer: Composer) -> None:
    performance, other = everything(composer), make_performance(make_work("Serenade", composer=composer))
    foreign = other.programme.get()
    typed = {**opened(browser, performance), "programme-0-row": str(foreign.pk), "programme-0-part": "II"}

    browser.post(address(performance), typed)

    foreign.refresh_from_db()
    assert (foreign.performance, foreign.part) == (other, "")


def test_performer_who_stays_keeps_the_row_and_the_joined_name(browser: Client, composer: Composer) -> None:
    performance = everything(composer)
    keys = list(performance.credits.order_by("order").values_list("pk", flat=True))
    typed = opened(browser, performance)
    assert typed["performers"] == "Kestrel Ensemble\ncello: N. Halvorsen"

    browser.post(address(performance), {**typed, "performers": "solo cello: N. Halvorsen\npiano: Pia Lorenzat"})

    rows = list(performance.credits.order_by("order").values_list("pk", "person__name", "name", "plays"))
    assert rows[0] == (keys[1], "Noor Halvorsen", "N. Halvorsen", "cello")
    assert rows[1][1:] == ("Pia Lorenzat", "", "piano")


def test_hall_is_changed_to_another(browser: Client, composer: Composer) -> None:
    performance = everything(composer)
    other = make_venue("Salle", composer=composer, city="Lyon", country="FR", zone="Europe/Paris")

    browser.post(address(performance), {**opened(browser, performance), "venue": "Salle, Lyon", "zone": ""})

    performance.refresh_from_db()
    assert (performance.venue, performance.zone, performance.sequence) == (other, "", 1)


def test_what_becomes_known_of_the_hall_does_not_overtake_the_form(browser: Client, composer: Composer) -> None:
    hall = make_venue("Barn", composer=composer, country="", zone="")
    performance = make_performance(composer=composer, venue=hall)

    response = browser.post(address(performance), {**opened(browser, performance), "country": "CH"})

    hall.refresh_from_db()
    assert (response.status_code, hall.country, hall.zone) == (302, "CH", "Europe/Zurich")


def test_later_save_of_somebody_else_is_shown_beside_ones_own_and_not_overwritten(
    browser: Client, composer: Composer
) -> None:
    performance = everything(composer)
    mine = {**opened(browser, performance), "event_title": "Water", "programme-0-billing": "world premiere"}
    performance.event_title = "Wasser"
    save_performance(performance=performance, now=NOW)

    page = Page(browser.post(address(performance), mine))

    assert Performance.objects.get().event_title == "Wasser"
    assert page.texts(f"{with_class('summary')}//dt") == ["Title of the event", "Programme"]
    assert page.texts(f"{with_class('versions')}/div")[:2] == ["Saved Wasser", "Yours Water"]
    assert (page.field("event_title"), page.field("programme-0-billing")) == ("Water", "world premiere")

    browser.post(address(performance), {**mine, "saves": page.field("saves")})

    assert Performance.objects.get().event_title == "Water"
    assert performance.programme.get(order=1).billing == "world premiere"


def test_what_to_call_a_playing_is_set_by_hand_with_its_reason(browser: Client, composer: Composer) -> None:
    performance = everything(composer)
    by_hand = {"claim_override": "world premiere", "claim_reason": "The one before was a run-through."}
    typed = {f"programme-0-{name}": text for name, text in by_hand.items()}

    response = browser.post(address(performance), {**opened(browser, performance), **typed})

    assert response.status_code == 302
    assert performance.programme.values(*by_hand).get(order=1) == by_hand
    assert opened(browser, performance)["programme-0-claim_reason"] == "The one before was a run-through."


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        ({"claim_override": "world premiere"}, "Say why it is to be called that."),
        ({"claim_override": "world premiere", "claim_reason": "  "}, "Say why it is to be called that."),
        ({"claim_reason": "I was there."}, "Say what it is to be called, or leave the reason empty too."),
    ],
)
def test_words_without_a_reason_and_a_reason_without_words_are_refused_at_their_place(
    browser: Client, composer: Composer, typed: dict[str, str], wrong: str
) -> None:
    performance = everything(composer)
    added = {f"programme-0-{name}": text for name, text in typed.items()}

    page = Page(browser.post(address(performance), {**opened(browser, performance), **added}))

    assert page.wrong == [wrong]
    assert page.values("//details[.//input[@name='programme-0-claim_reason']]/@open") == [""]
    assert performance.programme.values_list("claim_override", "claim_reason").get(order=1) == ("", "")


def test_enter_key_saves_and_does_not_press_another_button(browser: Client, composer: Composer) -> None:
    page = Page(browser.get(address(everything(composer))))

    assert page.values("(//form[@data-keep]//button)[1]/@name") == []


def test_performance_of_another_catalogue_cannot_be_changed(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    foreign = make_performance(composer=other_composer, city="Lyon")

    answers = [browser.get(address(foreign)), browser.post(address(foreign), {"city": "Bern"})]

    assert [answer.status_code for answer in answers] == [404, 404]


def test_number_of_queries_does_not_grow_with_the_programme(
    browser: Client, composer: Composer, django_assert_num_queries: object
) -> None:
    one = make_performance(make_work("One", composer=composer), performers=("A",))
    three = make_performance(
        *(make_work(f"Other {number}", composer=composer) for number in range(3)), performers=("A", "B", "C")
    )

    for performance in (one, three):
        with django_assert_num_queries(11):  # type: ignore[operator]
            browser.get(address(performance))
