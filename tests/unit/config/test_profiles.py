"""What the settings say for a server, read by a program of its own."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings as site

NAMES = (
    "SESSION_COOKIE_SECURE", "CSRF_COOKIE_SECURE", "SESSION_COOKIE_NAME", "CSRF_COOKIE_NAME", "SESSION_COOKIE_HTTPONLY",
    "SESSION_COOKIE_SAMESITE", "SECURE_SSL_REDIRECT", "SECURE_HSTS_SECONDS", "SECURE_HSTS_INCLUDE_SUBDOMAINS", "DEBUG",
    "SESSION_COOKIE_AGE",
)  # fmt: skip


def told_by(profile: str, data: Path, *names: str) -> list[object]:
    """Return what a program of its own that starts under a profile reads in its settings."""
    order = f"import json; from config import settings as s; print(json.dumps([getattr(s, n) for n in {names!r}]))"
    told = {"LEDGERLINE_PROFILE": profile, "LEDGERLINE_DATA": str(data)}
    if profile == "server":
        told["LEDGERLINE_HOSTS"] = "catalogue.example"
    kept = {name: value for name, value in os.environ.items() if not name.startswith("LEDGERLINE_")}
    done = subprocess.run(
        [sys.executable, "-c", order], cwd=site.ROOT, env=kept | told, capture_output=True, text=True, check=True
    )
    found: list[object] = json.loads(done.stdout)
    return found


def test_a_server_sends_cookies_over_tls_alone_and_asks_browsers_to_stay_there(tmp_path: Path) -> None:
    names = ["__Host-session", "__Host-csrf"]
    expected = [True, True, *names, True, "Lax", True, 31_536_000, True, False, 12 * 3600]
    assert told_by("server", tmp_path, *NAMES) == expected


@pytest.mark.parametrize(
    ("profile", "hosts"), [("server", ["catalogue.example"]), ("laptop", ["127.0.0.1", "localhost"])]
)
def test_hosts_are_those_that_are_named_and_no_administration_is_there(
    tmp_path: Path, profile: str, hosts: list[str]
) -> None:
    allowed, apps = told_by(profile, tmp_path, "ALLOWED_HOSTS", "INSTALLED_APPS")

    assert allowed == hosts
    assert "django.contrib.admin" not in apps
