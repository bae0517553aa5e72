from __future__ import annotations

from datetime import UTC, datetime, time
from typing import Any

import pytest
from django.db import IntegrityError

from catalogue.exchange import work_import
from catalogue.exchange.importing import Wish, import_table
from catalogue.exchange.outcomes import Outcome, Report
from catalogue.exchange.problems import Problem
from catalogue.exchange.tables import Table, TableError
from catalogue.exchange.work_rows import Reading
from catalogue.models import Composer, Organisation, Performance, Venue, Work
from catalogue.timing import Duration, PartialDate

pytestmark = pytest.mark.django_db

NOW = datetime(2026, 3, 9, 10, 0, tzinfo=UTC)


def take(composer: Composer | None, *rows: tuple[str, ...], reading: Reading | None = None, **wish: Any) -> Report:
    return import_table(Table(rows), Wish(composer, NOW, reading or Reading(), **wish))


def counts(report: Report) -> tuple[int, int, int]:
    return report.count(Outcome.NEW), report.count(Outcome.CHANGED), report.count(Outcome.SAME)


def only_work(**found: Any) -> Work:
    return Work.objects.get(**found)


def test_a_works_list_is_taken_in(composer: Composer) -> None:
    header = (
        "Title", "Subtitle", "Op.", "Composed", "Revised", "Genre", "Forces", "Length", "Movements", "Text", "Language",
        "Commissioned by", "Dedicatee", "Publisher", "ISWC", "ISMN", "Status", "Notes",
    )  # fmt: skip
    row = (
        "Slack Rope", "for wind", "12", "1998-05", "2001", "chamber", "2 fl, ob", "12'30\"", "Ebb 4'; Flood",
        "A. Poet", "de", "Tide House; Pier Trust", "to the sea", "own", "T-034.524.680-1", "979-0-060-11561-5",
        "published", "fine",
    )  # fmt: skip

    report = take(composer, header, row)

    work = only_work()
    assert (counts(report), report.errors, report.warnings) == ((1, 0, 0), (), ())
    assert (work.title, work.subtitle, work.catalogue_number, work.category) == (
        "Slack Rope",
        "for wind",
        "12",
        "chamber",
    )
    assert (work.completed, work.revised) == (PartialDate(1998, 5), PartialDate(2001))
    assert (work.duration, work.duration_typed) == (Duration(750), "12'30\"")
    assert (work.instrumentation, work.instrumentation_typed) == ("2.1.0.0", "2 fl, ob")
    assert [(one.title, one.duration) for one in work.movements.order_by("number")] == [
        ("Ebb", Duration(240)),
        ("Flood", None),
    ]
    assert [one.body for one in work.commissions.order_by("pk")] == ["Tide House", "Pier Trust"]
    assert (work.text_author, work.text_language, work.dedication, work.publisher) == (
        "A. Poet",
        "de",
        "to the sea",
        "own",
    )
    assert (work.iswc, work.ismn, work.status, work.notes) == ("T-034.524.680-1", "979-0-060-11561-5", "active", "fine")


def test_title_alone_is_enough_and_a_row_without_one_is_an_error(composer: Composer) -> None:
    report = take(composer, ("title", "year"), ("Slack Rope", ""), ("", "1998"))

    assert report.errors == (Problem(3, "title", "A work needs a title."),)
    assert not Work.objects.exists()


def test_importing_twice_changes_nothing(composer: Composer) -> None:
    rows = (
        ("title", "year", "forces", "duration", "movements", "commissioned by", "colour", "category"),
        ("Slack Rope", "1998", "??", "long", "Ebb; Flood", "Pier Trust", "blue", "weather"),
        ("Study", "2001", "fl", "3'", "", "", "", ""),
        ("Study", "2004", "ob", "4'", "", "", "red", ""),
    )

    first, second = take(composer, *rows), take(composer, *rows)

    assert (counts(first), counts(second)) == ((3, 0, 0), (0, 0, 3))
    assert only_work(title="Slack Rope").saves == 1
    assert only_work(title="Slack Rope").notes == "category: weather\ncolour: blue"
    assert first.unknown_columns == ("colour",)


def test_what_cannot_be_read_is_kept_as_it_is_written(composer: Composer) -> None:
    report = take(
        composer,
        ("title", "forces", "duration", "iswc"),
        ("Slack Rope", "seven zithertrons", "two rivers long", "T-034.524.680-2"),
    )

    work = only_work()
    assert [(one.row, one.column) for one in report.warnings] == [(2, "duration"), (2, "forces"), (2, "iswc")]
    assert (work.instrumentation, work.instrumentation_typed) == ("", "seven zithertrons")
    assert (work.duration, work.duration_typed, work.iswc) == (None, "two rivers long", "T-034.524.680-2")


def test_number_with_a_wrong_check_digit_is_kept_with_a_warning_that_says_the_right_one(composer: Composer) -> None:
    report = take(composer, ("title", "ISMN"), ("Slack Rope", "ISMN 979-0-060-11561-6"))

    assert report.warnings == (
        Problem(
            2,
            "ISMN",
            "The check digit of this ISMN would be 5, not 6: a digit was mistyped. Kept as it is written.",
        ),
    )
    assert only_work().ismn == "979-0-060-11561-6"


def test_same_number_in_another_dress_changes_nothing(composer: Composer) -> None:
    take(composer, ("title", "ISMN"), ("Slack Rope", "M-060-11561-5"))

    report = take(composer, ("title", "ISMN"), ("Slack Rope", "979-0-060-11561-5"))

    assert (counts(report), only_work().ismn) == ((0, 0, 1), "M-060-11561-5")


def test_a_date_that_cannot_be_read_stores_nothing(composer: Composer) -> None:
    report = take(composer, ("title", "Composed"), ("Slack Rope", "1998"), ("Bore", "1998-13"))

    assert [(one.row, one.column) for one in report.errors] == [(3, "Composed")]
    assert (report.stored, Work.objects.count()) == (False, 0)


@pytest.mark.parametrize(
    ("header", "row", "last", "column"),
    [
        (("Title", "Length"), ("Ebb", "9 min"), ("Total duration:", "9 min"), "Title"),
        (("Titel", "Dauer"), ("Ebb", "9 min"), ("Summe", "9 min"), "Titel"),
        (("Work", "Date", "City"), ("Ebb", "2001", "Linz"), ("Total performances: 1", "", ""), "Work"),
    ],
)
def test_a_last_row_of_totals_is_no_work(
    composer: Composer, header: tuple[str, ...], row: tuple[str, ...], last: tuple[str, ...], column: str
) -> None:
    report = take(composer, header, row, last)

    message = "This looks like a row of totals, not a work; leave it out of the table."
    assert (report.errors, counts(report)) == ((Problem(3, column, message),), (1, 0, 0))
    assert not Work.objects.exists()
    assert take(composer, ("Title", "Year"), ("Total", "2001")).stored


def test_a_header_with_nothing_below_is_refused(composer: Composer) -> None:
    with pytest.raises(TableError, match="There is nothing below the row that names the columns"):
        take(composer, ("Title", "Year"))


def test_days_counted_as_numbers_are_told_as_days(composer: Composer) -> None:
    report = take(composer, ("Work", "Date"), ("Ebb", "43613"))

    assert [one.message for one in report.errors] == [
        "“43613” is how a spreadsheet program counts days: 2019-05-28. Give the column the format of a date."
    ]


def test_a_trial_stores_nothing(composer: Composer) -> None:
    report = take(composer, ("title",), ("Slack Rope",), trial=True)

    assert (counts(report), report.stored, Work.objects.count()) == ((1, 0, 0), False, 0)


def test_bare_durations_are_asked_about_once_for_the_column(composer: Composer) -> None:
    rows = ("title", "Length"), ("A", "12"), ("B", "7.5"), ("C", "4'")

    asked = take(composer, *rows)

    assert asked.asked == 2
    assert asked.warnings == (
        Problem(
            2,
            "Length",
            "“12” is a number without a unit, as is another in this column: say whether they are minutes or seconds. "
            "Kept as it is written.",
        ),
    )
    assert counts(take(composer, *rows, reading=Reading(bare_durations="minutes"))) == (0, 2, 1)
    assert [work.duration for work in Work.objects.order_by("title")] == [Duration(720), Duration(450), Duration(240)]


def test_all_that_are_asked_about_are_counted(composer: Composer) -> None:
    report = take(composer, ("title", "Length"), ("A", "12"), ("B", "7"), ("C", "8"), ("D", "4'"))

    assert report.asked == 3
    assert ", as are 2 others in this column:" in report.warnings[0].message
    assert take(composer, ("work", "date", "venue"), ("A", "2001-05-03", "Old Granary")).asked == 0


def test_changed_cells_change_the_work_and_empty_ones_nothing(composer: Composer) -> None:
    take(composer, ("title", "year", "forces", "movements"), ("Slack Rope", "1998", "fl, ob", "Ebb 4'; Flood"))

    report = take(composer, ("title", "year", "forces", "movements"), ("slack  rope", "", "fl, cl", "Ebb; Bore"))

    work = only_work()
    assert counts(report) == (0, 1, 0)
    assert (work.completed, work.instrumentation) == (PartialDate(1998), "fl.cl")
    assert [(one.title, one.duration) for one in work.movements.order_by("number")] == [
        ("Ebb", Duration(240)),
        ("Bore", None),
    ]


def test_the_same_reading_in_another_dress_changes_nothing(composer: Composer) -> None:
    take(composer, ("title", "forces", "duration"), ("Slack Rope", "flute and oboe", "12 min"))

    report = take(composer, ("title", "forces", "duration"), ("Slack Rope", "fl, ob", "12'"))

    assert counts(report) == (0, 0, 1)
    assert only_work().instrumentation_typed == "flute and oboe"


def test_the_stored_text_itself_changes_nothing_whatever_it_reads_as(composer: Composer) -> None:
    Work.objects.create(
        composer=composer, title="Ebb", instrumentation="seven zithertrons", instrumentation_typed="7 z."
    )

    report = take(composer, ("title", "forces"), ("Ebb", "seven zithertrons"))

    assert counts(report) == (0, 0, 1)
    assert only_work().instrumentation_typed == "7 z."


def test_works_of_one_title_are_told_apart(composer: Composer) -> None:
    rows = (
        ("title", "op", "year"),
        ("Study", "1", "2001"),
        ("Study", "2", "2002"),
        ("Study", "", "2003"),
        ("Study", "1", "2001"),
    )

    report = take(composer, *rows)

    assert counts(report) == (3, 0, 1)
    assert [one.message for one in report.warnings] == ["This row says the same as row 2 and is taken once."]
    assert counts(take(composer, *rows[:1], *reversed(rows[1:4]))) == (0, 0, 3)


def test_a_row_means_no_work_of_another_number_and_may_leave_the_number_out(composer: Composer) -> None:
    take(composer, ("title", "op", "year"), ("Study", "1", "2001"))

    assert counts(take(composer, ("title", "op", "year"), ("Study", "2", "2001"))) == (1, 0, 0)
    assert counts(take(composer, ("title", "year", "forces"), ("Study", "2001", "fl"))) == (0, 1, 0)
    assert counts(take(composer, ("title", "op", "forces"), ("Study", "2", "ob"))) == (0, 1, 0)
    works = Work.objects.order_by("catalogue_number").values_list("catalogue_number", "instrumentation_typed")
    assert list(works) == [("1", "fl"), ("2", "ob")]


def test_what_contradicts_another_record_is_an_error_and_stores_nothing(
    composer: Composer, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(**_given: Any) -> None:
        raise IntegrityError

    monkeypatch.setattr(work_import, "save_work", refused)

    report = take(composer, ("title",), ("Ebb",))

    assert [(one.row, one.message) for one in report.errors] == [
        (2, "This row contradicts another record of the catalogue.")
    ]
    assert (counts(report), report.stored) == ((0, 0, 1), False)


def test_a_number_that_another_work_has_is_an_error_at_its_column(composer: Composer) -> None:
    report = take(composer, ("title", "op"), ("Ebb", "1"), ("Flood", "1"))

    assert [(one.row, one.column) for one in report.errors] == [(3, "op")]
    assert not Work.objects.exists()


def test_text_too_long_or_unprintable_is_an_error_at_its_column(composer: Composer) -> None:
    report = take(composer, ("title", "publisher", "notes"), ("E" * 501, "P" * 201, "bell \x07"))

    assert [(one.row, one.column) for one in report.errors] == [(2, "notes"), (2, "publisher"), (2, "title")]


def test_a_version_stands_beside_its_first_version(composer: Composer) -> None:
    rows = ("title", "version", "forces"), ("Slack Rope", "", "orch"), ("Slack Rope", "for winds", "fl, ob")

    assert counts(take(composer, *rows)) == (2, 0, 0)
    assert only_work(version_label="for winds").version_of == only_work(version_label="")
    assert counts(take(composer, *rows)) == (0, 0, 2)


def test_a_row_without_a_version_means_the_first_one_whatever_another_has_in_common(composer: Composer) -> None:
    rows = ("title", "version", "length"), ("Slack Rope", "", "20'"), ("Slack Rope", "for winds", "12'")
    take(composer, *rows)

    assert counts(take(composer, ("title", "length"), ("Slack Rope", "12'"))) == (0, 1, 0)
    assert only_work(version_label="").duration == Duration(720)


# ---- performances

HEADER = ("work", "date", "venue", "city", "country", "performers")


def test_a_performance_history_is_taken_in(composer: Composer) -> None:
    take(composer, ("title",), ("Slack Rope",))
    header = (
        "work", "date", "time", "timezone", "kind", "venue", "city", "country", "performers", "presenter", "series",
        "extent", "audience", "version", "status", "billing", "notes", "country_then",
    )  # fmt: skip
    row = (
        "Slack Rope", "12 March 2020", "19.30", "Europe/Vienna", "concert", "Kornspeicher", "Linz", "Austria",
        "conductor: Iva Dorn; Tidewater Players", "Brücke", "Summer", "partial: Ebb", "public", "", "given", "premiere",
        "sold out", "Austria",
    )  # fmt: skip

    report = take(composer, header, row)

    [performance] = Performance.objects.with_everything_printed()
    [item] = performance.programme.all()
    assert (counts(report), report.errors, report.warnings) == ((1, 0, 0), (), ())
    assert (performance.date, performance.time, performance.starts_at) == (
        PartialDate(2020, 3, 12), time(19, 30), datetime(2020, 3, 12, 18, 30, tzinfo=UTC),
    )  # fmt: skip
    venue = performance.venue
    assert (venue.name, venue.city, venue.country, venue.zone) == ("Kornspeicher", "Linz", "AT", "Europe/Vienna")
    assert (performance.kind, performance.audience, performance.status) == ("concert", "public", "given")
    assert (performance.presenter_name, performance.series, performance.notes) == ("Brücke", "Summer", "sold out")
    assert (item.work.title, item.extent, item.part, item.billing) == ("Slack Rope", "partial", "Ebb", "premiere")
    assert [(one.name, one.role) for one in performance.credits.all()] == [
        ("Iva Dorn", "conductor"), ("Tidewater Players", "ensemble"),
    ]  # fmt: skip


def test_importing_performances_twice_changes_nothing(composer: Composer) -> None:
    rows = (
        (*HEADER, "status", "extent", "weather"),
        ("Ebb", "2020-03-12", "Kornspeicher", "Linz", "AT", "Tidewater Players", "given", "complete", "rain"),
        ("Flood", "2020-03-12", "Kornspeicher", "Linz", "AT", "Iva Dorn", "given", "complete", ""),
        ("Ebb", "1936", "", "Moscow", "Soviet Union", "", "given", "Suite No. 1", ""),
        ("Ebb", "1936", "", "Moscow", "Soviet Union", "", "abandoned", "shortened", ""),
        ("Ebb", "", "", "", "", "", "", "", "undated"),
    )

    first, second = take(composer, *rows), take(composer, *rows)

    assert (counts(first), counts(second)) == ((5, 0, 0), (0, 0, 5))
    assert (Performance.objects.count(), Work.objects.count(), Venue.objects.count()) == (4, 2, 1)
    assert {one.saves for one in Performance.objects.all()} == {1}


def test_works_on_one_evening_are_one_event(composer: Composer) -> None:
    take(
        composer,
        HEADER,
        ("Ebb", "2020-03-12", "Hall", "Linz", "AT", "A Band"),
        ("Flood", "2020-03-12", "Hall", "Linz", "AT", "B"),
    )

    [performance] = Performance.objects.with_everything_printed()
    assert [one.work.title for one in performance.programme.all()] == ["Ebb", "Flood"]
    assert [one.name for one in performance.credits.all()] == ["A Band", "B"]


def test_a_work_added_to_a_known_evening_is_new_and_the_rest_stays(composer: Composer) -> None:
    evening = ("2020-03-12", "Hall", "Linz", "AT", "A Band")
    take(composer, HEADER, ("Ebb", *evening))

    report = take(composer, HEADER, ("Ebb", *evening), ("Flood", *evening))

    [performance] = Performance.objects.with_everything_printed()
    assert counts(report) == (1, 0, 1)
    assert [one.work.title for one in performance.programme.all()] == ["Ebb", "Flood"]


def test_a_corrected_row_changes_the_event_it_means(composer: Composer) -> None:
    take(composer, (*HEADER, "status"), ("Ebb", "2027-03-12", "Hall", "Linz", "AT", "A Band", "planned"))

    report = take(composer, (*HEADER, "status"), ("Ebb", "2027-03-12", "Hall", "Linz", "AT", "B Band", "cancelled"))

    [performance] = Performance.objects.with_everything_printed()
    assert counts(report) == (0, 1, 0)
    assert (performance.status, [one.name for one in performance.credits.all()]) == ("cancelled", ["B Band"])


def test_identical_rows_are_taken_once(composer: Composer) -> None:
    row = ("Ebb", "2020-03-12", "Hall", "Linz", "AT", "")

    report = take(composer, HEADER, row, row)

    assert counts(report) == (1, 0, 1)
    assert "This row says the same as an earlier one and is taken once." in [one.message for one in report.warnings]


def test_a_work_that_is_not_known_is_added_with_its_title(composer: Composer) -> None:
    report = take(composer, ("work", "date"), ("Ebb", "2020"))

    assert [one.message for one in report.warnings] == ["There was no work “Ebb”; it is added with its title alone."]
    assert only_work().title == "Ebb"


def test_a_work_is_known_with_its_number_behind_it(composer: Composer) -> None:
    take(composer, ("title", "op"), ("Ebb", "Op. 5"))

    take(composer, ("work", "date"), ("Ebb, Op. 5", "2020"))

    assert Work.objects.count() == 1


def test_version_labels_make_versions_and_may_be_shortened(composer: Composer) -> None:
    header = ("work", "date", "version")
    take(composer, header, ("Ebb", "2020", ""), ("Ebb", "2021", "revised (new ending)"), ("Ebb", "2022", "Revised"))

    assert sorted(Work.objects.values_list("title", "version_label")) == [("Ebb", ""), ("Ebb", "revised (new ending)")]


def test_unknown_words_never_make_an_event_public_or_given(composer: Composer) -> None:
    report = take(composer, ("work", "date", "audience", "status"), ("Ebb", "2020", "seagulls", "rumoured"))

    [performance] = Performance.objects.all()
    assert (performance.audience, performance.status) == ("invited", "withdrawn")
    assert performance.notes == "audience: seagulls\nstatus: rumoured"
    assert {one.column for one in report.warnings} == {"audience", "status", "work"}


def test_events_to_come_are_planned_unless_they_say_otherwise(composer: Composer) -> None:
    take(composer, ("work", "date"), ("Ebb", "2027-05-01"), ("Ebb", "2020-05-01"))

    assert list(Performance.objects.order_by("first_day").values_list("status", flat=True)) == ["given", "planned"]


def test_one_column_may_hold_the_whole_place(composer: Composer) -> None:
    take(composer, ("Piece", "When", "Where"), ("Ebb", "2020-05-01", "Kornspeicher, Linz, Österreich"))

    [performance] = Performance.objects.all()
    assert (str(performance.venue), performance.venue.country) == ("Kornspeicher, Linz", "AT")


@pytest.mark.parametrize(("written", "code"), [("at", "AT"), ("AUT", "AT"), ("USA", "US"), ("the Netherlands", "NL")])
def test_a_country_is_taken_however_it_is_written(composer: Composer, written: str, code: str) -> None:
    """A national premiere goes by the place: one country written in two ways is one country."""
    report = take(composer, ("work", "date", "city", "country"), ("Ebb", "2019", "Linz", written))

    performance = Performance.objects.get()
    assert (performance.country, performance.country_then, performance.notes) == (code, "", "")
    assert [one.column for one in report.warnings] == ["work"]


def test_a_part_of_the_united_kingdom_is_that_country_and_its_name_a_note(composer: Composer) -> None:
    take(composer, ("work", "date", "where"), ("Ebb", "2019", "Granary, Perth, Scotland"))

    performance = Performance.objects.get()
    assert (str(performance.venue), performance.venue.country) == ("Granary, Perth", "GB")
    assert performance.notes == "country: Scotland"


def test_years_of_a_works_list_are_taken_as_people_write_them(composer: Composer) -> None:
    rows = (("title", "year"), ("Ebb", "Spring 2019"), ("Flood", "2012 (rev. 2015)"))

    report = take(composer, *rows)

    ebb, flood = only_work(title="Ebb"), only_work(title="Flood")
    assert (ebb.completed, ebb.notes) == (PartialDate(2019), "year: Spring 2019")
    assert (flood.completed, flood.revised, flood.notes) == (PartialDate(2012), PartialDate(2015), "")
    assert [(one.row, one.column) for one in report.warnings] == [(2, "year")]
    assert counts(take(composer, *rows)) == (0, 0, 2)


def test_the_date_of_an_evening_may_be_a_season(composer: Composer) -> None:
    rows = (("work", "date", "city"), ("Ebb", "summer 2019", "Linz"))

    take(composer, *rows)

    evening = Performance.objects.get()
    assert (evening.date, evening.notes) == (PartialDate(2019), "date: summer 2019")
    assert counts(take(composer, *rows)) == (0, 0, 1)


def test_country_that_is_gone_is_kept_as_the_state_of_the_time(composer: Composer) -> None:
    report = take(composer, ("work", "date", "city", "country"), ("Ebb", "1950", "Riga", "Soviet Union"))

    [performance] = Performance.objects.all()
    assert (performance.country, performance.country_then) == ("", "Soviet Union")
    assert [one.column for one in report.warnings if one.column != "work"] == ["country"]


@pytest.mark.parametrize(
    ("column", "text"), [("date", "yesterday"), ("time", "late"), ("timezone", "Mars/Base"), ("work", "")]
)
def test_what_cannot_be_told_when_or_what_is_an_error(composer: Composer, column: str, text: str) -> None:
    cells = {"work": "Ebb", "date": "2020-05-01", "time": "19:30", "timezone": "Europe/Vienna", column: text}

    report = take(composer, tuple(cells), tuple(cells.values()))

    assert [(one.row, one.column) for one in report.errors] == [(2, column)]
    assert not Performance.objects.exists()


def test_bodies_of_the_catalogue_are_linked_by_name(composer: Composer) -> None:
    body = Organisation.objects.create(composer=composer, name="Tidewater Players")

    take(composer, (*HEADER, "presenter"), ("Ebb", "2020", "", "Linz", "AT", "Tidewater Players", "tidewater players"))

    [performance] = Performance.objects.with_everything_printed()
    assert (performance.presenter, performance.credits.all()[0].organisation) == (body, body)


# ---- whose works they are


def test_rows_of_another_composer_are_an_error_in_one_catalogue(composer: Composer) -> None:
    report = take(composer, ("title", "composer"), ("Ebb", "ilka marovand"), ("Flood", "Pell Tarrowick"))

    reason = "This row is by Pell Tarrowick, and the catalogue is that of Ilka Marovand."
    assert report.errors == (Problem(3, "composer", reason),)


def test_without_a_chosen_catalogue_each_row_names_its_own(composer: Composer, other_composer: Composer) -> None:
    report = take(None, ("title", "composer"), ("Ebb", "Marovand, Ilka"), ("Flood", "Ada Quill"))

    assert (report.errors, counts(report)) == ((), (2, 0, 0))
    assert {one.composer.name for one in Work.objects.all()} == {"Ilka Marovand", "Ada Quill"}


def test_without_a_chosen_catalogue_a_row_without_a_name_is_the_only_composers(composer: Composer) -> None:
    take(None, ("title",), ("Ebb",))

    assert only_work().composer == composer


def test_among_several_composers_a_row_without_a_name_is_an_error(composer: Composer, other_composer: Composer) -> None:
    report = take(None, ("title",), ("Ebb",))

    assert [(one.row, one.column) for one in report.errors] == [(2, "composer")]


def test_records_of_another_catalogue_are_left_alone(composer: Composer, other_composer: Composer) -> None:
    take(other_composer, ("title", "year"), ("Ebb", "1990"))

    take(composer, ("title", "year"), ("Ebb", "2020"))

    assert sorted(Work.objects.values_list("composer__slug", flat=True)) == ["ilka-marovand", "pell-tarrowick"]
    assert only_work(composer=other_composer).completed == PartialDate(1990)
