from __future__ import annotations

import json
from io import StringIO

import pytest
from django.core.management import call_command

from catalogue.models import Work
from tests.makers import make_work

pytestmark = pytest.mark.django_db


def test_reindex_says_what_it_put_right() -> None:
    make_work("Tides")
    make_work("Étude")
    Work.objects.filter(title="Étude").update(search_text="")
    first, second = StringIO(), StringIO()

    call_command("reindex", "--json", stdout=first)
    call_command("reindex", stdout=second)

    assert json.loads(first.getvalue()) == {"records": 2, "mended": 1}
    assert second.getvalue() == "2 records looked at, 0 put right.\n"
    assert Work.objects.matching("etude").exists()
