"""How tests look at a page: parsed, by its parts."""

from __future__ import annotations

from typing import Any

from django.core.signals import request_finished
from django.db import close_old_connections
from django.test import Client
from lxml import html


def with_class(name: str) -> str:
    """Return the XPath of the elements of a class."""
    return f"//*[contains(concat(' ', normalize-space(@class), ' '), ' {name} ')]"


class Page:
    """An answer with HTML in it; parts of it are found by XPath."""

    def __init__(self, response: Any) -> None:
        self.status: int = response.status_code
        self.tree = html.fromstring(response.content.decode())

    def texts(self, path: str) -> list[str]:
        """Return what each found element says, its blanks as single spaces."""
        return [" ".join(found.text_content().split()) for found in self.tree.xpath(path)]

    def text(self, path: str = "//main") -> str:
        return " ".join(self.texts(path))

    @property
    def title(self) -> str:
        return self.text("//title")

    @property
    def wrong(self) -> list[str]:
        """The mistakes that the page points out."""
        return self.texts(with_class("wrong"))

    def values(self, path: str) -> list[str]:
        """Return the attributes that a path ends in."""
        return [str(found) for found in self.tree.xpath(path)]

    def field(self, name: str) -> str:
        """Return what stands in a field of a form."""
        (found,) = self.tree.xpath(f"//*[@name='{name}']")
        return str(found.value or "").lstrip("\n")


def opened(browser: Client, at: str) -> dict[str, Any]:
    """Return what a form holds when it is opened."""
    (form,) = Page(browser.get(at)).tree.xpath("//form[@data-keep]")
    typed: dict[str, Any] = {}
    for name, value in form.form_values():
        typed.setdefault(name, []).append((value or "").lstrip("\n"))
    typed.pop("another", None)
    return typed


def closed_quietly(response: Any) -> None:
    """Close what an answer holds open, without shutting the database as Django does then; the test goes on using it."""
    request_finished.disconnect(close_old_connections)
    response.close()
    request_finished.connect(close_old_connections)
