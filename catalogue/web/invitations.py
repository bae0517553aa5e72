"""The way in of somebody new: sent by mail where that can be done, else shown to whoever lets them in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.conf import settings
from django.contrib.auth.models import User
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from catalogue.actions.mails import TooManyMails, count_mail
from catalogue.models import Composer, MailPurpose
from catalogue.rules.phrases import listed
from catalogue.web.mails import send_mail, sends_mail


@dataclass(frozen=True, slots=True)
class WayIn:
    """An address that opens once. ``is_sent`` where it went by mail; ``not_sent`` says why it could not."""

    member: User
    address: str
    is_sent: bool = False
    not_sent: str = ""


def give_way_in(token: str, *, member: User, inviter: User, composers: Sequence[Composer]) -> WayIn:
    """Send the way in where there is an address and mails are sent, else leave it to be handed over."""
    address = settings.SITE_URL + reverse("join", args=[token])
    if not (sends_mail() and member.email):
        return WayIn(member, address)
    try:
        count_mail(MailPurpose.INVITATION, recipient=member.email, asker=f"user {inviter.pk}", now=timezone.now())
    except TooManyMails:
        reason = _(
            "So many invitations were sent within the last hour that this one was not sent; hand the address over."
        )
        return WayIn(member, address, not_sent=reason)
    names = listed([one.name for one in composers])
    told = {"inviter": inviter, "names": names, "several": len(composers) > 1, "member": member, "address": address}
    if send_mail(member.email, "mails/invitation.txt", told):
        return WayIn(member, address, is_sent=True)
    return WayIn(member, address, not_sent=_("The mail could not be sent; hand the address over."))
