"""What every test stands on: no network, a clock that stands still, and the people of two catalogues."""

from __future__ import annotations

import ipaddress
import os
import socket
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import Any

import hypothesis
import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.db import connection
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder
from django.test import Client, override_settings
from django.utils import timezone

from catalogue.exchange.backups.lines import apps_of, known_migrations
from catalogue.gathering.once import forget_all
from catalogue.models import Composer, Membership
from catalogue.terms import Role
from catalogue.web.kept_calendars import forget_everywhere

NOW = datetime(2026, 3, 9, 10, 0, tzinfo=UTC)

# No example fails for the time it takes: how quick a machine is says nothing of what is right.
hypothesis.settings.register_profile("house", deadline=None, suppress_health_check=[hypothesis.HealthCheck.too_slow])
hypothesis.settings.load_profile("house")


SHUFFLE = os.environ.get("SHUFFLE", "")
"""A word that the order of the tests hangs on; without it they come as they are written."""


def pytest_report_header() -> list[str]:
    return [f"order: SHUFFLE={SHUFFLE}"] if SHUFFLE else []


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Shuffle the files, and the tests within each; the same word gives the same order, in every process.

    Those that leave the database empty come last all the same, as they do in any order: Django asks for it.
    """
    if SHUFFLE:
        items.sort(key=lambda item: (drawn(item.nodeid.partition("::")[0]), drawn(item.nodeid)))


def drawn(name: str) -> str:
    return sha256(f"{SHUFFLE} {name}".encode()).hexdigest()


class Clock:
    """The moment that stands still for the whole program."""

    def __init__(self) -> None:
        self.moment = NOW

    def goes_on(self, **by: float) -> None:
        self.moment += timedelta(**by)


CLOCK = Clock()


@pytest.fixture(scope="session", autouse=True)
def standing_clock() -> Iterator[None]:
    """Stop the clock in every module that has taken Django's ``now`` for its own."""
    patch, moving = pytest.MonkeyPatch(), timezone.now
    for module in list(sys.modules.values()):
        if getattr(module, "now", None) is moving:
            patch.setattr(module, "now", lambda: CLOCK.moment)
    yield
    patch.undo()


@pytest.fixture
def clock() -> Iterator[Clock]:
    """The clock, to be put on; it goes back afterwards."""
    yield CLOCK
    CLOCK.moment = NOW


def stays_here(address: Any) -> bool:
    """Whether a socket's address is on this machine: a path, or a loopback address."""
    if not isinstance(address, tuple):
        return True
    host = str(address[0])
    return host == "localhost" or (bool(host) and ipaddress.ip_address(host.partition("%")[0]).is_loopback)


@pytest.fixture(autouse=True)
def nothing_kept() -> None:
    """Begin as after a start: what a test saved is gone, and its numbers come again."""
    forget_everywhere()
    forget_all()


@pytest.fixture(scope="session", autouse=True)
def files_in_memory(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep what is uploaded in memory and calendars in a folder of this process, so that no test leaves files."""
    memory = {"BACKEND": "django.core.files.storage.InMemoryStorage"}
    kept = {"KEPT_CALENDARS": tmp_path_factory.mktemp("calendars")}
    with override_settings(STORAGES={**settings.STORAGES, "default": memory}, **kept):
        yield


@pytest.fixture(scope="session", autouse=True)
def static_files_looked_for() -> Iterator[None]:
    """Look for a static file when it is asked for: each new browser of a test would list all of them first."""
    with override_settings(WHITENOISE_AUTOREFRESH=True):
        yield


@pytest.fixture
def no_files(settings: Any) -> None:
    """Begin with no files, whatever other tests have stored."""
    settings.STORAGES = {**settings.STORAGES}


def pytest_itemcollected(item: pytest.Item) -> None:
    """Mark what has a database by way of its fixtures, so that `-m django_db` finds every test that asks one."""
    if "db" in getattr(item, "fixturenames", ()) and not item.get_closest_marker("django_db"):
        item.add_marker(pytest.mark.django_db)
        item.add_marker(pytest.mark.database_by_fixture)


@pytest.fixture(scope="session", autouse=True)
def no_network() -> Iterator[None]:
    """Shut every socket that would leave this machine."""
    patch = pytest.MonkeyPatch()
    for name in ("connect", "connect_ex"):
        patch.setattr(socket.socket, name, refusing(getattr(socket.socket, name)))
    yield
    patch.undo()


def refusing(connect: Callable[..., Any]) -> Callable[..., Any]:
    def guarded(self: socket.socket, address: Any) -> Any:
        if not stays_here(address):
            raise ConnectionRefusedError(f"A test tried to reach {address!r}.")
        return connect(self, address)

    return guarded


@pytest.fixture(scope="session")
def migrations_told(django_db_setup: None, django_db_blocker: Any) -> None:
    """Tell the tests' database, which is made without them, of the migrations that would have made it."""
    with django_db_blocker.unblock(), override_settings(MIGRATION_MODULES={}):
        recorder = MigrationRecorder(connection)
        recorder.ensure_schema()
        for key in MigrationLoader(None).disk_migrations:
            recorder.record_applied(*key)


@pytest.fixture
def with_migrations(settings: Any, migrations_told: None) -> Iterator[None]:
    """The migrations, which most tests do without."""
    settings.MIGRATION_MODULES = {}
    forget_migrations()
    yield
    forget_migrations()


def forget_migrations() -> None:
    known_migrations.cache_clear()
    apps_of.cache_clear()


@pytest.fixture
def composer(db: None) -> Composer:
    return Composer.objects.create(name="Ilka Marovand", sort_name="Marovand, Ilka", slug="ilka-marovand", country="NO")


@pytest.fixture
def other_composer(db: None) -> Composer:
    return Composer.objects.create(name="Pell Tarrowick", sort_name="Tarrowick, Pell", slug="pell-tarrowick")


def member(name: str, composer: Composer, role: Role) -> User:
    user = User.objects.create_user(name)
    Membership.objects.create(user=user, composer=composer, role=role)
    return user


@pytest.fixture
def owner(composer: Composer) -> User:
    """Keeps the catalogue."""
    return member("rana", composer, Role.OWNER)


@pytest.fixture
def editor(composer: Composer) -> User:
    """Helps to keep it."""
    return member("edda", composer, Role.EDITOR)


@pytest.fixture
def viewer(composer: Composer) -> User:
    """May read it."""
    return member("vivian", composer, Role.VIEWER)


@pytest.fixture
def librarian(composer: Composer) -> User:
    """Keeps its sets of parts and sees nothing else."""
    return member("lior", composer, Role.LIBRARIAN)


@pytest.fixture
def stranger(other_composer: Composer) -> User:
    """Keeps a catalogue of their own and has no business in this one."""
    return member("tobiah", other_composer, Role.OWNER)


@pytest.fixture
def superuser(db: None) -> User:
    """Runs the machine; that alone opens no catalogue."""
    return User.objects.create_superuser("root")


@pytest.fixture
def signed_in() -> Callable[[User], Client]:
    """A browser in which somebody is signed in."""

    def sign_in(user: User) -> Client:
        client = Client()
        client.force_login(user, "django.contrib.auth.backends.ModelBackend")
        return client

    return sign_in
