from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, note, settings
from hypothesis import strategies as st

from catalogue.instrumentation import Line, read, shorthand
from catalogue.instrumentation.model import Instrumentation
from tests.unit.instrumentation.lines import forces


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(forces())
def test_reading_undoes_writing(generated):
    note(shorthand(generated))
    assert read(shorthand(generated)).lines == generated.lines


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(forces(), forces())
def test_two_bodies_are_kept_apart_by_their_labels(first, second):
    lines = (
        *(line for line in first.lines if line.role != "offstage"),
        *(replace(line, group="orchestra 2") for line in second.lines if line.role != "offstage"),
    )
    # A voice that was made alone sings alone no more where the other body plays.
    if len(lines) > 1:
        lines = tuple(replace(one, role="soloist") if one.instrument.startswith("voice-") else one for one in lines)
    both = Instrumentation(lines or (Line("flute", "woodwind"),))

    note(shorthand(both))
    assert read(shorthand(both)).lines == both.lines


@given(st.sampled_from(["fixed-media", "live-electronics"]), st.sampled_from([None, "2", "8", "4.1 or 8.1"]))
def test_electronics_and_their_channels_are_written(slug, channels):
    kind = {"fixed-media": "fixed", "live-electronics": "live"}[slug]
    made = Instrumentation((Line("cello", "strings"), Line(slug, "electronics", (0, 0))), "", kind, channels)

    again = read(shorthand(made))

    assert (again.lines, again.electronics, again.channels) == (made.lines, kind, channels)


def test_a_note_is_kept_word_for_word():
    line = Line("clarinet", "woodwind", (2, 2), note="in A and B flat; one with a low C")

    assert read(shorthand(Instrumentation((line,)))).lines == (line,)
