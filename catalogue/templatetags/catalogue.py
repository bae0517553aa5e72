"""What templates ask of the cores: pictures and wordings. Each tag calls one function and adds nothing."""

from __future__ import annotations

from django import template
from django.utils.safestring import SafeString, mark_safe

from catalogue.drawings.player_strip import player_strip, to_svg
from catalogue.instrumentation import Instrumentation

register = template.Library()


@register.simple_tag
def strip(instrumentation: Instrumentation | None, scale: float, title: str = "") -> SafeString:
    """Draw the players; ``title`` is read to those who cannot see them. The drawing escapes what it prints."""
    if instrumentation is None:
        return SafeString()
    return mark_safe(to_svg(player_strip(instrumentation, title), scale=scale))  # noqa: S308 - made of numbers, its title escaped
