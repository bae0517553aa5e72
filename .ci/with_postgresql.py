#!/usr/bin/env python3
"""Runs a command with DATABASE_URL naming a PostgreSQL server of its own that is gone afterwards.

The server listens on a socket in a fresh folder only, and skips every flush to disk: it is for tests.
"""

from __future__ import annotations

import contextlib
import os
import pathlib
import pwd
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator

UNSAFE_BUT_QUICK = ("fsync=off", "synchronous_commit=off", "full_page_writes=off", "autovacuum=off")


def server_programs() -> pathlib.Path:
    found = sorted(pathlib.Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[4]))
    if found:
        return found[-1].parent
    named = shutil.which("initdb")
    if named is None:
        sys.exit("No PostgreSQL server is installed (Debian: apt-get install postgresql).")
    return pathlib.Path(named).parent


def unprivileged_user() -> dict[str, object]:
    """PostgreSQL refuses to run as root, so root steps down to a user that is there."""
    if os.geteuid() != 0:
        return {}
    for name in ("postgres", "nobody"):
        with contextlib.suppress(KeyError):
            entry = pwd.getpwnam(name)
            return {"user": entry.pw_uid, "group": entry.pw_gid, "extra_groups": []}
    sys.exit("PostgreSQL does not run as root, and there is neither a user postgres nor nobody.")


def wait_until_ready(programs: pathlib.Path, folder: str, server: subprocess.Popen[bytes]) -> None:
    for _ in range(500):
        if subprocess.run([programs / "pg_isready", "-q", "-h", folder], check=False).returncode == 0:
            return
        if server.poll() is not None:
            break
        time.sleep(0.02)
    sys.exit(pathlib.Path(folder, "log").read_text())


@contextlib.contextmanager
def running_server() -> Iterator[str]:
    """Yield the folder of the server's socket; a socket's path may have 107 bytes, so it is kept short."""
    programs, user = server_programs(), unprivileged_user()
    folder = tempfile.mkdtemp(prefix="pg-")
    if user:
        os.chown(folder, int(str(user["user"])), int(str(user["group"])))
    data = os.path.join(folder, "data")
    make = [programs / "initdb", "-D", data, "-U", "postgres", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8"]
    options = [word for setting in UNSAFE_BUT_QUICK for word in ("-c", setting)]
    start = [programs / "postgres", "-D", data, "-k", folder, "-c", "listen_addresses=", *options]
    with open(os.path.join(folder, "log"), "wb") as log:
        subprocess.run([*make, "--no-sync"], check=True, stdout=log, cwd=folder, **user)
        server = subprocess.Popen(start, stdout=log, stderr=log, cwd=folder, **user)
        try:
            wait_until_ready(programs, folder, server)
            yield folder
        finally:
            server.send_signal(signal.SIGINT)
            server.wait(20)
            shutil.rmtree(folder, ignore_errors=True)


def main() -> int:
    with running_server() as folder:
        address = f"postgres://postgres@/{folder}/postgres"
        return subprocess.run(sys.argv[1:], env={**os.environ, "DATABASE_URL": address}, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
