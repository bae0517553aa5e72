"""What is measured in a process of its own: memory, starting, a server. Each does what it is measured for."""

from __future__ import annotations

import json
import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from io import BytesIO, StringIO
from pathlib import Path
from threading import Thread

import pytest
from django.conf import settings
from django.core.management import call_command
from django.http.multipartparser import MultiPartParser
from django.test import RequestFactory

from catalogue.benches import apart
from catalogue.benches.apart import database_name, peak_bytes
from catalogue.benches.errands import EDGE, form_pieces
from catalogue.benches.measuring import Bench, Heading, Pair, Unmeasurable, benches
from catalogue.benches.subjects.serving import Load
from catalogue.benches.subjects.starting import write_empty_project
from catalogue.management.commands import bench as command

APART = {"memory of a pack, MB of files": 1, "memory of a table that is sent, MB": 1}


def test_process_tells_how_much_it_has_held_at_most(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    before = peak_bytes()
    held = bytearray(before + 50_000_000)  # more than ever, so that the most is another
    assert peak_bytes() - before > 40_000_000
    del held
    assert peak_bytes() - before > 40_000_000

    monkeypatch.setattr(apart, "STATUS", tmp_path / "no such file")
    monkeypatch.setattr(apart, "resource", None)
    with pytest.raises(Unmeasurable, match="does not tell"):
        peak_bytes()


@pytest.mark.django_db
def test_database_in_memory_is_opened_by_no_other_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(apart.connection.settings_dict, "NAME", "file:memorydb_default?mode=memory&cache=shared")
    monkeypatch.setattr(apart.connection, "vendor", "sqlite")

    with pytest.raises(Unmeasurable, match="in memory"):
        database_name()


def test_form_with_a_file_is_written_as_browsers_send_it() -> None:
    body = b"".join(form_pieces({"kind": "works"}, "a.csv", iter([b"title\n", b"Tides\n"])))
    request = RequestFactory().post("/", body, f"multipart/form-data; boundary={EDGE}")

    told, files = MultiPartParser(request.META, BytesIO(body), request.upload_handlers).parse()

    assert (told["kind"], files["file"].name, files["file"].read()) == ("works", "a.csv", b"title\nTides\n")


def test_slowest_answer_is_that_of_ninety_nine_of_a_hundred(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Load, "seconds", lambda _load, _address: [*(one / 100 for one in range(1, 101)), 4.0])

    assert Load(0, "").slowest("/") == 1.0
    assert Load(0, "").rate("/") == 25


def test_quiet_connection_that_the_server_closed_is_opened_again() -> None:
    with socket.create_server(("127.0.0.1", 0)) as server:
        closing = Thread(target=answer_once_each, args=(server,))
        closing.start()
        load = Load(server.getsockname()[1], "")
        connection = HTTPConnection("127.0.0.1", load.port, timeout=10)

        assert all(load.answer(connection, "/") > 0 for _time in range(2))

        connection.close()
        closing.join()


def answer_once_each(server: socket.socket) -> None:
    """Answer a request on each of two connections and close it, without saying so before."""
    for _time in range(2):
        with server.accept()[0] as one:
            one.recv(4096)
            one.sendall(b"HTTP/1.1 200 OK\r\nContent-Length: 2\r\n\r\nok")


def test_empty_project_has_the_apps_of_others_alone(tmp_path: Path) -> None:
    write_empty_project(tmp_path)

    told = (tmp_path / "empty.py").read_text(encoding="utf-8")
    assert "django_tables2" in told
    assert "axes.middleware.AxesMiddleware" in told
    assert "catalogue" not in told


def test_what_cannot_be_measured_here_is_left_out_and_said(monkeypatch: pytest.MonkeyPatch) -> None:
    @contextmanager
    def nowhere(_size: int) -> Iterator[Pair]:
        raise Unmeasurable("There is no such server.")
        yield

    known = {Heading.SERVING: [Bench("serving", "nothing", (1, 10), nowhere)]}
    monkeypatch.setattr(command, "benches_by_heading", lambda: known)
    out, err = StringIO(), StringIO()

    call_command("bench", "--json", stdout=out, stderr=err)

    assert json.loads(out.getvalue()) == []
    assert err.getvalue().startswith("serving: left out. There is no such server.")


def test_a_row_of_the_page_that_nothing_measures_is_said_and_goes_with_the_next_writing(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    page = tmp_path / "FIGURES.md"
    page.write_text("| reading minds | 10 | 20 µs | 10 µs | 2.00 |  |  |\n", encoding="utf-8")
    monkeypatch.setattr(command, "PAGES", dict.fromkeys(command.PAGES, (page, "# Figures")))
    told = ["--only", "premieres of one work", "--largest", "100", "--seconds", "0"]
    said, written = StringIO(), StringIO()

    call_command("bench", *told, stdout=StringIO(), stderr=said)
    call_command("bench", *told, "--write", stdout=StringIO(), stderr=written)

    assert said.getvalue() == (
        "FIGURES.md holds “reading minds, 10”, which is no longer measured; it goes with the next --write.\n"
    )
    assert (
        written.getvalue() == "FIGURES.md holds “reading minds, 10”, which is no longer measured; it was taken out.\n"
    )
    assert "reading minds" not in page.read_text(encoding="utf-8")
    assert "| reckon premieres of one work | 100 |" in page.read_text(encoding="utf-8")


@pytest.mark.slow
@pytest.mark.parametrize(("name", "size"), [*APART.items(), ("a public page, served", 1_000)])
def test_what_needs_other_processes_is_measured_in_a_database_of_its_own(tmp_path: Path, name: str, size: int) -> None:
    told = ["--json", "--only", name, "--largest", str(size), "--seconds", "0"]

    run = subprocess.run(
        [sys.executable, "manage.py", "bench", *told],
        cwd=settings.ROOT,
        env=os.environ | {"LEDGERLINE_DATA": str(tmp_path)},
        capture_output=True,
        text=True,
        check=True,
    )

    rows = json.loads(run.stdout)
    assert {row["name"] for row in rows} == {bench.name for bench in benches() if name in bench.name}
    assert all(row["ratio"] > 0 for row in rows)
