"""/c/<composer>/calls/: the list, a text that is read, its conditions confirmed, the works held against them."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.actions.calls import AlreadySent, choose_or_leave, choose_works, note_submission, propose_call
from catalogue.models import Call, Composer, Submission, Work
from catalogue.terms import SubmissionStatus
from tests.makers import NOW, make_recording, make_work
from tests.web.pages import Page

ADDRESS = "/c/ilka-marovand/calls/"
TEXT = """Lowmarsh Winds, Norwich: call for wind quintets
For flute, oboe, clarinet, horn and bassoon, exactly.
Length: up to ten minutes.
Composed in 2015 or later. No electronics.
Deadline: 20 March 2026, midnight, UK time."""


def make_call(composer: Composer, text: str = TEXT) -> Call:
    return propose_call(composer=composer, text=text, now=NOW)


def note(call: Call, status: SubmissionStatus) -> None:
    note_submission(call=call, status=status, sent_on=date(2026, 3, 1), outcome="", feedback="", saves=0, now=NOW)


def test_a_pasted_text_becomes_a_call_whose_fields_stand_beside_their_words(
    browser: Client, composer: Composer
) -> None:
    answer = browser.post(f"{ADDRESS}new/", {"text": f"{TEXT}\nThe composer must be present."}, follow=True)

    call = Call.objects.get()
    page = Page(answer)
    assert call.title == "Lowmarsh Winds, Norwich: call for wind quintets"
    assert (call.closes_on, call.closes_at) == (date(2026, 3, 20), datetime(2026, 3, 21, 0, 0, tzinfo=UTC))
    assert answer.redirect_chain == [(f"{ADDRESS}{call.pk}/edit/", 302)]
    assert [one.text_content() for one in page.tree.xpath("//q")].count("up to ten minutes.") == 1
    assert page.tree.xpath("//section[@id='unread']//q/bdi/text()") == ["The composer must be present."]


def test_a_form_sent_back_unchanged_changes_no_condition(browser: Client, composer: Composer) -> None:
    call = make_call(composer)
    (form,) = Page(browser.get(f"{ADDRESS}{call.pk}/edit/")).tree.xpath("//form[@data-keep]")
    sent = {name: (value or "").lstrip("\n") for name, value in form.form_values()}

    assert browser.post(f"{ADDRESS}{call.pk}/edit/", sent).status_code == 302

    again = Call.objects.get()
    assert (again.asks, again.closes_at, again.saves) == (call.asks, call.closes_at, call.saves + 1)


def test_a_call_without_a_text_is_entered_by_form(browser: Client, composer: Composer) -> None:
    answer = browser.post(f"{ADDRESS}new/", {"title": "A poster at the stage door"}, follow=True)

    call = Call.objects.get()
    (form,) = Page(answer).tree.xpath("//form[@data-keep]")
    sent = {name: (value or "").lstrip("\n") for name, value in form.form_values()}
    assert answer.redirect_chain == [(f"{ADDRESS}{call.pk}/edit/", 302)]
    browser.post(f"{ADDRESS}{call.pk}/edit/", sent | {"forces": "fl.hp", "duration_max": "10'"})
    assert (call.title, call.full_text) == ("A poster at the stage door", "")
    assert Call.objects.get().asks == replace(
        call.asks, forces=replace(call.asks.forces, texts=("fl.hp",)), duration_max=600
    )


def test_a_call_without_a_title_is_asked_for_it(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(f"{ADDRESS}new/", {"title": " "}))

    assert "Enter what the call is called." in page.text()
    assert not Call.objects.exists()


def test_what_the_text_leaves_open_is_told_until_it_has_been_looked_at(browser: Client, composer: Composer) -> None:
    call = make_call(composer, f"{TEXT}\nClosing date: 1 April 2026.")
    page = Page(browser.get(f"{ADDRESS}{call.pk}/edit/"))
    (form,) = page.tree.xpath("//form[@data-keep]")
    sent = {name: (value or "").lstrip("\n") for name, value in form.form_values()}

    assert "names more than one deadline" in page.tree.xpath("string(//section[@id='doubts'])")
    browser.post(f"{ADDRESS}{call.pk}/edit/", sent | {"looked": "on"})

    assert "more than one deadline" not in Page(browser.get(f"{ADDRESS}{call.pk}/")).text()
    assert Call.objects.get().asks == replace(call.asks, contradictions=())


def test_an_hour_on_an_unknown_clock_is_asked_about_until_its_clock_is_entered(
    browser: Client, composer: Composer
) -> None:
    call = make_call(composer, "Lowmarsh Reeds: call for scores\nDeadline: 20 March 2026, 17:00")
    address = f"{ADDRESS}{call.pk}/"
    (form,) = Page(browser.get(f"{address}edit/")).tree.xpath("//form[@data-keep]")
    sent = {name: (value or "").lstrip("\n") for name, value in form.form_values()}

    assert "does not say by whose clock" in Page(browser.get(address)).text()
    browser.post(f"{address}edit/", sent | {"deadline_zone": "Europe/London"})

    assert Call.objects.get().closes_at == datetime(2026, 3, 20, 17, 0, tzinfo=UTC)
    assert "does not say by whose clock" not in Page(browser.get(address)).text()


def test_mistakes_stand_at_their_fields_and_nothing_is_stored(browser: Client, composer: Composer) -> None:
    call = make_call(composer)
    sent = {"title": "", "forces": "3 flutez", "duration_max": "soon", "deadline_time": "25:00", "kind": "call"}

    page = Page(browser.post(f"{ADDRESS}{call.pk}/edit/", sent))

    wrong = " ".join(one.text_content() for one in page.tree.xpath("//*[@class='wrong']"))
    assert "flutez" in wrong
    assert "soon" in wrong
    assert Call.objects.get().asks == call.asks


def test_each_work_has_its_answer_and_its_reason(browser: Client, composer: Composer) -> None:
    make_work("Slack Rope", composer=composer, instrumentation="fl.ob.cl – hn – bn", completed="2019", duration="9'")
    make_work(
        "Long Rope", composer=composer, instrumentation="fl.ob.cl – hn – bn", completed="2019", duration="10'30\""
    )
    make_work("Old Rope", composer=composer, instrumentation="pf", completed="1999", duration="9'")
    call = make_call(composer)

    page = Page(browser.get(f"{ADDRESS}{call.pk}/"))

    rows = [" ".join(row.text_content().split()) for row in page.tree.xpath("//tbody/tr")]
    assert len(rows) == 2
    assert rows[0].startswith("Slack Rope")
    assert "Every condition is met." in rows[0]
    assert "It is 30 s too long." in rows[1]
    assert "Old Rope" in browser.get(f"{ADDRESS}{call.pk}/?all").content.decode()


def test_number_of_queries_does_not_grow_with_the_works(browser: Client, composer: Composer) -> None:
    call = make_call(composer)
    counts = []
    for number in (1, 3):
        for index in range(number):
            make_work(f"Rope {number} {index}", composer=composer, completed="2019", duration="9'")
        with CaptureQueriesContext(connection) as asked:
            browser.get(f"{ADDRESS}{call.pk}/")
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_a_work_is_chosen_and_let_go(browser: Client, composer: Composer) -> None:
    made, call = make_work("Slack Rope", composer=composer), make_call(composer)

    browser.post(f"{ADDRESS}{call.pk}/choose/", {"work": made.pk})
    assert [row.work_id for row in call.submission.works.all()] == [made.pk]

    browser.post(f"{ADDRESS}{call.pk}/choose/", {"work": made.pk})
    assert call.submission.works.count() == 0


def test_a_work_is_not_sent_twice_where_a_call_wants_it_for_itself(composer: Composer) -> None:
    made = make_work("Slack Rope", composer=composer)
    first = make_call(composer, TEXT + "\nThe work must not be submitted elsewhere.")
    second = make_call(composer)
    choose_works(call=first, works=[made])
    note(first, SubmissionStatus.SENT)

    with pytest.raises(AlreadySent, match="wants it for itself"):
        choose_works(call=second, works=[made])


def test_a_deleted_call_can_be_brought_back(browser: Client, composer: Composer) -> None:
    call = make_call(composer)

    browser.post(f"{ADDRESS}{call.pk}/delete/")
    assert not Call.objects.exists()

    browser.post(f"{ADDRESS}{call.pk}/restore/")
    assert Call.objects.get() == call


def test_today_says_which_calls_close(browser: Client, composer: Composer) -> None:
    make_work(composer=composer)
    make_call(composer)

    (section,) = Page(browser.get("/c/ilka-marovand/")).tree.xpath("//section[@id='closing']")

    said = " ".join(section.text_content().split())
    assert "Friday 20 March 2026, midnight at its end (Europe/London)" in said.replace("\u00a0", " ")


def test_another_composers_call_is_not_found(browser: Client, other_composer: Composer) -> None:
    call = make_call(other_composer)

    assert browser.get(f"{ADDRESS}{call.pk}/").status_code == 404


def test_three_sets_are_proposed_and_one_is_taken(browser: Client, composer: Composer) -> None:
    for number in range(4):
        make_work(
            f"Rope {number}", composer=composer, instrumentation="fl.ob.cl – hn – bn", completed=f"201{6 + number}",
            duration="4'",
        )  # fmt: skip
    call = make_call(composer, TEXT + "\nSend two works.")

    page = Page(browser.get(f"{ADDRESS}{call.pk}/choice/"))

    answers = page.tree.xpath("//section[@id='answers']//ol")
    assert [item.text_content() for item in answers[0].xpath("li")] == ["Rope 3 4′", "Rope 2 4′"]
    assert len(answers) == 3
    assert "No set is worth more by your weights." in page.text()
    (form, *_others) = page.tree.xpath("//section[@id='answers']//form")
    browser.post(f"{ADDRESS}{call.pk}/set/", {"work": form.xpath("input[@name='work']/@value")})
    assert [row.work.title for row in call.submission.works.order_by("order")] == ["Rope 3", "Rope 2"]


def test_a_composers_own_marks_weigh_and_are_told(browser: Client, composer: Composer) -> None:
    for number in range(4):
        made = make_work(
            f"Rope {number}", composer=composer, instrumentation="fl.ob.cl – hn – bn", completed="2019", duration="4'"
        )
    strong = Work.objects.get(title="Rope 1")
    (form,) = Page(browser.get(f"/c/ilka-marovand/works/{strong.pk}/edit/")).tree.xpath("//form[@data-keep]")
    typed = {name: (value or "").lstrip("\n") for name, value in form.form_values()}
    browser.post(f"/c/ilka-marovand/works/{strong.pk}/edit/", {**typed, "strength": "5"})
    make_recording(made, quality=4, form="audio")
    call = make_call(composer, TEXT + "\nSend two works.")

    usual = Page(browser.get(f"{ADDRESS}{call.pk}/choice/"))
    by_marks = Page(browser.get(f"{ADDRESS}{call.pk}/choice/?strength=5&recorded=&works=1"))

    first = usual.tree.xpath("//section[@id='answers']//ol")[0]
    assert [item.text_content() for item in first.xpath("li")] == ["Rope 3 4′", "Rope 1 4′"]
    assert "Rope 3: completed in 2019, recorded, the best recording marked 4 of 5." in usual.text()
    assert by_marks.tree.xpath("//section[@id='answers']//li/span")[0].text_content() == "Rope 1"
    assert "Rope 1: you mark it 5 of 5." in by_marks.text()


def test_a_pinned_work_of_unknown_length_is_told_where_the_minutes_count(browser: Client, composer: Composer) -> None:
    made = make_work("Slack Rope", composer=composer, instrumentation="fl.ob.cl – hn – bn", completed="2019")
    make_work("Rope", composer=composer, instrumentation="fl.ob.cl – hn – bn", completed="2019", duration="4'")
    call = make_call(composer)
    said = "Slack Rope is to be in, but the minutes count and its duration is not recorded."

    told = [
        said in Page(browser.get(f"{ADDRESS}{call.pk}/choice/?doubtful=on&pin={made.pk}{minutes}")).text()
        for minutes in ("&minutes=9", "")
    ]

    assert told == [True, False]


def test_a_work_that_is_left_out_is_in_no_answer(browser: Client, composer: Composer) -> None:
    made = make_work(
        "Slack Rope", composer=composer, instrumentation="fl.ob.cl – hn – bn", completed="2019", duration="4'"
    )
    call = make_call(composer)

    page = Page(browser.get(f"{ADDRESS}{call.pk}/choice/?ban={made.pk}&recent=1&played=1&recorded=1&contrast=1"))

    assert "No set of works meets all that is asked." in page.text()


RARE = (
    TEXT
    + """
Open to composers living in Belgium or the Netherlands, aged 18 to 35 on the closing date.
Exactly 4 channels.
Portfolio: submit three works, at least one of them for ten players or more, at least one with voice.
A statement of 300 to 500 words, two referees, a CV of at most two pages.
Files up to 20 MB each, scores as PDF and recordings as MP3, named Surname_Title.pdf.
The words are in Latin or English and in the public domain. One further player may be added.
Results will be announced on 1 June 2027.
"""
)


def test_rare_conditions_have_fields_that_give_them_back(browser: Client, composer: Composer) -> None:
    call = make_call(composer, RARE)
    (form,) = Page(browser.get(f"{ADDRESS}{call.pk}/edit/")).tree.xpath("//form[@data-keep]")
    sent = {name: (value or "").lstrip("\n") for name, value in form.form_values()}

    assert sent["set_rules"].splitlines() == ["1 large ensemble, 10 players", "1 voice"]
    assert (sent["resident"], sent["age_least"], sent["referees"]) == ("Belgium, Netherlands", "18", "2")
    assert (sent["file_size"], sent["file_names"]) == ("20", "{surname}_{title}")
    assert (sent["formats"], sent["text_languages"]) == ("pdf, mp3", "Latin, English")
    assert (sent["text_rights"], sent["extra_players"]) == ("in the public domain", "1")
    assert sent["results_on"] == "1 June 2027"
    assert browser.post(f"{ADDRESS}{call.pk}/edit/", sent).status_code == 302
    assert Call.objects.get().asks == call.asks


def test_what_no_rare_condition_is_is_refused_at_its_field(browser: Client, composer: Composer) -> None:
    call = make_call(composer)
    sent = {"title": "A", "set_rules": "two harps", "resident": "Atlantis", "file_names": "{shoe}", "kind": "call"}
    sent |= {"formats": "pdf, scroll", "text_languages": "Runic"}

    wrong = " ".join(Page(browser.post(f"{ADDRESS}{call.pk}/edit/", sent)).wrong)

    assert all(word in wrong for word in ("two harps", "Atlantis", "{shoe}", "scroll", "Runic"))


def test_days_are_told_as_the_reader_writes_them(browser: Client, composer: Composer) -> None:
    call = make_call(composer)
    make_work("Old Rope", composer=composer, completed="1999", duration="9'", instrumentation="fl.ob.cl – hn – bn")

    told = Page(browser.get(f"{ADDRESS}{call.pk}/?all")).text().replace("\N{NO-BREAK SPACE}", " ")

    assert "asks for 1 January 2015 or later" in told
    assert "2015-01-01" not in told


def test_a_call_is_open_until_its_moment_though_its_day_is_over_here(browser: Client, composer: Composer) -> None:
    noon_here = datetime(2026, 3, 9, 12, tzinfo=UTC)
    call = make_call(composer, TEXT.replace("20 March 2026, midnight, UK time", "8 March 2026, midnight, Hawaii time"))

    still = Call.objects.filter(pk=call.pk)
    assert call.closes_at == datetime(2026, 3, 9, 10, tzinfo=UTC)
    assert list(still.open_at(noon_here.replace(hour=9), date(2026, 3, 9))) == [call]
    assert list(still.open_at(noon_here, date(2026, 3, 9))) == []


def test_a_call_that_was_decided_or_answered_is_no_longer_open(browser: Client, composer: Composer) -> None:
    made = {
        status: make_call(composer, TEXT.replace("Lowmarsh", f"{status}-marsh")) for status in ("sent", "not chosen")
    }
    for status, call in made.items():
        note(call, SubmissionStatus(status))
    waiting = make_call(composer)

    tree = Page(browser.get(ADDRESS)).tree

    listed = {one: tree.xpath(f"//section[@id='{one}']//a/@href") for one in ("open", "sent", "over")}
    assert listed == {
        "open": [f"{ADDRESS}{waiting.pk}/"],
        "sent": [f"{ADDRESS}{made['sent'].pk}/"],
        "over": [f"{ADDRESS}{made['not chosen'].pk}/"],
    }
    make_work(composer=composer)
    closing = Page(browser.get("/c/ilka-marovand/")).tree.xpath("//section[@id='closing']//h3/a/@href")
    assert f"{ADDRESS}{made['not chosen'].pk}/" not in closing


def test_a_deadline_told_as_a_week_is_taken_by_its_first_day_and_said_to_be_loose(
    browser: Client, composer: Composer
) -> None:
    call = make_call(composer, TEXT.replace("20 March 2026, midnight, UK time", "the first week of June 2027"))

    said = Page(browser.get(f"{ADDRESS}{call.pk}/edit/")).tree.xpath("string(//section[@id='doubts'])")

    assert call.closes_on == date(2027, 6, 1)
    assert "names no day, only “first week of June 2027”, which is 1 June 2027 to 7 June 2027" in " ".join(
        said.replace("\u00a0", " ").split()
    )


def test_one_kind_of_electronics_is_kept_by_the_form_and_told(browser: Client, composer: Composer) -> None:
    call = make_call(composer, TEXT.replace("No electronics", "Tape welcome, live electronics not"))
    live = make_work(composer=composer, title="Plugs", instrumentation="fl.ob.cl.hn.bn, live electronics (2 ch)")
    (form,) = Page(browser.get(f"{ADDRESS}{call.pk}/edit/")).tree.xpath("//form[@data-keep]")
    sent = {name: (value or "").lstrip("\n") for name, value in form.form_values()}

    assert (sent["electronics"], sent["electronics_only"]) == ("allowed", "fixed media")
    browser.post(f"{ADDRESS}{call.pk}/edit/", sent)
    page = Page(browser.get(f"{ADDRESS}{call.pk}/?all"))

    assert Call.objects.get().asks == call.asks
    assert "allowed, fixed media only" in page.text()
    assert f"/c/ilka-marovand/works/{live.pk}/" in page.values("//a/@href")
    assert "It needs live electronics; the call has fixed media alone." in page.text()


def test_a_call_of_which_no_players_were_read_says_so(browser: Client, composer: Composer) -> None:
    call = make_call(composer, "Lowmarsh prize for a new work\nLength: up to ten minutes.")

    assert "No players are entered for this call" in Page(browser.get(f"{ADDRESS}{call.pk}/")).text()


def test_later_note_of_somebody_else_stands_beside_ones_own_and_is_not_written_over(
    browser: Client, composer: Composer
) -> None:
    call = make_call(composer)
    seen = noted_form(Page(browser.get(f"{ADDRESS}{call.pk}/")))
    browser.post(f"{ADDRESS}{call.pk}/sent/", seen | {"outcome": "Shortlisted"})

    page = Page(browser.post(f"{ADDRESS}{call.pk}/sent/", seen | {"outcome": "Withdrawn"}))

    assert "since you opened it" in page.text("//*[@id='conflict-heading']")
    assert page.texts("//dd[@class='versions']/div") == ["Saved Shortlisted", "Yours Withdrawn"]
    assert Submission.objects.get().outcome == "Shortlisted"
    browser.post(f"{ADDRESS}{call.pk}/sent/", noted_form(page))
    assert (Submission.objects.get().outcome, Submission.objects.get().saves) == ("Withdrawn", 2)


def test_a_note_that_is_refused_keeps_what_was_typed(browser: Client, composer: Composer) -> None:
    call = make_call(composer)
    seen = noted_form(Page(browser.get(f"{ADDRESS}{call.pk}/")))

    page = Page(browser.post(f"{ADDRESS}{call.pk}/sent/", seen | {"sent_on": "in a while", "outcome": "Shortlisted"}))

    assert noted_form(page)["outcome"] == "Shortlisted"
    assert page.tree.xpath("//*[@role='alert']//a/@href") == ["#id_sent_on"]
    assert not Submission.objects.exists()


def noted_form(page: Page) -> dict[str, str]:
    (form,) = page.tree.xpath("//section[@id='sent']//form")
    return {name: (value or "").lstrip("\n") for name, value in form.form_values()}


def test_a_work_that_somebody_else_has_chosen_meanwhile_stays_chosen(composer: Composer) -> None:
    call, works = make_call(composer), [make_work(title, composer=composer) for title in ("Slack Rope", "Ebb", "Tides")]
    for work in works:
        choose_or_leave(call=call, work=work)

    choose_or_leave(call=call, work=works[1])

    assert [row.work for row in call.submission.works.order_by("order")] == [works[0], works[2]]
