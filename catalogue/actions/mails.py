"""How many mails may be asked for: a few to one address, some more by one person, within an hour."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import transaction
from django.utils.crypto import salted_hmac

from catalogue.models import AskedMail, MailPurpose

WITHIN, KEPT = timedelta(hours=1), timedelta(days=1)
TO_ONE_ADDRESS = 3
BY_ONE_ASKER = {MailPurpose.INVITATION: 20, MailPurpose.RECOVERY: 10}


class TooManyMails(ValueError):
    """So many were asked for within the hour that no other is sent."""

    reason = "So many mails were asked for within the last hour that no other is sent; try again later."


@transaction.atomic
def count_mail(purpose: MailPurpose, *, recipient: str, asker: str, now: datetime) -> None:
    """Note that a mail is asked for. Raises TooManyMails, and notes it all the same up to the asker's bound."""
    to, by = digest_of(recipient.strip().casefold()), digest_of(asker)
    AskedMail.objects.filter(asked_at__lt=now - KEPT).delete()
    lately = AskedMail.objects.since(now - WITHIN, purpose)
    if (
        lately.filter(asker=by).count() >= BY_ONE_ASKER[purpose]
        or lately.filter(recipient=to).count() >= TO_ONE_ADDRESS
    ):
        raise TooManyMails(TooManyMails.reason)
    AskedMail.objects.create(purpose=purpose, recipient=to, asker=by, asked_at=now)


def digest_of(text: str) -> str:
    return salted_hmac("catalogue.mails", text, algorithm="sha256").hexdigest()
