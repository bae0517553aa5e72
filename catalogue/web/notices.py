"""What a page says after something was done, and the way back from it."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest


def say(request: HttpRequest, text: str, *, undo: str = "") -> None:
    """Show the text on the next page; ``undo`` is an address that takes it back by POST."""
    messages.success(request, text, extra_tags=undo)
