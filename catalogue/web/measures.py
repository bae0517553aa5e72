"""What a house measures of itself, in the text format of Prometheus (the exposition format, version 0.0.4).

What is counted of each request is in ``counted``; what the records and the disk hold is asked when somebody looks.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from shutil import disk_usage

from django.conf import settings
from django.db.models import Sum
from prometheus_client import CollectorRegistry, generate_latest
from prometheus_client.metrics_core import GaugeMetricFamily, Metric
from prometheus_client.multiprocess import MultiProcessCollector

from catalogue.models import CalendarAddress, Composer, StoredFile
from catalogue.web.counted import own
from catalogue.web.kept_calendars import number_kept


def measured() -> bytes:
    """Return everything measured, of all processes where they share a folder, and what the records hold now."""
    told = CollectorRegistry()
    if shared_folder():
        MultiProcessCollector(told)  # type: ignore[no-untyped-call]
        now = CollectorRegistry()
        now.register(House())
        return generate_latest(told) + generate_latest(now)
    own_and_now = generate_latest(own)
    told.register(House())
    return own_and_now + generate_latest(told)


def shared_folder() -> str:
    return os.environ.get("PROMETHEUS_MULTIPROC_DIR", "")


class House:
    """What is asked of the records and of the disk when somebody looks; the same whichever process answers."""

    def collect(self) -> Iterable[Metric]:
        return gauges()


def gauges() -> Iterator[Metric]:
    stored = StoredFile.objects.aggregate(total=Sum("byte_count"))["total"] or 0
    yield gauge("ledgerline_composers", "Composers whose catalogues are kept.", Composer.objects.count())
    yield gauge("ledgerline_feeds", "Secret addresses of calendars in use.", CalendarAddress.objects.count())
    yield gauge("ledgerline_stored_files", "Files that were uploaded.", StoredFile.objects.count())
    yield gauge("ledgerline_stored_bytes", "Bytes of the files that were uploaded.", stored)
    yield gauge("ledgerline_data_free_bytes", "Bytes free on the disk of the data.", disk_usage(settings.DATA).free)
    yield gauge(
        "ledgerline_kept_calendars",
        "Calendars that this process has in its memory; all find them in the data folder.",
        number_kept(),
        process=str(os.getpid()),
    )


def gauge(name: str, help_text: str, value: int, **labels: str) -> Metric:
    family = GaugeMetricFamily(name, help_text, labels=list(labels))
    family.add_metric(list(labels.values()), value)
    return family
