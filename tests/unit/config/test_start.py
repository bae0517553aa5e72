"""What a command that answers no request loads, and what a server has loaded before the first one."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings
from django.http import HttpResponse
from django.test import RequestFactory
from django.urls import URLPattern, URLResolver, get_resolver, reverse
from django.views.decorators.csrf import csrf_exempt

from catalogue.web.later import LaterPattern, LaterTags, LaterView, later_patterns, modules_of, path

HEAVY = (
    "reportlab", "xlsxwriter", "python_calamine", "lxml", "PIL", "docx", "pikepdf", "uharfbuzz", "fontTools", "bidi",
    "icalendar", "segno", "nh3", "markdown_it", "tinytag", "pyotp", "highspy", "storages", "boto3", "dateutil",
)  # fmt: skip
LEFT_ALONE = (
    "catalogue.web.views.", "catalogue.web.forms.works", "catalogue.documents", "catalogue.drawings", "catalogue.feeds",
    "catalogue.gathering", "catalogue.instrumentation", "catalogue.rules.calls.entrants", "catalogue.making",
)  # fmt: skip


def printed_by(code: str, data: Path) -> str:
    """Return what a process of its own prints that runs this code."""
    told = os.environ | {"LEDGERLINE_DATA": str(data), "DJANGO_SETTINGS_MODULE": "config.settings"}
    command = [sys.executable, "-c", code]
    return subprocess.run(command, cwd=settings.ROOT, env=told, capture_output=True, text=True, check=True).stdout


def loaded_by(code: str, data: Path) -> set[str]:
    """Return the modules that a process of its own has loaded when it has run this code."""
    printed = printed_by(f"import sys; {code}; print('LOADED', *sys.modules)", data)
    return set(printed.rpartition("LOADED ")[2].split())


@pytest.fixture(scope="module")
def of_check(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    code = "from django.core.management import execute_from_command_line as run; run(['manage.py', 'check'])"
    return loaded_by(code, tmp_path_factory.mktemp("data"))


@pytest.fixture(scope="module")
def of_server(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    return loaded_by("import config.wsgi", tmp_path_factory.mktemp("data"))


def test_a_check_loads_every_record_and_every_address(of_check: set[str]) -> None:
    assert {"catalogue.models", "catalogue.web.urls", "catalogue.web.errors", "catalogue.web.middleware"} <= of_check


def test_a_check_loads_no_heavy_library(of_check: set[str]) -> None:
    assert of_check & set(HEAVY) == set()


def test_a_check_loads_no_page_no_paper_and_no_reader(of_check: set[str]) -> None:
    assert [name for name in sorted(of_check) if name.startswith(LEFT_ALONE)] == []


def test_a_server_has_loaded_every_view_before_anybody_asks(of_server: set[str]) -> None:
    views = {f"catalogue.web.views.{file.stem}" for file in (settings.ROOT / "catalogue/web/views").glob("[a-z]*.py")}

    assert views - of_server - {"catalogue.web.views.library"} == set()


def test_the_collector_of_cycles_leaves_alone_what_a_server_has_loaded(tmp_path: Path) -> None:
    counting = "import gc, config.wsgi; print(gc.isenabled(), gc.get_freeze_count() > 10 * len(gc.get_objects()))"

    assert printed_by(counting, tmp_path).split() == ["True", "True"]


def test_every_address_leads_to_a_view_that_is_there() -> None:
    patterns = list(later_patterns(get_resolver().url_patterns))

    for pattern in patterns:
        pattern.load()

    assert len(patterns) > 150
    assert all(callable(pattern.callback) and not isinstance(pattern.callback, LaterView) for pattern in patterns)


def test_every_address_of_ours_is_loaded_later() -> None:
    assert [one for one in every_pattern(get_resolver().url_patterns) if not isinstance(one, LaterPattern)] == []


def every_pattern(patterns: list[URLPattern | URLResolver]) -> Iterator[URLPattern]:
    for pattern in patterns:
        if isinstance(pattern, URLResolver):
            yield from every_pattern(pattern.url_patterns)
        else:
            yield pattern


# ---- one address


@csrf_exempt
def let_in(_request: object, number: int) -> HttpResponse:
    return HttpResponse(str(number))


HERE = LaterView(__name__, "let_in")


@pytest.fixture
def address(monkeypatch: pytest.MonkeyPatch) -> URLPattern:
    monkeypatch.setitem(sys.modules, __name__, sys.modules.get(__name__, sys))
    monkeypatch.setattr(sys.modules[__name__], "let_in", let_in, raising=False)
    return path("there/<int:number>/", HERE, name="there")


def test_an_address_that_another_is_asked_for_loads_nothing(address: URLPattern) -> None:
    assert address.resolve("elsewhere/") is None
    assert address.callback is HERE


def test_an_address_that_is_asked_for_leads_to_the_view_itself_with_what_its_decorators_noted(
    address: URLPattern,
) -> None:
    match = address.resolve("there/7/")

    assert match is not None
    assert (match.func, match.kwargs, match.url_name) == (let_in, {"number": 7}, "there")
    assert match.func.csrf_exempt


def test_a_view_that_is_called_before_it_was_loaded_answers_too(address: URLPattern) -> None:
    assert address.callback(RequestFactory().get("/"), number=3).content == b"3"


def test_a_view_is_named_in_full_before_and_after_it_is_loaded(address: URLPattern) -> None:
    before = address.lookup_str
    address.resolve("there/1/")

    assert before == address.lookup_str == f"{__name__}.let_in"


def test_the_checks_of_the_framework_look_at_these_addresses(address: URLPattern) -> None:
    misplaced = path("/there/", HERE, name="a:b")

    assert address.check() == []
    assert {found.id for found in misplaced.check()} == {"urls.W002", "urls.W003"}


def test_a_name_that_no_view_has_is_told_when_it_is_loaded() -> None:
    wrong = LaterView("catalogue.web.views.today", "yesterday")

    with pytest.raises(AttributeError, match="yesterday"):
        wrong.load()


def test_views_stand_under_the_names_of_their_modules() -> None:
    views = modules_of("catalogue.web.views")

    assert views["today"].today == LaterView("catalogue.web.views.today", "today")


def test_template_tags_are_those_of_their_module() -> None:
    tags = LaterTags("catalogue.web.template_tags")

    assert "strip" in tags.tags
    assert "typeset" in tags.filters
    assert reverse("today", args=["somebody"]) == "/c/somebody/"
