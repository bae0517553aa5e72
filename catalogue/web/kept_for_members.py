"""Pages of a catalogue as they were last set for somebody with the same role, kept in memory with the state they show.

A page that is asked for again is neither gathered nor set again as long as nothing was saved that it can show: by
members with the same role, at the same address, in the same language, by the same clock and on the same day. What is
one person's alone stands in a kept page as a mark and is put in when the page is given out: their name, the token of
their forms, and what they are told once. What was kept longest ago without being asked for goes first.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from datetime import datetime
from secrets import token_urlsafe
from threading import Lock

from django.contrib.messages import get_messages
from django.http import HttpResponse
from django.middleware.csrf import get_token
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.html import conditional_escape
from django.utils.safestring import SafeString
from django.utils.translation import get_language

from catalogue.gathering.once import let_go_with_all
from catalogue.gathering.versions import State
from catalogue.web.access import CatalogueRequest
from catalogue.web.built_once import built_once
from catalogue.web.seats import OF_COMPOSER

MOST, MOST_BYTES = 512, 24_000_000
LONGEST = 400
"""Signs of an address; a page repeats what it was asked in each of its links, and nobody asks much at length twice."""
TOKEN, NAME, NOTICES = (f"{of}-{token_urlsafe(32)}" for of in ("token", "name", "notices"))
"""The marks: what nobody can have typed, since every process makes its own."""

Key = tuple[Hashable, ...]


class Anybody:
    """Stands for whoever is signed in while a page is set: pages tell nothing of them but their name."""

    is_authenticated = True

    def get_full_name(self) -> str:
        return NAME

    get_username = get_full_name


@dataclass(frozen=True, slots=True)
class Page:
    """What is shown: a template and what it is told. From the moment ``until`` on it is another page by itself."""

    template: str
    context: dict[str, object]
    until: datetime | None = None


@dataclass(frozen=True, slots=True)
class KeptPage:
    """A page with marks in it, as bytes, and until when it is right."""

    content: bytes
    until: datetime | None


class Pages:
    """Pages by what they depend on, what was asked for longest ago first, and how many bytes that comes to."""

    def __init__(self) -> None:
        self.lock, self.pages, self.size = Lock(), OrderedDict[Key, KeptPage](), 0

    def find(self, key: Key) -> KeptPage | None:
        with self.lock:
            found = self.pages.get(key)
            if found is None or (found.until is not None and found.until <= timezone.now()):
                return None
            self.pages.move_to_end(key)
            return found

    def keep(self, key: Key, page: KeptPage) -> None:
        with self.lock:
            before = self.pages.pop(key, None)
            self.size += len(page.content) - (len(before.content) if before else 0)
            self.pages[key] = page
            while len(self.pages) > MOST or self.size > MOST_BYTES:
                self.size -= len(self.pages.popitem(last=False)[1].content)

    def cache_clear(self) -> None:
        with self.lock:
            self.pages.clear()
            self.size = 0


_pages = let_go_with_all(Pages())


def forget_pages() -> None:
    """Let every kept page go, and nothing of what they were reckoned from."""
    _pages.cache_clear()


Build = Callable[[], Page | str]
"""Gathers a page, or returns the address to which it leads instead."""


def kept_for_members(request: CatalogueRequest, state: State, build: Build, *told: Hashable) -> HttpResponse:
    """Return the page at the address that is asked, built where it is not kept.

    ``state`` was asked for before anything was read, and is another one once anything is saved that the page can show;
    ``told`` is what the page shows besides.
    """
    address = request.get_full_path()
    if len(address) > LONGEST or not state.is_settled:
        return given_out(request, set_for_anybody(request, build))
    key = (address, state, of_reader(request), told)
    found = _pages.find(key)
    if found is None:
        return given_out(request, built_once((kept_for_members, key), lambda: built(request, key, build)))
    return given_out(request, found)


def of_reader(request: CatalogueRequest) -> Key:
    """Return on what it depends what is shown to whom: the catalogue as it is called, role, language, clock and day."""
    composer = tuple(getattr(request.composer, name) for name in OF_COMPOSER)
    clock = (timezone.get_current_timezone_name(), timezone.localdate())
    return (composer, request.role, request.has_several, get_language(), *clock)


def built(request: CatalogueRequest, key: Key, build: Build) -> KeptPage | str:
    found = _pages.find(key)
    if found is not None:
        return found
    made = set_for_anybody(request, build)
    if isinstance(made, KeptPage):
        _pages.keep(key, made)
    return made


def set_for_anybody(request: CatalogueRequest, build: Build) -> KeptPage | str:
    page = build()
    if isinstance(page, str):
        return page
    marks = {"user": Anybody(), "csrf_token": TOKEN, "notices": SafeString(NOTICES)}
    return KeptPage(render(request, page.template, {**page.context, **marks}).content, page.until)


def given_out(request: CatalogueRequest, page: KeptPage | str) -> HttpResponse:
    """Put in what is theirs who asked."""
    if isinstance(page, str):
        return redirect(page)
    content = page.content
    own = {TOKEN: get_token(request), NAME: name_of(request), NOTICES: notices_for(request)}
    for mark, text in own.items():
        content = content.replace(mark.encode(), text.encode())
    return HttpResponse(content)


def name_of(request: CatalogueRequest) -> str:
    return conditional_escape(request.user.get_full_name() or request.user.get_username())


def notices_for(request: CatalogueRequest) -> str:
    """Set what they are told once, if anything is."""
    return render_to_string("parts/notices.html", request=request) if len(get_messages(request)) else ""
