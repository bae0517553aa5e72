"""What is counted of each request; ``measures`` tells it.

Counters are kept in memory, or, where ``PROMETHEUS_MULTIPROC_DIR`` names a folder, in files that all processes of one
machine share, so that whichever process is asked tells the sum. A label is the name of a route, never an address.
"""

from __future__ import annotations

from prometheus_client import CollectorRegistry, Counter, Histogram

BOUNDS = (0.01, 0.025, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.4)  # seconds

own = CollectorRegistry()
requests = Counter("ledgerline_requests", "Requests answered.", ("route", "method", "status"), registry=own)
durations = Histogram(
    "ledgerline_request_seconds", "Time until an answer began.", ("route",), buckets=BOUNDS, registry=own
)


def measure(*, route: str, method: str, status: int, seconds: float) -> None:
    requests.labels(route, method, str(status)).inc()
    durations.labels(route).observe(seconds)
