"""Whoever keeps one catalogue reaches nothing in another, whatever number is put into a form or an address.

Two catalogues hold one record of every kind. Every form on every page of the one is sent with numbers of the other's
records in each place where a number stands (a choice, a hidden field, the name of a field), and every page is asked
with such numbers in its address. Afterwards no record of the one refers to one of the other, the other is as it was,
and no answer holds a word of it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.db import connection, models, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext
from lxml import html

from catalogue.models import Composer
from tests.web.every_page import addresses_of, page_names
from tests.web.test_every_address_by_role import WRITING
from tests.whole_catalogue import fill_texts, make_whole_catalogue

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

FIRST = 700_001
"""The first number in each table, and so that of a record of the other catalogue, which is made before this one."""
WORD = "Quillhaven"
ASKED = (
    "work", "performance", "hire", "setup", "version_of", "pin", "ban", "only", "besides", "earlier", "edition",
    "recording", "rider", "venue", "person", "organisation", "picture", "file", "call", "picked",
)  # fmt: skip
"""What addresses are asked with, and some that might be."""
NOT_SENT = ("/sign-out/", "/password/")

Sent = list[tuple[str, str]]


def tables() -> list[type[models.Model]]:
    return list(apps.get_app_config("catalogue").get_models(include_auto_created=True))


def begin_high() -> None:
    """Let the numbers of every table begin where no other number can be taken for one of them."""
    with connection.cursor() as cursor:
        for model in tables():
            table = model._meta.db_table
            if connection.vendor == "sqlite":
                cursor.execute("DELETE FROM sqlite_sequence WHERE name = %s", [table])
                cursor.execute("INSERT INTO sqlite_sequence (name, seq) VALUES (%s, %s)", [table, FIRST - 1])
            else:
                counter = "SELECT setval(pg_get_serial_sequence(%s, %s), %s)"
                cursor.execute(counter, [f'"{table}"', model._meta.pk.column, FIRST - 1])


class Theirs:
    """The other catalogue, and what would be wrong with it afterwards."""

    def __init__(self) -> None:
        self.numbers = {model: set(model._base_manager.values_list("pk", flat=True)) for model in tables()}
        self.rows = self.state()

    def state(self) -> dict[str, list[Any]]:
        return {
            model.__name__: list(model._base_manager.filter(pk__in=numbers).order_by("pk").values_list())
            for model, numbers in self.numbers.items()
            if numbers
        }

    def faults(self) -> list[str]:
        changed = [name for name, rows in self.state().items() if rows != self.rows[name]]
        return changed + [f"{model.__name__}.{column}" for model, column in self.references()]

    def references(self) -> Iterator[tuple[type[models.Model], str]]:
        """Give the columns in which a record of ours names one of theirs."""
        for model, numbers in self.numbers.items():
            for column in model._meta.concrete_fields:
                named = self.numbers.get(column.related_model, set()) if column.is_relation else set()
                rows = model._base_manager.exclude(pk__in=numbers).filter(**{f"{column.name}__in": named})
                if named and rows.exists():
                    yield model, column.name


@pytest.fixture
def both(db: None) -> tuple[Theirs, Composer, User]:
    begin_high()
    other = Composer.objects.create(name="Pell Tarrowick", sort_name="Tarrowick, Pell", slug="pell-tarrowick")
    make_whole_catalogue(other)
    fill_texts(lambda _model, column: f"{WORD}-{column.name}"[: column.max_length])
    theirs = Theirs()
    ours = Composer.objects.create(name="Ilka Marovand", sort_name="Marovand, Ilka", slug="ilka-marovand")
    make_whole_catalogue(ours)
    user = User.objects.create_user("rana")
    ours.memberships.create(user=user, role="owner")
    return theirs, ours, user


# ---- what is sent


def forms_of(content: str) -> Iterator[tuple[str, str, Sent]]:
    """Give the method, the address and what would be sent of every form on a page."""
    if not content.strip():
        return
    for form in html.fromstring(content).forms:
        action = str(form.get("action") or "")
        sent = [(str(name), str(value or "")) for name, value in form.form_values()]
        choices = {str(field.get("name")) for field in form.xpath(".//*[@name]") if is_choice(field)}
        buttons = [(str(one.get("name")), str(one.get("value"))) for one in form.xpath(".//button[@name]")][:1]
        yield str(form.method), action, sent + [(name, "") for name in choices - {key for key, _v in sent}] + buttons


def is_choice(field: Any) -> bool:
    return field.tag == "select" or field.get("type") in {"checkbox", "radio", "hidden"}


def attacks(sent: Sent) -> Iterator[Sent]:
    """Give a form with the number of one of their records: in each place by itself, and in the names of fields."""
    for place, (name, value) in enumerate(sent):
        if name != "csrfmiddlewaretoken" and (not value or value.isdecimal()):
            yield [*sent[:place], (name, str(FIRST)), *sent[place + 1 :]]
        if re.search(r"\d{6}", name):
            yield [*sent, (re.sub(r"\d{6,}", str(FIRST), name), value or "on")]


def fields(sent: Sent) -> dict[str, list[str]]:
    told: dict[str, list[str]] = {}
    for name, value in sent:
        told.setdefault(name, []).append(value)
    return told


class Attack:
    """A browser in which somebody is signed in who keeps another catalogue, and what came of what it sent."""

    def __init__(self, browser: Client, theirs: Theirs) -> None:
        self.browser, self.theirs = browser, theirs
        self.done: set[tuple[str, tuple[str, ...]]] = set()
        self.found: list[tuple[str, Any]] = []
        self.taken = 0
        self.stored: list[bool] = []

    def ask(self, address: str) -> None:
        seen = self.browser.get(address)
        self.look_at(address, seen)
        if "text/html" not in seen.headers.get("Content-Type", "") or seen.streaming:
            return
        for method, action, sent in list(forms_of(seen.content.decode())):
            kind = (action or address, tuple(sorted({name for name, _value in sent})))
            if kind in self.done or (action or address).endswith(NOT_SENT):
                continue
            self.done.add(kind)
            self.taken += self.send(method, action or address, sent)
            self.stored += [self.send(method, action or address, attack) for attack in attacks(sent)]
        self.look_at(address, self.browser.get(address, dict.fromkeys(ASKED, FIRST)))

    def send(self, method: str, address: str, sent: Sent) -> bool:
        """Send a form, look at all that came of it, undo it, and tell whether something was written."""
        with transaction.atomic():
            with CaptureQueriesContext(connection) as asked:
                answer = getattr(self.browser, method.lower())(address, fields(sent))
            self.look_at(address, answer, fields(sent))
            stored = method == "POST" and any(one["sql"].startswith(WRITING) for one in asked)
            if stored:
                self.found += [(address, (fault, fields(sent))) for fault in self.theirs.faults()]
            if answer.status_code == 302:
                self.look_at(address, self.browser.get(answer.headers["Location"]), fields(sent))
            transaction.set_rollback(True)
        return stored

    def look_at(self, address: str, answer: Any, sent: Any = None) -> None:
        content = b"".join(answer.streaming_content) if answer.streaming else answer.content
        if answer.status_code >= 500 or WORD.encode() in content:
            self.found.append((address, (answer.status_code, sent)))


def test_planted_fault_is_found(both: tuple[Theirs, Composer, User]) -> None:
    theirs, ours, _user = both
    work = ours.works.get()
    assert theirs.faults() == []

    work.version_of_id = FIRST
    work.save()
    apps.get_model("catalogue", "Venue").objects.filter(pk=FIRST).update(city="Elsewhere")

    assert theirs.faults() == ["Venue", "HistoricalWork.version_of", "Work.version_of"]


def test_no_number_in_a_form_or_an_address_leads_into_another_catalogue(
    both: tuple[Theirs, Composer, User], signed_in: Callable[[User], Client]
) -> None:
    theirs, ours, user = both
    attack = Attack(signed_in(user), theirs)

    for name in page_names():
        if name not in {"sign-in", "start", "join"}:
            for address in addresses_of(name, ours, 1):
                attack.ask(address)

    assert attack.found == []
    assert attack.taken > 60, "Forms are refused without an attack too, so that nothing was tried."
    assert len(attack.stored) > 200
    assert 0 < sum(attack.stored) < attack.taken
