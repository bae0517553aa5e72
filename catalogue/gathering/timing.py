"""How works go in time, as facts: tempo map, cues, and how long they have lasted."""

from __future__ import annotations

from catalogue.facts import CueFacts, RecordingFacts, TimingFacts
from catalogue.gathering.readings import readable
from catalogue.gathering.works import gather_recording
from catalogue.models import Cue, Recording, Work


def gather_timing(work: Work) -> TimingFacts:
    """Return the tempo map and the cues of a work; one query."""
    return TimingFacts(
        work_id=work.pk,
        tempo_map=work.tempo_map,
        dated=work.tempo_map_dated,
        cues=tuple(gather_cue(cue) for cue in Cue.objects.filter(work=work).order_by("order")),
        letters=work.cue_letters,
    )


def gather_cue(cue: Cue) -> CueFacts:
    return CueFacts(
        number=cue.number,
        place=cue.place,
        action=cue.action,
        media=cue.media,
        length=readable(cue.length, None),
        who=cue.who,
        notes=cue.notes,
    )


def gather_recordings(work: Work) -> tuple[RecordingFacts, ...]:
    """Return the recordings of a work; one query."""
    return tuple(gather_recording(one) for one in Recording.objects.filter(work=work).order_by("pk"))
