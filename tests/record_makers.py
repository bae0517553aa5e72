"""One record of every kind around a work and a composer, for tests. All names are invented."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django.db import models

from catalogue.models import (
    Award,
    BilledName,
    Biography,
    ContactPerson,
    Contributor,
    Edition,
    Hire,
    HireTerms,
    LeadTimes,
    MaterialRequirements,
    MaterialSet,
    NotationSign,
    PercussionInstrument,
    PerformanceNote,
    Picture,
    ProgrammeNote,
    Referee,
    Retuning,
    Return,
    Review,
    Rider,
    Sending,
    Session,
    SocietyDeadline,
    Step,
    StoredFile,
    TechnicalSetup,
    TextSource,
    TuningSystem,
    Work,
)
from catalogue.models.journeys import KeptOfPerformance
from catalogue.timing import read_date
from tests.makers import make_organisation, make_performance, make_person

Columns = dict[str, Any]

OF_WORK: dict[type[models.Model], Columns] = {
    Contributor: {"name": "Mira Oxley", "role": "librettist", "share": Decimal(25)},
    ProgrammeNote: {"body": "The tide comes in twice a day.", "length": "short", "language": "en"},
    PerformanceNote: {"heading": "Bows", "body": "Keep two bows at hand."},
    PercussionInstrument: {"player": 2, "instrument": "vibraphone", "compass": "3 octaves", "needs_power": True},
    NotationSign: {"name": "quarter-tone sharp", "smufl": "accidentalQuarterToneSharpStein", "cents": Decimal(50)},
    TuningSystem: {"name": "24 equal divisions", "divisions": 24},
    Retuning: {"instrument": "cello", "tuned_to": "B1 G2 D3 A3"},
    Edition: {"kind": "full score", "pitch": "in C", "publisher_name": "Slate Editions"},
    MaterialSet: {"strings": (8, 6, 4, 4, 2), "kept_at": "second shelf"},
    TextSource: {"author": "Jon Aske", "title": "Ebb", "clearance": "granted"},
    TechnicalSetup: {"name": "As meant", "inputs": "1; piano; condenser; 48 V; presenter", "layout": "stereo"},
}
OF_COMPOSER: dict[type[models.Model], Columns] = {
    Biography: {"body": "Ilse Tarnow lives by the sea.", "length": "one line", "as_of": read_date("2025-06-01")},
    Review: {"publication": "The Ferry Post", "author": "Ada Lunn", "quotation": "Salt on every page."},
    Award: {"name": "Harbour Prize", "result": "second prize", "date": read_date("2024")},
    BilledName: {"name": "I. Tarnow"},
    ContactPerson: {"name": "Bo Lind", "role": "librarian", "telephone": "+47 55 00 00 00"},
    Referee: {"name": "Ada Lunn", "institution": "Ferry School of Music", "email": "ada@example.org"},
    LeadTimes: {"contract": "12 weeks"},
    Step: {"kind": "other", "label": "Send the score", "due": read_date("2026-01-05")},
    Session: {"kind": "get-in", "date": read_date("2026-03-28")},
    SocietyDeadline: {
        "society": "Quay Society", "rule": "12 months", "source": "handbook", "read_on": read_date("2026-01-05"),
    },
    Return: {"society": "Quay Society", "filed": read_date("2026-05-05"), "reference": "Q 12"},
    HireTerms: {"name": "Orchestral sets", "late_percent": Decimal(10), "currency": "EUR", "days_after": 14},
    MaterialRequirements: {"name": "Quay Library", "papers": "A3, B4", "file_names": "[0-9][0-9] - *.pdf"},
    Hire: {"name": "Two Bells Orchestra", "number": "2026-001", "fee": Decimal(180), "currency": "EUR"},
    Rider: {"contact_name": "Bo Lind", "contact_email": "bo@example.org"},
    Sending: {
        "name": "Two Bells Orchestra", "sent_on": date(2026, 5, 5), "made_on": date(2026, 5, 5), "title": "Works list",
        "document": "works-list", "file_name": "ilse-tarnow-works-list.pdf", "suffix": "pdf", "sha256": "2" * 64,
        "byte_count": 99,
    },
    Picture: {
        "alternative": "A woman at a window", "sha256": "0" * 64, "suffix": "png", "width": 4, "height": 3,
        "byte_count": 99,
    },
    StoredFile: {"original_name": "Ash Ferry.pdf", "sha256": "1" * 64, "suffix": "pdf", "byte_count": 99},
}  # fmt: skip


def needed(model: type[models.Model], work: Work) -> Columns:
    """Return the records that one of this kind cannot be without."""
    composer = work.composer
    if model is LeadTimes and LeadTimes.objects.filter(composer=composer).exists():  # one each
        return {"organisation": make_organisation(f"Quay {LeadTimes.objects.count()}", composer=composer)}
    if model is Rider or issubclass(model, KeptOfPerformance):
        programmed = work.programmed.first()
        named: Columns = {"performance": programmed.performance if programmed else make_performance(work)}
        return {**named, "work": work} if model is Rider else named
    if model is Hire:
        return {"work": work}
    if model is ContactPerson:
        return {"organisation": make_organisation("Harbour Hall", composer=composer)}
    return {"person": make_person("Ilka Tarnow", composer=composer)} if model is BilledName else {}


def numbered(model: type[models.Model], work: Work) -> Columns:
    """Return the next number of a set, which no other set of the work bears."""
    return {"number": str(MaterialSet.objects.filter(work=work).count() + 1)} if model is MaterialSet else {}


def make_record(model: type[models.Model], *, work: Work, **columns: Any) -> Any:
    """Return a stored record of this kind, of the work or of its composer; columns that are given come before ours."""
    usual: Columns
    owner: Columns
    if model in OF_WORK:
        usual, owner = OF_WORK[model] | numbered(model, work), {"work": work}
    else:
        usual, owner = {**OF_COMPOSER[model], **needed(model, work)}, {"composer": work.composer}
    record = model(**{**usual, **owner, **columns})
    record.full_clean()
    record.save()
    return record


def make_one_of_each(work: Work) -> dict[type[models.Model], Any]:
    return {model: make_record(model, work=work) for model in (*OF_WORK, *OF_COMPOSER)}
