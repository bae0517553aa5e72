"""/c/<composer>/exposure/"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer
from tests.web.pages import Page

pytestmark = pytest.mark.django_db
ADDRESS = "/c/ilka-marovand/exposure/"


@pytest.fixture
def browser(signed_in: Callable[[User], Client], viewer: User, composer: Composer) -> Client:
    return signed_in(viewer)


def test_a_day_is_counted_by_each_criterion_in_a_constant_number_of_queries(browser: Client) -> None:
    with CaptureQueriesContext(connection) as few:
        browser.get(ADDRESS, {"sessions": "tutti; 91; 1h"})
    with CaptureQueriesContext(connection) as many:
        page = Page(browser.get(ADDRESS, {"sessions": "tutti; 91; 1h\nbrass; 97; 15 min\nstrings; 84; 30 min"}))

    assert len(many) == len(few)
    assert page.texts("//tbody/tr/td[2]")[:2] == ["105.0 %", "22.7 %"]


def test_a_mistake_is_shown_and_what_was_typed_stays(browser: Client) -> None:
    page = browser.get(ADDRESS, {"sessions": "tutti; loud; 1h"}).content.decode()

    assert "“loud” is no level; write decibels weighted A, such as 91 dB(A)." in page
    assert "tutti; loud; 1h" in page
    assert "By each criterion" not in page
