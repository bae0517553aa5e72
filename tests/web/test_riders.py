"""/riders/<token>/: a rider read and answered without an account; sending it, and seeing what was answered"""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, Rider, RiderSending, TechnicalSetup
from tests.makers import make_performance, make_venue, make_work
from tests.record_makers import make_record
from tests.web.pages import Page

pytestmark = pytest.mark.django_db

NEEDS = "4 loudspeakers; full range; presenter\nmixing desk; 8 inputs\nlaptop; composer"


@pytest.fixture
def rider(composer: Composer) -> Rider:
    work = make_work("Ash Ferry", composer=composer, instrumentation="pf, live electronics")
    make_performance(work, venue=make_venue("Dock Hall", composer=composer, equipment="2 loudspeakers"))
    setup = make_record(TechnicalSetup, work=work, equipment=NEEDS, inputs="1; piano; line; 48 V; hall", layout="none")
    found: Rider = make_record(Rider, work=work, setup=setup)
    return found


@pytest.fixture
def address(browser: Client, rider: Rider) -> str:
    return sent(browser, rider)


def sent(browser: Client, rider: Rider, language: str = "en-GB") -> str:
    page = Page(browser.post(f"/c/ilka-marovand/riders/{rider.pk}/send/", {"to": "Kit Arran", "language": language}))
    (whole,) = page.values("//*[@id='address']/@value")
    return re.sub(r"^https?://[^/]+", "", whole)


def test_before_it_is_sent_it_says_what_does_not_agree_and_what_the_hall_does_not_list(
    browser: Client, rider: Rider
) -> None:
    page = Page(browser.get(f"/c/ilka-marovand/riders/{rider.pk}/send/"))

    assert "Input 1, piano: phantom power on a line source can damage it." in page.text()
    assert page.texts("//section[@id='hall']//li") == [
        "4 loudspeakers lacks 2 of 4; on the list: loudspeakers",
        "Mixing desk lacks 1 of 1; none on the list",
        "Chairs and music stands lacks 1 of 1; none on the list",
    ]


def test_it_is_read_without_an_account_and_asks_only_for_what_others_bring(address: str) -> None:
    response = Client().get(address)

    page = Page(response)
    assert "4 loudspeakers" in page.text("//form")
    assert "Laptop" not in page.text("//form")
    assert "Laptop" in page.text("//section[@id='brought']")
    assert "Input list" in page.text("//section[@id='rider']")
    assert response.headers["X-Robots-Tag"] == "noindex, nofollow, noarchive"
    assert response.headers["Referrer-Policy"] == "same-origin"
    assert response.headers["Cache-Control"] == "private, no-store"


def typed(answers: dict[str, tuple[str, str]], by: str = "Kit Arran") -> dict[str, str]:
    """What is sent with these answers, each by the title of its item."""
    keys = {item["title"]: item["key"] for item in RiderSending.objects.get().items}
    found = {"by": by, "message": "The desk is in the stalls."}
    for title, (answer, remark) in answers.items():
        found |= {f"answer-{keys[title]}": answer, f"remark-{keys[title]}": remark}
    return found


def test_answers_are_kept_shown_again_and_seen_by_the_composer(browser: Client, rider: Rider, address: str) -> None:
    presenter = Client()
    sent = typed({"4 loudspeakers": ("yes", ""), "Mixing desk": ("", "Which one do you mean?")})

    page = Page(presenter.post(address, sent, follow=True))
    seen = Page(browser.get(f"/c/ilka-marovand/records/riders/{rider.pk}/")).text("//section[@id='sent']")

    assert "your answers are kept" in page.text()
    assert page.values("//input[@type='radio' and @checked]/@value") == ["yes", "question"]
    assert "by Kit Arran" in seen
    assert "The desk is in the stalls." in seen
    assert "4 loudspeakers yes" in seen
    assert "Mixing desk Which one do you mean? a question" in seen


def test_an_answer_without_a_name_comes_back_with_what_was_typed(address: str) -> None:
    page = Page(Client().post(address, typed({"4 loudspeakers": ("no", "two")}, by="")))

    assert "Your name" in page.text("//*[@role='alert']")
    assert page.values("//input[@type='radio' and @checked]/@value") == ["no"]


def test_files_are_those_that_were_sent_even_when_the_setup_has_changed(
    rider: Rider, address: str, settings: Any
) -> None:
    before = Client().get(f"{address}pdf/").content
    assert rider.setup is not None
    rider.setup.equipment = "nothing at all"
    rider.setup.save()

    after = Client().get(f"{address}pdf/")

    assert after.content == before
    assert after.headers["Content-Disposition"] == 'attachment; filename="rider-ash-ferry-1.pdf"'
    assert Client().get(f"{address}docx/").content[:2] == b"PK"
    assert Client().get(f"{address}html/").status_code == 404


def test_a_withdrawn_address_opens_nothing(browser: Client, address: str) -> None:
    answer = browser.post(f"/c/ilka-marovand/riders/sent/{RiderSending.objects.get().pk}/withdraw/", follow=True)

    assert "shut on 9 March 2026" in Page(answer).text("//section[@id='sent']")
    assert [Client().get(f"{address}{part}").status_code for part in ("", "pdf/")] == [404, 404]
    assert Client().post(address, {"by": "Kit"}).status_code == 404


def test_queries_do_not_grow_with_the_items(rider: Rider, address: str) -> None:
    sending = RiderSending.objects.get()
    with CaptureQueriesContext(connection) as few:
        Client().get(address)
    sending.items = [{**sending.items[0], "key": f"{number:016x}"} for number in range(40)]
    sending.save()
    with CaptureQueriesContext(connection) as many:
        Client().get(address)

    assert len(many) == len(few)


def test_an_old_revision_names_the_newer_one_and_a_new_one_tells_what_was_answered_before(
    browser: Client, rider: Rider, address: str
) -> None:
    key = [item["key"] for item in RiderSending.objects.get().items if item["provider"] == "presenter"][-1]
    Client().post(address, {"by": "Kit", f"answer-{key}": "no", f"remark-{key}": "Two\nlines"})
    newer = sent(browser, rider, "de")

    assert "Revision 2 has been sent since" in Client().get(address).content.decode()
    page = Client().get(newer).content.decode()
    assert "What was answered to the revision before stands here already" in page
    assert "Two lines" in page
    assert "Stühle und Notenpulte" in page
    assert "Not answered yet:" in browser.get(f"/c/ilka-marovand/records/riders/{rider.pk}/").content.decode()


def test_one_tick_says_yes_to_what_is_not_answered_otherwise(rider: Rider, address: str) -> None:
    presenter = Client()
    sent = typed({"4 loudspeakers": ("no", "two"), "Mixing desk": ("", "Which one do you mean?")}) | {"rest": "on"}

    page = Page(presenter.post(address, sent, follow=True))

    checked = page.values("//input[@type='radio' and @checked]/@value")
    assert (checked.count("no"), checked.count("question")) == (1, 1)
    assert checked.count("yes") == len(checked) - 2 == len(page.values("//fieldset")) - 2
    assert page.values("//input[@name='rest']/@name") == []
