"""The first run on a machine that has only Python: each of its steps, and what it says when one fails."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

import manage


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for lock in ("requirements.lock", "requirements-dev.lock"):
        (tmp_path / lock).write_text(f"# {lock}\nsomething==1\n")
    monkeypatch.setattr(manage, "ROOT", tmp_path)
    monkeypatch.setattr(manage, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(manage, "PYTHON", tmp_path / ".venv" / "bin" / "python")
    monkeypatch.setattr(manage, "INSTALL_LOG", tmp_path / ".venv" / "install.log")
    for name in (
        "LEDGERLINE_IN_VENV",
        "LEDGERLINE_NO_BOOTSTRAP",
        "LEDGERLINE_DATA",
        "LEDGERLINE_PROFILE",
        "DATABASE_URL",
    ):
        monkeypatch.delenv(name, raising=False)
    return tmp_path


def make_ready(house: Path, lock: str) -> None:
    (house / ".venv" / "bin").mkdir(parents=True)
    (house / ".venv" / "bin" / "python").touch()
    (house / ".venv" / ".lock-sha256").write_text(manage.fingerprint(house / lock))


def test_environment_is_ready_only_while_the_lock_file_is_the_one_installed(house: Path) -> None:
    make_ready(house, "requirements.lock")

    assert manage.is_ready(house / "requirements.lock")
    (house / "requirements.lock").write_text("something==2\n")
    assert not manage.is_ready(house / "requirements.lock")


def test_tests_ask_for_their_own_lock_file_and_keep_it(house: Path) -> None:
    assert manage.lock_file("demo").name == "requirements.lock"
    assert manage.lock_file("test").name == "requirements-dev.lock"

    (house / ".venv").mkdir()
    (house / ".venv" / ".with-tests").touch()

    assert manage.lock_file("demo").name == "requirements-dev.lock"


def test_no_environment_is_made_where_the_packages_are_provided(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LEDGERLINE_NO_BOOTSTRAP", "1")

    assert not manage.needs_environment("demo")


def test_missing_venv_module_is_one_line_with_its_mend_and_leaves_no_half_folder(
    house: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def exit_half_way(self: object, folder: Path) -> None:
        Path(folder).mkdir()
        raise SystemExit(1)

    monkeypatch.setattr("venv.EnvBuilder.create", exit_half_way)

    with pytest.raises(SystemExit, match="apt install python3-venv"):
        manage.make_environment()
    assert not (house / ".venv").exists()


def test_failed_installation_says_to_run_it_again_and_is_not_taken_for_done(
    house: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(manage, "PYTHON", Path(sys.executable))
    (house / ".venv").mkdir()
    (house / "requirements.lock").write_text("not a requirement ==\n")

    with pytest.raises(SystemExit, match="Run the same command again"):
        manage.install(house / "requirements.lock")
    assert not manage.is_ready(house / "requirements.lock")
    assert "not a requirement" in (house / ".venv" / "install.log").read_text()


def test_folder_that_cannot_be_written_is_one_line_with_its_mend(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(command: str) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(manage, "needs_environment", lambda command: True)
    monkeypatch.setattr(manage, "prepare", refuse)

    with pytest.raises(SystemExit, match=r"cannot be written \(Permission denied\): clone into one that can be"):
        manage.main()


def test_demo_has_a_data_folder_of_its_own(house: Path) -> None:
    manage.choose_data_folder("demo")

    assert manage.os.environ.pop("LEDGERLINE_DATA") == str(house / "demo-data")


def test_reading_commands_fall_back_on_the_demo_and_say_so(house: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (house / "demo-data").mkdir()
    (house / "demo-data" / "catalogue.sqlite3").touch()

    manage.choose_data_folder("document")

    assert manage.os.environ.pop("LEDGERLINE_DATA") == str(house / "demo-data")
    assert "demo catalogue" in capsys.readouterr().err


def test_writing_commands_never_fall_back_on_the_demo(house: Path) -> None:
    (house / "demo-data").mkdir()
    (house / "demo-data" / "catalogue.sqlite3").touch()

    manage.choose_data_folder("import")

    assert "LEDGERLINE_DATA" not in manage.os.environ


def test_old_python_is_told_which_one_is_needed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 9, 0))

    with pytest.raises(SystemExit, match=r"Python 3\.11 or newer is needed; this is 3\.9"):
        manage.main()


def test_manage_needs_nothing_but_the_standard_library_to_load() -> None:
    probe = "import manage, sys; print(sorted({'django', 'reportlab'} & set(sys.modules)))"

    shown = subprocess.run([sys.executable, "-S", "-c", probe], capture_output=True, text=True, check=True)

    assert shown.stdout == "[]\n"


@pytest.mark.parametrize(
    ("name", "value", "lock"),
    [
        ("LEDGERLINE_PROFILE", "server", "requirements-server.lock"),
        ("LEDGERLINE_PROFILE", "laptop", "requirements.lock"),
        ("DATABASE_URL", "postgres://house@db.example/ledgerline", "requirements-server.lock"),
        ("DATABASE_URL", "sqlite:////folder/catalogue.sqlite3", "requirements.lock"),
    ],
)
def test_a_house_gets_the_packages_of_a_server(
    house: Path, monkeypatch: pytest.MonkeyPatch, name: str, value: str, lock: str
) -> None:
    monkeypatch.setenv(name, value)

    assert manage.lock_file("start") == house / lock


def answered(tmp_path: Path, *, stdout: int = subprocess.PIPE, **more: str) -> subprocess.CompletedProcess[bytes]:
    settings = {**os.environ, "LEDGERLINE_NO_BOOTSTRAP": "1", "LEDGERLINE_DATA": str(tmp_path), **more}
    command = [sys.executable, str(Path(manage.__file__)), "instrumentation", "--from", "-", "--json"]
    texts = '"Flöte, Klavier"\n'.encode()
    return subprocess.run(command, env=settings, input=texts, stdout=stdout, stderr=subprocess.PIPE, check=False)


def test_what_goes_to_another_program_is_utf_8_on_every_machine(tmp_path: Path) -> None:
    """JSON between programs is UTF-8 (RFC 8259, section 8.1), also where the machine's own letters are others."""
    answer = answered(tmp_path, PYTHONIOENCODING="ascii").stdout

    assert json.loads(answer.decode("utf-8"))["text"] == "Flöte, Klavier"


def test_a_reader_that_goes_away_is_no_fault(tmp_path: Path) -> None:
    read_end, write_end = os.pipe()
    os.close(read_end)

    done = answered(tmp_path, stdout=write_end)

    os.close(write_end)
    assert (done.returncode, done.stderr) == (128 + signal.SIGPIPE, b"")


def test_a_command_that_is_stopped_says_so_in_a_word(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What takes long can be stopped without harm, and then shows no inside of the program."""

    def stop() -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(manage, "main", stop)

    assert manage.run() == 128 + signal.SIGINT
    assert capsys.readouterr().err == "Stopped.\n"


TOLD = """
import atexit, gc, tempfile
print(gc.isenabled(), gc.get_freeze_count() > 10_000)
atexit.register(lambda: print("at the end", gc.isenabled()))
here = tempfile.TemporaryDirectory()
print(here.name)
"""


def test_a_command_runs_with_the_collector_on_and_ends_as_any_program_does(tmp_path: Path) -> None:
    """What is loaded is left alone; what a command puts off to its end is done, and its folders are taken away."""
    settings = {**os.environ, "LEDGERLINE_NO_BOOTSTRAP": "1", "LEDGERLINE_DATA": str(tmp_path)}
    command = [sys.executable, str(Path(manage.__file__)), "shell", "--no-imports", "--command", TOLD]

    done = subprocess.run(command, env=settings, capture_output=True, text=True, check=True)

    on, folder, end = done.stdout.splitlines()
    assert (on, end) == ("True True", "at the end True")
    assert not Path(folder).exists()
