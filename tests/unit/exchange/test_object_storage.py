"""What every storage of uploaded files does the same, a folder as well as an object storage that speaks S3."""

from __future__ import annotations

import importlib.util
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from secrets import token_hex
from typing import Any

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import Storage, default_storage
from django.test import Client, RequestFactory

from catalogue.exchange.backups.uploads import is_there, pieces_of_upload, put_upload, uploaded
from catalogue.exchange.kept_content import kept
from catalogue.exchange.stored_files import keep_upload, pieces_from
from catalogue.gathering.checks import damaged_files
from catalogue.web.byte_ranges import sent_file_response

CONTENT = bytes(range(256)) * 40
DIGEST = sha256(CONTENT).hexdigest()
NAME = f"{DIGEST[:2]}/{DIGEST}.wav"
NO_SERVER = importlib.util.find_spec("moto") is None
IN_OBJECTS = [pytest.mark.slow, pytest.mark.skipif(NO_SERVER, reason="needs moto, of the full lane")]


@pytest.fixture(params=["folder", pytest.param("objects", marks=IN_OBJECTS)])
def storage(request: pytest.FixtureRequest, settings: Any, tmp_path: Path) -> Iterator[Storage]:
    """An empty storage of each kind, which is the site's for a while."""
    if request.param == "folder":
        settings.FILES = settings.MEDIA_ROOT = tmp_path
        backend: dict[str, Any] = {"BACKEND": "catalogue.exchange.whole_files.WholeFiles"}
        settings.STORAGES = {**settings.STORAGES, "default": backend}
        yield default_storage
        return
    yield from objects(settings)


def objects(settings: Any) -> Iterator[Storage]:
    """Serve a bucket on this machine while the test lasts."""
    server = importlib.import_module("moto.server").ThreadedMotoServer(ip_address="127.0.0.1", port=0)
    server.start()
    (host, port), bucket = server.get_host_and_port(), f"house-{token_hex(4)}"
    options = {
        "bucket_name": bucket,
        "endpoint_url": f"http://{host}:{port}",
        "access_key": "made-up",
        "secret_key": "made-up",
        "region_name": "us-east-1",
        "addressing_style": "path",
        "default_acl": None,
        "file_overwrite": False,
    }
    backend = {"BACKEND": "catalogue.exchange.object_storage.ObjectStorage", "OPTIONS": options}
    settings.STORAGES, settings.FILES_BUCKET = {**settings.STORAGES, "default": backend}, bucket
    default_storage.connection.create_bucket(Bucket=bucket)
    try:
        yield default_storage
    finally:
        server.stop()


def test_a_file_is_kept_once_under_its_content_and_sent_whole_or_in_part(storage: Storage) -> None:
    assert [keep_upload(ContentFile(CONTENT), "wav", storage) for _time in range(2)] == [DIGEST] * 2
    assert uploaded() == [NAME]
    assert b"".join(pieces_from(storage, NAME, 100, 1000, at_once=300)) == CONTENT[100:1100]
    assert (kept(storage, NAME).size, b"".join(kept(storage, NAME).parts())) == (len(CONTENT), CONTENT)

    request = RequestFactory().get("/", headers={"range": "bytes=10-19"})
    response = sent_file_response(
        request, storage=storage, stored=NAME, etag=DIGEST, media_type="audio/wav", name="take.wav"
    )
    assert (response.status_code, b"".join(response)) == (206, CONTENT[10:20])
    assert response.headers["Content-Range"] == f"bytes 10-19/{len(CONTENT)}"


def test_a_file_goes_into_a_backup_and_comes_back(storage: Storage) -> None:
    put_upload(NAME, iter([CONTENT[:5000], CONTENT[5000:]]))

    assert (is_there(NAME), is_there(NAME.replace("wav", "mid"))) == (True, False)
    assert b"".join(pieces_of_upload(NAME)) == CONTENT
    assert list(damaged_files()) == []
    put_upload(f"ab/{DIGEST}.wav", iter([b"something else"]))
    assert [finding.title for finding in damaged_files()] == [f"ab/{DIGEST}.wav"]


@pytest.mark.django_db
@pytest.mark.usefixtures("with_migrations")
def test_a_house_is_ready_where_its_storage_takes_files(storage: Storage, client: Client) -> None:
    assert (client.get("/health/ready/").status_code, uploaded()) == (200, [])
