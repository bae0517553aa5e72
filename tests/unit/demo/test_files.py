"""The files that the demo keeps of works that are sent to calls: kept once, quiet, and a score without a name."""

from __future__ import annotations

import struct
from io import BytesIO

import pikepdf
import pytest
from django.core.files.storage import default_storage

from catalogue.actions.calls import choose_works, propose_call
from catalogue.demo.files import keep_demo_files, sound
from catalogue.exchange.pdf_text import page_text
from catalogue.exchange.pictures import stored_name
from catalogue.models import Composer, StoredFile
from tests.makers import NOW, make_work

PRIZE = "Lowmarsh Prize\nEntries are anonymous. Send the score.\nRecordings may not be enclosed."
CALL = "Lowmarsh Reeds: call\nSend a score and a recording."


def test_files_are_kept_once_and_the_score_of_an_anonymous_call_names_nobody(composer: Composer) -> None:
    blind, other = (
        make_work(title, composer=composer, instrumentation="pf", completed="2020", duration="9'")
        for title in ("Ash Ferry", "Slack Rope")
    )
    choose_works(call=propose_call(composer=composer, text=PRIZE, now=NOW), works=[blind])
    choose_works(call=propose_call(composer=composer, text=CALL, now=NOW), works=[other])

    assert [keep_demo_files(composer, NOW), keep_demo_files(composer, NOW)] == [3, 0]

    kinds = sorted((str(file.work), file.kind, file.suffix) for file in StoredFile.objects.all())
    assert kinds == [("Ash Ferry", "score", "pdf"), ("Slack Rope", "recording", "wav"), ("Slack Rope", "score", "pdf")]
    score = StoredFile.objects.get(work=blind)
    with pikepdf.open(BytesIO(default_storage.open(stored_name(score.sha256, "pdf")).read())) as pdf:
        assert composer.name not in " ".join(page_text(page) for page in pdf.pages)


def test_the_sound_is_short_and_quiet() -> None:
    samples = [value for (value,) in struct.iter_unpack("<h", sound()[44:])]

    assert len(samples) == 12 * 8_000
    assert 0 < max(samples) <= 0.05 * 32_767 == pytest.approx(1638, abs=1)
