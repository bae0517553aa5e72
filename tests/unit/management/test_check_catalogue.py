from __future__ import annotations

import json
from io import StringIO

import pytest
from django.core.files.storage import default_storage
from django.core.management import call_command

from catalogue.actions.works import save_work
from catalogue.exchange.pictures import stored_name
from catalogue.exchange.sent_files import keep_sent
from catalogue.models import Picture, Work
from tests.makers import NOW, make_composer, make_user, make_work
from tests.record_makers import make_record

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("no_files")]


def checked(*options: str) -> str:
    output = StringIO()
    call_command("check_catalogue", *options, stdout=output)
    return output.getvalue()


def test_catalogue_in_order_is_clean() -> None:
    save_work(work=Work(composer=make_composer(owner=make_user()), title="Tides"), now=NOW)

    report = json.loads(checked("--json"))

    assert (report["clean"], report["findings"]) == (True, [])
    assert (report["checked"]["work"], report["checked"]["performance"]) == (1, 0)
    assert checked() == "3 records checked, nothing found.\n"


def test_findings_are_told_with_their_place() -> None:
    make_composer(owner=make_user())
    work = make_work("Tides", duration_typed="about 12")
    Work.objects.update(search_text="")

    report = json.loads(checked("--json"))

    assert report["findings"] == [
        {
            "kind": "unreadable",
            "record": "work",
            "id": work.pk,
            "title": "Tides",
            "column": "duration_typed",
            "text": "about 12",
            "reason": "Say whether 12 is minutes or seconds: write 12′, 12 min or 12 s.",
            "start": 6,
            "end": 8,
        },
        {
            "kind": "stale",
            "record": "work",
            "id": work.pk,
            "title": "Tides",
            "column": "search_text",
            "text": "",
            "reason": "This was not rebuilt when the record changed; run “reindex”.",
            "start": 0,
            "end": 0,
        },
    ]
    assert checked().splitlines()[1:3] == ["  about 12", "        ^^"]


def test_record_without_its_file_and_file_without_a_record_are_found() -> None:
    work = make_work("Tides")
    picture, lost = make_record(Picture, work=work), keep_sent(b"nobody's", "pdf", default_storage)

    found = {
        (one["kind"], one["record"], one["id"], one["title"])
        for one in json.loads(checked("--json"))["findings"]
        if "file" in (one["record"], one["column"])
    }
    default_storage.delete(stored_name(lost, "pdf"))

    assert ("damaged", "picture", picture.pk, "A woman at a window") in found
    assert ("orphan", "file", None, stored_name(lost, "pdf")) in found
