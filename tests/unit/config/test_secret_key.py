from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from django.core.exceptions import ImproperlyConfigured

from config.secret_key import read_or_make_secret_key


def test_secret_key_is_made_once_and_read_again(tmp_path: Path) -> None:
    first = read_or_make_secret_key(tmp_path / "new")

    assert len(first) >= 64
    assert read_or_make_secret_key(tmp_path / "new") == first


def test_secret_key_can_be_read_by_its_owner_only(tmp_path: Path) -> None:
    read_or_make_secret_key(tmp_path)

    assert (tmp_path / "secret.key").stat().st_mode & 0o777 == 0o600


def test_eight_starts_at_once_agree_on_one_key(tmp_path: Path) -> None:
    with ThreadPoolExecutor(8) as pool:
        keys = set(pool.map(lambda _: read_or_make_secret_key(tmp_path), range(8)))

    assert len(keys) == 1
    assert os.listdir(tmp_path) == ["secret.key"]


def test_secret_key_that_others_can_read_stops_the_start(tmp_path: Path) -> None:
    read_or_make_secret_key(tmp_path)
    (tmp_path / "secret.key").chmod(0o644)

    with pytest.raises(ImproperlyConfigured, match="chmod 600"):
        read_or_make_secret_key(tmp_path)


def test_empty_secret_key_stops_the_start(tmp_path: Path) -> None:
    (tmp_path / "secret.key").touch(mode=0o600)

    with pytest.raises(ImproperlyConfigured, match="is empty"):
        read_or_make_secret_key(tmp_path)


def test_folder_that_cannot_be_made_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").touch()

    with pytest.raises(ImproperlyConfigured, match="LEDGERLINE_DATA"):
        read_or_make_secret_key(tmp_path / "file" / "data")
