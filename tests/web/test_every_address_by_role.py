"""Every address of the site, asked by everybody with GET and POST, against the table ``access.toml``."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator
from http.cookies import SimpleCookie
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.core.files.storage import default_storage
from django.db import connection
from django.db.transaction import atomic, set_rollback
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from catalogue.actions.calendars import make_address, open_to_all
from catalogue.actions.entry import make_entry_key
from catalogue.actions.file_links import open_link
from catalogue.actions.riders import Package, send_rider
from catalogue.documents.renderers import web_faces
from catalogue.exchange.backups.keeping import ASKED_FOR, name_of
from catalogue.exchange.drafts import as_content, drafts_of
from catalogue.exchange.pictures import keep_picture, probe_picture
from catalogue.exchange.sent_files import keep_sent
from catalogue.models import (
    CalendarAddress,
    Call,
    Composer,
    EntryPurpose,
    FileLink,
    Hire,
    House,
    ImportBatch,
    MaterialSet,
    Membership,
    Merge,
    Performance,
    Picture,
    ProgrammedWork,
    Rider,
    RiderSending,
    SavedView,
    Sending,
    StoredFile,
    Venue,
    Work,
)
from catalogue.terms.hires import LinkPurpose
from catalogue.web.views.recovery import way_back
from tests.conftest import CLOCK, NOW
from tests.picture_files import picture_file
from tests.web.pages import closed_quietly

pytestmark = pytest.mark.django_db

TABLE = tomllib.loads((Path(__file__).parent / "access.toml").read_text(encoding="utf-8"))
EVERYBODY = ("anonymous", "viewer", "editor", "owner", "librarian", "stranger", "superuser")
PEOPLE = EVERYBODY if connection.vendor == "sqlite" else ("owner",)
"""Those who ask. Who may is decided before a database is asked: another one is to answer the owner alike."""
LET_IN = {
    "everybody": set(EVERYBODY),
    "signed-in": set(EVERYBODY) - {"anonymous"},
    "member": {"viewer", "editor", "owner"},
    "editor": {"editor", "owner"},
    "owner": {"owner"},
    "material": {"viewer", "editor", "owner", "librarian"},
    "material editor": {"editor", "owner", "librarian"},
}
MEMBERS = LET_IN["material"]
WRITING = ("INSERT", "UPDATE", "DELETE")


def addresses(patterns: list[Any] | None = None) -> Iterator[URLPattern]:
    for pattern in get_resolver().url_patterns if patterns is None else patterns:
        if isinstance(pattern, URLResolver):
            yield from addresses(pattern.url_patterns)
        else:
            yield pattern


def names() -> list[str]:
    return [str(pattern.name) for pattern in addresses()]


def values(name: str, composer: Composer) -> dict[str, Any]:
    """Return something that exists for each part of an address that varies."""
    variable = {part for pattern in get_resolver().reverse_dict.getlist(name) for part in pattern[0][0][1]}
    makers: dict[str, Callable[[], Any]] = {
        "composer": lambda: composer.slug,
        "token": lambda: token_of(name, composer),
        "house": lambda: make_house(composer).pk,
        "rider": lambda: make_rider(composer).pk,
        "ridersending": lambda: make_sending(composer)[0].pk,
        "sending": lambda: make_paper(composer).pk,
        "filelink": lambda: make_link(composer)[0].pk,
        "hire": lambda: make_hire(composer).pk,
        "format": lambda: "atom" if name == "public-news" else "pdf",
        "group": lambda: "works",
        "name": lambda: open_calendar(composer).slug,
        "address": lambda: make_calendar(composer).pk,
        "work": lambda: Work.objects.create(composer=composer, title="Rope Tables", tempo_map="1-4 4/4 q=60").pk,
        "kind": lambda: (
            "materialset" if "record" in variable else "works-list" if name == "document-file" else "parts-checklist"
        ),
        "table": lambda: "works",
        "savedview": lambda: SavedView.objects.create(composer=composer, table="works", name="Short").pk,
        "record": lambda: make_set(composer).pk,
        "suffix": lambda: "csv",
        "lack": lambda: "duration",
        "performance": lambda: Performance.objects.create(composer=composer, city="Lyon", date="2026-03-28").pk,
        "member": lambda: make_member(composer).pk,
        "merge": lambda: Merge.objects.create(composer=composer, sort="name", made_at=NOW).pk,
        "batch": lambda: make_import(name, composer).pk,
        "call": lambda: make_call(composer).pk,
        "backup": kept_backup,
        "venue": lambda: Venue.objects.create(composer=composer, name="Old Granary").pk,
        "sort": lambda: "sets",
        "release": web_faces.release,
        "language": lambda: "ja",
        "family": lambda: "serif",
        "slice": lambda: "30",
        "step": lambda: "contract",
        "state": lambda: "done",
        "picture": lambda: make_picture(composer).pk,
        "storedfile": lambda: make_file(composer).pk,
        "number": lambda: 1,
        "uidb64": lambda: way_back_of_somebody().split("/")[-3],
    }
    if name in {"public-work", "public-performance"}:
        makers |= {"work": lambda: make_public(composer)[0].pk, "performance": lambda: make_public(composer)[1].pk}
    return {part: makers[part]() for part in variable}


def owner_of(composer: Composer) -> User:
    return composer.memberships.get(role="owner").user


def calendar_token(composer: Composer) -> str:
    return make_address(composer=composer, keeper=owner_of(composer), label="Telephone", now=NOW)


def make_calendar(composer: Composer) -> CalendarAddress:
    calendar_token(composer)
    return CalendarAddress.objects.filter(composer=composer).latest("pk")


def open_calendar(composer: Composer) -> Composer:
    open_to_all(composer=composer, is_open=True)
    composer.is_public = True
    composer.save(update_fields=["is_public"])
    return composer


def make_public(composer: Composer) -> tuple[Work, Performance]:
    work = Work.objects.create(composer=composer, title="Rope Tables", is_public=True)
    performance = Performance.objects.create(composer=composer, city="Lyon", date="2026-03-28", status="confirmed")
    ProgrammedWork.objects.create(performance=performance, work=work, order=1)
    return work, performance


def make_set(composer: Composer) -> MaterialSet:
    return MaterialSet.objects.create(work=Work.objects.create(composer=composer, title="Kept Twice"), number="1")


def make_picture(composer: Composer) -> Picture:
    digest = keep_picture(probe_picture(picture_file()), default_storage)
    columns = {"alternative": "A window", "suffix": "png", "width": 4, "height": 3, "byte_count": 9}
    return Picture.objects.create(composer=composer, sha256=digest, **columns)


def make_house(composer: Composer) -> House:
    """A house with a logo, and the composer under its roof."""
    digest = keep_picture(probe_picture(picture_file()), default_storage)
    made = House.objects.create(name="Two Quays Music", logo_sha256=digest, logo_suffix="png")
    composer.house = made
    composer.save(update_fields=["house"])
    return made


def make_file(composer: Composer) -> StoredFile:
    columns = {"original_name": "Ash Ferry.pdf", "suffix": "pdf", "kind": "score", "byte_count": 8}
    return StoredFile.objects.create(
        composer=composer, sha256=keep_sent(b"%PDF-1.7", "pdf", default_storage), **columns
    )


def token_of(name: str, composer: Composer) -> str:
    if name == "feed":
        return calendar_token(composer)
    if name == "recover-set":
        return way_back_of_somebody().split("/")[-2]
    if name.startswith("shared-"):
        return make_link(composer)[1]
    return make_sending(composer)[1] if name.startswith("rider-") else make_key(name, composer)


def way_back_of_somebody() -> str:
    """An address that is good as long as nobody of those who ask signs in anew."""
    return way_back(User.objects.get_or_create(username="astray")[0])


def make_rider(composer: Composer) -> Rider:
    work = Work.objects.create(composer=composer, title="Rope Tables", instrumentation="pf")
    performance = Performance.objects.create(composer=composer, city="Lyon", date="2026-03-28")
    ProgrammedWork.objects.create(performance=performance, work=work, order=1)
    columns = {"contact_name": "Kit", "contact_email": "kit@example.org"}
    return Rider.objects.create(composer=composer, work=work, performance=performance, **columns)


def make_sending(composer: Composer) -> tuple[RiderSending, str]:
    package = Package([], {}, {"pdf": keep_sent(b"%PDF-1.7", "pdf", default_storage)}, "en-GB")
    return send_rider(rider=make_rider(composer), to="A hall", package=package, now=CLOCK.moment)


def make_paper(composer: Composer) -> Sending:
    """A paper that a librarian may have made."""
    digest = keep_sent(b"%PDF-1.7", "pdf", default_storage)
    columns = {"document": "parts-checklist", "title": "Parts checklist", "suffix": "pdf", "file_name": "parts.pdf"}
    days = {"sent_on": CLOCK.moment.date(), "made_on": CLOCK.moment.date()}
    return Sending.objects.create(composer=composer, name="A hall", sha256=digest, byte_count=8, **columns, **days)


def make_link(composer: Composer) -> tuple[FileLink, str]:
    return open_link(
        composer=composer,
        recipient="A hall",
        files=[make_file(composer)],
        purpose=LinkPurpose.PERUSAL,
        days=14,
        now=CLOCK.moment,
    )


def make_hire(composer: Composer) -> Hire:
    work = Work.objects.create(composer=composer, title="Rope Tables", instrumentation="pf")
    return Hire.objects.create(composer=composer, work=work, name="Two Bells Orchestra")


def make_key(name: str, composer: Composer) -> str:
    purpose = {"enter": EntryPurpose.DEMO, "join": EntryPurpose.MEMBER}.get(name, EntryPurpose.OWNER)
    return make_entry_key(purpose, now=CLOCK.moment, user=owner_of(composer))


def make_member(composer: Composer) -> Membership:
    return Membership.objects.create(
        composer=composer, user=User.objects.create_user(f"new{User.objects.count()}"), role="viewer"
    )


def make_call(composer: Composer) -> Call:
    call = Call(composer=composer, title="A reading", full_text="A reading.\nLength: up to 9 minutes.")
    call.full_clean()
    call.save()
    return call


def kept_backup() -> str:
    name = name_of(ASKED_FOR, NOW)
    settings.BACKUPS.mkdir(parents=True, exist_ok=True)
    (settings.BACKUPS / name).write_bytes(b"everything")
    return name


def make_import(name: str, composer: Composer) -> ImportBatch:
    columns = {"source": "pasted", "content": as_content(drafts_of("Ash Ferry"))} if name == "pasted-review" else {}
    return ImportBatch.objects.create(composer=composer, name="works.csv", made_at=NOW, **columns)


@pytest.fixture
def address(request: pytest.FixtureRequest, composer: Composer, owner: Any) -> str:
    return reverse(request.param, kwargs=values(request.param, composer))


@pytest.fixture
def cookies(request: pytest.FixtureRequest, signed_in: Callable[[User], Client]) -> dict[str, SimpleCookie]:
    """What the browsers of those who have to do with the catalogue hold."""
    members = [person for person in PEOPLE if person in MEMBERS]
    return {person: signed_in(request.getfixturevalue(person)).cookies for person in members}


def expected(row: dict[str, Any], person: str, method: str) -> int:
    if method in row.get(person, {}):
        return int(row[person][method])
    if person in LET_IN[row["who"]]:
        return int(row[method])
    if person == "anonymous":
        return 302 if method == "get" else 403
    return 403 if person in MEMBERS else 404


def test_every_address_has_a_row_and_every_row_an_address() -> None:
    assert sorted(names()) == sorted(TABLE)


@pytest.mark.usefixtures("with_migrations")
@pytest.mark.parametrize("address", TABLE, indirect=True)
def test_address_answers_each_person_as_the_table_says(
    request: pytest.FixtureRequest,
    signed_in: Callable[[User], Client],
    cookies: dict[str, SimpleCookie],
    address: str,
) -> None:
    name, cookies["anonymous"], answers = request.node.callspec.params["address"], SimpleCookie(), {}

    for person in PEOPLE:
        if person not in cookies:  # no other catalogue is there while the owner asks
            cookies[person] = signed_in(request.getfixturevalue(person)).cookies
        for method in ("get", "post"):
            answers[person, method] = ask(address, cookies[person], method, writes="writes" in TABLE[name])

    assert {each: answer.status_code for each, answer in answers.items()} == {
        (person, method): expected(TABLE[name], person, method) for person, method in answers
    }
    for (person, _method), answer in answers.items():
        assert_guarded(answer, TABLE[name].get("framed", "none") if answer.status_code == 200 else "none")
        assert_kept_by_nobody_else(answer, name, person)
        if answer.status_code == 200:
            assert ("text/html" not in answer.headers["Content-Type"]) is TABLE[name].get("file", False)


def ask(address: str, cookies: SimpleCookie, method: str, *, writes: bool) -> HttpResponse:
    """Return the answer of a server that forgets at once that it was asked; reading is to write nothing."""
    browser = Client()
    browser.cookies = SimpleCookie(cookies.output(header="", sep=";"))
    with atomic(), CaptureQueriesContext(connection) as asked:
        response = getattr(browser, method)(address)
        set_rollback(True)
    closed_quietly(response)
    if method == "get" and not writes:
        assert [query["sql"] for query in asked if query["sql"].startswith(WRITING)] == []
    return response


def assert_kept_by_nobody_else(response: HttpResponse, name: str, person: str) -> None:
    if person != "anonymous" and name != "sign-out":
        cached = TABLE[name].get("cached", "private, no-store")
        assert response.headers["Cache-Control"] in {cached, "private, no-store"}


ASKED_OF_BROWSERS = {
    "script-src", "style-src", "img-src", "media-src", "font-src", "connect-src", "form-action", "manifest-src",
    "base-uri", "object-src",
}  # fmt: skip
"""What a page of this site may load from itself alone, each kind of its own."""
OWN = {"'self'", "'none'"}
ALLOWED = {"img-src": {*OWN, "data:"}, "style-src": {*OWN, "'sha256-'"}}
"""Beside the site itself: pictures written into the page, and a style that is named by its hash."""


def policy_of(response: HttpResponse) -> dict[str, set[str]]:
    """Return from where each kind of thing may come, as the answer tells browsers."""
    directives = [words.split() for words in response.headers["Content-Security-Policy"].split(";")]
    return {name: {re.sub(r"(?<='sha256-)[\w+/]{43}=", "", one) for one in sources} for name, *sources in directives}


def assert_guarded(response: HttpResponse, frames: str = "none") -> None:
    """Every answer carries the headers that shut out foreign scripts, frames and referrers.

    What the table calls ``framed`` stands in a page of our own.
    """
    policy = policy_of(response)
    assert policy["default-src"] == {"'none'"}
    assert policy["frame-ancestors"] == {f"'{frames}'"}
    assert set(policy) >= ASKED_OF_BROWSERS or "sandbox" in policy
    assert {name: sources for name, sources in policy.items() if not sources <= ALLOWED.get(name, OWN)} == {}
    assert response.headers["X-Content-Type-Options"] == "nosniff"
    assert response.headers["X-Frame-Options"] == {"none": "DENY", "self": "SAMEORIGIN"}[frames]
    assert response.headers["Referrer-Policy"] in {"same-origin", "no-referrer"}


@pytest.mark.parametrize("address", TABLE, indirect=True)
def test_form_without_its_token_is_refused(request: pytest.FixtureRequest, address: str, owner: Any) -> None:
    browser = Client(enforce_csrf_checks=True)
    browser.force_login(owner, "django.contrib.auth.backends.ModelBackend")

    response = browser.post(address, {"title": "From elsewhere"})

    assert response.status_code in {403, 405}
    if response.status_code == 403:
        assert "From elsewhere" in response.content.decode()
        assert "Send it again" not in response.content.decode()
