"""The key that signs sessions: made on first start, kept in the data folder, readable by its owner only."""

from __future__ import annotations

import os
import secrets
from pathlib import Path

from django.core.exceptions import ImproperlyConfigured


def read_or_make_secret_key(folder: Path) -> str:
    """Return the key in ``folder``, making folder and key where there is none.

    Several first starts at once agree on one key: it is written beside its place and linked there, and whoever
    comes second reads the first one's. Raises ``ImproperlyConfigured`` where the file is empty, readable by
    others, or the folder cannot be written.
    """
    path = folder / "secret.key"
    try:
        if not path.exists():
            folder.mkdir(parents=True, exist_ok=True)
            _place(path, secrets.token_urlsafe(48))
        return _read(path)
    except OSError as fault:
        raise ImproperlyConfigured(
            f"The data folder {folder} cannot be written ({fault.strerror}); name another with LEDGERLINE_DATA."
        ) from fault


def _place(path: Path, key: str) -> None:
    draft = path.with_name(f"{path.name}.{os.getpid()}.{secrets.token_hex(4)}")
    handle = os.open(draft, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
    with os.fdopen(handle, "w") as file:
        file.write(key)
    try:
        os.link(draft, path)
    except FileExistsError:
        pass  # another start was first; its key is the one
    finally:
        draft.unlink()


def _read(path: Path) -> str:
    key = path.read_text().strip()
    if not key:
        raise ImproperlyConfigured(f"{path} is empty; delete it and a new key is made (everybody signs in again).")
    if os.name == "posix" and path.stat().st_mode & 0o077:
        raise ImproperlyConfigured(f"{path} can be read by others; run: chmod 600 {path}")
    return key
