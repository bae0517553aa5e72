"""Between password and code: who has told the first and not yet the second, kept in the session for a few minutes."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.conf import settings
from django.contrib.auth import login
from django.contrib.auth.models import User
from django.http import HttpRequest
from django.utils import timezone
from django.utils.crypto import constant_time_compare

from catalogue.models import Membership
from catalogue.terms import Role

WAITING, DONE = "second_step_waits", "second_step_done"
LASTS = timedelta(minutes=5)


def let_wait(request: HttpRequest, user: User) -> None:
    """Remember who has told the right password; a session of somebody else ends."""
    request.session.flush()
    request.session[WAITING] = {
        "user": user.pk,
        "backend": getattr(user, "backend", ""),
        "hash": user.get_session_auth_hash(),
        "until": (timezone.now() + LASTS).isoformat(),
    }


def who_waits(request: HttpRequest) -> User | None:
    """Return who has told the password in this browser lately, unless it was changed since."""
    told = request.session.get(WAITING)
    if not told or datetime.fromisoformat(told["until"]) < timezone.now():
        return None
    user = User.objects.filter(pk=told["user"], is_active=True).first()
    if user is None or not constant_time_compare(told["hash"], user.get_session_auth_hash()):
        return None
    return user


def let_in(request: HttpRequest, user: User) -> None:
    """Sign somebody in who has told both."""
    backend = request.session.pop(WAITING)["backend"]
    login(request, user, backend)
    note_done(request)


def note_done(request: HttpRequest) -> None:
    request.session[DONE] = True


def lacks_second_step(request: HttpRequest) -> bool:
    """Say whether the house asks owners for the second step, and this one has come in without."""
    if not settings.OWNERS_NEED_SECOND_STEP or request.session.get(DONE):
        return False
    return request.user.is_authenticated and is_owner_somewhere(request.user)


def is_owner_somewhere(user: User) -> bool:
    return Membership.objects.filter(user=user, role=Role.OWNER).exists()
