"""Records as lines: what goes out comes back the same."""

from __future__ import annotations

import json
from decimal import Decimal
from types import SimpleNamespace
from uuid import UUID

import pytest
from django.db import models

from catalogue.exchange.backups.lines import (
    lines_in_pieces,
    lines_of,
    portion,
    record_of,
    store_lines,
    told_columns,
    told_value,
    value_of,
    written,
)  # fmt: skip
from catalogue.models import Call, ImportBatch, Retuning, Work
from catalogue.timing import PartialDate
from tests.makers import NOW, make_composer, make_work


def test_figures_behind_a_point_go_out_exactly_and_come_back() -> None:
    retuning = Retuning(pk=7, work_id=3, uid=UUID(int=5), instrument="cello", cents=Decimal("-31.174"))
    columns = {column.attname: column for column in told_columns(Retuning)}

    line = json.dumps({name: told_value(column, retuning) for name, column in columns.items()}, default=written)
    back = record_of(Retuning, columns, line.encode())

    assert (back.pk, back.instrument, back.cents) == (7, "cello", Decimal("-31.174"))


def test_every_kind_of_value_goes_out_and_comes_back(db: None) -> None:
    composer = make_composer("Ilka Marovand", born=PartialDate(1961, 4))
    work = make_work("Ébb", composer=composer, duration="12'30\"", completed="1998-05")
    call = Call.objects.create(composer=composer, title="A call", terms={"fee": [1, None, "€"]}, closes_at=NOW)
    for record in (composer, work, call):
        (line,) = lines_of(type(record), "default")
        columns = {column.attname: column for column in told_columns(type(record))}
        back = record_of(type(record), columns, line)
        assert {name: getattr(back, name) for name in columns} == {
            name: getattr(type(record).objects.get(), name) for name in columns
        }
    assert "Ébb".encode() in b"".join(lines_of(Work, "default"))


@pytest.mark.parametrize("content", [b"", b"title\nEbb", bytes(range(256)) * 3000])
def test_a_file_goes_out_in_pieces_that_make_the_line_of_any_other_record(db: None, content: bytes) -> None:
    composer = make_composer("Ilka Marovand")
    batch = ImportBatch.objects.create(composer=composer, name="Ebb.csv", content=content, made_at=NOW)
    columns = told_columns(ImportBatch)

    *pieces, last = lines_in_pieces(ImportBatch, "default")
    (line,) = lines_of(ImportBatch, "default")

    told = {column.attname: told_value(column, batch) for column in columns}
    assert line == b"".join([*pieces, last])
    assert line == json.dumps(told, default=written, ensure_ascii=False, sort_keys=True).encode() + b"\n"
    assert not any(piece.endswith(b"\n") for piece in pieces)
    assert max(map(len, pieces)) < 300_000
    assert record_of(ImportBatch, {column.attname: column for column in columns}, line).content == content


def test_long_lines_are_stored_a_few_at_a_time() -> None:
    lines = iter([b"a" * 600_000, b"b" * 600_000, b"c"])

    assert [len(list(portion(lines))) for _time in range(3)] == [2, 1, 0]


def test_lines_are_stored_under_their_keys_and_counted(db: None) -> None:
    composer = make_composer("Ilka Marovand")
    works = [make_work(title, composer=composer) for title in ("Ebb", "Slack Rope", "Tides")]
    lines, steps = list(lines_of(Work, "default")), []
    Work.objects.all().delete()

    assert store_lines(Work, "default", lines, lambda: steps.append(1)) == 3

    assert list(Work.objects.order_by("pk").values_list("pk", "title")) == [(work.pk, work.title) for work in works]
    assert len(steps) == 3


def test_what_has_no_form_in_a_line_is_never_written_as_something_else() -> None:
    with pytest.raises(TypeError, match="complex has no form in a backup"):
        written(1j)


@pytest.mark.parametrize("value", [None, b"", b"\x00\xff rope"])
def test_bytes_go_out_as_letters_and_come_back(value: bytes | None) -> None:
    column = models.BinaryField(null=True)
    column.attname = "content"

    told = told_value(column, SimpleNamespace(content=value))

    assert value_of(column, json.loads(json.dumps(told))) == value
