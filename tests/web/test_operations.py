"""What machines ask of a house, and what its log and its measures tell: nothing of anybody."""

from __future__ import annotations

import io
import json
import logging
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.storage import InMemoryStorage
from django.db import IntegrityError, connection
from django.db.migrations.recorder import MigrationRecorder
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalogue.models import Composer
from catalogue.web import health
from catalogue.web.logs import JsonLines
from tests.makers import make_work

TOKEN = "a-token-of-twenty-letters-or-more"
CANARY = "Canary-9f2c41d07b63aa"


@pytest.fixture(autouse=True)
def not_written_lately() -> None:
    health._written.clear()


@pytest.fixture
def lines() -> Iterator[Callable[[], list[dict[str, Any]]]]:
    """What the log of a house holds so far, line by line."""
    told = io.StringIO()
    handler, root, ours = logging.StreamHandler(told), logging.getLogger(), logging.getLogger("catalogue")
    handler.setFormatter(JsonLines())
    levels = root.level, ours.level
    root.handlers.insert(0, handler)  # before one that writes secrets out of the record itself
    root.setLevel(logging.DEBUG)
    ours.setLevel(logging.INFO)
    try:
        yield lambda: [json.loads(line) for line in told.getvalue().splitlines()]
    finally:
        root.removeHandler(handler)
        root.setLevel(levels[0])
        ours.setLevel(levels[1])


class FullStorage(InMemoryStorage):
    """A storage that takes nothing."""

    def _save(self, name: str, content: Any) -> str:
        raise OSError(28, f"No space left on device for {CANARY}")


def test_alive_asks_no_database(client: Client) -> None:
    response = client.get("/health/live/")

    assert (response.status_code, response.content) == (200, b"alive\n")


@pytest.mark.django_db
@pytest.mark.usefixtures("with_migrations")
def test_ready_asks_the_database_twice_and_writes_a_file_once_a_minute(client: Client) -> None:
    with CaptureQueriesContext(
        connection,
    ) as asked:
        responses = [client.get("/health/ready/") for _time in range(2)]

    assert [(one.status_code, one.content) for one in responses] == [(200, b"ready\n")] * 2
    assert len([one for one in asked if "django_migrations" in one["sql"] and 'SELECT "django' in one["sql"]]) == 2


@pytest.mark.django_db
@pytest.mark.usefixtures("with_migrations")
def test_not_ready_tells_strangers_nothing_and_the_log_why(
    client: Client, lines: Callable[[], list[dict[str, Any]]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(health, "default_storage", FullStorage())
    newest = health.known_migrations().graph.leaf_nodes("catalogue")[0]
    MigrationRecorder(connection).record_unapplied(*newest)

    response = client.get("/health/ready/")

    MigrationRecorder(connection).record_applied(*newest)
    assert (response.status_code, response.content) == (503, b"not ready\n")
    told = [(line["event"], line["fault"]) for line in lines() if line["logger"] == "catalogue.web.health"]
    assert told == [(health.SENTENCES["tables"], "NotReady"), (health.SENTENCES["storage"], "OSError")]
    assert CANARY not in json.dumps(lines())


@pytest.mark.django_db
@pytest.mark.parametrize("header", [{}, {"authorization": "Bearer wrong"}, {"authorization": f"Basic {TOKEN}"}])
def test_metrics_are_not_there_without_the_token(client: Client, settings: Any, header: dict[str, str]) -> None:
    settings.METRICS_TOKEN = TOKEN

    assert client.get("/metrics/", headers=header).status_code == 404


@pytest.mark.django_db
def test_metrics_are_off_until_a_token_is_set(client: Client) -> None:
    assert client.get("/metrics/", headers={"authorization": "Bearer "}).status_code == 404


@pytest.mark.django_db
def test_metrics_tell_requests_by_route_and_what_is_kept(client: Client, settings: Any, composer: Composer) -> None:
    settings.METRICS_TOKEN = TOKEN
    client.get(f"/shared/{CANARY}/?key={CANARY}")

    response = client.get("/metrics/", headers={"authorization": f"Bearer {TOKEN}"})

    told = response.content.decode()
    assert response.headers["Content-Type"] == "text/plain; version=0.0.4; charset=utf-8"
    assert 'ledgerline_requests_total{method="GET",route="shared-files",status="404"}' in told
    assert 'ledgerline_request_seconds_bucket{le="0.1",route="shared-files"}' in told
    assert "ledgerline_composers 1.0\n" in told
    assert "ledgerline_stored_bytes 0.0\n" in told
    assert CANARY not in told


@pytest.mark.django_db
def test_a_request_is_told_by_route_status_role_and_composer(
    owner: User,
    composer: Composer,
    signed_in: Callable[[User], Client],
    lines: Callable[[], list[dict[str, Any]]],
) -> None:
    work = make_work("Rope Tables", composer=composer)

    response = signed_in(owner).get(reverse("work-detail", args=[composer.slug, work.pk]), {"sought": CANARY})

    (told,) = [line for line in lines() if line["event"] == "request"]
    assert told.pop("milliseconds") > 0
    assert told.pop("time").endswith("+00:00")
    assert told == {
        "level": "info",
        "logger": "catalogue.web.middleware",
        "event": "request",
        "request": response.headers["X-Request-ID"],
        "method": "GET",
        "route": "work-detail",
        "status": 200,
        "role": "owner",
        "composer": composer.pk,
    }


@pytest.mark.django_db
def test_no_secret_and_no_name_ever_stands_in_the_log(
    lines: Callable[[], list[dict[str, Any]]], monkeypatch: pytest.MonkeyPatch, settings: Any
) -> None:
    def complaining() -> list[str]:
        raise IntegrityError(f"duplicate key: ({CANARY}@house.example) already exists")

    monkeypatch.setattr("catalogue.web.views.operations.lacks", complaining)
    client = Client(raise_request_exception=False)
    secret = CANARY * 2
    for address in (
        f"/feeds/{secret}/calendar.ics",
        f"/join/{secret}/",
        f"/c/{CANARY}/works/?q={CANARY}",
        f"/{CANARY}",
    ):
        client.get(address, headers={"user-agent": CANARY, "cookie": f"session={CANARY}", "x-request-id": CANARY})
    client.post("/sign-in/", {"username": f"{CANARY}@house.example", "password": CANARY})
    client.get("/sign-in/", headers={"host": f"{CANARY}.example"})
    client.get(f"/health/ready/?token={CANARY}")
    logging.getLogger("somebody.elses").warning(f"a library tells {CANARY} and %s", CANARY)
    logging.getLogger("catalogue.own").warning("Nothing of %s is told.", CANARY)

    told = lines()

    assert CANARY not in json.dumps(told)
    assert [line["status"] for line in told if line["event"] == "request"] == [404, 404, 302, 404, 200, 400, 500]
    assert "Nothing of %s is told." in [line["event"] for line in told]
    (fault,) = [line for line in told if line.get("fault") == "IntegrityError"]
    assert fault["request"]
    assert fault["through"][-1].endswith(" complaining")
