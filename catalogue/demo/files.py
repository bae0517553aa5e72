"""The files that the demo keeps of the works it sends to calls: the front of a score, a few seconds of quiet sound.

Both are made here, so that the demo's packs hold files to be opened; the sound is three sine tones far below full
scale, in the place of a computer's rendering.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Iterator
from datetime import datetime
from io import BytesIO

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage

from catalogue.actions.records import save_record
from catalogue.demo.rows import identity
from catalogue.documents.model import Paper
from catalogue.documents.needs import DocumentNeeds
from catalogue.documents.registry import render
from catalogue.exchange.file_formats import PDF, WAV, FileFormat
from catalogue.exchange.stored_files import keep_upload
from catalogue.exchange.upload_reading import read_upload
from catalogue.gathering.files import kept_values
from catalogue.making import Wish, make_document
from catalogue.models import Call, Composer, Recording, StoredFile, Work
from catalogue.rules.calls.terms import RecordingRule
from catalogue.terms import FileKind, Permission, RecordingForm, RecordingKind
from catalogue.timing import Duration
from catalogue.timing.click import wav_head

SECONDS, RATE = 12, 8_000
TONES = (220.0, 330.0, 495.0)  # two fifths, one over the other
PEAK = 0.05  # of full scale: 26 dB below it
UNWANTED = (RecordingRule.FORBIDDEN, RecordingRule.NOT_WANTED)
EXCERPT = (2, 10)


def keep_demo_files(composer: Composer, now: datetime) -> int:
    """Keep the files that are not kept yet; return how many."""
    return sum(1 for call in Call.objects.filter(composer=composer) for _file in of_call(call, now))


def of_call(call: Call, now: datetime) -> Iterator[StoredFile]:
    for work in Work.objects.filter(submitted__submission__call=call).order_by("pk"):
        content = None if has_score(work) else score(work, call.asks.anonymous, now)
        if content:
            yield kept(work, FileKind.SCORE, content, PDF, now)
        if call.asks.recording not in UNWANTED and not StoredFile.objects.filter(recording__work=work).exists():
            recording = rendered(work, now)
            yield kept(work, FileKind.RECORDING, sound(), WAV, now, recording)


def kept(
    work: Work, kind: FileKind, content: bytes, format: FileFormat, now: datetime, recording: Recording | None = None
) -> StoredFile:
    """Keep a file as one that is sent to a page is kept."""
    file = ContentFile(content)
    record = StoredFile(
        composer=work.composer, uid=identity("files", f"{work.uid}-{kind}"), kind=kind.value, work=work,
        recording=recording, original_name=f"{work.title}.{format.suffix}", suffix=format.suffix,
        byte_count=len(content), found=kept_values(read_upload(BytesIO(content), format)),
        sha256=keep_upload(file, format.suffix, default_storage),
    )  # fmt: skip
    save_record(record=record, now=now)
    return record


def has_score(work: Work) -> bool:
    return StoredFile.objects.filter(work=work, kind=FileKind.SCORE.value).exists()


def score(work: Work, is_anonymous: bool, now: datetime) -> bytes | None:
    """Return the front of the score, all that the catalogue can make of one; nothing where it knows too little."""
    composer = work.composer
    wish = Wish(
        "front-matter", composer.language, Paper.A4, now.date(), works=(work.pk,), is_anonymous=is_anonymous
    )  # fmt: skip
    try:
        return render(make_document(composer, wish), "pdf")
    except DocumentNeeds:
        return None


def rendered(work: Work, now: datetime) -> Recording:
    """Return a recording of the work's opening as a computer renders it, added to the catalogue."""
    recording = Recording(
        work=work, uid=identity("recordings", f"{work.uid}-rendered"), kind=RecordingKind.RENDERED.value,
        form=RecordingForm.AUDIO.value, title="Opening", duration=Duration(SECONDS),
        excerpt_from=EXCERPT[0], excerpt_until=EXCERPT[1], permission=Permission.APPLICATIONS.value,
    )  # fmt: skip
    save_record(record=recording, now=now)
    return recording


def sound() -> bytes:
    """Return three tones that swell and fade, as a WAV file of one channel and 16 bits."""
    count = SECONDS * RATE
    samples = bytearray()
    for index in range(count):
        swell = math.sin(math.pi * index / count) * PEAK / len(TONES)
        value = swell * sum(math.sin(2 * math.pi * tone * index / RATE) for tone in TONES)
        samples += struct.pack("<h", round(value * 32_767))
    return wav_head(len(samples), channels=1, sample_rate=RATE, bytes_a_sample=2) + bytes(samples)
