"""The sentences of the pages, found by reading templates and sources."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
SHORT = re.compile(r"{%\s*translate\s+(\"(?:[^\"\\]|\\.)*\"|'(?:[^'\\]|\\.)*')")
BLOCK = re.compile(r"{%\s*blocktranslate\b(?P<options>[^%]*)%}(?P<body>.*?){%\s*endblocktranslate\s*%}", re.DOTALL)
PLURAL = re.compile(r"{%\s*plural\s*%}")
PLACE = re.compile(r"{{\s*(\w+)\s*}}")
CALLS = {"_", "_now", "gettext", "gettext_lazy", "ngettext", "ngettext_lazy"}

Message = tuple[str, ...]  # one sentence, or one of one and one of many


def messages() -> set[Message]:
    """Return every sentence that a page may say."""
    found: set[Message] = set()
    for template in sorted((ROOT / "templates").rglob("*.*")):
        found |= set(in_template(template.read_text(encoding="utf-8")))
    for module in sorted((ROOT / "catalogue" / "web").rglob("*.py")):
        found |= set(in_module(module.read_text(encoding="utf-8")))
    return found


def in_template(text: str) -> Iterator[Message]:
    for match in SHORT.finditer(text):
        yield (match[1][1:-1],)
    for match in BLOCK.finditer(text):
        parts = PLURAL.split(match["body"])
        if "trimmed" in match["options"].split():
            parts = [" ".join(line.strip() for line in part.splitlines() if line.strip()) for part in parts]
        yield tuple(PLACE.sub(r"%(\1)s", part.replace("%", "%%")) for part in parts)


def in_module(text: str) -> Iterator[Message]:
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CALLS:
            told = [one.value for one in node.args if isinstance(one, ast.Constant) and isinstance(one.value, str)]
            if told:
                yield tuple(told[:2] if "ngettext" in node.func.id else told[:1])
