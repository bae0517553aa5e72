"""The day's backup of a catalogue that is served: once at the start, then whenever a day has passed."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from threading import Event, Thread

from django.db import connections
from django.utils import timezone

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.keeping import make_daily
from catalogue.exchange.backups.lines import Step, nothing

LOOK_EVERY = 3600.0  # seconds
log = logging.getLogger(__name__)


def days_backup(folder: Path, *, now: datetime, step: Step = nothing) -> str:
    """Make the day's backup where it is due and say what was done; a catalogue is served without one too."""
    try:
        made = make_daily(folder, now=now, step=step)
    except BackupError as fault:
        return f"The day’s backup could not be made. {fault.reason}"
    return f"The day’s backup is {made}." if made else "There is a backup of the last day."


@contextmanager
def daily_backups(folder: Path, *, wanted: Callable[[], bool], every: float = LOOK_EVERY) -> Iterator[None]:
    """While the block lasts, look every so many seconds whether a backup is due, beside whatever else is done."""
    ending = Event()
    watch = Thread(target=look_again, args=(folder, wanted, every, ending), daemon=True)
    watch.start()
    try:
        yield
    finally:
        ending.set()
        watch.join()


def look_again(folder: Path, wanted: Callable[[], bool], every: float, ending: Event) -> None:
    while not ending.wait(every):
        try:
            if wanted():
                make_daily(folder, now=timezone.now())
        except Exception:  # whatever it was, the next look may succeed, and serving goes on
            log.exception("The day's backup could not be made.")
        finally:
            connections.close_all()
