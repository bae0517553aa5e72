"""What every test of a page has: a browser in which somebody is signed in."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.test import Client


@pytest.fixture
def browser(request: pytest.FixtureRequest, signed_in: Callable[[User], Client], db: None) -> Client:
    """A browser of the editor, or of whom a mark `signed_in_as` of the test or its module names."""
    mark = request.node.get_closest_marker("signed_in_as")
    return signed_in(request.getfixturevalue(mark.args[0] if mark else "editor"))
