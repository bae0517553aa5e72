"""Everything that the database holds, as text to look for what must not be there."""

from __future__ import annotations

from collections.abc import Iterator

from django.apps import apps
from django.contrib.sessions.models import Session


def everything_stored() -> str:
    """Return every value of every table, what is in the sessions too."""
    return "\n".join(values())


def values() -> Iterator[str]:
    for model in apps.get_models():
        yield from map(str, model._base_manager.values())
    for session in Session.objects.all():
        yield str(session.get_decoded())
