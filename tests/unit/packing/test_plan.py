"""What lacks in a pack and what is only left out of it."""

from __future__ import annotations

import pytest

from catalogue.packing.lines import Gap, State
from catalogue.packing.plan import wanted_recording
from catalogue.rules.calls.terms import RecordingRule


@pytest.mark.parametrize(
    ("rule", "state"),
    [(RecordingRule.REQUIRED, State.LACKS), (RecordingRule.OPTIONAL, State.LEFT_OUT), (None, State.LACKS)],
)
def test_a_recording_that_is_wanted_only_where_there_is_one_does_not_lack(
    rule: RecordingRule | None, state: State
) -> None:
    found = wanted_recording(Gap("There is no recording that may be sent."), rule)

    assert isinstance(found, Gap)
    assert found.state is state
