"""Eight people save at once, each their own work and one that all of them change: nobody is turned away for good,
nothing that was acknowledged is lost. Many read while some write: all are answered.

``EDITS=200`` in the environment asks for more edits of each than eight; ``READERS=200 WRITERS=20 SECONDS=120`` for more
than twenty readers beside two writers for four seconds; with ``-s`` it says how many pages were read and how soon.
"""

from __future__ import annotations

import os
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from http.client import HTTPConnection
from urllib.parse import urlencode

import pytest
from lxml import html

from tests.durability.house import FORM, TOKEN, House, assert_sound

pytestmark = pytest.mark.slow
CLIENTS = 8
EDITS = int(os.environ.get("EDITS", "8"))
READERS, WRITERS = int(os.environ.get("READERS", "20")), int(os.environ.get("WRITERS", "2"))
SECONDS = float(os.environ.get("SECONDS", "4"))
PATIENCE = 600
MOST_TRIES = 400


class Client:
    """Somebody with a browser of their own, signed in."""

    def __init__(self, house: House) -> None:
        self.house = house
        self.statuses: list[int] = []
        self.seconds: list[float] = []

    def ask(self, method: str, address: str, body: bytes | None = None) -> bytes:
        connection = HTTPConnection("127.0.0.1", self.house.port, timeout=PATIENCE)
        headers = {"Cookie": f"sessionid={self.house.session}; csrftoken={TOKEN}", "X-CSRFToken": TOKEN}
        if body is not None:
            headers["Content-Type"] = FORM
        begun = time.monotonic()
        with closing(connection):
            connection.request(method, address, body, headers)
            answer = connection.getresponse()
            content = answer.read()
        self.statuses.append(answer.status)
        self.seconds.append(time.monotonic() - begun)
        return content

    def add_line(self, work: int, line: str) -> None:
        """Open the form of a work, add a line to its remarks, send it, and do so again where somebody was quicker."""
        address = f"/c/ilse-tarnow/works/{work}/edit/"
        for _try in range(MOST_TRIES):
            form = next(one for one in html.fromstring(self.ask("GET", address)).forms if "title" in one.fields)
            typed = [(name, value) for name, value in form.form_values() if name != "notes"]
            typed.append(("notes", f"{form.fields['notes'] or ''}\n{line}".strip()))
            self.ask("POST", address, urlencode(typed).encode())
            if self.statuses[-1] == 302:
                return
        raise AssertionError(f"“{line}” could not be saved in {MOST_TRIES} tries.")


def edit(house: House, number: int, own: int, shared: int) -> Client:
    client = Client(house)
    for turn in range(EDITS):
        client.add_line(own, f"{number}.{turn}")
        client.add_line(shared, f"{number}.{turn}")
    return client


def test_of_eight_who_save_at_once_none_loses_a_line(house: House) -> None:
    house.serve()
    for title in ("Shared", *(f"Own {number}" for number in range(CLIENTS))):
        assert house.save_work(title) == 302
    works = [int(str(key)) for (key,) in house.ask("SELECT id FROM catalogue_work ORDER BY id")]

    with ThreadPoolExecutor(CLIENTS) as crowd:
        done = list(crowd.map(lambda number: edit(house, number, works[1 + number], works[0]), range(CLIENTS)))

    assert {status for client in done for status in client.statuses} <= {200, 302, 409}
    kept = {key: sorted(str(notes).split()) for key, notes in house.ask("SELECT id, notes FROM catalogue_work")}
    lines = [[f"{number}.{turn}" for turn in range(EDITS)] for number in range(CLIENTS)]
    assert kept[works[0]] == sorted(line for own in lines for line in own)
    assert [kept[work] for work in works[1:]] == [sorted(own) for own in lines]
    assert_sound(house)


def read_on(house: House, works: list[int], until: float) -> Client:
    """Open lists and works by turns until the time is up."""
    client, turn = Client(house), 0
    while time.monotonic() < until:
        client.ask("GET", ("/c/ilse-tarnow/works/", f"/c/ilse-tarnow/works/{works[turn % len(works)]}/")[turn % 2])
        turn += 1
    return client


def write_on(house: House, work: int, until: float) -> tuple[Client, list[str]]:
    client, lines = Client(house), list[str]()
    while time.monotonic() < until:
        client.add_line(work, f"{work}.{len(lines)}")
        lines.append(f"{work}.{len(lines)}")
    return client, lines


def test_all_who_read_while_others_write_are_answered(house: House) -> None:
    house.serve()
    for number in range(WRITERS):
        assert house.save_work(f"Own {number}") == 302
    works = [int(str(key)) for (key,) in house.ask("SELECT id FROM catalogue_work ORDER BY id")]

    until = time.monotonic() + SECONDS
    with ThreadPoolExecutor(READERS + WRITERS) as crowd:
        reading = [crowd.submit(read_on, house, works, until) for _reader in range(READERS)]
        writing = [crowd.submit(write_on, house, work, until) for work in works]
    readers = [one.result() for one in reading]
    writers = [one.result() for one in writing]

    assert {status for client in readers for status in client.statuses} == {200}
    assert {status for client, _lines in writers for status in client.statuses} <= {200, 302, 409}
    kept = {key: str(notes).split() for key, notes in house.ask("SELECT id, notes FROM catalogue_work")}
    assert kept == {work: lines for work, (_client, lines) in zip(works, writers, strict=True)}
    assert_sound(house)
    tell("pages read", [second for client in readers for second in client.seconds])
    tell("pages of writers", [second for client, _lines in writers for second in client.seconds])


def tell(what: str, seconds: list[float]) -> None:
    ordered = sorted(seconds)
    middle, late = ordered[len(ordered) // 2], ordered[len(ordered) * 95 // 100]
    told = f"{len(ordered)} {what}; half in {middle:.2f} s, 95 % in {late:.2f} s"
    print(f"{READERS} readers, {WRITERS} writers, {SECONDS:g} s: {told}")
