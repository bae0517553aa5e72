"""Where templates find the tags of ``catalogue/web/template_tags.py``, which are loaded with the first that asks."""

from __future__ import annotations

from catalogue.web.later import LaterTags

register = LaterTags("catalogue.web.template_tags")
