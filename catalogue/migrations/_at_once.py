"""Makes many tables in one step, for which the models are put together once instead of once a table."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import migrations
from django.db.migrations.operations.base import Operation


class CreateModels(Operation):
    """Creates models that name none of the others but those before them."""

    serialization_expand_args = ["operations"]

    def __init__(self, operations: Sequence[migrations.CreateModel]) -> None:
        self.operations = operations

    def deconstruct(self) -> Any:
        return type(self).__qualname__, [], {"operations": self.operations}

    def state_forwards(self, app_label: str, state: Any) -> None:
        state.__dict__.pop("apps", None)
        for one in self.operations:
            one.state_forwards(app_label, state)

    def database_forwards(self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any) -> None:
        for one in self.operations:
            one.database_forwards(app_label, schema_editor, from_state, to_state)

    def database_backwards(self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any) -> None:
        for one in reversed(self.operations):
            one.database_backwards(app_label, schema_editor, from_state, to_state)

    def describe(self) -> str:
        return f"Create {len(self.operations)} models"
