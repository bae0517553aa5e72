"""Files that left the house, kept under the SHA-256 of their content as they were sent."""

from __future__ import annotations

from hashlib import sha256

from django.core.files.base import ContentFile
from django.core.files.storage import Storage

from catalogue.exchange.pictures import stored_name


def keep_sent(content: bytes, suffix: str, storage: Storage) -> str:
    """Store a file under its content, once; return its SHA-256."""
    digest = sha256(content).hexdigest()
    name = stored_name(digest, suffix)
    if not storage.exists(name):
        storage.save(name, ContentFile(content))
    return digest


def sent_file(digest: str, suffix: str, storage: Storage) -> bytes | None:
    """Return a file as it was sent, None where it is gone or has been changed since."""
    name = stored_name(digest, suffix)
    if not digest or not storage.exists(name):
        return None
    with storage.open(name) as file:
        content: bytes = file.read()
    return content if sha256(content).hexdigest() == digest else None
