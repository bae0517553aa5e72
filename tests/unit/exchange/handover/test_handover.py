"""A catalogue handed over and taken over: whole, nobody else's, and refused where a byte was changed."""

from __future__ import annotations

import json
import zipfile
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.core.files.storage import InMemoryStorage, Storage
from django.db import connection, transaction

from catalogue.actions.houses import save_house
from catalogue.actions.riders import Package, Said, send_rider, take_answers
from catalogue.exchange.backups.archive import BackupError, packing
from catalogue.exchange.backups.archive import opened as opened_backup
from catalogue.exchange.backups.lines import told_value
from catalogue.exchange.handover.archive import MANIFEST, HandOverError, opened
from catalogue.exchange.handover.arriving import look_into, take_over
from catalogue.exchange.handover.leaving import hand_over
from catalogue.exchange.handover.tables import STAYS, carried, columns_of, of_composers, records_of, references_of
from catalogue.exchange.sent_files import keep_sent
from catalogue.models import (
    Composer,
    House,
    Membership,
    Performance,
    Picture,
    Rider,
    RiderSending,
    StoredFile,
    Work,
)
from catalogue.terms import Answer, PictureKind, Role
from tests.makers import make_composer, make_user, make_work
from tests.record_makers import make_one_of_each
from tests.web.test_private_texts_stay_private import Words
from tests.whole_catalogue import fill_texts, make_whole_catalogue

NOW = datetime(2026, 3, 9, 10, 0, tzinfo=UTC)
SCORE = b"%PDF-1.7 a score"
OF_USERS = {"AskedMail", "EntryKey", "RecoveryCode", "SecondFactor"}
KEPT = Path(__file__).resolve().parents[3] / "backups" / "handed_over"
EMPTY = {"HireItem", "HiredPerformance", "Reference"}
"""Of which the whole catalogue of the tests has no record."""

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def storage() -> Storage:
    return InMemoryStorage()


@pytest.fixture
def composer(storage: Storage) -> Composer:
    """A catalogue with one record of every kind, a version that names its first, and a file."""
    composer = make_composer("Ilka Marovand", owner=make_user("rana"))
    work = make_whole_catalogue(composer)
    make_work("Rope Tables, revised", composer=composer, version_of=work, version_kind="revision")
    package = Package([{"key": "0" * 16}], {}, {"pdf": keep_sent(b"%PDF-1.7 a rider", "pdf", storage)}, "en-GB")
    sending, _token = send_rider(rider=Rider.objects.get(composer=composer), to="A hall", package=package, now=NOW)
    take_answers(sending=sending, answers={"0" * 16: Said(Answer.YES)}, by="Kit", message="", now=NOW)
    StoredFile.objects.filter(composer=composer).update(sha256=keep_sent(SCORE, "pdf", storage), suffix="pdf")
    return composer


@pytest.fixture
def file(tmp_path: Path, composer: Composer, storage: Storage) -> Path:
    path = tmp_path / "ilka.zip"
    hand_over(path, composer, to="Second House", now=NOW, storage=storage)
    return path


@pytest.fixture
def newcomer() -> User:
    return make_user("nadia")


def remove_all() -> None:
    """Empty the tables, as those of another house are."""
    with connection.constraint_checks_disabled(), transaction.atomic():  # on PostgreSQL keys are looked at in the end
        for model in (*reversed(carried()), *STAYS):
            model._base_manager.all()._raw_delete("default")  # type: ignore[attr-defined]


def told_of(composer: Composer) -> dict[str, list[Any]]:
    """Every record of a catalogue in plain values, without its number and those of others."""
    return {
        model.__name__: [
            {name: told_value(column, record) for name, column in plain_columns(model).items()}
            for record in records_of(model, composer.pk, "default")
        ]
        for model in carried()
        if model is not Composer
    }


def plain_columns(model: Any) -> dict[str, Any]:
    names = {column.attname for column in references_of(model)}
    left = {"id", "withdrawn_at"} | names
    return {name: column for name, column in columns_of(model).items() if name not in left}


def test_every_model_goes_along_or_is_said_to_stay() -> None:
    assert set(carried()) | STAYS == of_composers()
    assert not set(carried()) & STAYS
    assert {model.__name__ for model in all_records() - of_composers()} <= {*OF_USERS, "House"}


def all_records() -> set[Any]:
    return {model for model in apps.get_app_config("catalogue").get_models() if not hasattr(model, "history_id")}


def test_catalogue_arrives_elsewhere_as_it_left(
    file: Path, composer: Composer, newcomer: User, storage: Storage
) -> None:
    before = told_of(composer)
    remove_all()
    elsewhere = InMemoryStorage()

    arrived = take_over(file, owner=newcomer, now=NOW, storage=elsewhere)

    assert told_of(arrived) == before
    assert {name for name, rows in before.items() if not rows} == EMPTY
    assert (arrived.name, arrived.slug, arrived.is_public) == ("Ilka Marovand", "ilka-marovand", False)
    assert [one.role for one in Membership.objects.filter(user=newcomer)] == ["owner"]
    revised = Work.objects.get(title="Rope Tables, revised")
    assert revised.version_of == Work.objects.get(title="Rope Tables")
    (name,) = {f"{one.sha256[:2]}/{one.sha256}.pdf" for one in StoredFile.objects.filter(composer=arrived)}
    assert elsewhere.open(name).read() == SCORE
    assert Performance.history.first().history_user == newcomer


@pytest.mark.parametrize("path", sorted(KEPT.glob("*.zip")), ids=lambda path: path.stem)
def test_every_hand_over_that_is_kept_arrives_whole(path: Path, newcomer: User, storage: Storage) -> None:
    expected = look_into(path).manifest.rows

    arrived = take_over(path, owner=newcomer, now=NOW, storage=storage)

    found = {str(model._meta.model_name): records_of(model, arrived.pk, "default").count() for model in carried()}
    assert {name: found[name] for name in expected} == expected
    assert sum(found.values()) == sum(expected.values()) > 40


def test_house_and_members_stay_and_the_composers_own_logo_goes(
    tmp_path: Path, composer: Composer, newcomer: User, storage: Storage
) -> None:
    """Whoever leaves takes what is theirs: no letterhead, no logo of the house, nobody who worked on it there."""
    own, theirs = keep_sent(b"own logo", "png", storage), keep_sent(b"logo of the house", "png", storage)
    picture = Picture(
        composer=composer,
        kind=PictureKind.LOGO,
        sha256=own,
        suffix="png",
        alternative="A rope",
        width=1,
        height=1,
        byte_count=8,
    )
    picture.save()
    Membership.objects.create(user=make_user("edwyn"), composer=composer, role=Role.EDITOR)
    other = make_composer("Pell Tarrowick", owner=make_user("tobiah"))
    house = House(name="Two Quays Music", registration="no. 000417", logo_sha256=theirs, logo_suffix="png")
    save_house(house=house, composers=[composer, other], now=NOW)
    path = tmp_path / "ilka.zip"

    hand_over(path, Composer.objects.get(pk=composer.pk), to="Second House", now=NOW, storage=storage)
    told = b"".join(contents(path))
    stayed = set(house.composers.all())
    remove_all()
    House.objects.all().delete()
    elsewhere = InMemoryStorage()
    arrived = take_over(path, owner=newcomer, now=NOW, storage=elsewhere)

    assert [word for word in (b"Two Quays", b"000417", b"edwyn", b"logo of the house") if word in told] == []
    assert stayed == {composer, other}
    assert arrived.house is None
    assert list(Membership.objects.values_list("user__username", "role")) == [("nadia", "owner")]
    assert [elsewhere.exists(f"{one[:2]}/{one}.png") for one in (own, theirs)] == [True, False]
    assert Picture.objects.filter(kind=PictureKind.LOGO, sha256=own).get().composer == arrived


def test_addresses_that_were_sent_open_nothing_elsewhere(
    file: Path, composer: Composer, newcomer: User, storage: Storage
) -> None:
    tokens = set(RiderSending.objects.values_list("token_sha256", flat=True))
    remove_all()

    take_over(file, owner=newcomer, now=NOW, storage=storage)

    arrived = RiderSending.objects.all()
    assert tokens
    assert not tokens & set(arrived.values_list("token_sha256", flat=True))
    assert arrived.filter(withdrawn_at=None).count() == 0


def test_nothing_of_another_composer_is_in_the_file(tmp_path: Path, composer: Composer, storage: Storage) -> None:
    words = Words()
    other = make_composer("Pell Tarrowick", owner=make_user("tobiah"))
    make_one_of_each(make_work("Serenade", composer=other))
    name = composer.name
    fill_texts(words.word_for)
    Composer.objects.filter(pk=composer.pk).update(name=name)
    own = {word for word in everything_in(composer) if word.startswith("qv")}
    theirs = {word for word in everything_in(other) if word.startswith("qv")} - own

    path = tmp_path / "one.zip"
    hand_over(path, composer, to="Second House", now=NOW, storage=storage)

    told = b"".join(contents(path)).decode("utf-8", "replace")
    assert len(own) > 50
    assert [word for word in theirs if word in told] == []
    assert [name for name in ("Pell Tarrowick", "tobiah") if name in told] == []
    assert str(other.pk) not in {str(row.get("composer_id")) for row in rows_told(path)}


def everything_in(composer: Composer) -> set[str]:
    return {
        str(value)
        for rows in told_of(composer).values()
        for row in rows
        for value in row.values()
        if isinstance(value, str)
    }


def contents(path: Path) -> Iterator[bytes]:
    with zipfile.ZipFile(path) as archive:
        for name in archive.namelist():
            yield archive.read(name)


def rows_told(path: Path) -> Iterator[dict[str, Any]]:
    with zipfile.ZipFile(path) as archive:
        for name in archive.namelist():
            if name.startswith("records/"):
                yield from (json.loads(line) for line in archive.read(name).splitlines())


def test_what_is_here_already_is_said_and_refused(
    file: Path, composer: Composer, newcomer: User, storage: Storage
) -> None:
    count = Work.objects.count()

    found = look_into(file)

    assert found.forbids[0].startswith("This catalogue is here already:")
    assert found.remarks[0].startswith("“Ilka Marovand” is the name of a composer here, too")
    with pytest.raises(HandOverError, match="here already"):
        take_over(file, owner=newcomer, now=NOW, storage=storage)
    assert Work.objects.count() == count


def test_file_with_one_byte_changed_is_refused(file: Path, newcomer: User, storage: Storage) -> None:
    content = bytearray(file.read_bytes())
    content[len(content) // 2] ^= 1
    file.write_bytes(content)
    remove_all()

    with pytest.raises(HandOverError, match="changed or damaged"):
        take_over(file, owner=newcomer, now=NOW, storage=storage)
    assert Composer.objects.count() == 0


def resealed(source: Path, target: Path, model: str, change: dict[str, Any]) -> Path:
    """Write the file anew with the first record of a model changed, every checksum and the seal right again."""
    with opened(source) as (archive, manifest), packing(target, NOW) as packer:
        for name in manifest.members:
            content = archive.read(name)
            if name == f"records/{model}.jsonl":
                first, *others = content.splitlines()
                content = b"\n".join([json.dumps({**json.loads(first), **change}).encode(), *others]) + b"\n"
            packer.add(name, iter([content]))
        told = json.loads(manifest.as_bytes())
        told["members"] = {name: {"sha256": one.sha256, "size": one.size} for name, one in packer.members.items()}
        packer.add(MANIFEST, iter([json.dumps(told).encode()]))
    return target


@pytest.mark.parametrize(
    ("model", "change", "reason"),
    [
        ("work", {"composer_id": 999}, "names one that it does not hold"),
        ("work", {"category": "sandwich"}, "contradict each other"),
        ("work", {"title": "x" * 5000}, "cannot be read"),
        ("composer", {"website": "javascript:alert(1)"}, "cannot be read"),
        ("work", {"no_such_column": 1}, "newer version"),
        ("movement", {"work_id": None}, "contradict each other"),
        ("performance", {"uid": "none"}, "no lasting identity"),
        ("storedfile", {"id": "one"}, "has no number"),
    ],
)
def test_file_that_was_written_anew_is_refused_whole(
    file: Path, tmp_path: Path, newcomer: User, model: str, change: dict[str, Any], reason: str
) -> None:
    changed = resealed(file, tmp_path / "changed.zip", model, change)
    remove_all()
    elsewhere = InMemoryStorage()

    with pytest.raises(HandOverError, match=reason):
        take_over(changed, owner=newcomer, now=NOW, storage=elsewhere)

    assert (Composer.objects.count(), Work.objects.count()) == (0, 0)
    assert elsewhere.listdir("")[0] == []


def test_backup_and_hand_over_are_never_taken_for_each_other(file: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.zip"
    with packing(other, NOW) as packer:
        packer.add("manifest.json", iter([b"{}"]))

    with pytest.raises(BackupError, match="no backup"), opened_backup(file):
        pass
    with pytest.raises(HandOverError, match="no catalogue"), opened(other):
        pass
