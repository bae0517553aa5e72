"""What a house is served with: units, an image, processes that count together, and a log of JSON lines alone."""

from __future__ import annotations

import http.client
import json
import os
import re
import runpy
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import get_commands

ROOT = Path(settings.ROOT)
DEPLOY = ROOT / "deploy"
TOKEN = "a-token-of-twenty-letters-or-more"
NO_SYSTEMD = shutil.which("systemd-analyze") is None
HOST = {"Host": "house.example", "X-Forwarded-Proto": "https"}


@pytest.mark.skipif(NO_SYSTEMD, reason="needs systemd-analyze")
def test_units_are_such_as_systemd_takes(tmp_path: Path) -> None:
    for unit in DEPLOY.glob("ledgerline*.*r*"):
        if unit.suffix in {".service", ".timer"}:
            here = re.sub(r"/srv/ledgerline/\.venv/bin/\w+", sys.executable, unit.read_text())
            (tmp_path / unit.name).write_text(here.replace("/srv/ledgerline", str(ROOT)))
    units = sorted(str(path) for path in tmp_path.iterdir())

    done = subprocess.run(["systemd-analyze", "verify", *units], capture_output=True, text=True, check=False)

    complaints = [line for line in done.stderr.splitlines() if "ledgerline" in line]
    assert ([Path(unit).name for unit in units], complaints) == (
        ["ledgerline-backup.service", "ledgerline-backup.timer", "ledgerline.service"],
        [],
    )


def test_an_image_is_made_of_files_that_are_there() -> None:
    steps = (DEPLOY / "Containerfile").read_text()
    copied = [name for line in re.findall(r"^COPY (?!--from)(.+)$", steps, re.MULTILINE) for name in line.split()[:-1]]
    left_out = (ROOT / ".containerignore").read_text().split()

    assert [name for name in copied if not (ROOT / name).exists() or name in left_out] == []
    assert {"config", "catalogue", "templates", "manage.py", "requirements-server.lock"} <= set(copied)


def test_every_setting_that_is_shown_is_read() -> None:
    shown = set(
        re.findall(r"LEDGERLINE_[A-Z_]+", "".join(path.read_text() for path in DEPLOY.iterdir() if path.is_file()))
    )
    read = (ROOT / "config/settings.py").read_text() + (ROOT / "manage.py").read_text()

    assert {name for name in shown if f'"{name}"' not in read} == set()
    assert "LEDGERLINE_PROXIES" in shown


def steps() -> dict[str, list[str]]:
    """The last image's steps by their word, in order."""
    last = (DEPLOY / "Containerfile").read_text().rpartition("\nFROM ")[2]
    found: dict[str, list[str]] = {}
    for word, told in re.findall(r"^([A-Z]+) (.+)$", last, re.MULTILINE):
        found.setdefault(word, []).append(told)
    return found


def test_an_image_runs_as_nobody_special_where_its_data_lie() -> None:
    image = steps()
    told = dict(re.findall(r'(\w+)=("[^"]*"|\S+)', image["ENV"][0]))
    (made,) = (one for one in image["RUN"] if one.startswith("useradd"))

    assert image["USER"] == re.findall(r"--uid (\d+)", made)
    assert image["VOLUME"] == [told["LEDGERLINE_DATA"]] == re.findall(r"--home-dir (\S+)", made)
    assert f"install -d -o ledgerline -m 0700 {told['LEDGERLINE_DATA']}" in made
    assert image["EXPOSE"][0] in told["GUNICORN_CMD_ARGS"]
    assert told["LEDGERLINE_PROFILE"] == "server"


def test_an_image_starts_with_commands_and_files_that_are_there() -> None:
    image = steps()
    started = json.loads(image["CMD"][0])[2]
    copied = {name for line in image["COPY"] if not line.startswith("--from") for name in line.split()[:-1]}
    needed = re.findall(r"--config (\S+)", started)

    assert {Path(name).parts[0] for name in needed} <= copied
    assert [name for name in needed if not (ROOT / name).exists()] == []
    assert set(re.findall(r"manage\.py (\w+)", started)) <= set(get_commands())
    compiled = re.findall(r"compileall -q (.+)$", "\n".join(image["RUN"]), re.MULTILINE)[0].split()
    assert set(compiled) <= copied


@pytest.mark.parametrize("unit", sorted(DEPLOY.glob("ledgerline*.service")), ids=lambda unit: unit.name)
def test_units_and_the_command_for_them_name_the_same_places(unit: Path) -> None:
    told, manage = unit.read_text(), (DEPLOY / "manage").read_text()
    (data,) = re.findall(r"LEDGERLINE_DATA=(\S+)", told)
    (state,) = re.findall(r"^StateDirectory=(\S+)", told, re.MULTILINE)

    assert f"LEDGERLINE_DATA={data}\n" in manage
    assert f"/var/lib/{state}" == data
    assert re.findall(r"^EnvironmentFile=(\S+)", told, re.MULTILINE) == re.findall(r":-(\S+?)}", manage)
    programs = re.findall(r"^ExecStart(?:Pre)?=/srv/ledgerline/\.venv/bin/(\w+) (.*)$", told, re.MULTILINE)
    assert programs
    for program, rest in programs:
        if program == "python":
            assert rest.split()[1] in get_commands()
        else:
            assert (ROOT / rest.split()[1]).exists()


@pytest.mark.parametrize(("told", "workers"), [("5", 5), ("", 3), (None, 3)])
def test_there_are_as_many_processes_as_cores_unless_it_is_said_how_many(
    monkeypatch: pytest.MonkeyPatch, told: str | None, workers: int
) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _process: {0, 1, 2}, raising=False)
    monkeypatch.delenv("WEB_CONCURRENCY", raising=False)
    if told is not None:
        monkeypatch.setenv("WEB_CONCURRENCY", told)

    assert runpy.run_path(str(DEPLOY / "gunicorn.conf.py"))["workers"] == workers


class House:
    """Two processes behind one socket."""

    def __init__(self, folder: Path) -> None:
        self.socket, self.log = folder / "s", folder / "log"
        self.environment = {
            **os.environ,
            "LEDGERLINE_PROFILE": "server",
            "LEDGERLINE_DATA": str(folder / "data"),
            "LEDGERLINE_HOSTS": HOST["Host"],
            "LEDGERLINE_SITE_URL": f"https://{HOST['Host']}",
            "LEDGERLINE_PROXIES": "1",
            "LEDGERLINE_METRICS_TOKEN": TOKEN,
            "PROMETHEUS_MULTIPROC_DIR": str(folder / "measures"),
            "WEB_CONCURRENCY": "2",
            "GUNICORN_CMD_ARGS": f"--bind unix:{self.socket}",
        }

        self.settings = folder / "ledgerline.env"
        told = {"LEDGERLINE_DATA", "LEDGERLINE_HOSTS", "LEDGERLINE_SITE_URL", "LEDGERLINE_PROXIES", "DATABASE_URL"}
        lines = (f"{name}='{self.environment[name]}'\n" for name in told & self.environment.keys())
        self.settings.write_text("".join(lines))

    def run(self, *arguments: str) -> str:
        """Run a command as one does in a house, which has its settings in a file."""
        path = f"{Path(sys.executable).parent}:{os.environ['PATH']}"
        environment = {"PATH": path, "HOUSE_SETTINGS": str(self.settings), "LEDGERLINE_NO_BOOTSTRAP": "1"}
        command = [str(DEPLOY / "manage"), *arguments]
        return subprocess.run(command, cwd="/", env=environment, check=True, capture_output=True, text=True).stdout

    def start(self) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", "gunicorn", "--config", str(DEPLOY / "gunicorn.conf.py")]
        with open(self.log, "wb") as log:
            return subprocess.Popen(command, cwd=ROOT, env=self.environment, stderr=log, stdout=log)

    def ask(self, path: str, headers: dict[str, str] = HOST) -> tuple[int, str]:
        connection = http.client.HTTPConnection("house.example")
        with socket.socket(socket.AF_UNIX) as connection.sock:
            connection.sock.connect(str(self.socket))
            connection.request("GET", path, headers=headers)
            with connection.getresponse() as response:
                return response.status, response.read().decode()

    def is_ready(self) -> bool:
        try:
            return self.ask("/health/ready/")[0] == 200
        except OSError:
            return False


@pytest.fixture
def house() -> Iterator[House]:
    with tempfile.TemporaryDirectory(prefix="house-") as folder:  # a socket's path may have 107 bytes
        house = House(Path(folder))
        house.run("upgrade")
        house.run("collectstatic", "--noinput", "--verbosity", "0")
        served = house.start()
        try:
            for _time in range(1200):
                if house.is_ready() or served.poll() is not None:
                    break
                time.sleep(0.1)
            yield house
        finally:
            served.send_signal(signal.SIGTERM)
            served.wait(60)


@pytest.mark.slow
def test_two_processes_serve_as_one_and_tell_nothing_of_anybody(house: House) -> None:
    without_tls = {"Host": "house.example"}
    for number in range(20):
        house.ask(f"/health/live/?canary={number}")
    made = house.run("start", "--address-only").strip()
    founding = house.ask(made.removeprefix("https://house.example"))
    signing_in, led_on = house.ask("/sign-in/?canary=1"), house.ask("/sign-in/", without_tls)
    told = [house.ask("/metrics/", {**HOST, "Authorization": f"Bearer {TOKEN}"})[1] for _time in range(4)]

    count = 'ledgerline_requests_total{method="GET",route="alive",status="200"} 20.0'
    assert (made.startswith("https://house.example/start/"), founding[0]) == (True, 200)
    assert (signing_in[0], led_on[0], house.ask("/metrics/")[0]) == (200, 301, 404)
    assert [count in one for one in told] == [True] * 4
    lines = [json.loads(line) for line in house.log.read_text().splitlines()]
    assert [line["status"] for line in lines if line.get("route") == "alive"] == [200] * 20
    assert "canary" not in house.log.read_text()
