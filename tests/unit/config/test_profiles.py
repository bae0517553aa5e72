"""What the settings say for a server, read by a program of its own."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

from django.conf import settings as site

NAMES = (
    "SESSION_COOKIE_SECURE", "CSRF_COOKIE_SECURE", "SESSION_COOKIE_NAME", "CSRF_COOKIE_NAME", "SESSION_COOKIE_HTTPONLY",
    "SESSION_COOKIE_SAMESITE", "SECURE_SSL_REDIRECT", "SECURE_HSTS_SECONDS", "SECURE_HSTS_INCLUDE_SUBDOMAINS", "DEBUG",
    "SESSION_COOKIE_AGE",
)  # fmt: skip


def test_a_server_sends_cookies_over_tls_alone_and_asks_browsers_to_stay_there(tmp_path: Path) -> None:
    order = f"import json; from config import settings as s; print(json.dumps([getattr(s, n) for n in {NAMES!r}]))"
    told = {"LEDGERLINE_PROFILE": "server", "LEDGERLINE_HOSTS": "catalogue.example", "LEDGERLINE_DATA": str(tmp_path)}
    kept = {name: value for name, value in os.environ.items() if not name.startswith("LEDGERLINE_")}

    done = subprocess.run(
        [sys.executable, "-c", order], cwd=site.ROOT, env=kept | told, capture_output=True, text=True, check=True
    )

    names = ["__Host-session", "__Host-csrf"]
    expected = [True, True, *names, True, "Lax", True, 31_536_000, True, False, 12 * 3600]
    assert json.loads(done.stdout) == expected
