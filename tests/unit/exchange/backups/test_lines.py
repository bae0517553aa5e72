"""Records as lines: what goes out comes back the same."""

from __future__ import annotations

import json
from decimal import Decimal
from uuid import UUID

from catalogue.exchange.backups.lines import record_of, told_columns, told_value, written
from catalogue.models import Retuning


def test_figures_behind_a_point_go_out_exactly_and_come_back() -> None:
    retuning = Retuning(pk=7, work_id=3, uid=UUID(int=5), instrument="cello", cents=Decimal("-31.174"))
    columns = {column.attname: column for column in told_columns(Retuning)}

    line = json.dumps({name: told_value(column, retuning) for name, column in columns.items()}, default=written)
    back = record_of(Retuning, columns, line.encode())

    assert (back.pk, back.instrument, back.cents) == (7, "cello", Decimal("-31.174"))
