#!/usr/bin/env python3
"""Runs every command of Ledgerline; on a machine that has only Python it first makes its own environment.

The pinned packages go into ``.venv`` beside this file, once for each state of the lock file.
Set ``LEDGERLINE_NO_BOOTSTRAP=1`` where packages are provided in another way.
"""

import atexit
import gc
import hashlib
import io
import os
import pathlib
import shutil
import signal
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
INSTALL_LOG = VENV / "install.log"
OLDEST = (3, 11)
READING = {
    "document", "calendar", "premieres", "screen", "check_catalogue", "export", "check_pack", "backup",
    "electronics_package",
}  # fmt: skip
PIP_SETTINGS_OF_OTHERS = {"PIP_USER", "PIP_TARGET", "PIP_PREFIX", "PYTHONHOME", "PYTHONPATH"}


def say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)


def lock_file(command: str) -> pathlib.Path:
    """Tests need more packages than the rest; once they are there, they stay. A house needs those of a server."""
    if command == "test" or (VENV / ".with-tests").exists():
        return ROOT / "requirements-dev.lock"
    address = os.environ.get("DATABASE_URL", "")
    of_house = os.environ.get("LEDGERLINE_PROFILE") == "server" or address.startswith("postgres")
    return ROOT / ("requirements-server.lock" if of_house else "requirements.lock")


def fingerprint(lock: pathlib.Path) -> str:
    return hashlib.sha256(lock.read_bytes()).hexdigest()


def is_ready(lock: pathlib.Path) -> bool:
    stamp = VENV / ".lock-sha256"
    return PYTHON.exists() and stamp.exists() and stamp.read_text() == fingerprint(lock)


def make_environment() -> None:
    say("Setting up, once: making .venv …")
    shutil.rmtree(VENV, ignore_errors=True)
    try:
        import venv

        venv.EnvBuilder(with_pip=True, symlinks=sys.platform != "win32").create(VENV)
    except (ImportError, SystemExit, subprocess.CalledProcessError):
        # Debian without its venv package prints advice and exits half-way, leaving a broken folder.
        shutil.rmtree(VENV, ignore_errors=True)
        sys.exit("This Python cannot make virtual environments. On Debian or Ubuntu: apt install python3-venv")


def install(lock: pathlib.Path) -> None:
    names = [line.split("==")[0] for line in lock.read_text().splitlines() if "==" in line and not line.startswith(" ")]
    say(f"Setting up, once: installing {len(names)} pinned packages (about 20 seconds) …")
    command = [str(PYTHON), "-m", "pip", "install", "--disable-pip-version-check", "--no-compile", "--require-hashes"]
    command += ["--only-binary", ":all:", "--progress-bar", "off", "-r", str(lock)]
    settings = {name: value for name, value in os.environ.items() if name not in PIP_SETTINGS_OF_OTHERS}
    with (
        open(INSTALL_LOG, "w") as log,
        subprocess.Popen(
            command, env=settings, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, universal_newlines=True
        ) as pip,
    ):
        for line in pip.stdout or ():
            log.write(line)
            if line.startswith("Collecting"):
                say(f"  {line.split()[1].split('==')[0]}")
    if pip.returncode:
        sys.exit(
            f"The packages could not be installed (the reason is in {INSTALL_LOG.relative_to(ROOT)}). "
            "Is there a network? Run the same command again."
        )
    (VENV / ".lock-sha256").write_text(fingerprint(lock))
    if lock.name == "requirements-dev.lock":
        (VENV / ".with-tests").touch()


def prepare(command: str) -> None:
    """Make or mend ``.venv``; two first runs at once wait for each other."""
    with open(ROOT / ".venv.lock", "w") as gate:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(gate.fileno(), msvcrt.LK_LOCK, 1)
        else:
            import fcntl

            fcntl.flock(gate, fcntl.LOCK_EX)
        lock = lock_file(command)
        if not PYTHON.exists():
            make_environment()
        if not is_ready(lock):
            install(lock)


def run_inside() -> None:
    arguments = [str(PYTHON), str(ROOT / "manage.py"), *sys.argv[1:]]
    settings = {**os.environ, "LEDGERLINE_IN_VENV": "1"}
    if sys.platform == "win32":  # replacing the process loses the console there
        sys.exit(subprocess.run(arguments, env=settings, check=False).returncode)
    os.execve(arguments[0], arguments, settings)


def needs_environment(command: str) -> bool:
    if os.environ.get("LEDGERLINE_IN_VENV") or os.environ.get("LEDGERLINE_NO_BOOTSTRAP"):
        return False
    inside = pathlib.Path(sys.prefix).resolve() == VENV.resolve()
    if inside:
        return not is_ready(lock_file(command))
    try:
        import django  # noqa: F401 - only to see whether it is there
    except ImportError:
        return True
    return False


def choose_data_folder(command: str) -> None:
    """The demo has a database of its own, which commands that only read fall back on while there is no other."""
    demo, own = ROOT / "demo-data", ROOT / "data" / "catalogue.sqlite3"
    if "LEDGERLINE_DATA" in os.environ or "DATABASE_URL" in os.environ:
        return
    if command == "demo":
        os.environ["LEDGERLINE_DATA"] = str(demo)
    elif command in READING and not own.exists() and (demo / "catalogue.sqlite3").exists():
        os.environ["LEDGERLINE_DATA"] = str(demo)
        say("Reading the demo catalogue, since there is none of your own yet.")


def main() -> None:
    if sys.version_info < OLDEST:
        sys.exit("Python 3.11 or newer is needed; this is {}.{}.".format(*sys.version_info[:2]))
    command = sys.argv[1] if len(sys.argv) > 1 else ""
    if needs_environment(command):
        try:
            prepare(command)
        except OSError as fault:
            sys.exit(f"This folder cannot be written ({fault.strerror}): clone into one that can be.")
        run_inside()
    choose_data_folder(command)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    speak_utf_8()
    leave_what_is_loaded_alone()
    from django.core.exceptions import ImproperlyConfigured
    from django.core.management import execute_from_command_line

    try:
        execute_from_command_line(sys.argv)
    except ImproperlyConfigured as fault:
        sys.exit(str(fault))


def leave_what_is_loaded_alone() -> None:
    """Spare the collector of cycles what is loaded at start and stays to the end; that takes a third off a start.

    It pauses until the application is there (``catalogue/apps.py`` lets it go on), and at the very end, after whatever
    else is to be done then, looks through nothing: the system frees all of it at once.
    """
    gc.disable()
    atexit.register(gc.freeze)


def speak_utf_8() -> None:
    """Write UTF-8 to files and other programs (RFC 8259 wants it of JSON), whatever the machine has else.

    Ends of lines stay as they are written (RFC 5545 wants both signs in a calendar, once). A terminal keeps its own
    letters, with a mark for those that it has not.
    """
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        if not isinstance(stream, io.TextIOWrapper):
            continue
        if stream.isatty():
            stream.reconfigure(errors="replace")
        elif stream is sys.stdin:
            stream.reconfigure(encoding="utf-8")
        else:
            stream.reconfigure(encoding="utf-8", newline="\n")


def stopped_by(fault: KeyboardInterrupt | BrokenPipeError) -> int:
    """Return the exit code of a command that was stopped, or whose reader went away, as a shell counts signals."""
    if isinstance(fault, KeyboardInterrupt):
        say("Stopped.")
        return 128 + signal.SIGINT
    # What is still to be written has nowhere to go; without this, Python would try once more at its end and complain.
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 141


def run() -> int:
    """Run the command; the exit code where it was stopped from outside, else 0 (a command exits with its own)."""
    try:
        main()
    except (KeyboardInterrupt, BrokenPipeError) as fault:
        return stopped_by(fault)
    return 0


if __name__ == "__main__":
    sys.exit(run())
