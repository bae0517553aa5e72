from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError
from django.db import connection
from hypothesis import given
from hypothesis import strategies as st

from catalogue.models import Composer, Organisation, Work
from catalogue.models.fields import (
    DurationField,
    KindsField,
    PartialDateField,
    StrengthsField,
    Unreadable,
    refuse_unprintable,
)
from catalogue.terms import OrganisationKind
from catalogue.timing import Duration, PartialDate
from tests.makers import make_composer, make_organisation, make_work

durations = st.builds(Duration, st.integers(0, 2**31 - 1), st.booleans())
years = st.integers(1000, 9997)
days = st.dates().filter(lambda day: 1000 <= day.year <= 9997)
dates = st.one_of(
    st.builds(PartialDate.of, days),
    st.builds(PartialDate, years, circa=st.booleans()),
    st.builds(PartialDate, years, st.integers(1, 12), circa=st.booleans()),
    st.builds(
        lambda year, more, circa: PartialDate(year, circa=circa, until=year + more), years, st.just(1), st.booleans()
    ),
)


@given(durations)
def test_duration_column_reads_what_it_writes(duration: Duration) -> None:
    column = DurationField()

    assert column.parse(column.write(duration)) == duration


@given(durations, durations)
def test_stored_durations_sort_as_durations_do(one: Duration, other: Duration) -> None:
    column = DurationField()

    assert (column.write(one) < column.write(other)) == (one < other)


@given(dates)
def test_date_column_reads_what_it_writes(when: PartialDate) -> None:
    column = PartialDateField()

    assert column.parse(column.write(when)) == when


@given(dates, dates)
def test_stored_dates_sort_as_dates_do(one: PartialDate, other: PartialDate) -> None:
    column = PartialDateField()

    assert (column.write(one) < column.write(other)) == (one < other)


@pytest.mark.parametrize("stored", ["1998", "1998-02-30/1998-02-30", "1998-01-01/1998-06-30", "1998-05-02/1998-05-01"])
def test_date_column_refuses_stored_text_that_is_no_date(stored: str) -> None:
    with pytest.raises(ValueError, match=r"."):
        PartialDateField().parse(stored)


@pytest.mark.parametrize(
    ("column", "typed", "value"),
    [
        (DurationField(), "ca. 12'30\"", Duration(750, approximate=True)),
        (DurationField(), "0000000750", Duration(750)),
        (DurationField(), "", None),
        (PartialDateField(), "March 2027", PartialDate(2027, 3)),
        (PartialDateField(), "", None),
        (StrengthsField(), "14-12-10-8-6", (14, 12, 10, 8, 6)),
        (StrengthsField(), "8, 6, 4, 4, 2", (8, 6, 4, 4, 2)),
        (StrengthsField(), "", ()),
        (KindsField(), "festival, Presenter", (OrganisationKind.PRESENTER, OrganisationKind.FESTIVAL)),
        (KindsField(), ["choir", "ensemble"], (OrganisationKind.ENSEMBLE, OrganisationKind.CHOIR)),
        (KindsField(), [], ()),
    ],
)
def test_column_reads_what_a_person_types(column: DurationField, typed: object, value: object) -> None:
    assert column.clean(typed, None) == value


@pytest.mark.parametrize(
    ("column", "typed", "reason"),
    [
        (DurationField(), "0:00", "A duration is longer than nothing; leave it empty where it is not known."),
        (DurationField(), "12", "Say whether 12 is minutes or seconds: write 12′, 12 min or 12 s."),
        (PartialDateField(), "2027-13", "There is no month 13."),
        (StrengthsField(), "8.6", "Write five numbers of string players with dots between them, such as 14.12.10.8.6."),
    ],
)
def test_column_says_why_it_cannot_be_read(column: DurationField, typed: str, reason: str) -> None:
    with pytest.raises(ValidationError) as caught:
        column.clean(typed, None)

    assert caught.value.messages == [reason]


@pytest.mark.django_db
def test_values_come_back_from_the_database() -> None:
    composer = make_composer(born=PartialDate(1958, circa=True), string_strengths=(8, 6, 4, 4, 2))
    work = make_work(duration="c. 12 min", completed="2019-04")
    body = make_organisation(kinds=(OrganisationKind.FUNDER, OrganisationKind.ENSEMBLE))

    stored = Composer.objects.get(pk=composer.pk)
    assert (stored.born, stored.died, stored.string_strengths) == (PartialDate(1958, circa=True), None, (8, 6, 4, 4, 2))
    found = Work.objects.get(pk=work.pk)
    assert (found.duration, found.completed, found.string_strengths) == (Duration(720, True), PartialDate(2019, 4), ())
    assert Organisation.objects.get(pk=body.pk).kinds == (OrganisationKind.ENSEMBLE, OrganisationKind.FUNDER)


@pytest.mark.django_db
def test_stored_text_that_is_not_read_survives_a_save() -> None:
    work = make_work(duration="12 min", completed="2019")
    with connection.cursor() as cursor:
        cursor.execute("UPDATE catalogue_work SET duration = 'zwölf', completed = 'Lent'")

    found = Work.objects.get(pk=work.pk)
    found.full_clean()
    found.save()

    found.refresh_from_db()
    assert (found.duration, found.completed) == ("zwölf", "Lent")
    assert (type(found.duration), type(found.completed)) == (Unreadable, Unreadable)


@pytest.mark.parametrize("text", ["nul\0", "vertical\x0btab", "half \ud800", "\ufffe"])
def test_control_characters_are_refused(text: str) -> None:
    with pytest.raises(ValidationError):
        refuse_unprintable(text)


def test_printable_text_is_taken() -> None:
    refuse_unprintable("tab\tand\r\nline, ‏עברית, 日本語, 𝄞")
