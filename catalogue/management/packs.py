"""The pack that is sent to a call, written to a file, with a bar for whoever waits."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from django.utils import timezone

from catalogue.exchange.zip_stream import zip_chunks
from catalogue.gathering.names import gather_sought
from catalogue.management.base import UnusableInput
from catalogue.management.progress import Progress
from catalogue.models import Call, Composer
from catalogue.packing.making import MadePack, make_pack
from catalogue.web.pack_page import plan_of

PACK = "application-pack"


def write_pack(composer: Composer, number: int | None, out: str | None, stderr: Any) -> None:
    """Write the pack of a call, and say what lacks and what breaks a rule. Raises UnusableInput."""
    if number is None or out is None:
        raise UnusableInput("Say to which call with --call and where the pack goes with --out.")
    call = Call.objects.filter(composer=composer, pk=number).select_related("composer").first()
    if call is None:
        raise UnusableInput(f"There is no call {number} in this catalogue.")
    plan = plan_of(call, timezone.localdate())
    if not plan.files:
        raise UnusableInput("There is nothing to be packed for this call yet.")
    sought = gather_sought(composer) if plan.submission.call.anonymous else ()
    with Progress(stderr, "Making the pack", total=len(plan.files)) as progress:
        made = make_pack(plan, sought, progress.step)
    if made.names_the_composer:
        told = "; ".join(f"{one.file}, {one.place}: {one.text}" for one in made.findings)
        raise UnusableInput(f"The call is anonymous and the pack names the composer: {told}.")
    write_archive(made, Path(out))
    for sentence in sentences(made):
        stderr.write(sentence)
    stderr.write(f"Wrote {out}.")


def write_archive(made: MadePack, path: Path) -> None:
    """Write a whole archive or none: beside its place first, then moved there."""
    draft = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        with open(draft, "wb") as file:
            file.writelines(zip_chunks(made.members))
        draft.replace(path)
    except OSError as fault:
        draft.unlink(missing_ok=True)
        raise UnusableInput(f"“{path}” cannot be written: {fault.strerror}.") from fault


def sentences(made: MadePack) -> list[str]:
    """Return what lacks and what breaks a rule, each in a sentence."""
    lacking = [f"{line.asked.words.capitalize()}: {line.told}" for line in made.plan.lacking]
    return lacking + [one.reason for one in made.broken]
