"""Every page of the demo, read by an HTML checker: as its owner, a viewer and nobody see it, and with mistaken forms.

The checker is the Nu Html Checker, a jar file that the environment names as VNU_JAR and this machine's Java runs;
without them there is nothing to check with, and the test says so.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse
from django.test import Client
from django.urls import reverse

from catalogue.actions.composers import create_composer
from catalogue.demo.loading import load_demo
from catalogue.models import Composer, Membership, Work
from catalogue.terms import Role
from tests.conftest import NOW
from tests.web.every_page import addresses_of, page_names

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

JAR = os.environ.get("VNU_JAR", "")
BACKEND = "django.contrib.auth.backends.ModelBackend"
COMPOSER, EMPTY = "nevena-haldoreva", "nobody-yet"
PART = '<!DOCTYPE html><html lang="en"><head><title>A part of a page</title></head><body>{}</body></html>'
CSV = "title,year,duration,instrumentation\nAsh Ferry,2019,12',2(II=picc).2.2.2 – str\n,soon,,\nSalt,2020,soon,qq\n"
MOST = dict.fromkeys(("work-edit", "performance-edit"), 5)
"""Of how many records a page is looked at, where not of all."""
QUERIES = {
    "work-list": ("?q=the&category=chamber", "?q=zzzz", "?page=2", "?sort=-duration"),
    "performance-list": ("?q=a", "?q=zzzz", "?page=2"),
    "calendar-page": ("?country=NO",),
    "document": ("?order=year", "?language=de&paper=letter", "?language=none"),
    "sign-in": ("?next=/c/x/",),
}
"""What else is asked for at an address."""
FRAGMENTS: dict[str, dict[str, str]] = {
    "instrumentation-reading": {"instrumentation_typed": "3(III=pic).2.2<.2 – 4.3.3.1 – timp, 2 perc – str(8.6.4.4.2"},
    "title-reading": {"title": "Eleven Whetstone"},
    "duration-reading": {"duration_typed": "about soon"},
    "movements-reading": {"movements": "Low Water 3'\nSlack ?"},
    "when-reading": {"date": "31 February", "time": "25:10"},
    "where-reading": {"city": "Riga", "venue": "Kalkofen-Halle"},
    "performers-reading": {"performers": "conductor: Rana Holt\nsomebody: ???"},
    "tour-reading": {"dates": "12 May 2026, Riga\n31 February\nsomewhere"},
    "timing-reading": {"tempo_map": "1-8 4/4 q=60\n9 free soon"},
}
"""What is typed where a page asks how it reads."""
NEWER_THAN_THE_CHECKER = {"CSS: “paint-order”: Property “paint-order” doesn't exist."}
"""What the checker holds against properties that its list lacks: paint-order is in SVG 2 (section 13.8)."""
MISTAKES: dict[str, tuple[dict[str, str], ...]] = {
    "work-new": (
        {},
        {
            "title": "A",
            "instrumentation_typed": "3 flutez, str(8.6",
            "duration_typed": "soon",
            "completed": "31 February",
        },
        {"title": "", "instrumentation_typed": "2(II=picc).2.2.2 – str", "movements": "Low Water 3'\nSlack ?"},
    ),
    "work-edit": ({"title": "Changed", "saves": "0"}, {}),
    "performance-new": ({"date": "yesterweek", "time": "25:10", "performers": "conductor:", "country": "Nowhere"},),
    "performance-edit": ({"saves": "0"},),
    "tour-new": (FRAGMENTS["tour-reading"],),
    "profile-edit": ({"name": "", "email": "nobody", "isni": "12", "born": "never"},),
    "timing-edit": (
        {"tempo_map": "1-8 4/4 q=O", "cues-TOTAL_FORMS": "1", "cues-INITIAL_FORMS": "0", "cues-0-place": "soon"},
        {"tempo_map": "1-8 4/4 q=60", "saves": "0", "cues-TOTAL_FORMS": "0", "cues-INITIAL_FORMS": "0"},
    ),
    "timing-set": ({},),
    "pasted-new": ({},),
    "call-new": ({},),
    "call-edit": ({"title": "", "forces": "3 flutez", "duration_max": "soon", "deadline_time": "25:00"},),
    "import-new": ({},),
    "sign-in": ({"username": "rana", "password": "wrong"},),
    "start": ({"composer_name": "", "user_name": "a b", "password": "short"},),
    "calendar-make": ({}, {"label": "Telephone", "holds": "everything"}),
}
"""What is typed wrongly, or too little, by the name of the page that is sent."""


@pytest.fixture
def house(db: None) -> User:
    user = load_demo(today=NOW.date())
    viewer = User.objects.create_user("viewer")
    for composer in Composer.objects.all():
        Membership.objects.create(user=viewer, composer=composer, role=Role.VIEWER)
    create_composer(owner=user, name="Nobody Yet", sort_name="Yet, Nobody", slug=EMPTY)
    return user


def client_of(user: User | None) -> Client:
    client = Client(raise_request_exception=True)
    if user is not None:
        client.force_login(user, BACKEND)
    return client


def seen_by(client: Client, slug: str) -> Iterator[tuple[str, HttpResponse]]:
    composer = Composer.objects.get(slug=slug)
    for name in page_names():
        for address in addresses_of(name, composer, MOST.get(name)):
            for query in ("", *QUERIES.get(name, ())):
                yield f"{name}{query}", client.get(address + query)


def mistaken(client: Client) -> Iterator[tuple[str, HttpResponse]]:
    composer = Composer.objects.get(slug=COMPOSER)
    for name, sent in MISTAKES.items():
        address = addresses_of(name, composer, 1)[0]
        yield from ((name, client.post(address, typed)) for typed in sent)
    for name, typed in FRAGMENTS.items():
        yield name, client.post(addresses_of(name, composer, 1)[0], typed)


def brought_in(client: Client) -> Iterator[tuple[str, HttpResponse]]:
    """Send a table and paste a list, and go on to what is done with them."""
    table = SimpleUploadedFile("works.csv", CSV.encode(), "text/csv")
    looked_over = client.post(reverse("import-new", args=[COMPOSER]), {"file": table, "kind": ""}, follow=True)
    yield "import-batch", looked_over
    pasted = client.post(
        reverse("pasted-new", args=[COMPOSER]), {"text": "Ash Ferry (2019), 12'\n\nSalt, vc"}, follow=True
    )
    yield "pasted-review", pasted


def papers(client: Client) -> Iterator[tuple[str, HttpResponse]]:
    work = Work.objects.filter(composer__slug=COMPOSER).exclude(tempo_map="")[0].pk
    cues = (f"cue-sheet?work={work}", f"cue-sheet?work={work}&size=pocket")
    for language in ("en-GB", "de"):
        for kind in ("works-list?order=category", "works-list?order=year", "cv-section?first=2015", *cues):
            word, _mark, asked = kind.partition("?")
            address = reverse("document-file", args=[COMPOSER, word])
            yield word, client.get(f"{address}?{asked}&language={language}&paper=a4&format=html")


def all_pages(user: User) -> Iterator[tuple[str, HttpResponse]]:
    owner, viewer, nobody = client_of(user), client_of(User.objects.get(username="viewer")), client_of(None)
    for who, client, slug in (
        ("owner", owner, COMPOSER),
        ("empty", owner, EMPTY),
        ("viewer", viewer, COMPOSER),
        ("nobody", nobody, COMPOSER),
    ):
        yield from ((f"{who} {name}", answer) for name, answer in seen_by(client, slug))
    yield from ((f"mistaken {name}", answer) for name, answer in mistaken(owner))
    yield from ((f"import {name}", answer) for name, answer in brought_in(owner))
    yield from ((f"paper {name}", answer) for name, answer in papers(owner))


def page_of(answer: HttpResponse) -> str:
    text = answer.content.decode()
    return text if text.lstrip().lower().startswith("<!doctype") else PART.format(text)


def write_pages(folder: Path, user: User) -> dict[str, str]:
    """Write each different page; return what it is by the name of its file."""
    written: dict[str, str] = {}
    for number, (what, answer) in enumerate(all_pages(user)):
        if answer.status_code in {301, 302}:
            continue
        assert (what, answer.status_code // 100) in {(what, 2), (what, 4)}
        assert (what, answer.headers["Content-Type"].partition(";")[0]) == (what, "text/html")
        path = folder / f"{number}.html"
        path.write_text(page_of(answer), encoding="utf-8")
        written[path.name] = what
    return written


def findings(folder: Path) -> list[dict[str, Any]]:
    command = ["java", "-Xss4m", "-jar", JAR, "--format", "json", "--exit-zero-always", "--skip-non-html", folder]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    found: list[dict[str, Any]] = json.loads(run.stderr)["messages"]
    return [one for one in found if one["message"] not in NEWER_THAN_THE_CHECKER]


@pytest.mark.skipif(not JAR or not shutil.which("java"), reason="No HTML checker is there (VNU_JAR) or no Java.")
def test_the_checker_has_nothing_to_say_about_any_page(house: User, tmp_path: Path) -> None:
    (tmp_path / "wrong.html").write_text('<!DOCTYPE html><html lang="en"><title>x</title><p role="foo"></p>')
    written = write_pages(tmp_path, house)

    told = {
        (written.get(Path(one["url"]).name, "wrong"), one["message"], one.get("extract", ""))
        for one in findings(tmp_path)
    }

    assert len(written) > 300
    assert [what for what, *_rest in told if what == "wrong"]
    assert sorted(one for one in told if one[0] != "wrong") == []
