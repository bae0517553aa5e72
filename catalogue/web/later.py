"""Addresses and template tags whose modules are loaded when they are first asked for.

A command that answers no request (``check``, ``upgrade``, ``premieres``) so loads no page, no form and nothing that
reads or writes a file of others. Whoever serves takes ``application``, which has loaded everything before the first
request is let in; ``config/wsgi.py`` does.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib import import_module
from pkgutil import iter_modules
from typing import Any, Protocol, cast, overload

from django.core.handlers.wsgi import WSGIHandler
from django.core.wsgi import get_wsgi_application
from django.http.response import HttpResponseBase
from django.template import Library
from django.urls import ResolverMatch, URLPattern, URLResolver, get_resolver
from django.urls import path as any_path
from django.urls.resolvers import RoutePattern
from django.utils.functional import cached_property

View = Callable[..., HttpResponseBase]
Included = tuple[Any, str | None, str | None]


@dataclass(frozen=True, slots=True)
class LaterView:
    """A view by the module it stands in and its name there."""

    module: str
    name: str

    def load(self) -> View:
        """Return the view itself. Raises AttributeError where its module has none of this name."""
        return cast(View, getattr(import_module(self.module), self.name))

    def __call__(self, *told: Any, **named: Any) -> HttpResponseBase:
        return self.load()(*told, **named)


@dataclass(frozen=True, slots=True)
class LaterViews:
    """What stands for a module of views until one of them is asked for."""

    module: str

    def __getattr__(self, name: str) -> LaterView:
        return LaterView(self.module, name)


def modules_of(package: str) -> dict[str, LaterViews]:
    """Return what stands for every module of a package, by its name; none of them is loaded."""
    folders = import_module(package).__path__
    return {found.name: LaterViews(f"{package}.{found.name}") for found in iter_modules(folders)}


class LaterPattern(URLPattern):
    """An address that loads its view when it is first asked for.

    From then on ``callback`` is the view itself, so that whatever a decorator has noted on it (that a form of others is
    let in, say) is found where Django looks for it.
    """

    callback: View

    @property
    def lookup_str(self) -> str:
        """The view's full name, which asks for no view to be loaded."""
        view = self.callback
        return f"{view.module}.{view.name}" if isinstance(view, LaterView) else f"{view.__module__}.{view.__qualname__}"

    def load(self) -> None:
        if isinstance(self.callback, LaterView):
            self.callback = self.callback.load()

    def resolve(self, path: str) -> ResolverMatch | None:
        if isinstance(self.callback, LaterView) and self.pattern.match(path):
            self.load()
        return super().resolve(path)


@overload
def path(route: str, view: View, *, name: str) -> URLPattern: ...
@overload
def path(route: str, view: Included) -> URLResolver: ...
def path(route: str, view: View | Included, *, name: str | None = None) -> URLPattern | URLResolver:
    """Return an address, as Django's ``path`` does, whose view may be one that is loaded later."""
    if isinstance(view, LaterView):
        return LaterPattern(RoutePattern(route, name=name, is_endpoint=True), view, None, name)
    return any_path(route, cast(Any, view), name=name)


# ---- template tags


class HasTags(Protocol):
    register: Library


class LaterTags:
    """As much of a library of template tags as an engine asks of one, out of a module with a ``register``."""

    def __init__(self, module: str) -> None:
        self.module = module

    @cached_property
    def library(self) -> Library:
        return cast(HasTags, import_module(self.module)).register

    @property
    def tags(self) -> dict[str, Callable[..., Any]]:
        return self.library.tags

    @property
    def filters(self) -> dict[str, Callable[..., Any]]:
        return self.library.filters


# ---- serving


def application() -> WSGIHandler:
    """Return what a server serves, with every page loaded: the first who asks waits no longer than the next.

    What is loaded stays; the collector of cycles leaves it alone, so that no request waits while it walks through.
    """
    answering = get_wsgi_application()
    for pattern in later_patterns(get_resolver().url_patterns):
        pattern.load()
    gc.freeze()
    return answering


def later_patterns(patterns: list[URLPattern | URLResolver]) -> Iterator[LaterPattern]:
    """Yield every address whose view may still have to be loaded."""
    for pattern in patterns:
        if isinstance(pattern, URLResolver):
            yield from later_patterns(pattern.url_patterns)
        elif isinstance(pattern, LaterPattern):
            yield pattern
