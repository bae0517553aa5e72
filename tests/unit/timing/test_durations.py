from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.timing import Duration, DurationError, read_duration, write_duration
from catalogue.timing.words import LANGUAGES

RANGE = "This is a range; give one duration, the one it usually takes"
LONG_EN = "1 hour 2 minutes 30 seconds"
LONG_DE = "1 Stunde 2 Minuten 30 Sekunden"
LONG_IT = "1 ora 2 minuti 30 secondi"

durations = st.builds(Duration, st.integers(0, 2_000_000), st.booleans())


@pytest.mark.parametrize(
    ("text", "seconds", "approximate"),
    [
        ("12'", 720, False),
        ("12’", 720, False),
        ("12′", 720, False),
        ("12´", 720, False),
        ("12'30\"", 750, False),
        ("12’30”", 750, False),
        ("12′30″", 750, False),
        ("12′ 30″", 750, False),
        ("12'30''", 750, False),
        ("12′30′′", 750, False),
        ("12'30", 750, False),
        ('45"', 45, False),
        ("45''", 45, False),
        ("90'", 5400, False),
        ("12:30", 750, False),
        ("75:00", 4500, False),
        ("1:02:30", 3750, False),
        ("1:20 h", 4800, False),
        ("12:30 min", 750, False),
        ("1h 5m", 3900, False),
        ("1h05", 3900, False),
        ("1 h 5 min 7 s", 3907, False),
        ("1.5 h", 5400, False),
        ("12 min", 720, False),
        ("12min.", 720, False),
        ("12 Min.", 720, False),
        ("12 mn", 720, False),
        ("12 Minuten", 720, False),
        ("12 minuti", 720, False),
        ("12 minutos y 30 segundos", 750, False),
        ("1 Std. 5 Min.", 3900, False),
        ("1 heure et 5 minutes", 3900, False),
        ("1 ora e 5 minuti", 3900, False),
        ("12 minutes, 30 seconds", 750, False),
        ("12½ min", 750, False),
        ("12 ½ min", 750, False),
        ("12 1/2 min", 750, False),
        ("½ h", 1800, False),
        ("1/2 h", 1800, False),
        ("12,5 Min.", 750, False),
        ("12⅓′", 740, False),
        ("750 s", 750, False),
        ("75 sec.", 75, False),
        ("PT12M30S", 750, False),
        ("pt1h", 3600, False),
        ("PT0S", 0, False),
        ("PT12.5M", 750, False),  # ISO 8601-1: the smallest figure may have a decimal part, after a point or a comma
        ("PT0,5H", 1800, False),
        ("PT1H2.5M", 3750, False),
        ("(12′)", 720, False),
        ("[ca. 12'30\"]", 750, True),
        (" (c. 12 minutes) ", 720, True),
        ("PT30.5S", 31, False),
        ("P1DT1S", 86401, False),
        ("ca. 12'", 720, True),
        ("ca 12'", 720, True),
        ("c. 12½ minutes", 750, True),
        ("c.12'", 720, True),
        ("~12'", 720, True),
        ("etwa 12 Minuten", 720, True),
        ("ungefähr 12 Minuten", 720, True),
        ("env. 12 mn", 720, True),
        ("environ 12 minutes", 720, True),
        ("à peu près 12 minutes", 720, True),
        ("circa 12 minuti", 720, True),
        ("all’incirca 12 minuti", 720, True),
        ("unos 12 minutos", 720, True),
        ("12' (ca.)", 720, True),
        ("12 min. ca.", 720, True),
        ("Durata: ca. 23′", 1380, True),
        ("lasts ca. 20 minutes", 1200, True),
        ("  12\N{NO-BREAK SPACE}min  ", 720, False),
    ],
)
def test_a_duration_reads_as_people_write_it(text: str, seconds: int, approximate: bool) -> None:
    assert read_duration(text) == Duration(seconds, approximate)


@pytest.mark.parametrize(
    ("text", "minutes", "approximate"),
    [
        ("half an hour", 30, False),
        ("a quarter of an hour", 15, False),
        ("an hour and a quarter", 75, False),
        ("two and a half hours", 150, False),
        ("two hours and a half", 150, False),
        ("one hour, twenty-five minutes", 85, False),
        ("approximate duration of ten minutes", 10, True),
        ("in duration approximately 12 minutes", 12, True),
        ("ten minutes in duration", 10, False),
        ("gut eine halbe Stunde", 30, True),
        ("eine Viertelstunde", 15, False),
        ("drei Viertelstunden", 45, False),
        ("anderthalb Stunden", 90, False),
        ("einundzwanzig Minuten", 21, False),
        ("une demi-heure", 30, False),
        ("trois quarts d'heure", 45, False),
        ("une heure et demie", 90, False),
        ("vingt et une minutes", 21, False),
        ("soixante-quinze minutes", 75, False),
        ("quatre-vingt-dix minutes", 90, False),
        ("mezz’ora", 30, False),
        ("un'ora e mezza", 90, False),
        ("ventuno minuti", 21, False),
        ("media hora", 30, False),
        ("una hora y cuarto", 75, False),
        ("treinta y cinco minutos", 35, False),
    ],
)
def test_a_duration_reads_as_people_say_it(text: str, minutes: int, approximate: bool) -> None:
    assert read_duration(text) == Duration(minutes * 60, approximate)


@pytest.mark.parametrize(
    ("text", "reason", "start", "end"),
    [
        ("", "No duration is given.", 0, 0),
        ("ca. ", "No duration is given.", 0, 4),
        ("12", "Say whether 12 is minutes or seconds: write 12′, 12 min or 12 s.", 0, 2),
        ("ca. 12", "Say whether 12 is minutes or seconds: write 12′, 12 min or 12 s.", 4, 6),
        ("12 bars", "“bars” is no unit of time; write h, min or s.", 3, 7),
        ("12:75", "“75” after a colon has to be two figures from 00 to 59.", 3, 5),
        ("12:5", "“5” after a colon has to be two figures from 00 to 59.", 3, 4),
        ("1 h 75 min", "After hours there are at most 59 minutes.", 4, 6),
        ("5 min 1 h", "After minutes come smaller units only.", 6, 7),
        ("12½ min 10 s", "Only the last figure can have a fraction.", 0, 3),
        ("12.30 min", "“12.30” may mean 12 minutes 30 seconds or a part of a minute; write which.", 0, 5),
        ("1/0 min", "A fraction cannot be divided by nought.", 0, 3),
        ("10–20 minutes", f"{RANGE}, or the middle where that is not known: ca. 15′.", 0, 13),
        ("8′ – 9′", f"{RANGE}, or the middle where that is not known: ca. 8′30″.", 0, 7),
        ("ca. ten to twelve minutes", f"{RANGE}, or the middle where that is not known: ca. 11′.", 4, 25),
        ("zwischen 10 und 12 Minuten", f"{RANGE}, or the middle where that is not known: ca. 11′.", 0, 26),
        ("de 10 à 12 minutes", f"{RANGE}, or the middle where that is not known: ca. 11′.", 0, 18),
        ("12 a 15 minuti", f"{RANGE}, or the middle where that is not known: ca. 13′30″.", 0, 14),
        ("entre diez y doce minutos", f"{RANGE}, or the middle where that is not known: ca. 11′.", 0, 25),
        ("12:30–13:00", f"{RANGE}, or the middle where that is not known: ca. 12′45″.", 0, 11),
        ("17 to 18", f"{RANGE}.", 0, 8),
        ("ten", "“ten” is no duration; write 12′30″, 12:30 or 12 min.", 0, 3),
        ("an hour an hour", "“an hour an hour” is no duration; write 12′30″, 12:30 or 12 min.", 0, 15),
        (
            "an hour and ninety minutes",
            "“an hour and ninety minutes” is no duration; write 12′30″, 12:30 or 12 min.",
            0,
            26,
        ),
        ("12 min and", "Something is missing after “and”.", 6, 10),
        ("-5 min", "“-5 min” is no duration; write 12′30″, 12:30 or 12 min.", 0, 6),
        ("999999999 h", "This is longer than any duration that can be kept.", 0, 11),
        ("1:2:3:4", "“1:2:3:4” is no duration; write 12′30″, 12:30 or 12 min.", 0, 7),
        ("12345678901'", "“12345678901'” is no duration; write 12′30″, 12:30 or 12 min.", 0, 12),
        ("(12)", "Say whether 12 is minutes or seconds: write 12′, 12 min or 12 s.", 1, 3),
        ("PT1.5H2M", "“PT1.5H2M” is no duration; write 12′30″, 12:30 or 12 min.", 0, 8),
        ("9" * 201, "This is too long for a duration.", 0, 201),
    ],
)
def test_what_is_no_duration_is_refused_at_its_place(text: str, reason: str, start: int, end: int) -> None:
    with pytest.raises(DurationError) as caught:
        read_duration(text)

    assert (caught.value.reason, caught.value.start, caught.value.end) == (reason, start, end)


def test_a_bare_number_is_read_where_the_unit_is_told() -> None:
    assert read_duration("12", bare="minutes") == Duration(720)
    assert read_duration("c. 12,5", bare="minutes") == Duration(750, approximate=True)
    assert read_duration("750", bare="seconds") == Duration(750)
    assert read_duration("12:30", bare="seconds") == Duration(750)


def test_a_duration_is_never_negative() -> None:
    with pytest.raises(ValueError, match="between 0 and"):
        Duration(-1)


def test_durations_sort_by_length_and_the_exact_before_the_approximate() -> None:
    given_durations = [Duration(61), Duration(60, True), Duration(60), Duration(0)]

    assert sorted(given_durations) == [Duration(0), Duration(60), Duration(60, True), Duration(61)]


def test_rounding_once_differs_from_rounding_each_movement() -> None:
    movements = [read_duration(text) for text in ("3'29\"", "4'29\"", "2'29\"")]
    total = sum(movements, Duration(0))

    assert total == Duration(627)
    assert total.rounded() == Duration(600, approximate=True)
    assert [one.rounded().seconds // 60 for one in movements] == [3, 4, 2]
    assert Duration(630).rounded() == Duration(660, approximate=True)
    assert Duration(600).rounded() == Duration(600)


@pytest.mark.parametrize(
    ("style", "language", "expected"),
    [
        ("primes", "en-GB", ["45″", "12′", "12′05″", "c. 12′30″", "62′30″"]),
        ("primes", "de", ["45″", "12′", "12′05″", "ca. 12′30″", "62′30″"]),
        ("primes", "fr", ["45″", "12′", "12′05″", "env. 12′30″", "62′30″"]),
        ("clock", "en-US", ["0:45", "12:00", "12:05", "ca. 12:30", "1:02:30"]),
        (
            "words",
            "en-GB",
            ["45 seconds", "12 minutes", "12 minutes 5 seconds", "about 12 minutes 30 seconds", LONG_EN],
        ),
        ("words", "de", ["45 Sekunden", "12 Minuten", "12 Minuten 5 Sekunden", "etwa 12 Minuten 30 Sekunden", LONG_DE]),
        ("words", "it", ["45 secondi", "12 minuti", "12 minuti 5 secondi", "circa 12 minuti 30 secondi", LONG_IT]),
        ("iso", "es", ["PT45S", "PT12M", "PT12M5S", "PT12M30S", "PT1H2M30S"]),
    ],
)
def test_a_duration_is_written_in_the_style_and_language_asked_for(
    style: str, language: str, expected: list[str]
) -> None:
    given_durations = [Duration(45), Duration(720), Duration(725), Duration(750, True), Duration(3750)]

    written = [write_duration(one, style, language).replace("\N{NO-BREAK SPACE}", " ") for one in given_durations]

    assert written == expected


@given(durations, st.sampled_from(["primes", "clock", "words"]), st.sampled_from(sorted(LANGUAGES)))
def test_reading_undoes_writing(duration: Duration, style: str, language: str) -> None:
    assert read_duration(write_duration(duration, style, language)) == duration


@given(durations)
def test_iso_keeps_the_seconds(duration: Duration) -> None:
    assert read_duration(write_duration(duration, "iso")) == Duration(duration.seconds)


@given(st.lists(durations))
def test_a_sum_does_not_depend_on_the_order(parts: list[Duration]) -> None:
    assert sum(parts, Duration(0)) == sum(reversed(parts), Duration(0))


@given(st.text(max_size=40) | st.text("0123456789'\"′″.:½ hmincasPT-", max_size=20))
def test_any_text_is_read_or_refused_within_its_bounds(text: str) -> None:
    fault = fault_of(text)

    assert fault is None or (0 <= fault.start <= fault.end <= len(text) and fault.reason.endswith("."))


def fault_of(text: str) -> DurationError | None:
    try:
        read_duration(text)
    except DurationError as fault:
        return fault
    return None
